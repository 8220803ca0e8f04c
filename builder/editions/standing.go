package editions

import (
	"context"
	"fmt"
	"strconv"

	"tankside/builder/edition"
)

// compareShops says of every edition whose list could be read how it stands to the others of its shop, by the numbers and codes of the ledger.
func compareShops(list []One) {
	shops := map[string][]*One{}
	for i := range list {
		if o := &list[i]; o.State == Whole || o.State == Damaged {
			shops[o.Shop] = append(shops[o.Shop], o)
		}
	}
	for _, of := range shops {
		compareShop(of)
	}
}

func compareShop(of []*One) {
	newest := of[0]
	codes := map[int]map[string]bool{} // of each number
	numbers := map[string]int{}        // of each code
	for _, o := range of {
		if o.Edition > newest.Edition {
			newest = o
		}
		if o.Edition > 0 {
			if codes[o.Edition] == nil {
				codes[o.Edition] = map[string]bool{}
			}
			codes[o.Edition][o.Code] = true
			numbers[o.Code] = max(numbers[o.Code], o.Edition)
		}
	}
	for _, o := range of {
		number := o.Edition
		if number == 0 && o.Code != "" && !o.Draft {
			number = numbers[o.Code] // the same content, published before it was entered
		}
		switch {
		case len(of) == 1:
			o.Why = "it is the only edition of this shop here"
		case newest.Edition == 0 && alike(of):
			o.Standing, o.Why = Newest, "all of this shop are the same"
		case newest.Edition == 0:
			o.Why = "none of this shop is entered in its ledger"
		case number > 0 && number < newest.Edition:
			o.Standing, o.Why = Behind, fmt.Sprintf("edition %d is in %s", newest.Edition, newest.Path)
		case number > 0 && len(codes[number]) > 1:
			o.Standing, o.Why = Apart, fmt.Sprintf("another edition of this shop is number %d too, with another code", number)
		case number > 0:
			o.Standing = Newest
		case o.After < newest.Edition && !o.Draft:
			o.Standing, o.Why = Behind, fmt.Sprintf("not entered, made before edition %d was, which is in %s", newest.Edition, newest.Path)
		default:
			o.Why = "it is not entered in the ledger"
		}
	}
}

// alike tells whether all have one code.
func alike(of []*One) bool {
	for _, o := range of {
		if o.Code == "" || o.Code != of[0].Code {
			return false
		}
	}
	return true
}

// Base is the edition that others are compared with.
type Base struct {
	list *edition.List
	at   map[string]edition.Article // by path
}

// OpenBase reads a base, a folder or a file, which has to be whole.
func OpenBase(ctx context.Context, at string) (*Base, error) {
	l, r, _, err := read(ctx, at)
	if err != nil {
		return nil, err
	}
	if !r.OK {
		return nil, fmt.Errorf("the base %q is not as it was published: %d damaged, %d missing, %d not of it. Nothing was compared with it", at, len(r.Damaged), len(r.Missing), len(r.Extra))
	}
	b := &Base{list: l, at: map[string]edition.Article{}}
	for _, a := range l.Articles {
		b.at[a.Path] = a
	}
	return b, nil
}

// String names the base's edition.
func (b *Base) String() string { return b.list.Mark.String() }

// compare says how an edition stands to the base: by code, by number where both are of one shop, else by the revisions of the articles that the base has.
func (b *Base) compare(o *One) {
	if o.State != Whole && o.State != Damaged {
		return
	}
	if o.Base != nil && o.Base.Shop == b.list.Shop {
		if standing, why := over(o.Base.Mark, b.list.Mark); standing != NotCompared {
			o.Standing, o.Why = standing, why
			return
		}
	}
	switch of := b.list; {
	case o.Code != "" && o.Code == of.Code && o.Shop == of.Shop:
		o.Standing, o.Why = Newest, "it is the base's edition"
		return
	case o.Shop == of.Shop && o.Edition > 0 && o.Edition < of.Edition:
		o.Standing, o.Why = Behind, fmt.Sprintf("the base is edition %d", of.Edition)
		return
	case o.Shop == of.Shop && o.Edition > 0 && o.Edition == of.Edition:
		o.Standing, o.Why = Apart, fmt.Sprintf("the base is number %d too, with another code", of.Edition)
		return
	case o.Shop == of.Shop && of.Edition > 0 && o.Edition > of.Edition:
		o.Standing, o.Why = Newest, fmt.Sprintf("it is newer than the base, edition %d", of.Edition)
		return
	}
	b.compareArticles(o)
}

