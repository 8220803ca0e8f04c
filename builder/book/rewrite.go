package book

import (
	"html"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// rewriter turns the main part of a page into a part of the book.
type rewriter struct {
	book   *book
	page   string // the page that the HTML is from
	file   string // the file of the book that it goes to
	anchor string // what its addresses begin with
	number string // of its section
	drop   []dropped

	out   strings.Builder
	notes map[string]int // of tables: the number of the reason at an address
	lists []bool         // open lists and tables: whether numbers stand there without “see”
	see   string         // the number to be written when the link ends
	note  int
	last  string // the number that was written last in this block
}

// dropped is an element that paper does without; an empty class is any.
type dropped struct{ tag, class string }

// usual is dropped in every chapter: headings that the book writes itself, what is pressed, and how a sum was worked out, which stands
// on the article's page; and everyday words, which stand in the index.
var usual = []dropped{
	{"h1", ""}, {"p", "kind"}, {"p", "next"}, {"p", "ask-here"}, {"form", "sum-inputs"}, {"p", "sum-tools"}, {"p", "sum-say"}, {"a", "asking"},
	{"details", "sum-working"}, {"details", "sum-sources"}, {"section", "overview"}, {"p", "also-called"},
}

// blocks end what one has read in one go: after them a section's number is written again.
var blocks = []string{"p", "li", "td", "th", "dd", "h1", "h2", "h3", "h4", "h5"}

// reason is an item of a table's list that gives a reason.
var reason = regexp.MustCompile(`<li id="([^"]+)"><a [^>]*>[^<]*</a>: <a class="fact"`)

// rewrite gives the HTML as it stands in the book.
func (r *rewriter) rewrite(text string) string {
	if strings.Contains(text, `class="matrix-frame`) {
		r.table(text)
	}
	r.out.Grow(len(text))
	skip, depth := "", 0
	for {
		before, t, after, found := nextTag(text)
		if skip == "" {
			r.out.WriteString(before)
		}
		if !found {
			return r.out.String()
		}
		text = after
		switch {
		case skip != "":
			if t.name == skip && t.closing {
				depth--
			} else if t.name == skip {
				depth++
			}
			if depth == 0 {
				skip = ""
			}
		case t.closing:
			r.end(t.name)
		case r.drops(t):
			skip, depth = t.name, 1
		default:
			r.begin(t)
		}
	}
}

// table numbers the reasons of a table. One of few columns has the sentences in its cells, and needs no list of them.
func (r *rewriter) table(text string) {
	if strings.Contains(text, `class="matrix-frame"`) {
		r.drop = append([]dropped{{"section", "reasons"}}, r.drop...)
		return
	}
	r.notes = map[string]int{}
	for i, m := range reason.FindAllStringSubmatch(text, -1) {
		r.notes[m[1]] = i + 1
	}
}

// tag is a tag as the pages are written: lower case, every value in double quotes, none with a greater-than sign in it.
type tag struct {
	closing    bool
	name       string
	attributes string // " class=\"one two\" hidden"
	self       string // "/" where the tag closes itself
}

// nextTag parts a text at its first tag.
func nextTag(text string) (before string, t tag, after string, found bool) {
	before, rest, found := strings.Cut(text, "<")
	if !found {
		return text, t, "", false
	}
	inside, after, found := strings.Cut(rest, ">")
	if !found {
		return text, t, "", false
	}
	inside, t.closing = strings.CutPrefix(inside, "/")
	if cut, self := strings.CutSuffix(inside, "/"); self {
		inside, t.self = cut, "/"
	}
	if end := strings.IndexAny(inside, " \n"); end < 0 {
		t.name = inside
	} else {
		t.name, t.attributes = inside[:end], inside[end:]
	}
	return before, t, after, true
}

// nextAttribute parts attributes at their first. One without a value is given without.
func nextAttribute(attributes string) (key, value string, valued bool, rest string) {
	attributes = strings.TrimLeft(attributes, " \n")
	end := strings.IndexAny(attributes, " \n=")
	if end < 0 {
		return attributes, "", false, ""
	}
	if !strings.HasPrefix(attributes[end:], `="`) {
		return attributes[:end], "", false, attributes[end:]
	}
	value, rest, _ = strings.Cut(attributes[end+2:], `"`)
	return attributes[:end], value, true, rest
}

func (r *rewriter) drops(t tag) bool {
	return slices.ContainsFunc(r.drop, func(d dropped) bool {
		return d.tag == t.name && (d.class == "" || slices.Contains(t.classes(), d.class))
	})
}

func (t tag) classes() []string {
	for rest := t.attributes; rest != ""; {
		var key, value string
		if key, value, _, rest = nextAttribute(rest); key == "class" {
			return strings.Fields(value)
		}
	}
	return nil
}

// lower is a heading one level lower.
func lower(name string) string {
	if len(name) == 2 && name[0] == 'h' && name[1] >= '1' && name[1] <= '5' {
		return "h" + string(name[1]+1)
	}
	return name
}

func (r *rewriter) begin(t tag) {
	r.out.WriteString("<" + lower(t.name))
	address := ""
	for rest := t.attributes; rest != ""; {
		var key, value string
		var valued bool
		key, value, valued, rest = nextAttribute(rest)
		switch key {
		case "href":
			value = r.link(value)
		case "src":
			value = relative(r.file, path.Join(path.Dir(r.page), value))
		case "id":
			address = value
			value = r.anchor + "." + value
		case "aria-label":
			value = r.number + " " + value // two articles may both have a “Table 1”
		case "", "aria-labelledby", "loading": // a sum is no landmark here; a printer does not scroll
			continue
		default:
			if strings.HasPrefix(key, "data-") {
				continue
			}
		}
		r.out.WriteString(" " + key)
		if valued {
			r.out.WriteString(`="` + value + `"`)
		}
	}
	r.out.WriteString(t.self + ">")
	switch t.name {
	case "li":
		if n := r.notes[address]; n > 0 {
			r.out.WriteString(`<b class="note-number">` + strconv.Itoa(n) + `</b> `)
		}
	case "ul", "ol", "dl", "table":
		r.lists = append(r.lists, t.name == "dl" || t.name == "table" || t.name == "ul" && len(t.classes()) > 0)
	}
}

func (r *rewriter) end(name string) {
	r.out.WriteString("</" + lower(name) + ">")
	switch {
	case name == "a":
		switch {
		case r.note > 0:
			r.out.WriteString(`<sup class="note-mark">` + strconv.Itoa(r.note) + `</sup>`)
		case r.see != "" && r.see != r.last:
			text := r.book.parts.Say("see") + "\u00a0" + r.see
			if slices.Contains(r.lists, true) {
				text = r.see
			}
			r.out.WriteString(` <span class="see">(` + html.EscapeString(text) + `)</span>`)
			r.last = r.see
		}
		r.see, r.note = "", 0
	case name == "ul" || name == "ol" || name == "dl" || name == "table":
		if n := len(r.lists); n > 0 {
			r.lists = r.lists[:n-1]
		}
	case slices.Contains(blocks, name):
		r.last = ""
	}
}

// link gives the address in the book of what a link of the page leads to, and keeps the section's number for when the link ends.
func (r *rewriter) link(href string) string {
	target, fragment, fragments := strings.Cut(html.UnescapeString(href), "#")
	if strings.Contains(target, ":") {
		return href
	}
	if target == "" {
		r.note = r.notes[fragment]
		return "#" + html.EscapeString(r.anchor+"."+fragment)
	}
	to := path.Join(path.Dir(r.page), target)
	e := r.book.sections[to]
	if e == nil { // a page that is not in the book
		to = relative(r.file, to)
		if fragments {
			to += "#" + fragment
		}
		return html.EscapeString(to)
	}
	if e.number != r.number {
		r.see = e.number
	}
	address := e.address(r.file)
	if fragments && fragment != "" {
		address += "." + fragment
	}
	return html.EscapeString(address)
}

// relative gives the address of a file of the edition from another.
func relative(from, to string) string {
	return strings.Repeat("../", strings.Count(from, "/")) + to
}
