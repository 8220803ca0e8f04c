// Package markup writes the answer to “may it go in?” as HTML. The same functions run when an edition is published, in the tables
// and lists of its pages, and in the reader's browser, so that what stands on a page and what it answers cannot differ.
//
//	sheet := markup.Sheet{Table: table}
//	html := sheet.Answer(admit.Question{Materials: []string{"brass"}, Bath: "wash-1"})
//
// An answer is
//
//	<p class="verdict no"><span class="verdict-mark" aria-hidden="true">✕</span> No</p>
//	<p class="asked">Brass, into Wash 1.</p>
//	<section class="why">…</section>             reasons, each a link to its article
//	<section class="recipe">…</section>          where the verdict is not no
//	<section class="careful">…</section>         safety messages in the markup that articles have, protective equipment
//	<section class="instead">…</section>         other baths that would do, each a link that asks about it
//
// Quantities stand in it in both families of units, <span class="si">…</span><span class="us">…</span>, the shop's own first; the page shows one.
//
// Links are relative to the root of the edition, where the page that asks stands. Everything that is not markup is escaped; nothing has
// a style or a script of its own; the output depends on the arguments alone.
package markup

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/language"
	"tankside/builder/quantity"
)

// Page is the page that asks, from the root of the edition.
const Page = "may-it-go-in.html"

// Anchor is the anchor in an article's page at which what its header says begins. No heading has an anchor with a dot.
const Anchor = "at.header"

// Phrases are the words that an answer is written with, beside those of its reasons. A Sheet may have others for them.
var Phrases = []string{
	"Yes", "Yes, with conditions", "No", "Why not", "What it takes", "What speaks for it", "The recipe", "Chemistry", "pH", "Strength",
	"Temperature", "Time", "Frequency", "Be careful", "Wear", "Other baths that would take it", "Baths that would take it",
	"No other bath of this manual takes it.", "No bath of this manual takes it.", "as this edition has it", "by itself, in a tank made up for it",
	"Pick at least one material.", "into", "with", "and", "no soil named: whether it comes off is another question",
	"This is where a trial begins, not a release. Law and permits, the safety data sheet, the supplier's sheet and the customer's drawing come first.",
	"How", "by hand or soak, no sound", "today", "then", "Nothing changes: every material has the answer that it has today.", "An amount with its unit is needed, such as 68 °C, 4 % v/v or 40 kHz.", "Compare with", "This manual does not have that name", "the article", "DANGER", "WARNING", "CAUTION", "NOTICE",
}

// Sheet is what answers are made of.
type Sheet struct {
	Table *admit.Table
	Words language.Words // of the interface
}

func (s *Sheet) say(phrase string) string { return s.Words.Say(phrase) }

// systems are the two families of units, the shop's own first.
func (s *Sheet) systems() [2]quantity.System {
	own, _ := quantity.SystemNamed(s.Table.System)
	if own == quantity.US {
		return [2]quantity.System{quantity.US, quantity.SI}
	}
	return [2]quantity.System{quantity.SI, quantity.US}
}

// Marks tell verdicts apart without colour.
var Marks = map[admit.Verdict]string{admit.Yes: "✓", admit.Conditions: "◐", admit.No: "✕"}

// Verdict is a verdict as it is read out and shown.
func Verdict(v admit.Verdict) string {
	switch v {
	case admit.Yes:
		return "Yes"
	case admit.Conditions:
		return "Yes, with conditions"
	}
	return "No"
}

// Href is the page on which a place of the manual is shown, from the root of the edition. What stands in the shop file is shown on the
// page of the tank that is asked about.
func Href(at admit.Place, bath *admit.Bath) string {
	if article, is := strings.CutSuffix(at.Article, ".md"); is {
		return article + ".html#" + Anchor
	}
	if bath != nil && bath.Tank != nil {
		return "tanks/" + bath.Name + ".html"
	}
	return "index.html"
}

// Ask is the address of the page that asks, with a question. Names are those of files and tanks, which need no escapes in an address.
func Ask(q admit.Question) string { return Page + "#" + Key(q) }

// Key writes a question as the end of an address: material=brass&material=glass&soil=wax&bath=wash-1.
func Key(q admit.Question) string {
	var parts []string
	for _, m := range q.Materials {
		parts = append(parts, "material="+m)
	}
	if q.Soil != "" {
		parts = append(parts, "soil="+q.Soil)
	}
	if q.Bath != "" {
		parts = append(parts, "bath="+q.Bath)
	}
	return strings.Join(parts, "&")
}

