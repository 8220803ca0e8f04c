package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongSum finds sums in the text that do not come out: volume × strength = concentrate, grams a litre, a flow over a time, a chain of × and ÷
// with its result. It prevents that somebody pours the wrong amount because it stands there worked out.
// The limits are arithmetic and the shop file's volumes and strengths; 4 % is let through for rounding, more behind “about”.
var wrongSum = finding.Rule{
	Name: "wrong-sum", Severity: finding.Result,
	Finds:  "a sum in the text that does not come out",
	Why:    "Nobody works a sum again that stands there worked out; the wrong amount is poured.",
	Source: "arithmetic; the shop file for volumes and strengths",
}

func findWrongSums(p *proof, a *manual.Article) []finding.Finding {
	list := slices.Concat(p.findWrongTables(a), p.findWrongItems(a))
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		if s.Question || s.TakenBack || s.Has(toBeFound) || !mayReckon(a, s) {
			continue
		}
		if f := p.wrongIn(a, s); f != nil && !slices.ContainsFunc(list, func(o finding.Finding) bool { return o.Place == f.Place }) {
			list = append(list, *f)
		}
	}
	told := slices.Concat(said.answers, said.results)
	for i := range told {
		if s := &told[i]; len(s.Quantities) > 1 && !s.TakenBack && !s.Has(toBeFound) {
			if f := p.wrongIn(a, s); f != nil && !slices.ContainsFunc(list, func(o finding.Finding) bool { return o.Place == f.Place }) {
				list = append(list, *f)
			}
		}
	}
	return list
}

// toBeFound are words of a sum that is shown for its mistake.
var toBeFound = sentence.Set("mistake mistakes error wrong wrongly miscalculated misplaced")

// mayReckon tells whether a sentence can hold a sum: two amounts, signs, or what an amount goes with – a number, a tank, what a chemistry weighs.
func mayReckon(a *manual.Article, s *sentence.Sentence) bool {
	return len(s.Quantities) > 1 || hasSign(s.Text(), "=", "≈", "×") || s.Block.Kind == sentence.Cell || onlyTank(s) != nil || strings.Contains(s.Text(), "EUR") || a.Chemistry != nil && s.Has(weighing) ||
		len(s.Quantities) == 1 && (s.Has(oneWords) || s.Has(beginsAt)) || len(timesIn(s)) > 0
}

// hasSign tells whether one of the signs stands in a text. Strings.ContainsAny takes ten times as long where one is beyond ASCII.
func hasSign(text string, signs ...string) bool {
	for _, sign := range signs {
		if strings.Contains(text, sign) {
			return true
		}
	}
	return false
}

// oneWords are words for one of a thing, with which one amount makes a sum: “Each load takes 9 kg, so four loads …”, “One to fifty is 2 %”.
var oneWords = sentence.Set("a an one each every part parts both together at in")

// sumChecks are the shapes of sums that are worked again; the first that does not come out is reported.
var sumChecks = []func(*proof, *manual.Article, *sentence.Sentence) (int, string){
	(*proof).wrongProduct, (*proof).wrongConcentrate, (*proof).wrongMassStrength, (*proof).wrongShare, (*proof).wrongProportion, (*proof).wrongWeight,
	(*proof).wrongCount, (*proof).wrongRatio, (*proof).wrongExchange, (*proof).wrongByColumn, (*proof).wrongDifference, (*proof).wrongPart,
	(*proof).wrongWeighing, (*proof).wrongLevel, (*proof).wrongPerCent, (*proof).wrongMean, (*proof).wrongRatioShare, (*proof).wrongShareOfTank,
	(*proof).wrongLitre, (*proof).wrongJoined, (*proof).wrongParts, (*proof).wrongPieces, (*proof).wrongSides, (*proof).wrongFromTo, (*proof).wrongBoth,
	(*proof).wrongTold, (*proof).wrongPerCentTold, (*proof).wrongRated, (*proof).wrongHeatUp, (*proof).wrongCounted, (*proof).wrongPrice,
	(*proof).wrongOneIn, (*proof).wrongParted, (*proof).wrongLitreHolds, (*proof).wrongMadeUp, (*proof).wrongVolumeRatio, (*proof).wrongPerThing,
	(*proof).wrongTankFills, (*proof).wrongMultiplied, (*proof).wrongCountTimes, (*proof).wrongFillsOf, (*proof).wrongOutOf, (*proof).wrongBuckets, (*proof).wrongLetters, (*proof).wrongMixture, (*proof).wrongMixing, (*proof).wrongEachPerCent,
	(*proof).wrongStrengthStep, (*proof).wrongFold, (*proof).wrongWindow, (*proof).wrongClock, (*proof).wrongPriceOfUnit, (*proof).wrongWorkedOut,
}

