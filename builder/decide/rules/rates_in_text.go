package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongShare checks “3 % of a 4 % wash is 0.12 %”.
func (p *proof) wrongShare(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 3 || !s.Has(results) || s.Has(otherSums) {
		return 0, ""
	}
	one, two, three := &s.Quantities[0], &s.Quantities[1], &s.Quantities[2]
	for _, q := range []*sentence.Quantity{one, two, three} {
		if q.Kind != quantity.Fraction && q.Kind != quantity.VolumeFraction || q.Span {
			return 0, ""
		}
	}
	if one.Near != "of" || len(words(s, one.To, two.From)) > 3 || !plain(three) {
		return 0, ""
	}
	product := one.Range.Low * two.Range.Low
	if off(product, three.Range.Low) <= slackOf(three, one, two) {
		return 0, ""
	}
	return three.From, fmt.Sprintf("%s of %s is %s, not %s.", one.Text, two.Text, quantity.ShowIn(product, three.Unit), three.Text)
}

// words gives the words between two places, none where the first is behind the second.
func words(s *sentence.Sentence, from, to int) []string {
	if from > to {
		return nil
	}
	return strings.Fields(strings.ToLower(s.Block.Text[from:to]))
}

// wrongProportion checks “1 kg for 10 L, so that 28 L carry 2.8 kg”: two pairs of amounts at one rate.
func (p *proof) wrongProportion(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 4 || !s.Has(results) || s.Has(otherSums) {
		return 0, ""
	}
	q := s.Quantities
	for i := range q {
		if q[i].Span || q[i].Relation == sentence.Difference || s.Clauses[q[i].Clause].Mood == sentence.Was || s.Clauses[q[i].Clause].Mood == sentence.Ask {
			return 0, ""
		}
	}
	between, follows := words(s, q[0].To, q[1].From), slices.ContainsFunc(words(s, q[1].To, q[2].From), func(w string) bool { return follow[w] })
	told := follows && endsTelling(between, nil, &q[1]) && endsTelling(gap(s, &q[2], &q[3]), nil, &q[3])
	if !told && (len(between) == 0 || len(between) > 2 || !rates[between[0]] || q[0].Kind == q[1].Kind || between[0] != "per" && between[0] != "for" && !follows) || notInStep[q[0].Kind] || notInStep[q[1].Kind] {
		return 0, ""
	}
	third, fourth := &q[2], &q[3]
	switch {
	case third.Kind == q[0].Kind && fourth.Kind == q[1].Kind:
		third, fourth = fourth, third
	case third.Kind != q[1].Kind || fourth.Kind != q[0].Kind:
		return 0, ""
	}
	if q[1].Range.Low <= 0 {
		return 0, ""
	}
	want := q[0].Range.Low / q[1].Range.Low * third.Range.Low
	turned := q[0].Range.Low * q[1].Range.Low / third.Range.Low // the more of one, the less of the other
	if slack := slackOf(fourth, &q[0], &q[1], third); off(want, fourth.Range.Low) <= slack || off(turned, fourth.Range.Low) <= slack {
		return 0, ""
	}
	return fourth.From, fmt.Sprintf("At %s for %s, %s go with %s, not %s.", q[0].Text, q[1].Text, quantity.ShowIn(want, fourth.Unit), third.Text, fourth.Text)
}

var (
	follow    = sentence.Set("so then hence thus therefore that so, then,")
	notInStep = map[quantity.Kind]bool{quantity.Temperature: true, quantity.Frequency: true}
)

var rates = sentence.Set("for per in to a each every on")

