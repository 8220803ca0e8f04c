package manual

import (
	"bytes"
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"tankside/builder/finding"
)

// bodyReader goes once through the syntax tree of a body and takes out what the model keeps. The tree is not kept.
type bodyReader struct {
	d      *decoder
	a      *Article
	source []byte
	starts []int // byte offset of the start of each line
	kept   strings.Builder
}

func readBody(d *decoder, a *Article) {
	r := &bodyReader{d: d, a: a, source: a.Body, starts: lineStarts(a.Body)}
	r.kept.Grow(len(a.Body) / 6) // more than most need
	a.Links = make([]Link, 0, bytes.Count(a.Body, []byte("](")))
	doc := Parse(a.Body)
	r.sections(doc)
	if a.Language == "" {
		a.Blocks = blocksOf(doc, a.Body, a)
	}
	if len(a.Links) == 0 {
		a.Links = nil
	}
}

// keep gives bytes as a string. All strings that are kept of one body share their memory: one piece of it for the garbage collector to know
// of instead of dozens, in each article of a large manual.
func (r *bodyReader) keep(b []byte) string {
	from := r.kept.Len()
	r.kept.Write(b)
	return r.kept.String()[from:]
}

// plain is the text of a node without its markup, kept.
func (r *bodyReader) plain(n ast.Node) string {
	from := r.kept.Len()
	writePlain(&r.kept, n, r.source)
	return strings.TrimSpace(r.kept.String()[from:])
}

func lineStarts(source []byte) []int {
	starts := make([]int, 1, 1+bytes.Count(source, []byte{'\n'}))
	for i, c := range source {
		if c == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// at is the place in the file of a byte offset in the body.
func (r *bodyReader) at(offset int) finding.Place {
	offset = max(0, min(offset, len(r.source)))
	line, exact := slices.BinarySearch(r.starts, offset)
	if !exact {
		line--
	}
	column := utf8.RuneCount(r.source[r.starts[line]:offset]) + 1
	return finding.Place{File: r.a.Path, Line: r.a.Start + line, Column: column}
}

// position is where a node begins, taken from the nearest one that knows: the parser gives no position to some.
func position(n ast.Node) int {
	for m := n; m != nil; m = m.Parent() {
		if p := m.Pos(); p >= 0 {
			return p
		}
		if m.Type() == ast.TypeBlock && m.Lines().Len() > 0 {
			return m.Lines().At(0).Start
		}
	}
	return 0
}

// sections divides the body at its headings and reads each block on the way.
func (r *bodyReader) sections(doc ast.Node) {
	current := Section{At: r.at(0)}
	var text strings.Builder // of all sections, which share its memory
	text.Grow(len(r.source))
	from := 0         // where the section's text begins
	var last ast.Node // the latest block of the step, sub-sections included
	step := 0         // index of the section that a closing list belongs to

	closeStep := func() {
		if step < len(r.a.Sections) {
			r.answers(&r.a.Sections[step], last)
		}
	}
	flush := func() {
		current.Text = strings.TrimSpace(text.String()[from:])
		from = text.Len()
		if current.Level > 0 || current.Text != "" {
			r.a.Sections = append(r.a.Sections, current)
		}
	}
	r.a.Sections = make([]Section, 0, 1+headings(doc))
	for block := doc.FirstChild(); block != nil; block = block.NextSibling() {
		h, isHeading := block.(*ast.Heading)
		if !isHeading {
			r.block(block)
			if p, ok := block.(*ast.Paragraph); ok {
				if lead := r.lead(p); lead != "" {
					current.Leads = append(current.Leads, Lead{Text: lead, At: r.at(position(p))})
					if lead == seenWith && r.a.Kind == Symptom && r.a.Language == "" && current.Signs == nil {
						current.Signs = r.signs(p)
					}
				}
			}
			writePlain(&text, block, r.source)
			text.WriteByte('\n')
			if _, ok := block.(*ast.LinkReferenceDefinition); !ok {
				last = block
			}
			continue
		}
		flush()
		if h.Level <= 2 {
			closeStep()
			step, last = len(r.a.Sections), nil
		}
		current = Section{Level: h.Level, Heading: r.plain(h), Anchor: r.keep(idOf(h)), At: r.at(position(h))}
		if h.Level == 1 {
			r.d.report(ruleTopHeading, current.At, "The text has a heading of level 1, “"+current.Heading+"”.",
				"Write it with two number signs: ## "+current.Heading)
		}
		r.inlines(h)
	}
	flush()
	closeStep()
}

// headings counts the headings that begin a section.
func headings(doc ast.Node) int {
	n := 0
	for block := doc.FirstChild(); block != nil; block = block.NextSibling() {
		if block.Kind() == ast.KindHeading {
			n++
		}
	}
	return n
}

// idOf is the anchor of a heading, or nil.
func idOf(h *ast.Heading) []byte {
	if v, ok := h.AttributeString("id"); ok {
		if b, ok := v.([]byte); ok {
			return b
		}
	}
	return nil
}

// block reads one block and everything in it.
func (r *bodyReader) block(n ast.Node) {
	switch n := n.(type) {
	case *ast.HTMLBlock:
		r.rawHTML(position(n))
		return
	case *ast.FencedCodeBlock:
		r.calculator(n)
		return
	case *ast.CodeBlock:
		return
	case *ast.Blockquote:
		r.quote(n)
	case *ast.Paragraph:
		r.strayMessage(n)
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if c.Type() == ast.TypeInline {
			r.inlines(n)
			return
		}
		r.block(c)
	}
}

// inlines reads the links, pictures and raw HTML in a line of text.
func (r *bodyReader) inlines(n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Link:
			r.a.Links = append(r.a.Links, r.link(c))
		case *ast.AutoLink:
			r.a.Links = append(r.a.Links, Link{
				Target: r.keep(c.URL(r.source)), Text: r.keep(c.Label(r.source)), At: r.at(position(c)),
			})
		case *ast.Image:
			r.a.Pictures = append(r.a.Pictures, Link{
				Target: r.keep(c.Destination), Text: r.plain(c), At: r.at(position(c)),
			})
			continue
		case *ast.RawHTML:
			r.rawHTML(position(c))
			continue
		case *SourceMark:
			for _, name := range c.Names {
				r.a.Marks = append(r.a.Marks, Ref{Name: name, At: r.at(c.Offset)})
			}
			continue
		}
		r.inlines(c)
	}
}

