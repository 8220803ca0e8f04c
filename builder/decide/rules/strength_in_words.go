package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// strengthInWords finds a strength that is told as so much concentrate to a litre, as grams a litre of a liquid, or in parts, and is not that of the tank
// or within the window of the chemistry that it is said of: “Wash 1 gets 150 mL of concentrate for each litre”, “Mix one part with five parts of water”.
// A mass of a liquid is a share of the bath by the density in the chemistry's header.
func (p *proof) strengthInWords(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || s.Has(noWords) || s.Has(otherLitres) || s.Has(exceptions) || illOf(s) || elsewhere(s) {
		return nil
	}
	volume, mass, from, text := p.perLitre(s)
	if volume == nil && mass == nil {
		return nil
	}
	k := 0
	for _, w := range s.Tokens() {
		if w.From <= from {
			k = w.Clause
		}
	}
	if c := &s.Clauses[k]; c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.If || c.Mood == sentence.Example || c.Mood == sentence.MustNot || s.ClauseHas(k, longAgo) {
		return nil
	}
	var chemistry *manual.Article
	var limit manual.Limit
	name := ""
	t := onlyTank(s)
	switch {
	case t != nil:
		chemistry, limit, name = p.Named(manual.Chemistry, t.Chemistry.Name), t.Strength, t.Name
		limit.Low, limit.High = limit.Low*0.9, limit.High*1.1
	case a.Chemistry != nil && !a.Partial && !slices.ContainsFunc(s.Mentions, func(m sentence.Mention) bool {
		return m.Thing != nil && !m.Thing.Includes(a)
	}):
		chemistry, limit, name = a, a.Chemistry.Strength, a.Head.Title
	}
	if chemistry == nil || !limit.Set {
		return nil
	}
	shares := volume
	switch density := chemistry.Chemistry.Density; {
	case mass != nil && limit.Kind == quantity.MassConcentration:
		shares = mass
	case mass != nil && limit.Kind == quantity.VolumeFraction && density.Set:
		shares = slices.Clone(volume)
		for _, m := range mass {
			shares = append(shares, m/density.Low)
		}
	case mass != nil || limit.Kind != quantity.VolumeFraction:
		return nil
	}
	if slices.ContainsFunc(shares, func(v float64) bool { return v >= limit.Low*0.97 && v <= limit.High*1.03 }) {
		return nil
	}
	own := limit
	if t != nil {
		own = t.Strength
	}
	f := numberAgainstModel.At(placeIn(a, s.Block, from), fmt.Sprintf("The text says %s of %s, which has %s.", text, name, own.In(p.Shop.System())), "Correct the amount here, or the strength in the shop file or article that it is said of.", own.At)
	return &f
}

// perLitre reads so much to a litre: as shares of the volume, or as kg/m³.
func (p *proof) perLitre(s *sentence.Sentence) (volume, mass []float64, from int, text string) {
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if q.Span && i == 0 && len(s.Quantities) == 1 && q.Kind == quantity.MassConcentration && q.Unit.Symbol == "g/L" && runAt(s, q) && (s.Has(usedWord) || s.Has(keptWord)) {
			return nil, []float64{q.Range.Low, q.Range.High}, q.From, q.Text
		}
		if !plain(q) {
			continue
		}
		if m := dissolvedIn(s, i); m > 0 {
			return nil, []float64{m}, q.From, "so much powder to so much water"
		}
		if q.Kind == quantity.MassConcentration && q.Unit.Symbol != "mg/L" && s.Verbless(q) && strings.TrimSpace(s.Block.Text[s.From:q.From]) == "" && s.Clauses[q.Clause].Mood == sentence.Fragment && len(s.Quantities) == 1 && !s.Has(heldInBath) {
			return nil, []float64{q.Range.Low}, q.From, q.Text
		}
		if q.Kind == quantity.MassConcentration && q.Unit.Symbol != "mg/L" && q.Near == "of" && slices.ContainsFunc(wordsBehind(s, q.To, 3), func(w string) bool { return dosed[w] }) {
			return nil, []float64{q.Range.Low}, q.From, q.Text
		}
		if q.Kind == quantity.MassConcentration && q.Unit.Symbol == "g/L" && runAt(s, q) {
			return nil, []float64{q.Range.Low}, q.From, q.Text
		}
		if v, m := perWholeTold(s, q); m > 0 {
			return v, []float64{m}, q.From, q.Text + " to each"
		} else if v != nil {
			return v, nil, q.From, q.Text + " to each"
		}
		if q.Kind != quantity.Volume && q.Kind != quantity.Mass || !litreBehind(wordsBehind(s, q.To, 7)) {
			continue
		}
		if q.Kind == quantity.Mass {
			return nil, []float64{q.Range.Low * 1000}, q.From, q.Text + " a litre"
		}
		v := q.Range.Low * 1000
		return []float64{v, v / (1 + v)}, nil, q.From, q.Text + " a litre"
	}
	list := s.Tokens()
	for i := 0; i+4 < len(list); i++ {
		n := numberOf(list[i].Text)
		if n == 0 || list[i+1].Text != "part" && list[i+1].Text != "parts" {
			continue
		}
		dose := s.Has(usedWord)
		for j := i + 2; j+1 < min(len(list), i+9); j++ {
			dose = dose || dosed[list[j].Text]
			if m := numberOf(list[j].Text); m > n && list[j+1].Text == "parts" && dose && (list[j-1].Text == "," && j-i < 6 || list[j-1].Text == "with" || list[j-1].Text == "to" || list[j-1].Text == "in" || list[j-1].Text == "and") && nextOf(list, j+1, waterWord) {
				return []float64{n / m, n / (n + m)}, nil, list[i].From, list[i].Text + " in " + list[j].Text
			}
		}
	}
	if n, m, at, ok := measuresTold(strings.ToLower(s.Block.Text[s.From:s.To])); ok {
		return []float64{n / m, n / (n + m)}, nil, s.From + at, "so many measures of cleaner to so many of water"
	}
	if n, m, at, ok := oneToMany(s); ok {
		return []float64{n / m, n / (n + m)}, nil, at, fmt.Sprintf("%g to %g", n, m)
	}
	if v, at := litreInLitres(s); v > 0 {
		return []float64{v, v / (1 + v)}, nil, at, "a litre in so many"
	}
	return nil, nil, 0, ""
}