// wrongWeight checks a volume of a concentrate that is said to weigh so much, or stands beside its weight: “5 L, or 6.6 kg”.
// The density is that of the chemistry which the sentence names, or of the article's own.
func (p *proof) wrongWeight(a *manual.Article, s *sentence.Sentence) (int, string) {
	for i := 1; i < len(s.Quantities); i++ {
		v, m := &s.Quantities[i-1], &s.Quantities[i]
		if m.Kind == quantity.Volume && v.Kind == quantity.Mass && v.Near == "of" && s.Has(concentrates) && toldAs(s, v, m) {
			if d := p.densitiesIn(a, s); len(d) > 0 && !s.Has(watery) && plain(v) && off(v.Range.Low/d[0], m.Range.Low) > max(0.05, slackOf(m, v)) {
				return m.From, fmt.Sprintf("%s of it are %s, not %s.", v.Text, quantity.ShowIn(v.Range.Low/d[0], m.Unit), m.Text)
			}
			continue
		}
		if v.Kind != quantity.Volume || m.Kind != quantity.Mass || v.Span || m.Span || s.Has(watery) || s.Has(otherSums) {
			continue
		}
		from := v.To
		for j := range s.Mentions { // “4.8 L of mild alkaline, or 5.4 kg”
			if o := &s.Mentions[j]; o.From >= v.To && o.To <= m.From && v.Near == "of" {
				from = o.To
			}
		}
		between := strings.Trim(strings.Join(words(s, from, m.From), " "), " ,(")
		if !weighs[between] {
			continue
		}
		for _, d := range p.densitiesIn(a, s) {
			if off(v.Range.Low*d, m.Range.Low) <= max(0.05, slackOf(m, v)) {
				return 0, ""
			}
			return m.From, fmt.Sprintf("%s of it weigh %s, not %s.", v.Text, quantity.ShowIn(v.Range.Low*d, m.Unit), m.Text)
		}
	}
	return 0, ""
}

var (
	watery = sentence.Set("water bath foam oil grease lime rust powder crystals bucket")
	weighs = map[string]bool{"or": true, "weigh": true, "weighs": true, "which weigh": true, "which weighs": true, "that weigh": true, "is": true, "are": true, "=": true, "": true, "that is": true, "i.e.": true, "about": true, "or about": true}
)

// wrongCount checks “Eight loads with 0.15 L each carry 1.2 L”, “Ten rings of 150 g weigh 1.5 kg”.
func (p *proof) wrongCount(_ *manual.Article, s *sentence.Sentence) (int, string) {
	for i := range s.Quantities {
		one := &s.Quantities[i]
		if one.Span || one.Near != "each" && one.Near != "apiece" && !ofEach(s, one) {
			continue
		}
		count := countOf(s, one)
		if count == 0 && (one.Near == "each" || one.Near == "apiece") {
			count = s.CountBefore(one)
		}
		for j := i + 1; j < len(s.Quantities); j++ {
			sum := &s.Quantities[j]
			if count < 2 && sum.Kind == one.Kind && one.Near == "each" { // “At 0.65 kg each, ten sleeves weigh 6.5 kg”
				if list := words(s, one.To, sum.From); len(list) > 2 && len(list) < 6 && strings.HasSuffix(list[0], ",") {
					count = numberOf(list[1])
				}
			}
			if count < 2 {
				break
			}
			if sum.Kind != one.Kind || sum.Span || compared[sum.Near] || !s.Has(results) && !s.Has(carries) && !s.Has(colon) && !(isOne(words(s, one.To, sum.From), one.Near+",") && !sized[sum.Near]) {
				continue
			}
			if one.Near != "each" && (len(s.Quantities) > 2 || !sumBetween(s, one, sum)) || slices.ContainsFunc(words(s, one.To, sum.From), func(w string) bool { return joinsMore[w] }) {
				break
			}
			if want := count * one.Range.Low; off(want, sum.Range.Low) > slackOf(sum, one) {
				return sum.From, fmt.Sprintf("%g times %s is %s, not %s.", count, one.Text, quantity.ShowIn(want, sum.Unit), sum.Text)
			}
			break
		}
	}
	return 0, ""
}

// ownWeight are vessels whose mass is told without what is in them.
var ownWeight = sentence.Set("basket baskets tray trays rack racks")

// joinsMore are words that join a further amount to those of each thing: “650 g each, and the 3 kg basket”.
var joinsMore = sentence.Set("and plus with + besides without")

// ofEach tells whether an amount is that of one of several things: “50 nuts of 40 g”.
func ofEach(s *sentence.Sentence, q *sentence.Quantity) bool {
	if !precededBy(s, q, "of") && !precededBy(s, q, "at") && !precededBy(s, q, "à") {
		return false
	}
	before := words(s, s.From, q.From)
	if n := len(before); n > 2 && ownWeight[before[n-2]] && q.Kind == quantity.Mass && slices.ContainsFunc(words(s, q.To, s.To), func(w string) bool { return holds[w] }) {
		return false // “Two baskets of 3 kg hold 18 kg”
	}
	return len(before) > 2 && strings.HasSuffix(before[len(before)-2], "s") && sharesOf[before[len(before)-2]] == 0
}

