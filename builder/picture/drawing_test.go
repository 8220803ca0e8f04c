package picture_test

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tankside/builder/picture"
)

const svgStart = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 10 10">`

// hostile says of each drawing in testdata/hostile where its fault stands and what is said of it.
var hostile = map[string]struct {
	line, column int
	message      string
}{
	// What runs. Sources: SVG 2, 15 (script elements, event attributes of any case in a page), HTML Living Standard 4.12.1.
	"script": {2, 3, "runs a program"}, "script-href": {2, 3, "runs a program"}, "script-prefixed": {2, 3, "runs a program"},
	"script-of-html": {2, 45, "runs a program"}, "script-upper": {2, 3, "runs a program"},
	"onload": {1, 6, "runs a program"}, "onclick": {2, 30, "runs a program"}, "onbegin-upper": {2, 30, "runs a program"},
	// What brings a page or a film along. Sources: SVG 2, 12.
	"foreign-object": {2, 3, "part of a web page"}, "iframe": {2, 6, "another page"}, "video": {2, 3, "plays"},
	// What leads out or loads. Sources: SVG 2, 16 (links, xml:base), 12.3 (image), 5.6 (use); Filter Effects 1, 9.13 (feImage).
	"link": {2, 3, "link"}, "link-script": {2, 3, "link"}, "base": {2, 6, "xml:base"},
	"image-outside": {2, 31, "outside of it"}, "image-file": {2, 31, "outside of it"}, "image-neighbour": {2, 31, "outside of it"},
	"image-svg": {2, 31, "outside of it"}, "image-other-prefix": {2, 49, "outside of it"}, "image-not-base64": {2, 31, "base64"},
	"image-not-png": {2, 31, "not what its address says"}, "image-cut": {2, 31, "breaks off"},
	"use-outside": {2, 8, "outside of it"}, "use-data": {2, 8, "outside of it"}, "gradient-outside": {2, 26, "outside of it"},
	"text-path-outside": {2, 19, "outside of it"}, "filter-image": {2, 18, "loads"},
	"fill-outside": {2, 30, "loads"}, "fill-outside-quoted": {2, 30, "loads"}, "fill-upper": {2, 30, "loads"}, "fill-entity": {2, 30, "loads"},
	"fill-escaped": {2, 30, "backslashes"}, "mask-outside": {2, 30, "loads"},
	// Styles. Sources: CSS Cascading 5 (@import), CSS Fonts 4 (@font-face), CSS Images 4, CSS Syntax 3, 4.3.7 (escapes).
	"style-attribute": {2, 30, "loads"}, "style-image-set": {2, 30, "loads"}, "style-expression": {2, 30, "runs"}, "style-binding": {2, 30, "runs"},
	"style-import": {2, 3, "@import"}, "style-import-cdata": {2, 3, "@import"}, "style-font": {2, 3, "@font-face"},
	"style-split": {2, 3, "loads"}, "style-split-cdata": {2, 3, "loads"}, "style-moves": {2, 3, "moves"}, "style-markup": {2, 3, "markup"},
	"style-element": {2, 10, "more than words"}, "stylesheet": {1, 1, "style sheet from outside"},
	// What moves. Source: SVG Animations Level 2.
	"animate": {2, 30, "moves"}, "animate-href": {2, 3, "moves"}, "set": {2, 3, "moves"},
	// Declarations. Source: XML 1.0 (fifth edition), 2.8, 4.2, 4.4.
	"entity-outside": {1, 1, "declares entities"}, "entity-many": {1, 1, "declares entities"}, "entity-parameter": {1, 1, "declares entities"},
	"entity-unknown": {2, 16, "&nbsp;"}, "declaration": {1, 1, "does not belong"}, "declaration-late": {2, 1, "not the first"},
	// What is no drawing, or no XML.
	"title-markup": {2, 12, "more than words"}, "unknown-element": {2, 3, "<blink>"}, "turbulence": {2, 18, "<feTurbulence>"},
	"not-svg": {0, 0, "a web page"}, "no-namespace": {1, 1, "does not say that it is SVG"}, "no-size": {1, 1, "how large"},
	"relative-size": {1, 1, "how large"}, "empty-size": {1, 1, "how large"}, "size-not-a-number": {1, 1, "how large"}, "size-huge": {1, 1, "million pixels"},
	"two-roots": {2, 1, "follows the end"}, "text-outside": {3, 1, "before or after"}, "not-closed": {3, 7, "closed by"}, "broken-off": {2, 16, "unexpected EOF"},
	"attribute-twice": {2, 30, "twice"}, "attributes-together": {2, 3, "blanks"}, "prefix-undeclared": {2, 30, "“p:”"},
	"encoding": {1, 44, "UTF-8"}, "utf8-invalid": {2, 8, "UTF-8"}, "utf16": {1, 3, "UTF-8"},
	// What a browser would never finish. Sources: SVG 2, 5.6 (use) and 14.4 (pattern); CSS Masking 1, 6 (mask).
	"use-itself": {2, 3, "with itself"}, "use-circle": {2, 3, "with itself"}, "pattern-circle": {2, 3, "with itself"}, "style-circle": {3, 3, "with itself"},
	"use-many": {1, 1, "200,000"}, "mask-many": {1, 1, "200,000"}, "deep": {2, 298, "within each other"},
}