// runAt tells whether a mass in a litre is how strong a bath is said to work or to be kept, and not what it holds of oil, iron or alkali.
func runAt(s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.Relation == sentence.At && precededBy(s, q, "at") && s.ClauseHas(q.Clause, bathRuns) && !s.Has(heldInBath)
}

// perWholeTold reads an amount to a whole that is said behind it: “300 g for every litre of the dip”, “8 oz of concentrate to the gallon”. Of ounces and gallons
// all that they may mean is given.
func perWholeTold(s *sentence.Sentence, q *sentence.Quantity) (volume []float64, mass float64) {
	if q.Kind != quantity.Volume && q.Kind != quantity.Mass {
		return nil, 0
	}
	list := wordsBehind(s, q.To, 6)
	if len(list) > 2 && list[0] == "of" && dosed[list[1]] {
		list = list[2:]
	} else if len(list) > 4 && list[3] != "of" && !(list[3] == "for" && onlyTank(s) != nil) && !(list[3] == "is" && len(s.Quantities) == 1) {
		return nil, 0 // “for every litre of the dip”: of what, where it is not said before
	}
	if len(list) < 3 || !toEach[list[0]] || list[1] != "each" && list[1] != "every" && list[1] != "a" && list[1] != "the" && list[1] != "one" {
		return nil, 0
	}
	if len(list) > 4 && list[3] == "of" && !wholes[list[4]] && !(list[4] == "the" || list[4] == "bath") && !strings.HasPrefix(list[4], "wash") {
		return nil, 0
	}
	var whole []float64 // m³
	switch list[2] {
	case "litre", "liter":
		whole = []float64{0.001}
	case "gallon":
		whole = []float64{0.003785, 0.004546}
	default:
		return nil, 0
	}
	for _, w := range whole {
		if q.Kind == quantity.Volume {
			volume = append(volume, q.Range.Low/w, q.Range.Low/(w+q.Range.Low))
		}
		if strings.Contains(q.Unit.Symbol, "oz") && q.Kind == quantity.Mass { // an ounce by weight, or a fluid one
			fluid := q.Range.Low / 0.0283495 * 2.957e-5
			volume = append(volume, fluid/w, q.Range.Low/w/1000)
		}
	}
	if q.Kind == quantity.Mass {
		mass = q.Range.Low / whole[0]
	}
	return volume, mass
}

// oneToMany reads a ratio in words that is said of water: “one to four with water”, “Mix it one to two with water”.
func oneToMany(s *sentence.Sentence) (n, m float64, at int, ok bool) {
	list := s.Tokens()
	for i := 0; i+4 < len(list); i++ {
		n, m = numberOf(list[i].Text), numberOf(list[i+2].Text)
		if n > 0 && m > n && !list[i].Amount && !list[i+2].Amount && (list[i+1].Text == "to" || list[i+1].Text == "in") && (list[i+3].Text == "with" || list[i+3].Text == "in") && waterWord[list[i+4].Text] {
			return n, m, list[i].From, true
		}
	}
	return 0, 0, 0, false
}

