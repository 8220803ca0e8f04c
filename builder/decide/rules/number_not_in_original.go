package rules

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// numberNotInOriginal finds quantities in the text of a translation that the original does not have in the same section.
// It prevents that a slip of the translator, 80 °C for 60 °C, is worked by. The limit is the original's text. Only figures with a unit count,
// each end of a range by itself; figures that the original writes as a word are known, and what stands in headers and calculators is the
// original's anyway. Where the two have other sections, the whole original is searched.
var numberNotInOriginal = finding.Rule{
	Name: "number-not-in-original", Severity: finding.Result,
	Finds:  "a quantity in the text of a translation that the original does not have there",
	Why:    "A figure that slipped in translating is worked by like any other.",
	Source: "the original",
}

// plainNumber writes a number in one way: a comma before three digits parts thousands, any other is a decimal comma.
func plainNumber(text string) string {
	if i := strings.LastIndexByte(text, ','); i >= 0 && len(text)-i-1 != 3 {
		text = text[:i] + "." + text[i+1:]
	}
	text = strings.ReplaceAll(text, ",", "")
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return text
}

// endsVesselName tells whether the number at an offset is the end of a vessel's name: of “Wash 1 a 62 °C”, the 1.
func (p *proof) endsVesselName(text string, at int) bool {
	end := at
	for end < len(text) && text[end] >= '0' && text[end] <= '9' {
		end++
	}
	names := func(name string) bool { return len(name) > end-at && strings.HasSuffix(text[:end], name) }
	return slices.ContainsFunc(p.Shop.Tanks, func(t manual.Tank) bool { return names(t.Name) }) ||
		slices.ContainsFunc(p.Shop.Rinses, func(r manual.Rinse) bool { return names(r.Name) }) || names(p.Shop.Dryer.Name)
}

func findNumbersNotInOriginal(p *proof, t *manual.Article) []finding.Finding {
	o := t.Original
	if o == nil || o.Partial {
		return nil
	}
	own, theirs := amountsOf(t.Language), amountsOf(p.OwnLanguage())
	comparable := len(o.Sections) > 0 && o.Same(&o.Sections[0], t) != nil
	known := make([]map[string]bool, len(o.Sections)+1)
	have := func(section int) map[string]bool {
		texts := o.Sections
		switch {
		case !comparable:
			section = len(o.Sections)
		default:
			texts = o.Sections[section : section+1]
		}
		if known[section] == nil {
			known[section] = map[string]bool{}
			for _, s := range texts {
				found, _ := theirs.in(s.Heading + ". " + s.Text)
				for _, q := range append(found, theirs.speltIn(s.Heading+". "+s.Text)...) {
					known[section][q] = true
				}
			}
		}
		return known[section]
	}
	var list []finding.Finding
	fenced := false
	line := t.Start - 1
	for text := range bytes.Lines(t.Body) {
		line++
		if trimmed := bytes.TrimLeft(text, " >"); bytes.HasPrefix(trimmed, []byte("```")) || bytes.HasPrefix(trimmed, []byte("~~~")) {
			fenced = !fenced
			continue
		}
		if fenced {
			continue
		}
		found, offsets := own.in(string(text))
		for i, q := range found {
			if have(sectionAt(t, line))[q] || p.endsVesselName(string(text), offsets[i]) {
				continue
			}
			place := finding.Place{File: t.Path, Line: line, Column: 1 + utf8.RuneCountInString(string(text[:offsets[i]]))}
			section := finding.Place{File: o.Path}
			if comparable {
				section = o.Sections[sectionAt(t, line)].At
			}
			list = append(list, numberNotInOriginal.At(place, fmt.Sprintf("The original does not say %s here.", q), "Compare the figure with the original's, or correct that.", section))
		}
	}
	return list
}
