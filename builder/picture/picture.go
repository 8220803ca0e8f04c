package picture

import (
	"path"
	"strings"
)

// Picture is a picture as an edition holds it.
type Picture struct {
	Ext           string // how its file name ends: ".jpg", ".png", ".webp" or ".svg". It can differ from the manual's
	Data          []byte
	Width, Height int // as the page shows it, in CSS pixels: 1 to 650 and 1 to 900
}

// Prepare makes a picture ready for an edition. The name counts by its ending only, which must be that of the content.
// The error is a *Problem: the first that Check gives, or damage that shows when the picture is decoded.
func Prepare(name string, data []byte) (Picture, error) {
	s, problem := sortOf(name, data)
	if problem != nil {
		return Picture{}, problem
	}
	if s == svg {
		d := readDrawing(data, true)
		if len(d.problems) > 0 {
			return Picture{}, d.problems[0]
		}
		w, h := fit(d.width, d.height, shownWidth, shownHeight)
		return Picture{Ext: ".svg", Data: d.out, Width: w, Height: h}, nil
	}
	r, problem := scan(s, data)
	if problem != nil {
		return Picture{}, problem
	}
	var p Picture
	if r.huge() {
		p, problem = r.once(data)
	} else {
		p, problem = r.prepare(keptWidth, keptHeight)
	}
	if problem != nil {
		return Picture{}, problem
	}
	return p, nil
}

// Check says what is wrong with a picture; nothing for one that can be shown. It reads the file's structure, with its checksums and its
// end, and a drawing in full, but decodes no photograph: damage inside the picture data of a complete file is left to Prepare.
// A photograph has one problem at most, a drawing up to 10.
func Check(name string, data []byte) []*Problem {
	s, problem := sortOf(name, data)
	if problem == nil && s == svg {
		return readDrawing(data, false).problems
	}
	if problem == nil {
		_, problem = scan(s, data)
	}
	if problem != nil {
		return []*Problem{problem}
	}
	return nil
}

// scan reads the structure of a picture that is no drawing, and refuses what could not be shown.
func scan(s sort, data []byte) (*raster, *Problem) {
	r, problem := scanners[s](data)
	if problem == nil {
		problem = r.refuse()
	}
	if problem != nil {
		return nil, problem
	}
	return r, nil
}

var scanners = map[sort]func([]byte) (*raster, *Problem){jpg: scanJPEG, png: scanPNG, gif: scanGIF, webp: scanWebP}

// extension is how a name ends, in lower case.
func extension(name string) string { return strings.ToLower(path.Ext(name)) }
