package rules

import (
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// actsLate is beyond for a temperature of a bath up to which nobody is to act, or from which on somebody is to: “Up to 72 °C in Wash 2 no pause is needed”,
// “Only above 80 °C does Wash 1 need a pause”, “Wash 2 may rise to 68 °C before you stop”, “Alarm limits: Wash 1 85 °C”. What is to be done
// at a lower temperature as well says nothing of the kind.
func (p *proof) actsLate(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *excess {
	if q.Kind != quantity.Temperature || s.Question || s.TakenBack || s.Block.Kind == sentence.Cell || s.Has(measuredSo) || s.Has(excepted) || s.Clauses[q.Clause].Mood == sentence.Was || s.ClauseHas(q.Clause, longAgo) {
		return nil
	}
	if !heatAttributes[q.Attribute] && q.Attribute != "alarm" {
		return nil
	}
	switch {
	case q.Relation == sentence.AtMost && needsNoAct(s, q):
	case (q.Relation == sentence.Above || q.Relation == sentence.At || q.Relation == sentence.From) && s.ClauseHas(q.Clause, onlyWord) && s.ClauseHas(q.Clause, acts) && !denies(s, q.Clause) && !s.Has(faultNouns):
	case (q.Relation == sentence.To || q.Relation == sentence.AtMost || q.Relation == sentence.At) && risesBefore(s, q):
	case alarmOf(s, q):
	default:
		return nil
	}
	of := p.of(a, q)
	if q.About == nil && len(of.chemistries) == 0 || of.own && a.Chemistry == nil && q.About == nil {
		of = p.bathTold(a, s)
	}
	if len(of.chemistries) != 1 {
		return nil
	}
	return p.beyondBath(q, &of, q.Range.Low)
}

// needsNoAct tells whether nothing needs to be done up to a temperature: its clause, or the one behind, denies that anybody has to act.
func needsNoAct(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	if s.ClauseHas(k, acts) && s.ClauseHas(k, noAct) && s.ClauseHas(k, actNeeds) {
		return true
	}
	return k+1 < len(s.Clauses) && s.ClauseHas(k+1, acts) && s.ClauseHas(k+1, noAct) && s.ClauseHas(k+1, actNeeds) && s.Verbless(q)
}

// risesBefore tells whether a bath may come to a temperature before anybody acts, or while nobody does.
func risesBefore(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	if !s.ClauseHas(k, mayBe) || !s.ClauseHas(k, rising) || denies(s, k) || k+1 >= len(s.Clauses) || s.Clauses[k].Opener != "" {
		return false
	}
	next := &s.Clauses[k+1]
	return next.Opener == "before" && s.ClauseHas(k+1, acts) || next.Opener == "while" && s.ClauseHas(k+1, nothings)
}

// alarmOf tells whether a temperature is one at which the alarm of a bath is set to sound: on a list behind “Alarm limits:”, or by a command.
func alarmOf(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	for j := k; j >= 0 && j >= k-3; j-- {
		if s.ClauseHas(j, alarmWords) && s.ClauseHas(j, alarmSets) && !denies(s, j) {
			return j < k && labels(s, j+1) || j == k && q.Attribute == "alarm" && s.Clauses[j].Opener == "" && s.ClauseHas(j, setTo)
		}
	}
	return false
}

var (
	// excepted are words of a case that is another one.
	excepted   = sentence.Set("trial trials written signed instruction approval approved engineer engineer's coupon except exception unless others elsewhere instead makers suppliers supplier")
	measuredSo = sentence.Set("found measured reads read stopped tripped yesterday last noted logged log was")
	setTo      = sentence.Set("set adjusted put turned")
	acts       = sentence.Set("pause stop act alarm wait worry intervene react switch interfere lid technician call cool")
	noAct      = sentence.Set("no nobody nothing none not never")
	actNeeds   = sentence.Set("need needs needed necessary has have required must called")
	rising     = sentence.Set("rise climb drift warm go run creep come get")
	alarmWords = sentence.Set("alarm alarms")
	alarmSets  = sentence.Set("limit limits set setting settings point points threshold thresholds adjusted")
)
