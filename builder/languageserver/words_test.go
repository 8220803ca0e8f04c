package languageserver

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
)

// asked is a text with the place of the cursor marked by ‸, put into the demo manual and open.
func asked(t *testing.T, c *client, path, text string) positionParams {
	t.Helper()
	at := place(t, text, "‸")
	text = strings.Replace(text, "‸", "", 1)
	c.openText(path, text)
	return positionParams{documentID{URI: c.uri(path)}, at}
}

// after puts a piece of text behind the first place where another stands in a file, in the place of what stands between it and the line's end.
func after(t *testing.T, c *client, path, word, with string) string {
	t.Helper()
	before, rest, found := strings.Cut(c.read(path), word)
	if !found {
		t.Fatalf("%s has no %q", path, word)
	}
	_, rest, _ = strings.Cut(rest, "\n")
	return before + word + with + "\n" + rest
}

// labels are what is proposed, and what the text would be with each.
func (c *client) labels(p positionParams) (labels []string, list completionList) {
	c.t.Helper()
	if err := json.Unmarshal(c.ask("textDocument/completion", p), &list); err != nil {
		c.t.Fatal(err)
	}
	for _, i := range list.Items {
		labels = append(labels, i.Label)
	}
	return labels, list
}

// What may stand at a place is proposed: keys, words, names of articles and ids, units, headings and paths.
func TestCompletion(t *testing.T) {
	c, _ := connect(t, demo(t), nil, onDisk())
	for _, tc := range []struct {
		name, path, word, with string
		want, not              []string
		text                   string // what the first wanted one makes of the line
	}{
		{"keys of the kind", "chemistries/mild-alkaline.md", "ph: 9–11", "\nclou‸", []string{}, []string{"nature"}, ""},
		{"keys that are missing", "soils/wax.md", "nature: wax", "\nmay‸", []string{"may-contain"}, []string{"title", "ph"}, "may-contain: "},
		{"keys of an item", "soils/wax.md", "removed-by:", "\n  - {chemistry: mild-alkaline, te‸}\n", []string{"temperature"}, []string{"title"}, "  - {chemistry: mild-alkaline, temperature: }"},
		{"keys below", "parts/gland-nut-brass.md", "next: storage", "\nsteps:\n  - tank: wash-1\n    ti‸\n", []string{"time"}, []string{"title"}, "    time: "},
		{"word", "soils/wax.md", "nature: ", "w‸", []string{"wax"}, []string{"oil"}, "nature: wax"},
		{"words of a list", "chemistries/mild-alkaline.md", "contains: [", "phos‸, x]", []string{"phosphate"}, []string{"silicate"}, "contains: [phosphate, x]"},
		{"station", "soils/wax.md", "station: ", "‸", []string{"receive", "wash", "maintain"}, nil, "station: receive"},
		{"chemistry", "soils/wax.md", "removed-by:", "\n  - {chemistry: mild‸}", []string{"mild-alkaline"}, []string{"wax", "brass"}, "  - {chemistry: mild-alkaline}"},
		{"chemistry alone", "soils/wax.md", "removed-by:", "\n  - terp‸", []string{"terpene-semi-aqueous"}, []string{"wax"}, "  - terpene-semi-aqueous"},
		{"material", "parts/gland-nut-brass.md", "material: ", "[bras‸]", []string{"brass"}, []string{"wax"}, "material: [brass]"},
		{"soil", "parts/gland-nut-brass.md", "soil: ", "[wax, straight‸]", []string{"straight-cutting-oil"}, nil, "soil: [wax, straight-cutting-oil]"},
		{"tank", "parts/gland-nut-brass.md", "\ntank: ", "wa‸", []string{"wash-1"}, []string{"rinse-1"}, "tank: wash-1"},
		{"hazard", "chemistries/mild-alkaline.md", "hazards: [", "H31‸]", []string{"H314", "H315"}, []string{"H290"}, "hazards: [H314]"},
		{"unit", "chemistries/mild-alkaline.md", "\ntemperature: ", "50–70‸", []string{"50–70 °C", "50–70 °F"}, []string{"50–70 kHz"}, "temperature: 50–70 °C"},
		{"half a unit", "chemistries/mild-alkaline.md", "\nfrequency: ", "25–170 k‸", []string{"25–170 kHz"}, []string{"25–170 °C"}, "frequency: 25–170 kHz"},
		{"role", "soils/wax.md", "approved: ", "2026-11-29, ‸", []string{"2026-11-29, process engineer"}, nil, "approved: 2026-11-29, process engineer"},
		{"heading", "soils/wax.md", "\n---\n", "\nSee [it](#then‸) now.\n", []string{"#then-wash"}, []string{"#find-the-melting-point"}, "See [it](#then-wash) now."},
		{"heading elsewhere", "soils/wax.md", "\n---\n", "\n𝛑 See [it](../procedures/heat-the-bath.md#‸)\n", nil, []string{"#then-wash"}, ""},
		{"path", "soils/wax.md", "\n---\n", "\n[it](../materials/br‸)", []string{"../materials/brass.md"}, nil, "[it](../materials/brass.md)"},
		{"chemistry of a tank", "shop.yaml", "    chemistry: ", "neu‸", []string{"neutral-detergent"}, []string{"wax"}, "    chemistry: neutral-detergent"},
		{"tank of a calculator", "soils/wax.md", "\n---\n", "\n```calculator heat-up\ntank: w‸\n```", []string{"wash-1"}, nil, "tank: wash-1"},
		{"name of a calculator", "soils/wax.md", "\n---\n", "\n```calculator heat‸", []string{"heat-up"}, []string{"temperature", "wax"}, "```calculator heat-up"},
		{"inputs of a calculator", "soils/wax.md", "\n---\n", "\n```calculator heat-up\ntank: wash-1\n‸\n```", []string{"heater", "volume"}, []string{"tank", "temperature"}, "heater: "},
		{"begun input", "soils/wax.md", "\n---\n", "\n~~~calculator heat-up\ntank: wash-1\nhea‸\n~~~", []string{"heater"}, []string{"volume"}, "heater: "},
		{"unit of an input", "soils/wax.md", "\n---\n", "\n```calculator heat-up\nheater: 6 ‸\n```", []string{"6 kW", "6 W"}, []string{"6 °C"}, "heater: 6 kW"},
		{"choice of an input", "soils/wax.md", "\n---\n", "\n```calculator heat-up\nlid: ‸\n```", []string{"yes"}, []string{"wash-1"}, "lid: yes"},
		{"behind a calculator", "soils/wax.md", "\n---\n", "\n```calculator heat-up\ntank: wash-1\n```\n\nhea‸", nil, []string{"heater"}, ""},
		{"another listing", "soils/wax.md", "\n---\n", "\n```yaml\nhea‸\n```", nil, []string{"heater"}, ""},
		{"nothing in prose", "soils/wax.md", "\n---\n", "\nPlain words te‸", nil, []string{"temperature"}, ""},
	} {
		text := after(t, c, tc.path, tc.word, tc.with)
		p := asked(t, c, tc.path, text)
		got, list := c.labels(p)
		for _, w := range tc.want {
			if !slices.Contains(got, w) {
				t.Errorf("%s: no %q among %q", tc.name, w, got)
			}
		}
		for _, n := range tc.not {
			if slices.Contains(got, n) {
				t.Errorf("%s: %q among %q", tc.name, n, got)
			}
		}
		if tc.text == "" {
			continue
		}
		if i := slices.Index(got, tc.want[0]); i >= 0 {
			e := list.Items[i].TextEdit
			made := replaced(utf16, strings.Replace(text, "‸", "", 1), e.Range, e.NewText)
			if line := lines(made)[p.Position.Line]; line != tc.text {
				t.Errorf("%s: %q, want %q", tc.name, line, tc.text)
			}
		}
	}
	c.close()
}

