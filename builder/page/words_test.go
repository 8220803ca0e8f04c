package page

import (
	"go/ast"
	"go/parser"
	"go/token"
	gotypes "go/types"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tankside/builder/asked"
	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/causes"
	"tankside/builder/language"
	"tankside/builder/language/marked"
	"tankside/builder/manual"
	"tankside/builder/record"
	"tankside/themes"
)

// said is every word that the interface may say, with who says it, one a line.
type said map[string]string

func (s said) add(where string, words ...string) {
	for _, w := range words {
		s[w] = marked.Also(s[w], where)
	}
}

// sayings gathers every word of the interface.
func sayings(t *testing.T) said {
	t.Helper()
	s := said{}
	s.byTemplates(t)
	s.byCode(t)
	s.byTables(t)
	s.byHeaders()
	s.byReasons(t)
	return s
}

func wordsOf(t *testing.T, tag string) words {
	t.Helper()
	w, err := interfaceWords(themes.New(nil), tag)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// themeFiles gives the texts of a folder of the theme by their names.
func themeFiles(t *testing.T, folder string) map[string]string {
	t.Helper()
	theme := themes.New(nil)
	names, err := theme.List(folder)
	if err != nil || len(names) == 0 {
		t.Fatal("the theme has no", folder, err)
	}
	texts := map[string]string{}
	for _, name := range names {
		data, err := theme.Read(name)
		if err != nil {
			t.Fatal(err)
		}
		texts[path.Base(name)] = string(data)
	}
	return texts
}

var (
	saysInTemplate = regexp.MustCompile(`\bsay "([^"]*)"`)
	saysOther      = regexp.MustCompile(`[{(|]\s*say\s+[^"\s][^}]*`)
)

func (s said) byTemplates(t *testing.T) {
	for name, text := range themeFiles(t, "templates") {
		for _, m := range saysInTemplate.FindAllStringSubmatch(text, -1) {
			s.add(name, m[1])
		}
		if from := saysOther.FindString(text); from != "" {
			t.Errorf("%s says something that is not written out: %s", name, from)
		}
	}
}

// Where a word comes from that is not written out where it is said. byTables and byHeaders have those words, byCode those of tables within
// functions.
var saidFrom = []string{
	"name", "value", "title", "note", "english", // first arguments of the list of facts and of gauges; finished texts
	"a.Kind.Heading()", "k.Heading()", "stationTitles[st]", "string(b.Kind)", "lookTitles[o.By]", "causes.Words[word]", "causes.Together[n]", "causes.Partly",
	"verdictWords[a.Verdict].long", "verdictWords[a.Verdict].short", "verdictWords[v].group", "w.group", "w.short", "markup.Verdict(one.Verdict)", "verdictWords[admit.Conditions].short", "verdictWords[admit.No].short", `cmp.Or(briefly[a.Reasons[0].Rule], "see why")`,
	"word", "m.Word", // signal words
	"p",                 // markup.Phrases
	"d.title", "d.note", // derived pages
	"at.title", "sum.title", "g.title", // seenOn, tankSums, sumGroups
	"q.Title", "list.word", "set.title", "ask.name", // tables within functions
	"says",                                                                       // hazard statements
	`strings.ReplaceAll(r.Name, "-", " ")`, `strings.ReplaceAll(r.As, "-", " ")`, // vocabularies
	`strings.ReplaceAll(n.Name, "-", " ")`, "manual.HazardStatements[h.Name]", `strings.ReplaceAll(c.Name, "-", " ")`, // the same in package handout
	"with", "quantity.SI", "quantity.US", "of.Head", "p.note", "p.says", "p.title", // the measures of package handout, handoutPages
}

// factMethods are the methods of factList, and the function of gauges, whose first argument is said.
var factMethods = []string{"html", "text", "limit", "orNone", "words", "soils", "names", "row", "inManualLanguage"}

// byCode gathers what the code of this package and of package book says.
func (s said) byCode(t *testing.T) {
	files, err := fs.Glob(os.DirFS("."), "*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, beside := range []string{"book", "handout"} {
		of, err := fs.Glob(os.DirFS(".."), beside+"/*.go")
		if err != nil || len(of) == 0 {
			t.Fatal("no files of package "+beside, err)
		}
		for _, name := range of {
			files = append(files, "../"+name)
		}
	}
	inspect(t, files, func(name string, n ast.Node) {
		switch n := n.(type) {
		case *ast.CallExpr:
			s.byCall(t, name, n)
		case *ast.CompositeLit:
			s.byTable(name, n)
		}
	})
}

// inspect shows every node of files with Go code, tests left out.
func inspect(t *testing.T, files []string, show func(name string, n ast.Node)) {
	t.Helper()
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			show(name, n)
			return true
		})
	}
}

