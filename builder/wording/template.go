package wording

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// Written is what a template came to.
type Written struct {
	Phrases int      // that the program says
	Shown   int      // of them that are translated: in this file or in the words that the program has already
	Missing []string // the others, which are shown in English
	New     []string // of the missing ones those that the file had no line for
	Changed []Change // phrases that seem to be others in other words: their translations stand above them as remarks
	Gone    []string // phrases of the file that nothing says, in the remarks at its end from now on
}

// Change is a phrase that the program says in another way than when it was translated.
type Change struct{ Before, Now, Shown string }

// Template writes the file of a list for a language, of what the file had, or of nothing. There is a line for every phrase that is translated in the file
// and for every one that is translated nowhere; with all, also for those that the program has words for already, builtIn. What was translated stays, and so
// do remarks. Of what the program no longer says the translation is kept as a remark: above the phrase that it has probably become, and at the end.
func Template(l List, tag string, builtIn map[string]string, before []byte, all bool) ([]byte, Written, error) {
	old, err := read(before)
	if err != nil {
		return nil, Written{}, err
	}
	t := template{list: l, tag: tag, builtIn: builtIn, old: old, all: all, phrases: l.Phrases()}
	t.compare()
	t.write()
	return []byte(t.text.String()), t.told, nil
}

// line is a phrase of a file.
type line struct {
	phrase, shown string
	remarks       []string // somebody's own, above it
	was           string   // remark about what it was before it changed, until it is translated anew
}

// file is what a file of words holds.
type file struct {
	lines []line
	at    map[string]int
	kept  []string // remarks of the last section: translations of what is said no longer
}

type template struct {
	list    List
	tag     string
	builtIn map[string]string
	old     file
	all     bool
	phrases []Phrase
	changed map[string]Change // by the new phrase
	gone    []line
	told    Written
	text    strings.Builder
}

// Words that open the program's own remarks, by which they are known when the file is written anew.
const (
	forMark     = "# for: "
	changedMark = "# was: "
	sectionMark = "# ---- "
	headMark    = "#: "
	goneSection = "no longer said by the program; take these lines out when nothing in them is of use"
)