// A word leads to what it names.
func TestDefinitionAndReferences(t *testing.T) {
	c, _ := connect(t, demo(t), nil, onDisk())
	for _, tc := range []struct{ name, path, word, with, uri, line string }{
		{"name in a header", "soils/wax.md", "removed-by:", "\n  - {chemistry: mild-al‸kaline}", "chemistries/mild-alkaline.md", "title: "},
		{"tank", "parts/gland-nut-brass.md", "\ntank: ", "wash‸-2", "shop.yaml", "  - id: wash-2"},
		{"link", "soils/wax.md", "\n---\n", "\n𝛑 See [i‸t](../materials/brass.md).", "materials/brass.md", "title: "},
		{"link to a heading", "soils/wax.md", "\n---\n", "\nSee [it](#then-w‸ash).", "soils/wax.md", "## Then wash"},
		{"chemistry of a tank", "shop.yaml", "    chemistry: ", "neutral-‸detergent", "chemistries/neutral-detergent.md", "title: "},
		{"tank of a calculator", "soils/wax.md", "\n---\n", "\n```calculator heat-up\ntank: wash-‸1\n```", "shop.yaml", "  - id: wash-1"},
	} {
		p := asked(t, c, tc.path, after(t, c, tc.path, tc.word, tc.with))
		var to location
		if err := json.Unmarshal(c.ask("textDocument/definition", p), &to); err != nil {
			t.Fatal(err)
		}
		if to.URI != c.uri(tc.uri) {
			t.Errorf("%s: %+v", tc.name, to)
			continue
		}
		text := c.read(tc.uri)
		if tc.uri == tc.path {
			text = after(t, c, tc.path, tc.word, tc.with)
		}
		if line := lines(text)[to.Range.Start.Line]; !strings.HasPrefix(line, tc.line) {
			t.Errorf("%s: %q, want %q", tc.name, line, tc.line)
		}
		c.say("textDocument/didClose", documentParams{p.TextDocument})
	}
	for _, tc := range []struct {
		name, path, word string
		some             []string // files that name it
	}{
		{"tank by its id", "shop.yaml", "id: wa‸sh-1", []string{"parts/valve-body-stainless.md", "procedures/heat-the-bath.md"}},
		{"chemistry by its title", "chemistries/mild-alkaline.md", "title: M‸ild", []string{"shop.yaml", "soils/wax.md", "soils/wax.es.md"}},
		{"heading", "soils/wax.md", "## Then w‸ash", nil},
	} {
		text := strings.Replace(c.read(tc.path), strings.Replace(tc.word, "‸", "", 1), tc.word, 1)
		p := asked(t, c, tc.path, text)
		var list []location
		if err := json.Unmarshal(c.ask("textDocument/references", map[string]any{"textDocument": p.TextDocument, "position": p.Position, "context": map[string]any{"includeDeclaration": true}}), &list); err != nil {
			t.Fatal(err)
		}
		if len(list) == 0 || list[0].URI != c.uri(tc.path) || list[0].Range.Start.Line != p.Position.Line {
			t.Errorf("%s: the declaration does not come first in %+v", tc.name, list)
		}
		for _, f := range tc.some {
			if !slices.ContainsFunc(list, func(l location) bool { return l.URI == c.uri(f) }) {
				t.Errorf("%s: %s is not among %d", tc.name, f, len(list))
			}
		}
		if tc.some == nil && len(list) != 1 {
			t.Errorf("%s: %+v", tc.name, list)
		}
		c.say("textDocument/didClose", documentParams{p.TextDocument})
	}
	c.close()
}

