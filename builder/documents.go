package builder

import (
	"cmp"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/search"
)

// documents gives what can be found in a manual: each article's head and each of its sections, the glossary, and the tools; all but the
// glossary in each of its languages.
func documents(m *manual.Manual, tools []page.Tool) []search.Document {
	var docs []search.Document
	own := m.OwnLanguage()
	for _, a := range m.Articles {
		docs = append(docs, articleDocuments(a, own)...)
	}
	for _, t := range m.Glossary {
		docs = append(docs, search.Document{
			Path: "glossary.html#" + manual.Anchor(t.Term), Title: t.Term, Kind: manual.TermFound, Text: t.Means, AlsoCalled: t.AlsoCalled, Language: own,
		})
	}
	for _, t := range m.Translations {
		if t.Original != nil {
			docs = append(docs, articleDocuments(t, t.Language)...)
		}
	}
	return append(docs, toolDocuments(tools)...)
}

// toolDocuments are the pages of the program itself, of the tanks and its calculators. A page that is there in one language alone is found in each, by the words of each.
func toolDocuments(tools []page.Tool) []search.Document {
	var docs []search.Document
	for _, t := range tools {
		docs = append(docs, search.Document{Path: t.Path, Title: t.Title, Kind: t.Kind, Station: t.Station, Text: t.Text, AlsoCalled: t.Also, Language: t.Language})
	}
	return docs
}

// articleDocuments are an article's head and its sections.
func articleDocuments(a *manual.Article, language string) []search.Document {
	path := page.Path(a)
	head := search.Document{
		Path: path, Title: a.Head.Title, Kind: string(a.Kind), Station: string(a.Head.Station),
		AlsoCalled: a.Head.AlsoCalled, Text: a.Head.Summary, Language: language,
	}
	for _, s := range a.Sections {
		if s.Level == 0 {
			head.Text += "\n" + s.Text
		}
	}
	docs := []search.Document{head}
	for _, s := range a.Sections {
		if s.Level == 0 {
			continue
		}
		docs = append(docs, search.Document{
			Path: path + "#" + s.Anchor, Title: a.Head.Title, Section: s.Heading, Kind: string(a.Kind), Station: string(a.Head.Station),
			Text: s.Text, Question: len(s.Answers) > 0, Language: language,
		})
	}
	return docs
}

// synonyms are the everyday words of the glossary, and those of the articles whose title is one name of a thing, "Wax" or "Brass". What
// an article with a longer title, or on a symptom or a procedure, is also called leads to the article alone: it is no other word for one of
// the title's words.
func synonyms(m *manual.Manual) []search.Synonym {
	var list []search.Synonym
	own := m.OwnLanguage()
	for _, t := range m.Glossary {
		if len(t.AlsoCalled) > 0 {
			list = append(list, search.Synonym{Term: t.Term, Words: t.AlsoCalled, Language: own})
		}
	}
	add := func(a *manual.Article) {
		if a.Kind.Declared().Thing && len(a.Head.AlsoCalled) > 0 && !strings.Contains(a.Head.Title, " ") {
			list = append(list, search.Synonym{Term: a.Head.Title, Words: a.Head.AlsoCalled, Language: cmp.Or(a.Language, own)})
		}
	}
	for _, a := range m.Articles {
		add(a)
	}
	for _, t := range m.Translations {
		add(t)
	}
	return list
}
