package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// onCard gives the facts of a chemistry's, a material's or a part's own page with which an amount on a card is compared: words without a verb, of which all
// are a label such as “Range”, “pH in use”, “Time in the bath”, or several amounts side by side as in a recipe. A word that is none of these, such as
// “rinse” or “waste”, means that it may be of something else. It is no card's amount where is is false.
func (p *proof) onCard(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) (list []known, is bool) {
	k := q.Clause
	if a.Partial || s.Block.Kind == sentence.Cell || s.Block.Kind == sentence.Heading || s.Clauses[k].Mood != sentence.Fragment || s.Clauses[k].Opener != "" || !saidWhole(q) || s.TakenBack {
		return nil, false
	}
	label, others := cardLabel(a, s, k)
	if others || otherSection(s.Block.Section) && !ofBathForSure(s, k, label) || len(label) == 0 && !recipe(s, k) || len(label) > 0 && !labelFits(label, q.Kind) && !(recipe(s, k) && slices.ContainsFunc(label, func(w string) bool { return bathLabels[w] })) {
		return nil, false
	}
	switch {
	case a.Chemistry != nil:
		list = cardOfChemistry(a, q)
	case a.Material != nil && len(label) > 0:
		f := a.Material
		list = cardFacts(q, a.Head.Title, f.PH, f.PHSilicated, f.Time, f.Temperature, f.Frequency)
	case a.Part != nil && len(label) > 0:
		for _, w := range washes(p, a) {
			list = append(list, cardFacts(q, "its wash", w.Time, w.Temperature, w.Strength, w.Frequency)...)
		}
	}
	return list, len(list) > 0
}

// ofBathForSure tells whether a card is one of the bath whatever the heading above it is of: it has a strength, or its label says so or names no pH, which
// waste has limits of as well.
func ofBathForSure(s *sentence.Sentence, k int, label []string) bool {
	if slices.ContainsFunc(s.Quantities, func(q sentence.Quantity) bool { return q.Clause == k && slices.Contains(strengthKinds, q.Kind) }) {
		return true
	}
	if slices.ContainsFunc(label, func(w string) bool { return bathLabels[w] }) {
		return true
	}
	return len(label) > 0 && !slices.ContainsFunc(s.Quantities, func(q sentence.Quantity) bool { return q.Clause == k && q.Kind == quantity.PH })
}

// otherSection tells whether a heading is one of other work than that in the bath.
func otherSection(head string) bool {
	return slices.ContainsFunc(strings.Fields(strings.ToLower(head)), func(w string) bool { return otherStations[strings.Trim(w, ".,;:?")] || otherWork[w] })
}

// saidWhole tells whether a quantity says what something is or may be at most or at least, and not a difference.
func saidWhole(q *sentence.Quantity) bool {
	return q.Relation == sentence.At || q.Relation == sentence.To || q.Relation == sentence.AtMost || q.Relation == sentence.AtLeast || q.Relation == sentence.From && q.Span
}

// cardLabel gives the words of an amount's label, those before it in its clause and those of the clause before a colon; others tells whether one of
// them belongs to no label.
func cardLabel(a *manual.Article, s *sentence.Sentence, k int) (label []string, others bool) {
	if len(s.Clauses) > 2 && !labels(s, 1) || k > 1 {
		return nil, true
	}
	for _, w := range s.Tokens() {
		switch {
		case w.Clause != k && !(w.Clause == k-1 && labels(s, k)), w.Amount, cardMarks[w.Text]:
		case cardLabels[w.Text], a.Part != nil && calledSo(a, w.Text), a.Material != nil && isOwnName(a, w.Text):
			label = append(label, w.Text)
		default:
			return nil, true
		}
	}
	return label, false
}

// recipe tells whether a clause has amounts of several kinds and nothing else.
func recipe(s *sentence.Sentence, k int) bool {
	kinds := map[quantity.Kind]bool{}
	for i := range s.Quantities {
		if q := &s.Quantities[i]; q.Clause == k {
			kinds[q.Kind] = true
		}
	}
	return len(kinds) > 1
}

