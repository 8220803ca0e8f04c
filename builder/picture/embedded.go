package picture

import (
	"bytes"
	"encoding/base64"
	"strings"
)

// photographs are how addresses begin that hold a photograph themselves. Source: the data URL scheme, RFC 2397.
var photographs = []struct {
	prefix string
	sort   sort
}{
	{"data:image/png;base64,", png},
	{"data:image/jpeg;base64,", jpg},
	{"data:image/jpg;base64,", jpg}, // not a registered type, but written
}

// href tells whether what an element refers to may stay, and as what: another part of the drawing, or a photograph within it.
func (d *drawing) href(e element, value string, at int) (keep bool, as string) {
	target := strings.TrimSpace(value)
	if id, inside := strings.CutPrefix(target, "#"); inside {
		d.plan.refer(e.node, id)
		return true, value
	}
	for _, p := range photographs {
		if text, is := strings.CutPrefix(target, p.prefix); is && e.name == "image" {
			return true, d.photograph(p.sort, text, value, at)
		}
	}
	remedy := "Draw it within the drawing, or take the reference out."
	if e.name == "image" {
		remedy = "Embed the picture in the drawing as PNG or JPEG, or take it out."
	}
	d.refuse(at, "The drawing refers to something outside of it: "+clip(target, 40)+".", remedy)
	return false, ""
}

// photograph gives the address of a photograph within a drawing, cleaned like any other but in its own size.
func (d *drawing) photograph(s sort, text, value string, at int) string {
	bad := func(message, remedy string) string {
		d.refuse(at, "A photograph in the drawing: "+message, remedy)
		return value
	}
	text = strings.Map(func(r rune) rune {
		if strings.ContainsRune(" \t\r\n", r) {
			return -1
		}
		return r
	}, text)
	data, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		return bad("its data is not base64.", "Embed it again.")
	}
	if is, _ := look(data); is != s {
		return bad("it is not what its address says.", "Embed it again, as PNG or JPEG.")
	}
	r, problem := scan(s, data)
	if problem != nil {
		return bad(problem.Message, problem.Remedy)
	}
	if d.pixels += r.width * r.height; d.pixels > maxPixels {
		return bad("all of them together have too many pixels.", "Make them smaller before you embed them.")
	}
	if !d.deep {
		return value
	}
	p, problem := r.prepare(r.width+r.height, r.width+r.height) // any way it is turned, no smaller
	switch {
	case problem != nil:
		return bad(problem.Message, problem.Remedy)
	case bytes.Equal(p.Data, data):
		return value
	}
	kind := "png"
	if p.Ext == ".jpg" {
		kind = "jpeg"
	}
	return "data:image/" + kind + ";base64," + base64.StdEncoding.EncodeToString(p.Data)
}
