package admit

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// said reads the package's source for every phrase that is said: the first argument of Say, literal or constant, and of what is handed on to it.
func said(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	constants, used := map[string]string{}, []ast.Expr{}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		source, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, source, 0)
		if err != nil {
			t.Fatal(err)
		}
		scope := name + "."
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				scope = name + "." + n.Name.Name + "."
			case *ast.ValueSpec:
				for i, id := range n.Names {
					if i < len(n.Values) {
						if text, is := literal(n.Values[i]); is {
							constants[id.Name+"@"+scope], constants[id.Name] = text, text
						}
					}
				}
			case *ast.AssignStmt:
				for i, left := range n.Lhs {
					if id, is := left.(*ast.Ident); is && i < len(n.Rhs) && (strings.HasPrefix(id.Name, "phrase")) {
						used = append(used, n.Rhs[min(i, len(n.Rhs)-1)])
					}
				}
			case *ast.CompositeLit:
				for _, e := range n.Elts {
					if text, is := literal(e); is && strings.Contains(text, "{") {
						used = append(used, e)
					}
				}
			case *ast.CallExpr:
				at := -1
				switch called(n) {
				case "Say", "Word":
					at = 0
				case "add":
					at = 4
				}
				if at >= 0 && at < len(n.Args) {
					if id, is := n.Args[at].(*ast.Ident); is && constants[id.Name+"@"+scope] != "" {
						used = append(used, &ast.BasicLit{Kind: token.STRING, Value: strconv.Quote(constants[id.Name+"@"+scope])})
					} else {
						used = append(used, n.Args[at])
					}
				}
			}
			return true
		})
	}
	var list []string
	for _, e := range used {
		text, is := literal(e)
		if id, named := e.(*ast.Ident); named {
			text, is = constants[id.Name], constants[id.Name] != ""
		}
		if is && text != "" && !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	return list
}

func literal(e ast.Expr) (string, bool) {
	l, is := e.(*ast.BasicLit)
	if !is || l.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(l.Value)
	return text, err == nil
}

func called(c *ast.CallExpr) string {
	switch f := c.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

// Whatever is said is in the list by which pages ship the words of another language.
func TestPhrasesAreAllThatIsSaid(t *testing.T) {
	all := said(t)
	for _, what := range everything {
		all = append(all, nameOf(what))
	}
	all = append(all, "and")
	for _, p := range all {
		if !slices.Contains(phrases, p) {
			t.Errorf("phrases lacks %q", p)
		}
	}
	for _, p := range phrases {
		if !slices.Contains(all, p) {
			t.Errorf("nothing says %q", p)
		}
	}
	if len(all) < 60 {
		t.Errorf("only %d phrases were found", len(all))
	}
}
