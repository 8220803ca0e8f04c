package manual

import (
	"slices"
	"strings"

	"tankside/builder/spelling"
)

// Vocabulary is a closed list of words that a header key accepts.
type Vocabulary struct {
	Name  string // what one word is called in a sentence: "station"
	Words []string

	Missing string // what to do where no word fits, with a blank before it; "" where one has to
}

// Has tells whether the word is in the vocabulary.
func (v Vocabulary) Has(word string) bool { return slices.Contains(v.Words, word) }

// The words that headers may use. A new word is added here and nowhere else.
var (
	stationWords = Vocabulary{Name: "station", Words: stationNames()}

	// ContainsWords are the constituents of a chemistry that decide what it may meet.
	ContainsWords = Vocabulary{Name: "constituent", Words: list(`
		silicate free-caustic phosphate carbonate chelant amine ammonia chloride nitrite hypochlorite peroxide fluoride
		enzyme terpene glycol-ether alcohol hydrocarbon ketone ester solvent-emulsion surfactant acid soap inhibitor cyanide sulfide`)}

	// NatureWords are the classes of soil.
	NatureWords = Vocabulary{Name: "nature", Words: list(`
		oil grease wax emulsion particles carbon oxide scale salt resin polymer protein film`)}

	// PeopleHazardWords are the constituents of a soil for which work stops until the safety officer has been asked.
	PeopleHazardWords = Vocabulary{Name: "dangerous constituent", Words: list(`
		asbestos lead beryllium cadmium chromate pcb radioactive biological cyanide sulfide nitrite mercury`),
		Missing: " Where the soil holds something else that hurts people, a DANGER or WARNING in the text says so: that the word is not known does not make it harmless."}

	// MadeOfWords are the substances that a material article can be about.
	MadeOfWords = Vocabulary{Name: "substance", Words: list(`
		aluminium magnesium zinc tin lead copper brass bronze beryllium-copper silver gold nickel chromium cadmium titanium
		carbon-steel high-strength-steel cast-iron stainless-steel cobalt-carbide nickel-carbide
		anodise conversion-coat black-oxide phosphate-coat paint
		polycarbonate acrylic abs polystyrene pvc nylon acetal ptfe peek polyolefin
		nbr epdm fkm silicone-rubber glass coated-optic epoxy cyanoacrylate ceramic`)}

	// FirstAidWords are the harms for which an article may say that it gives first aid.
	FirstAidWords = Vocabulary{Name: "harm", Words: list(`fluoride sulfide cyanide swallowed shock eyes skin`)}

	// FeatureWords are what makes a material or a part more delicate than its substance.
	FeatureWords = Vocabulary{Name: "feature", Words: list(`
		polished soft thin plated porous sintered blind-holes hardened stressed bonded sealed electronic mems loose-set`)}

	rinsesWords = Vocabulary{Name: "grade of rinsing", Words: list(`easy fair hard stays-on dries-off`)}
	nextWords   = Vocabulary{Name: "next step", Words: list(`inspection storage assembly plating painting bonding`)}

	// SwatchWords name the drawings of what a symptom looks like.
	SwatchWords = Vocabulary{Name: "swatch", Words: list(`
		rings film beads smear bloom dark-brass dull pits holes patchy weak-foil foam smell cold level noise slick hands
		scratch numbers topped crazed`)}

	seenOnWords = Vocabulary{Name: "place", Words: list(`part bath tank people`)}

	// neverWithExtra are the words that never-with takes beside chemistry names and ContainsWords.
	neverWithExtra = []string{"acid", "alkali"}
)

func list(words string) []string { return strings.Fields(words) }

func stationNames() []string {
	names := make([]string, len(Stations))
	for i, s := range Stations {
		names[i] = string(s)
	}
	return names
}

// Nearest gives the candidate that the word was most likely meant to be, or "" when none is near.
// A candidate is near within a third of its length in edits, where two letters that changed places count as one.
func Nearest(word string, candidates []string) string {
	word = strings.ToLower(word)
	letters := []rune(word)
	var errors spelling.Distance
	best, bestDistance := "", 0
	for _, c := range candidates {
		limit := max(1, min(len(c), len(word))/3)
		d := errors.Between(letters, c, limit)
		if d > limit {
			// "wash1" for "wash-1", "tank" for "tanks", "heavy caustic" for "heavy-duty-caustic"
			if !sameBut(word, c) {
				continue
			}
			d = limit
		}
		if best == "" || d < bestDistance || d == bestDistance && c < best {
			best, bestDistance = c, d
		}
	}
	return best
}

// sameBut tells whether two names differ only in blanks, hyphens and underscores, or whether one has all the words of the other
// and those are at least two.
func sameBut(a, b string) bool {
	split := func(s string) []string {
		return strings.FieldsFunc(s, func(r rune) bool { return r == '-' || r == '_' || r == ' ' })
	}
	x, y := split(a), split(b)
	if strings.Join(x, "") == strings.Join(y, "") {
		return true
	}
	if len(x) > len(y) {
		x, y = y, x
	}
	if len(x) < 2 {
		return false
	}
	for _, w := range x {
		if !slices.Contains(y, w) {
			return false
		}
	}
	return true
}

// didYouMean is the half-sentence that suggests the nearest candidate, or "".
func didYouMean(word string, candidates []string) string {
	if n := Nearest(word, candidates); n != "" {
		return "; did you mean “" + n + "”?"
	}
	return ""
}
