package markup

import (
	"strings"

	"tankside/builder/admit"
)

// Separator stands between the fields of requests and replies: U+001F, the unit separator, which nobody types.
const Separator = "\x1f"

// Pack writes a sheet for the reader's browser: the words of Phrases in their order, then the table. Unpack reads it.
func (s *Sheet) Pack() []byte {
	said := make([]string, len(Phrases))
	for i, p := range Phrases {
		said[i] = strings.ReplaceAll(s.say(p), Separator, " ")
	}
	return append([]byte(strings.Join(said, Separator)+Separator), s.Table.Pack()...)
}

// Unpack reads what Pack wrote. Anything else is admit.ErrDamaged.
func Unpack(data []byte) (*Sheet, error) {
	parts := strings.SplitN(string(data), Separator, len(Phrases)+1)
	if len(parts) != len(Phrases)+1 {
		return nil, admit.ErrDamaged
	}
	s := &Sheet{Words: map[string]string{}}
	for i, p := range Phrases {
		s.Words[p] = parts[i]
	}
	var err error
	s.Table, err = admit.Unpack([]byte(parts[len(Phrases)]))
	return s, err
}

// Reply answers a request from a page: soil, bath, then the materials. It gives the answer's HTML and what is read out.
func (s *Sheet) Reply(request string) string {
	fields := strings.Split(request, Separator)
	if len(fields) < 2 {
		fields = []string{"", ""}
	}
	q := admit.Question{Soil: fields[0], Bath: fields[1], Materials: fields[2:]}
	return s.Answer(q) + Separator + s.Spoken(q)
}