func (p *proof) wrongIn(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if from, says, wrong := wrongChain(s); wrong {
		f := wrongSum.At(placeIn(a, s.Block, from), says, "Work it again.")
		return &f
	}
	s = saidOnce(s)
	for _, check := range sumChecks {
		if from, says := check(p, a, s); says != "" {
			f := wrongSum.At(placeIn(a, s.Block, from), says, "Correct the amount, or what it is worked out from.", restsOn(s)...)
			return &f
		}
	}
	return nil
}

// restsOn gives the values of the shop file from which a sum of a sentence is worked out.
func restsOn(s *sentence.Sentence) []finding.Place {
	t := onlyTank(s)
	if s.Block.Kind == sentence.Cell && len(s.Quantities) > 0 {
		if m := s.Quantities[0].About; m != nil && m.Thing != nil {
			t = m.Thing.Tank
		}
	}
	if t == nil {
		return nil
	}
	return []finding.Place{t.Volume.At, t.Strength.At}
}

// products are kinds of which the third is the product of the first two.
var products = [][3]quantity.Kind{
	{quantity.Flow, quantity.Time, quantity.Volume},
	{quantity.Power, quantity.Time, quantity.Energy},
	{quantity.PowerDensity, quantity.Volume, quantity.Power},
	{quantity.MassConcentration, quantity.Volume, quantity.Mass},
	{quantity.Density, quantity.Volume, quantity.Mass},
	{quantity.Density, quantity.VolumeFraction, quantity.MassConcentration},
}

var colon = sentence.Set(":")

var (
	results   = sentence.Set("pour pours poured is are makes make gives give takes take needs need equals comes come = ≈ means weighs weigh yields holds that's contains uses use add dissolve stir measure for into in mix costs carries")
	otherSums = sentence.Set("half third quarter duty twice loses lose rise rises titration evaporation evaporates drag-out found lost loss missing weak replace overflow tops leak top cautious fresh room hour ± more less within lots parts apart sample titrant")
)

func off(a, b float64) float64 { return math.Abs(a-b) / math.Max(math.Abs(a), math.Abs(b)) }

// slackOf is how far a result may be off for rounding.
func slackOf(result *sentence.Quantity, from ...*sentence.Quantity) float64 {
	slack := 0.04
	rough := result.Rough
	for _, q := range from {
		rough = rough || q != nil && q.Rough
	}
	if rough {
		slack = 0.08
	}
	step := math.Pow(10, -float64(result.Low.Decimals))
	return math.Max(slack, math.Min(0.55*step/math.Max(result.Low.Value, 1e-9), 0.12))
}

// onlyTank gives the one tank that a sentence names.
func onlyTank(s *sentence.Sentence) *manual.Tank {
	var t *manual.Tank
	for i := range s.Mentions {
		if m := s.Mentions[i]; m.Thing != nil && m.Thing.Tank != nil {
			if t != nil && t != m.Thing.Tank {
				return nil
			}
			t = m.Thing.Tank
		}
	}
	return t
}

var (
	concentrates = sentence.Set("concentrate concentrates cleaner detergent chemistry product drum soap neat")
	newBaths     = sentence.Set("has stands need fill fills filling full new fresh first charge charged make made mix mixed makes makes-up takes takes-up needs wants whole start bath set-up dose pour add measure for")
	topUps       = sentence.Set("top found weak weaker low missing lost take out drain replace drag-out evaporation evaporates more less week month day shift hour left remaining half lots stock drums empty every per after each third sample between cost costs another still used deliver order buy")
)

// oldBaths are words of a bath that is no new one, whatever stands beside.
var oldBaths = sentence.Set("top found weak weaker low missing lost take drain replace drag-out evaporation evaporates left remaining sample after still stronger weaker more less day shift week hour")

// toppedUp tells whether a sentence is about a bath that is no new one. “Out of the drum” is where the concentrate comes from.
func toppedUp(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "take" && i > 0 && words[i-1].Text != "," && words[i-1].Text != "and" && words[i-1].Text != "then" && !nextOf(words, i, outs) {
			continue // “20 L at 0.5 % v/v take 0.1 L”
		}
		if topUps[w.Text] && !(w.Text == "out" && i+3 < len(words) && words[i+1].Text == "of" && drums[words[i+3].Text]) {
			return true
		}
	}
	return false
}

