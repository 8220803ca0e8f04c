package safety

import (
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Every constant of the package is held by one line of the table, which writes the value that it has; so a number that is changed, or a new one,
// cannot be missing from the page.
func TestEveryConstantIsInTheTable(t *testing.T) {
	values := constants(t)
	if len(values) < 40 {
		t.Fatalf("only %d constants were found", len(values))
	}
	held := map[string]int{}
	for _, n := range Numbers {
		for _, h := range n.Holds {
			held[h.Const]++
			value, is := values[h.Const]
			switch {
			case !is:
				t.Errorf("the table holds %s, which is no constant", h.Const)
			case !strings.Contains(n.Says, h.Written):
				t.Errorf("%q does not write %s as %q", n.Says, h.Const, h.Written)
			case !writes(h.Written, value):
				t.Errorf("%s is %g, and the table writes %q", h.Const, value, h.Written)
			}
		}
	}
	for name := range values {
		if held[name] != 1 {
			t.Errorf("%s stands %d times in the table", name, held[name])
		}
	}
}

// Every number has a sentence and a source. What is recalled says who is to confirm it, and so does what is our own or the trade's and people hang on.
func TestEveryNumberHasASource(t *testing.T) {
	for _, n := range Numbers {
		if len(strings.Fields(n.Source)) < 2 || !strings.HasSuffix(n.Says, ".") {
			t.Errorf("%q rests on %q", n.Says, n.Source)
		}
		weak := strings.Contains(n.Source, "from memory") || n.People && (strings.Contains(n.Source, "our own") || strings.Contains(n.Source, practice))
		if weak && !strings.Contains(n.Source, "to be confirmed by the ") {
			t.Errorf("%q rests on %q, and nobody is to confirm it", n.Says, n.Source)
		}
	}
}

// The test of the table fails where it should.
func TestWrites(t *testing.T) {
	for _, c := range []struct {
		written string
		value   float64
		want    bool
	}{
		{"16.7 K", 30 * 5. / 9, true}, {"16.7 K", 17, false}, {"30 kHz", 30e3, true}, {"30 kHz", 31e3, false}, {"30 µS/cm", 30e-4, true},
		{"5 %", 0.05, true}, {"5 %", 0.06, false}, {"half", 0.5, true}, {"pH 11.5", 11.5, true}, {"pH 11", 11.5, false}, {"0.04 W/(m·K)", 0.04, true},
	} {
		if writes(c.written, c.value) != c.want {
			t.Errorf("%q writes %g: %t", c.written, c.value, !c.want)
		}
	}
}

// writes tells whether a text is how a value is written, to its last figure.
func writes(written string, value float64) bool {
	if written == "half" {
		return value == 0.5
	}
	fields := strings.Fields(strings.TrimPrefix(written, "pH "))
	number, err := strconv.ParseFloat(fields[0], 64)
	if err != nil {
		return false
	}
	by := 1.
	if len(fields) > 1 {
		by = map[string]float64{"%": 1e-2, "kHz": 1e3, "µS/cm": 1e-4}[fields[1]]
		if by == 0 {
			by = 1
		}
	}
	_, decimals, _ := strings.Cut(fields[0], ".")
	return math.Abs(number-value/by) <= 0.5*math.Pow(10, -float64(len(decimals)))*0.99 && (decimals != "" || math.Abs(number-value/by) < 1e-9)
}

// constants gives the values of the package's exported constants.
func constants(t *testing.T) map[string]float64 {
	t.Helper()
	files := token.NewFileSet()
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var list []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(files, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, file)
	}
	p, err := (&types.Config{Importer: importer.Default()}).Check("safety", files, list, nil)
	if err != nil {
		t.Fatal(err)
	}
	values := map[string]float64{}
	for _, name := range p.Scope().Names() {
		c, is := p.Scope().Lookup(name).(*types.Const)
		if !is || c.Val().Kind() == constant.String {
			continue
		}
		if !c.Exported() {
			t.Errorf("%s is a number that nobody can ask for", name)
		}
		values[name], _ = constant.Float64Val(constant.ToFloat(c.Val()))
	}
	return values
}
