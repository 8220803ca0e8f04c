package admit

import (
	"cmp"
	"math"
	"slices"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// load is what goes into the baths.
type load struct {
	materials []*Material
	features  []fact.Ref // of the part, beside those of its materials
	soils     []*Soil
	said      map[string]finding.Place // where a sheet names its soils; its materials under ""
	conceded  []fact.Concession        // of the part, beside those of its materials
	unknown   []Reason                 // what a sheet names and the manual does not know
}

// line is what comes after the washes.
type line struct {
	rinses   []*Rinse
	sheet    bool            // a process sheet says so, so that what is wrong there is wrong with the sheet
	rinsesAt []finding.Place // where the sheet names the rinses
	dryer    *fact.Dryer
	dryerAt  finding.Place
}

// decide says what becomes of a load in one bath after another, and on the line after them. It is the one decision: every verdict of this
// package comes from here.
func (t *Table) decide(l load, baths []Bath, after line) Answer {
	d := deciding{t: t, load: l, in: system(t.System), several: len(baths) > 1, reasons: make([]Reason, 0, 16)}
	d.all(baths, after)
	return d.answer(baths)
}

// verdict is the same decision without the reasons told.
func (t *Table) verdict(l load, baths []Bath, after line) Verdict {
	d := deciding{t: t, load: l, in: system(t.System), verdict: Yes, brief: true}
	d.all(baths, after)
	return d.verdict
}

// all goes through everything that is decided about.
func (d *deciding) all(baths []Bath, after line) {
	d.add(d.unknown...)
	d.soils()
	d.couples()
	for i := range baths {
		d.wash, d.at = i+1, baths[i].At
		d.bath(&baths[i])
		if i > 0 {
			d.meetsBefore(&baths[i-1], &baths[i])
		}
	}
	d.wash = 0
	d.time(baths)
	d.lifted(baths)
	d.rinses(after)
	d.dries(baths, after)
}

// deciding gathers reasons.
type deciding struct {
	t *Table
	load
	in      quantity.System
	several bool          // washes, so that a reason names its own
	wash    int           // from 1; 0 for what is about the whole
	at      finding.Place // of the wash in its sheet; zero where there is none
	reasons []Reason
	recipes []Recipe
	room    []Limit // for the limits of one sort

	quiet bool // the bath that is decided about has no sound

	brief   bool // the verdict alone is wanted
	verdict Verdict
}

func (d *deciding) add(list ...Reason) {
	for i := range list {
		r := &list[i]
		if d.brief {
			d.verdict = worse(d.verdict, r.Verdict)
			continue
		}
		if d.wash > 0 && r.Of == (finding.Place{}) {
			r.Of = d.at // the wash that it is about
		}
		if d.several {
			r.Wash = d.wash
		}
		if !d.has(r) {
			d.reasons = append(d.reasons, *r)
		}
	}
}

func (d *deciding) has(r *Reason) bool {
	for i := range d.reasons {
		if d.reasons[i].same(r) {
			return true
		}
	}
	return false
}

// silent gives the material that no sound may reach, and where that is said.
func (d *deciding) silent() (*Material, finding.Place) {
	for _, m := range d.materials {
		if at, is := d.meeting(nil, m).silent(); is {
			return m, at
		}
	}
	return nil, finding.Place{}
}

// meeting is a material of the load in a bath.
func (d *deciding) meeting(b *Bath, m *Material) *Meeting {
	device := func(m *Material) bool {
		_, is := fact.One(m.Features, devices...)
		return is && m.Frequency.Set
	}
	return &Meeting{
		Bath: b, Material: m, Features: append(slices.Clone(m.Features), d.features...), Part: d.features, Windowed: slices.ContainsFunc(d.materials, device), Soils: d.load.soils,
	}
}

// bath decides about one bath.
func (d *deciding) bath(b *Bath) {
	for _, r := range b.excluded(d.in) {
		r.Window = r.Window && b.Sheet
		d.add(r.value(cmp.Or(b.Temperature.At, b.At)))
	}
	d.add(b.unchecked()...)
	d.holds(b)
	who, at := d.silent()
	without := b.withoutSound() // whatever goes in
	d.quiet = who != nil && !b.Sounds() || without
	asks := append(append(make([]Limit, 0, 32), OfChemistry(b.Chemistry)...), b.ofTank()...)
	for _, m := range d.materials {
		asks = append(asks, d.meets(b, m)...)
	}
	for _, s := range d.load.soils {
		if r, lifts := Lifts(b.Chemistry, s); lifts {
			asks = append(asks, OfLift(s, r)...)
		}
		d.add(ContentAgainst(s, b.Chemistry)...)
	}
	recipe := Recipe{Bath: b.Title, Chemistry: b.Chemistry.Title, Path: b.Chemistry.Path, Silent: d.quiet}
	if who != nil && !b.Sounds() {
		d.add(wants(&soundOnSensitiveDevice.Rule, Say("Clean it by hand or soak it, without ultrasonics: no sound may reach {material}. How long it takes, a trial shows.", within(who)), Say("no sound")).by(at))
	}
	for _, what := range everything {
		if !b.has(what) {
			continue
		}
		if recipe.Silent && (what == Time || what == Frequency) {
			if !without || b.Sheet {
				d.disagrees(b, what, asks)
			}
			if what == Time {
				d.soaks(b, asks)
				if without {
					d.soaksLonger(b, asks)
					recipe.Spans = append(recipe.Spans, soakTime(b)...)
				}
			}
			continue
		}
		if span := d.narrow(b, what, asks); span != nil {
			recipe.Spans = append(recipe.Spans, *span)
		}
	}
	d.recipes = append(d.recipes, recipe)
}

// meets decides about a material in a bath, and gives what it asks for.
func (d *deciding) meets(b *Bath, m *Material) []Limit {
	x := d.meeting(b, m)
	conceded, limits := d.concessions(b, m)
	var hits []Found
	for _, f := range x.Hits() {
		if !conceded(f.Name) {
			hits = append(hits, f)
		}
	}
	hits = telling(hits)
	if i := slices.IndexFunc(hits, func(f Found) bool { return f.Severity == finding.People && f.Verdict == No }); i >= 0 {
		d.add(hits[i].Reason())
		return nil // what goes into no bath has no limits there
	}
	for _, f := range hits {
		d.add(f.Reason())
	}
	if of, is := x.Has("loose-set"); is {
		d.add(wants(nil, Say("Look for cracks first, and hang a catch tray under the part: {material} may lose pieces.", titled(m)), Say("catch tray")).by(of.At))
	}
	d.add(x.unchecked()...)
	if !slices.ContainsFunc(hits, func(f Found) bool { return f.Name == lowFrequencyOnSoftSurface.Name }) {
		limits = append(limits, x.ofSoft()...)
	}
	attacked := slices.ContainsFunc(hits, func(f Found) bool { return f.Group == "attack" && f.Verdict == No })
	for _, l := range OfMaterial(m, b.Silicated()) {
		if l.What == PH && attacked && b.Sheet {
			continue // the exclusion has said why already
		}
		if l.What == PH && AttackedOnPurpose(b.Chemistry, d.load.soils) {
			l.Rule = &AttackOnPurpose
		}
		if conceded(l.Rule.Name) {
			continue
		}
		limits = append(limits, l)
	}
	if r, has := staysIn(m, b, limits, d.quiet); has {
		d.add(r)
	}
	return limits
}

// staysIn is the reason for a material, to be read when nothing stands against it.
func staysIn(m *Material, b *Bath, limits []Limit, silent bool) (Reason, bool) {
	var names []Part
	for _, what := range everything {
		if silent && (what == Time || what == Frequency) || !b.has(what) {
			continue
		}
		if slices.ContainsFunc(limits, func(l Limit) bool { return l.What == what }) {
			names = append(names, Word(nameOf(what)))
		}
	}
	if len(names) == 0 {
		return Reason{}, false
	}
	return Reason{Verdict: Yes, Says: Say(staysWithin, within(m), List(names...)), Place: place(limits[0].At)}, true
}

// narrow finds the span of one sort that all limits leave, and says what has to be done so that the bath stays in it. Where they leave
// nothing, or a process sheet runs the bath outside, that is a reason for no.
func (d *deciding) narrow(b *Bath, what What, all []Limit) *Span {
	asks := d.room[:0]
	for i := range all {
		if all[i].What == what {
			asks = append(asks, all[i])
		}
	}
	d.room = asks
	yields(asks)
	asks, gaps := b.alike(asks)
	d.add(gaps...)
	if len(asks) == 0 {
		return nil
	}
	own, can := b.in(b.value(what), asks[0].Kind)
	if own.Set && !can {
		d.add(b.gap(Limit{What: what, Limit: own, Asks: Say("the {what} is {amount}", Word(nameOf(what)), Amount(own.Range))}, asks[0]))
		return nil
	}
	if b.Sheet {
		return d.compare(b, what, own, asks)
	}
	common, low, high := tightest(asks)
	if low != nil && high != nil && (common.Low > common.High+close(common.High) || what == PH && own.Set && slipsOut(own.Range, common)) {
		d.add(disagreement(low, high))
		return nil
	}
	if what == Temperature {
		d.drifts(b, asks)
	}
	d.add(d.conditions(b, what, own, common, low, high)...)
	return &Span{What: what, Kind: common.Kind, Low: finite(common.Low), High: finite(common.High), amount: shown(common, asks)}
}

// soaks tells of the time in a bath without sound: the time under ultrasonics counts for nothing there, but what somebody lives with for a
// minute is no longer with or without sound, and a sheet that soaks longer than the chemistry's window leaves it.
func (d *deciding) soaks(b *Bath, all []Limit) {
	var asks []Limit
	for _, l := range all {
		if l.What == Time && l.of == ofConcession {
			asks = append(asks, l)
		}
	}
	if b.Sheet {
		d.compare(b, Time, b.set(Time), asks)
		return
	}
	for i := range asks {
		l := &asks[i]
		r := wants(l.Rule, Say(keepWithin, Word("time"), Amount(l.Range), Clause(l.Asks)), Say("{limit}", Amount(l.Range))).by(l.At)
		r.sort = Time
		d.add(r)
	}
}

// disagrees tells of limits of one sort only that they leave nothing. A bath without sound has no use for its time and frequency, but that one
// material stands no sound makes no bath right for another that does not stand its sound.
func (d *deciding) disagrees(b *Bath, what What, all []Limit) {
	if b.Sheet && !b.set(what).Set {
		return // nobody means what the chemistry would have under sound
	}
	quiet := deciding{t: d.t, load: d.load, in: d.in, several: d.several, wash: d.wash, at: d.at, brief: d.brief, verdict: Yes}
	quiet.narrow(b, what, all)
	if d.brief && quiet.verdict == No {
		d.verdict = No
	}
	for _, r := range quiet.reasons {
		if r.Verdict == No {
			d.add(r)
		}
	}
}

// yields opens the low ends of a chemistry's window where a concession has limits of that sort: what is lived with for a minute is no wash.
func yields(asks []Limit) {
	if !slices.ContainsFunc(asks, func(l Limit) bool { return l.of == ofConcession }) {
		return
	}
	for i := range asks {
		if asks[i].Rule == &OutsideChemistryWindow {
			asks[i].Low = math.Inf(-1)
		}
	}
}

// tightest finds what limits have in common, and which of them its ends are.
func tightest(asks []Limit) (common quantity.Range, low, high *Limit) {
	common = asks[0].Range
	common.Low, common.High = math.Inf(-1), math.Inf(1)
	for i := range asks {
		l := &asks[i]
		if l.Low > common.Low {
			common.Low, low = l.Low, l
		}
		if l.High < common.High {
			common.High, high = l.High, l
		}
	}
	return common, low, high
}

func finite(x float64) *float64 {
	if math.IsInf(x, 0) {
		return nil
	}
	return &x
}

// shown is a span as it is written: where an end was turned from another measure, to three digits.
func shown(r quantity.Range, asks []Limit) quantity.Range {
	for _, l := range asks {
		if l.turned && (l.Low == r.Low || l.High == r.High) {
			r.Low, r.High = threeDigits(r.Low), threeDigits(r.High)
			break
		}
	}
	return r
}

func threeDigits(x float64) float64 {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	step := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-2)
	return math.Round(x/step) * step
}

