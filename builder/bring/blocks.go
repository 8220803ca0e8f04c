package bring

import (
	"encoding/base64"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"path"
	"strconv"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"tankside/builder/expression"
	"tankside/builder/manual"
)

// tables have no merged cells afterwards: what one says stands in each that it covered. One with a single cell is no table.
func (b *bringing) tables(body *html.Node) error {
	for _, t := range all(body, func(n *html.Node) bool { return n.Data == "table" }) {
		if t.Parent == nil {
			continue
		}
		if has(t, func(n *html.Node) bool { return n.Data == "table" }) {
			b.add(Left, "A table lies within another; both are there as text, without lines.")
			flatten(t)
			continue
		}
		cells := all(t, func(n *html.Node) bool { return n.Data == "td" || n.Data == "th" })
		if len(cells) == 1 {
			b.add(Changed, "A table of one cell is a paragraph.")
			flatten(t)
			continue
		}
		if err := b.spread(t); err != nil {
			return err
		}
	}
	return nil
}

// flatten takes a table away and keeps what is in its cells, each as a paragraph.
func flatten(t *html.Node) {
	for _, n := range all(t, func(n *html.Node) bool { return n.Type == html.ElementNode }) {
		switch n.Data {
		case "td", "th", "caption":
			if has(n, func(c *html.Node) bool { return c.Data == "p" || c.Data == "ul" || c.Data == "ol" || c.Data == "table" }) {
				lift(n)
			} else {
				n.Data, n.DataAtom, n.Attr = "p", atom.P, nil
			}
		case "tr", "tbody", "thead", "tfoot", "table":
			lift(n)
		}
	}
	lift(t)
}

// spread puts a copy of a merged cell into each place that it covers, and breaks no line within a cell.
func (b *bringing) spread(t *html.Node) error {
	rows := all(t, func(n *html.Node) bool { return n.Data == "tr" })
	type below struct {
		cell *html.Node
		rows int
	}
	carried := map[int]below{}
	count := 0
	for _, row := range rows {
		var line []*html.Node
		next := map[int]below{}
		covered := func() {
			for {
				c, is := carried[len(line)]
				if !is {
					return
				}
				if c.rows > 1 {
					next[len(line)] = below{c.cell, c.rows - 1}
				}
				line = append(line, b.copyOf(c.cell))
			}
		}
		for _, cell := range all(row, func(n *html.Node) bool { return (n.Data == "td" || n.Data == "th") && n.Parent == row }) {
			covered()
			across, down := span(cell, "colspan"), span(cell, "rowspan")
			cell.Attr = nil
			if across*down > 1 {
				b.add(Changed, "A merged cell, “%s”, stands in each of the %d cells that it covered.", short(textOf(cell)), across*down)
			}
			b.oneLine(cell)
			for k := range across {
				if count++; count > mostCells {
					return fmt.Errorf("a table has more than %d cells", mostCells)
				}
				if down > 1 {
					next[len(line)] = below{cell, down - 1}
				}
				if k == 0 {
					line = append(line, cell)
				} else {
					line = append(line, b.copyOf(cell))
				}
			}
		}
		covered()
		if b.copied > mostCopied {
			return fmt.Errorf("merged cells of its tables hold so much that a copy in each place would be more than %d MiB; take the merging out before you save", mostCopied>>20)
		}
		count += len(next)
		carried = next
		for c := row.FirstChild; c != nil; c = row.FirstChild {
			row.RemoveChild(c)
		}
		for _, cell := range line {
			row.AppendChild(cell)
		}
	}
	if caption := find(t, func(n *html.Node) bool { return n.Data == "caption" }); caption != nil {
		caption.Parent.RemoveChild(caption)
		caption.Data, caption.DataAtom, caption.Attr = "p", atom.P, nil
		t.Parent.InsertBefore(caption, t)
	}
	return nil
}