func TestHostileDrawings(t *testing.T) {
	files, err := filepath.Glob("testdata/hostile/*.svg")
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != len(hostile) {
		t.Errorf("%d files, %d expectations", len(files), len(hostile))
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".svg")
		want, known := hostile[name]
		data, err := os.ReadFile(file)
		if err != nil || !known {
			t.Errorf("%s: no expectation, or %v", name, err)
			continue
		}
		list := picture.Check(file, data)
		if len(list) != 1 {
			t.Errorf("%s: %d problems: %v", name, len(list), list)
			continue
		}
		p := list[0]
		if p.Line != want.line || p.Column != want.column || !strings.Contains(p.Message, want.message) || p.Remedy == "" {
			t.Errorf("%s: %d:%d %s %s", name, p.Line, p.Column, p.Message, p.Remedy)
		}
		if _, err := picture.Prepare(file, data); err == nil || err.Error() != p.Error() {
			t.Errorf("%s: prepared, with %v", name, err)
		}
	}
}

// TestManyProblems: all that is wrong is said at once, up to 10.
func TestManyProblems(t *testing.T) {
	data := []byte(svgStart + "\n<script/>\n<path onclick='x' onload='y'/>é<set/>\n</svg>")
	list := picture.Check("a.svg", data)
	places := []string{"2:1", "3:7", "3:19", "3:32"}
	if len(list) != len(places) {
		t.Fatal(list)
	}
	for i, p := range list {
		if !strings.HasPrefix(p.Error(), places[i]+": ") { // columns count letters, not bytes
			t.Errorf("%v, want it at %s", p, places[i])
		}
	}
	if list = picture.Check("a.svg", []byte(svgStart+strings.Repeat("<script/>", 50)+"</svg>")); len(list) != 10 {
		t.Errorf("%d problems", len(list))
	}
}

// TestForeignDrawings: what drawing programs add goes, and nothing else. That nothing else has gone was seen as well in librsvg 2.63,
// which draws both alike to the pixel.
func TestForeignDrawings(t *testing.T) {
	for name, size := range map[string][2]int{"editor": {636, 900}, "styled": {120, 60}} { // 210 × 297 mm, 120 × 60 units
		data, err := os.ReadFile("testdata/foreign/" + name + ".svg")
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile("testdata/foreign/" + name + ".want.svg")
		if err != nil {
			t.Fatal(err)
		}
		p := prepare(t, name+".svg", data)
		if !bytes.Equal(p.Data, want) || p.Width != size[0] || p.Height != size[1] {
			t.Errorf("%s: %d × %d\n%s", name, p.Width, p.Height, p.Data)
		}
		if bytes.Contains(p.Data, []byte("SECRET")) {
			t.Errorf("%s: tells a secret", name)
		}
		if again := prepare(t, name+".svg", want); !bytes.Equal(again.Data, want) {
			t.Errorf("%s: what is left changes once more", name)
		}
	}
}

// TestCleanDrawings: drawings that pass as they are.
func TestCleanDrawings(t *testing.T) {
	for _, body := range []string{
		"",
		"<!-- a note --><g id='a'><path d='M0 0'/></g><use href='#a'/><use xlink:href='#a'/><use href='#missing'/>",
		`<text aria-label="heating element (6 kW), url(x), a \ b">5 &lt; 6 &amp;amp; &#233;</text>`,
		`<rect fill="url(#a)" style="mask: url('#b')" clip-path='url( "#c" )'/>`,
		`<style>@media (prefers-color-scheme: dark){.a{fill:#fff}} .b::before{content:"x"}</style><g class="a b"/>`,
		`<g font-family="system-ui, 'A Font'" transform="translate(3 4) rotate(-18)"/>`,
		`<switch><g systemLanguage="es"/><g/></switch><g xml:lang="es" xml:space="preserve"/>`,
		strings.Repeat("<g>", 90) + strings.Repeat("</g>", 90),
		"<defs><g id='a'>" + strings.Repeat("<path d=''/>", 100) + "</g></defs>" + strings.Repeat("<use href='#a'/>", 1000),
	} {
		data := []byte(svgStart + body + "</svg>\n")
		if p := prepare(t, "a.svg", data); !bytes.Equal(p.Data, data) {
			t.Errorf("changed: %.200s", p.Data)
		}
	}
	marked := append([]byte("\ufeff"), svgStart+"</svg>"...)
	if p := prepare(t, "a.svg", marked); !bytes.Equal(p.Data, marked[3:]) {
		t.Error("the byte order mark is still there")
	}
}

