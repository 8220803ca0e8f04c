package page

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"tankside/builder/manual"
)

// body is the text of an article made ready for its page, or for paper.
type body struct {
	s      *site
	a      *manual.Article
	root   string // leads to the edition's root
	source []byte
	sums   int // calculators met so far
	tables int
	lit    int // bytes of listings that were to be highlighted so far
	err    error

	faults []fault       // in a preview, what is wrong with the article
	beside map[int][]int // of those, by number, which stand beside a top-level block

	gate gate // of a walk, what is said before its first step

	seen   string   // on paper, the number of a section that was written last
	seenIn ast.Node // and the block in which it stands
}

// part is a stretch of an article: what stands before its first section of level 2, or such a section. Of a step, html is all of it, and screen
// the same taken apart for a page that shows one step at a time.
type part struct {
	section *manual.Section // nil before the first section
	html    template.HTML
	screen  screen
}

// render gives an article's safety messages that come before everything else, and its text in parts.
// With whole set, the text is one part; otherwise each section of level 2 is one, without heading and closing list of answers.
func (b *body) render(whole bool) (safety []template.HTML, parts []part, err error) {
	doc := manual.Parse(b.source)
	b.besides(doc)
	b.prepare(doc)
	if b.err != nil {
		return nil, nil, b.err
	}
	sections := b.a.Sections
	next := func() *manual.Section { // the model's section of the next heading
		for len(sections) > 0 {
			s := &sections[0]
			sections = sections[1:]
			if s.Level > 0 {
				return s
			}
		}
		return nil
	}
	current := part{}
	var out bytes.Buffer
	out.Grow(2 * len(b.source))       // more than most need
	buffered := bufio.NewWriter(&out) // given none, the renderer makes one for each block; it flushes after each
	finish := func() {
		current.html = template.HTML(out.String())
		parts = append(parts, current)
		out.Reset()
	}
	walked := !whole && b.s.paper == nil
	tell := func(number int) error { // what is wrong with a block, behind it; in a step it is never folded
		if walked && current.section == nil {
			return nil // what stands before the first step, the page shows elsewhere, and folded
		}
		notes := b.notes(number)
		for _, i := range b.beside[number] {
			if walked {
				b.faults[i].Leads = b.s.anchor(current.section.Anchor)
			}
		}
		current.screen.Safety += notes
		_, err := buffered.WriteString(string(notes))
		return errors.Join(err, buffered.Flush())
	}
	number := -1
	for n := doc.FirstChild(); n != nil; n = n.NextSibling() {
		number++
		if h, ok := n.(*ast.Heading); ok {
			section := next()
			if h.Level <= b.stepLevel() && !whole {
				finish()
				current = part{section: section}
				if err := tell(number); err != nil {
					return nil, nil, err
				}
				continue
			}
		}
		if _, ok := n.(*safetyMessage); ok && len(parts) == 0 && current.section == nil && !b.headed(n) {
			var one bytes.Buffer
			if err := b.s.renderer.Render(&one, b.source, n); err != nil {
				return nil, nil, err
			}
			safety = append(safety, template.HTML(one.String()))
			if notes := b.notes(number); !walked && notes != "" {
				safety = append(safety, notes)
			}
			if walked {
				if err := b.stop(n.(*safetyMessage)); err != nil {
					return nil, nil, err
				}
			}
			continue
		}
		if !whole && b.isAnswers(current.section, n) {
			if err := tell(number); err != nil {
				return nil, nil, err
			}
			continue
		}
		from := out.Len()
		if err := b.s.renderer.Render(buffered, b.source, n); err != nil {
			return nil, nil, err
		}
		if walked {
			if err := b.place(&current, n, template.HTML(out.String()[from:])); err != nil {
				return nil, nil, err
			}
		}
		if err := tell(number); err != nil {
			return nil, nil, err
		}
	}
	finish()
	return safety, parts, nil
}

// stepLevel is the level of the headings of steps in the prepared tree.
func (b *body) stepLevel() int {
	if b.s.paper != nil {
		return 2 + 1
	}
	return 2
}

// headed tells whether a heading comes before the node.
func (b *body) headed(n ast.Node) bool {
	for p := n.PreviousSibling(); p != nil; p = p.PreviousSibling() {
		if p.Kind() == ast.KindHeading {
			return true
		}
	}
	return false
}

