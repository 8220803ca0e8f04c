package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"unicode/utf8"
)

// Namespaces. Sources: SVG 2 (W3C Candidate Recommendation 2018), 1.4 and 5.3.2; XLink 1.1 (W3C 2010), 3; Namespaces in XML 1.0, 3.
const (
	spaceSVG   = "http://www.w3.org/2000/svg"
	spaceXLink = "http://www.w3.org/1999/xlink"
	spaceXML   = "http://www.w3.org/XML/1998/namespace"
)

const (
	maxProblems = 10      // of one drawing
	maxDepth    = 100     // elements within each other
	maxDrawn    = 200_000 // elements that a browser draws, with those that are used several times
)

// drawing reads an SVG file piece by piece. A piece that is kept is copied as it is written.
type drawing struct {
	data     []byte
	deep     bool // photographs in the drawing are decoded
	out      []byte
	problems []*Problem

	width, height int // in CSS pixels

	reader   *xml.Decoder
	open     []element       // the elements that are open, from the outermost
	skipping int             // how many open elements belong to one that is left out
	ended    bool            // the drawing's own element is closed
	over     bool            // nothing further can be said
	pixels   int             // of all photographs in the drawing
	styles   strings.Builder // the text of the style element that is open
	plan     plan
}

// element is an open element of the drawing.
type element struct {
	name string
	node int // in the plan
	at   int // where it begins
}

// readDrawing reads a drawing. Where it has problems, nothing else of the result counts.
func readDrawing(data []byte, deep bool) *drawing {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	d := &drawing{data: data, deep: deep, out: make([]byte, 0, len(data)), reader: xml.NewDecoder(bytes.NewReader(data))}
	for !d.full() && !d.over {
		start := int(d.reader.InputOffset())
		token, err := d.reader.Token()
		if errors.Is(err, io.EOF) {
			d.end()
			break
		}
		if err != nil {
			d.unreadable(err)
			break
		}
		d.piece(token, start, int(d.reader.InputOffset()))
	}
	return d
}

// full tells whether enough problems have been found.
func (d *drawing) full() bool { return len(d.problems) >= maxProblems }

// refuse reports what stands at an offset.
func (d *drawing) refuse(at int, message, remedy string) {
	if d.full() {
		return
	}
	before := d.data[:at]
	line := 1 + bytes.Count(before, []byte("\n"))
	column := 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
	d.problems = append(d.problems, &Problem{Line: line, Column: column, Message: message, Remedy: remedy})
}

// unreadable reports what is no XML.
func (d *drawing) unreadable(err error) {
	var syntax *xml.SyntaxError
	reason := err.Error()
	if errors.As(err, &syntax) {
		reason = syntax.Msg
	}
	remedy := "Save the drawing again as plain SVG."
	switch {
	case strings.Contains(reason, "invalid UTF-8"), strings.Contains(reason, "CharsetReader"):
		reason, remedy = "its letters are not stored as UTF-8", "Save the drawing again with the encoding UTF-8."
	case strings.Contains(reason, "invalid character entity"):
		remedy = "Write the character itself; of the names only &lt; &gt; &amp; &quot; and &apos; are known without a document type."
	}
	d.refuse(min(int(d.reader.InputOffset()), len(d.data)), "The drawing cannot be read: "+strings.TrimPrefix(reason, "xml: ")+".", remedy)
}

// keep copies a piece of the file.
func (d *drawing) keep(start, end int) { d.out = append(d.out, d.data[start:end]...) }

// piece takes one piece of the file.
func (d *drawing) piece(token xml.Token, start, end int) {
	switch t := token.(type) {
	case xml.StartElement:
		d.begin(t, start, end)
	case xml.EndElement:
		switch {
		case d.skipping > 0:
			d.skipping--
		default:
			d.close()
			d.keep(start, end)
		}
	case xml.CharData:
		d.text(t, start, end)
	case xml.Comment:
		// A browser that met the comment in a page, and not in a drawing, would end it early at these.
		if text := string(t); d.skipping == 0 && !strings.HasPrefix(text, ">") && !strings.HasPrefix(text, "->") && !strings.Contains(text, "--!>") {
			d.keep(start, end)
		}
	case xml.ProcInst:
		switch {
		case d.skipping > 0:
		case t.Target == "xml" && start == 0:
			d.keep(start, end)
		case t.Target == "xml":
			d.refuse(start, "The line that begins with <?xml is not the first of the drawing.", "Move it to the very beginning, or take it out.")
		case t.Target == "xml-stylesheet":
			d.refuse(start, "The drawing calls for a style sheet from outside.", "Take out the line that begins with <?xml-stylesheet.")
		}
	case xml.Directive:
		d.directive(string(t), start)
	}
}

