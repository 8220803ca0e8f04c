package page

import (
	"fmt"
	"testing"

	"tankside/builder/finding"
	"tankside/builder/handout"
	"tankside/builder/manual"
)

// A card stays good when what says nothing about its bath has changed: where its words stand in the manual, who answers for them, how it is laid out on paper. It is another
// when anything that it says is otherwise, also for readers of the other family of units alone, or when two of its rows have changed places.
func TestWhatMakesACardAnother(t *testing.T) {
	card := func(change func(*handout.Sheet)) string {
		text := func(s string) handout.Text { return handout.Text{SI: s, US: s + " US"} }
		s := handout.Sheet{ID: "wash-1", Name: "Wash 1", Kind: "Tank", Holds: "Cleaner", Format: handout.CardFormat, Sides: []handout.Side{{Blocks: []handout.Block{
			{Sort: handout.Heading, Head: "Must not go in"},
			{Sort: handout.Words, Head: "Wear", Text: text("goggles")},
			{Sort: handout.Checks, Rows: []handout.Row{{Name: "Level", Value: text("at the mark")}, {Name: "Sound"}}},
		}}}}
		change(&s)
		return codeOfCard(&s)
	}
	block := func(s *handout.Sheet, i int) *handout.Block { return &s.Sides[0].Blocks[i] }
	first := card(func(*handout.Sheet) {})
	for what, change := range map[string]func(*handout.Sheet){
		"place": func(s *handout.Sheet) {
			s.Named, block(s, 2).Rows[0].At = finding.Place{File: "shop.yaml", Line: 9}, finding.Place{Line: 3}
		},
		"article": func(s *handout.Sheet) { s.Of, block(s, 2).Rows[0].Of = &manual.Article{}, "procedures/degas.md" },
		"layout": func(s *handout.Sheet) {
			b := s.Sides[0].Blocks
			rest := b[2]
			b[2].Rows, rest.Rows, rest.Sort = b[2].Rows[:1], rest.Rows[1:], handout.Run
			s.Sides = append(s.Sides, handout.Side{Blocks: []handout.Block{b[0], rest}})
		},
		"paper": func(s *handout.Sheet) { s.Format, s.Most, s.Leads = handout.LeafFormat, 3, "index.html" },
	} {
		if got := card(change); got != first {
			t.Errorf("with another %s the card is %s and was %s, and says the same", what, got, first)
		}
	}
	codes := map[string]string{first: "the first"}
	for what, change := range map[string]func(*handout.Sheet){
		"name": func(s *handout.Sheet) { s.Name = "Wash 2" }, "kind": func(s *handout.Sheet) { s.Kind = "Jar" }, "chemistry": func(s *handout.Sheet) { s.Holds = "Acid" },
		"heading": func(s *handout.Sheet) { block(s, 0).Head = "May go in" }, "opening": func(s *handout.Sheet) { block(s, 1).Head = "Hazards" },
		"text": func(s *handout.Sheet) { block(s, 1).Text.SI = "gloves" }, "text for US": func(s *handout.Sheet) { block(s, 1).Text.US = "gloves" },
		"name of a row": func(s *handout.Sheet) { block(s, 2).Rows[1].Name = "Lid" }, "value": func(s *handout.Sheet) { block(s, 2).Rows[0].Value.SI = "below" },
		"value for US": func(s *handout.Sheet) { block(s, 2).Rows[0].Value.US = "below" },
		"row":          func(s *handout.Sheet) { block(s, 2).Rows = block(s, 2).Rows[:1] },
		"order":        func(s *handout.Sheet) { r := block(s, 2).Rows; r[0], r[1] = r[1], r[0] },
		"message": func(s *handout.Sheet) {
			s.Sides[0].Blocks = append(s.Sides[0].Blocks, handout.Block{Sort: handout.Message, Head: "DANGER"})
		},
	} {
		code := card(change)
		if was, twice := codes[code]; twice {
			t.Errorf("the card with another %s has the code of %s", what, was)
		}
		codes[code] = fmt.Sprintf("the card with another %s", what)
	}
}
