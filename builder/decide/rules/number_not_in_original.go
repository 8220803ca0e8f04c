package rules

import (
	"bytes"
	"fmt"
	"regexp"
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

// Units as they are written in texts, and words for them, to one name.
var unitNames = func() map[string]string {
	names := map[string]string{"minutes": "min", "minute": "min", "minutos": "min", "minuto": "min", "seconds": "s", "second": "s", "segundos": "s", "segundo": "s",
		"hours": "h", "hour": "h", "horas": "h", "hora": "h", "days": "day", "day": "day", "días": "day", "día": "day", "weeks": "week", "week": "week", "semanas": "week", "semana": "week",
		"months": "month", "month": "month", "meses": "month", "mes": "month", "litres": "L", "litre": "L", "litros": "L", "litro": "L",
		"grams": "g", "gram": "g", "gramos": "g", "gramo": "g", "per cent": "%", "percent": "%", "por ciento": "%", "metros": "m", "metro": "m", "metres": "m", "metre": "m"}
	for _, unit := range strings.Fields("% °C °F kHz MHz Hz min s h L mL kg g mg mm cm m µm µS/cm W kW W/L bar kPa psi gal mg/L g/L g/kg V A dB L/min") {
		names[unit] = unit
	}
	return names
}()

var numberWords = map[string]string{
	"a": "1", "an": "1", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10",
	"twelve": "12", "fifteen": "15", "twenty": "20", "thirty": "30", "half": "0.5",
	"un": "1", "una": "1", "dos": "2", "tres": "3", "cuatro": "4", "cinco": "5", "seis": "6", "siete": "7", "ocho": "8", "nueve": "9", "diez": "10",
	"doce": "12", "quince": "15", "veinte": "20", "treinta": "30",
}

var (
	figure     = `\d+(?:[.,]\d+)*`
	unitText   = `per cent|percent|por ciento|%|°C|°F|µS/cm|W/L|L/min|mg/L|g/L|g/kg|[A-Za-zµáéíóúñ]+`
	quantities = regexp.MustCompile(`(` + figure + `)(?:[\s\x{a0}]*(?:[–‑-]|to|a|y|and|or|o)[\s\x{a0}]*(` + figure + `))?[\s\x{a0}]*(?:more |further )?(` + unitText + `)`)
	spelt      = regexp.MustCompile(`(?i)\b([a-z]+)(?: (?:a|an|or two|to [a-z]+))? (` + unitText + `)`)
)

// quantitiesIn gives the quantities of a text, each as number and unit, with their offsets.
func quantitiesIn(text string) (found []string, offsets []int) {
	for _, m := range quantities.FindAllStringSubmatchIndex(text, -1) {
		unit, known := unitNames[text[m[6]:m[7]]]
		if !known {
			continue
		}
		for _, group := range [][2]int{{m[2], m[3]}, {m[4], m[5]}} {
			if group[0] >= 0 {
				found, offsets = append(found, plainNumber(text[group[0]:group[1]])+" "+unit), append(offsets, group[0])
			}
		}
	}
	return found, offsets
}

// speltIn gives the quantities of a text whose number is a word.
func speltIn(text string) (found []string) {
	for _, m := range spelt.FindAllStringSubmatch(text, -1) {
		number, known := numberWords[strings.ToLower(m[1])]
		if unit, is := unitNames[m[2]]; known && is {
			found = append(found, number+" "+unit)
		}
	}
	return found
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
				found, _ := quantitiesIn(s.Heading + ". " + s.Text)
				for _, q := range append(found, speltIn(s.Heading+". "+s.Text)...) {
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
		found, offsets := quantitiesIn(string(text))
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