// A key tells what it means, and a value what follows from it: with the text as it stands, not as it was saved.
func TestHover(t *testing.T) {
	c, _ := connect(t, demo(t), nil, onDisk())
	for _, tc := range []struct {
		name, path, word, with string
		want                   []string
	}{
		{"key", "chemistries/mild-alkaline.md", "\nceil", "‸ing: 75 °C", []string{"temperature that it must never pass", "ceiling: 70 °C"}},
		{"value that decides", "chemistries/mild-alkaline.md", "\nceiling: 7", "‸5 °C", []string{"temperature that it must never pass", "soils and chemistries", "Parts, as decided now", "Valve body"}},
		{"name", "soils/wax.md", "removed-by:", "\n  - {chemistry: mild-al‸kaline}", []string{"Mild alkaline cleaner", "shop.yaml", "materials and tanks"}},
		{"link", "soils/wax.md", "\n---\n", "\nSee [i‸t](../materials/brass.md).", []string{"Brass", "Gland nut"}},
		{"tank", "shop.yaml", "id: wash-1", "‸", []string{"Wash 1", "parts/valve-body-stainless.md", "materials and tanks"}},
		{"key of a tank", "shop.yaml", "    heater: 6", "‸ kW", []string{"power of the heater", "Wash 1"}},
		{"hazard", "chemistries/mild-alkaline.md", "hazards: [H3", "‸18]", []string{"H318: "}},
	} {
		p := asked(t, c, tc.path, after(t, c, tc.path, tc.word, tc.with))
		var h hoverResult
		if err := json.Unmarshal(c.ask("textDocument/hover", p), &h); err != nil {
			t.Fatal(err)
		}
		for _, w := range tc.want {
			if !strings.Contains(h.Contents.Value, w) {
				t.Errorf("%s: no %q in\n%s", tc.name, w, h.Contents.Value)
			}
		}
		c.say("textDocument/didClose", documentParams{p.TextDocument})
	}
	const path = "materials/brass.md"
	p := asked(t, c, path, after(t, c, path, "\nph: ", "5‸–6"))
	if h := string(c.ask("textDocument/hover", p)); !strings.Contains(h, ": no (") {
		t.Errorf("brass that stands no alkali is washed in it:\n%s", h)
	}
	c.close()
}