// litreInLitres reads “a litre of cleaner in ten litres of water” as a share of the water, and gives its place.
func litreInLitres(s *sentence.Sentence) (float64, int) {
	if len(s.Quantities) != 1 || s.Has(tooWord) {
		return 0, 0
	}
	q := &s.Quantities[0]
	list := s.PhraseBefore(q, 6)
	for from := range list {
		if part := litreOf(list[from:]); part > 0 && q.Kind == quantity.Volume && plain(q) && len(wordsBehind(s, q.To, 2)) == 2 && waterWord[wordsBehind(s, q.To, 2)[1]] {
			return part / q.Range.Low, q.From
		}
	}
	return 0, 0
}

// dissolvedIn gives the kg/m³ of a mass that is the charge of a volume, where the sentence says no more than the two: “A dip of 1 kg in five litres”; 0
// where it does not.
func dissolvedIn(s *sentence.Sentence, i int) float64 {
	q := s.Quantities
	if len(q) != 2 || i != 0 || q[0].Kind != quantity.Mass || q[1].Kind != quantity.Volume || !plain(&q[1]) || !s.Has(mixNouns) || s.Has(tooWord) {
		return 0
	}
	between := words(s, q[0].To, q[1].From)
	if n := len(between); n == 0 || n > 3 || between[n-1] != "in" && between[n-1] != "to" || n > 1 && (between[0] != "of" || !dosed[between[1]]) {
		return 0
	}
	return q[0].Range.Low / q[1].Range.Low
}

// measuresTold reads “a cup of cleaner to each cup of water”: so many measures of the one to so many of the other, by one vessel.
func measuresTold(text string) (n, m float64, at int, ok bool) {
	if !strings.Contains(text, "water") || !strings.Contains(text, " of ") {
		return 0, 0, 0, false
	}
	is := measureOf.FindStringSubmatchIndex(text)
	if is == nil || strings.TrimSuffix(text[is[4]:is[5]], "s") != strings.TrimSuffix(text[is[8]:is[9]], "s") {
		return 0, 0, 0, false
	}
	n, m = numberOf(text[is[2]:is[3]]), numberOf(text[is[6]:is[7]])
	if n == 0 {
		n = 1
	}
	if m == 0 {
		m = 1
	}
	return n, m, is[2], true
}

var (
	measureOf = expression.Of(`\b(an?|one|two|three|\d+) (cups?|jugs?|buckets?|measures?|scoops?|bottles?|glass|cans?|litres?) of (?:the )?(?:cleaner|concentrate|detergent|product|soap|it) (?:to|for|with|per|and|in|on) (an?|each|every|one|two|three|four|five|six|eight|nine|ten|twelve|twenty|\d+) (cups?|jugs?|buckets?|measures?|scoops?|bottles?|glass|cans?|litres?) of (?:\w+ )?water\b`)
	bathRuns  = sentence.Set("work works run runs used kept dosed strongest best it mixed made")
	usedWord  = sentence.Set("used mixed made")
	keptWord  = sentence.Set("kept run runs dosed")
	mixNouns  = sentence.Set("dip bath mix charge dissolve")
	// heldInBath are words of what is dissolved or carried in a bath.
	heldInBath = sentence.Set("oil iron soil alkalinity hardness load salt caustic dissolved carries carry holds zinc metal metals chloride grease titrant none density iron-content stock sample powder-free exhausted spent worn tested")
	wholes     = sentence.Set("bath water dip solution mix")
)

// wordsBehind gives up to so many words behind a place, in small letters and without their marks.
func wordsBehind(s *sentence.Sentence, from, n int) []string {
	list := words(s, from, s.To)
	for i := range list {
		list[i] = strings.Trim(list[i], ".,;:()")
	}
	return list[:min(n, len(list))]
}

// litreBehind tells whether words such as “of concentrate for each litre” stand there.
func litreBehind(list []string) bool {
	if len(list) < 4 || list[0] != "of" {
		return false
	}
	dose := false
	for i := 1; i+1 < len(list); i++ {
		dose = dose || dosed[list[i]]
		if dose && list[i] == "per" && (list[i+1] == "litre" || list[i+1] == "liter") {
			return true
		}
		if dose && i+2 < len(list) && toEach[list[i]] && (list[i+1] == "each" || list[i+1] == "every" || list[i+1] == "a" || list[i+1] == "one" || list[i+1] == "the") && (list[i+2] == "litre" || list[i+2] == "liter") {
			return true
		}
	}
	return false
}

var (
	dosed  = sentence.Set("concentrate powder product cleaner detergent crystals it granules")
	toEach = sentence.Set("for in per to into")
	// otherLitres are words of a litre that is no bath.
	otherLitres = sentence.Set("sample titrant indicator spray bottle beaker rinse test trial old weak strong weaker stronger lost loses drag-out first first-fill makes costs evaporates half alkalinity waste spent found if")
)