// TestDrawingSize: the size that a page gives to a drawing. Sources: SVG 2, 8.2; CSS Values and Units 3, 6.2.
func TestDrawingSize(t *testing.T) {
	for attributes, want := range map[string][2]int{
		`viewBox="0 0 540 400"`:                          {540, 400},
		`viewBox="-10,-10 , 540.4 399.6"`:                {540, 400},
		`viewBox="0 0 1300 650"`:                         {650, 325},
		`viewBox="0 0 100 1800"`:                         {50, 900},
		`width="100" height="50"`:                        {100, 50},
		`width="100px" height="50px" viewBox="0 0 9 9"`:  {100, 50},
		`width="100%" height="100%" viewBox="0 0 90 60"`: {90, 60},
		`width="20em" viewBox="0 0 90 60"`:               {90, 60},
		`width="180" viewBox="0 0 90 60"`:                {180, 120},
		`height="180" viewBox="0 0 90 60"`:               {270, 180},
		`width="2in" height="2.54cm"`:                    {192, 96},
		`width="25.4mm" height="101.6Q"`:                 {96, 96},
		`width="72pt" height="6pc"`:                      {96, 96},
		`width="1e2" height="+50."`:                      {100, 50},
		`viewBox="0 0 0.001 0.001"`:                      {1, 1},
		`viewBox="0 0 999999 1"`:                         {650, 1},
	} {
		p := prepare(t, "a.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" `+attributes+`/>`))
		if p.Width != want[0] || p.Height != want[1] {
			t.Errorf("%s: %d × %d, want %v", attributes, p.Width, p.Height, want)
		}
	}
	for _, attributes := range []string{`width="0" height="9" viewBox="0 0 9 9"`, `width="-5" viewBox="0 0 9 9"`, `viewBox="0 0 9"`, `viewBox="0 0 1e999 9"`, `viewBox="0 0 0x9 9"`, `width="5"`} {
		if p := picture.Check("a.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" `+attributes+`/>`)); len(p) != 1 {
			t.Errorf("%s passes", attributes)
		}
	}
}

// TestPhotographInDrawing: a photograph within a drawing tells no more than any other, and is turned upright.
func TestPhotographInDrawing(t *testing.T) {
	embed := func(kind string, data []byte) []byte {
		text := base64.StdEncoding.EncodeToString(data)
		return []byte(svgStart + `<image width="9" height="9" xlink:href="data:image/` + kind + `;base64,` + text[:40] + "\n  " + text[40:] + `"/></svg>`)
	}
	photo := asJPEG(t, scene(1400, 100), 90)
	for name, c := range map[string]struct {
		kind string
		data []byte
		w, h int
	}{
		"JPEG":       {"jpeg", afterStart(photo, segment(0xe1, "Exif\x00\x00"+exif(binary.BigEndian, 1))), 1400, 100},
		"turned":     {"jpeg", afterStart(photo, segment(0xe1, "Exif\x00\x00"+exif(binary.BigEndian, 8))), 100, 1400},
		"other name": {"jpg", afterStart(photo, segment(0xfe, "SECRET")), 1400, 100},
		"PNG":        {"png", afterHeader(asPNG(t, screen(30, 20)), chunk("tEXt", "SECRET\x00SECRET")), 30, 20},
	} {
		p := prepare(t, "a.svg", embed(c.kind, c.data))
		_, after, _ := strings.Cut(string(p.Data), ";base64,")
		text, _, _ := strings.Cut(after, `"`)
		data, err := base64.StdEncoding.DecodeString(text)
		if err != nil {
			t.Fatal(err)
		}
		ext := ".jpg"
		if c.kind == "png" {
			ext = ".png"
		}
		if found := leftovers(ext, data); len(found) > 0 {
			t.Errorf("%s: holds %q", name, found)
		}
		if b := decode(t, data).Bounds(); b.Dx() != c.w || b.Dy() != c.h {
			t.Errorf("%s: %v", name, b)
		}
		if again := prepare(t, "a.svg", p.Data); !bytes.Equal(again.Data, p.Data) {
			t.Errorf("%s: what is left changes once more", name)
		}
	}
	clean := []byte(svgStart + `<image href="data:image/jpeg;base64,` + base64.StdEncoding.EncodeToString(photo) + `"/></svg>`)
	if p := prepare(t, "a.svg", clean); !bytes.Equal(p.Data, clean) {
		t.Error("a drawing with a clean photograph has been changed")
	}
}