// byCall gathers the word of a call of words.say, or of one of factMethods.
func (s said) byCall(t *testing.T, where string, call *ast.CallExpr) {
	function := ""
	if f, ok := call.Fun.(*ast.SelectorExpr); ok && (f.Sel.Name == "Say" || f.Sel.Name == "Fill") && strings.HasPrefix(where, "../") { // packages book and handout
		if w, ok := written(call.Args[0]); ok {
			s.add(where, w)
		} else if from := gotypes.ExprString(call.Args[0]); !slices.Contains(saidFrom, from) {
			t.Errorf("%s says %s: tell saidFrom where its words come from", where, from)
		}
		return
	}
	switch f := call.Fun.(type) {
	case *ast.SelectorExpr:
		function = f.Sel.Name
		if x := gotypes.ExprString(f.X); function == "say" && !strings.HasSuffix(x, "words") || function != "say" && x != "l" {
			return
		}
	case *ast.Ident:
		function = f.Name
	}
	says := function == "say" && len(call.Args) == 1
	if !says && (!slices.Contains(factMethods, function) || len(call.Args) < 2) {
		return
	}
	if w, ok := written(call.Args[0]); ok {
		s.add(where, w)
	} else if from := gotypes.ExprString(call.Args[0]); says && !slices.Contains(saidFrom, from) && from != "s.system" && from != "s.otherSystem()" {
		t.Errorf("%s says %s: tell saidFrom where its words come from", where, from)
	}
	if function != "text" {
		return
	}
	// A fact's value is said as well: one that is written out, or chosen from a table on the spot.
	value := call.Args[1]
	if i, ok := value.(*ast.IndexExpr); ok {
		value = i.X
	}
	ast.Inspect(value, func(n ast.Node) bool {
		if _, call := n.(*ast.CallExpr); call {
			return false
		}
		if e, ok := n.(ast.Expr); ok {
			if w, ok := written(e); ok {
				s.add(where, w)
			}
		}
		return true
	})
}

// byTable gathers the words of a table that is written out in a function: of its fields word, title, name and note.
func (s said) byTable(where string, table *ast.CompositeLit) {
	var names []string
	rows := []ast.Expr{table}
	switch of := table.Type.(type) {
	case *ast.ArrayType:
		if row, ok := of.Elt.(*ast.Ident); ok && row.Name == "vesselValue" {
			names = []string{"key", "name"}
			rows = table.Elts
			break
		} else if ok && row.Name == "measure" { // of package handout
			names = []string{"below", "step", "name"}
			rows = table.Elts
			break
		}
		row, ok := of.Elt.(*ast.StructType)
		if !ok {
			return
		}
		for _, f := range row.Fields.List {
			for _, n := range f.Names {
				names = append(names, n.Name)
			}
		}
		rows = table.Elts
	case *ast.Ident:
		if of.Name != "derivedPage" {
			return
		}
		names = []string{"path", "sheet", "title", "note"}
	}
	for _, r := range rows {
		row, ok := r.(*ast.CompositeLit)
		if !ok {
			continue
		}
		for i, v := range row.Elts {
			if w, ok := written(v); ok && i < len(names) && slices.Contains([]string{"word", "title", "name", "note"}, names[i]) {
				s.add(where, w)
			}
		}
	}
}

