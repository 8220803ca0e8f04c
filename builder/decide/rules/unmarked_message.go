package rules

import (
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// unmarkedMessage finds text that looks like a safety message to who wrote it and would be printed as any other sentence: “WARNING: hot
// caustic”, “Danger! Acid”, a note in the manner of another program. What opens with a signal word in bold is found by unclear-signal.
// It prevents that a warning is not read in time. Limit: the manual's format; ANSI Z535.6, messages set apart from the text.
var unmarkedMessage = finding.Rule{
	Name: "unmarked-message", Severity: finding.People,
	Finds:  "text that looks like a safety message and would not be shown as one",
	Why:    "A warning that looks like any other sentence is not read in time.",
	Source: "ANSI Z535.6 and ISO 3864-2: signal words set apart from the text (from memory, to be confirmed by the safety officer); the manual's format",
}

var (
	// A signal word in capitals with a mark or more words behind it; or as a usual word with a mark, and then a hazard or a command.
	shouted   = expression.Of(`^[\s*_⚠️!\[(>]*(DANGER|WARNING|CAUTION|NOTICE)\b[\])*_]*\s*[:.!,;–—-]?\s*\S`)
	spokenUp  = expression.Of(`^[\s*_⚠️!\[(>]*(Danger|Warning|Caution|Attention|danger|warning|caution)[\])*_]*\s*(?:[:!–—]|\.\s|-\s)\s*(\S.*)`)
	bracketed = expression.Of(`^[\s>]*(?:\[!(?:WARNING|CAUTION|DANGER|IMPORTANT|NOTE|ATTENTION)\]|:::\s*\{?\.?(?:warning|danger|caution)|!!!\s*(?:warning|danger|caution)|\.\.\s+(?:warning|danger|caution)::)`)
	sign      = expression.Of(`^[\s*_]*(?:⚠|☠|☢|☣|⛔|🛑|🔥)`)
	commands  = sentence.Set("do don't never no wear keep stop avoid always not must use switch beware mind only read call")
)

func findUnmarkedMessages(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.blocks {
		b := &said.blocks[i]
		if b.Signal != "" || b.Kind == sentence.Cell || b.Text == "" {
			continue
		}
		word, is := looksLikeMessage(b)
		if !is {
			continue
		}
		remedy := "Write a block quote that opens with the signal word in bold capitals: > **" + word + "** …"
		list = append(list, unmarkedMessage.At(placeIn(a, b, 0), "This looks like a safety message, “"+shorten(b.Text)+"”, and would be shown as plain text.", remedy))
	}
	return list
}

// opensLikeMessage tells quickly of most blocks that they do not open with a signal word, a sign or a mark of another program.
func opensLikeMessage(text string) bool {
	opening := strings.ToLower(text[:min(len(text), 24)])
	if opening != "" && (opening[0] >= 0x80 || strings.ContainsRune("[:!.(", rune(opening[0]))) {
		return true
	}
	for _, w := range []string{"danger", "warning", "caution", "notice", "attention"} {
		if strings.Contains(opening, w) {
			return true
		}
	}
	return false
}

func looksLikeMessage(b *sentence.Block) (word string, is bool) {
	text := b.Text
	if !opensLikeMessage(text) {
		return "", false
	}
	if b.Bold {
		// Bold signal words are judged by the reader where they stand alone in capitals outside a block quote, or in one.
		if m := shouted.FindStringSubmatch(text); m != nil {
			return m[1], false
		}
		if b.Kind == sentence.Quote {
			return "", false
		}
	}
	switch {
	case shouted.MatchString(text):
		return shouted.FindStringSubmatch(text)[1], true
	case bracketed.MatchString(text):
		return "WARNING", true
	case sign.MatchString(text) && namesHazard(text):
		return "WARNING", true
	}
	if m := spokenUp.FindStringSubmatch(text); m != nil {
		first, _, _ := strings.Cut(strings.ToLower(m[2]), " ")
		if namesHazard(m[2]) || commands[strings.Trim(first, ".,!:")] {
			word := strings.ToUpper(m[1])
			if word == "ATTENTION" {
				word = "CAUTION"
			}
			return word, true
		}
	}
	return "", false
}
