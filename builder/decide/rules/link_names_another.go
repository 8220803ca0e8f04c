package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// linkNamesAnother finds links whose words are the name of one article and that lead to another. It prevents that somebody who taps “citric
// descaler” stands before the page of the caustic. The limit is the articles' titles, file names and, where only one article has it, their
// also-called.
var linkNamesAnother = finding.Rule{
	Name: "link-names-another", Severity: finding.Result,
	Finds:  "a link with the name of one article that leads to another",
	Why:    "The reader comes to another page than the one whose name he tapped, and may not notice.",
	Source: "the articles' own titles and also-called",
}

// namesOf are an article's names, plain.
func namesOf(a *manual.Article) []string {
	list := []string{plainName(a.Head.Title), plainName(strings.ReplaceAll(a.Name, "-", " "))}
	for _, n := range a.Head.AlsoCalled {
		list = append(list, plainName(n))
	}
	return list
}

// wholeNames finds articles by their names.
var wholeNames = manual.NewIndex(namesOf)

// called gives the one article of which a plain name is one, and that of no tank; nil where there is none, or more than one.
func (p *proof) called(name string) *manual.Article {
	if slices.ContainsFunc(p.Shop.Tanks, func(t manual.Tank) bool { return plainName(t.Name) == name }) {
		return nil
	}
	if list := p.By(wholeNames, name); len(list) == 1 {
		return list[0]
	}
	return nil
}

// plainName is a name without capitals, articles, hyphens and the general words at its end.
func plainName(name string) string {
	name = strings.ToLower(strings.TrimSpace(name))
	if hasSign(name, "-", "’", "“", "”", "\u00a0") {
		name = plainer.Replace(name)
	}
	for _, lead := range []string{"the ", "our ", "a ", "an ", "this "} {
		name = strings.TrimPrefix(name, lead)
	}
	for _, end := range []string{" cleaner", " bath", " article", " page", " procedure"} {
		name = strings.TrimSuffix(name, end)
	}
	return strings.TrimSuffix(name, "s")
}

var plainer = strings.NewReplacer("-", " ", "’", "'", "“", "", "”", "", "\u00a0", " ")

func findLinksThatNameAnother(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, l := range a.Links {
		if strings.HasPrefix(l.Target, "#") {
			continue
		}
		if f := p.otherTank(a, l); f != nil {
			list = append(list, *f)
			continue
		}
		called := p.called(plainName(l.Text))
		if called == nil {
			if f := p.partOfAnother(a, l); f != nil {
				list = append(list, *f)
			}
			continue
		}
		to, problem := p.Resolve(a, l.Target)
		if problem != nil || to.Article == nil || to.Article == called || to.Section != nil || sharesName(to.Article, l.Text) {
			continue
		}
		if called.Kind != to.Article.Kind && sameMatter(called, to.Article) {
			continue // the lesson on rinsing for the procedure
		}
		list = append(list, linkNamesAnother.At(l.At, fmt.Sprintf("The link “%s” has the name of %s, and leads to %s.", l.Text, called.Path, to.Article.Path), "Correct where it leads, or its words."))
	}
	return list
}

// partOfAnother finds a link whose words are part of the title of one article alone, and that leads to another of its kind, none of whose names has any of
// them: “neutral bath” for the ammoniated soap. Two articles of one kind are taken for each other; what leads to another kind is a word of the sentence.
func (p *proof) partOfAnother(a *manual.Article, l manual.Link) *finding.Finding {
	words := ownWords(l.Text)
	if a.Language != "" || len(words) == 0 {
		return nil
	}
	to, problem := p.Resolve(a, l.Target)
	if problem != nil || to.Article == nil || to.Section != nil || to.Article.Language != "" || sharesWord(to.Article, words) {
		return nil
	}
	kind := to.Article.Kind
	var candidates []*manual.Article
	for _, w := range doneForms(words[0]) {
		candidates = append(candidates, p.By(titleWords, w)...)
	}
	called := slices.DeleteFunc(candidates, func(b *manual.Article) bool {
		return b.Kind != kind || b.Language != "" || !titledWith(b, words)
	})
	if len(called) != 1 || called[0].Path == a.Path {
		return nil
	}
	f := linkNamesAnother.At(l.At, fmt.Sprintf("The link “%s” has words of the title of %s, and leads to %s.", l.Text, called[0].Path, to.Article.Path), "Correct where it leads, or its words.")
	return &f
}