// over says how an edition that was made over one edition of a base stands to another edition of that base, by their codes and numbers.
func over(made, base edition.Mark) (Standing, string) {
	switch {
	case made.Code == base.Code:
		return Newest, "it was made over this edition of the base"
	case made.Edition > 0 && made.Edition < base.Edition:
		return Behind, fmt.Sprintf("it was made over edition %d of the base, which is at edition %d", made.Edition, base.Edition)
	case made.Edition > 0 && made.Edition == base.Edition:
		return Apart, fmt.Sprintf("it was made over another edition %d of the base, with another code", made.Edition)
	case base.Edition > 0 && made.Edition > base.Edition:
		return Newest, fmt.Sprintf("it was made over edition %d of the base, which is newer", made.Edition)
	case made.Edition == 0 && made.After < base.Edition:
		return Behind, fmt.Sprintf("it was made over the base before edition %d of that was entered", base.Edition)
	}
	return NotCompared, "it was made over a base that is not entered in the base's ledger"
}

// compareBases says of editions that were made over a base, and of which nothing graver is known, whether others here were made over a later edition of it.
func compareBases(list []One) {
	newest := map[string]edition.Mark{}
	for i := range list {
		if b := list[i].Base; b != nil && (newest[b.Shop].Code == "" || b.Edition > newest[b.Shop].Edition) {
			newest[b.Shop] = b.Mark
		}
	}
	for i := range list {
		o := &list[i]
		if o.Base == nil || o.Standing == Behind || o.Standing == Apart || o.Base.Code == newest[o.Base.Shop].Code {
			continue
		}
		if standing, why := over(o.Base.Mark, newest[o.Base.Shop]); standing != Newest {
			o.Standing, o.Why = standing, why
		}
	}
}

func (b *Base) compareArticles(o *One) {
	older, other, same := 0, 0, 0
	for _, a := range o.articles {
		base, is := b.at[a.Path]
		switch {
		case !is:
		case a.Content != "" && a.Content == base.Content:
			same++
		case earlier(a.Revision, base.Revision):
			older++
		default:
			other++
		}
	}
	lacking := len(b.at) - older - other - same
	told := fmt.Sprintf("of the base's %d articles %d are the same, %d of an earlier revision, %d otherwise, %d not there", len(b.at), same, older, other, lacking)
	switch {
	case older > 0:
		o.Standing, o.Why = Behind, told
	case same == len(b.at):
		o.Standing, o.Why = Newest, "it has every article of the base as it stands there"
	default:
		o.Why = told
	}
}

// earlier tells whether one revision comes before another: both numbers, or both letters of one case, as document control counts them (9 → 10, Z → AA).
func earlier(a, b string) bool {
	m, err := strconv.ParseUint(a, 10, 32)
	n, err2 := strconv.ParseUint(b, 10, 32)
	if err == nil && err2 == nil {
		return m < n
	}
	if !letters(a) || !letters(b) || (a[0] >= 'a') != (b[0] >= 'a') {
		return false
	}
	return len(a) < len(b) || len(a) == len(b) && a < b
}

// letters tells whether a revision is one to three letters of one case.
func letters(r string) bool {
	upper, lower := 0, 0
	for _, c := range r {
		switch {
		case c >= 'A' && c <= 'Z':
			upper++
		case c >= 'a' && c <= 'z':
			lower++
		default:
			return false
		}
	}
	return len(r) > 0 && len(r) <= 3 && (upper == 0 || lower == 0)
}