// written gives a text that is written out.
func written(e ast.Expr) (string, bool) {
	l, ok := e.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(l.Value)
	return text, err == nil
}

// byTables gathers the words of the package's tables.
func (s said) byTables(t *testing.T) {
	for _, title := range stationTitles {
		s.add("stationTitles", title)
	}
	for _, title := range lookTitles {
		s.add("lookTitles", title)
	}
	for _, g := range sumGroups {
		s.add("sumGroups", g.title)
	}
	for _, v := range verdictWords {
		s.add("verdictWords", v.long, v.short, v.group)
	}
	for _, words := range standingWords {
		s.add("standingWords", words[0], words[1])
	}
	for _, word := range briefly {
		s.add("briefly", word)
	}
	s.add("briefly", "see why")
	s.add("causes", causes.Partly)
	s.add("causes", causes.Together[:]...)
	for _, word := range causes.Words {
		if word != "" {
			s.add("causes", word)
		}
	}
	s.add("an answer", markup.Phrases...)
	for _, sentence := range asked.Asks {
		s.add("what is asked", sentence)
	}
	for _, q := range record.Quantities {
		s.add("record.Quantities", q.Title)
	}
	for _, p := range ownPages {
		s.add("ownPages", p.title, p.text, p.also)
	}
	for _, p := range handoutPages {
		s.add("handoutPages", p.title, p.note, p.says)
	}
	s.add("tanks", smallestTank, largestTank, anyTank)
	for _, also := range sumsAlso {
		s.add("sumsAlso", also)
	}
}

// byHeaders gathers the words of kinds and of headers: vocabularies and hazard statements.
func (s said) byHeaders() {
	s.add("what can be found", manual.Findable()...)
	for _, k := range manual.Kinds {
		s.add("the declaration of a kind", k.Heading())
	}
	for _, v := range []manual.Vocabulary{manual.ContainsWords, manual.NatureWords, manual.PeopleHazardWords, manual.FeatureWords, manual.MadeOfWords} {
		for _, w := range v.Words {
			if slices.Contains(spokenOtherwise, w) {
				continue
			}
			s.add("a header", strings.ReplaceAll(w, "-", " "))
		}
	}
	// rinses: and next:
	s.add("a header", "easy", "fair", "hard", "no, it is meant to stay on the part", "no, it dries off", "inspection", "storage", "assembly", "plating", "painting", "bonding")
	s.add("the washes of a process sheet", append(slices.Clone(admit.WashNames), admit.FurtherWash)...)
	for _, statement := range manual.HazardStatements {
		s.add("a header", statement)
	}
}

// byReasons gathers what the reasons of “may it go in?” say: texts with holes, and what is handed to Say and Word. The words of headers are
// in byHeaders.
func (s said) byReasons(t *testing.T) {
	for _, folder := range []string{"../decide/admit"} {
		files, err := filepath.Glob(folder + "/*.go")
		if err != nil || len(files) == 0 {
			t.Fatal(folder, err)
		}
		inspect(t, files, func(name string, n ast.Node) {
			switch n := n.(type) {
			case *ast.BasicLit:
				if w, ok := written(n); ok && marked.Holes.MatchString(w) {
					s.add(name, w)
				}
			case *ast.CallExpr:
				f := strings.TrimPrefix(gotypes.ExprString(n.Fun), "admit.")
				if f != "Say" && f != "Word" {
					break
				}
				if w, ok := written(n.Args[0]); ok {
					s.add(name, w)
					if holes := len(marked.Holes.FindAllString(w, -1)); f == "Say" && holes != len(n.Args)-1 {
						t.Errorf("%s fills %d of the holes of %q", name, len(n.Args)-1, w)
					}
				} else if from := gotypes.ExprString(n.Args[0]); !slices.Contains(reasonsFrom, from) {
					t.Errorf("%s says %s: tell reasonsFrom where its words come from", name, from)
				}
			}
		})
	}
	for _, what := range []string{"pH", "strength", "temperature", "time", "frequency", "and"} {
		s.add("a recipe", what)
	}
}

