package markup

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/inboth"
	"tankside/builder/language"
	"tankside/builder/quantity"
)

// Separator stands between the fields of requests and replies: U+001F, the unit separator, which nobody types.
const Separator = "\x1f"

// Pack writes a sheet for the reader's browser: the words that its answers need, as package language packs them, then the table. Unpack
// reads it.
func (s *Sheet) Pack() []byte {
	said := language.Words{}
	need := func(phrase string) {
		if shown := s.say(phrase); shown != phrase {
			said[phrase] = shown
		}
	}
	for _, p := range Phrases {
		need(p)
	}
	s.Table.Phrases(need)
	return append([]byte(said.Pack()+end), s.Table.Pack()...)
}

// end stands behind the words of a packed sheet: U+0000, which no word has.
const end = "\x00"

// Unpack reads what Pack wrote. Anything else is admit.ErrDamaged.
func Unpack(data []byte) (*Sheet, error) {
	said, table, found := strings.Cut(string(data), end)
	if !found {
		return nil, admit.ErrDamaged
	}
	t, err := admit.Unpack([]byte(table))
	return &Sheet{Table: t, Words: language.Unpack(said)}, err
}

// Reply answers a request from a page: the family of units that the reader has chosen, soil, bath, then the materials. It gives the answer's
// HTML and what is read out. Behind the word "beside" a request asks for two baths beside each other: the way to the edition's root, a bath, another or the
// same, and what this would have: chemistry, strength, temperature, frequency, each empty where it stays; the reply is their table alone.
func (s *Sheet) Reply(request string) string {
	fields := strings.Split(request, Separator)
	if fields[0] == besides {
		return s.compare(fields[1:])
	}
	if len(fields) < 3 {
		fields = []string{"", "", ""}
	}
	units, chosen := quantity.SystemNamed(fields[0])
	if !chosen {
		units = s.systems()[0]
	}
	q := admit.Question{Soil: fields[1], Bath: fields[2], Materials: fields[3:]}
	return string(inboth.HTML([]byte(s.Answer(q)))) + Separator + inboth.Text(s.Spoken(q, units), units)
}
