package sentence

import "reflect"

// Set makes a set of the words of a text. It is for variables of a package, made before anything is read: of each sentence is noted which of these sets it
// has a word of, so that [Sentence.Has] need not look each word up again. The rules ask some three hundred thousand times in a proof.
func Set(words string) map[string]bool {
	m := set(words)
	n := len(numbered)
	numbered[reflect.ValueOf(m).Pointer()] = numberedSet{n, m}
	for w := range m {
		setsWith[w] = append(setsWith[w], n)
	}
	return m
}

// numberedSet is a set that was made by Set. It is kept, so that no other map comes to stand where it stands.
type numberedSet struct {
	number int
	words  map[string]bool
}

var (
	numbered = map[uintptr]numberedSet{} // by where they stand in memory: maps cannot be compared otherwise
	setsWith = map[string][]int{}        // the numbers of those that have a word
)

// bits are numbers of sets.
type bits []uint64

func (b bits) has(n int) bool { return b[n/64]&(1<<(n%64)) != 0 }

// noteSets notes which sets the sentence has a word of.
func (s *Sentence) noteSets() {
	s.sets, s.setsMade = make(bits, (len(numbered)+63)/64), len(numbered)
	for i := range s.tokens {
		for _, n := range setsWith[s.tokens[i].text] {
			s.sets[n/64] |= 1 << (n % 64)
		}
	}
}

// Has tells whether one of the words stands in the sentence.
func (s *Sentence) Has(words map[string]bool) bool {
	if set, known := numbered[reflect.ValueOf(words).Pointer()]; known && set.number < s.setsMade {
		return s.sets.has(set.number)
	}
	return anyIn(s.tokens, words)
}

// ClauseHas tells whether one of the words stands in a clause.
func (s *Sentence) ClauseHas(clause int, words map[string]bool) bool {
	if set, known := numbered[reflect.ValueOf(words).Pointer()]; known && set.number < s.setsMade && !s.sets.has(set.number) {
		return false
	}
	c := &s.Clauses[clause]
	return anyIn(s.tokens[c.from:c.to], words)
}

func anyIn(tokens []token, words map[string]bool) bool {
	for i := range tokens {
		if words[tokens[i].text] {
			return true
		}
	}
	return false
}
