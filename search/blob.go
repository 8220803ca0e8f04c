package search

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"strings"
	"unsafe"
)

// Errors of [Open].
var (
	ErrDamaged = errors.New("the search index is damaged")
	ErrVersion = errors.New("the search index is of another version of this program")
)

// The blob: magic, version (4 bytes), lengths of the table (4) and of the
// thesaurus (4), checksum of all this and the table (4), the table, the
// segments of the thesaurus and of the texts, which have checksums of their
// own. Numbers outside the table are big-endian, within it varints.
const (
	magic      = "tankside find\n"
	version    = 4
	headerSize = len(magic) + 16
)

// table is what the blob holds beside the segment, in memory.
type table struct {
	tag      string // of its language; stands outside the blob
	articles []article
	sections []section // in the order of the segment's documents
	lexicon  lexicon
	lengths  [len(fieldNames)]float64 // mean words per field, over the sections that have it
	having   [len(fieldNames)]int     // how many sections have the field
	longest  int                      // most words of an expression that leads to others

	expressions []string // in the order of the thesaurus's documents
}

type article struct {
	page, title, kind, station string
	also                       []string
	first, end                 int // its sections
}

type section struct {
	article         int
	anchor, heading string
	question        bool
	text            string
}

// packer and unpacker agree on the order below; strings are cut out of one.
type packer struct{ out []byte }

func (p *packer) number(n int)    { p.out = binary.AppendUvarint(p.out, uint64(n)) }
func (p *packer) string(s string) { p.number(len(s)); p.out = append(p.out, s...) }

func (p *packer) strings(all []string) {
	p.number(len(all))
	for _, s := range all {
		p.string(s)
	}
}

type unpacker struct {
	in     string
	broken bool
}

func (u *unpacker) number() int {
	var n uint64
	for i := 0; i < len(u.in) && i < binary.MaxVarintLen32; i++ {
		n |= uint64(u.in[i]&0x7f) << (7 * i)
		if u.in[i] < 0x80 {
			u.in = u.in[i+1:]
			return int(n)
		}
	}
	u.broken = true
	return 0
}

// count reads the number of things to come, each of which takes a byte or more.
func (u *unpacker) count() int {
	n := u.number()
	if n > len(u.in) {
		u.broken = true
		return 0
	}
	return n
}

func (u *unpacker) string() string {
	n := u.count()
	s := u.in[:n]
	u.in = u.in[n:]
	return s
}

func (u *unpacker) strings() []string {
	all := make([]string, u.count())
	for i := range all {
		all[i] = u.string()
	}
	return all
}

// pack writes the table. The texts come last, next to each other, so that they
// compress well.
func (t *table) pack(p *packer) {
	p.number(len(t.articles))
	for _, a := range t.articles {
		p.string(a.page)
		p.string(a.title)
		p.string(a.kind)
		p.string(a.station)
		p.strings(a.also)
		p.number(a.end - a.first)
	}
	for _, s := range t.sections {
		question := 0
		if s.question {
			question = 1
		}
		p.number(question)
		p.string(s.anchor)
		p.string(s.heading)
	}
	p.number(t.longest)
	p.strings(t.expressions)
	for i, mean := range t.lengths {
		p.number(int(mean * lengthScale))
		p.number(t.having[i])
	}
	p.number(len(t.lexicon))
	before := ""
	for _, e := range t.lexicon {
		same := 0
		for same < len(before) && same < len(e.word) && before[same] == e.word[same] {
			same++
		}
		p.number(same)
		p.string(e.word[same:])
		p.number(e.documents)
		before = e.word
	}
	for _, s := range t.sections {
		p.string(s.text)
	}
}

// lengthScale keeps three decimals of a mean length.
const lengthScale = 1000

func unpack(packed string) (*table, error) {
	u := unpacker{in: packed}
	t := &table{articles: make([]article, u.count())}
	total := 0
	for i := range t.articles {
		a := article{page: u.string(), title: u.string(), kind: u.string(), station: u.string(), also: u.strings()}
		a.first = total
		total += u.count()
		a.end = total
		t.articles[i] = a
		if total > len(packed) {
			u.broken = true
		}
		if u.broken {
			return nil, ErrDamaged
		}
	}
	t.sections = make([]section, total)
	for i, a := range t.articles {
		for j := a.first; j < a.end; j++ {
			t.sections[j] = section{article: i, question: u.number() == 1, anchor: u.string(), heading: u.string()}
		}
	}
	t.longest = u.number()
	t.expressions = u.strings()
	for i := range t.lengths {
		t.lengths[i] = float64(u.number()) / lengthScale
		t.having[i] = u.number()
	}
	t.lexicon = make(lexicon, u.count())
	before := ""
	for i := range t.lexicon {
		same := u.number()
		if same > len(before) {
			return nil, ErrDamaged
		}
		word := before[:same] + u.string()
		t.lexicon[i] = entry{word: word, documents: u.number()}
		before = word
	}
	for i := range t.sections {
		t.sections[i].text = u.string()
	}
	if u.broken || u.in != "" {
		return nil, ErrDamaged
	}
	return t, nil
}

// seal joins table and segments into the blob, in one piece of memory.
func seal(t *table, thesaurus, segment []byte) []byte {
	size := headerSize + len(thesaurus) + len(segment) + 64*(len(t.articles)+len(t.sections)+len(t.lexicon))
	for _, s := range t.sections {
		size += len(s.text)
	}
	p := packer{append(make([]byte, 0, size), magic...)}
	p.out = binary.BigEndian.AppendUint32(p.out, version)
	p.out = append(p.out, make([]byte, 12)...)
	t.pack(&p)
	head, body := p.out[:headerSize], p.out[headerSize:]
	binary.BigEndian.PutUint32(head[headerSize-12:], uint32(len(body)))
	binary.BigEndian.PutUint32(head[headerSize-8:], uint32(len(thesaurus)))
	binary.BigEndian.PutUint32(head[headerSize-4:], checksum(head, body))
	return append(append(p.out, thesaurus...), segment...)
}

// checksum is over the header up to the checksum, and the table.
func checksum(head, body []byte) uint32 {
	return crc32.Update(crc32.ChecksumIEEE(head[:headerSize-4]), crc32.IEEETable, body)
}

// unseal checks the blob as far as the table and parts it.
func unseal(blob []byte) (packed string, thesaurus, segment []byte, err error) {
	if len(blob) < headerSize || !strings.HasPrefix(string(blob[:len(magic)]), magic) {
		return "", nil, nil, fmt.Errorf("%w: it does not begin as one", ErrDamaged)
	}
	if v := binary.BigEndian.Uint32(blob[len(magic):]); v != version {
		return "", nil, nil, fmt.Errorf("%w: version %d, wanted %d", ErrVersion, v, version)
	}
	rest := blob[headerSize:]
	length := uint64(binary.BigEndian.Uint32(blob[headerSize-12:]))
	synonyms := uint64(binary.BigEndian.Uint32(blob[headerSize-8:]))
	if length+synonyms > uint64(len(rest)) {
		return "", nil, nil, fmt.Errorf("%w: it is cut short", ErrDamaged)
	}
	body, rest := rest[:length], rest[length:]
	if checksum(blob[:headerSize], body) != binary.BigEndian.Uint32(blob[headerSize-4:]) {
		return "", nil, nil, fmt.Errorf("%w: its checksum does not match", ErrDamaged)
	}
	// The texts are most of the blob; a copy would double the memory it takes.
	return unsafe.String(unsafe.SliceData(body), len(body)), rest[:synonyms], rest[synonyms:], nil
}