// sumBetween tells whether only a verb of a total stands between two amounts.
func sumBetween(s *sentence.Sentence, one, sum *sentence.Quantity) bool {
	between := words(s, one.To, sum.From)
	for _, w := range between {
		if w = strings.Trim(w, ",:;"); w != "" && !totals[w] {
			return false
		}
	}
	return len(between) > 0
}

var totals = sentence.Set("give gives draw draws use uses weigh weighs make makes are is come comes to a total of together in all = hold holds carry carries need needs take takes about that which")

// wrongDifference checks “From 12 °C to 62 °C are 50 °C” and “42.3157 g empty, 42.3181 g with residue: 2.4 mg”.
func (p *proof) wrongDifference(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	switch {
	case len(q) == 2 && q[0].Span && !q[1].Span && strings.HasPrefix(strings.ToLower(s.Text()), "from ") && (q[0].Unit == q[1].Unit || q[0].Unit.Symbol == "°C" && q[1].Unit.Symbol == "K") && riseBetween(s, &q[0], &q[1]):
		want := q[0].High.Value - q[0].Low.Value
		if off(want, q[1].Low.Value) > slackOf(&q[1]) {
			return q[1].From, fmt.Sprintf("From %s are %s %s, not %s.", q[0].Text, plainFigure(want), q[1].Unit.Symbol, q[1].Text)
		}
	case len(q) == 3 && q[0].Kind == q[1].Kind && q[1].Kind == q[2].Kind && q[0].Kind == quantity.Mass && tared(s) >= 2 && (s.Has(colon) || s.Has(results)):
		want := math.Abs(q[1].Range.Low - q[0].Range.Low)
		step := math.Pow(10, -float64(q[0].Low.Decimals)) * q[0].Unit.ToSI(1)
		if got := q[2].Range.Low; math.Abs(got-want) > math.Max(step, 0.04*want) && got < q[0].Range.Low {
			return q[2].From, fmt.Sprintf("The difference of %s and %s is %s, not %s.", q[0].Text, q[1].Text, quantity.ShowIn(want, q[2].Unit), q[2].Text)
		}
	}
	return 0, ""
}

// riseBetween tells whether what stands between two amounts says that the second is the difference of the first.
func riseBetween(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	between := words(s, one.To, two.From)
	for _, w := range between {
		if !rises[strings.Trim(w, ",:")] {
			return false
		}
	}
	return len(between) > 0
}

// tared counts the words of a weighing before and after.
func tared(s *sentence.Sentence) int {
	n := 0
	for _, w := range s.AllWords() {
		if tare[w] {
			n++
		}
	}
	return n
}

// wrongMassOf checks the mass of a volume that is said to be of concentrate: “The 5 L of concentrate for a 50 L tank weigh 6.8 kg”.
func (p *proof) wrongMassOf(a *manual.Article, s *sentence.Sentence, m *sentence.Quantity) string {
	if !s.Has(weighing) {
		return ""
	}
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if q.Kind != quantity.Volume || q.Span || q.To > m.From { // among them is the mass itself
			continue
		}
		if rest := words(s, q.To, m.From); (len(rest) < 2 || rest[0] != "of" || !strings.HasPrefix(rest[1], "concentrate")) && !drawnFrom(words(s, s.From, q.From), rest) {
			continue
		}
		if want := q.Range.Low * a.Chemistry.Density.Low; off(want, m.Range.Low) > max(0.05, slackOf(m, q)) {
			return fmt.Sprintf("%s of it weigh %s, not %s.", q.Text, quantity.ShowIn(want, m.Unit), m.Text)
		}
	}
	return ""
}

// drawnFrom tells whether concentrate is said to be in a vessel: “The concentrate in a 25 L drum weighs”.
func drawnFrom(before, behind []string) bool {
	n := len(before)
	return n > 2 && n < 6 && before[n-2] == "in" && concentrates[before[n-3]] && len(behind) == 2 && sized[behind[0]] && weighing[behind[1]]
}

