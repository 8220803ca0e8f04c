package builder

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/search"
)

// jig is a kind of article that stands in the table of kinds and nowhere else.
var jig = manual.Declaration{Kind: "jig", Folder: "jigs", Heading: "Jigs and baskets", Chapter: 9}

// A kind that is in the table alone has all that follows from it: it is read, listed, printed, found, named where it names others, and told in
// the reference of the format.
func TestKindOfTheTableAlone(t *testing.T) {
	t.Cleanup(manual.Try(jig, manual.Key{Name: "for", Means: "procedures that it is for", Example: "[fill]", Refers: []manual.Kind{manual.Procedure}}))

	named := strings.Replace(head, "%T", "Mesh basket", 1)
	named = strings.Replace(named, "revision: A\n", "revision: A\nfor: [fill]\n", 1)
	src := folder(t, map[string]string{
		"shop.yaml": smallShop, "procedures/fill.md": head + "## Fill\n\nSee [heat](heat.md), and put in the [basket](../jigs/mesh-basket.md).\n",
		"procedures/heat.md": head + "## Heat\n\nSee [fill](fill.md).\n", "jigs/mesh-basket.md": named + "## Load\n\nLay parts side by side in the wickerwork.\n",
	})
	to := filepath.Join(t.TempDir(), "edition")
	if r, err := publish(t, src, to, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	got := files(t, to)
	section := func(page, from string) string {
		_, rest, _ := strings.Cut(got[page], from)
		rest, _, _ = strings.Cut(rest, "</section>")
		return rest
	}
	for _, want := range []struct{ what, in, text string }{
		{"a link from the home page to its list", got["index.html"], `href="jigs/index.html"`},
		{"its heading on the home page", got["index.html"], "Jigs and baskets"},
		{"a list with its heading", got["jigs/index.html"], "<h1>Jigs and baskets</h1>"},
		{"its article in that list", got["jigs/index.html"], `href="../jigs/mesh-basket.html"`},
		{"a page of the article", got["jigs/mesh-basket.html"], "wickerwork"},
		{"its list named above the article", got["jigs/mesh-basket.html"], `href="../jigs/index.html"`},
		{"its group at its station", got["stations/wash.html"], "<h2>Jigs and baskets</h2>"},
		{"its place among all words", got["a-z.html"], "Mesh basket"},
		{"what its header names beside the text", got["jigs/mesh-basket.html"], `<dt>Procedures</dt><dd><a href="../procedures/fill.html">procedures/fill.md</a>`},
		{"where it is used, on the page of what its header names", section("procedures/fill.html", "Where it is used"), `href="../jigs/mesh-basket.html"`},
		{"where it is used, on its own page", section("jigs/mesh-basket.html", "Where it is used"), `href="../procedures/fill.html"`},
		{"the word for one beside a link to it", section("procedures/fill.html", "Where it is used"), "jig"},
		{"a heading in the contents of the book", got["book.html"], `<p class="contents-group">Jigs and baskets</p>`},
		{"its article in the chapter of its station", got["book/wash.html"], "wickerwork"},
		{"its words in the search's filter", got["index.html"], `data-say-kind-jig="jig"`},
		{"a row in the table of kinds of the format", manual.KindReference(), "\n| jig | `jigs` | Jigs and baskets | 9 |"},
		{"its key where the format says what names procedures", manual.KindReference(), "jig `for`"},
		{"its keys in the format", manual.Reference(manual.Keys("jig")), "| `for` | procedures that it is for | list of names, each of a procedure |"},
	} {
		if !strings.Contains(want.in, want.text) {
			t.Errorf("a kind that is declared has not %s", want.what)
		}
	}
	if !slices.Contains(manual.Findable(), "jig") {
		t.Error("the command's --kind does not take it")
	}
	if hits := found(t, to, search.Question{Words: "wickerwork", Kind: "jig"}); len(hits) != 1 || hits[0].Kind != "jig" {
		t.Errorf("the search for its kind finds %v", hits)
	}
}

// found asks the index of an edition.
func found(t *testing.T, folder string, q search.Question) []search.Hit {
	t.Helper()
	root := os.DirFS(folder)
	list, err := edition.ReadList(root)
	if err != nil {
		t.Fatal(err)
	}
	piece, err := edition.Parcel(root, list, "search-segment")
	if err != nil {
		t.Fatal(err)
	}
	finder, err := search.Open(piece)
	if err != nil {
		t.Fatal(err)
	}
	defer finder.Close()
	answer, err := finder.Ask(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	return answer.Hits
}

// A finding about what a kind that is in the table alone names is that of every kind: a name that is not there, and an article that nobody leads to.
func TestFindingsOfAKindOfTheTableAlone(t *testing.T) {
	alone := func(is bool) []string {
		d := jig
		d.Alone = is
		defer manual.Try(d, manual.Key{Name: "for", Means: "procedures that it is for", Example: "[fill]", Refers: []manual.Kind{manual.Procedure}})()
		_, findings, err := Read(t.Context(), folder(t, map[string]string{
			"shop.yaml": smallShop, "jigs/mesh-basket.md": strings.Replace(head, "revision: A\n", "revision: A\nfor: [fil]\n", 1) + "## Load\n\nSide by side.\n",
		}), day)
		if err != nil {
			t.Fatal(err)
		}
		var rules []string
		for _, f := range findings {
			rules = append(rules, string(f.Rule))
		}
		return rules
	}
	if rules := alone(false); !slices.Contains(rules, "unknown-name") {
		t.Errorf("a name without article is not told: %v", rules)
	}
	if rules := alone(true); slices.Contains(rules, "orphan") {
		t.Errorf("an article of a kind that stands alone is called an orphan: %v", rules)
	}
}

// oneByOne are the files and folders that tell kinds of article apart, each with the reason why it does not follow the table.
var oneByOne = map[string]string{
	"builder/decide/":                  "a decision or a rule is about the facts that it compares",
	"builder/sentence/":                "a sentence is read as being about a bath, a material or a part; others are no subject of the rules of running text",
	"builder/manual/field.go":          "a key says of which kind the names are that it takes",
	"builder/manual/body.go":           "“Seen with.” is read of the remedies of symptoms",
	"builder/manual/readable.go":       "the steps of a symptom's tree have a limit of their own",
	"builder/page/beside.go":           "the answers of a symptom's step are no list on its page",
	"builder/page/printed.go":          "what is replaced with a lesson is the lesson",
	"builder/page/record_links.go":     "what a reading out of control leads to is the steps of symptoms",
	"builder/history/history.go":       "a bath's window is that of its chemistry",
	"builder/page/asked.go":            "a load in a question is a material, a soil and a bath",
	"builder/page/tools.go":            "which pages the program has hangs on what there is to compare; a sum is done where a procedure has it",
	"builder/page/article.go":          "a symptom is walked; the tanks that hold a chemistry stand in the shop file; a lesson leads to the next",
	"builder/page/derived.go":          "a table is about the kinds that it compares",
	"builder/page/facts.go":            "what the rows beside the text say; TestPagesTellEveryKind names a kind without",
	"builder/page/home.go":             "symptoms are on the home page themselves",
	"builder/page/lists.go":            "lessons are in the order of the course, not by stations",
	"builder/rename/names.go":          "a word of the shop for a constituent stands where a chemistry is named, and nowhere else",
	"builder/rename/split.go":          "the sections of a symptom are the steps of its walk",
	"builder/page/rests_people.go":     "which values of a header people hang on is a matter of the kind",
	"builder/page/rests.go":            "the values of a header that decide about harm are those of chemistries, materials and soils",
	"builder/page/site.go":             "a symptom's page has a template of its own",
	"builder/page/suits.go":            "the decision is told of materials and parts",
	"builder/page/tank.go":             "parts that are washed in a tank",
	"builder/page/vessel.go":           "parts go through a rinse, and procedures are done at it",
	"builder/handout/":                 "a process sheet is of a part, and a card says what goes into a vessel: procedures, parts, soils",
	"builder/book/outline.go":          "what paper leaves out of a chapter, and its order: the course, the line, where symptoms are seen",
	"builder/book/words.go":            "people are signed off for lessons and procedures",
	"builder/content/content.go":       "of what a header accepts only the attack on a part is on a page",
	"builder/languageserver/target.go": "tanks name chemistries, and the shop file's seen-most names symptoms",
	"builder/languageserver/hover.go":  "a table is about the kinds that it compares; the decision is told of parts",
}

// Whatever tells kinds apart either follows their declarations or says here why it does not.
func TestKindsAreToldApartForAReason(t *testing.T) {
	found := map[string][]string{}
	err := filepath.WalkDir("..", func(file string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			return err
		}
		name := strings.TrimPrefix(filepath.ToSlash(file), "../")
		ast.Inspect(parsed, func(n ast.Node) bool {
			var among []ast.Expr
			switch n := n.(type) {
			case *ast.BinaryExpr:
				among = []ast.Expr{n.X, n.Y}
				if facts, is := n.X.(*ast.SelectorExpr); is && isNil(n.Y) && isKind(facts.Sel.Name) { // a.Soil != nil
					found[name] = append(found[name], strings.ToLower(facts.Sel.Name))
				}
			case *ast.CaseClause:
				among = n.List
			case *ast.CompositeLit:
				for _, e := range n.Elts {
					if pair, is := e.(*ast.KeyValueExpr); is {
						e = pair.Key
					}
					among = append(among, e)
				}
			}
			for _, e := range among {
				if kind := kindNamed(e, parsed.Name.Name); kind != "" {
					found[name] = append(found[name], kind)
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	reasoned := map[string]bool{}
	for name, kinds := range found {
		for of, why := range oneByOne {
			if why != "" && (of == name || strings.HasSuffix(of, "/") && strings.HasPrefix(name, of)) {
				reasoned[name], reasoned[of] = true, true
			}
		}
		if !reasoned[name] {
			t.Errorf("%s tells kinds apart (%s): let it follow manual.Declaration, or say in oneByOne why it cannot", name, strings.Join(kinds, ", "))
		}
	}
	for name := range oneByOne {
		if !reasoned[name] {
			t.Errorf("%s no longer tells kinds apart: take it out of oneByOne", name)
		}
	}
}

// kindNamed gives the kind that an expression names, as manual.Soil, or as Soil within package manual.
func kindNamed(e ast.Expr, in string) string {
	name := ""
	switch e := e.(type) {
	case *ast.SelectorExpr:
		if x, is := e.X.(*ast.Ident); is && x.Name == "manual" {
			name = e.Sel.Name
		}
	case *ast.Ident:
		if in == "manual" {
			name = e.Name
		}
	}
	if !isKind(name) {
		return ""
	}
	return strings.ToLower(name)
}

// isKind tells whether a name of the code is that of a kind: Soil.
func isKind(name string) bool {
	return name != "" && name != strings.ToLower(name) && slices.Contains(manual.Kinds, manual.Kind(strings.ToLower(name)))
}

func isNil(e ast.Expr) bool {
	name, is := e.(*ast.Ident)
	return is && name.Name == "nil"
}
