package themes

import (
	"os/exec"
	"strings"
	"testing"
)

// Whatever is linked into the command has its notice, in the version that is linked.
func TestEveryModuleHasItsNotice(t *testing.T) {
	c := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}{{end}}{{end}}", "tankside/cmd/tankside")
	out, err := c.Output()
	if err != nil {
		t.Skip("the go command does not list modules here: ", err)
	}
	modules := strings.FieldsFunc(string(out), func(r rune) bool { return r == '\n' })
	if len(modules) < 10 {
		t.Fatalf("only %v are linked", modules)
	}
	for _, m := range modules {
		if !strings.Contains(string(Notices), "\n"+m+"\n") {
			t.Errorf("%s has no notice: go run ./testdata/notices > themes/notices.txt", m)
		}
	}
}
