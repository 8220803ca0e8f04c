package page

import (
	"cmp"
	"time"

	"tankside/builder/changes"
	"tankside/builder/ledger"
)

// cardCodes gives the code of each card by the id of its tank, rinse or dryer. It is the same in every language.
func (s *site) cardCodes() (map[string]string, error) {
	list, err := s.kit().Cards()
	codes := make(map[string]string, len(list))
	for i := range list {
		codes[list[i].ID] = codeOfCard(&list[i])
	}
	return codes, err
}

// cardCode is what the page of a tank, a rinse or the dryer needs to tell whether a card is current.
type cardCode struct {
	Code    string
	Start   int    // of the sum of a code that holds for this place
	Letters string // of which codes are made
	Print   link   // the card, to be printed
	Stamps  []Stamp
}

// PrintedCodes gives the codes of what is printed of a manual, without an edition. No code depends on the day.
func PrintedCodes(in Input) (changes.Printed, error) {
	in.Day = cmp.Or(in.Day, time.Time{}.Format(time.DateOnly))
	s, err := newSite(in, func(string, []byte) error { return nil })
	if err != nil {
		return changes.Printed{}, err
	}
	return s.printed()
}

// cardOf gives it, or nil where there is no card.
func (s *site) cardOf(root, id string) (*cardCode, error) {
	if s.paper != nil {
		return nil, nil
	}
	codes, err := s.cards()
	if err != nil || codes[id] == "" {
		return nil, err
	}
	c := &cardCode{codes[id], ledger.CardStart(id), ledger.Letters, s.toPage(root, CardsPage+"#"+id, s.words.say("Print this card")), nil}
	if t := s.Manual.Shop.Tank(id); t != nil {
		if a := s.Manual.Named("chemistry", t.Chemistry.Name); a != nil {
			c.Stamps = s.control(a).Stamps
		}
	}
	return c, nil
}