// wrongPart checks “A fifth of Wash 1 is 24 L”, “half of 120 L is 60 L”.
func (p *proof) wrongPart(_ *manual.Article, s *sentence.Sentence) (int, string) {
	words := s.Tokens()
	for i := 0; i+3 < len(words); i++ {
		share := shares[words[i].Text]
		if share == 0 || words[i+1].Text != "of" || i > 2 || i > 0 && !oneShare[words[0].Text] {
			continue
		}
		at := i + 2
		if words[at].Text == "the" && at+1 < len(words) && words[at+1].Amount {
			at++
		}
		whole, text, after := 0.0, "", words[at].From
		for j := range s.Mentions {
			if m := &s.Mentions[j]; m.From == after && m.Thing != nil && m.Thing.Tank != nil && m.Thing.Tank.Volume.Set {
				whole, text, after = m.Thing.Tank.Volume.Low, m.Thing.Tank.Volume.In(p.Shop.System()), m.To
			}
		}
		q := s.Quantities
		if whole == 0 && len(q) == 2 && q[0].From == after && q[0].Kind == quantity.Volume {
			whole, text, after = q[0].Range.Low, q[0].Text, q[0].To
		}
		if whole == 0 || len(q) == 0 {
			return 0, ""
		}
		result := &q[len(q)-1]
		if between := strings.TrimSpace(strings.ToLower(s.Block.Text[after:max(after, result.From)])); result.Kind != quantity.Volume || !partTells[between] {
			return 0, ""
		}
		if off(share*whole, result.Range.Low) > slackOf(result) {
			return result.From, fmt.Sprintf("That part of %s is %s, not %s.", text, quantity.ShowIn(share*whole, result.Unit), result.Text)
		}
	}
	return 0, ""
}

var (
	oneShare  = sentence.Set("a one half the")
	partTells = map[string]bool{"is": true, "are": true, "=": true, "makes": true, ", that is": true, ", which is": true, "(": true}
)

var shares = map[string]float64{"half": 0.5, "third": 1. / 3, "quarter": 0.25, "fifth": 0.2, "sixth": 1. / 6, "eighth": 0.125, "tenth": 0.1, "twentieth": 0.05}