// disagreement is the reason for two limits that leave nothing. It stands with the one that is not the bath's own.
func disagreement(low, high *Limit) Reason {
	at, other := high, low
	if at.of < other.of {
		at, other = low, high
	}
	return against(at.Rule, Say(disagree, Clause(low.Asks), Clause(high.Asks))).by(at.At).other(other.At)
}

// conditions says what has to be done so that a bath, as it stands or as its chemistry's window has it, stays in what is left.
func (d *deciding) conditions(b *Bath, what What, own fact.Limit, common quantity.Range, low, high *Limit) []Reason {
	var list []Reason
	unknownOwn := !own.Set && (low != nil && low.of != ofChemistry || high != nil && high.of != ofChemistry)
	if unknownOwn {
		own.Range = quantity.Range{Low: math.Inf(-1), High: math.Inf(1), Kind: common.Kind, Unit: common.Unit}
	} else if !own.Set || !leaves(own.Range, common) {
		return list
	}
	tighter := high
	if high == nil || own.High <= common.High+close(common.High) {
		tighter = low
	}
	need := shown(common, nil)
	today := b.Tank != nil && (what == Temperature && b.Temperature.Set || what == Strength && b.Strength.Set)
	var says Sentence
	brief := Say("{limit}", Amount(need))
	switch {
	case what == PH:
		// The pH of a bath is not set but kept: it may be anywhere in its own range.
		says, brief = Say(keepPH, Amount(need), Clause(tighter.Asks)), Say("pH {limit}", Amount(need))
	case what == Time:
		if own.Low >= common.Low-close(common.Low) && !math.IsInf(common.High, 0) {
			most := need
			most.Low = math.Inf(-1)
			brief = Say("{limit}", Amount(most))
		}
		says = Say(keepTime, Amount(need), Clause(tighter.Asks))
	case today && what == Temperature:
		says = Say(setTemperature, Title(b.Title), Amount(need), Amount(own.Range), Clause(tighter.Asks))
	case today:
		says = Say(bringStrength, Title(b.Title), Amount(need), Amount(own.Range), Clause(tighter.Asks))
	default:
		says = Say(keepWithin, Word(nameOf(what)), Amount(need), Clause(tighter.Asks))
	}
	r := wants(tighter.Rule, says, brief).by(tighter.At)
	r.sort = what
	if what != PH && !today && !halves(own.Range, common, high) {
		r.Verdict = Yes // whoever sets the timer or makes up the bath goes by it
	}
	return append(list, r)
}

