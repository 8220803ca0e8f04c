package manual

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// undeclared lists what is missing or wrong in the declaration of a kind.
func undeclared(d *Declaration) []string {
	var list []string
	missing := func(is bool, what string) {
		if is {
			list = append(list, string(d.Kind)+": "+what)
		}
	}
	others := slices.DeleteFunc(slices.Clone(kindTable), func(o *Declaration) bool { return o == d })
	same := func(of func(*Declaration) bool) bool { return slices.ContainsFunc(others, of) }
	missing(!tidyName.MatchString(d.Folder), "a folder of lower-case words joined by hyphens")
	missing(same(func(o *Declaration) bool { return o.Folder == d.Folder }), "a folder that no other kind has")
	missing(d.Heading == "", "a heading for its list and chapter")
	missing(same(func(o *Declaration) bool { return o.Heading == d.Heading }), "a heading that no other kind has")
	missing(d.Chapter < 1 || d.Chapter == LineChapter, "a place among the chapters of the book")
	missing(same(func(o *Declaration) bool { return o.Chapter == d.Chapter }), "a chapter that no other kind has")
	missing(slices.Contains([]string{TankFound, TermFound, PageFound, CalculatorFound}, string(d.Kind)), "a word that the search has for nothing else")
	missing(d.facts.make == nil || d.facts.share == nil || d.facts.clone == nil, "where its facts are kept")
	for _, f := range d.all[len(headKeys):] {
		missing(f.Name == "" || f.Means == "" || f.Form == "" || f.read == nil, "what the key “"+f.Name+"” means and how it is written")
		missing(find(headKeys, f.Name) != nil, "a key that not all kinds have, in place of “"+f.Name+"”")
	}
	return list
}

func TestEveryKindIsDeclared(t *testing.T) {
	for _, d := range kindTable {
		for _, what := range undeclared(d) {
			t.Error("missing in kinds.go: ", what)
		}
	}
	source, err := os.ReadFile("kinds.go")
	if err != nil {
		t.Fatal(err)
	}
	constants := regexp.MustCompile(`(?m)^\t\w+ +Kind = "(\w+)"$`).FindAllStringSubmatch(string(source), -1)
	if len(constants) != len(kindTable) {
		t.Errorf("%d constants and %d declarations of kinds", len(constants), len(kindTable))
	}
	for _, c := range constants {
		if !slices.Contains(Kinds, Kind(c[1])) {
			t.Errorf("the kind %s has no declaration", c[1])
		}
	}
}

// What is forgotten in a declaration is named.
func TestWhatADeclarationLacksIsNamed(t *testing.T) {
	for _, c := range []struct {
		of   Declaration
		keys []Key
		want string
	}{
		{Declaration{Kind: "jig", Folder: "jigs", Heading: "Jigs", Chapter: 9}, nil, ""},
		{Declaration{Kind: "jig"}, nil, "a folder of lower-case words joined by hyphens; a heading for its list and chapter; a place among the chapters of the book"},
		{Declaration{Kind: "tank", Folder: "soils", Heading: "Soils", Chapter: LineChapter}, nil,
			"a folder that no other kind has; a heading that no other kind has; a place among the chapters of the book; a word that the search has for nothing else"},
		{Declaration{Kind: "jig", Folder: "jigs", Heading: "Jigs", Chapter: 3}, []Key{{Name: "station", Means: "where", Refers: []Kind{Part}}, {Name: "holds", Refers: []Kind{Part}}},
			"a chapter that no other kind has; a key that not all kinds have, in place of “station”; what the key “holds” means and how it is written"},
	} {
		takeOut := Try(c.of, c.keys...)
		got := undeclared(kindTable[len(kindTable)-1])
		takeOut()
		for i := range got {
			got[i] = strings.TrimPrefix(got[i], string(c.of.Kind)+": ")
		}
		if s := strings.Join(got, "; "); s != c.want {
			t.Errorf("of %s it says that there is missing: %s", c.of.Kind, s)
		}
	}
	if len(Kinds) != 7 || len(kindTable) != 7 {
		t.Errorf("a kind that was tried stayed in the table: %v", Kinds)
	}
}

// Every key that takes names of articles says so, in the form that the reference shows; the reader notes what it names under each.
func TestKeysThatReferSaySo(t *testing.T) {
	refer := 0
	var look func(kind Kind, keys []Key)
	look = func(kind Kind, keys []Key) {
		for _, k := range keys {
			look(kind, k.Under)
			for _, to := range k.Refers {
				refer++
				if !strings.Contains(k.Form, string(to)) && len(k.Under) == 0 {
					t.Errorf("the form of “%s” of %s does not say that it names a %s: %s", k.Name, kind, to, k.Form)
				}
			}
			for _, to := range Kinds {
				if strings.Contains(k.Form, "name") && strings.Contains(k.Form, " a "+string(to)) && !slices.Contains(k.Refers, to) {
					t.Errorf("“%s” of %s names a %s, and does not refer to it", k.Name, kind, to)
				}
			}
		}
	}
	for _, k := range Kinds {
		look(k, Keys(k))
	}
	if refer < 12 {
		t.Errorf("only %d keys refer to articles", refer)
	}
	d := &decoder{file: "parts/x.md"}
	a := readArticle(d, Part, []byte("---\nmaterial: [steel]\nsoil: [oil]\nsteps:\n  - {tank: wash-1, chemistry: soap}\nconcessions:\n  - {chemistry: acid, rules: [x], by: trainer, reason: Because., strength: 1 % v/v}\n---\nText.\n"))
	var got []string
	for k, ref := range a.References {
		got = append(got, string(k)+" "+ref.Name)
	}
	if s := strings.Join(got, ", "); s != "material steel, soil oil, chemistry soap, chemistry acid" {
		t.Errorf("the header names %s; %v", s, d.findings)
	}
	if s := strings.Join(a.Vessels(), " "); s != "wash-1" {
		t.Errorf("the header names the tanks %s", s)
	}
}
