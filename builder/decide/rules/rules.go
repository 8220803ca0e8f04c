// Package rules proof-reads a manual: each rule is one small function over the model, in a file with the rule's name.
//
//	findings := rules.Proof(m, today)
//
// A finding's severity is its consequence. Harm to people, harm to parts and a wrong result stop publication; untidiness does not.
// An article may accept findings of the last two severities, each rule with a written reason that is printed in the article;
// what could hurt people or parts cannot be accepted, only put right.
//
// # How to add a rule
//
// Write a file with the rule's name. It declares the rule (name, severity, what it finds, which harm it prevents, where its limit
// comes from) and a function over one article or over the whole manual. Add both to the list in all.go, and a case to testdata/cases.
// Leave alone what the manual's data cannot decide: a rule that cries wolf is soon not read.
//
// A message names what is wrong where it is wrong: a fault of the shop file is a finding in the shop file. One mistake is one finding:
// name in Also every value that a finding rests on, and the findings that rest on one wrong value are gathered into one, at that value
// (see gather.go); what follows from a key that the reader could not read is left out. The remedy is the whole remedy: who does
// what it says finds nothing more.
//
// # Cases
//
// A case is a file testdata/cases/RULE.txtar, or RULE.WORD.txtar for a further one of the same rule. Its sections, each under a line
// "-- SORT: VERB FILE --", make a mistake in a copy of testdata/mistakes/manual, put it right, and make a near miss:
//
//	What the case is about, in a sentence.
//	-- mistake: change materials/brass.md --
//	-ph: 6–9.5
//	+ph: 6–95
//	-- finding --
//	place: materials/brass.md:10:5
//	message: …
//	remedy: …
//	-- mending: change materials/brass.md --
//	-ph: 6–95
//	+ph: 6–9.5
//	-- near miss: change materials/brass.md --
//	-ph: 6–9.5
//	+ph: 0–14
//
// After the mistake the manual has that finding and no other; after the mending, which is what an author does who follows the remedy to the
// letter, it has none; and of a near miss nothing is said. Further near misses are called "near miss 2", "near miss 3" and so on.
//
// In a change, lines with a hyphen go, lines with a plus sign come, lines with a blank stay; what goes and stays has to be in the file once, line by line.
// A line of three full stops begins another change of the same file, "* 500" repeats the line before it, and plus lines alone come at the end. Other
// verbs are write (the whole file), remove, "rename FILE to FILE", quoted (a Go string, for bytes that are no text), pipe, and translate.
//
// The section finding is written by the test itself, to be read over before it is committed:
//
//	go test ./builder/decide/rules -run Cases -renew
//
// What the reader of the manual finds by itself (unknown keys, wrong units …) comes from package manual, what is wrong with a symptom
// tree from package tree. All lists every rule of the three.
package rules

import (
	"context"
	"errors"
	"iter"
	"slices"
	"sync"
	"time"

	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/ownlook"
	"tankside/builder/picture"
	"tankside/builder/prose"
	"tankside/builder/sentence"
	"tankside/builder/workers"
)

// rule is one check. One of its functions is set, or two where a check looks at translations as well as at originals. A check that passes on the findings of another package has no name.
type rule struct {
	finding.Rule
	text    func(*proof, *manual.Article) []finding.Finding // called once for each article, in parallel
	article func(*proof, *manual.Article) []finding.Finding // the same, for articles whose header could be read
	whole   func(*proof) []finding.Finding                  // called once

	translation func(*proof, *manual.Article) []finding.Finding // called once for each translation, in parallel; it may stand beside text
}

// proof is what the rules share while one manual is proof-read.
type proof struct {
	*manual.Manual
	today      time.Time
	memo       *Memo // or nil
	used       relate.Uses
	line       relate.Line                     // of the shop
	reaches    func() map[*manual.Tank]float64 // the temperature in °C that a tank reaches
	withWords  func() []string                 // languages for which the interface has words
	names      func() *sentence.Names          // what the text may speak of
	themeFiles func() []ownlook.File           // of the shop's own
	running    *runningText                    // what the article that is read says
	syllables  *prose.Counts                   // of the words that were met
}

