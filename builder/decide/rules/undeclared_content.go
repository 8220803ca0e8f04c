package rules

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// undeclaredContent finds soils whose DANGER or WARNING says that something which hurts people may be in them, while the header does not. It prevents that
// “May it go in?” answers yes, since it goes by the header, and that a part with the soil asks for no clearance.
// Limit: what may-contain knows. What is denied (“may hold no lead”) is left alone, and a message that sends such parts on, to a soil whose header says it, to the
// safety officer, or back.
var undeclaredContent = finding.Rule{
	Name: "undeclared-content", Severity: finding.People,
	Finds:  "a soil whose title, DANGER or WARNING says that it contains or may contain asbestos, lead, cyanide and their like, and whose header does not; a part whose message says so of what is on it, and none of whose soils does",
	Why:    "“May it go in?” goes by the header, and says yes where the safety officer should be asked.",
	Source: "the article itself; may-contain",
}

// sendsBack finds that somebody is asked first, or that such parts do not come in: where only some of the soil is meant, the header cannot say it.
var sendsBack = expression.Of(`(?i)\b(?:safety officer|safety engineer|turn(?:ed|s)? (?:it |them |such parts )?back|refuse[ds]?|quarantine[ds]?|not accepted|sent back)\b`)

// Words for having something in it, and for that this is not certain.
var (
	holding   = sentence.Set("contain hold carry have bear include leave shed")
	possible  = sentence.Set("may can could might")
	linking   = sentence.Set("be is are")
	wholeSoil = sentence.Set("it they this these such")
)

func findUndeclaredContents(p *proof, a *manual.Article) []finding.Finding {
	if a.Soil == nil && a.Part == nil || a.Original != nil || p.clearedFirst(a) {
		return nil
	}
	if what := titledContent(a); what != "" {
		return []finding.Finding{undeclaredContent.At(at(a, "title"), fmt.Sprintf("By its title there is %s in it, and the header has no may-contain: [%s].", matter(what), what),
			fmt.Sprintf("Write may-contain: [%s] in the header, so that nobody is told yes before the safety officer has cleared the lot; or, where there is none of it, give it another title.", what))}
	}
	for i := range a.Blocks {
		b := &a.Blocks[i]
		if b.Signal != "DANGER" && b.Signal != "WARNING" || p.handedOn(a, b) {
			continue
		}
		asked := sendsBack.MatchString(b.Text)
		for _, s := range sentence.Statements(b) {
			what, whole := heldIn(strings.ToLower(strings.TrimPrefix(s.Text, b.Signal+" ")))
			if what == "" || asked && !whole {
				continue
			}
			if a.Part != nil {
				return []finding.Finding{undeclaredContent.At(placeIn(a, b, s.From+blanksOf(b.Text[s.From:s.To])), fmt.Sprintf("The message says that %s is or may be on the part, and no soil of it has may-contain: [%s].", matter(what), what),
					fmt.Sprintf("Name under soil the one that has it, with may-contain: [%s], so that nobody is told yes before the safety officer has cleared the lot; or say of which parts it is true, and that they go to the safety officer, or are turned back.", what), at(a, "soil"))}
			}
			return []finding.Finding{undeclaredContent.At(placeIn(a, b, s.From+blanksOf(b.Text[s.From:s.To])), fmt.Sprintf("The message says that %s is or may be in it, and the header has no may-contain: [%s].", matter(what), what),
				fmt.Sprintf("Write may-contain: [%s] in the header, so that nobody is told yes before the safety officer has cleared the lot; or say of which of it that is true, and that such parts go to the safety officer, or are turned back.", what), at(a, "title"))}
		}
	}
	return nil
}

// titledContent gives what a soil is called after, as may-contain calls it, or "": “Radium paint of dials”, “Mercury gilding”, and not “Grease of the lead screw”.
func titledContent(a *manual.Article) string {
	if a.Soil == nil {
		return ""
	}
	words := strings.FieldsFunc(strings.ToLower(a.Head.Title), func(r rune) bool { return !unicode.IsLetter(r) && r != '-' })
	for i, w := range words {
		if what, _ := contentOf(w); what != "" && !strings.HasSuffix(w, "-free") && (w != "lead" || i+1 < len(words) && ofLead[words[i+1]]) && (i == 0 || !notMade[words[i-1]] && !noWords[words[i-1]]) {
			return what
		}
	}
	return ""
}

