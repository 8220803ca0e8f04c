package page

import (
	"html/template"
	"strings"
	"testing"
)

// What a template gives must not depend on whether its words were settled, wherever in the page they stand, and whatever is in them.
func TestSettledWordsReadTheSame(t *testing.T) {
	w := words{"Wash": `L'eau & <b>"60 °C"</b> + \ ` + "`x`\x00", "Dry": "Dry"}
	const unsettled = 7 // those in an address, a script, a style, a value without quotation marks, and those whose result is used otherwise
	calls := 0
	say := func(english string) string { calls++; return w.say(english) }
	const source = `{{define "inner"}}<i>{{say "Wash"}}</i>{{end}}<p title="{{say "Wash"}}" class='{{say "Wash"}}' id={{say "Dry"}}>{{say "Wash"}}
{{if .}}{{say "Dry"}}{{else}}{{say "Wash"}}{{end}}{{with .}}{{say "Wash"}}{{end}}{{range .}}{{say "Wash"}}{{.}}{{else}}{{say "Dry"}}{{end}}{{template "inner" .}}
<a href="{{say "Wash"}}" onclick="f({{say "Wash"}})" style="color: {{say "Dry"}}">{{say "Wash" | len}}{{$x := say "Dry"}}{{$x}}</a>
<textarea>{{say "Wash"}}</textarea><title>{{say "Wash"}}</title><script>const x = {{say "Wash"}}</script>`
	read := func() *template.Template {
		return template.Must(template.New("page").Funcs(template.FuncMap{"say": say}).Parse(source))
	}
	for _, data := range []any{nil, []string{"a", "b"}} {
		plain, settled := read(), read()
		if err := w.settle(settled); err != nil {
			t.Fatal(err)
		}
		want := execute(t, plain, data)
		calls = 0
		if got := execute(t, settled, data); got != want {
			t.Errorf("settled:\n%s\nnot settled:\n%s", got, want)
		}
		if calls != unsettled {
			t.Errorf("%d calls are left, not %d", calls, unsettled)
		}
	}
}

func TestSettleTellsOfATemplateThatCannotBeEscaped(t *testing.T) {
	broken := template.Must(template.New("page").Parse(`<a href="{{if .}}x"{{end}}>`))
	if err := (words{}).settle(broken); err == nil || !strings.Contains(err.Error(), "page") {
		t.Errorf("%v", err)
	}
}

func execute(t *testing.T, tmpl *template.Template, data any) string {
	t.Helper()
	var b strings.Builder
	if err := tmpl.Execute(&b, data); err != nil {
		t.Fatal(err)
	}
	return b.String()
}