// isAnswers tells whether the node is the list that closes a step: the page shows it as answers instead.
func (b *body) isAnswers(s *manual.Section, n ast.Node) bool {
	if s == nil || len(s.Answers) == 0 || n.Kind() != ast.KindList {
		return false
	}
	for next := n.NextSibling(); next != nil; next = next.NextSibling() {
		if h, ok := next.(*ast.Heading); ok {
			return h.Level <= b.stepLevel()
		}
		if next.Kind() != ast.KindLinkReferenceDefinition {
			return false
		}
	}
	return true
}

// prepare changes the syntax tree into what the renderer writes: links to pages, pictures to assets, calculators, listings, safety messages.
func (b *body) prepare(doc ast.Node) {
	var found []ast.Node
	err := ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			found = append(found, n)
		}
		return ast.WalkContinue, nil
	})
	b.err = errors.Join(b.err, err)
	for _, n := range found {
		switch n := n.(type) {
		case *ast.Link:
			b.link(n)
		case *ast.Heading:
			b.heading(n)
			b.alias(n)
		case *ast.Image:
			b.picture(n)
		case *manual.SourceMark:
			b.sources(n)
		case *ast.FencedCodeBlock:
			b.listing(n)
		case *ast.Blockquote:
			if p := n.FirstChild(); p != nil {
				if shown, means := b.a.SignalWord(p, b.source); means != "" {
					b.safety(n, p, shown, means)
				}
			}
		case *east.Table:
			b.tables++
			wrap(n, &wideTable{label: b.s.label(fmt.Sprintf("%s %d", b.s.words.say("Table"), b.tables))})
		case *east.TableCell:
			if !n.HasChildren() && n.Parent().Kind() == east.KindTableHeader {
				n.Parent().ReplaceChild(n.Parent(), n, &corner{})
			}
		}
	}
}

// wrap puts a node into another in its place.
func wrap(n, around ast.Node) {
	n.Parent().ReplaceChild(n.Parent(), n, around)
	around.AppendChild(around, n)
}

// moveChildren gives a node the children of another.
func moveChildren(from, to ast.Node) {
	for c := from.FirstChild(); c != nil; {
		following := c.NextSibling()
		to.AppendChild(to, c)
		c = following
	}
}

// link turns a link to an article into one to its page. A link that a browser would run, or that leads out of the manual, becomes plain text.
func (b *body) link(n *ast.Link) {
	to, ok := b.leads(string(n.Destination))
	if ok {
		n.Destination = []byte(to.href)
		b.see(n, to.number)
		if to.language != "" {
			foreign := &foreignLink{href: to.href, language: to.language}
			n.Parent().ReplaceChild(n.Parent(), n, foreign)
			moveChildren(n, foreign)
		}
		return
	}
	parent := n.Parent()
	for c := n.FirstChild(); c != nil; {
		following := c.NextSibling()
		parent.InsertBefore(parent, n, c)
		c = following
	}
	parent.RemoveChild(parent, n)
}

// see puts the number of a section behind a link that leads to it, on paper; of several links in a row to one section, behind the first.
func (b *body) see(link ast.Node, number string) {
	if number == "" {
		return
	}
	block := link.Parent()
	for block.Type() == ast.TypeInline {
		block = block.Parent()
	}
	if block == b.seenIn && number == b.seen {
		return
	}
	b.seenIn, b.seen = block, number
	if block.Kind() != east.KindTableCell { // there is little room in a table
		number = b.s.words.say("see") + noBreak + number
	}
	link.Parent().InsertAfter(link.Parent(), link, &sectionNumber{text: number})
}

// heading moves a heading of the text one level lower on paper, where it stands under the title of its section.
func (b *body) heading(n *ast.Heading) {
	if b.s.paper == nil {
		return
	}
	n.Level = min(n.Level+1, 6)
	if id, ok := n.AttributeString("id"); ok {
		n.SetAttributeString("id", []byte(b.s.anchor(string(id.([]byte)))))
	}
}

// destination is where a link leads.
type destination struct {
	href     string
	language string // of the page there, where that is not the page's own
	number   string // on paper, of the section there
}

// leads gives the destination of a link. One to an article leads to it in the language of the page where there is one, and there to the section
// in the same place.
func (b *body) leads(target string) (destination, bool) {
	d, problem := b.s.Manual.Resolve(b.a, target)
	if problem != nil {
		return destination{}, false
	}
	switch {
	case d.Outside != "":
		return destination{href: d.Outside}, true
	case d.Picture != nil:
		return destination{href: b.root + b.s.pics[d.Picture.Path]}, true
	case d.Article == nil:
		return destination{}, false
	}
	to, section := d.Article, d.Section
	if to.Original != nil && b.s.Manual.LeftOut(to) { // a translation that nobody gets
		to, section = to.Original, nil
	}
	if to.Language == "" {
		to = b.s.local(to)
	}
	if section != nil && to != d.Article {
		section = d.Article.Same(section, to)
	}
	anchor := ""
	if section != nil {
		anchor = "#" + section.Anchor
	}
	if to == b.a && anchor != "" {
		return destination{href: "#" + b.s.anchor(section.Anchor)}, true
	}
	if to.Language != "" && to.Language != b.s.language { // named by its file
		return destination{href: b.root + articlePage(to) + anchor, language: to.Language}, true
	}
	page := articlePage(original(to))
	return destination{b.s.address(b.root, b.s.to(page)+anchor), b.s.foreign(page), b.s.number(page)}, true
}

