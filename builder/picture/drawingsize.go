package picture

import (
	"encoding/xml"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// length is a number with the unit it may have. Source: SVG 1.1 (second edition, 2011), 4.2, length and number.
var length = regexp.MustCompile(`^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)(px|pt|pc|mm|cm|in|q|Q)?$`)

// pixelsOf are the CSS pixels of each unit. Source: CSS Values and Units 3, 6.2: 1 in = 2.54 cm = 96 px = 72 pt = 6 pc, 1 Q = 1/4 mm.
var pixelsOf = map[string]float64{"": 1, "px": 1, "pt": 96.0 / 72, "pc": 96.0 / 6, "in": 96, "cm": 96 / 2.54, "mm": 96 / 25.4, "q": 96 / 25.4 / 4}

// mostPixels is the largest side of a drawing that is taken for one.
const mostPixels = 1e6

// size reads how large the drawing is: from width and height, or from the viewBox where they are missing or relative.
func (d *drawing) size(t xml.StartElement, start int) {
	var w, h, boxW, boxH float64
	for _, a := range t.Attr {
		if a.Name.Space != "" {
			continue
		}
		switch a.Name.Local {
		case "width":
			w = readLength(a.Value)
		case "height":
			h = readLength(a.Value)
		case "viewBox":
			boxW, boxH = readBox(a.Value)
		}
	}
	switch {
	case w > 0 && h > 0:
	case boxW <= 0 || boxH <= 0 || w < 0 || h < 0:
		d.refuse(start, "The drawing does not say how large it is.", `Give <svg> a viewBox, such as viewBox="0 0 540 400".`)
		return
	case w > 0:
		h = w * boxH / boxW
	case h > 0:
		w = h * boxW / boxH
	default:
		w, h = boxW, boxH
	}
	if w > mostPixels || h > mostPixels {
		d.refuse(start, "The drawing says that it is larger than a million pixels.", "Save it in the size in which it is to be seen.")
		return
	}
	d.width, d.height = max(1, int(math.Round(w))), max(1, int(math.Round(h)))
}

// readLength gives CSS pixels: 0 for a length that depends on where the drawing stands, less than 0 for none at all.
func readLength(s string) float64 {
	m := length.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return 0
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil || v <= 0 {
		return -1
	}
	return v * pixelsOf[strings.ToLower(m[2])]
}

// readBox gives width and height of a viewBox, 0 without a usable one.
func readBox(s string) (w, h float64) {
	numbers := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(", \t\r\n", r) })
	if len(numbers) != 4 {
		return 0, 0
	}
	for _, n := range numbers {
		if m := length.FindStringSubmatch(n); m == nil || m[2] != "" {
			return 0, 0
		}
	}
	w, errW := strconv.ParseFloat(numbers[2], 64)
	h, errH := strconv.ParseFloat(numbers[3], 64)
	if errW != nil || errH != nil {
		return 0, 0
	}
	return w, h
}
