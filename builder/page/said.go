package page

import (
	"errors"
	"html/template"
	"io"
	"strings"
	"text/template/parse"
)

// Nearly everything that a page's frame says is {{say "…"}}, the same in every page of a language. Executed for each of ten thousand pages,
// these calls and the escaping of what they give took a tenth of a publication. So they are executed once, when the templates have been read.

// settle puts what the words say in place of each {{say "…"}} of a page template. It first has the package of the templates escape them,
// which decides by the place of each call how its result has to be escaped, and settles only those whose result is escaped
// as text: everything else stays a call.
func (w words) settle(t *template.Template) error {
	var unescapable *template.Error
	if err := t.Execute(stopped{}, nil); errors.As(err, &unescapable) {
		return err
	}
	text, err := template.New("").Parse("{{.}}")
	if err != nil {
		return err
	}
	for _, part := range t.Templates() {
		if part.Tree == nil {
			continue
		}
		if err := w.settleList(part.Tree.Root, text); err != nil {
			return err
		}
	}
	return nil
}

// stopped takes nothing: a template that writes to it is escaped, but executed no further than to its first letter. What else
// may be wrong with it comes to light when it is executed for a page.
type stopped struct{}

func (stopped) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func (w words) settleList(list *parse.ListNode, text *template.Template) error {
	if list == nil {
		return nil
	}
	for i, n := range list.Nodes {
		var err error
		switch n := n.(type) {
		case *parse.ActionNode:
			if phrase, ok := plainSay(n.Pipe); ok {
				var out strings.Builder
				err = text.Execute(&out, w.say(phrase))
				list.Nodes[i] = &parse.TextNode{NodeType: parse.NodeText, Pos: n.Pos, Text: []byte(out.String())}
			}
		case *parse.IfNode:
			err = errors.Join(w.settleList(n.List, text), w.settleList(n.ElseList, text))
		case *parse.WithNode:
			err = errors.Join(w.settleList(n.List, text), w.settleList(n.ElseList, text))
		case *parse.RangeNode:
			err = errors.Join(w.settleList(n.List, text), w.settleList(n.ElseList, text))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// textEscapers are the names that the package of the templates gives to its functions for text and for values between quotation marks, which
// both escape a string in the same way. Were they named otherwise in another version of it, nothing would be settled.
var textEscapers = map[string]bool{"_html_template_htmlescaper": true, "_html_template_attrescaper": true, "_html_template_rcdataescaper": true}

// plainSay gives the phrase of a pipeline that is {{say "…"}}, escaped as text.
func plainSay(p *parse.PipeNode) (string, bool) {
	if len(p.Decl) > 0 || len(p.Cmds) < 2 || len(p.Cmds[0].Args) != 2 {
		return "", false
	}
	function, isFunction := p.Cmds[0].Args[0].(*parse.IdentifierNode)
	phrase, isText := p.Cmds[0].Args[1].(*parse.StringNode)
	if !isFunction || function.Ident != "say" || !isText {
		return "", false
	}
	for _, c := range p.Cmds[1:] {
		escaper, ok := c.Args[0].(*parse.IdentifierNode)
		if !ok || len(c.Args) != 1 || !textEscapers[escaper.Ident] {
			return "", false
		}
	}
	return phrase.Text, true
}