// ownWords are the words of a link that name something: no articles, and no general words such as “bath”.
func ownWords(text string) []string {
	return slices.DeleteFunc(strings.Fields(strings.Trim(plainName(text), ".,;:!?")), func(w string) bool { return len(w) < 4 || generalWords[w] })
}

// sharesWord tells whether one of an article's names has one of the words, or one that begins like it.
func sharesWord(a *manual.Article, words []string) bool {
	names := strings.ToLower(a.Head.Title + " " + a.Name + " " + strings.Join(a.Head.AlsoCalled, " "))
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(names, w[:4]) })
}

// titleWords finds articles by the words of their titles.
var titleWords = manual.NewIndex(wordsOfTitle)

func wordsOfTitle(a *manual.Article) []string {
	return strings.Fields(plainName(strings.ReplaceAll(a.Head.Title, ",", " ")))
}

// titledWith tells whether all the words stand in an article's title.
func titledWith(a *manual.Article, words []string) bool {
	title := wordsOfTitle(a)
	return !slices.ContainsFunc(words, func(w string) bool {
		return !slices.ContainsFunc(doneForms(w), func(f string) bool { return slices.Contains(title, f) })
	})
}

// doneForms are a word and what one speaks of when one says that it is done: “rinsing” is “rinse”, “drying” is “dry”.
func doneForms(w string) []string {
	if stem, ok := strings.CutSuffix(w, "ing"); ok && len(stem) > 2 {
		return []string{w, stem, stem + "e"}
	}
	return []string{w}
}

var generalWords = map[string]bool{"steps": true, "step": true, "rules": true, "notes": true, "details": true, "bath": true, "tank": true, "cleaner": true, "page": true, "article": true, "that": true, "this": true, "there": true, "with": true, "from": true, "into": true, "parts": true, "part": true, "water": true, "test": true, "your": true, "care": true, "clean": true, "wash": true, "other": true, "them": true, "metal": true}

// otherTank finds a link with the name of a tank that leads to a chemistry which is not in it.
func (p *proof) otherTank(a *manual.Article, l manual.Link) *finding.Finding {
	for i := range p.Shop.Tanks {
		t := &p.Shop.Tanks[i]
		if !strings.EqualFold(strings.TrimSpace(l.Text), t.Name) {
			continue
		}
		to, problem := p.Resolve(a, l.Target)
		if problem == nil && to.Article != nil && to.Article.Chemistry != nil && t.Chemistry.Name != "" && to.Article.Name != t.Chemistry.Name {
			f := linkNamesAnother.At(l.At, fmt.Sprintf("The link “%s” leads to %s, which is not in that tank.", l.Text, to.Article.Path), "Correct where it leads, or its words.", t.Chemistry.At)
			return &f
		}
	}
	return nil
}

// sharesName tells whether an article is called so as well, or has a word of it in its names.
func sharesName(a *manual.Article, text string) bool {
	own := append([]string{a.Head.Title, strings.ReplaceAll(a.Name, "-", " ")}, a.Head.AlsoCalled...)
	name := plainName(text)
	return slices.ContainsFunc(own, func(n string) bool {
		n = plainName(n)
		return n == name || strings.HasPrefix(n, name+" ") || strings.HasPrefix(n, name+",")
	})
}

// sameMatter tells whether two articles share a word of their names.
func sameMatter(a, b *manual.Article) bool {
	words := strings.Split(b.Name, "-")
	return slices.ContainsFunc(strings.Split(a.Name, "-"), func(w string) bool {
		return len(w) > 3 && slices.ContainsFunc(words, func(v string) bool { return len(v) > 3 && (strings.HasPrefix(v, w[:4]) || strings.HasPrefix(w, v[:4])) })
	})
}
