package safety

import (
	"fmt"
	"strings"
	"testing"
)

// The list says of the margin what the constant is, and every number in it has a source.
func TestNumbersAreThose(t *testing.T) {
	if want := fmt.Sprintf("%.1f K", FlashMargin); !strings.Contains(Numbers[0].Says, want) {
		t.Errorf("the list says %q, the margin is %s", Numbers[0].Says, want)
	}
	for _, n := range Numbers {
		if len(strings.Fields(n.Source)) < 2 || !strings.HasSuffix(n.Says, ".") {
			t.Errorf("%q rests on %q", n.Says, n.Source)
		}
	}
}
