package rules

import (
	"fmt"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongTankFills checks how many fills of a tank there are in a drum: “A 20 L drum lasts for 4 fills of Wash 1”, by the concentrate that its volume and
// strength ask for.
func (p *proof) wrongTankFills(_ *manual.Article, s *sentence.Sentence) (int, string) {
	t := onlyTank(s)
	if t == nil || !t.Volume.Set || t.Strength.Kind != quantity.VolumeFraction || t.Strength.Low <= 0 || len(s.Quantities) == 0 || !s.Has(lastsFor) || s.Has(tooWord) || s.Has(noWords) || s.Question {
		return 0, ""
	}
	whole := &s.Quantities[0]
	if whole.Kind != quantity.Volume || !plain(whole) || len(s.Quantities) > 1 && s.Quantities[1].Kind != quantity.Volume {
		return 0, ""
	}
	for _, n := range thingsIn(s) {
		if n.n < 2 || n.from < whole.To || !fillNouns[n.word+"s"] || !strings.HasPrefix(strings.ToLower(strings.Join(words(s, n.from, s.To)[1:], " ")), n.word+"s of "+strings.ToLower(t.Name)) {
			continue
		}
		dose := t.Volume.Low * t.Strength.Low
		if need := n.n * dose; need > 1.04*whole.Range.Low || need+dose < 0.96*whole.Range.Low && !s.Has(enoughs) {
			return n.from, fmt.Sprintf("A fill of %s takes %s; %s holds %d of them.", t.Name, quantity.ShowIn(dose, whole.Unit), whole.Text, int(whole.Range.Low/dose+1e-9))
		}
	}
	return 0, ""
}

// wrongFills checks how many amounts there are in a larger one: “A 20 L drum lasts for four fills of 4.8 L”.
func wrongFills(s *sentence.Sentence, i int) (int, string) {
	if i+1 >= len(s.Quantities) {
		return 0, ""
	}
	whole, one := &s.Quantities[i], &s.Quantities[i+1]
	if whole.Kind != one.Kind || !addable[one.Kind] || !plain(whole) || !plain(one) || !s.Has(lastsFor) || s.Has(tooWord) {
		return 0, ""
	}
	between := words(s, whole.To, one.From)
	n := len(between)
	if n < 4 || between[n-1] != "of" && between[n-1] != "at" || !fillNouns[between[n-2]] {
		return 0, ""
	}
	count := numberOf(between[n-3])
	if count == 0 || between[n-4] != "for" && !lastsFor[between[n-4]] && between[n-4] != "filled" {
		return 0, ""
	}
	if need := count * one.Range.Low; need > 1.04*whole.Range.Low || need+one.Range.Low < 0.96*whole.Range.Low && !s.Has(enoughs) {
		return one.From, fmt.Sprintf("%g times %s is %s; %s holds %d of them.", count, one.Text, quantity.ShowIn(need, one.Unit), whole.Text, int(whole.Range.Low/one.Range.Low+1e-9))
	}
	return 0, ""
}

var (
	lastsFor  = sentence.Set("lasts last enough makes gives does fills filled does")
	enoughs   = sentence.Set("enough suffices") // for fewer than it would last
	fillNouns = sentence.Set("fills charges baths batches refills times fillings")
)
