package book

// blankSheets are sheets of one kind that are printed when they are needed: cards, logs, forms.
type blankSheets struct {
	Title, Says string
	Href        string // of their page in the edition; "" where that cannot be reached from the book
	Address     string // as somebody types it who has only paper
	Names       []string
}

// handouts lists the sheets that the edition has beside the book, with their addresses. They are not bound in: who fills one in takes a fresh one, with the values of
// the edition that holds.
func (b *book) handouts(c *chapter) (any, error) {
	var w words
	list, err := b.parts.Handouts()
	if err != nil {
		return nil, err
	}
	for _, h := range list {
		one := blankSheets{Title: h.Title, Says: h.Says, Href: relative(c.file, h.Path), Address: b.manual.Shop.Address + h.Path}
		if b.whole != "" { // which has no edition beside it
			one.Href = ""
			if b.manual.Shop.Address != "" {
				one.Href = one.Address
			}
		}
		if len(h.Names) > 1 {
			one.Names = h.Names
		}
		w.Sheets = append(w.Sheets, one)
	}
	return w, nil
}
