package prose

import "strings"

func vowel(c byte) bool {
	switch c {
	case 'a', 'e', 'i', 'o', 'u', 'y':
		return true
	}
	return false
}

// runs counts the runs of vowels, and the places in them where two are spoken apart.
func runs(w string) int {
	n := 0
	for i := range len(w) {
		if sounded(w, i) && (i == 0 || !sounded(w, i-1) || apart(w, i)) {
			n++
		}
	}
	return n
}

// sounded tells whether the letter at i is a vowel where it stands. Between or before vowels y is a consonant; u is silent behind q, and
// behind g before e, i and the end.
func sounded(w string, i int) bool {
	if !vowel(w[i]) {
		return false
	}
	last := i+1 == len(w)
	switch w[i] {
	case 'y':
		return last || !vowel(w[i+1]) || i > 0 && !vowel(w[i-1])
	case 'u':
		return i == 0 || w[i-1] != 'q' && (w[i-1] != 'g' || !last && w[i+1] != 'e' && w[i+1] != 'i')
	}
	return true
}

// apart tells whether the vowel at i is spoken apart from the one before it.
func apart(w string, i int) bool {
	rule, is := hiatus[w[i-1:i+1]]
	return is && rule(w[:i-1], w[i+1:])
}

// hiatus holds the pairs of vowels that are spoken apart, each with where: what stands before the pair and what after.
var hiatus = map[string]func(before, after string) bool{
	"iu": everywhere, "ii": everywhere, "uu": everywhere, "ao": everywhere, "yi": everywhere, "ya": everywhere, "ye": everywhere, // radius, drying

	"ia": func(before, after string) bool { return !soft(before) && !starts(after, "ge") },                         // radiate; but crucial, carriage
	"io": func(before, after string) bool { return !soft(before) && !(starts(after, "n") && endsIn(before, "l")) }, // ion; but action, million
	"ua": func(before, _ string) bool { return !endsIn(before, "q", "g") },                                         // gradual; but guard
	"uo": func(before, _ string) bool { return !endsIn(before, "q", "g") },                                         // fluorine; but quote
	"eo": func(before, after string) bool {
		return !endsIn(before, "p") && !(endsIn(before, "g") && starts(after, "n", "u"))
	}, // theory; but people, gorgeous
	"eu": func(_, after string) bool { return starts(after, "m") },                                          // petroleum; but neutral
	"oi": func(_, after string) bool { return after == "ng" || after == "ngs" },                             // doing; but boil
	"ei": func(before, after string) bool { return after == "ng" || after == "ngs" || endsIn(before, "r") }, // being, reinforce; but vein
	"oa": func(before, _ string) bool { return before != "" && vowel(before[len(before)-1]) },               // radioactive; but soak
	"yo": func(before, _ string) bool { return before != "" && !vowel(before[len(before)-1]) },              // polyolefin; but yoke
	"ui": func(before, after string) bool {
		return starts(after, "n") || starts(after, "d") && endsIn(before, "l") || starts(after, "t") && endsIn(before, "n")
	}, // ruin, fluid, continuity; but suit
	"ue": func(before, after string) bool {
		return starts(after, "n") && !endsIn(before, "q", "g") || starts(after, "l") && endsIn(before, "f")
	}, // influence, fuel; but glue
	"oe": func(_, after string) bool { return starts(after, "t", "f", "x", "v") }, // poetry, whoever; but toe
	"ie": func(before, after string) bool {
		return before != "" && (starts(after, "t") || starts(after, "nc", "nt") && !soft(before) || len(before) > 1 && (after == "r" || after == "rs" || after == "st"))
	}, // quiet, experience, oilier; but field, patient
	"ea": func(before, after string) bool {
		return endsIn(before, "r") && starts(after, "ti", "ct") || after == "" && before != "" && !endsIn(before, "t", "l", "s", "p")
	}, // creation, area; but clean, sea
}

func everywhere(_, _ string) bool { return true }

// soft tells whether a consonant melts with a following i and vowel, as in action, crucial, region, tension and anxious.
func soft(before string) bool { return endsIn(before, "t", "c", "s", "g", "x") }

func starts(s string, with ...string) bool {
	for _, w := range with {
		if strings.HasPrefix(s, w) {
			return true
		}
	}
	return false
}

func endsIn(s string, with ...string) bool {
	for _, w := range with {
		if strings.HasSuffix(s, w) {
			return true
		}
	}
	return false
}