// wrongConcentrate checks a volume of bath, a strength and a volume of concentrate against each other.
func (p *proof) wrongConcentrate(a *manual.Article, s *sentence.Sentence) (int, string) {
	var volumes []*sentence.Quantity
	var strength *sentence.Quantity
	for i := range s.Quantities {
		q := &s.Quantities[i]
		switch q.Kind {
		case quantity.Volume:
			if q.Span || q.Relation == sentence.Difference || s.Clauses[q.Clause].Mood == sentence.Was || s.Clauses[q.Clause].Mood == sentence.If {
				return 0, ""
			}
			volumes = append(volumes, q)
		case quantity.VolumeFraction, quantity.Fraction:
			if strength != nil || q.Span {
				return 0, ""
			}
			strength = q
		}
	}
	volumes = withoutWater(s, volumes)
	if len(volumes) == 0 || len(volumes) > 2 {
		return 0, ""
	}
	if aLitreOf.MatchString(strings.ToLower(s.Text())) {
		return 0, "" // what a litre holds is no dose of the tank
	}
	if len(volumes) == 2 && otherVolumes(s, volumes[0], volumes[1]) {
		return 0, ""
	}
	if toppedUp(s) && !(len(volumes) == 2 && strength != nil && s.Has(concentrates) && !s.Has(oldBaths)) {
		return 0, ""
	}
	if s.Block.Kind == sentence.Cell {
		return p.wrongCell(s, volumes)
	}
	var whole, share float64
	var small *sentence.Quantity
	wholeText := ""
	t := onlyTank(s)
	switch {
	case len(volumes) == 2 && strength != nil:
		if t == nil && slices.ContainsFunc(s.Mentions, func(m sentence.Mention) bool { return m.Thing != nil && m.Thing.Tank != nil }) {
			return 0, "" // one volume for each of two tanks
		}
		small, whole = volumes[0], volumes[1].Range.Low
		wholeText = volumes[1].Text
		if volumes[0].Range.Low > volumes[1].Range.Low {
			small, whole, wholeText = volumes[1], volumes[0].Range.Low, volumes[0].Text
		}
		if !s.Has(results) && !s.Has(concentrates) {
			return 0, ""
		}
	case len(volumes) == 1 && len(wordsBehind(s, volumes[0].To, 2)) == 2 && waterWord[wordsBehind(s, volumes[0].To, 2)[1]]:
		return 0, "" // “a litre of cleaner in 24 L of water”
	case len(volumes) == 1 && t != nil && t.Volume.Set && s.Has(concentrates) && s.Has(newBaths) && !precededBy(s, volumes[0], "for") && !precededBy(s, volumes[0], "into"):
		fills := math.Max(1, s.CountBefore(volumes[0]))
		if s.Has(severalFills) && fills == 1 {
			return 0, ""
		}
		if n := countOf(s, volumes[0]); n > 1 && t.Strength.Set && t.Strength.Kind == quantity.VolumeFraction && off(n*volumes[0].Range.Low, t.Volume.Low*t.Strength.Low) <= slackOf(volumes[0]) {
			return 0, "" // “two jugs of 2.4 L”
		}
		small, whole, wholeText = volumes[0], fills*t.Volume.Low, t.Volume.In(p.Shop.System())
		if fills > 1 {
			wholeText = fmt.Sprintf("%g times %s", fills, wholeText)
		}
		if small.Range.Low > 0.5*whole {
			return 0, ""
		}
	default:
		return 0, ""
	}
	strengthText := ""
	switch {
	case strength != nil:
		share, strengthText = strength.Range.Low, strength.Text
	case t != nil && t.Strength.Set && t.Strength.Kind == quantity.VolumeFraction && t.Strength.Low == t.Strength.High:
		share, strengthText = t.Strength.Low, t.Strength.In(p.Shop.System())
	default:
		return 0, ""
	}
	if share <= 0 || share >= 0.6 || small.Range.Low > 0.6*whole {
		return 0, ""
	}
	if n := countOf(s, small); n > 1 && off(n*small.Range.Low, whole*share) <= slackOf(small) {
		return 0, "" // “Two cups of 250 mL in 10 L make 5 %”
	}
	if b := wordsBehind(s, small.To, 2); len(b) == 2 && b[0] == "and" && numberOf(b[1]) >= 10 && off(small.Range.Low+numberOf(b[1])*1e-5, whole*share) <= slackOf(small) {
		return 0, "" // “two litres and forty”, which is 2.4 L
	}
	slack := slackOf(small, strength)
	if off(small.Range.Low, whole*share) <= slack || off(small.Range.Low, whole*share/(1-share)) <= slack {
		return 0, ""
	}
	return small.From, fmt.Sprintf("%s of %s is %s, not %s.", strengthText, wholeText, quantity.ShowIn(whole*share, small.Unit), small.Text)
}

// withoutWater leaves out of three volumes the one that is the water of a bath: “60 L at 4 %: 2.4 L of concentrate, 57.6 L of water”.
func withoutWater(s *sentence.Sentence, volumes []*sentence.Quantity) []*sentence.Quantity {
	if len(volumes) != 3 || !s.Has(concentrates) {
		return volumes
	}
	i := slices.IndexFunc(volumes, func(q *sentence.Quantity) bool {
		behind := wordsBehind(s, q.To, 2)
		return len(behind) > 1 && behind[0] == "of" && behind[1] == "water"
	})
	if i < 0 {
		return volumes
	}
	return slices.Delete(slices.Clone(volumes), i, i+1)
}

// otherVolumes tells whether one of two volumes is no dose and no bath: the size of a jug, oil on the bath, a second bath, or an end of what a level
// goes through; or whether the sum has signs of adding, by which it is worked out elsewhere.
func otherVolumes(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	if strings.ContainsAny(s.Text(), "=") && strings.ContainsAny(s.Text(), "+−") {
		return true
	}
	if precededBy(s, one, "from") && isOne(words(s, one.To, two.From), "to") {
		return true
	}
	small, large := one, two
	if small.Range.Low > large.Range.Low {
		small, large = large, small
	}
	between := words(s, one.To, two.From)
	if n := len(between); n > 0 && (between[n-1] == "and" || between[n-1] == "or") && !s.Has(concentrates) {
		return true
	}
	behind := words(s, small.To, s.To)
	if len(behind) == 0 {
		return false
	}
	return sized[strings.Trim(behind[0], ",;.")] && !(len(behind) > 1 && behind[1] == "of") || behind[0] == "of" && len(behind) > 1 && otherStuff[strings.Trim(behind[1], ",;.")]
}

