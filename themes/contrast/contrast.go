// Package contrast computes how well colours of a style sheet stand apart: the contrast ratio of WCAG 2.2 (W3C, 2023), which success
// criteria 1.4.3 (text, at least 4.5) and 1.4.11 (what is no text, at least 3) are judged by.
package contrast

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Colour is an opaque sRGB colour, each part 0 to 255.
type Colour struct{ R, G, B uint8 }

// Parse reads "#rrggbb" or "#rgb".
func Parse(text string) (Colour, error) {
	digits, hash := strings.CutPrefix(text, "#")
	if len(digits) == 3 {
		digits = string([]byte{digits[0], digits[0], digits[1], digits[1], digits[2], digits[2]})
	}
	n, err := strconv.ParseUint(digits, 16, 32)
	if !hash || len(digits) != 6 || err != nil {
		return Colour{}, fmt.Errorf("%q is no colour; write it as # and six digits, for example #0b6e4f", text)
	}
	return Colour{uint8(n >> 16), uint8(n >> 8), uint8(n)}, nil
}

// String writes "#rrggbb".
func (c Colour) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Luminance is the relative luminance, 0 for black to 1 for white, as WCAG 2.2 defines it.
func (c Colour) Luminance() float64 {
	part := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

// Ratio is the contrast ratio of two colours, 1 to 21, as WCAG 2.2 defines it.
func Ratio(a, b Colour) float64 {
	x, y := a.Luminance(), b.Luminance()
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Until mixes a colour with another, no more than needed for a contrast ratio of at least that with a ground.
func (c Colour) Until(with, ground Colour, ratio float64) Colour {
	for step := 0; step <= 20; step++ {
		mix := func(a, b uint8) uint8 { return uint8((int(a)*(20-step) + int(b)*step) / 20) }
		if m := (Colour{mix(c.R, with.R), mix(c.G, with.G), mix(c.B, with.B)}); Ratio(m, ground) >= ratio {
			return m
		}
	}
	return with
}

var (
	property = regexp.MustCompile(`--([a-z-]+):\s*(#[0-9a-fA-F]{3,6})\s*;`)
	roots    = regexp.MustCompile(`(?s)(@media[^{]*\{\s*)?:root\s*\{(.*?)\}`)
)

// Properties gives the colours that a style sheet declares as custom properties of :root: those for light paper, and those for dark, which
// are the light ones where dark paper has none of its own. What holds for print alone is left out.
func Properties(css []byte) (light, dark map[string]Colour, err error) {
	light, dark = map[string]Colour{}, map[string]Colour{}
	own := map[string]Colour{}
	for _, block := range roots.FindAllSubmatch(css, -1) {
		into := light
		switch media := string(block[1]); {
		case strings.Contains(media, "dark"):
			into = own
		case media != "":
			continue
		}
		for _, p := range property.FindAllSubmatch(block[2], -1) {
			if into[string(p[1])], err = Parse(string(p[2])); err != nil {
				return nil, nil, err
			}
		}
	}
	for name, c := range light {
		dark[name] = c
	}
	for name, c := range own {
		dark[name] = c
	}
	return light, dark, nil
}