// picture turns a picture's file into its asset. One that is not in the manual becomes its description.
func (b *body) picture(n *ast.Image) {
	d, problem := b.s.Manual.Resolve(b.a, string(n.Destination))
	if problem != nil || d.Picture == nil {
		n.Parent().ReplaceChild(n.Parent(), n, ast.NewString([]byte(manual.Plain(n, b.source))))
		return
	}
	n.Destination = []byte(b.root + b.s.pics[d.Picture.Path])
	more := b.s.sizes[d.Picture.Path]
	if b.s.paper == nil { // loaded when the reader comes near it; a printer does not scroll
		more += ` loading="lazy"`
	}
	n.SetAttributeString("more", more)
}

// sources turns a mark of sources into their numbers. A name that is none of them, which has been reported, leaves nothing.
func (b *body) sources(n *manual.SourceMark) {
	var numbers []int
	for _, name := range n.Names {
		for _, i := range b.a.SourcesNamed(name) {
			numbers = append(numbers, i+1)
		}
	}
	slices.Sort(numbers)
	n.Parent().ReplaceChild(n.Parent(), n, &restsOn{numbers: slices.Compact(numbers), said: b.s.words.say("Source"), links: b.s.paper == nil})
}

// listing turns a fenced block into a calculator or a coloured listing.
func (b *body) listing(n *ast.FencedCodeBlock) {
	var html string
	var err error
	name, sum := manual.Calculator(n, b.source)
	if sum {
		html, err = b.sum(name)
	} else {
		language, text := string(n.Language(b.source)), string(n.Lines().Value(b.source))
		if b.lit += len(text); b.lit > mostHighlighted {
			language = "" // which is shown as plain text
		}
		html, err = highlight(language, text)
	}
	b.err = errors.Join(b.err, err)
	n.Parent().ReplaceChild(n.Parent(), n, &ready{html: html, sum: sum})
}

// sum renders the next calculator of the article with the model's input values.
func (b *body) sum(name string) (string, error) {
	if b.sums >= len(b.a.Sums) {
		return "", fmt.Errorf("%s: calculator %s is not in the model", b.a.Path, name)
	}
	sum := b.a.Sums[b.sums]
	id, times := "sum-"+name, 1
	for _, before := range b.a.Sums[:b.sums] {
		if before.Calculator == name {
			times++
			id = fmt.Sprintf("sum-%s-%d", name, times)
		}
	}
	b.sums++
	html, err := b.s.sum(id, sum.Calculator, sum.Inputs)
	if err != nil {
		return "", fmt.Errorf("%s: %w", sum.At, err)
	}
	return html, nil
}

// safety turns a block quote that opens with a signal word into a safety message.
func (b *body) safety(n *ast.Blockquote, p ast.Node, word, means string) {
	m := &safetyMessage{word: word, means: means}
	wrap(n, m)
	for c := n.FirstChild(); c != nil; { // the message's paragraphs take the block quote's place
		following := c.NextSibling()
		m.InsertBefore(m, n, c)
		c = following
	}
	m.RemoveChild(m, n)
	// The word stands on its colour above; in the text it goes, with the mark that followed it.
	lead := p.FirstChild()
	rest := strings.TrimLeft(strings.TrimPrefix(manual.Plain(lead, b.source), word), " :.!,")
	if rest == "" {
		p.RemoveChild(p, lead)
		if t, ok := p.FirstChild().(*ast.Text); ok {
			t.Segment = t.Segment.TrimLeftSpace(b.source)
			for t.Segment.Len() > 0 && strings.ContainsRune(":.!, ", rune(b.source[t.Segment.Start])) {
				t.Segment = t.Segment.WithStart(t.Segment.Start + 1)
			}
		}
		return
	}
	strong := ast.NewEmphasis(2)
	strong.AppendChild(strong, ast.NewString([]byte(rest)))
	p.ReplaceChild(p, lead, strong)
}
