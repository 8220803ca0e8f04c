package rules

import (
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/language"
	"tankside/builder/manual"
)

// firstAidWithoutMeasure finds articles that say in their header for what they give first aid, and whose text does not name what is special to it.
// It prevents a heading without the one thing that decides. Texts in other languages than English and Spanish are not read.
var firstAidWithoutMeasure = finding.Rule{
	Name: "first-aid-without-measure", Severity: finding.People,
	Finds:  "first aid declared in a header, without the measure that is special to it in the text",
	Why:    "Whoever opens the page in the first minute finds water and a telephone number, and not what saves.",
	Source: "the sources of missing-first-aid; the words by which a measure is known are our own",
}

// measure is what the text of a first aid has to name.
type measure struct {
	says  string // in a remedy
	known []*expression.Expression
}

// sentence parts of English and Spanish; within one paragraph.
func anyOf(patterns ...string) []*expression.Expression {
	var list []*expression.Expression
	for _, p := range patterns {
		list = append(list, expression.Of(`(?i)`+p))
	}
	return list
}

const (
	nobody  = `(?:do(?:es)? not|don't|must not|never|nobody|no one|not to|\bno\b|nadie|nunca)`
	notIn   = nobody + `[^.;]{0,30}\b(?:go(?:es|ing)?|enters?|climbs?|steps?|walks?|runs?|entr[ae]n?|baj[ae]n?)\b`
	minutes = `\b(?:1[5-9]|[2-9]\d)\s*min`
)

var measures = map[string]measure{
	"fluoride": {"calcium gluconate gel on the skin, and hospital", anyOf(`calcium[ -]?gluconate`, `gluconato (?:de calcio|cálcico)`)},
	"sulfide":  {"nobody goes in after somebody who has collapsed", anyOf(notIn)},
	"cyanide":  {"nobody goes in, no mouth-to-mouth, oxygen, and that there is an antidote", anyOf(`antidote`, `antídoto`, `mouth[ -]to[ -]mouth`, `boca a boca`)},
	"swallowed": {"do not bring it up", anyOf(
		nobody+`[^.;]{0,30}(?:bring|make|induce|force|cause|provo|haga|hacer)[^.;]{0,30}(?:\bup\b|vomit|vómit|\bsick\b|throw)`, `\bno vomiting\b`)},
	"shock": {"switch off before you touch", anyOf(
		`(?:switch|turn|cut|isolat|disconnect|unplug)[^.;]{0,40}(?:before|first|then)[^.;]{0,30}touch`, `\boff\b[^;]{0,60}(?:before|only then|then)[^.;]{0,30}touch`,
		nobody+`[^.;]{0,10}touch[^;]{0,60}(?:\boff\b|isolated|dead|disconnected|current|power)`, `touch[^.;]{0,20}before[^.;]{0,20}\boff\b`,
		`(?:desconect|cort)[^.;]{0,40}antes de tocar`, `no (?:lo |la )?toque[^.;]{0,60}(?:corriente|desconect|cort)`)},
	"eyes": {"water in the eye at once, for 15 min at the least", anyOf(`(?:\beyes?\b|\bojos?\b)[\s\S]{0,400}` + minutes)},
	"skin": {"clothes off, water on the skin, for 15 min at the least", anyOf(`(?:\bskin\b|\bbody\b|\bshower\b|\bpiel\b|\bducha\b)[\s\S]{0,400}` + minutes)},
}

func measuresOf(harms []string) []string {
	var list []string
	for _, h := range harms {
		list = append(list, h+": "+measures[h].says)
	}
	return list
}

func findFirstAidWithoutMeasure(p *proof, a *manual.Article) []finding.Finding {
	given := a.FirstAid()
	if len(given) == 0 || !readsLanguage(p) {
		return nil
	}
	text := textOf(a)
	var list []finding.Finding
	for _, r := range given {
		m := measures[r.Name]
		named := false
		for _, known := range m.known {
			named = named || known.MatchString(text)
		}
		if !named {
			list = append(list, firstAidWithoutMeasure.At(r.At, "The header says that the article gives first aid for “"+r.Name+"”, and the text does not name what is special to it: "+m.says+".",
				"Write it into the text as an order, and follow section 4 of the safety data sheet; or take “"+r.Name+"” out of first-aid."))
		}
	}
	return list
}

// readsLanguage tells whether the manual is written in a language whose sentences the measures know.
func readsLanguage(p *proof) bool {
	general := language.General(p.OwnLanguage())
	return general == language.English || general == "es"
}

// textOf is an article's text without marks.
func textOf(a *manual.Article) string {
	var b strings.Builder
	for _, s := range a.Sections {
		b.WriteString(s.Heading + "\n" + s.Text + "\n")
	}
	return b.String()
}
