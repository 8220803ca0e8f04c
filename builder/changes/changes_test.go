package changes

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"tankside/builder/content"
)

// manualOf is a random manual: articles with headers and sections, a shop file.
func manualOf(r *rand.Rand) *content.Content {
	var docs []content.Doc
	for i := range 1 + r.IntN(6) {
		docs = append(docs, content.DocOf(fmt.Sprintf("soils/s%d.md", i), true, article(r)))
	}
	return content.New(append(docs, content.DocOf("shop.yaml", false, values(r))))
}

func article(r *rand.Rand) []content.Part {
	parts := []content.Part{{Name: "header: station", Text: words(r, 1)}, {Name: "header: title", Text: words(r, 3)}, {Name: "", Text: words(r, r.IntN(20))}}
	for _, i := range r.Perm(8)[:r.IntN(8)] {
		heading := fmt.Sprintf("Heading %c", 'A'+i)
		parts = append(parts, content.Part{Name: heading, Text: "## " + heading + "\n\n" + words(r, r.IntN(30))})
	}
	return parts
}

func values(r *rand.Rand) []content.Part {
	var parts []content.Part
	for i := range 8 {
		if r.IntN(3) > 0 {
			parts = append(parts, content.Part{Name: fmt.Sprintf("tanks: wash-%d: temperature", i), Text: fmt.Sprintf("%d °C", r.IntN(80))})
		}
	}
	return append(parts, content.Part{Name: "zinc", Text: "a"})
}

func words(r *rand.Rand, n int) string {
	all := strings.Fields("brass wax rinse the at 60 °C ultrasonic bath caustic dry oil parts spots hard water heat minutes basket drain lift")
	var list []string
	for range n {
		list = append(list, all[r.IntN(len(all))])
	}
	return strings.Join(list, " ")
}

// edited is the manual after random edits: texts changed, sections added, removed, moved and renamed, files added, removed, renamed and exchanged.
func edited(r *rand.Rand, c *content.Content) *content.Content {
	docs := slices.Clone(c.Docs())
	for range 1 + r.IntN(6) {
		i := r.IntN(len(docs))
		d := docs[i]
		parts := slices.Clone(d.Parts())
		switch r.IntN(10) {
		case 0:
			if j := slices.IndexFunc(docs, func(o content.Doc) bool { return o.Path != d.Path && d.Ordered && o.Ordered }); j >= 0 { // two exchange their names
				docs[i], docs[j] = content.DocOf(docs[j].Path, true, parts), content.DocOf(d.Path, true, docs[j].Parts())
			}
			continue
		case 1:
			if d.Ordered {
				docs[i] = content.DocOf(fmt.Sprintf("soils/n%d.md", r.IntN(1e6)), true, parts)
			}
			continue
		case 2:
			docs = append(docs, content.DocOf(fmt.Sprintf("parts/p%d.md", r.IntN(1e6)), true, article(r)))
			continue
		case 3:
			if len(docs) > 1 {
				docs = slices.Delete(docs, i, i+1)
			}
			continue
		case 4:
			if !d.Ordered {
				docs[i] = content.DocOf(d.Path, false, values(r))
				continue
			}
		}
		text := slices.IndexFunc(parts, func(p content.Part) bool { return p.Name == "" }) + 1
		if !d.Ordered || text >= len(parts) {
			j := r.IntN(len(parts))
			parts[j].Text += " " + words(r, 2)
			docs[i] = content.DocOf(d.Path, d.Ordered, parts)
			continue
		}
		j := text + r.IntN(len(parts)-text)
		switch r.IntN(5) {
		case 0:
			parts = slices.Delete(parts, j, j+1)
		case 1:
			p := parts[j]
			parts = slices.Delete(parts, j, j+1)
			parts = slices.Insert(parts, text+r.IntN(len(parts)-text+1), p)
		case 2:
			name := fmt.Sprintf("New %d", r.IntN(1e6))
			parts[j] = content.Part{Name: name, Text: retitled(parts[j].Text, parts[j].Name, name)}
		case 3:
			name := fmt.Sprintf("More %d", r.IntN(1e6))
			parts = slices.Insert(parts, j, content.Part{Name: name, Text: "### " + name + "\n" + words(r, 9)})
		default:
			parts[j].Text += "\n" + words(r, 3)
		}
		docs[i] = content.DocOf(d.Path, true, parts)
	}
	seen := map[string]bool{}
	docs = slices.DeleteFunc(docs, func(d content.Doc) bool { was := seen[d.Path]; seen[d.Path] = true; return was })
	return content.New(docs)
}

// merged is the manual after two people have edited it, each a copy: what one has left alone is as the other has it, file by file; where both have edited, the first is kept.
func merged(base, ours, theirs *content.Content) *content.Content {
	var docs []content.Doc
	for _, d := range ours.Docs() {
		old, was := base.At(d.Path)
		other, is := theirs.At(d.Path)
		switch {
		case was && d.Sum == old.Sum && !is: // taken out, or renamed, by the other
		case was && d.Sum == old.Sum:
			docs = append(docs, other)
		default:
			docs = append(docs, d)
		}
	}
	for _, d := range theirs.Docs() {
		old, was := base.At(d.Path)
		if _, is := ours.At(d.Path); !is && (!was || d.Sum != old.Sum) {
			docs = append(docs, d)
		}
	}
	return content.New(docs)
}