// oneLine has what stands in a cell stand in one line, as a table of markdown wants it.
func (b *bringing) oneLine(cell *html.Node) {
	broken := false
	for _, n := range all(cell, func(n *html.Node) bool { return n.Type == html.ElementNode }) {
		switch n.Data {
		case "br":
			set(n, " ")
			broken = true
			lift(n)
		case "p", "ul", "ol", "li", "blockquote", "h1", "h2", "h3", "h4", "h5", "h6", "pre", "hr":
			if n.NextSibling != nil {
				n.AppendChild(&html.Node{Type: html.TextNode, Data: "; "})
				broken = true
			}
			lift(n)
		}
	}
	join(cell)
	for _, n := range all(cell, func(n *html.Node) bool { return n.Type == html.TextNode }) {
		n.Data = strings.ReplaceAll(n.Data, "\n", " ")
	}
	if broken && strings.TrimSpace(textOf(cell)) != "" {
		text := strings.TrimSuffix(strings.TrimSpace(textOf(cell)), ";")
		b.add(Changed, "Lines within a cell stand in one: “%s”.", short(text))
		if last := lastText(cell); last != nil {
			last.Data = strings.TrimSuffix(strings.TrimRight(last.Data, " "), ";")
		}
	}
}

func lastText(n *html.Node) *html.Node {
	list := all(n, func(n *html.Node) bool { return n.Type == html.TextNode })
	if len(list) == 0 {
		return nil
	}
	return list[len(list)-1]
}

func span(n *html.Node, key string) int {
	k, err := strconv.Atoi(strings.TrimSpace(identity(n, key)))
	if err != nil || k < 1 {
		return 1
	}
	return min(k, mostSpan)
}

// copyOf is a cell once more. Beyond the most that is copied it stays empty; the table is refused then.
func (b *bringing) copyOf(n *html.Node) *html.Node {
	const ofNode = 128 // bytes, about
	b.copied += ofNode + len(n.Data)
	c := &html.Node{Type: n.Type, Data: n.Data, DataAtom: n.DataAtom, Attr: append([]html.Attribute(nil), n.Attr...)}
	for child := n.FirstChild; child != nil && b.copied <= mostCopied; child = child.NextSibling {
		c.AppendChild(b.copyOf(child))
	}
	return c
}

var dataImage = expression.Of(`(?i)^data:image/(png|jpeg|jpg|gif|webp);base64,`)

// images are brought where they can be had, under a plain name; of others the description stays.
func (b *bringing) images(body *html.Node) error {
	list := all(body, func(n *html.Node) bool { return n.Data == "img" })
	if len(list) > mostPictures {
		return fmt.Errorf("the document has more than %d pictures; save it in several files", mostPictures)
	}
	size := 0
	for _, n := range list {
		src, alt := written(identity(n, "src")), strings.Join(strings.Fields(identity(n, "alt")), " ")
		name, data, err := b.image(src)
		if err != nil {
			b.add(Dropped, "The picture “%s”: %s.", short(src), err)
			if alt == "" {
				n.Parent.RemoveChild(n)
			} else {
				n.Parent.InsertBefore(&html.Node{Type: html.TextNode, Data: "(picture: " + alt + ")"}, n)
				n.Parent.RemoveChild(n)
			}
			continue
		}
		if size += len(data); size > mostPictureBytes {
			return fmt.Errorf("the pictures of the document have more than %d MiB together; make them smaller", mostPictureBytes>>20)
		}
		b.pictures[name] = data
		if alt == "" {
			b.add(Left, "The picture %s has no description; write what it shows.", name)
			alt = "describe this picture"
		}
		if short(src) != name {
			b.add(Changed, "The picture “%s” is %s.", short(src), name)
		}
		n.Attr = []html.Attribute{{Key: "src", Val: "../" + name}, {Key: "alt", Val: alt}}
	}
	return nil
}

// written is the address of a picture as people read it, without escapes.
func written(src string) string {
	src = strings.TrimSpace(src)
	if plain, err := url.PathUnescape(src); err == nil && !dataImage.MatchString(src) {
		return plain
	}
	return src
}

// errNoPicture says in half a sentence why a picture is not brought.
type errNoPicture string

func (e errNoPicture) Error() string { return string(e) }

