package page

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"html/template"
	"maps"
	"slices"
	"sync"

	"tankside/builder/language"
	"tankside/builder/manual"
)

// Memo keeps of one edition what the next need not make again: the common assets, words and templates, and which of the manual's articles each
// article's page was made of. What it keeps is right only if that edition was put in place; whoever publishes forgets it otherwise.
// The zero value keeps nothing yet.
type Memo struct {
	look   string            // digest of the theme
	speech map[string]speech // by language, of that theme

	dressed string // look, and what the shop file and the pictures add to it
	common  *assets

	under string // look, and everything of the manual but its articles

	edition string // what pages show of its mark, and the day
	mu      sync.Mutex
	pages   map[string]made // by path
}

// speech is what the words of a language are made into.
type speech struct {
	words  words
	sums   language.Words
	sheets map[string]*template.Template
}

// made is what the page of an article was made of.
type made struct {
	of    *manual.Article
	used  []*manual.Article // those that speak of it
	trace *manual.Trace
}

// begin makes the memo ready for an edition. What of it would be made otherwise is forgotten.
func (k *Memo) begin(in Input) {
	if k.look != in.Look || k.speech == nil {
		k.look, k.speech = in.Look, map[string]speech{}
	}
	if dressed := dressOf(in); k.dressed != dressed {
		k.dressed, k.common = dressed, nil
	}
	if under := in.Look + " " + in.Manual.Rest(); k.under != under {
		k.under, k.pages = under, nil
	}
	if edition := fmt.Sprint(shownOf(in.Mark), " ", in.Day); k.edition != edition || k.pages == nil {
		k.edition, k.pages = edition, map[string]made{}
	}
	for path, p := range k.pages {
		if in.Manual.At(p.of.Path) != p.of {
			delete(k.pages, path)
		}
	}
}

// dressOf is what the assets that pages share are made of: the theme, what the shop file chooses over it, and the pictures.
func dressOf(in Input) string {
	look, h := in.Manual.Shop.Look, sha256.New()
	fmt.Fprintf(h, "%q %q %q %q %q\n", in.Look, look.Theme, look.Type, look.Accent, look.Mark)
	for _, p := range in.Manual.Pictures {
		fmt.Fprintf(h, "%q %x\n", p.Path, sha256.Sum256(p.Data))
	}
	return hex.EncodeToString(h.Sum(nil))
}

// holds tells whether the page of an article would be made as before.
func (k *Memo) holds(s *site, path string, a *manual.Article) bool {
	k.mu.Lock()
	p, known := k.pages[path]
	k.mu.Unlock()
	return known && p.of == a && slices.Equal(p.used, s.used[original(a)]) && p.trace.Holds(s.Manual)
}

// remembered makes the job of an article's page: the page is kept where it would be made as before.
func (s *site) remembered(base string, a *manual.Article, page func(*site) job) job {
	anew := page(s)
	if s.Memo == nil {
		return anew
	}
	path := anew.path
	return job{base: base, path: path, sheet: anew.sheet, fill: anew.fill, render: func(add Sink) error {
		if s.Memo.holds(s, path, a) {
			if kept, err := s.Keep(path); kept || err != nil {
				return err
			}
		}
		p := made{of: a, used: s.used[original(a)], trace: &manual.Trace{}}
		traced := *s
		traced.Manual = s.Manual.Tracing(p.trace)
		if err := page(&traced).render(add); err != nil {
			return err
		}
		s.Memo.mu.Lock()
		defer s.Memo.mu.Unlock()
		s.Memo.pages[path] = p
		return nil
	}}
}

// commonAssets gives the assets that follow from theme, pictures and program alone.
func commonAssets(in Input, add Sink) (*assets, error) {
	if in.Memo != nil && in.Memo.common != nil {
		a := in.Memo.common.again(in, add)
		if kept, err := a.keepAll(); kept || err != nil {
			return a, err
		}
	}
	a := &assets{keep: in.Keep, scripts: map[string]string{}, pics: map[string]string{}, sizes: map[string]string{}, parcels: map[string]string{}}
	a.add = func(path string, data []byte) error {
		a.files = append(a.files, path)
		return add(path, data)
	}
	for _, step := range []func(Input) error{a.styles, a.scriptFiles, a.pictures, a.parcelFiles, a.visitSchema} {
		if err := step(in); err != nil {
			return nil, err
		}
	}
	if in.Memo != nil {
		in.Memo.common = a
	}
	return a.again(in, add), nil
}

// again gives the same assets, to which those of one edition can be added.
func (a *assets) again(in Input, add Sink) *assets {
	other := *a
	other.add, other.keep, other.parcels = add, in.Keep, maps.Clone(a.parcels)
	return &other
}

// keepAll keeps the files of the assets, if all of them can be kept.
func (a *assets) keepAll() (bool, error) {
	for _, file := range a.files {
		if kept, err := a.keep(file); !kept || err != nil {
			return false, err
		}
	}
	return true, nil
}
