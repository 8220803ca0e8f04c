package expression

import (
	"reflect"
	"regexp"
	"sync"
	"testing"
)

// An expression answers as the one of package regexp does, also where several ask at once for the first time.
func TestAsRegexp(t *testing.T) {
	const text = `(?P<n>\d+) (L|mL)`
	mine, theirs := Of(text), regexp.MustCompile(text)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			if !mine.MatchString("take 30 mL") || mine.MatchString("take it") {
				t.Error("it matches otherwise")
			}
		})
	}
	all.Wait()
	const s = "take 30 mL of 2 L, and 3 L more"
	b := []byte(s)
	for name, pair := range map[string][2]any{
		"FindString":                 {mine.FindString(s), theirs.FindString(s)},
		"FindStringIndex":            {mine.FindStringIndex(s), theirs.FindStringIndex(s)},
		"FindStringSubmatch":         {mine.FindStringSubmatch(s), theirs.FindStringSubmatch(s)},
		"FindStringSubmatchIndex":    {mine.FindStringSubmatchIndex(s), theirs.FindStringSubmatchIndex(s)},
		"FindAllString":              {mine.FindAllString(s, 2), theirs.FindAllString(s, 2)},
		"FindAllStringIndex":         {mine.FindAllStringIndex(s, -1), theirs.FindAllStringIndex(s, -1)},
		"FindAllStringSubmatch":      {mine.FindAllStringSubmatch(s, -1), theirs.FindAllStringSubmatch(s, -1)},
		"FindAllStringSubmatchIndex": {mine.FindAllStringSubmatchIndex(s, -1), theirs.FindAllStringSubmatchIndex(s, -1)},
		"FindSubmatch":               {mine.FindSubmatch(b), theirs.FindSubmatch(b)},
		"FindSubmatchIndex":          {mine.FindSubmatchIndex(b), theirs.FindSubmatchIndex(b)},
		"FindAllSubmatchIndex":       {mine.FindAllSubmatchIndex(b, -1), theirs.FindAllSubmatchIndex(b, -1)},
		"ReplaceAllString":           {mine.ReplaceAllString(s, "$2"), theirs.ReplaceAllString(s, "$2")},
		"String":                     {mine.String(), theirs.String()},
	} {
		if !reflect.DeepEqual(pair[0], pair[1]) {
			t.Errorf("%s: %v, not %v", name, pair[0], pair[1])
		}
	}
}