// Memo keeps what the proof-reader found in each article, and of the whole what takes long. Its zero value keeps nothing yet; a nil Memo never keeps anything.
type Memo struct {
	found  manual.Memo[[]finding.Finding]
	before manual.Memo[*before]
	sheets manual.Pieces[sheets]
	shown  manual.Pieces[[]*picture.Problem] // what is wrong with each picture
	begun  *proof                            // the last
}

func (k *Memo) foundIn() *manual.Memo[[]finding.Finding] {
	if k == nil {
		return nil
	}
	return &k.found
}

func (k *Memo) foundBefore() *manual.Memo[*before] {
	if k == nil {
		return nil
	}
	return &k.before
}

func (k *Memo) sheetsOf() *manual.Pieces[sheets] {
	if k == nil {
		return nil
	}
	return &k.sheets
}

func (k *Memo) picturesOf() *manual.Pieces[[]*picture.Problem] {
	if k == nil {
		return nil
	}
	return &k.shown
}

// Proof applies every rule of this package and the checks of symptom trees to a manual as it stands on a day.
// Findings come in the order of their places; those that an article accepts are left out.
// What the reader found is not repeated: see manual.Read.
func Proof(m *manual.Manual, today time.Time) []finding.Finding {
	return ProofAgain(m, relate.UsedBy(m), today, nil)
}

// ProofAgain gives the same where used are the manual's uses, and reads those articles alone of which the memo does not know what is found.
func ProofAgain(m *manual.Manual, used relate.Uses, today time.Time, memo *Memo) []finding.Finding {
	list, _ := ProofUnless(func() bool { return false }, m, used, today, memo)
	return list
}

// ProofUnless gives the same, or nothing and false where stop says so between two texts. The memo keeps what was found by then, so that who comes back
// goes on from there. stop is called by several goroutines at once.
func ProofUnless(stop func() bool, m *manual.Manual, used relate.Uses, today time.Time, memo *Memo) (list []finding.Finding, done bool) {
	if m.Undecided {
		return nil, true
	}
	p := begun(m, used, today, memo)
	all := registry()
	articles := texts(m)
	whole := slices.DeleteFunc(slices.Clone(all), func(r rule) bool { return r.whole == nil })
	found := make([][]finding.Finding, len(whole)+len(articles))
	if err := workers.Each(context.Background(), len(found), func(i int) error {
		if stop() {
			return errStopped
		}
		if i < len(whole) {
			found[i] = whole[i].whole(p)
			return nil
		}
		found[i] = p.read(articles[i-len(whole)], all)
		return nil
	}); err != nil {
		return nil, false // no rule gives an error, and nothing ends the context
	}
	return p.sifted(slices.Concat(found...)), true
}

var errStopped = errors.New("stopped")

// First gives what is found in some texts alone, by their files, before all others are looked through, and how many of those have to be read again: an author
// who types in an article of which half the manual speaks sees first what is wrong there. Rules about the whole manual have no part in it, see [OfWhole].
func First(m *manual.Manual, used relate.Uses, today time.Time, memo *Memo, files []string) (list []finding.Finding, others int) {
	if m.Undecided {
		return nil, 0
	}
	p, all := begun(m, used, today, memo), registry()
	for _, a := range texts(m) {
		switch {
		case slices.Contains(files, a.Path):
			list = append(list, p.read(a, all)...)
		case !memo.foundIn().Holds(m, a):
			others++
		}
	}
	return p.sifted(list), others
}

// OfWhole tells whether a rule of this package looks at the manual as a whole, or beside another, and at no text by itself.
func OfWhole(name finding.RuleName) bool {
	whole := false
	for _, r := range registry() {
		if r.Name == name {
			if r.text != nil || r.article != nil || r.translation != nil {
				return false
			}
			whole = true
		}
	}
	return whole
}

// OfReader tells whether a rule is found while a manual is read.
func OfReader(name finding.RuleName) bool {
	return slices.ContainsFunc(manual.Rules(), func(r finding.Rule) bool { return r.Name == name })
}