// otherStuff is what a volume may be of besides bath and concentrate.
var otherStuff = sentence.Set("oil grease sludge foam steam air water sample titrant rinse mud")

var severalFills = sentence.Set("fills charges batches refills fillings")

// wrongCell checks the concentrate in a row of a table against the tank of that row.
func (p *proof) wrongCell(s *sentence.Sentence, volumes []*sentence.Quantity) (int, string) {
	head := strings.ToLower(s.Block.Column)
	if len(volumes) != 1 || !(strings.Contains(head, "concentrate") || strings.Contains(head, "cleaner") || strings.Contains(head, "dose")) || strings.Contains(head, "week") || strings.Contains(head, "top") {
		return 0, ""
	}
	q := volumes[0]
	if q.About == nil || q.About.Thing == nil || q.About.Thing.Tank == nil {
		return 0, ""
	}
	t := q.About.Thing.Tank
	if !t.Volume.Set || !t.Strength.Set || t.Strength.Kind != quantity.VolumeFraction || t.Strength.Low != t.Strength.High {
		return 0, ""
	}
	want := t.Volume.Low * t.Strength.Low
	if off(q.Range.Low, want) <= slackOf(q) {
		return 0, ""
	}
	in := p.Shop.System()
	return q.From, fmt.Sprintf("%s of %s is %s, not %s.", t.Strength.In(in), t.Volume.In(in), quantity.ShowIn(want, q.Unit), q.Text)
}

// wrongMassStrength checks a per cent that is said to be so many grams a litre: ten times as many for a solid, times its density for a liquid.
func (p *proof) wrongMassStrength(a *manual.Article, s *sentence.Sentence) (int, string) {
	for j := 1; j < len(s.Quantities); j++ {
		one, two := &s.Quantities[j-1], &s.Quantities[j]
		if two.Kind != quantity.MassConcentration {
			one, two = two, one
		}
		if two.Kind != quantity.MassConcentration || one.Span || two.Span || two.Unit.Symbol == "mg/L" {
			continue
		}
		if one.Kind != quantity.Fraction && one.Kind != quantity.VolumeFraction && one.Kind != quantity.MassFraction {
			continue
		}
		first, second := min(one.To, two.To), max(one.From, two.From)
		between := strings.ToLower(s.Block.Text[first:second])
		linked := false
		for _, w := range []string{" is ", "=", "(", "≈", " are ", " equals ", " makes ", " gives ", " means ", " has ", " holds ", " contains ", " or ", "that is", "i.e."} {
			linked = linked || strings.Contains(" "+between+" ", w)
		}
		if !linked || len(between) > 30 {
			continue
		}
		slack := 0.05
		if two.Rough || one.Rough {
			slack = 0.08
		}
		low, high := 1.0, 1.0
		known := one.Kind == quantity.Fraction
		for _, d := range p.densitiesIn(a, s) {
			if off(two.Range.Low, one.Range.Low*d) <= slack {
				return 0, ""
			}
			known = true
			low, high = d/1000, d/1000
		}
		if one.Kind == quantity.Fraction && off(two.Range.Low, one.Range.Low*1000) <= slack {
			return 0, ""
		}
		if !known { // a liquid of unknown density: solvents and concentrates are from 0.8 to 1.6 kg/L
			low, high = 0.8, 1.6
		}
		grams := one.Range.Low * 1000
		if two.Range.Low >= grams*low*(1-slack) && two.Range.Low <= grams*high*(1+slack) {
			continue
		}
		return two.From, fmt.Sprintf("%s is %s, not %s.", one.Text, quantity.ShowIn(grams*high, two.Unit), two.Text)
	}
	return 0, ""
}

// densitiesIn gives the densities in kg/m³ of the chemistries that a sentence names, or of the article's own.
func (p *proof) densitiesIn(a *manual.Article, s *sentence.Sentence) []float64 {
	var list []float64
	add := func(chemistries []*manual.Article) {
		for _, c := range chemistries {
			if c.Chemistry.Density.Set {
				list = append(list, c.Chemistry.Density.Low)
			}
		}
	}
	for i := range s.Mentions {
		if t := s.Mentions[i].Thing; t != nil {
			of := p.ofThing(t)
			add(of.chemistries)
		}
	}
	if len(list) == 0 && a.Chemistry != nil && !a.Partial {
		add([]*manual.Article{a})
	}
	return list
}