// halves tells whether a material takes away the upper half of a window or more: then what is usual with the bath is wrong for it, and it is
// told as a condition. That it is half is our own limit.
func halves(own, left quantity.Range, high *Limit) bool {
	return high != nil && high.by != nil && left.High < own.High-close(own.High) && (math.IsInf(own.High, 0) || left.High < (math.Max(own.Low, 0)+own.High)*safety.Half-close(own.High))
}

// answer orders the reasons, the gravest first, and gives the recipes where it is not no.
func (d *deciding) answer(baths []Bath) Answer {
	a := Answer{Verdict: Yes}
	for _, v := range []Verdict{No, Conditions, Yes} {
		for _, r := range d.reasons {
			if r.Verdict == v {
				a.Reasons = append(a.Reasons, r)
				a.Verdict = worse(a.Verdict, v)
			}
		}
	}
	if a.Verdict == No {
		a.Reasons = only(a.Reasons, No)
	} else if a.Steps = d.recipes; len(d.recipes) == 1 {
		a.Recipe, a.Steps = &d.recipes[0], nil
	}
	var cautions []Caution
	for i := range baths {
		cautions = append(cautions, baths[i].Chemistry.Cautions...)
		for _, p := range baths[i].Chemistry.ProtectiveEquipment {
			if !slices.Contains(a.Protect, p) {
				a.Protect = append(a.Protect, p)
			}
		}
	}
	for _, m := range d.materials {
		cautions = append(cautions, m.Cautions...)
	}
	for _, s := range d.load.soils {
		cautions = append(cautions, s.Cautions...)
	}
	a.Cautions = gravestFirst(cautions)
	return a
}

// only keeps the reasons for a verdict: what would have to be done is beside the point when the answer is no.
func only(reasons []Reason, v Verdict) []Reason {
	var list []Reason
	for _, r := range reasons {
		if r.Verdict == v {
			list = append(list, r)
		}
	}
	return list
}

// What decisions say.
const (
	disagree       = "{one asks}, but {another asks}."
	keepPH         = "Keep the pH at {limit}: {what asks for it}."
	keepTime       = "Give it {limit} under ultrasonics, all washes of one visit together: {what asks for it}."
	keepWithin     = "Keep the {what} at {limit}: {what asks for it}."
	setTemperature = "Set {bath} to {limit} for this load; today it has {amount}, but {what asks for it}."
	bringStrength  = "Bring {bath} to {limit} for this load; today it has {amount}, but {what asks for it}."
	staysWithin    = "The recipe stays within what {material} can stand: {what}."
)
