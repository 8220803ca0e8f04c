package rules

import (
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/language"
	"tankside/builder/manual"
)

// pastedNumber finds numbers in the words of headers, of the glossary and of the shop file that came with another country's way of writing or from a
// word processor: “pH 9,5”, “10%-15%”. It prevents that 9,5 is read as two numbers, and that a per cent of nothing in particular is measured out.
// The limit is the manual's format: decimal points, and one sign at the end of a range. In manuals of other languages than English a comma is right.
var pastedNumber = finding.Rule{
	Name: "pasted-number", Severity: finding.Result,
	Finds:  "a decimal comma, or a per cent sign at both ends of a range, in the words of a header, the glossary or the shop file",
	Why:    "A comma parts two numbers, so that 9,5 can be read as nine and five; and no check sees such a number.",
	Source: "the manual's format; NIST SP 811 (2008), 10.5.2 (decimal marker)",
}

var (
	commaAfterPH = expression.Of(`(?i)\bpH\s*(?:of\s+)?(\d{1,2}),(\d{1,2})\b`)
	commaNumber  = expression.Of(`\b(\d+),(\d{1,2}|\d{4,})\s?(?:%|°|k?Hz|min\b|h\b|s\b|bar\b|psi\b|m?L\b|k?g\b|mg\b|mm\b|cm\b|m\b|k?W\b|µS|gal\b|in\b|ft\b)`)
	twoPercents  = expression.Of(`(\d+(?:[.,]\d+)?)\s*%\s*[-–—]\s*(\d+(?:[.,]\d+)?)\s*%(\s*[vw]/[vw])?`)
)

// pasted gives what is wrong in a text and how it is written, or "".
func pasted(text string) (wrong, right string) {
	if strings.Count(text, "%") > 1 {
		if wrong, right := percentTwice(text); wrong != "" {
			return wrong, right
		}
	}
	if !commaInNumber(text) {
		return "", ""
	}
	for _, comma := range []*expression.Expression{commaAfterPH, commaNumber} {
		if m := comma.FindStringSubmatch(text); m != nil {
			return m[0], "Write " + strings.Replace(m[0], m[1]+","+m[2], m[1]+"."+m[2], 1) + "."
		}
	}
	return "", ""
}

// percentTwice does so for a range with its per cent sign at both ends.
func percentTwice(text string) (wrong, right string) {
	if m := twoPercents.FindStringSubmatch(text); m != nil {
		low, high := strings.ReplaceAll(m[1], ",", "."), strings.ReplaceAll(m[2], ",", ".")
		if of := strings.TrimSpace(m[3]); of != "" {
			return m[0], "Write " + low + "–" + high + " % " + of + "."
		}
		return m[0], "Write " + low + "–" + high + " % v/v, or % w/w or % w/v where that is meant; for another per cent than a strength " + low + "–" + high + " %."
	}
	return "", ""
}

func findPastedNumbers(p *proof, a *manual.Article) []finding.Finding {
	if !p.english() {
		return nil
	}
	var list []finding.Finding
	look := func(key string, texts ...string) {
		for _, text := range texts {
			if wrong, right := pasted(text); wrong != "" {
				list = append(list, pastedNumber.At(at(a, key), "“"+key+"” has “"+wrong+"”.", right))
				return
			}
		}
	}
	look("title", a.Head.Title)
	look("summary", a.Head.Summary)
	switch {
	case a.Material != nil:
		look("damage", a.Material.Damage...)
	case a.Procedure != nil:
		look("equipment", a.Procedure.Equipment...)
	case a.Symptom != nil:
		look("label", a.Symptom.Label)
		for _, o := range a.Symptom.Observations {
			if wrong, right := pasted(o.Seen); wrong != "" {
				list = append(list, pastedNumber.At(o.At, "The observation has “"+wrong+"”.", right))
			}
		}
	}
	return list
}

func findPastedInGlossary(p *proof) []finding.Finding {
	if !p.english() {
		return nil
	}
	var list []finding.Finding
	for _, t := range p.Glossary {
		if wrong, right := pasted(t.Means); wrong != "" {
			list = append(list, pastedNumber.At(t.At, "The term “"+t.Term+"” has “"+wrong+"”.", right))
		}
	}
	if wrong, right := pasted(p.Shop.Note); wrong != "" {
		list = append(list, pastedNumber.At(shopPlace(p, "note"), "The note has “"+wrong+"”.", right))
	}
	return list
}

// english tells whether the manual is written in English. Where it says nothing it is taken for that, as its interface is.
func (p *proof) english() bool { return language.General(p.OwnLanguage()) == language.English }
