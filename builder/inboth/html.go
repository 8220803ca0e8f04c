package inboth

import (
	"strings"

	"tankside/builder/quantity"
)

// apart are elements whose text is not running text: it is left alone, and nothing reads across it. What a page has in both families
// already, in elements of the classes si and us, is another.
const apart = phraseList(",script,style,textarea,select,code,pre,head,sup,template,button,")

// inline are elements within a run of text.
const inline = phraseList(",a,b,strong,em,i,span,mark,small,abbr,del,q,cite,dfn,bdi,sub,tspan,")

// HTML puts amounts of the other family into the text of a page, or of a part of one. Nothing else of it changes.
func HTML(page []byte) []byte {
	r := reader{page: string(page)}
	r.read()
	if r.out == nil {
		return page
	}
	return append(r.out, page[r.written:]...)
}

type reader struct {
	page    string
	out     []byte
	written int // of the page

	run    []byte // text without its markup
	at     []int  // where in the page each byte of it stands
	digits bool
	svg    bool
}

func (r *reader) read() {
	page := r.page
	for i := 0; i < len(page); {
		c := page[i]
		if c == '&' {
			i = r.entity(i)
			continue
		}
		if c != '<' {
			r.run, r.at = append(r.run, c), append(r.at, i)
			r.digits = r.digits || digitByte(c) || c == 0xc2 && i+1 < len(page) && page[i+1] >= 0xbc && page[i+1] <= 0xbe
			i++
			continue
		}
		end := i + tagEnd(page[i:])
		name, closing := tagName(page[i:end])
		switch {
		case name == "":
		case !closing && (apart.has(name) || both(page[i:end])):
			if !inline.has(name) && name != "code" && name != "sup" {
				r.flush()
			}
			r.run, r.at = append(r.run, object), append(r.at, i)
			end += skip(page[end:], name)
		case name == "svg":
			r.flush()
			r.svg = !closing
		case name == "br":
			r.run, r.at = append(r.run, '\n'), append(r.at, i)
		case !inline.has(name):
			r.flush()
		}
		i = end
	}
	r.flush()
}

// entity reads a character reference: of those that a page writes, the ones that matter to an amount.
func (r *reader) entity(i int) int {
	end := strings.IndexByte(r.page[i:min(len(r.page), i+10)], ';')
	if end < 0 {
		r.run, r.at = append(r.run, '&'), append(r.at, i)
		return i + 1
	}
	text := "?"
	switch r.page[i+1 : i+end] {
	case "nbsp":
		text = "\u00a0"
	case "#43":
		text = "+"
	case "#39":
		text = "'"
	}
	for j := range len(text) {
		r.run, r.at = append(r.run, text[j]), append(r.at, i)
	}
	return i + end + 1
}

// flush writes what has been gathered of a run of text.
func (r *reader) flush() {
	if r.digits {
		text := string(r.run)
		done := 0
		for _, a := range find(text) {
			if a.why != converted || a.from < done {
				continue
			}
			done = r.put(text, a)
		}
	}
	r.run, r.at, r.digits = r.run[:0], r.at[:0], false
}

// put writes an amount with the other one before it, and gives where in the run it ends.
func (r *reader) put(text string, a *amount) int {
	class := "us"
	if a.toward() == quantity.SI {
		class = "si"
	}
	if r.out == nil {
		r.out = make([]byte, 0, len(r.page)+len(r.page)/8)
	}
	if p, is := pairAt(text, a); is && firstOf(r.page[r.at[a.from]:r.end(p.to)], "<&") < 0 {
		other := "si"
		if class == "si" {
			other = "us"
		}
		r.copy(r.at[a.from])
		r.mark(other, text[a.from:p.to])
		r.mark(class, p.swapped)
		r.written = r.end(p.to)
		return p.to
	}
	r.copy(r.at[a.from])
	r.mark(class, a.other+"\u00a0(")
	r.copy(r.end(a.to))
	r.mark(class, ")")
	return a.to
}

// end is where in the page the text before a place of the run ends.
func (r *reader) end(place int) int {
	last := r.at[place-1]
	if r.page[last] == '&' {
		if n := strings.IndexByte(r.page[last:min(len(r.page), last+10)], ';'); n > 0 {
			return last + n + 1
		}
	}
	return last + 1
}

func (r *reader) copy(to int) {
	r.out = append(r.out, r.page[r.written:to]...)
	r.written = to
}

func (r *reader) mark(class, text string) {
	tag := "span"
	if r.svg {
		tag = "tspan"
	}
	r.out = append(r.out, "<"+tag+" class=\""+class+"\">"+text+"</"+tag+">"...)
}

// tagEnd is the length of the tag, or comment, at the head of a page; quoted attributes may hold what looks like its end.
func tagEnd(page string) int {
	if strings.HasPrefix(page, "<!--") {
		if end := strings.Index(page, "-->"); end >= 0 {
			return end + 3
		}
		return len(page)
	}
	quote := byte(0)
	for i := 1; i < len(page); i++ {
		switch c := page[i]; {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			return i + 1
		}
	}
	return len(page)
}

// tagName is the name of a tag's element.
func tagName(tag string) (name string, closing bool) {
	i := 1
	if i < len(tag) && tag[i] == '/' {
		closing = true
		i++
	}
	from := i
	for i < len(tag) && wordByte(tag[i]) {
		i++
	}
	return tag[from:i], closing
}

// both tells whether an element holds what is shown to readers of one family alone, or asks to be left as it is.
func both(tag string) bool {
	at := strings.Index(tag, `class="`)
	if at < 0 {
		return false
	}
	class := tag[at+7:]
	if end := strings.IndexByte(class, '"'); end >= 0 {
		class = class[:end]
	}
	class = " " + class + " "
	return strings.Contains(class, " si ") || strings.Contains(class, " us ")
}

// skip is how far it is behind an element that has begun.
func skip(page, name string) int {
	depth := 1
	for i := 0; i < len(page); {
		at := strings.IndexByte(page[i:], '<')
		if at < 0 {
			break
		}
		i += at
		if name == "script" || name == "style" { // may hold anything but its own end
			if strings.HasPrefix(page[i:], "</"+name) {
				return i + tagEnd(page[i:])
			}
			i++
			continue
		}
		end := i + tagEnd(page[i:])
		if n, closing := tagName(page[i:end]); n == name {
			if closing {
				depth--
			} else {
				depth++
			}
			if depth == 0 {
				return end
			}
		}
		i = end
	}
	return len(page)
}
