package line

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// State is a rinse at rest, with parts running.
type State struct {
	Rinse *manual.Rinse

	// Washes are the tanks whose bath reaches it, directly or by way of another rinse, in the order of the shop file.
	Washes []*manual.Tank

	// Stages are in the order in which parts go through them. There are none where something is missing.
	Stages []Stage

	// Missing is what has to be known before there can be a pH; then there are no stages.
	Missing []Missing

	// From are the places of the facts that it rests on: keys of tanks, rinses, chemistries, parts.
	From []finding.Place
}

// Stage is one stage of a rinse. Low and High are bounds, of the figures given and of what the baths may hold.
type Stage struct {
	Shares  []float64 // of the bath of each wash, in the order of State.Washes, at the drag-out's high end
	PH      Span      // at its temperature
	Cold    Span      // as a sample reads that has cooled to 25 °C, which is what the pH in headers means
	Feed    Span      // pH of its water alone, cold
	Alkali  Span      // kg/m³ as CaCO₃, total; below 0 for free acid
	Heat    float64   // °C; 25 where nothing says
	Settled float64   // s until it is 95 % of the way there from clean water; +Inf where the volume is not known
}

// Span is from the lowest to the highest.
type Span struct{ Low, High float64 }

func (s Span) with(low, high float64) Span { return Span{min(s.Low, low), max(s.High, high)} }

// Missing is a key that has to be given.
type Missing struct {
	Key string        // of the shop file or of a chemistry's header
	Of  string        // the name or title of the tank, rinse, water or chemistry that lacks it
	At  finding.Place // where that is described
}

// Cold spans the pH that a part meets on its way through the rinse, as in Stage.Cold; ok is false where something is missing.
func (s *State) Cold() (span Span, ok bool) {
	if len(s.Stages) == 0 {
		return Span{}, false
	}
	span = s.Stages[0].Cold
	for _, stage := range s.Stages {
		span = span.with(stage.Cold.Low, stage.Cold.High)
	}
	return span, true
}