// Words that a shop declares are proposed where headers may have them, and in the file itself its keys and what a word may count as.
func TestCompletionOfOwnWords(t *testing.T) {
	c, _ := connect(t, demo(t), nil, onDisk())
	const declared = "constituents:\n  - {word: ethanolamine, as: amine, means: cracks brass}\nhazards:\n  - word: EUH066\n    as: ‸\n"
	got, _ := c.labels(asked(t, c, "vocabulary.yaml", declared))
	if !slices.Contains(got, "not checked") || !slices.Contains(got, "H318") || slices.Contains(got, "amine") {
		t.Errorf("a hazard counts as %q", got)
	}
	for _, tc := range []struct{ path, word, with, want, not string }{
		{"vocabulary.yaml", "", "con‸\n", "constituents", "substances"},
		{"vocabulary.yaml", "", "constituents:\n  - {word: ethanolamine, ‸}\n", "means", "contents"},
		{"vocabulary.yaml", "", "constituents:\n  - {word: ethanolamine, as: ami‸}\n", "amine", "H318"},
		{"chemistries/mild-alkaline.md", "contains: [", "ethan‸]", "", ""}, // nothing is declared any more
	} {
		text := tc.with
		if tc.word != "" {
			text = after(t, c, tc.path, tc.word, tc.with)
		}
		got, _ := c.labels(asked(t, c, tc.path, text))
		if tc.want != "" && !slices.Contains(got, tc.want) || tc.not != "" && slices.Contains(got, tc.not) {
			t.Errorf("in %q: %q", tc.with, got)
		}
	}
	c.say("textDocument/didOpen", didOpenParams{documentItem{c.uri("vocabulary.yaml"), 9, strings.Replace(declared, "‸", "H315", 1)}})
	for _, tc := range []struct {
		path, word, with string
		want             bool
	}{
		{"chemistries/mild-alkaline.md", "contains: [", "ethan‸]", true},
		{"materials/brass.md", "\nmade-of: ", "[ethan‸]", false},
	} {
		got, list := c.labels(asked(t, c, tc.path, after(t, c, tc.path, tc.word, tc.with)))
		i := slices.Index(got, "ethanolamine")
		if (i >= 0) != tc.want {
			t.Errorf("%s %s proposes %q", tc.path, tc.word, got)
		}
		if i >= 0 && !strings.Contains(list.Items[i].Detail, "amine") {
			t.Errorf("it does not say what the word counts as: %+v", list.Items[i])
		}
	}
	got, _ = c.labels(asked(t, c, "chemistries/mild-alkaline.md", after(t, c, "chemistries/mild-alkaline.md", "hazards: [", "EUH0‸]")))
	if !slices.Contains(got, "EUH066") {
		t.Errorf("the shop's own hazard is not among %q", got)
	}
	c.close()
}
