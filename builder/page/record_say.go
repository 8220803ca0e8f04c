package page

import (
	"fmt"
	"html/template"
	"math"
	"time"

	"tankside/builder/history"
	"tankside/builder/quantity"
	"tankside/builder/record"
	"tankside/calculators/control"
)

// limitsSay says what the control limits are and what they come from.
func (s *site) limitsSay(c *history.Chart) []template.HTML {
	b := c.Now()
	n := fmt.Sprint(b.Baseline)
	switch {
	case b.Few:
		return []template.HTML{escaped(fmt.Sprintf(s.words.say("No control limits: of this bath there are %s readings, and %s are needed."), n, fmt.Sprint(history.LeastBaseline)))}
	case b.Alike:
		return []template.HTML{escaped(fmt.Sprintf(s.words.say("No control limits: the first %s readings of this bath are alike, or nearly so, and nothing shows what chance does. A reading with one more digit would."), n))}
	}
	amounts := s.both(func(system quantity.System) string {
		return fmt.Sprintf(s.words.say("Control limits %s to %s around a mean of %s."), amountIn(c, b.Limits.Lower, system), amountIn(c, b.Limits.Upper, system), amountIn(c, b.Limits.Mean, system))
	})
	from, to := c.Points[b.From].When.Format(time.DateOnly), c.Points[b.From+b.Baseline-1].When.Format(time.DateOnly)
	source := fmt.Sprintf(s.words.say("They come from the first %s readings of the record, %s to %s."), n, from, to)
	if b.Changed {
		source = fmt.Sprintf(s.words.say("They come from the first %s readings after the change of bath, %s to %s."), n, from, to)
	}
	if b.Short {
		source += " " + s.words.say("There are no more of this bath yet.")
	}
	average := b.Averages[len(b.Averages)-1]
	moving := s.both(func(system quantity.System) string {
		return fmt.Sprintf(s.words.say("Moving average now %s; its limits are %s to %s."), amountIn(c, average.Value, system), amountIn(c, average.Lower, system), amountIn(c, average.Upper, system))
	})
	return []template.HTML{amounts, escaped(source), moving}
}

// allowedSay says what the chemistry allows.
func (s *site) allowedSay(c *history.Chart) template.HTML {
	w := c.Window
	switch {
	case w.Otherwise:
		return escaped(s.words.say("Not compared with what the chemistry allows, which is given in another measure."))
	case !w.Set:
		return ""
	}
	return s.both(func(system quantity.System) string {
		switch {
		case math.IsInf(w.Low, 0):
			return fmt.Sprintf(s.words.say("Allowed: up to %s."), amountIn(c, w.High, system))
		case math.IsInf(w.High, 0):
			return fmt.Sprintf(s.words.say("Allowed: from %s."), amountIn(c, w.Low, system))
		}
		return fmt.Sprintf(s.words.say("Allowed: %s to %s."), amountIn(c, w.Low, system), amountIn(c, w.High, system))
	})
}

// calledSay says which readings a rule calls out.
func (s *site) calledSay(c *history.Chart, e history.Episode) called {
	from, to := c.Points[e.From].When.Format(time.DateOnly), c.Points[e.To].When.Format(time.DateOnly)
	when := from
	if e.Count() > 1 {
		when = fmt.Sprintf(s.words.say("%s to %s, %s readings"), from, to, fmt.Sprint(e.Count()))
	}
	return called{s.ruleName(e.Rule, e.High), wholeDays(escaped(when))}
}

func (s *site) ruleName(r control.Rule, high bool) string {
	switch {
	case r == control.Beyond && high:
		return s.words.say("Above the control limits")
	case r == control.Beyond:
		return s.words.say("Below the control limits")
	case r == control.TwoOfThree && high:
		return s.words.say("Two of three far above the mean")
	case r == control.TwoOfThree:
		return s.words.say("Two of three far below the mean")
	case r == control.FourOfFive && high:
		return s.words.say("Four of five well above the mean")
	case r == control.FourOfFive:
		return s.words.say("Four of five well below the mean")
	case r == control.EightInARow && high:
		return s.words.say("Eight in a row above the mean")
	case r == control.EightInARow:
		return s.words.say("Eight in a row below the mean")
	case high:
		return s.words.say("Moving average above its limits")
	}
	return s.words.say("Moving average below its limits")
}

// driftSay says whether it drifts, and when it leaves what is allowed.
func (s *site) driftSay(c *history.Chart) []template.HTML {
	d := &c.Drift
	n := fmt.Sprint(d.N)
	var list []template.HTML
	add := func(text string) { list = append(list, escaped(text)) }
	switch d.State {
	case history.Few:
		add(fmt.Sprintf(s.words.say("A drift cannot be told from %s readings; %s at different times are needed."), n, fmt.Sprint(control.FewestForTrend)) + s.sinceSay(d))
		return list
	case history.Steady:
		add(fmt.Sprintf(s.words.say("No drift that could not be chance, by the newest %s readings."), n) + s.sinceSay(d))
		if d.Outside {
			add(s.words.say("It is outside of what is allowed."))
		}
		return list
	}
	slope := s.words.say("Falls by %s a day, give or take %s, by the newest %s readings.")
	if d.PerDay > 0 {
		slope = s.words.say("Rises by %s a day, give or take %s, by the newest %s readings.")
	}
	list = append(list, s.both(func(system quantity.System) string {
		return fmt.Sprintf(slope, differenceIn(c, math.Abs(d.PerDay), system), differenceIn(c, d.High-d.PerDay, system), n) + s.sinceSay(d)
	}))
	date := func(t *time.Time) string { return t.Format(time.DateOnly) }
	switch {
	case d.Outside:
		add(s.words.say("It is outside of what is allowed."))
	case d.NoLimit:
		add(s.words.say("Nothing is said of how far it may go."))
	case d.Earliest == nil:
		add(fmt.Sprintf(s.words.say("It stays in what is allowed until %s; of later nothing can be told."), date(&d.Horizon)))
	case d.Leaves == nil:
		add(fmt.Sprintf(s.words.say("It leaves what is allowed on %s at the earliest; more cannot be told."), date(d.Earliest)))
	case d.Latest == nil:
		add(fmt.Sprintf(s.words.say("It leaves what is allowed about %s; on %s at the earliest, perhaps never."), date(d.Leaves), date(d.Earliest)))
	default:
		add(fmt.Sprintf(s.words.say("It leaves what is allowed about %s; in 95 of 100 such cases between %s and %s."), date(d.Leaves), date(d.Earliest), date(d.Latest)))
	}
	return list
}

// sinceSay says, with a blank before it, what the readings of a trend have behind them.
func (s *site) sinceSay(d *history.Drift) string {
	text := ""
	switch d.Since {
	case record.Change:
		text += " " + s.words.say("They are those since the change of bath.")
	case record.TopUp:
		text += " " + s.words.say("They are those since the last top-up.")
	case record.Repair:
		text += " " + s.words.say("They are those since the repair.")
	}
	if d.Over {
		text += " " + s.words.say("Top-ups lie between them and count.")
	}
	return text
}

// driftBrief says in a few words where a drift leads, or what is outside of what is allowed.
func (s *site) driftBrief(c *history.Chart) string {
	switch d := &c.Drift; {
	case d.Outside || !c.Window.Allows(c.Points[len(c.Points)-1].Value):
		return s.words.say("It is outside of what is allowed.")
	case d.Leaves != nil:
		return fmt.Sprintf(s.words.say("It leaves what is allowed about %s."), d.Leaves.Format(time.DateOnly))
	}
	return ""
}
