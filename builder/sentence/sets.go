package sentence

import (
	"reflect"
	"sync"
)

// Set makes a set of the words of a text. It is for variables of a package, made before anything is read: of each sentence is noted which of these sets it
// has a word of, so that [Sentence.Has] need not look each word up again. The rules ask some three hundred thousand times in a proof.
func Set(words string) map[string]bool {
	m := set(words)
	numbered[reflect.ValueOf(m).Pointer()] = numberedSet{len(numbered), m}
	return m
}

// numberedSet is a set that was made by Set. It is kept, so that no other map comes to stand where it stands.
type numberedSet struct {
	number int
	words  map[string]bool
}

// numbered are those sets by where they stand in memory: maps cannot be compared otherwise.
var numbered = make(map[uintptr]numberedSet, 1<<10)

// known is what is known of a word: of which kinds it is, and the numbers of the sets that have it.
type known struct {
	kinds wordKind
	sets  []uint16
}

// vocabulary is what is known of words when the first sentence is read.
type vocabulary struct {
	words map[string]*known
	sets  int // how many there were
}

var knownWords = sync.OnceValue(func() vocabulary {
	v := vocabulary{make(map[string]*known, 8*len(numbered)), len(numbered)}
	for word, kinds := range wordKinds {
		v.words[word] = &known{kinds: kinds}
	}
	for _, set := range numbered {
		for word := range set.words {
			k := v.words[word]
			if k == nil {
				k = &known{}
				v.words[word] = k
			}
			k.sets = append(k.sets, uint16(set.number))
		}
	}
	return v
})

// bits are numbers of sets.
type bits []uint64

func (b bits) has(n int) bool { return b[n/64]&(1<<(n%64)) != 0 }

// noteSets notes which sets the sentence has a word of.
func (s *Sentence) noteSets() {
	vocabulary := knownWords()
	s.sets = make(bits, (vocabulary.sets+63)/64)
	for i := range s.tokens {
		t := &s.tokens[i]
		if !t.lookedUp {
			t.known = vocabulary.words[t.text]
		}
		if t.known == nil {
			continue
		}
		for _, n := range t.known.sets {
			s.sets[n/64] |= 1 << (n % 64)
		}
	}
}

// noted gives the number of a set, and whether the sentence knows of it.
func (s *Sentence) noted(words map[string]bool) (int, bool) {
	set, known := numbered[reflect.ValueOf(words).Pointer()]
	return set.number, known && s.sets != nil && set.number < knownWords().sets
}

// Has tells whether one of the words stands in the sentence.
func (s *Sentence) Has(words map[string]bool) bool {
	if n, noted := s.noted(words); noted {
		return s.sets.has(n)
	}
	return anyIn(s.tokens, words)
}

// ClauseHas tells whether one of the words stands in a clause.
func (s *Sentence) ClauseHas(clause int, words map[string]bool) bool {
	if n, noted := s.noted(words); noted && !s.sets.has(n) {
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
