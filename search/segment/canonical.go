package segment

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"slices"
	"sort"

	zap "github.com/blevesearch/zapx/v17"
)

// canonical puts in order what zap writes in the order of a map, all of it in
// place, and renews the checksum: the (section, address) pairs of every field,
// and the list of every thesaurus's synonyms with their numbers.
func canonical(b []byte) error {
	foot, body, err := readFooter(b)
	if err != nil {
		return err
	}
	for _, f := range fieldTable(body, foot) {
		sort.Sort(f.pairs)
		if at := f.pairs.address(zap.SectionSynonymIndex); at != 0 {
			if err := orderSynonyms(body, at); err != nil {
				return err
			}
		}
	}
	sum := crc32.ChecksumIEEE(b[:len(b)-4])
	binary.BigEndian.PutUint32(b[len(b)-4:], sum)
	return nil
}

// fieldEntry is what a segment says of one field.
type fieldEntry struct {
	name  string
	pairs pairs
}

// fieldTable finds the fields the way bleve finds them: the sections offset
// leads to a list of field addresses, each field is name, options, pairs.
func fieldTable(body []byte, foot footer) []fieldEntry {
	r := cursor{body, int(foot.sections)}
	table := make([]fieldEntry, r.number())
	for i := range table {
		f := cursor{body, int(binary.BigEndian.Uint64(body[r.at:]))}
		r.at += 8
		name := f.bytes(f.number())
		f.number() // options
		table[i] = fieldEntry{string(name), f.bytes(f.number() * pairSize)}
	}
	return table
}

// cursor reads zap's varints and runs of bytes.
type cursor struct {
	in []byte
	at int
}

func (c *cursor) number() int {
	n, size := binary.Uvarint(c.in[c.at:])
	c.at += size
	return int(n)
}

func (c *cursor) bytes(n int) []byte {
	c.at += n
	return c.in[c.at-n : c.at : c.at]
}

// pairs are records of a section's number (two bytes) and its address (eight);
// they sort by their bytes, in place.
type pairs []byte

const pairSize = 2 + 8

func (p pairs) record(i int) []byte { return p[i*pairSize : (i+1)*pairSize] }
func (p pairs) Len() int            { return len(p) / pairSize }
func (p pairs) Less(i, j int) bool  { return string(p.record(i)) < string(p.record(j)) }
func (p pairs) Swap(i, j int) {
	a, b := p.record(i), p.record(j)
	for k := range a {
		a[k], b[k] = b[k], a[k]
	}
}

// address is where a field's part of a section stands, 0 where it has none.
func (p pairs) address(section uint16) int {
	for i := range p.Len() {
		if r := p.record(i); binary.BigEndian.Uint16(r) == section {
			return int(binary.BigEndian.Uint64(r[2:]))
		}
	}
	return 0
}

// orderSynonyms sorts one thesaurus's list of numbered synonyms by number. At the
// address stand two numbers that say nothing here and the place of the
// thesaurus: its expressions (length, bytes), then how many synonyms, the
// length of their list, and the list of number, length, synonym.
func orderSynonyms(body []byte, at int) error {
	head := cursor{body, at}
	head.number()
	head.number()
	r := cursor{body, head.number()}
	r.bytes(r.number())
	type numbered struct {
		number int
		entry  []byte
	}
	all := make([]numbered, r.number())
	list := r.bytes(r.number())
	entries := cursor{slices.Clone(list), 0}
	for i := range all {
		from := entries.at
		all[i].number = entries.number()
		entries.bytes(entries.number())
		all[i].entry = entries.in[from:entries.at]
	}
	if entries.at != len(list) {
		return fmt.Errorf("a thesaurus's list of synonyms is %d bytes long, of which %d are read", len(list), entries.at)
	}
	slices.SortFunc(all, func(a, b numbered) int { return a.number - b.number })
	list = list[:0]
	for _, one := range all {
		list = append(list, one.entry...)
	}
	return nil
}
