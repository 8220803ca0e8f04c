package manual

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// sources is the list of an article's sources. “common practice, no source” is one of them, though its comma parts it in a list between brackets.
func sources() field[Article] {
	f := texts("sources", "where its facts come from: title, year and table; or “common practice, no source”, “from memory”, “from the supplier's data sheet: check yours”",
		"[common practice, no source]", func(a *Article) *[]string { return &a.Head.Sources })
	read := f.read
	f.read = func(d *decoder, a *Article, n *yaml.Node) {
		read(d, a, n)
		list := a.Head.Sources
		for i := 0; i+1 < len(list); i++ {
			if foldWords(list[i]) == "common practice" && foldWords(list[i+1]) == "no source" {
				list[i] += ", " + list[i+1]
				list = slices.Delete(list, i+1, i+2)
			}
		}
		a.Head.Sources = list
	}
	return f
}

// restsOn reads which values rest on which source.
func restsOn[T any](to func(*T) *[]Rest) field[T] {
	key := Key{
		Name: "rests-on", Form: "mapping: what it rests on, and the list of keys whose values do", Example: "{ASTM B850: [time], common practice: [ph, temperature]}",
		Means: "what the values rest on, one by one; of an article, each by enough words of one of its sources (a single source needs no such list)",
	}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		if n.Kind != yaml.MappingNode {
			d.report(ruleWrongValue, d.at(n), "“rests-on” takes a line for each source, with the keys that rest on it.", "Write for example: rests-on: "+key.Example)
			return
		}
		for i := 0; i+1 < len(n.Content); i += 2 {
			name, keys := n.Content[i], n.Content[i+1]
			*to(into) = append(*to(into), Rest{Source: Ref{Name: strings.TrimSpace(name.Value), At: d.at(name)}, Keys: d.texts(keys, Key{Name: name.Value, Example: "[ph, temperature]"})})
		}
	}}
}

// SourcesNamed gives the sources, by their places in a list, that a name can mean: the one that is the name; or else those that begin with its
// words; or else those that have them. One is wanted.
func SourcesNamed(sources []string, name string) []int {
	var begin, have []int
	want := foldWords(name)
	if want == "" {
		return nil
	}
	for i, s := range sources {
		s = foldWords(s)
		at := indexOfWords(s, want)
		switch {
		case s == want:
			return []int{i}
		case at == 0:
			begin = append(begin, i)
		case at > 0:
			have = append(have, i)
		}
	}
	if len(begin) > 0 {
		return begin
	}
	return have
}

func foldWords(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// indexOfWords is where words stand in a text, neither beginning nor ending within one of its words; −1 where they do not.
func indexOfWords(text, words string) int {
	letter := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	for from := 0; ; {
		at := strings.Index(text[from:], words)
		if at < 0 {
			return -1
		}
		at += from
		before, _ := utf8.DecodeLastRuneInString(text[:at])
		after, _ := utf8.DecodeRuneInString(text[at+len(words):])
		first, _ := utf8.DecodeRuneInString(words)
		last, _ := utf8.DecodeLastRuneInString(words)
		if !(letter(before) && letter(first)) && !(letter(last) && letter(after)) {
			return at
		}
		from = at + 1
	}
}

// SourcesOf gives the places, in Head.Sources, of those on which the value of a header key rests; none where the header does not say.
func (a *Article) SourcesOf(key string) []int {
	if len(a.Head.Sources) == 1 {
		return []int{0}
	}
	var list []int
	for _, r := range a.Head.RestsOn {
		if slices.ContainsFunc(r.Keys, func(k Ref) bool { return k.Name == key }) {
			list = append(list, a.SourcesNamed(r.Source.Name)...)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// SourcesNamed gives the places, in Head.Sources, of those that a name can mean.
func (a *Article) SourcesNamed(name string) []int { return SourcesNamed(a.Head.Sources, name) }

// HarmKeys lists the keys of a kind of article whose values decide whether a person or a part is hurt.
func HarmKeys(k Kind) []string {
	var list []string
	for _, f := range k.declared().all {
		if f.Harm {
			list = append(list, f.Name)
		}
	}
	return list
}

// Weakest is the lowest standing of some sources; NotSaid where there are none.
func Weakest(sources []string) Standing {
	if len(sources) == 0 {
		return NotSaid
	}
	return StandingOf(slices.MinFunc(sources, func(a, b string) int { return cmp.Compare(StandingOf(a), StandingOf(b)) }))
}

// SourceTexts gives the sources at some places of Head.Sources.
func (a *Article) SourceTexts(places []int) []string {
	var list []string
	for _, i := range places {
		list = append(list, a.Head.Sources[i])
	}
	return list
}