// labelFits tells whether the words of a label are of a kind of amount, or of all kinds; one at least has to be.
func labelFits(label []string, kind quantity.Kind) bool {
	fits, named := false, false
	for _, w := range label {
		if k, is := kindLabels[w]; is {
			named = true
			fits = fits || slices.Contains(k, kind)
		}
	}
	if named && !slices.ContainsFunc(label, func(w string) bool { return anyLabels[w] }) {
		return fits
	}
	return fits || slices.ContainsFunc(label, func(w string) bool { return anyLabels[w] })
}

// cardOfChemistry are the windows of a chemistry; a single temperature may be its ceiling or another point of its own as well.
func cardOfChemistry(a *manual.Article, q *sentence.Quantity) []known {
	f := a.Chemistry
	list := cardFacts(q, a.Head.Title, f.Temperature, f.Strength, f.PH, f.Time, f.Frequency)
	if q.Kind == quantity.Temperature && !q.Span && len(list) > 0 {
		list = append(list, facts(known{limit: f.Ceiling, exact: true}, known{limit: f.CloudPoint, exact: true}, known{limit: f.FlashPoint, exact: true})...)
	}
	return list
}

// cardFacts are those of the limits that are of an amount's kind.
func cardFacts(q *sentence.Quantity, of string, limits ...manual.Limit) []known {
	var list []known
	for _, l := range limits {
		if _, ok := inKindOf(q, l); l.Set && ok {
			list = append(list, known{of: of, limit: l})
		}
	}
	return list
}

// wrongOnCard gives the finding for an amount on a card that contradicts every fact of its page.
func (p *proof) wrongOnCard(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *finding.Finding {
	list, is := p.onCard(a, s, q)
	if !is || slices.ContainsFunc(list, func(f known) bool { return !contradicts(q, f) }) {
		return nil
	}
	f := p.contradiction(a, s, q, list[0])
	return &f
}

var (
	howWord    = sentence.Set("how")
	otherWork  = sentence.Set("waste titration titrate mixing mix sample storage example examples history test tests trial trials")
	bathLabels = sentence.Set("bath use working operating tank fresh")
	cardMarks  = sentence.Set(": , . ; – — - · / | ( ) * ~ and to ≤ ≥ < >")
	// anyLabels are words of a label that may stand before an amount of any kind.
	anyLabels = sentence.Set("range ranges limit limits window recipe")
	// kindLabels are words of a label for amounts of a kind.
	kindLabels = map[string][]quantity.Kind{
		"temperature": {quantity.Temperature}, "heat": {quantity.Temperature}, "temp": {quantity.Temperature},
		"ph":       {quantity.PH},
		"strength": strengthKinds, "concentration": strengthKinds, "dosage": strengthKinds, "dose": strengthKinds, "charge": strengthKinds, "mix": strengthKinds, "dilution": strengthKinds,
		"sound": {quantity.Frequency, quantity.Time}, "frequency": {quantity.Frequency},
		"strong": strengthKinds, "hot": {quantity.Temperature}, "warm": {quantity.Temperature},
		"time": {quantity.Time}, "dip": {quantity.Time}, "soak": {quantity.Time}, "dwell": {quantity.Time}, "long": {quantity.Time}, "wash": {quantity.Time}, "duration": {quantity.Time}, "minutes": {quantity.Time},
	}
	strengthKinds = []quantity.Kind{quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration, quantity.Fraction}
	cardLabels    = sentence.Set(`range ranges limit limits window recipe working operating usual normal recommended standard typical in use of for one the a an this its our for bath tank at is fresh full permitted allowed how most longest maximum max
		temperature heat temp ph strength concentration dosage dose charge mix dilution sound frequency time dip soak dwell long wash duration minutes contact dipping washing strong hot warm`)
)
