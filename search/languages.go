package search

import (
	"bytes"
	"cmp"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"maps"
	"slices"
	"strings"
)

// A manual in several languages has an index of its own for each: no word of
// one language counts in another, so that a translation changes nothing for who
// asks in the language of the original. The blob of such a manual is magic, the
// length of a list (4 bytes), its checksum (4), the list of tags and lengths, and
// the blobs in their order.
const severalMagic = "tankside find, several\n"

// part is the index of one language.
type part struct {
	tag  string
	blob []byte
}

// byLanguage parts documents and synonyms by their languages, the one with the
// most documents first.
func byLanguage(docs []Document, synonyms []Synonym) (tags []string, docsIn map[string][]Document, synonymsIn map[string][]Synonym) {
	docsIn, synonymsIn = map[string][]Document{}, map[string][]Synonym{}
	for _, d := range docs {
		tag := cmp.Or(d.Language, englishTag)
		docsIn[tag] = append(docsIn[tag], d)
	}
	for _, s := range synonyms {
		tag := cmp.Or(s.Language, englishTag)
		synonymsIn[tag] = append(synonymsIn[tag], s)
	}
	if len(docs) == 0 {
		return []string{englishTag}, docsIn, synonymsIn
	}
	tags = slices.SortedFunc(maps.Keys(docsIn), func(a, b string) int {
		return cmp.Or(cmp.Compare(len(docsIn[b]), len(docsIn[a])), strings.Compare(a, b))
	})
	return tags, docsIn, synonymsIn
}

// bind makes one blob of the indices. English alone is its own.
func bind(parts []part) []byte {
	if len(parts) == 1 && parts[0].tag == englishTag {
		return parts[0].blob
	}
	var head packer
	for _, p := range parts {
		head.string(p.tag)
		head.number(len(p.blob))
	}
	out := binary.BigEndian.AppendUint32([]byte(severalMagic), uint32(len(head.out)))
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head.out))
	out = append(out, head.out...)
	for _, p := range parts {
		out = append(out, p.blob...)
	}
	return out
}

// unbind takes the blob apart.
func unbind(blob []byte) ([]part, error) {
	rest, several := bytes.CutPrefix(blob, []byte(severalMagic))
	if !several {
		return []part{{englishTag, blob}}, nil
	}
	if len(rest) < 8 || uint64(binary.BigEndian.Uint32(rest)) > uint64(len(rest)-8) {
		return nil, fmt.Errorf("%w: it is cut short", ErrDamaged)
	}
	length, sum := binary.BigEndian.Uint32(rest), binary.BigEndian.Uint32(rest[4:])
	head, rest := rest[8:8+length], rest[8+length:]
	if crc32.ChecksumIEEE(head) != sum {
		return nil, fmt.Errorf("%w: its checksum does not match", ErrDamaged)
	}
	var parts []part
	for u := (unpacker{in: string(head)}); u.in != ""; {
		tag, n := u.string(), u.number()
		if u.broken || n > len(rest) {
			return nil, fmt.Errorf("%w: it is cut short", ErrDamaged)
		}
		parts = append(parts, part{tag, rest[:n]})
		rest = rest[n:]
	}
	if len(parts) == 0 || len(rest) > 0 {
		return nil, fmt.Errorf("%w: it does not hold what it says", ErrDamaged)
	}
	return parts, nil
}

// openAll opens the indices of blobs; the Finder is that of the first.
func openAll(blobs [][]byte) (*Finder, error) {
	tables, all, err := gather(blobs)
	if err != nil {
		return nil, err
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("%w: there is none", ErrDamaged)
	}
	var first *Finder
	for i, p := range all {
		f, err := openOne(tables[i], p)
		if err != nil {
			if first != nil {
				err = errors.Join(err, first.Close())
			}
			return nil, err
		}
		if first == nil {
			first = f
		} else {
			first.others = append(first.others, f)
		}
	}
	return first, nil
}

// How much of a word of the question a language knows.
const (
	knowsWord      = 1
	knowsBeginning = 0.75 // of the last word, while it is typed
	knowsError     = 0.5  // the word is a typing error away
)

// knowing is how much of a question a language knows: for sure, and with the words
// that may be typing errors of its own, which take long to look for.
type knowing struct {
	*Finder
	share, most float64
}

