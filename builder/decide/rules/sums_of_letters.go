package rules

import (
	"fmt"
	"math"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// wrongLetters checks a sum with letters to which the sentence gives values: “T = 24.0 mL and F = 9.6 mL, so T ÷ F = 2.5”, “T 22 mL and F 10 mL give a ratio
// of 2.2”. A letter with two values says nothing.
func (p *proof) wrongLetters(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Has(noWords) || len(s.Quantities) < 2 || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	text := s.Block.Text[s.From:s.To]
	values := map[string]float64{}
	var order []string
	for _, m := range letterIs.FindAllStringSubmatch(text, 4) {
		if v, twice := values[m[1]]; twice && v != floatOf(m[2]) {
			return 0, ""
		}
		values[m[1]] = floatOf(m[2])
		order = append(order, m[1])
	}
	if len(values) != 2 || len(order) != 2 {
		return 0, ""
	}
	one, two, sign := order[0], order[1], "÷"
	var at []int // the figure stands from its third to its fourth
	if m := letterRatio.FindStringSubmatchIndex(text); m != nil {
		at = m
	}
	if m := letterSum.FindStringSubmatchIndex(text); m != nil {
		one, sign, two, at = text[m[2]:m[3]], text[m[4]:m[5]], text[m[6]:m[7]], m[6:]
	}
	if at == nil {
		return 0, ""
	}
	a, hasOne := values[one]
	b, hasTwo := values[two]
	figure := text[at[2]:at[3]]
	want, ok := reckon(a, sign, b)
	if !hasOne || !hasTwo || !ok {
		return 0, ""
	}
	_, decimals, _ := strings.Cut(figure, ".")
	if math.Abs(want-floatOf(figure)) <= max(0.02*math.Abs(want), 0.55*math.Pow(10, -float64(len(decimals)))) {
		return 0, ""
	}
	return s.From + at[2], fmt.Sprintf("%s %s %s is %s, not %s.", one, sign, two, plainFigure(want), figure)
}

// reckon works out a sum of two numbers; false for a sign that is none, and for a division by nothing.
func reckon(a float64, sign string, b float64) (float64, bool) {
	switch sign {
	case "×", "x", "*":
		return a * b, true
	case "+":
		return a + b, true
	case "−", "-", "–":
		return a - b, true
	case "÷", "/":
		return a / b, b != 0
	}
	return 0, false
}

var (
	letterIs    = expression.Of(`\b([A-Z])(?: =| is)? (\d+(?:\.\d+)?) ?m?[Lg]\b`)
	letterSum   = expression.Of(`\b([A-Z]) ([÷×/*x+−–-]) ([A-Z]) (?:=|is|gives) (\d+(?:\.\d+)?)(?:[.,;)]?(?:\s|$))`)
	letterRatio = expression.Of(`(?:give|gives|have|has|make|makes|is|are) (?:a|the) ratio of (\d+(?:\.\d+)?)(?:[.,;)]?(?:\s|$))`)
)
