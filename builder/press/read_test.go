package press_test

import (
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// What other people's programs read in a document that we have printed: the poppler tools and qpdf.

// sheet is a page as pdftotext -bbox-layout tells it. Lengths are in points.
type sheet struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Lines  []line  `xml:"flow>block>line"`
}

type box struct {
	Left   float64 `xml:"xMin,attr"`
	Top    float64 `xml:"yMin,attr"`
	Right  float64 `xml:"xMax,attr"`
	Bottom float64 `xml:"yMax,attr"`
}

type line struct {
	box
	Words []word `xml:"word"`
}

type word struct {
	box
	Text string `xml:",chardata"`
}

func (l line) text() string {
	words := make([]string, len(l.Words))
	for i, w := range l.Words {
		words[i] = w.Text
	}
	return strings.Join(words, " ")
}

// text is what stands on a sheet, without blanks.
func (s sheet) text() string {
	var b strings.Builder
	for _, l := range s.Lines {
		b.WriteString(closed(l.text()))
	}
	return b.String()
}

// closed takes the blanks, the places where a word may part, and the ligatures out of a text.
func closed(text string) string {
	return strings.NewReplacer(" ", "", "\u00a0", "", "\n", "", "\t", "", "\u00ad", "", "\u200b", "", "\u202f", "", "ﬁ", "fi", "ﬂ", "fl", "ﬀ", "ff", "ﬃ", "ffi", "ﬄ", "ffl").Replace(text)
}

// document is a printed document in a file.
type document struct {
	file   string
	sheets []sheet
}

func read(t *testing.T, pdf []byte) document {
	t.Helper()
	d := document{file: filepath.Join(t.TempDir(), "book.pdf")}
	if err := os.WriteFile(d.file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	var told struct {
		Sheets []sheet `xml:"body>doc>page"`
	}
	dec := xml.NewDecoder(strings.NewReader(d.tool(t, "pdftotext", "-bbox-layout", d.file, "-")))
	dec.Strict, dec.Entity, dec.AutoClose = false, xml.HTMLEntity, xml.HTMLAutoClose
	if err := dec.Decode(&told); err != nil {
		t.Fatal(err)
	}
	if d.sheets = told.Sheets; len(d.sheets) == 0 {
		t.Fatal("pdftotext finds no sheet in the document")
	}
	return d
}

// tool runs a program of the system's and gives what it prints.
func (d document) tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	c := exec.Command(name, args...)
	var wrong strings.Builder
	c.Stderr = &wrong
	out, err := c.Output()
	if err != nil {
		t.Fatalf("%s: %v %s %s. make test installs it from Debian's packages.", name, err, wrong.String(), out)
	}
	return string(out)
}