func (r *bodyReader) link(n *ast.Link) Link {
	return Link{Target: r.keep(n.Destination), Text: r.plain(n), At: r.at(position(n))}
}

func (r *bodyReader) rawHTML(offset int) {
	offset = max(0, min(offset, len(r.source)))
	end := bytes.IndexAny(r.source[offset:], ">\n")
	piece := r.source[offset:]
	if end >= 0 {
		piece = piece[:min(end+1, len(piece))]
	}
	r.d.report(ruleRawHTML, r.at(offset), "The text has HTML in it: "+clip(strings.TrimSpace(string(piece)), 40),
		"Write it in markdown, or put it between back-ticks if the reader is to see the characters. "+
			"A less-than sign before a letter starts HTML: write “less than”, or put a backslash before it.")
}

// clip shortens a text that is quoted in a message.
func clip(s string, runes int) string {
	if utf8.RuneCountInString(s) <= runes {
		return s
	}
	return string([]rune(s)[:runes]) + "…"
}

// lead is the bold opening of a paragraph, such as “Recheck.”, or "".
func (r *bodyReader) lead(p ast.Node) string {
	if e, ok := p.FirstChild().(*ast.Emphasis); ok && e.Level == 2 {
		return r.plain(e)
	}
	return ""
}

// signal takes apart the opening of a paragraph into a signal word and the rest of the bold text. The word is as written:
// whoever asks looks for its meaning.
func (r *bodyReader) signal(p ast.Node) (word, rest string) {
	word, rest, _ = strings.Cut(r.lead(p), " ")
	return strings.TrimRight(word, ":.!,"), strings.TrimSpace(rest)
}

// quote reads a block quote: a safety message when its first word in bold is a signal word.
func (r *bodyReader) quote(n *ast.Blockquote) {
	for p := n.FirstChild(); p != nil; p = p.NextSibling() {
		if _, ok := p.(*ast.Paragraph); !ok {
			continue
		}
		word, _ := r.signal(p)
		at := r.at(position(p))
		switch {
		case r.a.signals.meaning(word) != "" && p == n.FirstChild():
			r.a.Signals = append(r.a.Signals, Signal{Word: r.a.signals.meaning(word), Shown: word, Text: r.message(n, word), At: r.at(position(n))})
		case r.a.signals.meaning(word) != "":
			r.d.report(ruleUnclearSignal, at, "Two safety messages share one block quote; the second, "+word+", would be read as part of the first.",
				"Leave an empty line without > between them, so that each has a block quote of its own.")
		case r.a.signals.meaning(strings.ToUpper(word)) != "":
			r.d.report(ruleUnclearSignal, at, "The block quote opens with “"+word+"”, which is no signal word as it is written.",
				"Write **"+strings.ToUpper(word)+"** in capitals.")
		}
	}
}