// directive leaves out a document type, which browsers do not read, unless it declares something.
func (d *drawing) directive(text string, start int) {
	switch {
	case !strings.HasPrefix(text, "DOCTYPE"):
		d.refuse(start, "The drawing has a declaration that does not belong there.", "Take out the part that begins with <!"+clip(text, 10)+".")
	case strings.Contains(text, "["):
		d.over = true // whatever follows may use them
		d.refuse(start, "The document type of the drawing declares entities or other things of its own.", "Save the drawing as plain SVG, without a part that begins with <!DOCTYPE.")
	}
}

// begin takes the start of an element.
func (d *drawing) begin(t xml.StartElement, start, end int) {
	if d.skipping > 0 {
		d.skipping++
		return
	}
	name := t.Name.Local
	if len(d.open) == 0 {
		if d.ended {
			d.refuse(start, "Something follows the end of the drawing.", "Keep one <svg> element in the file.")
			d.skipping++
			return
		}
		if problem := root(t); problem != "" {
			d.refuse(start, problem, `Save it as plain SVG, which begins with <svg xmlns="`+spaceSVG+`">.`)
			d.skipping++
			return
		}
		d.size(t, start)
	}
	if reason, no := refusedElements[strings.ToLower(name)]; no {
		d.refuse(start, "The drawing "+reason+" (<"+clip(name, 30)+">).", savePlain)
		d.skipping++
		return
	}
	if t.Name.Space != spaceSVG || name == "metadata" {
		d.skipping++ // what the drawing's program or its author noted
		return
	}
	switch {
	case !elements[name]:
		d.refuse(start, "<"+clip(name, 30)+"> is not part of a still drawing.", savePlain)
		d.skipping++
		return
	case len(d.open) > 0 && wordy(d.open[len(d.open)-1].name):
		d.refuse(start, "A <"+d.open[len(d.open)-1].name+"> of the drawing holds more than words.", "Keep words alone in it.")
		d.skipping++
		return
	case len(d.open) >= maxDepth:
		d.refuse(start, "More than 100 elements stand within each other.", "Dissolve the groups of the drawing, and save it as plain SVG.")
		d.skipping++
		return
	}
	d.open = append(d.open, element{name: name, node: d.plan.begin(name, start), at: start})
	d.attributes(t, start, end)
}

// root says why the first element is not that of a drawing, or "".
func root(t xml.StartElement) string {
	switch {
	case t.Name.Local != "svg":
		return "The file is no drawing: it begins with <" + clip(t.Name.Local, 30) + ">."
	case t.Name.Space != spaceSVG:
		return "The drawing does not say that it is SVG, so browsers do not show it."
	}
	return ""
}

// wordy tells whether an element holds words alone.
func wordy(name string) bool { return name == "title" || name == "desc" || name == "style" }

// close takes the end of an element.
func (d *drawing) close() {
	last := len(d.open) - 1
	d.plan.end()
	if d.open[last].name == "style" {
		d.sheet(d.styles.String(), d.open[last].at)
		d.styles.Reset()
	}
	d.open = d.open[:last]
	d.ended = last == 0
}

// text takes the words between elements.
func (d *drawing) text(text xml.CharData, start, end int) {
	if d.skipping > 0 {
		return
	}
	if len(d.open) == 0 && len(bytes.TrimSpace(text)) > 0 {
		d.refuse(start+len(text)-len(bytes.TrimLeft(text, " \t\r\n")), "There is text before or after the drawing.", "Take it out.")
		return
	}
	if len(d.open) > 0 && d.open[len(d.open)-1].name == "style" {
		d.styles.Write(text)
	}
	if bytes.HasPrefix(d.data[start:], []byte("<![CDATA[")) {
		d.out = append(d.out, escape.Replace(string(text))...) // in a page, unlike in a drawing, it would be markup
		return
	}
	d.keep(start, end)
}

var escape = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// end looks at the drawing as a whole.
func (d *drawing) end() {
	if !d.ended {
		if len(d.problems) == 0 {
			d.refuse(0, "The file holds no drawing.", "Save it again from the program that made it.")
		}
		return
	}
	drawn, at, circle := d.plan.drawn()
	switch {
	case circle:
		d.refuse(at, "Something in the drawing is drawn with itself.", "Break the circle: an element may not refer to one that holds or uses it.")
	case drawn > maxDrawn:
		d.refuse(at, "The drawing has more than 200,000 elements, counting each as often as it is drawn; a tablet could not show it.", "Simplify it, or save it as PNG.")
	}
}
