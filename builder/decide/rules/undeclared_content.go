package rules

import (
	"fmt"
	"maps"
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
	Finds:  "a soil whose DANGER or WARNING says that it may contain asbestos, lead, cyanide and their like, and whose header does not",
	Why:    "“May it go in?” goes by the header, and says yes where the safety officer should be asked.",
	Source: "the article itself; may-contain",
}

// sendsBack finds that somebody is asked first, or that such parts do not come in: where only some of the soil is meant, the header cannot say it.
var sendsBack = expression.Of(`(?i)\b(?:safety officer|safety engineer|turn(?:ed|s)? (?:it |them |such parts )?back|refuse[ds]?|quarantine[ds]?|not accepted|sent back)\b`)

// Words for having something in it, and for that this is not certain.
var (
	holding  = sentence.Set("contain hold carry have bear include leave shed")
	possible = sentence.Set("may can could might")
)

func findUndeclaredContents(p *proof, a *manual.Article) []finding.Finding {
	if a.Soil == nil || a.Original != nil || len(a.Soil.MayContain) > 0 { // one that may contain something gets no yes as it is
		return nil
	}
	for i := range a.Blocks {
		b := &a.Blocks[i]
		if b.Signal != "DANGER" && b.Signal != "WARNING" || p.handedOn(a, b) || sendsBack.MatchString(b.Text) {
			continue
		}
		for _, s := range sentence.Statements(b) {
			what := heldIn(strings.ToLower(s.Text))
			if what == "" {
				continue
			}
			return []finding.Finding{undeclaredContent.At(placeIn(a, b, s.From+leadingBlanks(b.Text[s.From:])), fmt.Sprintf("The message says that %s may be in it, and the header has no may-contain: [%s].", what, what),
				fmt.Sprintf("Write may-contain: [%s] in the header, so that nobody is told yes before the safety officer has cleared the lot; or say that such parts go to the safety officer, or are turned back.", what), at(a, "title"))}
		}
	}
	return nil
}

func leadingBlanks(text string) int { return len(text) - len(strings.TrimLeft(text, " \n")) }

// heldIn gives what a sentence, in lower case, says may be in something, as may-contain calls it, or "". Words for having and for perhaps stand shortly before
// it in the same clause, and nothing denies it.
func heldIn(text string) string {
	for clause := range strings.FieldsFuncSeq(text, func(r rune) bool { return strings.ContainsRune(",;:()", r) }) {
		maybe, held := false, 0
		for word := range strings.FieldsFuncSeq(clause, func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }) {
			switch {
			case noWords[word], strings.HasSuffix(word, "-free"):
				maybe, held = false, 0
			case possible[word]:
				maybe, held = true, 0
			case maybe && holding[word]:
				held = 6
			case held > 0:
				if what := contentOf(word); what != "" {
					return what
				}
				held--
			}
		}
	}
	return ""
}

// contentOf is what may-contain calls what a word names, or "".
func contentOf(word string) string {
	for _, name := range slices.Sorted(maps.Keys(constituentNames)) {
		if name == "biological" || name == "radioactive" || name == "pcb" {
			continue // told by words that mean other things too
		}
		for _, begin := range constituentNames[name] {
			if strings.HasPrefix(word, begin) && !(begin == "lead" && word != "lead") && !(begin == "chrom" && !strings.HasPrefix(word, "chromat")) {
				return name
			}
		}
	}
	return ""
}

// handedOn tells whether a message links to the article of a soil that may contain something.
func (p *proof) handedOn(a *manual.Article, b *manual.Block) bool {
	return slices.ContainsFunc(b.Links, func(l manual.BlockLink) bool {
		to, problem := p.Resolve(a, l.Target)
		return problem == nil && to.Article != nil && to.Article != a && to.Article.Soil != nil && len(to.Article.Soil.MayContain) > 0
	})
}
