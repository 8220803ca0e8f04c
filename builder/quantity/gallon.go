package quantity

// Gallons and ounces have two sizes and ounces two meanings. An imperial gallon is 1.2 US ones; of a concentrate of 1.36 kg/L an ounce by weight is
// two thirds of a fluid one. What a text does not tell apart is refused or marked, see [Value].

// ounces gives the ways to write it where ounces in a gallon stand at a place that do not say whether they are weighed or measured: "8 oz/gal".
func (t text) ounces(at int) (ways string) {
	at, ok := t.oneOf(at, "ounces", "ounce", "oz.", "oz")
	if !ok {
		return ""
	}
	if at, ok = t.oneOf(t.blank(at), "/", "per", "in a", "to a", "to the", "a"); !ok {
		return ""
	}
	imperial, us := false, false
	if next, ok := t.oneOf(t.blank(at), "imperial", "imp.", "imp", "uk"); ok {
		at, imperial = next, true
	} else if next, ok := t.oneOf(t.blank(at), "us"); ok {
		at, us = next, true
	}
	if _, ok = t.oneOf(t.blank(at), "gal"); !ok {
		return ""
	}
	const american, british = "wt oz/US gal, fl oz/US gal", "wt oz/imp gal, imp fl oz/imp gal"
	switch {
	case imperial:
		return british
	case us:
		return american
	}
	return american + ", " + british
}

// otherGallon reports whether fluid ounces of one country stand at a place in a gallon of nobody knows which: "6 imp fl oz/gal".
func (t text) otherGallon(at int) bool {
	at, ok := t.oneOf(at, "imperial", "imp.", "imp", "uk", "us")
	if !ok {
		return false
	}
	if at, ok = t.oneOf(t.blank(at), "fl. oz.", "fl oz", "floz", "fluid ounces"); !ok {
		return false
	}
	if at, ok = t.oneOf(t.blank(at), "/", "per"); !ok {
		return false
	}
	_, ok = t.oneOf(t.blank(at), "gal")
	return ok
}

// oneOf gives the place behind the first of some lower-case words that stands at a place, in either case.
func (t text) oneOf(at int, words ...string) (next int, ok bool) {
	for _, w := range words {
		if next, ok = t.starts(at, w); ok {
			return next, true
		}
	}
	return at, false
}

// names reports whether a lower-case word stands between two places, in either case.
func (t text) names(from, to int, word string) bool {
	for ; from < to; from++ {
		if end, ok := t.starts(from, word); ok && end <= to {
			return true
		}
	}
	return false
}
