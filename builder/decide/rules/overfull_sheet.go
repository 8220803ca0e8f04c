package rules

import (
	"fmt"
	"slices"
	"sync"

	"go.yaml.in/yaml/v3"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/handout"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/themes"
)

// overfullSheet finds cards, process sheets, logs and forms that need more room than their paper has. It prevents that a card is set in letters that nobody reads at the tank,
// or hangs there without its last lines. It is on the safe side: letters as wide as the widest face of a system has them, and the longer of both families of units. What is
// printed is cut off nowhere: it goes on on a further sheet. In each language of the manual it reckons with the words that the program has for it, not with those of a theme.
var overfullSheet = finding.Rule{
	Name: "overfull-sheet", Severity: finding.Untidy,
	Finds:  "a card, process sheet, log or form that takes more than its paper has",
	Why:    "A card of which a part is on another sheet hangs without it, and what is set smaller to fit is read by nobody.",
	Source: "computed: package handout; at least 9 points, and 24 for what is read at a metre, ISO 9241-303:2011 (from memory, to be confirmed by the process engineer)",
}

func findOverfullSheets(p *proof) []finding.Finding {
	if len(p.Shop.Tanks) == 0 || slices.ContainsFunc(p.Shop.Tanks, contradictsItself) {
		return nil
	}
	table := relate.TableOn(p.Manual, p.line)
	p.memo.sheetsOf().Begin(p.Manual, string(table.Pack()))
	var misfits []handout.Misfit
	for _, tag := range append([]string{p.OwnLanguage()}, p.Languages()...) {
		kit := kitOf(p.Manual, table, tag)
		for _, piece := range kit.Pieces() {
			s := p.memo.sheetsOf().Of(p.Manual, tag+" "+piece.Name, func(m *manual.Manual) sheets {
				list, err := piece.Make(kit.Over(m, localTo(m, tag)))
				return sheets{handout.Misfits(list), err}
			})
			if s.err != nil {
				return nil // a tank or material that is not there is a finding where it is named
			}
			misfits = append(misfits, s.misfits...)
		}
	}
	var list []finding.Finding
	told := map[finding.Place]bool{}
	for _, m := range misfits {
		if m.Longest.File == "" || told[m.Longest] {
			continue
		}
		told[m.Longest] = true
		if m.OfName {
			list = append(list, overfullSheet.At(m.Longest, fmt.Sprintf("The name “%s” takes %.0f lines at the head of its sheet (%s), in letters to be read at a metre; there is room for %.0f.",
				m.What, m.Takes, m.Sheet.Kind, m.Has), "Give it a shorter name."))
			continue
		}
		list = append(list, overfullSheet.At(m.Longest, fmt.Sprintf("%s: %s takes %.0f mm on paper, and there are %.0f mm.", m.Sheet.Name, m.Sheet.Kind, m.Takes, m.Has),
			fmt.Sprintf("Shorten what is longest on it, here “%s”, and the texts at the other places. Leave out no condition and no hazard.", handout.Beginning(m.What)), m.Also...))
	}
	return list
}

// sheets are what does not fit of the sheets that are made together, or why they cannot be made.
type sheets struct {
	misfits []handout.Misfit
	err     error
}

// kitOf is what the sheets in a language are made of.
func kitOf(m *manual.Manual, table *admit.Table, tag string) *handout.Kit {
	return handout.New(m, table, phrases("words", tag), phrases("words/calculators", tag), localTo(m, tag))
}

// localTo gives articles in a language, or themselves where they are not translated.
func localTo(m *manual.Manual, tag string) func(*manual.Article) *manual.Article {
	return func(a *manual.Article) *manual.Article {
		if t := m.In(a, tag); t != nil {
			return t
		}
		return a
	}
}

// contradictsItself tells whether a tank is a jar and has what a jar has not, which is a finding of its own: its sheets will be others.
func contradictsItself(t manual.Tank) bool {
	return t.Vessel == manual.Jar && (t.Heater.Set || t.Power.Set || t.Frequency.Set)
}

// phrases are the program's own words in a language, a BCP 47 tag, out of a folder of its theme; none for English and for a language that it does not speak.
func phrases(folder, tag string) language.Words {
	return builtIn(folder + "/" + language.General(tag) + ".yaml")
}

// builtIn are the phrases of a file of words of the program's own theme, or nil where there is no such file.
func builtIn(file string) language.Words {
	if known, has := phrasesRead.Load(file); has {
		return known.(language.Words)
	}
	var words language.Words
	if data, err := themes.New(nil).Read(file); err == nil && yaml.Unmarshal(data, &words) != nil {
		words = nil // a test of package page reads these files
	}
	phrasesRead.Store(file, words)
	return words
}

// phrasesRead are the files that were read: they are part of the program and never change, and an editor asks at every pause.
var phrasesRead sync.Map
