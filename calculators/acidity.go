package calculators

import (
	q "tankside/builder/quantity"
	"tankside/calculators/mix"
)

// acid gives what a base finds in an acid bath, to one end point or to both; held in mol/m³, to the first. Sodium carbonate has the first alone.
func (s *sum) acid(used, normality, sample, held float64) {
	soda := s.at("titrant").choice == "sodium-carbonate"
	switch {
	case soda || s.has("total-used"):
		s.note(s.in("free-acid", held*mix.EquivalentCaCO3, q.Alkalinity, "meq/L"), "to pH 3.7")
	default:
		s.note(s.in("acidity", held*mix.EquivalentCaCO3, q.Alkalinity, "meq/L"), "of acid that alkali finds, to pH 8.3")
	}
	s.step("acidity = {millilitres} × {normality} ÷ {millilitres} = {4} meq/L", used, normality, sample, held)
	s.caution(Careful, "The sample is acid and the titrant caustic; both burn: goggles and gloves. Cool the sample first. Acid samples go into a waste bottle of their own.")
	if s.has("total-used") {
		s.freeAndTotal(held, mix.Alkalinity(s.si("total-used"), normality, sample))
	}
}

// freeAndTotal gives what both end points of an acid bath say, in mol/m³.
func (s *sum) freeAndTotal(free, total float64) {
	s.note(s.in("total-acid", total*mix.EquivalentCaCO3, q.Alkalinity, "meq/L"), "to pH 8.3")
	s.in("bound-acid", (total-free)*mix.EquivalentCaCO3, q.Alkalinity, "meq/L")
	s.step("in points, mL of 0.1 N for 10 mL of bath: {3} of free acid, {3} of total acid", free/10, total/10)
	switch {
	case total <= 0:
		s.verdict("The sample took no alkali: it has no acid. Check the sample and the titrant.")
		return
	case free > 0:
		s.give("acid-ratio", total/free, q.Number)
	default:
		s.step("without free acid the ratio of total to free has no value")
	}
	if s.has("fresh-ratio") {
		s.wornAcid(free, total, s.si("fresh-ratio"))
	}
}

// wornAcid holds free and total acid, in mol/m³ with the total above nought, against the ratio of the fresh bath. See mix.Spent.
func (s *sum) wornAcid(free, total, fresh float64) {
	taken := mix.TakenUp(free, total, fresh)
	s.note(s.in("acid-spent", mix.Spent(free, total, fresh), q.Fraction, "%"), "or more, where lime or alkali has taken acid too")
	s.note(s.in("iron-taken", taken*mix.EquivalentIron, q.MassConcentration, "g/L"), "Fe²⁺, if it were all iron")
	s.step("fresh, {4} meq/L of total acid had {4} meq/L of free; {4} are left, so metal has taken {4}", total, total/fresh, free, taken)
	if free <= 0 {
		s.verdict("Worn out: no free acid is left. Change the bath.")
		return
	}
	s.judge(total/free, fresh)
}