// ofLead are words behind “lead” that make the metal of it, and no leading one.
var ofLead = sentence.Set("paint paints dust oxide oxides carbonate acetate salts solder seal seals based")

// clearedFirst tells whether a soil, or one of a part's, may contain something by its header: then there is no yes as it is.
func (p *proof) clearedFirst(a *manual.Article) bool {
	if a.Soil != nil {
		return len(a.Soil.MayContain) > 0
	}
	return slices.ContainsFunc(a.Part.Soils, func(r manual.Ref) bool {
		soil := p.Named(manual.Soil, r.Name)
		return soil == nil || len(soil.Soil.MayContain) > 0
	})
}

// heldIn gives what a sentence, in lower case, says is or may be in something, as may-contain calls it, or ""; and whether it says so of the whole soil: “It may
// contain asbestos”, “This dust contains radium”, and not “Old pads may hold asbestos”. Words for having, and of a part of the soil for perhaps, stand shortly before
// it in the same clause, and nothing denies it.
func heldIn(text string) (what string, whole bool) {
	text = strings.TrimSpace(text)
	first, _, _ := strings.Cut(text, " ")
	whole = wholeSoil[first] || holding[strings.TrimSuffix(first, "s")] || possible[first]
	for clause := range strings.FieldsFuncSeq(text, func(r rune) bool { return strings.ContainsRune(",;:()", r) }) {
		maybe, held, is := whole, 0, 0
		for word := range strings.FieldsFuncSeq(clause, func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }) {
			held, is = held-1, is-1
			content, state := contentOf(word)
			switch {
			case noWords[word], strings.HasSuffix(word, "-free"):
				maybe, held, is = false, 0, 0
			case possible[word]:
				maybe, held, is = true, 0, 0
			case maybe && (holding[word] || holding[strings.TrimSuffix(word, "s")] || word == "has"):
				held = 7
			case maybe && linking[word]:
				is = 4
			case content != "" && (held > 0 || state && is > 0):
				return content, whole
			}
		}
		whole = false // what follows a colon or a comma may be about something else
	}
	return "", false
}

// contentOf is what may-contain calls what a word names, or ""; and whether the word is one for how a thing is: “radioactive”.
func contentOf(word string) (what string, state bool) {
	switch {
	case strings.HasPrefix(word, "radioactiv"), strings.HasPrefix(word, "radium"):
		return "radioactive", strings.HasPrefix(word, "radioactiv")
	case strings.HasPrefix(word, "infectious"):
		return "biological", true
	case ofLife[word]:
		return "biological", false
	}
	for _, name := range contentNames {
		for _, begin := range constituentNames[name] {
			if strings.HasPrefix(word, begin) && !(begin == "lead" && word != "lead") && !(begin == "chrom" && !strings.HasPrefix(word, "chromat")) {
				return name, false
			}
		}
	}
	return "", false
}

// matter is what a word of may-contain is called in a sentence.
func matter(what string) string {
	if what == "biological" || what == "radioactive" {
		return what + " matter"
	}
	return what
}

// ofLife are words for what may-contain calls biological.
var ofLife = sentence.Set("biological germs bacteria virus viruses hepatitis blood saliva pathogens legionella")

// contentNames are those of constituentNames whose words mean nothing else.
var contentNames = []string{"asbestos", "beryllium", "cadmium", "chromate", "cyanide", "lead", "mercury", "nitrite", "sulfide"}

// handedOn tells whether a message links to the article of a soil that may contain something.
func (p *proof) handedOn(a *manual.Article, b *manual.Block) bool {
	return slices.ContainsFunc(b.Links, func(l manual.BlockLink) bool {
		to, problem := p.Resolve(a, l.Target)
		return problem == nil && to.Article != nil && to.Article != a && to.Article.Soil != nil && len(to.Article.Soil.MayContain) > 0
	})
}
