package page

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"io"

	"tankside/builder/changes"
	"tankside/builder/handout"
	"tankside/builder/manual"
	"tankside/builder/sums"
	"tankside/calculators/markup"
)

// sheetCodes gives codes of what the process sheets of the parts say in print, and of what lessons print that stands elsewhere in the manual, by the paths of their articles. A
// translation has a code of its own, of the sheet in its language; what is printed in a language without one is told with the original.
func (s *site) sheetCodes() (map[string]string, error) {
	said := map[string]hash.Hash{}
	of := func(a *manual.Article) hash.Hash {
		if said[a.Path] == nil {
			said[a.Path] = sha256.New()
		}
		return said[a.Path]
	}
	for _, one := range s.all {
		sheets, err := one.kit().ProcessSheets()
		if err != nil {
			return nil, err
		}
		for i := range sheets {
			a := one.local(sheets[i].Of)
			one.sayOn(of(a), &sheets[i], a)
		}
		for _, lesson := range s.Manual.Articles {
			if lesson.Kind != manual.Lesson {
				continue
			}
			a := one.local(lesson)
			if err := one.sayBeside(of(a), a); err != nil {
				return nil, err
			}
		}
	}
	codes := make(map[string]string, len(said))
	for path, h := range said {
		codes[path] = hex.EncodeToString(h.Sum(nil)[:8])
	}
	return codes, nil
}

// sayOn writes what a process sheet says in print: all but the edition, and what depends on the day. Who answers for it, until when, and under which revision is
// a part of it, since an auditor compares that.
func (s *site) sayOn(w io.Writer, of *handout.Sheet, a *manual.Article) {
	fmt.Fprintf(w, "%q %q %q\n", of.Name, of.Kind, of.Holds)
	for i := range of.Sides {
		for j := range of.Sides[i].Blocks {
			b := &of.Sides[i].Blocks[j]
			fmt.Fprintf(w, "%s %q %q %q %q\n", b.Sort, b.Head, b.Mark, b.Text, b.Class)
			for _, r := range b.Rows {
				fmt.Fprintf(w, "%q %q %q\n", r.Name, r.Value, r.Cells)
			}
			for _, c := range b.Columns {
				fmt.Fprintf(w, "%q %q\n", c.Head, c.Limit)
			}
		}
	}
	c := s.control(a)
	fmt.Fprintf(w, "%q %q %q %q %q\n", c.Revision, c.Approved, c.Name, c.Role, c.ReviewBy)
}

// sayBeside writes what a lesson prints that is not in its own words: the answers of its calculators, which the shop file fills, and its pictures.
func (s *site) sayBeside(w io.Writer, a *manual.Article) error {
	for _, sum := range a.Sums {
		values, err := sums.Values(s.Manual, sum.Calculator, sums.Given(sum.Inputs))
		if err != nil {
			return err
		}
		answer, err := markup.OnPaper(s.sums, "sum", sum.Calculator, values, s.system)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "%q\n", answer)
	}
	for _, picture := range a.Pictures {
		if to, wrong := s.Manual.Resolve(a, picture.Target); wrong == nil && to.Picture != nil {
			fmt.Fprintf(w, "%x\n", sha256.Sum256(to.Picture.Data))
		}
	}
	return nil
}

// printed gives the codes of what is printed of the edition; a preview is none, and of what contradicts itself none can be made.
func (s *site) printed() (changes.Printed, error) {
	if s.Preview != nil {
		return changes.Printed{}, nil
	}
	cards, err := s.cards()
	if err != nil {
		return changes.Printed{}, err
	}
	sheets, err := s.prints()
	return changes.Printed{Cards: cards, Sheets: sheets}, err
}
