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
// comes from) and a function over one article or over the whole manual. Add both to the list in all.go, and a pair of cases to
// rules_test.go: one mistake that it catches, and one near miss that it must leave alone. Leave alone what the manual's data
// cannot decide: a rule that cries wolf is soon not read.
//
// What the reader of the manual finds by itself (unknown keys, wrong units …) comes from package manual, what is wrong with a symptom
// tree from package tree. All lists every rule of the three.
package rules

import (
	"context"
	"iter"
	"slices"
	"sync"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/relate"
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
	today     time.Time
	used      relate.Uses
	reaches   func() map[*manual.Tank]float64 // the temperature in °C that a tank reaches
	withWords func() []string                 // languages for which the interface has words
	names     func() *sentence.Names          // what the text may speak of
	callings  func() titled                   // the articles by their names
	said      *said                           // what the article that is read says
}

// Memo keeps what the proof-reader found in each article. A nil Memo keeps nothing.
type Memo = manual.Memo[[]finding.Finding]

// Proof applies every rule of this package and the checks of symptom trees to a manual as it stands on a day.
// Findings come in the order of their places; those that an article accepts are left out.
// What the reader found is not repeated: see manual.Read.
func Proof(m *manual.Manual, today time.Time) []finding.Finding {
	return ProofAgain(m, relate.UsedBy(m), today, nil)
}

// ProofAgain gives the same where used are the manual's uses, and reads those articles alone of which the memo does not know what is found.
func ProofAgain(m *manual.Manual, used relate.Uses, today time.Time, memo *Memo) []finding.Finding {
	p := newProof(m, today)
	p.used = used
	all := registry()
	articles := slices.AppendSeq(slices.Collect(second(m.Articles)), second(m.Translations))
	memo.Begin(m, today.Format(time.DateOnly)+" "+p.names().Key())
	whole := slices.DeleteFunc(slices.Clone(all), func(r rule) bool { return r.whole == nil })
	found := make([][]finding.Finding, len(whole)+len(articles))
	if err := workers.Each(context.Background(), len(found), func(i int) error {
		if i < len(whole) {
			found[i] = whole[i].whole(p)
			return nil
		}
		a := articles[i-len(whole)]
		found[i] = memo.Of(m, a, func(m *manual.Manual) []finding.Finding {
			p := *p
			p.Manual = m
			return p.proofread(a, all)
		})
		return nil
	}); err != nil {
		panic(err) // no rule gives an error, and nothing ends the context
	}
	list := slices.Concat(found...)
	list = accepted(m, list)
	finding.Sort(list)
	return list
}

// newProof makes ready what the rules share.
func newProof(m *manual.Manual, today time.Time) *proof {
	p := &proof{Manual: m, today: today}
	p.reaches = sync.OnceValue(p.reachable)
	p.withWords = sync.OnceValue(p.wordFiles)
	p.names = sync.OnceValue(func() *sentence.Names { return sentence.NewNames(m) })
	p.callings = sync.OnceValue(func() titled { return newTitles(m) })
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

// proofread applies the rules that look at one article, or at one translation.
func (p *proof) proofread(a *manual.Article, all []rule) []finding.Finding {
	p.said = nil
	var list []finding.Finding
	for _, r := range all {
		switch {
		case a.Language != "":
			if r.translation != nil {
				list = append(list, r.translation(p, a)...)
			}
		case r.text != nil:
			list = append(list, r.text(p, a)...)
		case r.article != nil && !a.Partial:
			list = append(list, r.article(p, a)...)
		}
	}
	return list
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
		if a := m.At(f.File); a == nil || !acceptable(f.Severity) || !accepts(a, f.Rule) {
			kept = append(kept, f)
		}
	}
	return kept
}

func accepts(a *manual.Article, rule string) bool {
	for _, c := range a.Head.Accept {
		if c.Rule == rule && c.Reason != "" {
			return true
		}
	}
	return false
}

// acceptable tells whether findings of a severity may be accepted.
func acceptable(s finding.Severity) bool { return s == finding.Result || s == finding.Untidy }

// at is the place of a header key of an article, or the article as a whole.
func at(a *manual.Article, key string) finding.Place {
	if p, ok := a.Head.At[key]; ok {
		return p
	}
	return finding.Place{File: a.Path, Line: 1, Column: 1}
}