// Answer writes the answer to a question. A question without a bath is answered with the baths that would take the load.
func (s *Sheet) Answer(q admit.Question) string {
	w := writer{sheet: s, bath: s.Table.Bath(q.Bath)}
	if len(q.Materials) == 0 {
		w.Put(`<p class="admit-wanting">{}</p>`, s.say("Pick at least one material."))
		return w.String()
	}
	instead, err := s.Table.Instead(q)
	var a admit.Answer
	if err == nil && q.Bath != "" {
		a, err = s.Table.Answer(q)
	}
	if err != nil {
		w.Put(`<p class="admit-wanting">{}: {}</p>`, s.say("This manual does not have that name"), unknown(err))
		return w.String()
	}
	if q.Bath == "" {
		w.Put("<p class=\"asked\">{}</p>\n", s.Asked(q))
		w.instead(q, instead, "Baths that would take it", "No bath of this manual takes it.")
		return w.String()
	}
	w.Put("<p class=\"verdict {}\"><span class=\"verdict-mark\" aria-hidden=\"true\">{}</span> {}</p>\n<p class=\"asked\">{}</p>\n",
		string(a.Verdict), Marks[a.Verdict], s.say(Verdict(a.Verdict)), s.Asked(q))
	w.reasons("Why not", a.Reasons, admit.No)
	w.reasons("What it takes", a.Reasons, admit.Conditions)
	if a.Verdict == admit.No {
		w.instead(q, instead, "Other baths that would take it", "No other bath of this manual takes it.")
	}
	w.cautions(a)
	if a.Recipe != nil {
		w.recipe(a.Recipe)
		w.reasons("What speaks for it", a.Reasons, admit.Yes)
		w.instead(q, instead, "Other baths that would take it", "No other bath of this manual takes it.")
	}
	w.Put("<p class=\"admit-note\">{}</p>\n", s.say("This is where a trial begins, not a release. Law and permits, the safety data sheet, the supplier's sheet and the customer's drawing come first."))
	return w.String()
}

// unknown is the name that an error is about: Table gives no other errors.
func unknown(err error) string {
	if u, is := err.(*admit.UnknownError); is { // errors.As would cost the page 14 kB
		return "“" + u.Name + "”"
	}
	return err.Error()
}

// Spoken is the answer in a sentence or two, for a screen reader: the verdict and what decides it, in the units that the reader has chosen.
func (s *Sheet) Spoken(q admit.Question, units quantity.System) string {
	if len(q.Materials) == 0 {
		return s.say("Pick at least one material.")
	}
	if q.Bath == "" {
		instead, err := s.Table.Instead(q)
		switch {
		case err != nil:
			return s.say("This manual does not have that name") + ": " + unknown(err)
		case len(instead) == 0:
			return s.say("No bath of this manual takes it.")
		}
		var names []string
		for _, alt := range instead {
			names = append(names, alt.Title)
		}
		return s.say("Baths that would take it") + ": " + strings.Join(names, ", ") + "."
	}
	a, err := s.Table.Answer(q)
	if err != nil {
		return s.say("This manual does not have that name") + ": " + unknown(err)
	}
	text := s.say(Verdict(a.Verdict)) + ". " + s.Asked(q)
	for i, r := range a.Reasons {
		if i < 2 {
			text += " " + r.Says.In(s.Words, units)
		}
	}
	return text
}

// Asked repeats the question in words.
func (s *Sheet) Asked(q admit.Question) string {
	var names []string
	for _, name := range q.Materials {
		names = append(names, title(s.Table.MaterialItems(), name))
	}
	text := names[len(names)-1]
	if len(names) > 1 {
		text = strings.Join(names[:len(names)-1], ", ") + " " + s.say("and") + " " + text
	}
	if q.Soil != "" {
		text += ", " + s.say("with") + " " + title(s.Table.SoilItems(), q.Soil)
	}
	if b := s.Table.Bath(q.Bath); b != nil {
		text += ", " + s.say("into") + " " + b.Title
		if b.Tank != nil {
			text += " (" + b.Chemistry.Title + ", " + s.say("as this edition has it") + ")"
		} else {
			text += " (" + s.say("by itself, in a tank made up for it") + ")"
		}
	}
	if q.Soil == "" {
		text += "; " + s.say("no soil named: whether it comes off is another question")
	}
	return text + "."
}

func title(items []admit.Item, name string) string {
	for i := range items {
		if items[i].Name == name {
			return items[i].Title
		}
	}
	return name
}
