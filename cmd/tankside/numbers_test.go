package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var renew = flag.Bool("renew", false, "write testdata/numbers-apart.txt anew, with the reasons that it has")

// numbersList is where numbers are told that decide about no harm.
var numbersList = filepath.Join(root, "testdata", "numbers-apart.txt")

// Every number in the code of the decision and of the calculators is one of the table of numbers in calculators/safety, which stands on the page
// “What rests on what”, or is told in testdata/numbers-apart.txt with why it decides about no harm. So nobody adds a limit that a safety officer
// never sees. Whole numbers that only count, places and rounds, are left alone, and so are 0 and 1; the others are told declaration by declaration.
func TestNumbersDeclareThemselves(t *testing.T) {
	t.Parallel()
	found := numbersOf(t, "./builder/decide/...", "./calculators/...")
	reasons, told := numbersApart(t)
	if *renew {
		writeNumbers(t, found, reasons)
		return
	}
	if len(found) < 150 {
		t.Fatalf("only %d declarations with numbers were found", len(found))
	}
	for name, values := range found {
		switch {
		case told[name] == "":
			t.Errorf("%s has %s, which stands in no table: declare it in calculators/safety with its source, and it stands on the page; or say in testdata/numbers-apart.txt why it decides about no harm", name, values)
		case told[name] != values:
			t.Errorf("%s has %s, and testdata/numbers-apart.txt tells %s: look whether the new one decides about harm", name, values, told[name])
		case len(strings.Fields(reasons[name])) < 2:
			t.Errorf("%s: testdata/numbers-apart.txt does not say why it decides about no harm", name)
		}
	}
	for name := range told {
		if found[name] == "" {
			t.Errorf("testdata/numbers-apart.txt has %s, which is not there", name)
		}
	}
}

// The search for numbers finds them wherever a limit may stand: in a comparison, a call, a literal, as an untyped constant, added to a float.
func TestNumbersAreFound(t *testing.T) {
	t.Parallel()
	const code = `package p
const untyped = 10
const counts = 40
const other = 7.5
type limit struct{ low float64 }
var table = map[string]limit{"a": {23}}
func f(x float64, n int) bool {
	for i := 3; i < n && i < counts; i += 4 {
		x = x + 3
	}
	show(50)
	return x > untyped || x >= 11 && x < 1 || n > 8
}
func show(float64) {}
type s struct{}
func (s *s) method(x float64) bool { return 5 < x }
`
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, "p.go", code, 0)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	if err := numbersIn("p", files, []*ast.File{file}, nil, found); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"p untyped": "10", "p other": "7.5", "p table": "23", "p f": "3 50 11", "p s.method": "5"}
	if !maps.Equal(found, want) {
		t.Errorf("found %v, want %v", found, want)
	}
}

// numbersOf gives, by package and declaration, the numbers in the code of some packages, but for the table itself.
func numbersOf(t *testing.T, patterns ...string) map[string]string {
	t.Helper()
	list := exec.Command("go", append([]string{"list", "-deps", "-export", "-json=ImportPath,Dir,Export,GoFiles"}, patterns...)...)
	list.Dir = root
	out, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	type listed struct {
		ImportPath, Dir, Export string
		GoFiles                 []string
	}
	exports, ours := map[string]string{}, []listed{}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		exports[p.ImportPath] = p.Export
		if room, own := strings.CutPrefix(p.ImportPath, "tankside/"); own && room != "calculators/safety" && (strings.HasPrefix(room, "builder/decide/") || strings.HasPrefix(room+"/", "calculators/")) {
			ours = append(ours, p)
		}
	}
	files := token.NewFileSet()
	from := importer.ForCompiler(files, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	found := map[string]string{}
	for _, p := range ours {
		var parsed []*ast.File
		for _, name := range p.GoFiles {
			file, err := parser.ParseFile(files, filepath.Join(p.Dir, name), nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			parsed = append(parsed, file)
		}
		if err := numbersIn(strings.TrimPrefix(p.ImportPath, "tankside/"), files, parsed, from, found); err != nil {
			t.Fatal(err)
		}
	}
	return found
}

// numbersIn adds the numbers of one package.
func numbersIn(room string, files *token.FileSet, parsed []*ast.File, from types.Importer, found map[string]string) error {
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
	if _, err := (&types.Config{Importer: from}).Check(room, files, parsed, info); err != nil {
		return err
	}
	measures := map[types.Object]bool{} // constants that are used as what is measured
	for name, of := range info.Uses {
		if _, is := of.(*types.Const); is && isFloat(info.Types[name].Type) {
			measures[of] = true
		}
	}
	for _, file := range parsed {
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				addNumbers(room+" "+nameOf(d), d, info, false, found)
			case *ast.GenDecl:
				for _, s := range d.Specs {
					if v, is := s.(*ast.ValueSpec); is {
						addNumbers(room+" "+v.Names[0].Name, v, info, measures[info.Defs[v.Names[0]]], found)
					}
				}
			}
		}
	}
	return nil
}