// What Between finds makes, applied to the older content, the newer one; what does not differ has no changes, and what differs has some.
func TestChangesMakeTheNewerOfTheOlder(t *testing.T) {
	t.Parallel()
	kinds := map[Kind]int{}
	for seed := range uint64(6000) {
		r := rand.New(rand.NewPCG(seed, 7))
		a := manualOf(r)
		b := edited(r, a)
		switch seed % 5 {
		case 0:
			b = manualOf(r) // nothing to do with the other
		case 1:
			b = merged(a, b, edited(r, a))
		}
		history := map[string]string{}
		if len(a.Docs()) > 0 && len(b.Docs()) > 0 {
			history[a.Docs()[r.IntN(len(a.Docs()))].Path] = b.Docs()[r.IntN(len(b.Docs()))].Path
		}
		list := Between(a, b, history)
		if (len(list) == 0) != (a.Digest() == b.Digest()) {
			t.Fatalf("seed %d: %d changes, the digests are the same: %v", seed, len(list), a.Digest() == b.Digest())
		}
		got, err := Apply(a, list)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if got.Digest() != b.Digest() {
			t.Fatalf("seed %d: applied, the changes give something else\n%v\nwanted\n%v\nby\n%v", seed, show(got), show(b), list)
		}
		for _, c := range list {
			kinds[c.Kind]++
		}
	}
	for _, k := range []Kind{Changed, Added, Removed, Moved, Renamed} {
		if kinds[k] < 100 {
			t.Errorf("only %d parts were %s in all cases", kinds[k], k)
		}
	}
}

func show(c *content.Content) string {
	var b strings.Builder
	for _, d := range c.Docs() {
		fmt.Fprintf(&b, "%s %v\n", d.Path, d.Parts())
	}
	return b.String()
}

// A list applied to a content that it is not of is refused, not half applied.
func TestChangesOfAnotherContentAreRefused(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 1))
	a := manualOf(r)
	list := []Change{{Article: "soils/none.md", Heading: "X", Kind: Removed}}
	if _, err := Apply(a, list); err == nil {
		t.Error("a part that is not there was removed")
	}
	list = []Change{{Article: "shop.yaml", Heading: "zinc", Kind: Changed, Before: "b", After: "c"}}
	if _, err := Apply(a, list); err == nil {
		t.Error("a text that is otherwise was changed")
	}
}

// Words keeps both texts, and marks nothing that both have in the same words and order.
func TestWordsKeepTheTexts(t *testing.T) {
	t.Parallel()
	joined := func(runs []Run, marked bool) (all, kept string) {
		for _, r := range runs {
			all += r.Text
			if !r.Marked {
				kept += r.Text
			}
		}
		return all, kept
	}
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 3))
		a := words(r, r.IntN(60))
		list := strings.Split(a, " ")
		for range r.IntN(8) {
			i := r.IntN(len(list))
			switch r.IntN(3) {
			case 0:
				list[i] = words(r, 2)
			case 1:
				list = slices.Delete(list, i, i+1)
			default:
				list = slices.Insert(list, i, words(r, 1))
			}
			if len(list) == 0 {
				list = []string{"x"}
			}
		}
		b := strings.Join(list, " ")
		was, is := Words(a, b)
		allA, keptA := joined(was, true)
		allB, keptB := joined(is, true)
		if allA != a || allB != b {
			t.Fatalf("seed %d: %q, %q became %q, %q", seed, a, b, allA, allB)
		}
		if strings.ReplaceAll(keptA, " ", "") != strings.ReplaceAll(keptB, " ", "") {
			t.Fatalf("seed %d: not marked is %q on one side and %q on the other", seed, keptA, keptB)
		}
		if a == b && (len(was) > 1 || len(was) == 1 && was[0].Marked) {
			t.Fatalf("seed %d: something is marked in equal texts", seed)
		}
	}
	was, is := Words("rinse at 60 °C for 2 min", "rinse at 55 °C for 2 min")
	if fmt.Sprint(was, is) != "[{rinse at  false} {60 true} { °C for 2 min false}] [{rinse at  false} {55 true} { °C for 2 min false}]" {
		t.Errorf("%v %v", was, is)
	}
}