var weighing = sentence.Set("weigh weighs mass weight")

var (
	rises = sentence.Set("is are makes make means a rise difference of that it step climb jump gain span spread drop fall lift stretch journey distance gap")
	tare  = sentence.Set("empty tare before after residue dirty clean full gross net with")
)

// wrongWeighing checks “A litre of the concentrate weighs 1.12 kg” on a chemistry's page, by its density.
func (p *proof) wrongWeighing(a *manual.Article, s *sentence.Sentence) (int, string) {
	if a.Chemistry == nil || a.Partial || !a.Chemistry.Density.Set || len(s.Quantities) == 0 || len(s.Quantities) > 4 || s.Has(watery) && !s.Has(concentrates) {
		return 0, ""
	}
	m := &s.Quantities[len(s.Quantities)-1]
	text := strings.ToLower(strings.TrimSpace(s.Block.Text[s.From:m.From]))
	if m.Kind != quantity.Mass || m.Span || len(s.Quantities) > 1 && s.Quantities[0].Kind != quantity.Volume {
		return 0, ""
	}
	if says := p.wrongMassOf(a, s, m); says != "" {
		return m.From, says
	}
	volume, of := 1e-3, ""
	if len(s.Quantities) > 1 {
		volume = s.Quantities[0].Range.Low
		of = strings.ToLower(strings.TrimSpace(s.Block.Text[s.Quantities[0].To:m.From]))
	} else if rest, ok := strings.CutPrefix(text, "a litre "); ok {
		of = rest
		if of == "weighs" && !s.Has(diluteWords) {
			of = "of it weighs"
		}
	}
	for _, thing := range []string{"it", "the concentrate", "concentrate", "neat product", "the product", "this concentrate", "this product", "the cleaner", "the neat product", "the detergent"} {
		if rest, ok := strings.CutPrefix(of, "of "+thing+" "); ok && (rest == "weighs" || rest == "weigh" || rest == "is" || rest == "has a mass of") {
			if want := volume * a.Chemistry.Density.Low; off(want, m.Range.Low) > max(0.04, slackOf(m)) {
				return m.From, fmt.Sprintf("By its density that much weighs %s, not %s.", quantity.ShowIn(want, m.Unit), m.Text)
			}
		}
	}
	return 0, ""
}

// diluteWords are words of a litre that is none of the concentrate.
var diluteWords = sentence.Set("bath water diluted dilute mixed mix made solution foam")

var carries = sentence.Set("carry carries total together fill hold weigh drag")

// wrongRatio checks “15.4 mL over 7.7 mL is a ratio of 2.0” and, with the factor of a titration, “8.5 mL and a factor of 0.40 make 3.4 %”.
func (p *proof) wrongRatio(_ *manual.Article, s *sentence.Sentence) (int, string) {
	terms := s.Arithmetic()
	var numbers []sentence.Term
	for _, t := range terms {
		if t.Number {
			numbers = append(numbers, t)
		}
	}
	if len(numbers) != 3 || s.Question || !s.Has(results) && !s.Has(carries) && !s.Has(colon) && !(s.Has(factor) && (s.Has(strengthNames) || s.Has(meanWord))) || s.Has(noWords) {
		return 0, ""
	}
	a, b, c := numbers[0], numbers[1], numbers[2]
	want := 0.0
	switch {
	case s.Has(ratios) && s.Has(overs) && b.Value != 0 && !c.Unit:
		want = a.Value / b.Value
	case s.Has(factor) && a.Unit && !b.Unit && c.Percent:
		want = a.Value * b.Value
	case s.Has(factor) && !a.Unit && b.Unit && c.Percent:
		want = a.Value * b.Value
	default:
		return 0, ""
	}
	if off(want, c.Value) <= 0.04 {
		return 0, ""
	}
	return c.From, fmt.Sprintf("The sum does not come out: it gives %s.", plainFigure(want))
}

var (
	ratios = sentence.Set("ratio")
	overs  = sentence.Set("over by to")
	factor = sentence.Set("factor")
	// meanWord is a verb here: “12 mL mean 4.8 %”.
	meanWord = sentence.Set("mean read")
)