// message is the text of a safety message without its signal word.
func (r *bodyReader) message(n ast.Node, word string) string {
	text := strings.TrimPrefix(r.plain(n), word)
	return strings.TrimLeftFunc(text, func(c rune) bool { return unicode.IsSpace(c) || strings.ContainsRune(":.!,", c) })
}

// strayMessage reports a paragraph that opens like a safety message without being in a block quote.
func (r *bodyReader) strayMessage(p ast.Node) {
	if _, inQuote := p.Parent().(*ast.Blockquote); inQuote {
		return
	}
	if word, _ := r.signal(p); r.a.signals.meaning(word) != "" {
		r.d.report(ruleUnclearSignal, r.at(position(p)), "The paragraph opens with "+word+" but is not in a block quote, so it would not be shown as a safety message.",
			"Put > and a blank before each of its lines.")
	}
}

// answers reads the list that closes a step. It holds the answers when each item ends in a link.
// A numbered list is what to do, never the answers.
func (r *bodyReader) answers(s *Section, last ast.Node) {
	list, ok := last.(*ast.List)
	if !ok || list.IsOrdered() || s.Level != 2 {
		return
	}
	var found []Answer
	var without []finding.Place
	for item := list.FirstChild(); item != nil; item = item.NextSibling() {
		if a, ok := r.answer(item); ok {
			found = append(found, a)
		} else {
			without = append(without, r.at(position(item)))
		}
	}
	if len(without) == 0 {
		s.Answers = found
		return
	}
	// One forgotten link would turn a question into a remedy without a word: keep the places, so that package tree can say so.
	for _, a := range found {
		if strings.HasPrefix(strings.TrimPrefix(a.Link.Target, path.Base(r.a.Path)), "#") {
			s.Unlinked = without
			return
		}
	}
}

func (r *bodyReader) answer(item ast.Node) (Answer, bool) {
	block := item.LastChild()
	if block == nil || block != item.FirstChild() {
		return Answer{}, false
	}
	last := block.LastChild()
	for last != nil {
		t, isText := last.(*ast.Text)
		if !isText || strings.Trim(string(t.Value(r.source)), " .\t") != "" {
			break
		}
		last = last.PreviousSibling()
	}
	link, ok := last.(*ast.Link)
	if !ok {
		return Answer{}, false
	}
	var b strings.Builder
	for c := block.FirstChild(); c != nil && c != last; c = c.NextSibling() {
		writePlain(&b, c, r.source)
	}
	a := Answer{Text: strings.TrimRight(strings.TrimSpace(b.String()), ":– "), Link: r.link(link)}
	if a.Text == "" {
		a.Text = a.Link.Text
	}
	return a, true
}

// calculatorName gives the name after the word “calculator” in the info string of a listing, and whether it is a calculator at all.
func Calculator(n *ast.FencedCodeBlock, source []byte) (string, bool) {
	if n.Info == nil {
		return "", false
	}
	words := strings.Fields(string(n.Info.Value(source)))
	if len(words) == 0 || words[0] != "calculator" {
		return "", false
	}
	return strings.Join(words[1:], " "), true
}

// calculator reads a calculator's listing.
func (r *bodyReader) calculator(n *ast.FencedCodeBlock) {
	name, is := Calculator(n, r.source)
	if !is {
		return
	}
	sum := Sum{Calculator: name, At: r.at(position(n))}
	if name == "" {
		r.d.report(ruleCalculatorText, sum.At, "The calculator has no name.", "Write it after the word: ```calculator heat-up")
	}
	lines := n.Lines()
	switch {
	case r.a.Language != "" && len(bytes.TrimSpace(lines.Value(r.source))) > 0:
		r.d.report(ruleRepeatedFact, sum.At, "The translation repeats inputs of the calculator.", "Take the lines out: the original's calculator in the same place gives them.")
	case lines.Len() > 0:
		first := r.at(lines.At(0).Start)
		sum.Inputs = r.d.inputs(lines.Value(r.source), first)
	}
	r.a.Sums = append(r.a.Sums, sum)
}

func isCell(n ast.Node) bool {
	_, ok := n.(*east.TableCell)
	return ok
}