// image gives a picture and its path in the manual.
func (b *bringing) image(src string) (name string, data []byte, err error) {
	if m := dataImage.FindStringSubmatch(src); m != nil {
		data, err := base64.StdEncoding.DecodeString(strings.Join(strings.Fields(src[len(m[0]):]), ""))
		if err != nil {
			return "", nil, errNoPicture("it lies in the document and cannot be read")
		}
		kind := strings.ToLower(m[1])
		if kind == "jpeg" {
			kind = "jpg"
		}
		return b.free(b.Name + "." + kind), data, nil
	}
	if outside.MatchString(src) {
		return "", nil, errNoPicture("it lies on the web, and a manual loads nothing from there; save it and put it into pictures")
	}
	at := strings.ReplaceAll(src, `\`, "/")
	if drive.MatchString(at) || strings.HasPrefix(at, "/") {
		b.add(Guessed, "The picture “%s” lies at a place of one computer; it was looked for by its name beside the document.", short(src))
		at = path.Base(at)
	}
	at = path.Clean(at)
	extension := strings.ToLower(path.Ext(at))
	if !strings.Contains(" .svg .png .jpg .jpeg .webp .gif ", " "+extension+" ") || extension == "" {
		return "", nil, errNoPicture("it is no SVG, PNG, JPEG, WebP or GIF; save it as one")
	}
	if !fs.ValidPath(at) || b.Picture == nil {
		return "", nil, errNoPicture("it is not there")
	}
	data, err = b.Picture(at)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil, errNoPicture("it is not there; put it beside the document and bring it once more")
	}
	if err != nil {
		return "", nil, err
	}
	base := manual.Anchor(strings.TrimSuffix(path.Base(at), path.Ext(at)))
	return b.free(base + extension), data, nil
}

var drive = expression.Of(`(?i)^(?:file:|[a-z]:)`)

// free is a path for a picture that no other of the document has.
func (b *bringing) free(name string) string {
	extension := path.Ext(name)
	for k := 1; ; k++ {
		at := "pictures/" + name
		if k > 1 {
			at = fmt.Sprintf("pictures/%s-%d%s", strings.TrimSuffix(name, extension), k, extension)
		}
		if b.pictures[at] == nil {
			return at
		}
	}
}

var (
	bulletSign = expression.Of(`^[\s\x{00a0}]*([•▪◦‣●·§\x{f0b7}\x{f0a7}\x{f076}\x{f0d8}\x{2043}]|o[\s\x{00a0}]{2,})[\s\x{00a0}]*`)
	numberSign = expression.Of(`^[\s\x{00a0}]*(\d{1,3})[.)][\s\x{00a0}]+`)
)

// lists are made of paragraphs that begin with a bullet, or with a number in a paragraph that a word processor calls one of a list.
func (b *bringing) lists(body *html.Node) {
	for _, p := range all(body, func(n *html.Node) bool { return n.Data == "p" }) {
		splitAtBullets(p)
	}
	for _, p := range all(body, func(n *html.Node) bool { return n.Data == "p" }) {
		tag := itemTag(p)
		if tag == "" || p.Parent == nil {
			continue
		}
		b.add(Changed, "Lines that begin with a bullet or a number are a list.")
		list := previous(p)
		if list == nil || list.Data != tag || identity(list, "class") != "made" {
			list = &html.Node{Type: html.ElementNode, Data: tag, DataAtom: atom.Lookup([]byte(tag)), Attr: []html.Attribute{{Key: "class", Val: "made"}}}
			p.Parent.InsertBefore(list, p)
		}
		first := find(p, func(n *html.Node) bool { return n.Type == html.TextNode && strings.TrimSpace(n.Data) != "" })
		sign := bulletSign
		if tag == "ol" {
			sign = numberSign
		}
		first.Data = sign.ReplaceAllString(first.Data, "")
		p.Parent.RemoveChild(p)
		p.Data, p.DataAtom, p.Attr = "li", atom.Li, nil
		list.AppendChild(p)
	}
}

// itemTag is the list in which a paragraph belongs, or "".
func itemTag(p *html.Node) string {
	first := find(p, func(n *html.Node) bool { return n.Type == html.TextNode && strings.TrimSpace(n.Data) != "" })
	switch {
	case first == nil:
		return ""
	case bulletSign.MatchString(first.Data):
		return "ul"
	case strings.HasPrefix(identity(p, "class"), "MsoList") && numberSign.MatchString(first.Data):
		return "ol"
	}
	return ""
}

// previous is the element before one, if there is nothing between.
func previous(n *html.Node) *html.Node {
	for n = n.PrevSibling; n != nil && n.Type == html.TextNode && strings.TrimSpace(n.Data) == ""; n = n.PrevSibling {
	}
	return n
}

// splitAtBullets makes a paragraph of each line of one in which several begin with a bullet.
func splitAtBullets(p *html.Node) {
	for _, br := range all(p, func(n *html.Node) bool { return n.Data == "br" }) {
		if next := br.NextSibling; next != nil && next.Type == html.TextNode && bulletSign.MatchString(next.Data) {
			next.Data = "\n" + strings.TrimLeft(next.Data, "\n ")
			br.Parent.RemoveChild(br)
		}
	}
	join(p)
	for c := p.FirstChild; c != nil; c = c.NextSibling {
		if c.Type != html.TextNode {
			continue
		}
		for at := 0; ; {
			n := strings.IndexByte(c.Data[at:], '\n')
			if n < 0 {
				break
			}
			if at += n; !bulletSign.MatchString(c.Data[at+1:]) {
				at++
				continue
			}
			rest := &html.Node{Type: html.ElementNode, Data: "p", DataAtom: atom.P}
			rest.AppendChild(&html.Node{Type: html.TextNode, Data: c.Data[at+1:]})
			for next := c.NextSibling; next != nil; next = c.NextSibling {
				p.RemoveChild(next)
				rest.AppendChild(next)
			}
			c.Data = c.Data[:at]
			p.Parent.InsertBefore(rest, p.NextSibling)
			splitAtBullets(rest)
			return
		}
	}
}

var signal = expression.Of(`^[\s\x{00a0}]*(?:⚠\x{fe0f}?\s*)?(DANGER|WARNING|CAUTION|NOTICE|Danger|Warning|Caution|Notice)[\s\x{00a0}]*([:!–—-]+)`)

// messages are made of paragraphs that begin with a signal word and a colon.
func (b *bringing) messages(body *html.Node) {
	for _, p := range all(body, func(n *html.Node) bool { return n.Data == "p" || n.Data == "li" }) {
		m := signal.FindStringSubmatch(textOf(p))
		if m == nil || p.Parent == nil {
			continue
		}
		word := strings.ToUpper(m[1])
		cut(p, len(signal.FindString(textOf(p))))
		strong := &html.Node{Type: html.ElementNode, Data: "strong", DataAtom: atom.Strong}
		set(strong, word)
		p.InsertBefore(&html.Node{Type: html.TextNode, Data: " "}, p.FirstChild)
		p.InsertBefore(strong, p.FirstChild)
		if p.Data == "li" || inside(p, "blockquote") {
			b.add(Left, "“%s” begins an item of a list or a quotation; put it into a block quote of its own where it belongs.", short(textOf(p)))
			continue
		}
		quote := &html.Node{Type: html.ElementNode, Data: "blockquote", DataAtom: atom.Blockquote}
		p.Parent.InsertBefore(quote, p)
		p.Parent.RemoveChild(p)
		quote.AppendChild(p)
		b.add(Changed, "“%s” is a safety message.", short(textOf(p)))
		if m[1] != word {
			b.add(Guessed, "“%s:” was taken for the signal word %s.", m[1], word)
		}
	}
}

func inside(n *html.Node, tag string) bool {
	for n = n.Parent; n != nil; n = n.Parent {
		if n.Data == tag {
			return true
		}
	}
	return false
}

// cut takes so many bytes of text away at the beginning.
func cut(p *html.Node, bytes int) {
	for _, n := range all(p, func(n *html.Node) bool { return n.Type == html.TextNode }) {
		if bytes <= 0 {
			n.Data = strings.TrimLeft(n.Data, " \n\u00a0")
			return
		}
		k := min(bytes, len(n.Data))
		bytes -= k
		if n.Data = n.Data[k:]; n.Data != "" {
			n.Data = strings.TrimLeft(n.Data, " \n\u00a0")
			return
		}
	}
}
