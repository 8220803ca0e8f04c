package rules

import (
	"context"
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"
	"testing/fstest"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/workers"
)

// tryAll gives what is found in each case and not in the manual without it. A case of text changes what is said in one article alone, so that
// all of them are read at once, each in a copy of its host, and only the rules of an article look at it; a case of a header or of the shop file
// has the whole manual proof-read.
func (b *sentenceBench) tryAll(cases []labelledCase) [][]finding.Finding {
	b.t.Helper()
	found := make([][]finding.Finding, len(cases))
	var texts, quiet, heads, shop []int
	for i, c := range cases {
		switch {
		case c.where == "text":
			texts = append(texts, i)
		case !c.mistake:
			quiet = append(quiet, i)
		case c.where == "head":
			heads = append(heads, i)
		default:
			shop = append(shop, i)
		}
	}
	b.tryTexts(cases, texts, found)
	alone := shop
	b.together(cases, heads, func(i int, list []finding.Finding) {
		found[i] = slices.DeleteFunc(slices.Clone(list), func(f finding.Finding) bool { return f.File != cases[i].host })
		if finding.Stopping(found[i]) == 0 { // what follows from it may be said of another file
			alone = append(alone, i)
		}
	})
	b.together(cases, quiet, func(i int, list []finding.Finding) {
		if len(list) > 0 {
			alone = append(alone, i)
		}
	})
	for _, i := range alone {
		found[i] = b.try(cases[i])
	}
	return found
}

// tryTexts tries the cases of text.
func (b *sentenceBench) tryTexts(cases []labelledCase, which []int, found [][]finding.Finding) {
	m, reported, err := manual.Read(context.Background(), b.files)
	if err != nil {
		b.t.Fatal(err)
	}
	files := maps.Clone(b.files)
	names := make([]string, len(cases))
	for _, i := range which {
		name, data := b.changed(cases[i])
		names[i] = path.Join(path.Dir(name), fmt.Sprintf("copy-%d.md", i))
		files[names[i]] = &fstest.MapFile{Data: data}
	}
	copies, more, err := manual.Read(context.Background(), files)
	if err != nil {
		b.t.Fatal(err)
	}
	of := map[string][]finding.Finding{}
	for _, f := range slices.Concat(reported, more) {
		of[f.File] = append(of[f.File], f)
	}
	all := slices.DeleteFunc(registry(), func(r rule) bool { return slices.Contains(ofText, r.Name) })
	before := map[string][]finding.Finding{}
	shared := newProof(m, labelledOn)
	for _, a := range m.Articles {
		before[a.Path] = b.ofArticle(shared, a, all)
	}
	for _, f := range reported {
		before[f.File] = append(before[f.File], f)
	}
	if err := workers.Each(context.Background(), len(which), func(k int) error {
		i := which[k]
		a := copies.At(names[i])
		if a == nil { // such as one with a conflict marker: what the reader says of it is all there is
			found[i] = fresh(of[names[i]], before[cases[i].host], names[i], cases[i].host)
			return nil
		}
		host := *a
		host.Path = cases[i].host
		host.Name = strings.TrimSuffix(path.Base(host.Path), ".md")
		p := *shared
		now := append(b.ofArticle(&p, &host, all), of[names[i]]...)
		found[i] = fresh(now, before[host.Path], names[i], host.Path)
		return nil
	}); err != nil {
		b.t.Fatal(err)
	}
}

// ofArticle is what the rules of an article find in it, but for what it accepts, and for safety messages that name no source: those of the cases were
// written to name a hazard or none, and whether one rests on a source is no class of them.
func (b *sentenceBench) ofArticle(p *proof, a *manual.Article, all []rule) []finding.Finding {
	return slices.DeleteFunc(p.proofread(a, all), func(f finding.Finding) bool {
		return f.Rule == restsOnNothing.Name || acceptable(f.Rule, f.Severity) && accepts(a, f.Rule)
	})
}

// fresh gives the findings of a copy that its host does not have.
func fresh(now, before []finding.Finding, copied, host string) []finding.Finding {
	known := map[string]int{}
	for _, f := range before {
		known[string(f.Rule)+" "+f.Message]++
	}
	var list []finding.Finding
	for _, f := range now {
		f.Message = strings.ReplaceAll(f.Message, copied, host)
		if key := string(f.Rule) + " " + f.Message; known[key] > 0 {
			known[key]--
			continue
		}
		list = append(list, f)
	}
	return list
}

// together tries cases of headers and of the shop file which change different files at once, and tells each what is found in all of them.
func (b *sentenceBench) together(cases []labelledCase, which []int, tell func(i int, found []finding.Finding)) {
	for len(which) > 0 {
		var later, now []int
		before := map[string]*fstest.MapFile{}
		for _, i := range which {
			name, data := b.changed(cases[i])
			if before[name] != nil {
				later = append(later, i)
				continue
			}
			before[name], now = b.files[name], append(now, i)
			b.files[name] = &fstest.MapFile{Data: data}
		}
		changed := slices.Collect(maps.Keys(before))
		if b.last != "" && before[b.last] == nil {
			changed = append(changed, b.last)
		}
		found := b.unknown(b.proof(changed))
		maps.Copy(b.files, before)
		if _, _, err := b.reader.Read(context.Background(), b.files, changed); err != nil {
			b.t.Fatal(err)
		}
		b.last = ""
		for _, i := range now {
			tell(i, found)
		}
		which = later
	}
}

// unknown leaves out what is found in the manual without a case.
func (b *sentenceBench) unknown(found []finding.Finding) []finding.Finding {
	var list []finding.Finding
	known := maps.Clone(b.before)
	for _, f := range found {
		key := string(f.Rule) + " " + f.File + " " + f.Message
		if known[key] > 0 {
			known[key]--
			continue
		}
		list = append(list, f)
	}
	return list
}
