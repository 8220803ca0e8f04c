package segment

import (
	"encoding/binary"
	"hash/crc32"
	"sort"
)

// canonical puts in order the one thing that zap writes in the order of a map,
// the (section, address) pairs of every field, in place, and renews the checksum.
func canonical(b []byte) error {
	foot, body, err := readFooter(b)
	if err != nil {
		return err
	}
	for _, p := range fieldPairs(body, foot) {
		sort.Sort(p)
	}
	sum := crc32.ChecksumIEEE(b[:len(b)-4])
	binary.BigEndian.PutUint32(b[len(b)-4:], sum)
	return nil
}

// fieldPairs finds the pairs of every field the way bleve finds them: the
// sections offset leads to a list of field addresses, each field is name,
// options, pairs.
func fieldPairs(body []byte, foot footer) []pairs {
	r := cursor{body, int(foot.sections)}
	all := make([]pairs, r.number())
	for i := range all {
		f := cursor{body, int(binary.BigEndian.Uint64(body[r.at:]))}
		r.at += 8
		f.bytes(f.number()) // name
		f.number()          // options
		all[i] = f.bytes(f.number() * pairSize)
	}
	return all
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