// reasonsFrom are the phrases that are not written out where they are said: those with holes are gathered wherever they stand, and the words of
// headers by their vocabularies.
var reasonsFrom = []string{
	"phrase", "disagree", "keepPH", "staysWithin", "doesNotLift", "doesNotLiftTheseDo", "nameOf(what)", `strings.ReplaceAll(r.Name, "-", " ")`,
	"keepTime", "setTemperature", "bringStrength", "keepWithin", "inJar", "nameOf(one.what)", "inRinsePH", "inRinseHeat",
}

// spokenOtherwise are the words of headers that are said only in reasons, and there as an abbreviation or in another way.
var spokenOtherwise = []string{"abs", "pvc", "ptfe", "peek", "epdm", "nbr", "fkm", "coated-optic", "cobalt-carbide", "anodise"}

var (
	readByScript = regexp.MustCompile(`\.say([A-Z]\w*)`)
	saidByName   = regexp.MustCompile(`\bsay\("([a-z-]+)"`)
	saidByOneOf  = regexp.MustCompile(`\bsay\([^"()]*\? "([a-z]+)" : "([a-z]+)"`)
	capital      = regexp.MustCompile(`[A-Z]`)
	inAttribute  = regexp.MustCompile(`data-say-([a-z-]+)="(.)`)
)

// What scripts say stands in the attributes that templates give them, each filled from the words; and no attribute is there for nothing.
func TestScriptsSayWhatTemplatesGiveThem(t *testing.T) {
	given := map[string]string{}
	for name, text := range themeFiles(t, "templates") {
		for _, m := range inAttribute.FindAllStringSubmatch(text, -1) {
			given[m[1]] = name
			if m[2] != "{" {
				t.Errorf("%s fills data-say-%s without the words", name, m[1])
			}
		}
	}
	wanted := map[string]string{}
	for name, text := range themeFiles(t, "scripts") {
		for _, m := range readByScript.FindAllStringSubmatch(text, -1) {
			attribute := capital.ReplaceAllStringFunc(m[1], func(c string) string { return "-" + strings.ToLower(c) })
			wanted[strings.TrimPrefix(attribute, "-")] = name
		}
		for _, m := range saidByName.FindAllStringSubmatch(text, -1) {
			wanted[m[1]] = name
		}
		for _, m := range saidByOneOf.FindAllStringSubmatch(text, -1) {
			wanted[m[1]], wanted[m[2]] = name, name
		}
	}
	for _, m := range inAttribute.FindAllStringSubmatch(string(wordsOf(t, "en").kinds()), -1) {
		given[m[1]] = "kindWords"
	}
	// The search names the kinds and stations of its hits.
	for _, name := range manual.Findable() {
		wanted["kind-"+name] = "find.js"
	}
	for _, st := range manual.Stations {
		wanted["station-"+string(st)] = "find.js"
	}
	for attribute, script := range wanted {
		if given[attribute] == "" {
			t.Errorf("%s says data-say-%s, which no template has", script, attribute)
		}
	}
	for attribute, template := range given {
		if wanted[attribute] == "" {
			t.Errorf("%s has data-say-%s, which no script says", template, attribute)
		}
	}
}

// Every language has every word that the interface says, and no other.
func TestEveryLanguageIsComplete(t *testing.T) {
	all := sayings(t)
	for file := range themeFiles(t, "words") {
		marked.Complete(t, "words/"+file, all, language.Words(wordsOf(t, strings.TrimSuffix(file, ".yaml"))))
	}
}

// A narrow cell has room for a word alone: the three verdicts must not be taken for each other, even without an accent.
func TestVerdictsAreToldApart(t *testing.T) {
	for file := range themeFiles(t, "words") {
		w := wordsOf(t, strings.TrimSuffix(file, ".yaml"))
		seen := map[string]string{}
		for verdict, v := range verdictWords {
			short := fold(w.say(v.short))
			if before := seen[short]; before != "" {
				t.Errorf("words/%s: %s and %s are both %q but for accents", file, before, verdict, short)
			}
			seen[short] = string(verdict)
		}
	}
}