// begun makes ready what the rules share, or gives what was made ready for this manual and day.
func begun(m *manual.Manual, used relate.Uses, today time.Time, memo *Memo) *proof {
	day := today.Format(time.DateOnly)
	if memo != nil && memo.begun != nil && memo.begun.Manual == m && memo.begun.today.Format(time.DateOnly) == day {
		return memo.begun
	}
	p := newProof(m, today)
	p.used, p.memo = used, memo
	other := day + " " + p.names().Key() + p.line.Print()
	memo.picturesOf().Begin(m, "")
	memo.foundIn().Begin(m, other)
	memo.foundBefore().Begin(m, other)
	if memo != nil {
		memo.begun = p
	}
	return p
}

// texts are all that is read: articles, translations and drafts.
func texts(m *manual.Manual) []*manual.Article {
	return slices.AppendSeq(slices.AppendSeq(slices.Collect(second(m.Articles)), second(m.Translations)), second(m.Drafts))
}

// sifted leaves out what is accepted or follows from something else, and gathers the rest.
func (p *proof) sifted(list []finding.Finding) []finding.Finding {
	list = accepted(p.Manual, list)
	list = slices.DeleteFunc(list, func(f finding.Finding) bool { return slices.ContainsFunc(places(f), p.Doubted) })
	finding.Sort(list)
	list = p.gather(p.unlessNamed(list))
	finding.Sort(list)
	return list
}

// newProof makes ready what the rules share.
func newProof(m *manual.Manual, today time.Time) *proof {
	p := &proof{Manual: m, today: today, line: relate.LineOf(m), syllables: &prose.Counts{}}
	p.reaches = sync.OnceValue(p.reachable)
	p.withWords = sync.OnceValue(p.wordFiles)
	p.themeFiles = sync.OnceValue(p.compareTheme)
	p.names = sync.OnceValue(func() *sentence.Names { return sentence.NewNames(m) })
	return p
}

// second gives the second of each two values.
func second[A, B any](all iter.Seq2[A, B]) iter.Seq[B] {
	return func(yield func(B) bool) {
		for _, b := range all {
			if !yield(b) {
				return
			}
		}
	}
}

// Named gives the article of that kind and name if its header could be read, or nil: of one that could not, nothing is known.
func (p *proof) Named(kind manual.Kind, name string) *manual.Article {
	if a := p.Manual.Named(kind, name); a != nil && !a.Partial {
		return a
	}
	return nil
}

// accepted leaves out the findings that their article accepts.
func accepted(m *manual.Manual, list []finding.Finding) []finding.Finding {
	kept := list[:0]
	for _, f := range list {
		if a := m.At(f.File); a == nil || !acceptable(f.Rule, f.Severity) || !accepts(a, f.Rule) {
			kept = append(kept, f)
		}
	}
	return kept
}

func accepts(a *manual.Article, rule finding.RuleName) bool {
	for _, c := range a.Head.Accept {
		if finding.RuleName(c.Rule) == rule && c.Reason != "" {
			return true
		}
	}
	return false
}

// acceptable tells whether what a rule finds may be accepted. Nobody accepts for himself that his own text is not approved.
func acceptable(rule finding.RuleName, s finding.Severity) bool {
	return (s == finding.Result || s == finding.Untidy) && !OfApproval(rule)
}

// ofApproval are the rules about who answers for an article, and until when.
var ofApproval = []finding.RuleName{changedSinceApproval.Name, notApproved.Name, datesOutOfOrder.Name, reviewOverdue.Name}

// at is the place of a header key of an article, or the article as a whole.
func at(a *manual.Article, key string) finding.Place {
	if p, ok := a.Head.At[key]; ok {
		return p
	}
	return finding.Place{File: a.Path, Line: 1, Column: 1}
}

// OfApproval tells whether a rule is about who answers for an article, and until when.
func OfApproval(rule finding.RuleName) bool { return slices.Contains(ofApproval, rule) }