// read reads a file with its remarks.
func read(data []byte) (file, error) {
	f := file{at: map[string]int{}}
	if text, last, is := strings.Cut(string(data), sectionMark+goneSection+"\n"); is {
		data = []byte(text)
		for l := range strings.Lines(last) {
			if l = strings.TrimSpace(l); l != "" {
				f.kept = append(f.kept, l)
			}
		}
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil {
		return f, err
	}
	if len(doc.Content) == 0 {
		return f, nil
	}
	m := doc.Content[0]
	if m.Kind != yaml.MappingNode {
		return f, fmt.Errorf("the file is no list of phrases, each with a colon and what is shown for it")
	}
	for i := 0; i+1 < len(m.Content); i += 2 {
		key, value := m.Content[i], m.Content[i+1]
		if key.Kind != yaml.ScalarNode || value.Kind != yaml.ScalarNode {
			return f, fmt.Errorf("line %d is no phrase with a colon and what is shown for it", key.Line)
		}
		if _, twice := f.at[key.Value]; twice {
			return f, fmt.Errorf("line %d has the phrase %q for the second time; keep one of the two", key.Line, key.Value)
		}
		shown := value.Value
		if value.Tag == "!!null" {
			shown = ""
		}
		f.at[key.Value] = len(f.lines)
		comments := []string{doc.HeadComment, m.HeadComment, key.HeadComment, key.LineComment, value.LineComment, key.FootComment}
		f.lines = append(f.lines, line{key.Value, shown, remarks(comments...), wasBefore(comments)})
		doc.HeadComment, m.HeadComment = "", ""
	}
	return f, nil
}

// remarks are those of a translator, without the program's own.
func remarks(comments ...string) []string {
	var list []string
	for _, c := range comments {
		for l := range strings.Lines(c) {
			l = strings.TrimSpace(l)
			own := slices.ContainsFunc([]string{forMark, changedMark, sectionMark, headMark}, func(mark string) bool { return strings.HasPrefix(l+" ", mark) })
			if l != "" && !own {
				list = append(list, l)
			}
		}
	}
	return list
}

// wasBefore is the program's remark about what a phrase was before it changed, or "".
func wasBefore(comments []string) string {
	for _, c := range comments {
		for l := range strings.Lines(c) {
			if l = strings.TrimSpace(l); strings.HasPrefix(l, changedMark) {
				return l
			}
		}
	}
	return ""
}

// compare finds what is new, changed, gone and missing.
func (t *template) compare() {
	known := map[string]bool{}
	var fresh []string
	for _, p := range t.phrases {
		known[p.English] = true
		i, there := t.old.at[p.English]
		translated := there && t.old.lines[i].shown != ""
		if translated || t.builtIn[p.English] != "" {
			t.told.Shown++
			continue
		}
		t.told.Missing = append(t.told.Missing, p.English)
		if !there {
			fresh = append(fresh, p.English)
		}
	}
	t.told.Phrases, t.told.New = len(t.phrases), fresh
	t.changed = map[string]Change{}
	for _, l := range t.old.lines {
		if known[l.phrase] {
			continue
		}
		t.told.Gone = append(t.told.Gone, l.phrase)
		t.gone = append(t.gone, l)
		if now := successor(l.phrase, fresh); now != "" && l.shown != "" && t.changed[now].Now == "" {
			c := Change{Before: l.phrase, Now: now, Shown: l.shown}
			t.changed[now], t.told.Changed = c, append(t.told.Changed, c)
		}
	}
}

func (t *template) line(text string) { t.text.WriteString(text + "\n") }

func (t *template) write() {
	t.head()
	section := ""
	for _, p := range t.phrases {
		i, there := t.old.at[p.English]
		if !there && !t.all && t.builtIn[p.English] != "" {
			continue
		}
		first, _, several := strings.Cut(p.For, "; ")
		if first != section {
			section = first
			t.line("")
			t.line(sectionMark + section)
		}
		shown, was := t.builtIn[p.English], ""
		if there {
			was = t.old.lines[i].was
			for _, r := range t.old.lines[i].remarks {
				t.line(r)
			}
			shown = t.old.lines[i].shown
		}
		if several {
			t.line(forMark + p.For)
		}
		if c, is := t.changed[p.English]; is {
			was = changedMark + Quote(c.Before) + ": " + Quote(c.Shown)
		}
		if was != "" && shown == "" {
			t.line(was)
		}
		t.line(Quote(p.English) + ": " + Quote(shown))
	}
	t.last()
}

// head explains the file to whoever translates it.
func (t *template) head() {
	what := "what pages, cards, reasons and the search say"
	if t.list == Calculators {
		what = "what the calculators say, with the kinds of quantities"
	}
	for _, l := range []string{
		fmt.Sprintf("Words of the language %s: %s.", t.tag, what),
		fmt.Sprintf("%d of %d phrases are translated. The others are shown in English, and tankside proof counts them.", t.told.Shown, t.told.Phrases),
		"On the left stands the English phrase, which stays as it is; on the right, in the quotation marks, goes what is shown. \"\" is not translated yet.",
		"What is put in when the phrase is said, such as %s, %d or {volume}, stays in the same order; each number stays; a quotation mark within the text is written \\\".",
		"A phrase that begins in small letters is part of a sentence or stands behind a colon. Decimal points stay points: numbers are the same in every language.",
		"DANGER, WARNING, CAUTION and NOTICE are the signal words of ISO 3864-2: take those of your country's edition of that standard, in capitals, and name it in a remark.",
		"Remarks of your own, lines that begin with #, are kept. Run tankside words " + t.tag + " again when there is a new tankside.",
	} {
		t.line(headMark + l)
	}
}

// last keeps what is said no longer.
func (t *template) last() {
	if len(t.gone) == 0 && len(t.old.kept) == 0 {
		return
	}
	t.line("")
	t.line(sectionMark + goneSection)
	for _, l := range t.old.kept {
		t.line(l)
	}
	for _, g := range t.gone {
		for _, r := range g.remarks {
			t.line(r)
		}
		if g.shown != "" {
			t.line("# " + Quote(g.phrase) + ": " + Quote(g.shown))
		}
	}
}

// Quote writes a text as a double-quoted scalar of YAML 1.2 on one line.
func Quote(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < 0x20 || r >= 0x7f && r < 0xa0 || r == utf8.RuneError || r == 0x2028 || r == 0x2029 || r == 0xfeff:
			b.WriteString(`\u` + fmt.Sprintf("%04x", r))
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
