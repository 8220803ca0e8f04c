package changes

import (
	"cmp"
	"path"
	"slices"
	"strings"

	"tankside/builder/content"
	"tankside/builder/manual"
)

// text is something that may be another under a new name.
type text struct {
	name, words string
	sort        string // only of one sort can be paired by their words; of sections all are of one
}

// likeEnough is the share of words that two texts have in common, counted on both sides, from which the one is the other under a new name. Our own limit:
// two articles of the demo manual about different things have at most a third in common.
const likeEnough = 0.6

// fewWords is how many words a text has at least that is recognised although it has changed.
const fewWords = 8

// mostPairs bounds how many pairs of texts are compared by their words.
const mostPairs = 250_000

// pairTexts finds for texts that have come the ones that are gone and are the same, or nearly. Nothing is paired twice; the likest are paired first.
func pairTexts(gone, come []text) map[string]string {
	was := map[string]string{}
	used := map[string]bool{}
	same := map[string][]string{}
	for _, g := range gone {
		if g.words != "" {
			same[g.words] = append(same[g.words], g.name)
		}
	}
	for _, c := range come {
		if names := same[c.words]; len(names) > 0 {
			was[c.name], same[c.words] = names[0], names[1:]
			used[names[0]] = true
		}
	}
	gone = slices.DeleteFunc(slices.Clone(gone), func(g text) bool { return used[g.name] })
	come = slices.DeleteFunc(slices.Clone(come), func(c text) bool { return was[c.name] != "" })
	if len(gone)*len(come) > mostPairs {
		return was
	}
	type pair struct {
		from, to string
		like     float64
	}
	var pairs []pair
	bags := make([]map[string]int, len(gone))
	sizes := make([]int, len(gone))
	for i, g := range gone {
		bags[i], sizes[i] = bag(g.words)
	}
	for _, c := range come {
		words, size := bag(c.words)
		for i, g := range gone {
			if size < fewWords || sizes[i] < fewWords {
				continue
			}
			if like := share(words, bags[i], size+sizes[i]); like >= likeEnough {
				pairs = append(pairs, pair{g.name, c.name, like})
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int {
		return cmp.Or(cmp.Compare(b.like, a.like), strings.Compare(a.from, b.from), strings.Compare(a.to, b.to))
	})
	for _, p := range pairs {
		if _, taken := was[p.to]; !taken && !used[p.from] {
			was[p.to] = p.from
			used[p.from] = true
		}
	}
	return was
}

// bag counts the words of a text.
func bag(words string) (map[string]int, int) {
	list := strings.Fields(words)
	counts := make(map[string]int, len(list))
	for _, w := range list {
		counts[w]++
	}
	return counts, len(list)
}

// share is what two texts have in common, from 0 to 1 (the coefficient of Dice 1945, “Measures of the amount of ecologic association between species”).
func share(a, b map[string]int, size int) float64 {
	both := 0
	for w, n := range a {
		both += min(n, b[w])
	}
	return 2 * float64(both) / float64(size)
}

// pairFiles finds which new files are old ones under a new path, and which old ones are gone. What history tells counts before what the texts are like.
func pairFiles(a, b *content.Content, history map[string]string) (renamed map[string]string, gone []content.Doc) {
	renamed = map[string]string{}
	used := map[string]bool{}
	var left, come []content.Doc
	for _, d := range a.Docs() {
		if _, has := b.At(d.Path); has {
			continue
		}
		to := history[d.Path]
		_, had := a.At(to)
		if _, has := b.At(to); has && !had && renamed[to] == "" && sortOf(to) == sortOf(d.Path) {
			renamed[to], used[d.Path] = d.Path, true
			continue
		}
		left = append(left, d)
	}
	for _, d := range b.Docs() {
		if _, had := a.At(d.Path); !had && renamed[d.Path] == "" {
			come = append(come, d)
		}
	}
	for _, sort := range sortsOf(left) {
		for to, from := range pairTexts(textsOf(left, sort), textsOf(come, sort)) {
			renamed[to], used[from] = from, true
		}
	}
	for _, d := range left {
		if !used[d.Path] {
			gone = append(gone, d)
		}
	}
	return renamed, gone
}

// sortOf is what a file can be renamed to: an article to one of its language, anything else to what ends alike.
func sortOf(p string) string {
	if content.IsArticle(p) {
		_, language := manual.OriginalOf(p)
		return "article " + language
	}
	return path.Ext(p)
}

func sortsOf(docs []content.Doc) []string {
	var sorts []string
	for _, d := range docs {
		sorts = append(sorts, sortOf(d.Path))
	}
	slices.Sort(sorts)
	return slices.Compact(sorts)
}

// textsOf are the texts by which files of a sort are recognised: of an article title and text, not the rest of its header, in which many are alike.
func textsOf(docs []content.Doc, sort string) []text {
	var list []text
	for _, d := range docs {
		if sortOf(d.Path) != sort {
			continue
		}
		var words []string
		for _, p := range d.Parts() {
			if inOrder(d.Path, p.Name) || !content.IsArticle(d.Path) || p.Name == content.HeaderKey+"title" || p.Name == content.HeaderKey+"summary" {
				words = append(words, p.Text)
			}
		}
		list = append(list, text{name: d.Path, words: strings.Join(words, "\n")})
	}
	return list
}
