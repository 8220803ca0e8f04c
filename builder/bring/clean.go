package bring

import (
	"fmt"
	"slices"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"tankside/builder/expression"
)

// clean makes of a tree one that says the same with what a manual has.
func (b *bringing) clean(root *html.Node) error {
	body := find(root, func(n *html.Node) bool { return n.DataAtom == atom.Body })
	if body == nil {
		return fmt.Errorf("there is no text in it")
	}
	if title := find(root, func(n *html.Node) bool { return n.DataAtom == atom.Title }); title != nil && b.title == "" {
		b.title = short(textOf(title))
	}
	for n := root.FirstChild; n != nil; { // the head has said all
		next := n.NextSibling
		if n.Type != html.ElementNode {
			root.RemoveChild(n)
		}
		n = next
	}
	if head := find(root, func(n *html.Node) bool { return n.DataAtom == atom.Head }); head != nil {
		head.Parent.RemoveChild(head)
	}
	b.drop(body)
	b.unwrap(body)
	join(body)
	b.footnotes(body)
	b.links(body)
	if err := b.images(body); err != nil {
		return err
	}
	if err := b.tables(body); err != nil {
		return err
	}
	b.texts(body)
	b.lists(body)
	b.messages(body)
	b.headings(body)
	if strings.TrimSpace(textOf(body)) == "" && len(b.pictures) == 0 {
		return fmt.Errorf("there is no text in it")
	}
	return nil
}

// without are elements whose content is no text of the document.
var without = []string{"script", "style", "meta", "link", "object", "embed", "iframe", "svg", "math", "form", "input", "button", "select", "textarea", "noscript", "template", "audio", "video", "xml"}

// drop takes out what is no text: scripts, styles, remarks, fields.
func (b *bringing) drop(body *html.Node) {
	for _, n := range all(body, func(n *html.Node) bool {
		return n.Type == html.CommentNode || n.Type == html.ElementNode && slices.Contains(without, n.Data)
	}) {
		if n.Parent == nil {
			continue
		}
		if text := textOf(n); n.Type == html.ElementNode && n.Data != "style" && n.Data != "meta" && n.Data != "link" && n.Data != "xml" {
			b.add(Dropped, "A piece “%s”, which is no text%s.", n.Data, quotedIf(text))
		}
		n.Parent.RemoveChild(n)
	}
}

func quotedIf(text string) string {
	if text = short(text); text != "" {
		return ": “" + text + "”"
	}
	return ""
}

// meant are the elements that a manual's text has. Of all others only what is in them is kept.
var meant = map[string]bool{"body": true, "p": true, "h1": true, "h2": true, "h3": true, "h4": true, "h5": true, "h6": true, "ul": true, "ol": true, "li": true, "table": true, "thead": true, "tbody": true,
	"tfoot": true, "tr": true, "td": true, "th": true, "blockquote": true, "pre": true, "code": true, "a": true, "img": true, "strong": true, "b": true, "em": true, "i": true, "br": true, "hr": true, "del": true, "s": true, "caption": true}

// blocks are those that part text as paragraphs do.
var blocks = map[string]bool{"div": true, "section": true, "article": true, "header": true, "footer": true, "main": true, "aside": true, "center": true, "dl": true, "dt": true, "dd": true, "figure": true, "figcaption": true, "address": true, "nav": true}

// unwrap takes elements away that a manual does not have, and keeps what is in them. A block with text of its own becomes a paragraph.
func (b *bringing) unwrap(body *html.Node) {
	for _, n := range all(body, func(n *html.Node) bool { return n.Type == html.ElementNode }) {
		if n == body || meant[n.Data] {
			continue
		}
		switch {
		case n.Data == "sup" || n.Data == "sub":
			b.index(n)
		case n.Data == "u" || n.Data == "ins" || n.Data == "mark":
			b.add(Changed, "Underlining and highlighting are gone; the words are there.")
		}
		if blocks[n.Data] && identity(n, "id") != "" && footnoteBody.MatchString(identity(n, "id")) {
			continue // footnotes are found by it
		}
		if blocks[n.Data] && !has(n, func(c *html.Node) bool {
			return c.Type == html.ElementNode && (c.Data == "p" || c.Data == "table" || c.Data == "ul" || c.Data == "ol" || strings.HasPrefix(c.Data, "h") && len(c.Data) == 2 || blocks[c.Data] || c.Data == "pre" || c.Data == "blockquote")
		}) {
			n.Data, n.DataAtom, n.Attr = "p", atom.P, keep(n.Attr, "class")
			continue
		}
		lift(n)
	}
}

var figures = map[rune]rune{'0': '⁰', '1': '¹', '2': '²', '3': '³', '4': '⁴', '5': '⁵', '6': '⁶', '7': '⁷', '8': '⁸', '9': '⁹', '-': '⁻', '−': '⁻'}

// index keeps what is set higher or lower than the line: a figure as the sign that there is for it, a small o as a degree, all else as it is.
func (b *bringing) index(n *html.Node) {
	text := strings.TrimSpace(textOf(n))
	if n.Data != "sup" || text == "" || has(n, func(c *html.Node) bool { return c.Data == "a" }) {
		return
	}
	if text == "o" || text == "0" || text == "º" {
		if next := n.NextSibling; next != nil && next.Type == html.TextNode && strings.ContainsAny(strings.TrimLeft(next.Data, " \u00a0")[:min(1, len(strings.TrimLeft(next.Data, " \u00a0")))], "CF") {
			b.add(Changed, "A small %s set high before C or F is a degree sign.", text)
			set(n, "°")
			return
		}
	}
	var s strings.Builder
	for _, r := range text {
		f, known := figures[r]
		if !known {
			return
		}
		s.WriteRune(f)
	}
	set(n, s.String())
	b.add(Changed, "“%s” set high is written %s.", text, s.String())
}