// Where the codes of both editions' cards are known, exactly those are named that differ, one that the guess left out as well.
func TestCardsByTheirCodes(t *testing.T) {
	t.Parallel()
	guess := Follows{Cards: []string{"wash-2", "wash-1"}, Down: []string{"wash-9"}}
	was := map[string]string{"wash-1": "A", "wash-2": "B", "rinse-1": "C", "wash-9": "X"}
	is := map[string]string{"wash-1": "A", "wash-2": "D", "rinse-1": "E", "dryer": "F"}
	if got := guess.With(Printed{Cards: was}, Printed{Cards: is}, nil); !slices.Equal(got.Cards, []string{"wash-2", "dryer", "rinse-1"}) || len(got.Down) != 1 {
		t.Errorf("%v", got)
	}
	for _, unknown := range [][2]map[string]string{{nil, is}, {was, nil}} {
		if got := guess.With(Printed{Cards: unknown[0]}, Printed{Cards: unknown[1]}, nil); !slices.Equal(got.Cards, guess.Cards) {
			t.Errorf("of cards that nobody knows: %v", got)
		}
	}
}

// Where it is known what process sheets say in print, exactly those are named that say something else, under whatever name, and lessons that show something else as well.
func TestSheetsByWhatIsPrinted(t *testing.T) {
	t.Parallel()
	list := []Change{{Article: "parts/sleeve.md", Kind: Renamed, Before: "parts/bush.md", After: "parts/sleeve.md"}}
	guess := Follows{Sheets: []string{"parts/nut.md", "parts/ring.md"}, Lessons: []string{"lessons/own.md"}}
	was := map[string]string{"parts/nut.md": "A", "parts/ring.md": "B", "parts/bush.md": "C", "parts/seat.md": "D", "parts/gone.md": "E", "lessons/own.md": "F", "lessons/sum.md": "G", "lessons/same.md": "H"}
	is := map[string]string{"parts/nut.md": "A", "parts/ring.md": "X", "parts/sleeve.md": "C", "parts/seat.md": "Y", "parts/new.md": "Z", "lessons/own.md": "F", "lessons/sum.md": "W", "lessons/same.md": "H"}
	got := guess.With(Printed{Sheets: was}, Printed{Sheets: is}, list)
	if !slices.Equal(got.Sheets, []string{"parts/new.md", "parts/ring.md", "parts/seat.md"}) || !slices.Equal(got.Lessons, []string{"lessons/own.md", "lessons/sum.md"}) {
		t.Errorf("%v", got)
	}
	for _, unknown := range [][2]map[string]string{{nil, is}, {was, nil}} {
		if got := guess.With(Printed{Sheets: unknown[0]}, Printed{Sheets: unknown[1]}, list); !slices.Equal(got.Sheets, guess.Sheets) || !slices.Equal(got.Lessons, guess.Lessons) {
			t.Errorf("of sheets that nobody knows: %v", got)
		}
	}
}

// The sheet of a part that is not there any more is taken away; that of one with another name stays, and of what nobody prints nothing is said.
func TestSheetsOfWhatIsGoneAreTakenAway(t *testing.T) {
	t.Parallel()
	article := func(path, text string) content.Doc {
		return content.DocOf(path, true, []content.Part{{Name: content.HeaderKey + "station", Text: "wash"}, {Name: "Wash", Text: "## Wash\n\n" + text}})
	}
	nut, bush, lesson, soil := "Hang the nut by its bore.", "Bushes lie on the mesh, none on another.", "Ask each trainee for the strength.", "Oil of the lathe."
	a := content.New([]content.Doc{article("parts/nut.md", nut), article("parts/bush.md", bush), article("lessons/old.md", lesson), article("soils/oil.md", soil)})
	b := content.New([]content.Doc{article("parts/sleeve.md", bush)})
	got := Consequences(a, b, Between(a, b, nil))
	if slices.Sort(got.Gone); !slices.Equal(got.Gone, []string{"lessons/old.md", "parts/nut.md"}) {
		t.Errorf("%v", got.Gone)
	}
	if got := Consequences(b, a, Between(b, a, nil)).Gone; len(got) > 0 {
		t.Errorf("the other way round: %v", got)
	}
}

// Who works by an article reads it again where a picture in it is another.
func TestAPictureIsReadAgain(t *testing.T) {
	t.Parallel()
	shows := func(target string) content.Doc {
		return content.DocOf("procedures/look.md", true, []content.Part{{Name: content.HeaderKey + "station", Text: "wash"}, {Name: "Look", Text: "## Look\n\n![Foil](" + target + ")"}})
	}
	picture := func(sum string) content.Doc {
		return content.DocOf("pictures/düse 1.svg", false, []content.Part{{Text: sum}})
	}
	other := content.DocOf("procedures/other.md", true, []content.Part{{Name: "Other", Text: "## Other\n\n![Foil](../pictures/düse.svg)"}})
	for _, target := range []string{"../pictures/düse%201.svg", "<../pictures/düse 1.svg>", "../pictures/d%C3%BCse%201.svg", `../pictures/düse%201.svg "A title"`} {
		a, b := content.New([]content.Doc{shows(target), other, picture("1")}), content.New([]content.Doc{shows(target), other, picture("2")})
		got := Consequences(a, b, Between(a, b, nil)).Readers
		if len(got) != 1 || got[0].Role != "" || !slices.Equal(got[0].Files, []string{"procedures/look.md"}) {
			t.Errorf("%s: %v", target, got)
		}
	}
}
