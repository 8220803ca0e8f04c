package handout

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// Text is a text for readers of either family of units.
type Text struct{ SI, US string }

// In gives the text for readers of a family.
func (t Text) In(system quantity.System) string {
	if system == quantity.US {
		return t.US
	}
	return t.SI
}

// Plain is a text that is the same for all.
func Plain(text string) Text { return Text{text, text} }

func both(say func(quantity.System) string) Text { return Text{say(quantity.SI), say(quantity.US)} }

func shown(l manual.Limit) Text {
	if !l.Set {
		return Text{}
	}
	return both(l.In)
}

func (t Text) empty() bool { return t.SI == "" && t.US == "" }

// join puts texts one after the other.
func join(texts ...Text) Text {
	var all Text
	for _, t := range texts {
		all.SI += t.SI
		all.US += t.US
	}
	return all
}

// Sort is what a block looks like.
type Sort string

// The sorts of blocks.
const (
	Heading Sort = "heading" // Head
	Words   Sort = "words"   // Head in bold, then Text
	Large   Sort = "large"   // Rows to be read at a metre
	Facts   Sort = "facts"   // Rows side by side
	Message Sort = "message" // Head is the signal word, Rows its texts
	List    Sort = "list"    // Rows side by side, as items of a list
	Run     Sort = "run"     // Rows one after the other
	Checks  Sort = "checks"  // Rows with a box each
	Steps   Sort = "steps"   // Rows with a number each
	Blanks  Sort = "blanks"  // Rows with a line each to write on, side by side
	Grid    Sort = "grid"    // Columns, Rows of cells, then Lines that are empty
	Ruled   Sort = "ruled"   // Lines to write on
	Control Sort = "control" // who answers for what the sheet says
)

// Block is a part of a sheet.
type Block struct {
	Sort    Sort
	Head    string
	Mark    string // a sign before a heading: of a verdict
	Text    Text
	Rows    []Row
	Columns []Column
	Lines   int
	Across  int // how many of Blanks or Facts stand side by side; 0 is two

	Class string        // of a message: its signal word in small letters
	At    finding.Place // where its words come from, for who has to shorten them
}

// Row is a line of a block.
type Row struct {
	Name  string
	Value Text
	Cells []Text // of a grid
	Of    string // path of the article with more about it, or ""
	At    finding.Place
}

// Column is a column of a grid.
type Column struct {
	Head  string
	Limit Text    // what it has to keep to
	Share float64 // of the width; all shares are added up
}

// Side is a side of a sheet, or a leaf of one that is folded.
type Side struct{ Blocks []Block }

// Sheet is one thing to print.
type Sheet struct {
	ID, Name, Kind string // an address; “Wash 1”; “Card”
	Holds          string // what is in it, or what it is about
	Station        manual.Station
	Tank           *manual.Tank // nil where it is about none
	Leads          string       // page of the edition that the sheet is about, or ""
	Format         *Format
	Sides          []Side
	Of             *manual.Article // who answers for what it says, or nil
	Named          finding.Place   // where its name stands
	Most           int             // how many sides it is meant to have; 0: as many as it takes
	Folded         bool            // its sides are leaves of one sheet, folded
}

// Format is the room of a side.
type Format struct {
	Name          string
	Points        float64 // size of the letters
	Width, Height float64 // in mm
	HeadWidth     float64 // in mm, beside drawing and code; 0 for a side without a head
	HeadHeight    float64 // in mm, of the first side
	HeadLater     float64 // in mm, of the others
	Signal        float64 // size of the signal words in em; what hangs is read at a metre, what is held is not
}

// The formats. A card is half a sheet of A4 or of Letter, the smaller of each, less 5 mm all round: 297 ÷ 2 and 279.4 ÷ 2 mm wide, 210 and 215.9 mm high (ISO 216, ANSI
// Y14.1). On A3 it is √2 times as large, letters and all. A leaf is A4 or Letter less 10 mm all round. Eight pocket leaves are A4 or Letter.
var (
	CardFormat   = &Format{"card", 9, 129, 199, 72, 30, 13, metreEm}
	LeafFormat   = &Format{"whole", 9.5, 189, 256, 135, 30, 15, metreEm}
	PocketFormat = &Format{"pocket", 9, 60, 96, 0, 0, 0, 1.6}
)

// MetrePoints is the least size of what is read at a metre: 24 points are 8.5 mm, capital letters of 6 mm, seen under 21 minutes of arc. Legible are 16 and more,
// 20 to 22 are good (ISO 9241-303:2011, character height, from memory).
const MetrePoints = 24
