package admit

import (
	"slices"
	"strings"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// gravest is the order in which limits of a chemistry are looked at: of several that a value leaves, only the first is told. What is near the
// flash point an exclusion tells.
var gravest = []finding.RuleName{nearFlashPoint.Name, AboveCeiling.Name, AboveCloudPoint.Name, OutsideChemistryWindow.Name}

// ownFault tells whether a bath only does what its chemistry's own window allows: then the window is at fault.
func (b *Bath) ownFault(what What) bool {
	own, v := of(&b.Chemistry.Window, what), b.set(what)
	if !own.Set || !v.Set || own.At == v.At {
		return false
	}
	turned, can := b.in(v, own.Kind)
	return can && !leaves(turned.Range, own.Range)
}

// set is what a bath is set to: by the shop file, a sheet or a window that is asked about.
func (b *Bath) set(what What) fact.Limit {
	if what == PH {
		return b.Chemistry.PH
	}
	return of(&b.Window, what)
}

func of(w *fact.Window, what What) fact.Limit {
	switch what {
	case Strength:
		return w.Strength
	case Temperature:
		return w.Temperature
	case Time:
		return w.Time
	}
	return w.Frequency
}

// Leaves gives for each sort the gravest of its chemistry's limits that a bath leaves, as reasons. A fault of the chemistry's own window is
// marked so.
func (b *Bath) Leaves() []Reason {
	var list []Reason
	asks := OfChemistry(b.Chemistry)
	for _, what := range []What{Strength, Temperature, Time, Frequency} {
		v := b.set(what)
		if !v.Set {
			continue
		}
	search:
		for _, rule := range gravest {
			for _, l := range asks {
				if l.What != what || ruleName(l.Rule) != rule {
					continue
				}
				turned, can := b.in(v, l.Kind)
				switch {
				case !can:
					gap := b.gap(Limit{What: what, Limit: v, Asks: is(what, v.Range)}, l)
					gap.sort = what
					list = append(list, gap)
					break search
				case leaves(turned.Range, l.Range) && !b.chooses(what, turned, l):
					if rule != gravest[0] {
						list = append(list, exceeds(what, v, l).mend("Stay inside the window, or correct it in the chemistry's article.").fault(b.ownFault(what)))
					}
					break search
				}
			}
		}
	}
	return list
}

// chooses tells whether a tank as it stands has several frequencies, of which some suit.
func (b *Bath) chooses(what What, v fact.Limit, l Limit) bool {
	return what == Frequency && b.Tank != nil && !b.Sheet && v.Low <= l.High && v.High >= l.Low
}

// Faults gives what stands against a bath, whatever goes into it. What its chemistry's own window is to blame for is marked so.
func (b *Bath) Faults(in quantity.System) []Reason {
	return append(b.excluded(in), b.Leaves()...)
}

// excluded gives what the exclusions find in a bath.
func (b *Bath) excluded(in quantity.System) []Reason {
	itself := b.Window == b.Chemistry.Window
	var list []Reason
	for _, f := range telling(b.Hits(in)) {
		atWindow := f.Also == b.Temperature.At && b.ownFault(Temperature)
		atPH := f.Also == b.Chemistry.PH.At && f.Also.File != ""
		list = append(list, f.Reason().value(f.Also).fault(!itself && (atWindow || atPH) && b.windowRefused(f.Exclusion, in)))
	}
	return list
}

// windowRefused tells whether an exclusion refuses the chemistry in its own window, so that the fault is told there.
func (b *Bath) windowRefused(e *Exclusion, in quantity.System) bool {
	h := e.Of(&Bath{Title: b.Chemistry.Title, Chemistry: b.Chemistry, Window: b.Chemistry.Window}, in)
	return h != nil && h.Verdict == No
}

// Exceeds tells whether a reason is that a value leaves a limit.
func (r Reason) Exceeds() bool { return r.sort != "" }

// is says what a bath has: "the temperature is 62 °C".
func is(what What, r quantity.Range) Sentence {
	return Say("the {what} is {amount}", Word(nameOf(what)), Amount(r))
}

// exceeds is the reason for a value that leaves a limit: "The temperature is 62 °C, but the limit of acrylic is ≤ 45 °C."
func exceeds(what What, v fact.Limit, l Limit) Reason {
	r := against(l.Rule, Say(disagree, Clause(is(what, v.Range)), Clause(l.Asks))).by(l.At).other(v.At).value(v.At)
	r.sort = what
	return r
}

// compare sets a wash of a process sheet against all limits of one sort: the sheet is run as it stands, so each that it leaves is a reason for no.
func (d *deciding) compare(b *Bath, what What, own fact.Limit, asks []Limit) *Span {
	if !own.Set {
		d.notGiven(b, what, asks)
		return nil
	}
	for _, l := range asks {
		if l.of == ofSoil || l.of == ofChemistry || !leaves(own.Range, l.Range) {
			continue // soils are looked at for all washes together; the chemistry below
		}
		switch {
		case what == PH:
			if slipsOut(own.Range, meet(own.Range, l.Range)) {
				d.add(d.outsidePH(b, own, l))
			} else {
				d.add(d.conditions(b, what, own, meet(own.Range, l.Range), &l, &l)...)
			}
		case what == Time && l.of == ofMaterial:
			// for all washes together
		case l.of == ofTank:
			if b.set(what).Set {
				d.add(exceeds(what, own, l).mend("Take the tank that has it."))
			}
		default:
			d.add(exceeds(what, own, l).mend("Change the wash, or take another tank."))
		}
	}
	lived := slices.ContainsFunc(asks, func(l Limit) bool { return l.of == ofConcession })
	for _, r := range b.Leaves() {
		if r.sort == what && !(lived && r.Guard == &OutsideChemistryWindow && own.High <= of(&b.Chemistry.Window, what).High+close(own.High)) {
			d.add(r)
		}
	}
	if what == Temperature {
		d.drifts(b, asks)
	}
	return &Span{What: what, Kind: own.Kind, Low: finite(own.Low), High: finite(own.High), amount: own.Range}
}

// notGiven says of a value that neither a sheet nor the chemistry gives what is not checked for it. A material's limits have been told of with
// what else is not known; here it is what somebody lives with for so long, so strong, so hot.
func (d *deciding) notGiven(b *Bath, what What, asks []Limit) {
	for _, l := range asks {
		switch {
		case l.of != ofConcession:
		case what == Time:
			d.add(b.noTime(l.Asks, l.At))
		default:
			d.add(b.noValue(what))
		}
	}
}

func (d *deciding) outsidePH(b *Bath, own fact.Limit, l Limit) Reason {
	remedy := "Take a chemistry whose pH the material stands."
	if l.Rule.Name == AttackOnPurpose.Name {
		remedy = "Write a timed instruction with a trial and an approval, and accept this finding with the reason; or take a milder chemistry."
	}
	return against(l.Rule, Say("The bath of {chemistry} is pH {limit}, but {another asks}.", titled(b.Chemistry), Amount(own.Range), Clause(l.Asks))).mend(remedy).by(l.At).other(own.At)
}

// time adds up how long a sheet's washes last under sound, and sets that against what each material stands in one visit.
func (d *deciding) time(baths []Bath) {
	total, last := 0.0, finding.Place{}
	var open *Bath
	for i := range baths {
		b := &baths[i]
		if !b.Sheet || b.Tank != nil && !b.Tank.Sounds() {
			continue
		}
		if t := b.value(Time); t.Set {
			total += t.High
			last = t.At
		} else {
			open = b
		}
	}
	for _, m := range d.materials {
		d.conceding(baths, m)
		if m.Time.Set && open != nil {
			d.add(open.noTime(Say("the limit of {material} is {limit}", within(m), Amount(m.Time.Range)), m.Time.At))
		}
		if m.Time.Set {
			d.lasts(total, last, m.Time, m, &TooLongForMaterial)
		}
	}
}

// lasts tells of washes that together last longer than a limit allows for a material.
func (d *deciding) lasts(total float64, last finding.Place, limit fact.Limit, m *Material, rule *finding.Rule) {
	if total <= limit.High*(1+1e-9) {
		return
	}
	r := quantity.Range{Low: total, High: total, Kind: quantity.Time, Unit: quantity.Preferred(total, quantity.Time, quantity.SI)}
	d.add(against(rule, Say("The washes last up to {time}, but the limit of {material} is {limit} in one visit.", Amount(r), titled(m), Amount(limit.Range))).
		mend("Shorten them.").by(limit.At).value(last))
}

// conceding adds up how long a sheet's washes last in a chemistry with which somebody lives for a time only, with or without sound.
func (d *deciding) conceding(baths []Bath, m *Material) {
	for _, c := range slices.Concat(d.conceded, m.Concessions) {
		if !c.Time.Set || c.By == "" || c.Reason == "" {
			continue
		}
		total, washes, last := 0.0, 0, finding.Place{}
		for i := range baths {
			if t := baths[i].set(Time); baths[i].Sheet && t.Set && baths[i].Chemistry.Name == c.Chemistry.Name {
				total, washes, last = total+t.High, washes+1, t.At
			}
		}
		if washes > 1 { // of one alone the comparison with its limits tells
			d.lasts(total, last, c.Time, m, &OutsideConcession)
		}
	}
}

// lifted tells for each soil whether it comes off: in one bath, or in any of the washes of a sheet.
func (d *deciding) lifted(baths []Bath) {
	if len(baths) == 0 {
		return // that no wash is known has been said
	}
	for _, s := range d.load.soils {
		var lifting []*Bath
		for i := range baths {
			if _, lifts := Lifts(baths[i].Chemistry, s); lifts {
				lifting = append(lifting, &baths[i])
			}
		}
		switch {
		case len(lifting) == 0:
			d.add(d.notLifted(baths, s))
		case !lifting[0].Sheet:
			r, _ := Lifts(lifting[0].Chemistry, s)
			d.add(Reason{Verdict: Yes, Says: Say("{chemistry} lifts {soil}.", titled(lifting[0].Chemistry), within(s)), Place: place(r.Chemistry.At)})
		default:
			d.liftedIn(lifting, s)
		}
	}
}

// liftedIn tells whether one of the washes that lift a soil does so in the window that the soil's article gives.
func (d *deciding) liftedIn(lifting []*Bath, s *Soil) {
	var outside []Reason
	for _, b := range lifting {
		found := b.outsideSoil(s)
		if len(found) == 0 {
			return
		}
		outside = append(outside, found[0])
	}
	d.add(outside[0])
}

// outsideSoil tells how a wash leaves the window in which its chemistry lifts a soil.
func (b *Bath) outsideSoil(s *Soil) []Reason {
	var list []Reason
	removal, _ := Lifts(b.Chemistry, s)
	for _, l := range OfLift(s, removal) {
		v := b.set(l.What)
		if !v.Set {
			list = append(list, b.notGiven(l)...)
			continue
		}
		turned, can := b.in(v, l.Kind)
		switch {
		case !can:
			list = append(list, b.gap(Limit{What: l.What, Limit: v, Asks: is(l.What, v.Range)}, l))
		case !leaves(turned.Range, l.Range):
		case l.What == Time && v.Low >= l.Low*(1-1e-9):
			// More time than the soil needs is a matter for the material, not for the soil.
		default:
			list = append(list, exceeds(l.What, v, l).mend("Run the wash in this window, or correct it in the soil's article."))
		}
	}
	return list
}

// notGiven says of a value of a wash that nobody gives what is not checked for it. How strong and how hot a tank is has been said of the tank.
func (b *Bath) notGiven(l Limit) []Reason {
	switch {
	case b.Tank == nil || !b.Tank.Sounds():
	case l.What == Time:
		return []Reason{b.noTime(l.Asks, l.At)}
	case l.What == Frequency:
		return []Reason{b.noFrequency()}
	}
	return nil
}

// noTime says that nobody gives the time of a wash, against which something has a limit.
func (b *Bath) noTime(asks Sentence, at finding.Place) Reason {
	return unknown(Say("How long the wash in {bath} lasts is not given: not checked, but {another asks}.", Title(b.Title), Clause(asks))).by(at).other(b.At)
}

// noFrequency says that nobody gives the frequency of a tank.
func (b *Bath) noFrequency() Reason {
	return unknown(Say("The frequency of {tank} is not in the shop file: not checked.", Title(b.Title))).by(b.Tank.At)
}

// notLifted is the reason against baths that do not lift a soil; it names the chemistries that do.
func (d *deciding) notLifted(baths []Bath, s *Soil) Reason {
	var titles, names []string
	remedy := "Write in the soil's article what lifts it."
	for i := range d.t.Chemistries {
		c := &d.t.Chemistries[i]
		if _, lifts := Lifts(c, s); lifts {
			titles, names = append(titles, lower(c.Title)), append(names, c.Name)
		}
	}
	if len(names) > 0 {
		remedy = "These lift it: " + strings.Join(names, ", ") + "."
	}
	says := Say("No wash of this part lifts {soil}.", titled(s))
	if !baths[0].Sheet {
		says = Say(doesNotLift, titled(baths[0].Chemistry), within(s))
		if len(titles) > 0 {
			says = Say(doesNotLiftTheseDo, titled(baths[0].Chemistry), within(s), Title(strings.Join(titles, ", ")))
		}
	}
	return against(&SoilNotRemoved, says).mend(remedy).by(s.first()).value(d.said[s.Name])
}

const (
	doesNotLift        = "{chemistry} does not lift {soil}."
	doesNotLiftTheseDo = "{chemistry} does not lift {soil}; these do: {chemistries}."
)

// couples tells which materials of a load must not share a bath.
func (d *deciding) couples() {
	_, plated := fact.One(d.features, "plated")
	isPlate := func(m *Material) bool { _, is := fact.One(m.Features, "plated"); return is }
	for i, x := range d.materials {
		for _, y := range d.materials[:i] {
			why, at, also := Couple(x, y)
			if why.Phrase == "" || plated && (isPlate(x) || isPlate(y)) {
				continue // the plate and what is under it are one part, and the plate's own article has the limits
			}
			d.add(against(&DissimilarMetals, Say("{material} and {material} must not share a bath: {why}.", titled(y), titled(x), Clause(why))).
				mend("Take the part to pieces and wash them apart, in baths of their own.").by(at.At).other(also.At).value(d.said[""]))
		}
	}
}

// soils holds back what may carry something that hurts people.
func (d *deciding) soils() {
	for _, s := range d.load.soils {
		for _, may := range s.MayContain {
			d.add(against(&SoilNeedsClearance, Say("{soil} may contain {constituent}: not before the safety officer has cleared this lot.", titled(s), spoken(may))).by(may.At).value(d.said[s.Name]))
		}
	}
}

// ContentAgainst tells what a soil may carry into a chemistry that it must never meet there.
func ContentAgainst(s *Soil, c *Chemistry) []Reason {
	var list []Reason
	for _, may := range s.MayContain {
		if what, at, is := meetsContent(may, c); is {
			list = append(list, against(&NeverMeet, Say("{soil} may contain {constituent}, and {chemistry} must never meet it: {why}.", titled(s), spoken(may), within(c), Clause(what))).
				mend("Take a chemistry that is neither an acid nor one of those that its article forbids, and only after the safety officer has cleared the lot.").by(may.At).other(at))
		}
	}
	return list
}

// meetsBefore tells what must never be carried over from one wash into the next.
func (d *deciding) meetsBefore(before, after *Bath) {
	if why, at, also := Enmity(before.Chemistry, after.Chemistry); why.Phrase != "" {
		d.add(against(&NeverMeet, Say("It follows {chemistry}: {why}.", within(before.Chemistry), Clause(why))).mend(KeepApart).by(at).other(also))
	}
	if at, lit := before.Chemistry.Flammable(); lit && after.Tank != nil && !after.Tank.Flammables && !(after.Tank.Vessel == fact.Jar && after.cold()) {
		d.add(wants(&flammableInOrdinaryTank.Rule, Say("The part comes wet with {chemistry}, which can be lit: let it drip off and dry in the open, under exhaust, before it goes into {bath}.", within(before.Chemistry), Title(after.Title)),
			Say("dry it in the open before {bath}", Title(after.Title))).by(at).other(after.At))
	}
}

// KeepApart is what to do about two chemistries that must never meet.
const KeepApart = "Keep the two in separate places: tanks that do not stand beside each other, other baskets, other sheets and procedures. A sheet rinses behind its last wash alone."
