package quantity

// Begin reads an amount of any of the kinds at the beginning of a text that goes on, and gives how many bytes it takes. A number behind which no unit
// of theirs stands is a plain number, whatever the kinds. Where [Fraction] is among them, a lone per cent sign is one. The error is an [*Error]: no number
// stands there, or, with Asks, one that somebody has to be asked about.
func Begin(source string, kinds ...Kind) (Value, int, error) {
	t := normal(source)
	if problem := t.unreadable(); problem != nil {
		return Value{}, 0, problem.accept(kinds, false)
	}
	start := t.blank(0)
	v, end, problem := t.amount(start, kinds)
	if problem != nil && !problem.asks {
		v, problem = Value{}, nil
		v.SI, end, problem = t.number(start)
	}
	if problem != nil {
		return Value{}, 0, problem.accept(kinds, false)
	}
	if v.Unit.Symbol == missing {
		v = Value{SI: v.SI}
	}
	if problem := t.possible(v.SI, v.Kind); problem != nil {
		return Value{}, 0, problem.accept(kinds, false)
	}
	if end == len(t.at) {
		return v, len(source), nil
	}
	return v, t.at[end], nil
}

// Asks tells whether the amount could be read if somebody said which of several things is meant.
func (e *Error) Asks() bool { return e.asks }