var (
	footnoteBody = expression.Of(`^(?:_?ftn|_?edn|sdfootnote|sdendnote|fn:)\d+$`)
	footnoteCall = expression.Of(`^#_?(?:ftn|edn|sdfootnote|sdendnote|fn:)(\d+)(?:sym)?$`)
	endNumber    = expression.Of(`\d+$`)
	footnoteBack = expression.Of(`^#_?(?:ftnref|ednref|fnref:|sdfootnote|sdendnote)\d+(?:anc)?$`)
)

// footnotes become a section “Notes” at the end, and where they are called stands their number.
func (b *bringing) footnotes(body *html.Node) {
	var list []*html.Node
	number := map[string]int{}
	for _, a := range all(body, func(n *html.Node) bool { return n.Data == "a" }) {
		m := footnoteCall.FindStringSubmatch(identity(a, "href"))
		if m == nil || footnoteBack.MatchString(identity(a, "href")) && !strings.HasSuffix(identity(a, "href"), "sym") {
			continue
		}
		id := m[1]
		if number[id] == 0 {
			number[id] = len(number) + 1
		}
		set(a, fmt.Sprintf(" (note %d)", number[id]))
		lift(a)
	}
	if len(number) == 0 {
		return
	}
	notes := map[int]*html.Node{}
	for _, n := range all(body, func(n *html.Node) bool { return footnoteBody.MatchString(identity(n, "id")) }) {
		id := endNumber.FindString(identity(n, "id"))
		for _, back := range all(n, func(c *html.Node) bool { return c.Data == "a" && footnoteBack.MatchString(identity(c, "href")) }) {
			back.Parent.RemoveChild(back)
		}
		if k := number[id]; k > 0 && n.Parent != nil {
			notes[k] = n
		}
	}
	items := &html.Node{Type: html.ElementNode, Data: "ol", DataAtom: atom.Ol}
	for k := 1; k <= len(number); k++ {
		item := &html.Node{Type: html.ElementNode, Data: "li", DataAtom: atom.Li}
		text := "The note is missing in the document."
		if n := notes[k]; n != nil {
			text = strings.Join(strings.Fields(textOf(n)), " ")
			n.Parent.RemoveChild(n)
		} else {
			b.add(Left, "Note %d is called in the text and is not there.", k)
		}
		set(item, text)
		items.AppendChild(item)
	}
	for _, empty := range all(body, func(n *html.Node) bool { return (n.Data == "hr" || n.Data == "ol") && n.FirstChild == nil }) {
		empty.Parent.RemoveChild(empty)
	}
	b.add(Changed, "%d footnotes stand at the end, under “Notes”.", len(number))
	heading := &html.Node{Type: html.ElementNode, Data: "h2", DataAtom: atom.H2}
	set(heading, "Notes")
	list = append(list, heading, items)
	for _, n := range list {
		body.AppendChild(n)
	}
}

var outside = expression.Of(`(?i)^(https?|mailto|tel):`)

// links keep their words; their target stays where anybody can reach it.
func (b *bringing) links(body *html.Node) {
	for _, a := range all(body, func(n *html.Node) bool { return n.Data == "a" }) {
		to := strings.TrimSpace(identity(a, "href"))
		if outside.MatchString(to) && !strings.ContainsAny(to, " <>") {
			a.Attr = keep(a.Attr, "href")
			continue
		}
		if to != "" && !strings.HasPrefix(to, "#") {
			b.add(Dropped, "The link to “%s”, which leads to a place of one computer; its words “%s” are there. Link to an article instead.", short(to), short(textOf(a)))
		} else if to != "" {
			b.add(Dropped, "The link to “%s” within the document; its words are there.", short(to))
		}
		lift(a)
	}
}

var heading = expression.Of(`^h[1-6]$`)

// headings give the title, and are of level 2 or below afterwards.
func (b *bringing) headings(body *html.Node) {
	for _, n := range all(body, func(n *html.Node) bool { return n.Data == "p" && strings.EqualFold(identity(n, "class"), "MsoTitle") }) {
		n.Data, n.DataAtom = "h1", atom.H1
	}
	list := all(body, func(n *html.Node) bool { return heading.MatchString(n.Data) })
	for i, n := range list {
		if strings.TrimSpace(textOf(n)) == "" {
			if n.FirstChild == nil || !has(n, func(c *html.Node) bool { return c.Data == "img" }) {
				n.Parent.RemoveChild(n)
			}
			list[i] = nil
		}
	}
	list = slices.DeleteFunc(list, func(n *html.Node) bool { return n == nil })
	if len(list) > 0 && list[0].Data == "h1" && b.Title == "" {
		b.title = short(textOf(list[0]))
		b.add(Changed, "The first heading, “%s”, is the title.", b.title)
		list[0].Parent.RemoveChild(list[0])
		list = list[1:]
	}
	highest := 6
	for _, n := range list {
		highest = min(highest, int(n.Data[1]-'0'))
	}
	for _, n := range list {
		level := min(6, int(n.Data[1]-'0')-highest+2)
		if now := fmt.Sprintf("h%d", level); now != n.Data {
			b.add(Changed, "Headings were moved by a level or more, so that they begin at the second.")
			n.Data, n.DataAtom = now, atom.Lookup([]byte(now))
		}
	}
}
