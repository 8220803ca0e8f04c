package builder

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"strconv"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/search"
)

// index is the search index of a manual, to be made when its turn comes.
func index(m *manual.Manual) page.Index {
	docs, words := documents(m), synonyms(m)
	from := sha256.New()
	put := func(texts ...string) {
		for _, t := range texts {
			fmt.Fprintf(from, "%d ", len(t))
			io.WriteString(from, t)
		}
	}
	for _, d := range docs {
		put(d.Path, d.Title, d.Section, d.Kind, d.Station, d.Text, strconv.FormatBool(d.Question), strconv.Itoa(len(d.AlsoCalled)))
		put(d.AlsoCalled...)
	}
	for _, s := range words {
		put(s.Term, strconv.Itoa(len(s.Words)))
		put(s.Words...)
	}
	return page.Index{From: hex.EncodeToString(from.Sum(nil)), Make: func() ([]byte, error) { return search.Index(docs, words) }}
}

// documents gives what can be found in a manual: each article's head and each of its sections, the tanks, and the glossary.
func documents(m *manual.Manual) []search.Document {
	var docs []search.Document
	for _, a := range m.Articles {
		path := page.Path(a)
		head := search.Document{
			Path: path, Title: a.Head.Title, Kind: string(a.Kind), Station: string(a.Head.Station),
			AlsoCalled: a.Head.AlsoCalled, Text: a.Head.Summary,
		}
		for _, s := range a.Sections {
			if s.Level == 0 {
				head.Text += "\n" + s.Text
			}
		}
		docs = append(docs, head)
		for _, s := range a.Sections {
			if s.Level == 0 {
				continue
			}
			docs = append(docs, search.Document{
				Path: path + "#" + s.Anchor, Title: a.Head.Title, Section: s.Heading, Kind: string(a.Kind), Station: string(a.Head.Station),
				Text: s.Text, Question: len(s.Answers) > 0,
			})
		}
	}
	for i := range m.Shop.Tanks {
		t := &m.Shop.Tanks[i]
		docs = append(docs, search.Document{
			Path: page.TankPath(t.ID), Title: t.Name, Kind: "tank", Station: "wash",
			Text: strings.Join([]string{t.Name, t.Volume.String(), strings.ReplaceAll(t.Chemistry.Name, "-", " "), t.Strength.String(), t.Temperature.String(), t.Frequency.String(), t.Heater.String()}, " "),
		})
	}
	for _, t := range m.Glossary {
		docs = append(docs, search.Document{
			Path: "glossary.html#" + manual.Anchor(t.Term), Title: t.Term, Kind: "glossary", Text: t.Means, AlsoCalled: t.AlsoCalled,
		})
	}
	return docs
}

// synonyms are the everyday words of the glossary, and those of the articles whose title is one name of a thing, "Wax" or "Brass". What
// an article with a longer title, or on a symptom or a procedure, is also called leads to the article alone: it is no other word for one of
// the title's words.
func synonyms(m *manual.Manual) []search.Synonym {
	var list []search.Synonym
	for _, t := range m.Glossary {
		if len(t.AlsoCalled) > 0 {
			list = append(list, search.Synonym{Term: t.Term, Words: t.AlsoCalled})
		}
	}
	for _, a := range m.Articles {
		thing := a.Kind == manual.Soil || a.Kind == manual.Chemistry || a.Kind == manual.Material
		if thing && len(a.Head.AlsoCalled) > 0 && !strings.Contains(a.Head.Title, " ") {
			list = append(list, search.Synonym{Term: a.Head.Title, Words: a.Head.AlsoCalled})
		}
	}
	return list
}
