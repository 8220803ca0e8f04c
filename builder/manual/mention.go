package manual

import "slices"

// Mention is a name in a header or in the shop file as it is written there: of an article, or of what the shop file lists.
type Mention struct {
	Ref
	Key    string   // under which it stands
	Kinds  []Kind   // of the article that it may name
	Words  []string // words of the format that stand in the same place, and are not names then
	places []shopList
}

// Mentions goes through all names of headers and shop file, in the order of files and places in them. What a translation has from its original is
// mentioned in the original alone.
//
//	for mention := range m.Mentions {
func (m *Manual) Mentions(yield func(Mention) bool) {
	m.trace.everything()
	for i := range m.named {
		p := &m.named[i]
		if !yield(Mention{p.ref, p.key, p.kinds, p.words, p.shop}) {
			return
		}
	}
}

// Tank tells whether it may name a tank.
func (o Mention) Tank() bool { return slices.Contains(o.places, tankIDs) }

// Article tells whether it names an article.
func (o Mention) Article(m *Manual, a *Article) bool {
	return o.Name == a.Name && !slices.Contains(o.Words, o.Name) && slices.Contains(o.Kinds, a.Kind) && m.Named(a.Kind, a.Name) == a
}
