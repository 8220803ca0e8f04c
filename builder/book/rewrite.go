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

// tag is a tag as the pages are written: lower case, every value in double quotes.
var tag = regexp.MustCompile(`<(/?)([a-z][a-z0-9]*)((?:\s+[\w:-]+(?:="[^"]*")?)*)\s*(/?)>`)

var attribute = regexp.MustCompile(`([\w:-]+)(?:="([^"]*)")?`)

// blocks end what one has read in one go: after them a section's number is written again.
var blocks = []string{"p", "li", "td", "th", "dd", "h1", "h2", "h3", "h4", "h5"}

// reason is an item of a table's list that gives a reason.
var reason = regexp.MustCompile(`<li id="([^"]+)"><a [^>]*>[^<]*</a>: <a class="fact"`)

// rewrite gives the HTML as it stands in the book.
func (r *rewriter) rewrite(text string) string {
	r.notes = map[string]int{}
	for i, m := range reason.FindAllStringSubmatch(text, -1) {
		r.notes[m[1]] = i + 1
	}
	if strings.Contains(text, `class="matrix-frame"`) { // a table of few columns, whose cells have the sentences
		r.drop = append([]dropped{{"section", "reasons"}}, r.drop...)
	}
	skip, depth := "", 0
	at := 0
	for _, m := range tag.FindAllStringSubmatchIndex(text, -1) {
		closing, name, attributes := m[2] < m[3], text[m[4]:m[5]], text[m[6]:m[7]]
		if skip != "" {
			if name == skip {
				if closing {
					depth--
				} else {
					depth++
				}
				if depth == 0 {
					skip = ""
				}
			}
			at = m[1]
			continue
		}
		r.out.WriteString(text[at:m[0]])
		at = m[1]
		switch {
		case closing:
			r.end(name)
		case r.drops(name, attributes):
			skip, depth = name, 1
		default:
			r.begin(name, attributes, text[m[8]:m[9]])
		}
	}
	r.out.WriteString(text[at:])
	return r.out.String()
}

func (r *rewriter) drops(name, attributes string) bool {
	return slices.ContainsFunc(r.drop, func(d dropped) bool {
		return d.tag == name && (d.class == "" || slices.Contains(classes(attributes), d.class))
	})
}

func classes(attributes string) []string {
	for _, a := range attribute.FindAllStringSubmatch(attributes, -1) {
		if a[1] == "class" {
			return strings.Fields(a[2])
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

func (r *rewriter) begin(name, attributes, self string) {
	r.out.WriteString("<" + lower(name))
	address := ""
	for _, a := range attribute.FindAllStringSubmatch(attributes, -1) {
		key, value := a[1], a[2]
		switch key {
		case "href":
			if value = r.link(value); value == "" {
				continue
			}
		case "src":
			value = relative(r.file, path.Join(path.Dir(r.page), value))
		case "id":
			address = value
			value = r.anchor + "." + value
		case "aria-label":
			value = r.number + " " + value // two articles may both have a “Table 1”
		case "aria-labelledby", "loading": // a sum is no landmark here; a printer does not scroll
			continue
		default:
			if strings.HasPrefix(key, "data-") {
				continue
			}
		}
		r.out.WriteString(" " + key)
		if strings.Contains(a[0], "=") {
			r.out.WriteString(`="` + value + `"`)
		}
	}
	r.out.WriteString(self + ">")
	switch name {
	case "li":
		if n := r.notes[address]; n > 0 {
			r.out.WriteString(`<b class="note-number">` + strconv.Itoa(n) + `</b> `)
		}
	case "ul", "ol", "dl", "table":
		r.lists = append(r.lists, name == "dl" || name == "table" || name == "ul" && len(classes(attributes)) > 0)
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