// wrongExchange checks how much of a tank's bath is to be taken out, or of concentrate put in, where it was found at one strength and another is
// wanted: V × (1 − wanted ÷ found), and V × (wanted − found) ÷ (1 − wanted).
func (p *proof) wrongExchange(_ *manual.Article, s *sentence.Sentence) (int, string) {
	t := onlyTank(s)
	if t == nil || !t.Volume.Set || !(s.Has(founds) && s.Has(wanted)) && !fromStrength(s) || hasSign(s.Text(), "=", "×", "÷") {
		return 0, ""
	}
	var strengths, volumes []*sentence.Quantity
	for i := range s.Quantities {
		switch q := &s.Quantities[i]; q.Kind {
		case quantity.Fraction, quantity.VolumeFraction:
			strengths = append(strengths, q)
			if q.Span { // “from 4 % to 5 %”
				to := *q
				to.Range.Low, to.Low = q.Range.High, q.High
				strengths = append(strengths, &to)
			}
		case quantity.Volume:
			volumes = append(volumes, q)
		default:
			return 0, ""
		}
	}
	if len(strengths) != 2 || len(volumes) == 0 || len(volumes) > 2 || len(volumes) == 2 && volumes[0].Range.Low != volumes[1].Range.Low {
		return 0, ""
	}
	found, want, v := strengths[0].Range.Low, strengths[1].Range.Low, t.Volume.Low
	amount := v * (1 - want/found)
	also := amount
	if found < want {
		if !s.Has(concentrates) {
			return 0, ""
		}
		amount, also = v*(want-found)/(1-want), v*(want-found)
	} else if !s.Has(outs) {
		return 0, ""
	}
	q := volumes[0]
	if slack := slackOf(q, strengths...); off(amount, q.Range.Low) <= slack || off(also, q.Range.Low) <= slack {
		return 0, ""
	}
	return q.From, fmt.Sprintf("From %s to %s in %s are %s, not %s.", strengths[0].Text, strengths[1].Text, t.Name, quantity.ShowIn(amount, q.Unit), q.Text)
}

// fromStrength tells whether a sentence goes from one strength to another: “from 4 % to 5 %”.
func fromStrength(s *sentence.Sentence) bool {
	if len(s.Quantities) < 2 || !s.Has(addedWords) {
		return false
	}
	if q := &s.Quantities[0]; q.Span && precededBy(s, q, "from") {
		return len(s.Quantities) == 2
	}
	one, two := &s.Quantities[0], &s.Quantities[1]
	return one.Kind == two.Kind && precededBy(s, one, "from") && isOne(words(s, one.To, two.From), "to")
}

var addedWords = sentence.Set("add adds needs takes pour replace drain")

var (
	founds = sentence.Set("found reads measured titrated titrates shows")
	wanted = sentence.Set("target wanted aim")
	outs   = sentence.Set("out drain replace remove bail")
)

// wrongByColumn checks a mass or volume in a table whose column head is a strength and whose row begins with a volume.
func (p *proof) wrongByColumn(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Block.Kind != sentence.Cell || len(s.Quantities) != 1 || s.Block.First {
		return 0, ""
	}
	q := &s.Quantities[0]
	strength, volume := p.onlyAmount(s.Block.Column), p.onlyAmount(s.Block.Row)
	if strength == nil || volume == nil || volume.Kind != quantity.Volume || q.Span {
		return 0, ""
	}
	want := 0.0
	switch {
	case strength.Kind == quantity.MassConcentration && q.Kind == quantity.Mass, strength.Kind == quantity.VolumeFraction && q.Kind == quantity.Volume:
		want = strength.Range.Low * volume.Range.Low
	default:
		return 0, ""
	}
	if off(want, q.Range.Low) <= slackOf(q, strength, volume) {
		return 0, ""
	}
	return q.From, fmt.Sprintf("%s in %s are %s, not %s.", strength.Text, volume.Text, quantity.ShowIn(want, q.Unit), q.Text)
}

// onlyAmount gives the amount of a text that is one and nothing else.
func (p *proof) onlyAmount(text string) *sentence.Quantity {
	list := sentence.Of(&sentence.Block{Text: text}, p.names(), nil)
	if len(list) != 1 || len(list[0].Quantities) != 1 || len(list[0].AllWords()) > 0 || list[0].Quantities[0].Span {
		return nil
	}
	return &list[0].Quantities[0]
}
