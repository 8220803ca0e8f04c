package rules

import (
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// One mistake gives one finding: whichever line of a header or of the shop file is taken out, made nonsense, loses its unit or gets the wrong one,
// at most one thing is said, and it is said of that file.
func TestOneMistakeInAHeaderIsSaidOnce(t *testing.T) {
	base := folder(t, small)
	for _, name := range slices.Sorted(maps.Keys(base)) {
		text := string(base[name].Data)
		head, body, isArticle := strings.Cut(text, "\n---\n")
		switch {
		case isArticle:
			body = "\n---\n" + body
		case name != "shop.yaml":
			continue
		}
		lines := strings.Split(head, "\n")
		for i, line := range lines {
			key, value, isKey := strings.Cut(line, ":")
			if !isKey || strings.HasPrefix(line, "#") || value == "" {
				continue // a line that only opens a list: without it the lines below it are keys of something else
			}
			for what, new := range wrong(key, line) {
				t.Run(name+" "+key+" "+what, func(t *testing.T) {
					files := maps.Clone(base)
					files[name] = &fstest.MapFile{Data: []byte(strings.Join(slices.Concat(lines[:i], new, lines[i+1:]), "\n") + body)}
					list := proofread(t, files)
					if len(list) > 1 {
						t.Errorf("%s\nbecomes %q: %d findings%s", line, new, len(list), show(list))
					}
					if len(list) == 1 && list[0].File != name && what != "gone" && !strings.Contains(key, "- id") {
						t.Errorf("%s\nbecomes %q: it is said of another file%s", line, new, show(list))
					}
				})
			}
		}
	}
}

// wrong gives wrong lines for a right one, by what is wrong with them.
func wrong(key, line string) map[string][]string {
	all := map[string][]string{"nonsense": {key + ": zzzz"}}
	if !strings.Contains(key, "- id") && !strings.Contains(line, "{id") {
		all["gone"] = nil
	}
	if strings.Contains(line, "°C") {
		all["in °F"] = []string{strings.ReplaceAll(line, "°C", "°F")}
		all["without unit"] = []string{strings.ReplaceAll(line, " °C", "")}
	}
	return all
}