// knows says which share of a question's words the language of f knows; with
// care it looks for typing errors as well, and share and most are the same.
func (f *Finder) knows(asked string, care bool) (knowing, error) {
	w := f.spare.Get().(*work)
	defer f.spare.Put(w)
	asked = shorten(asked)
	sum, open, n := 0.0, 0.0, 0
	for _, t := range w.withLittle(asked, nil) {
		if t.extra || isLittle(t.term) && !w.stop[t.term[len(littleMark):]] {
			continue
		}
		if n++; n > mostWords {
			break
		}
		known, err := f.known(word{token: t}, w)
		switch {
		case err != nil:
			return knowing{}, err
		case known: // as it does its own little words
			sum += knowsWord
		case t.end == len(asked) && len(t.word) >= shortestPrefix && len(f.lexicon.beginning(t.word, 1)) > 0:
			sum += knowsBeginning
		case allowed(t.word) == 0:
		case !care:
			open += knowsError
		case len(f.lexicon.nearest(t.word, allowed(t.word), 1)) > 0:
			sum += knowsError
		}
	}
	all := float64(max(n, 1))
	return knowing{f, sum / all, (sum + open) / all}, nil
}

// inOrder gives the finders, the one whose language knows most of the question
// first. Where two know the same, the reader's language comes first.
func (f *Finder) inOrder(asked Question) ([]*Finder, error) {
	for _, care := range [...]bool{false, true} {
		var all []knowing
		for _, one := range append([]*Finder{f}, f.others...) {
			k, err := one.knows(asked.Words, care)
			if err != nil {
				return nil, err
			}
			if strings.EqualFold(one.tag, asked.Language) {
				all = slices.Insert(all, 0, k)
			} else {
				all = append(all, k)
			}
		}
		slices.SortStableFunc(all, func(a, b knowing) int { return cmp.Compare(b.share, a.share) })
		unsure := slices.ContainsFunc(all[1:], func(k knowing) bool { return k.most >= all[0].share && k.most > k.share })
		if care || !unsure {
			order := make([]*Finder, len(all))
			for i, k := range all {
				order[i] = k.Finder
			}
			return order, nil
		}
	}
	panic("care is always enough")
}

// askAll answers in the language that knows most of the question, or in the
// next where that has nothing.
func (f *Finder) askAll(ctx context.Context, asked Question) (Answer, error) {
	order, err := f.inOrder(asked)
	if err != nil {
		return Answer{}, err
	}
	var first Answer
	for i, one := range order {
		a, err := one.ask(ctx, asked)
		if err != nil {
			return Answer{}, err
		}
		for h := range a.Hits {
			a.Hits[h].Language = one.tag
			f.translate(&a.Hits[h], asked.Language)
		}
		if a.Total > 0 {
			return a, nil
		}
		if i == 0 {
			first = a
		}
	}
	return first, nil
}

// translate leads a hit to the head of the same article in the language that the reader has chosen, where there is one: who reads a translation is not
// led out of it by a foreign word. On a page in the manual's own language the words decide, since nobody has chosen that. Which of its sections
// corresponds is not known.
func (f *Finder) translate(h *Hit, reader string) {
	if strings.EqualFold(reader, f.tag) || strings.EqualFold(reader, h.Language) {
		return
	}
	for _, own := range f.others {
		if !strings.EqualFold(own.tag, reader) {
			continue
		}
		a := own.original(original(page(h.Path), h.Language))
		if a < 0 {
			return
		}
		head := own.sections[own.articles[a].first]
		h.Path, h.Title, h.Section, h.Language = own.articles[a].page+head.anchor, own.articles[a].title, head.heading, own.tag
		h.Snippet = snippet(head.text, &marks{}, newReader(languageOf(own.tag)))
	}
}

// original is the page that one in a language is the translation of: its tag before the ending.
func original(page, tag string) string {
	if own, is := strings.CutSuffix(page, "."+strings.ToLower(tag)+".html"); is {
		return own + ".html"
	}
	return page
}

// original gives the article that is the translation of a page, or stands on that page itself; -1 where none is, or several are.
func (t *table) original(page string) int {
	found := -1
	for i := range t.articles {
		if original(t.articles[i].page, t.tag) != page {
			continue
		}
		if found >= 0 {
			return -1
		}
		found = i
	}
	return found
}
