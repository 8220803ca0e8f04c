package manual

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"strings"

	"tankside/builder/finding"
)

// magic is how the files of each sort of picture begin. An SVG picture is read in full instead.
var magic = map[string][]string{
	".png":  {"\x89PNG\r\n\x1a\n"},
	".jpg":  {"\xff\xd8\xff"},
	".jpeg": {"\xff\xd8\xff"},
	".gif":  {"GIF87a", "GIF89a"},
	".webp": {"RIFF"},
}

// safePicture tells whether a picture is what its name says and holds nothing that runs or loads something.
func safePicture(d *decoder, name string, data []byte) bool {
	bad := func(line int, message, remedy string) bool {
		d.report(ruleUnsafePicture, finding.Place{File: name, Line: line}, message, remedy)
		return false
	}
	extension := strings.ToLower(path.Ext(name))
	if extension != ".svg" {
		for _, m := range magic[extension] {
			if bytes.HasPrefix(data, []byte(m)) {
				return true
			}
		}
		return bad(0, "This is not a "+extension+" picture, whatever its name says.", "Save the picture again from the program that made it.")
	}
	reader := xml.NewDecoder(bytes.NewReader(data))
	reader.Strict = true
	first := true
	for {
		token, err := reader.Token()
		line, _ := reader.InputPos()
		switch {
		case errors.Is(err, io.EOF):
			if first {
				return bad(0, "The drawing is empty.", "Save it again from the program that made it.")
			}
			return true
		case err != nil:
			return bad(line, "The drawing cannot be read: "+strings.TrimPrefix(err.Error(), "XML syntax error on ")+".", "Save it again as plain SVG.")
		}
		switch t := token.(type) {
		case xml.Directive:
			return bad(line, "The drawing has a document type or entity declaration.", "Save it as plain SVG, without a line that begins with <!DOCTYPE.")
		case xml.ProcInst:
			if t.Target != "xml" {
				return bad(line, "The drawing calls for a style sheet from outside.", "Take out the line that begins with <?"+t.Target+".")
			}
		case xml.StartElement:
			if first && t.Name.Local != "svg" {
				return bad(line, "The file is no drawing: it begins with <"+clip(t.Name.Local, 20)+">.", "Save it as plain SVG.")
			}
			first = false
			if problem := runs(t); problem != "" {
				return bad(line, "The drawing has "+problem+".", "Take it out, or save the drawing as plain SVG.")
			}
		case xml.CharData:
			if loads(string(t)) {
				return bad(line, "The drawing loads something from elsewhere.", "Put what it needs into the drawing.")
			}
		}
	}
}

// runs says what an element of a drawing has that could run or load something, or "".
func runs(e xml.StartElement) string {
	switch strings.ToLower(e.Name.Local) {
	case "script", "foreignobject", "iframe", "object", "embed", "audio", "video", "handler", "set", "animate":
		return "a <" + e.Name.Local + "> element"
	}
	for _, a := range e.Attr {
		name := strings.ToLower(a.Name.Local)
		switch {
		case strings.HasPrefix(name, "on"):
			return "the script attribute “" + a.Name.Local + "”"
		case (name == "href" || name == "src") && !strings.HasPrefix(a.Value, "#") && !strings.HasPrefix(a.Value, "data:image/png;") && !strings.HasPrefix(a.Value, "data:image/jpeg;"):
			return "a link to elsewhere (" + clip(a.Value, 40) + ")"
		case a.Name.Space != "xmlns" && name != "xmlns" && name != "href" && loads(a.Value):
			return "something that it loads from elsewhere"
		}
	}
	return ""
}

// loads tells whether a style would fetch something.
func loads(style string) bool {
	s := strings.ToLower(style)
	if strings.Contains(s, "@import") || strings.Contains(s, "javascript:") {
		return true
	}
	for {
		_, rest, found := strings.Cut(s, "url(")
		if !found {
			return false
		}
		if !strings.HasPrefix(strings.TrimLeft(rest, " '\""), "#") {
			return true
		}
		s = rest
	}
}
