package manual

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/expression"
	"tankside/builder/finding"
)

// A translation is an article in another language that stands beside the original: soils/wax.es.md beside soils/wax.md. It has words of its
// own and nothing else; quantities, relations and limits are those of the original, so that the two cannot contradict each other.

// languageTag is a tag of BCP 47 as far as files need it: a language, a script, a region.
var languageTag = expression.Of(`(?i)^([a-z]{2,3})(?:-([a-z]{4}))?(?:-([a-z]{2}|[0-9]{3}))?$`)

// Language gives a language tag in the letters that BCP 47 recommends (RFC 5646, section 2.1.1), such as es-MX, and whether it is one: a
// language, a script and a region of which the last two may be missing.
func Language(tag string) (string, bool) {
	m := languageTag.FindStringSubmatch(tag)
	if m == nil {
		return "", false
	}
	tag = strings.ToLower(m[1])
	if m[2] != "" {
		tag += "-" + strings.ToUpper(m[2][:1]) + strings.ToLower(m[2][1:])
	}
	if m[3] != "" {
		tag += "-" + strings.ToUpper(m[3])
	}
	return tag, true
}

// translationOf parts the path of a translation into that of the original and the language; without a language tag in small letters before
// .md, ok is false.
func translationOf(p string) (original, language string, ok bool) {
	extension := path.Ext(p)
	stem := strings.TrimSuffix(p, extension)
	dot := strings.LastIndexByte(stem, '.')
	if dot <= strings.LastIndexByte(stem, '/')+1 {
		return "", "", false
	}
	language, ok = Language(stem[dot+1:])
	return stem[:dot] + extension, language, ok && stem[dot+1:] == strings.ToLower(language)
}

// OriginalOf gives the path of the original of a translation and the language; of any other path, itself and "".
func OriginalOf(p string) (original, language string) {
	if original, language, ok := translationOf(p); ok {
		return original, language
	}
	return p, ""
}

// translationHeadKeys are the keys of a translation's header, whatever its kind.
var translationHeadKeys = []field[Article]{
	text("title", "the article's title in this language", "Cera dura", 80, func(a *Article) *string { return &a.Head.Title }).must(),
	text("summary", "its summary in this language", "La cera sale por encima de su punto de fusión.", 240, func(a *Article) *string { return &a.Head.Summary }).must(),
	text("translates", "the revision of the original that it is a translation of", "C", 12, func(a *Article) *string { return &a.Head.Revision }).must(),
	approvedKey("who approved the translation as it stands here, in which role, and when").must(),
	draftKey("that the translation is not finished"),
	texts("also-called", "everyday words of this language that people use or type for it", "[manchas blancas, marcas de agua]", func(a *Article) *[]string { return &a.Head.AlsoCalled }),
	each("accept", "findings about the translation that are accepted, with the reason that is printed in it", acceptKeys,
		func(a *Article) *[]Acceptance { return &a.Head.Accept }, func(c *Acceptance, at finding.Place) { c.At = at }),
}

// wording is a key of a translation's header beside those: what the original's header says in words.
type wording struct {
	field[Article]
	count func(*Article) int     // how many items it has, where it is a list: as many as the original's
	give  func(to, own *Article) // puts a translation's own words in place of the original's
}

// wordList is a list of texts in the original's order.
func wordList(name, means, example string, to func(*Article) *[]string) wording {
	return wording{texts(name, means, example, to),
		func(a *Article) int { return len(*to(a)) },
		func(a, own *Article) { *to(a) = *to(own) }}
}

// translatedLabel is the words under a symptom's drawing.
func translatedLabel() wording {
	label := func(a *Article) *string { return &a.Symptom.Label }
	return wording{text("label", "two to four words under its drawing", "Manchas al secar", 28, label), nil,
		func(a, own *Article) { *label(a) = *label(own) }}
}

// translatedObservations is the list of the observations' words.
func translatedObservations() wording {
	key := Key{Name: "observations", Form: "list of texts", Example: "[manchas o cercos blancos]", Means: "what can be seen with it, in the original's order"}
	return wording{field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		for _, ref := range d.texts(n, key) {
			if tooLong(ref.Name, 60) {
				d.report(ruleWrongValue, ref.At, "An observation has more than 60 characters.", "Say it shorter.")
			}
			a.Symptom.Observations = append(a.Symptom.Observations, Observation{Seen: ref.Name, At: ref.At})
		}
	}}, func(a *Article) int { return len(a.Symptom.Observations) }, func(a, own *Article) {
		a.Symptom.Observations = slices.Clone(a.Symptom.Observations)
		for i := range a.Symptom.Observations {
			a.Symptom.Observations[i].Seen = own.Symptom.Observations[i].Seen
		}
	}}
}

// fieldsOf are the keys by themselves.
func fieldsOf(list []wording) []field[Article] {
	var fields []field[Article]
	for _, w := range list {
		fields = append(fields, w.field)
	}
	return fields
}

// TranslationKeys are the keys of the header of every translation.
func TranslationKeys() []Key { return keysOf(translationHeadKeys) }

// TranslationKindKeys are the keys that the translation of a kind has beside TranslationKeys.
func TranslationKindKeys(kind Kind) []Key { return keysOf(fieldsOf(kind.declared().translated)) }

