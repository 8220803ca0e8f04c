package changes

import (
	"testing"

	"tankside/builder/content"
)

// What the manual's own file says of old addresses is told, however little the texts have in common; a translation goes with its original.
func TestOldAddressesAreTold(t *testing.T) {
	t.Parallel()
	text := func(words string) []content.Part {
		return []content.Part{{Name: "", Text: words}}
	}
	a := content.New([]content.Doc{content.DocOf("soils/wax.md", true, text("one two")), content.DocOf("soils/wax.es.md", true, text("uno"))})
	b := content.New([]content.Doc{
		content.DocOf("soils/hard-wax.md", true, text("quite other words")), content.DocOf("soils/hard-wax.es.md", true, text("otras")),
		content.DocOf("moved.yaml", false, []content.Part{{Name: "soils/wax.md", Text: "soils/hard-wax.md"}, {Name: "soils/hard-wax.md#a", Text: "soils/hard-wax.md#b"}, {Name: "tanks/a", Text: "tanks/b"}}),
	})
	got := map[string]string{}
	for _, r := range Renamings(Between(a, b, nil)) {
		got[r.From] = r.To
	}
	if len(got) != 2 || got["soils/wax.md"] != "soils/hard-wax.md" || got["soils/wax.es.md"] != "soils/hard-wax.es.md" {
		t.Errorf("%v", got)
	}
}
