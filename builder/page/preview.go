package page

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// Preview has pages made of a manual that cannot be published, for whoever is writing it.
type Preview struct {
	Findings []finding.Finding // of the whole manual
}

// fault is a finding as a page of a preview says it.
type fault struct {
	Where, Message, Why, Remedy string
	Stops                       bool
	Anchor                      string // of the place in the page where it stands; "" at the head
	Leads                       string // what leads there: in a walk, which shows one step at a time, the step's

	line int // of its file, from 1; 0 where it is about the whole of it
}

// faultsOf are the findings about a file, those first that stop publication.
func (p *Preview) faultsOf(file string) []fault {
	var list []fault
	for _, stops := range []bool{true, false} {
		for _, f := range p.Findings {
			if f.File == file && f.Stops() == stops {
				list = append(list, faultOf(f))
			}
		}
	}
	return list
}

func faultOf(f finding.Finding) fault {
	return fault{Where: f.Place.String(), Message: f.Message, Why: f.Why, Remedy: f.Remedy, Stops: f.Stops(), line: f.Line}
}

// faulty has a page say, in a preview, what is wrong with the article that it is of; the home page says all that stops publication.
func (s *site) faulty(f *frame, base string) {
	if s.Preview == nil {
		return
	}
	f.Previewed = true
	if base == homePage {
		for _, one := range s.Preview.Findings {
			if one.Stops() {
				f.Faults = append(f.Faults, faultOf(one))
			}
		}
		return
	}
	file := strings.TrimSuffix(s.name(base), ".html") + ".md"
	if !s.isOwn() { // the translation's own file; what is wrong with the original is said on its page
		if a := s.Manual.At(strings.TrimSuffix(base, ".html") + ".md"); a != nil {
			if t := s.Manual.In(a, s.language); t != nil {
				file = t.Path
			}
		}
	}
	f.Faults = s.Preview.faultsOf(file)
}

// shownAnyway makes of a job one that always gives a page: where the page itself cannot be made, because the manual contradicts itself, it says why.
func (s *site) shownAnyway(j job) job {
	if s.Preview == nil || j.fill == nil {
		return j
	}
	render := j.render
	j.render = func(add Sink) (err error) {
		defer func() {
			if problem := recover(); problem != nil || err != nil {
				err = s.unmade(j, add)
			}
		}()
		return render(add)
	}
	return j
}

// unmade is the page in the place of one that cannot be made.
func (s *site) unmade(j job, add Sink) error {
	own := s.all[0]
	var b bytes.Buffer
	f := &frame{site: own, Lang: own.language, Policy: policyOf(own.Manual.Shop.Address), Shop: own.Manual.Shop.Name, Root: rootOf(j.path), Address: j.path, Units: own.system.String(),
		Style: own.style, HeadScript: own.head, Mark: own.mark(), Edition: own.edition(), Code: shownOf(own.Mark).Code, Title: own.words.say("This page cannot be shown as the manual is now")}
	own.faulty(f, j.base)
	if len(f.Faults) == 0 {
		own.faulty(f, homePage)
	}
	f.Content = listContent{Title: f.Title, Summary: own.words.say("What is wrong is said above. Put it right and save; this page follows.")}
	if err := own.sheets["list"].Execute(&b, f); err != nil {
		return fmt.Errorf("theme: %w", err)
	}
	return add(j.path, b.Bytes())
}

// lostPages are, in a preview, pages for the files of articles that could not be read at all.
func (s *site) lostPages(jobs []job) []job {
	if s.Preview == nil {
		return nil
	}
	var lost []job
	seen := map[string]bool{}
	for _, f := range s.Preview.Findings {
		path, is := strings.CutSuffix(f.File, ".md")
		path += ".html"
		if !is || s.Manual.At(f.File) != nil || seen[path] || slices.ContainsFunc(jobs, func(j job) bool { return j.path == path }) {
			continue
		}
		seen[path] = true
		j := job{base: path, path: path}
		j.render = func(add Sink) error { return s.unmade(j, add) }
		lost = append(lost, j)
	}
	return lost
}

// nameOf is what a page calls an article: its title, or its file where the title could not be read.
func nameOf(a *manual.Article) string {
	if a.Head.Title == "" {
		return a.Path
	}
	return a.Head.Title
}
