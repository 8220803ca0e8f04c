package page

import (
	"slices"
	"strings"
	"testing"

	"tankside/builder/manual"
	"tankside/themes"
)

// untold lists what pages cannot tell of a kind, for its declaration does not say it: the rows beside the text, and words in each language.
func untold(t *testing.T, k manual.Kind) []string {
	t.Helper()
	var list []string
	says := func(key manual.Key) bool { return len(key.Refers) == 0 }
	if keys := manual.Keys(k); rowsOf[k] == nil && slices.ContainsFunc(keys, says) {
		list = append(list, "rowsOf in builder/page/facts.go has no rows for "+string(k))
	}
	files, err := themes.New(nil).List("words")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		w := wordsOf(t, strings.TrimSuffix(strings.TrimPrefix(file, "words/"), ".yaml"))
		for _, phrase := range []string{string(k), k.Heading()} {
			if w[phrase] == "" {
				list = append(list, "themes/"+file+" has no “"+phrase+"”")
			}
		}
	}
	return list
}

func TestPagesTellEveryKind(t *testing.T) {
	for _, k := range manual.Kinds {
		for _, what := range untold(t, k) {
			t.Error(what)
		}
	}
	for k := range rowsOf {
		if !slices.Contains(manual.Kinds, k) {
			t.Errorf("rowsOf has rows of %s, which is no kind", k)
		}
	}
}

// Of a kind that is in the table alone, this is what has to be told besides, and nothing else.
func TestWhatPagesLackOfAKindIsNamed(t *testing.T) {
	lack := func(keys ...manual.Key) string {
		defer manual.Try(manual.Declaration{Kind: "jig", Folder: "jigs", Heading: "Jigs and baskets", Chapter: 9}, keys...)()
		return strings.Join(untold(t, "jig"), "; ")
	}
	const words = "themes/words/de.yaml has no “jig”; themes/words/de.yaml has no “Jigs and baskets”; " +
		"themes/words/es.yaml has no “jig”; themes/words/es.yaml has no “Jigs and baskets”"
	if s := lack(manual.Key{Name: "for", Refers: []manual.Kind{manual.Part}}); s != words {
		t.Errorf("of a kind that names parts there lacks: %s", s)
	}
	if s := lack(manual.Key{Name: "mesh", Form: "value"}); s != "rowsOf in builder/page/facts.go has no rows for jig; "+words {
		t.Errorf("of a kind with a value there lacks: %s", s)
	}
}
