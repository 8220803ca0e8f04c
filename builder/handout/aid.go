package handout

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/manual"
)

// givesFirstAid tells whether an article is a procedure that gives some: a symptom that does is a tree to be walked.
func givesFirstAid(a *manual.Article) bool {
	return a.Kind == manual.Procedure && len(a.FirstAid()) > 0
}

// FirstAid are the cards of first aid: of every procedure that gives some, its safety messages and every section of its text but listings, the steps with their numbers, also those
// that stand below no heading.
func (k *Kit) FirstAid() []Sheet {
	var list []Sheet
	for _, a := range k.m.Select(givesFirstAid) {
		var m messages
		k.opening(&m, a)
		own := k.local(a)
		flow := []group{{Block{}, append(append([]Block{}, m...), blanks(2, k.words.Say("Emergency"), k.words.Say("Eyewash and shower are at")), k.inTheTanks())}}
		for i := range a.Sections {
			if i >= len(own.Sections) {
				break
			}
			said := sayings(a, a.Sections[i].Heading)
			if a.Sections[i].Level == 0 && len(a.Sections) > 1 && !slices.ContainsFunc(said, func(b *manual.Block) bool { return b.Steps }) {
				continue // an introduction, without anything to do
			}
			if harm := k.harm(&own.Sections[i], said); len(harm) > 0 {
				flow = append(flow, group{Block{}, harm})
			}
		}
		s := Sheet{ID: a.Name, Name: k.title(a), Kind: k.words.Say("First aid"), Station: a.Head.Station, Leads: strings.TrimSuffix(a.Path, ".md") + ".html",
			Format: LeafFormat, Of: a, Named: a.Head.At["title"]}
		s.Sides = fill(append(flow, group{Block{}, []Block{{Sort: Control}}}), LeafFormat)
		list = append(list, s)
	}
	return list
}

// sayings are the blocks of an article's text below a heading.
func sayings(a *manual.Article, heading string) []*manual.Block {
	var list []*manual.Block
	for i := range a.Blocks {
		if b := &a.Blocks[i]; b.Section == heading && b.Text != heading {
			list = append(list, b)
		}
	}
	return list
}

// harm is what to do for a kind of harm. The messages before the first heading stand at the head of the card. Of a translation the lines are those of the original,
// one for one; where they are not, they stand without numbers.
func (k *Kit) harm(s *manual.Section, said []*manual.Block) []Block {
	var texts []string
	for line := range strings.SplitSeq(s.Text, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			texts = append(texts, line)
		}
	}
	var blocks []Block
	matched := len(said) == len(texts)
	for i, text := range texts {
		if matched && said[i].Signal != "" && s.Level == 0 {
			continue
		}
		row := Row{Value: Plain(text), At: s.At}
		switch n := len(blocks); {
		case !matched || !said[i].Steps:
			blocks = append(blocks, Block{Sort: Words, Text: Plain(text), At: s.At})
		case n > 0 && blocks[n-1].Sort == Steps:
			blocks[n-1].Rows = append(blocks[n-1].Rows, row)
		default:
			blocks = append(blocks, Block{Sort: Steps, At: s.At, Rows: []Row{row}})
		}
	}
	if len(blocks) > 0 && s.Heading != "" {
		blocks = append([]Block{k.heading(s.Heading)}, blocks...)
	}
	return blocks
}

// inTheTanks says what somebody has met who was splashed at a tank, for whoever is called.
func (k *Kit) inTheTanks() Block {
	b := Block{Sort: Words, Head: k.words.Say("In the tanks")}
	var texts []string
	for i := range k.m.Shop.Tanks {
		t := &k.m.Shop.Tanks[i]
		if a := k.chemistry(t.Chemistry.Name); a != nil {
			var codes []string
			for _, h := range a.Chemistry.Hazards {
				codes = append(codes, h.Name)
			}
			texts = append(texts, strings.TrimSuffix(fmt.Sprintf("%s: %s, %s", t.Name, k.title(a), strings.Join(codes, ", ")), ", "))
			b.At = t.At
		}
	}
	b.Text = Plain(strings.Join(texts, "; "))
	return b
}