// readTranslationHead fills the header of a translation. A key that only the original has is reported and left out.
func readTranslationHead(d *decoder, a *Article, mapping *yaml.Node) {
	keys := slices.Concat(translationHeadKeys, fieldsOf(a.Kind.declared().translated))
	own := *mapping
	own.Content = nil
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		key, value := mapping.Content[i], mapping.Content[i+1]
		if find(keys, key.Value) == nil && find(a.Kind.declared().all, key.Value) != nil {
			d.report(ruleRepeatedFact, d.at(key), fmt.Sprintf("The translation repeats “%s”, which the original says.", key.Value),
				"Take it out: what the original's header says counts for its translations.")
			continue
		}
		own.Content = append(own.Content, key, value)
	}
	a.Head.At = make(map[string]finding.Place, len(own.Content)/2)
	decode(d, a, &own, keys, "translation's header", func(key string, at finding.Place) { a.Head.At[key] = at })
}

// joined is a translation that was joined with its original.
type joined struct{ original, made *Article }

// translate joins each translation with its original: what it does not say itself is the original's. Those that were joined before are the
// same again where both are as they were.
func (m *Manual) translate(before map[*Article]joined) map[*Article]joined {
	after := make(map[*Article]joined, len(m.translations))
	for i, t := range m.translations {
		if original, _, _ := translationOf(t.Path); m.byPath[original] != nil { // otherwise reported by the rules
			j, known := before[t]
			if !known || j.original != m.byPath[original] {
				j = joined{m.byPath[original], join(t, m.byPath[original])}
			}
			after[t] = j
			m.translations[i] = j.made
		}
		m.byPath[t.Path] = m.translations[i]
	}
	return after
}

// join makes a translation of its own words and the original's facts.
func join(words, o *Article) *Article {
	t := *words
	t.Original = o
	h := &t.Head
	h.Station, h.ReviewBy, h.Sources, h.SeeAlso = o.Head.Station, o.Head.ReviewBy, o.Head.Sources, o.Head.SeeAlso
	t.firstAid, t.names = o.firstAid, o.names
	t.wordingOf(o)
	t.factsOf(words, o)
	t.Sums = slices.Clone(t.Sums)
	for i := range t.Sums {
		if i < len(o.Sums) && t.Sums[i].Calculator == o.Sums[i].Calculator {
			t.Sums[i].Inputs = o.Sums[i].Inputs
		}
	}
	return &t
}

// factsOf gives a translation what the model knows of the original, with the translation's own words where it has them all.
func (a *Article) factsOf(own, o *Article) {
	k := a.Kind.declared()
	if len(k.translated) == 0 {
		k.facts.share(a, o)
		return
	}
	k.facts.clone(a, o)
	for _, w := range k.translated {
		if w.count == nil || w.count(own) == w.count(o) {
			w.give(a, own)
		}
	}
}

// In gives an article in a language: the article itself where that is its own, its translation, or nil. An original's own language is "".
func (m *Manual) In(a *Article, language string) *Article {
	if a.Original != nil {
		a = a.Original
	}
	if language == "" {
		return a
	}
	extension := path.Ext(a.Path)
	if t := m.At(strings.TrimSuffix(a.Path, extension) + "." + strings.ToLower(language) + extension); t != nil && t.Original == a && (!m.LeftOut(t) || m.LeftOut(a)) {
		return t
	}
	return nil
}

// Same gives the section of another language's article that stands in the place of one of this article's, where both have the same sections,
// or nil.
func (a *Article) Same(section *Section, in *Article) *Section {
	if len(a.Sections) != len(in.Sections) {
		return nil
	}
	var same *Section
	for i := range a.Sections {
		if a.Sections[i].Level != in.Sections[i].Level {
			return nil
		}
		if &a.Sections[i] == section {
			same = &in.Sections[i]
		}
	}
	return same
}

// Wording is a list of words of a header: how many items the translation has under the key, and how many the original.
type Wording struct {
	Key           string
	Own, Original int
}

// Wording compares the lists of a translation's own header with the original's.
func (a *Article) Wording() []Wording { return a.wording }

// wordingOf notes how many items the lists of a translation and of its original have, before the one gets what it lacks from the other.
func (a *Article) wordingOf(o *Article) {
	a.wording = nil
	for _, w := range a.Kind.declared().translated {
		if w.count != nil {
			a.wording = append(a.wording, Wording{w.Name, w.count(a), w.count(o)})
		}
	}
}

// Refused tells whether there is a file at a path that could not be read.
func (m *Manual) Refused(path string) bool { return m.refused[path] }

// Languages lists the languages of the translations that the manual has or is to have, beside its own, in order.
func (m *Manual) Languages() []string {
	var list []string
	for _, t := range m.Shop.Translations {
		if tag, ok := Language(t.Name); ok {
			list = append(list, tag)
		}
	}
	for _, t := range m.translations {
		list = append(list, t.Language)
	}
	slices.Sort(list)
	own, _ := Language(m.OwnLanguage())
	return slices.DeleteFunc(slices.Compact(list), func(tag string) bool { return tag == own })
}

// OwnLanguage is the language in which the manual's originals are written: the shop file's, or English.
func (m *Manual) OwnLanguage() string {
	if m.Shop.Language == "" {
		return "en"
	}
	return m.Shop.Language
}