// addNumbers adds the numbers below a declaration that are measured, not counted; of a constant that is used as a measure all.
func addNumbers(name string, below ast.Node, info *types.Info, all bool, found map[string]string) {
	ast.Inspect(below, func(n ast.Node) bool {
		number, is := n.(*ast.BasicLit)
		if !is || number.Kind != token.INT && number.Kind != token.FLOAT || slices.Contains([]string{"0", "0.", "0.0", "1", "1.", "1.0", "1e-9", "1e-12"}, number.Value) {
			return true
		}
		if all || isFloat(info.Types[number].Type) {
			found[name] = strings.TrimSpace(found[name] + " " + number.Value)
		}
		return true
	})
}

func isFloat(t types.Type) bool {
	if t == nil {
		return false
	}
	basic, is := t.Underlying().(*types.Basic)
	return is && basic.Info()&types.IsFloat != 0
}

// nameOf is the name of a function, with that of its receiver.
func nameOf(d *ast.FuncDecl) string {
	if d.Recv == nil {
		return d.Name.Name
	}
	of := d.Recv.List[0].Type
	if pointer, is := of.(*ast.StarExpr); is {
		of = pointer.X
	}
	return fmt.Sprintf("%v.%s", of, d.Name.Name)
}

// numbersApart reads the list: a line says what decides about no harm, and the lines below it are declarations with their numbers.
func numbersApart(t *testing.T) (reasons, values map[string]string) {
	t.Helper()
	text, err := os.ReadFile(numbersList)
	if err != nil {
		t.Fatal(err)
	}
	reasons, values = map[string]string{}, map[string]string{}
	why := ""
	for _, line := range strings.Split(strings.ReplaceAll(string(text), "\r\n", "\n"), "\n") {
		switch reason, is := strings.CutPrefix(line, "## "); {
		case is:
			why = reason
		case line != "" && !strings.HasPrefix(line, "#"):
			name, numbers, _ := strings.Cut(line, ": ")
			reasons[name], values[name] = why, numbers
		}
	}
	return reasons, values
}

// writeNumbers writes the list with what is found, below the reasons that it had; what is new stands first, below none.
func writeNumbers(t *testing.T, found, reasons map[string]string) {
	t.Helper()
	by := map[string][]string{}
	for name, values := range found {
		by[reasons[name]] = append(by[reasons[name]], name+": "+values)
	}
	var b strings.Builder
	b.WriteString("# Numbers of the decision and the calculators that decide about no harm, and why; TestNumbersDeclareThemselves of cmd/tankside compares. The others\n# stand in calculators/safety, and on the page “What rests on what”.\n")
	for _, why := range slices.Sorted(maps.Keys(by)) {
		slices.Sort(by[why])
		fmt.Fprintf(&b, "\n## %s\n%s\n", why, strings.Join(by[why], "\n"))
	}
	if err := os.WriteFile(numbersList, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}
