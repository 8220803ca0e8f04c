package page

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tankside/builder/manual"
	"tankside/themes"
)

var saysInTemplate = regexp.MustCompile(`\bsay "([^"]*)"`)

// Each word that a template, a page's Go code or a script says stands in the file of English words, and nothing else stands there.
func TestEveryWordOfTheInterface(t *testing.T) {
	english, err := readWords(themes.New(nil), "en")
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]string{} // word → where
	literals := map[string]bool{}
	each(t, "../../themes/templates", ".html", func(name, text string) {
		for _, m := range saysInTemplate.FindAllStringSubmatch(text, -1) {
			said[m[1]] = name
		}
	})
	for _, folder := range []string{".", "../admit", "../relate", "../causes"} {
		each(t, folder, ".go", func(name, text string) {
			if strings.HasSuffix(name, "_test.go") {
				return
			}
			file, err := parser.ParseFile(token.NewFileSet(), name, text, 0)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
					if s, err := strconv.Unquote(l.Value); err == nil {
						literals[s] = true
					}
				}
				call, ok := n.(*ast.CallExpr)
				if !ok || len(call.Args) != 1 {
					return true
				}
				f, ok := call.Fun.(*ast.SelectorExpr)
				if l, lit := call.Args[0].(*ast.BasicLit); ok && lit && f.Sel.Name == "say" {
					s, err := strconv.Unquote(l.Value)
					if err != nil {
						t.Fatal(err)
					}
					said[s] = name
				}
				return true
			})
		})
	}
	headers := fromHeaders()
	for w := range headers {
		said[w] = "a header"
	}
	for w, where := range said {
		if english[w] == "" {
			t.Errorf("%s says %q, which words/en.yaml has not", where, w)
		}
	}
	for w, shown := range english {
		if _, ok := said[w]; !ok && !literals[w] {
			t.Errorf("words/en.yaml has %q, which nothing says", w)
		}
		if shown != w {
			t.Errorf("words/en.yaml shows %q for %q", shown, w)
		}
	}
}

// fromHeaders are the words that pages show of headers: vocabularies and hazard statements.
func fromHeaders() map[string]bool {
	all := map[string]bool{}
	for _, v := range []manual.Vocabulary{manual.ContainsWords, manual.NatureWords, manual.PeopleHazardWords, manual.FeatureWords} {
		for _, w := range v.Words {
			all[strings.ReplaceAll(w, "-", " ")] = true
		}
	}
	for _, w := range []string{"easy", "fair", "hard", "inspection", "storage", "assembly", "plating", "painting", "bonding"} {
		all[w] = true
	}
	for _, statement := range manual.HazardStatements {
		all[statement] = true
	}
	for _, k := range manual.Kinds {
		all[string(k)] = true
	}
	return all
}

func each(t *testing.T, folder, ext string, do func(name, text string)) {
	t.Helper()
	err := filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(name) != ext {
			return err
		}
		data, err := os.ReadFile(name)
		do(name, string(data))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

var holes = regexp.MustCompile(`%[sd]|\{\w\}`)

// Every language has every word, with the same places for numbers and names.
func TestEveryLanguageIsComplete(t *testing.T) {
	english, err := readWords(themes.New(nil), "en")
	if err != nil {
		t.Fatal(err)
	}
	spanish, err := readWords(themes.New(nil), "es")
	if err != nil {
		t.Fatal(err)
	}
	if a, b := slices.Sorted(maps.Keys(english)), slices.Sorted(maps.Keys(spanish)); !slices.Equal(a, b) {
		for _, w := range a {
			if spanish[w] == "" {
				t.Errorf("words/es.yaml lacks %q", w)
			}
		}
		for _, w := range b {
			if english[w] == "" {
				t.Errorf("words/es.yaml has %q, which is no word of the interface", w)
			}
		}
	}
	for w, shown := range spanish {
		if !slices.Equal(holes.FindAllString(w, -1), holes.FindAllString(shown, -1)) {
			t.Errorf("%q has other holes than %q", shown, w)
		}
	}
}
