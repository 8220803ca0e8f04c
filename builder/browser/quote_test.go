package browser

import (
	"encoding/json"
	"fmt"
)

// quote writes a text as JavaScript reads it.
func quote(s string) string {
	b, err := json.Marshal(s)
	if err != nil {
		panic(fmt.Sprintf("a string has no JSON: %v", err))
	}
	return string(b)
}
