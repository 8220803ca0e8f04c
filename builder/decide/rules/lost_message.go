package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// lostMessage finds safety messages of an original that its translation lacks, or has with a signal word of another meaning.
// It prevents that somebody is hurt who reads the language that lost the warning. The limit is the original: each of its messages in the
// same section, where the two have the same sections, with a word of the same meaning.
var lostMessage = finding.Rule{
	Name: "lost-message", Severity: finding.People,
	Finds:  "a safety message of the original that the translation lacks, or has with another severity",
	Why:    "Who reads the translation is not warned of what readers of the original are warned of.",
	Source: "ANSI Z535.6: one signal word for one degree of harm, from memory, to be confirmed by the safety officer; the original",
}

func findLostMessages(p *proof, t *manual.Article) []finding.Finding {
	o := t.Original
	if o == nil {
		return nil
	}
	comparable := len(o.Sections) > 0 && (len(t.Sections) == 1 && len(o.Sections) == 1 || o.Same(&o.Sections[0], t) != nil)
	group := func(a *manual.Article, line int) int {
		if !comparable {
			return 0
		}
		return sectionAt(a, line)
	}
	grouped := func(a *manual.Article) map[int][]manual.Signal {
		groups := map[int][]manual.Signal{}
		for _, s := range a.Signals {
			g := group(a, s.At.Line)
			groups[g] = append(groups[g], s)
		}
		return groups
	}
	own, theirs := grouped(t), grouped(o)
	var list []finding.Finding
	for g := range max(1, len(o.Sections)) {
		place := at(t, "title")
		if comparable && g < len(t.Sections) && t.Sections[g].Level > 0 {
			place = t.Sections[g].At
		}
		here, there := unlike(own[g], theirs[g])
		for i, s := range there {
			if i < len(here) {
				list = append(list, lostMessage.At(here[i].At, fmt.Sprintf("The message is marked %s, which means %s; the original's is %s.", here[i].Shown, here[i].Word, s.Word),
					"Give it the signal word of the same meaning"+p.among(t.Language)+".", s.At))
				continue
			}
			list = append(list, lostMessage.At(place, fmt.Sprintf("The original's message %s “%s” is missing here.", s.Word, shorten(s.Text)),
				"Translate it, in a block quote that opens with its signal word"+p.among(t.Language)+".", s.At))
		}
	}
	return list
}

// unlike leaves the messages of two groups that are not the same in both: compared one by one where they are as many, otherwise by their words
// alone.
func unlike(own, theirs []manual.Signal) (here, there []manual.Signal) {
	if len(own) == len(theirs) {
		for i := range own {
			if own[i].Word != theirs[i].Word {
				here, there = append(here, own[i]), append(there, theirs[i])
			}
		}
		return here, there
	}
	here = slices.Clone(own)
	for _, s := range theirs {
		if same := slices.IndexFunc(here, func(c manual.Signal) bool { return c.Word == s.Word }); same >= 0 {
			here = slices.Delete(here, same, same+1)
		} else {
			there = append(there, s)
		}
	}
	return here, there
}

// among names the signal words of a language, where there are any.
func (p *proof) among(language string) string {
	text := ""
	for _, w := range p.SignalWordsIn(language) {
		if text != "" {
			text += ", "
		}
		text += w
	}
	if text == "" {
		return ""
	}
	return ": " + text
}

// sectionAt is the index of the section in which a line stands.
func sectionAt(a *manual.Article, line int) int {
	at := 0
	for i, s := range a.Sections {
		if s.At.Line <= line {
			at = i
		}
	}
	return at
}
