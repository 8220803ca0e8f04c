package picture

import (
	"encoding/xml"
	"html"
	"strings"
)

// written is one attribute as it stands in the file.
type written struct {
	start, at, end int // where the blanks before it begin, where it begins, and behind its closing quote
	name           string
}

// attributes takes the start of a kept element, of which it leaves out attributes that are not on the list.
func (d *drawing) attributes(t xml.StartElement, start, end int) {
	list, ok := split(d.data[start:end], len(t.Attr))
	if !ok {
		d.refuse(start, "The drawing cannot be read: the attributes of <"+clip(t.Name.Local, 30)+"> are not set apart by blanks.", "Save the drawing again as plain SVG.")
		return
	}
	seen := make(map[xml.Name]bool, len(list))
	from := start
	for i, a := range t.Attr {
		at := start + list[i].at
		if seen[a.Name] {
			d.refuse(at, "The drawing cannot be read: the attribute “"+clip(list[i].name, 30)+"” stands twice in <"+clip(t.Name.Local, 30)+">.", "Take one of them out.")
			return
		}
		seen[a.Name] = true
		keep, value := d.attribute(a, list[i].name, at)
		switch {
		case !keep:
			d.keep(from, start+list[i].start)
			from = start + list[i].end
		case value != a.Value:
			d.keep(from, at)
			d.out = append(d.out, list[i].name+`="`+html.EscapeString(value)+`"`...)
			from = start + list[i].end
		}
	}
	d.keep(from, end)
}

// attribute tells whether an attribute is kept, and with which value.
func (d *drawing) attribute(a xml.Attr, name string, at int) (keep bool, value string) {
	element := d.open[len(d.open)-1]
	local := a.Name.Local
	prefix, _, prefixed := strings.Cut(name, ":")
	switch {
	case name == "xmlns" || prefix == "xmlns":
		return a.Value == spaceSVG || a.Value == spaceXLink, a.Value
	case prefixed && a.Name.Space == prefix && prefix != "xml":
		d.refuse(at, "The drawing cannot be read: it does not declare what “"+clip(prefix, 30)+":” stands for.", "Save the drawing again as plain SVG.")
		return false, ""
	case strings.HasPrefix(strings.ToLower(local), "on"):
		d.refuse(at, "The drawing runs a program (“"+clip(local, 30)+"”).", savePlain)
		return false, ""
	case a.Name.Space == spaceXML && local == "base":
		d.refuse(at, "The drawing says that what it refers to lies elsewhere (xml:base).", savePlain)
		return false, ""
	case a.Name.Space == spaceXML:
		return local == "space" || local == "lang", a.Value
	case local == "href" && (a.Name.Space == "" || a.Name.Space == spaceXLink):
		return d.href(element, a.Value, at)
	case a.Name.Space != "":
		return false, ""
	case strings.HasPrefix(local, "aria-"):
		return true, a.Value
	case !attributes[local]:
		return false, ""
	}
	ids, problem := styling(a.Value, local == "style")
	if problem != "" {
		d.refuse(at, "The drawing "+problem+" (“"+clip(local, 30)+"”).", savePlain)
	}
	d.plan.refer(element.node, ids...)
	d.plan.name(element.node, local, a.Value)
	return true, a.Value
}

// split finds the attributes in the start of an element. It is not ok where the reader has found others, or where one follows the
// other without a blank, which browsers refuse.
func split(tag []byte, count int) ([]written, bool) {
	const blanks = " \t\r\n"
	s := string(tag)
	at := strings.IndexAny(s, blanks+"/>")
	var list []written
	for {
		start := at
		for at < len(s) && strings.IndexByte(blanks, s[at]) >= 0 {
			at++
		}
		if at >= len(s) || s[at] == '/' || s[at] == '>' {
			return list, len(list) == count
		}
		quote := strings.IndexAny(s[at:], `"'`)
		if quote < 0 || at == start {
			return nil, false
		}
		quote += at
		closing := strings.IndexByte(s[quote+1:], s[quote])
		if closing < 0 {
			return nil, false
		}
		end := quote + closing + 2
		list = append(list, written{start: start, at: at, end: end, name: strings.Trim(s[at:quote], blanks+"=")})
		at = end
	}
}
