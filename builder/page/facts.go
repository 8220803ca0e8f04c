package page

import (
	"cmp"
	"html/template"
	"slices"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// gauges draws the process window of an article against the tank that holds its chemistry. Chemistries and materials alone have one: what is
// a limit on others is of something else, such as the time that a lesson takes.
func (s *site) gauges(a *manual.Article) gauges {
	var g gauges
	row := func(name string, l manual.Limit, tank string, today manual.Limit) {
		if one, ok := s.gauge(s.words.say(name), l, tank, today); ok {
			g.Rows = append(g.Rows, one)
		}
	}
	switch a.Kind {
	case manual.Chemistry:
		c := a.Chemistry
		var t manual.Tank
		for _, candidate := range s.Manual.Shop.Tanks {
			if candidate.Chemistry.Name == a.Name {
				t = candidate
				g.Note = "▾ " + s.words.say("marks") + " " + t.Name + " " + s.words.say("as this edition has it")
				break
			}
		}
		row("pH", c.PH, t.Name, manual.Limit{})
		row("Strength", c.Strength, t.Name, t.Strength)
		row("Temperature", c.Temperature, t.Name, t.Temperature)
		row("Time", c.Time, t.Name, manual.Limit{})
		row("Frequency", c.Frequency, t.Name, t.Frequency)
	case manual.Material:
		m := a.Material
		none := manual.Limit{}
		row("pH", m.PH, "", none)
		row("pH with silicate", m.PHSilicated, "", none)
		row("Temperature", m.Temperature, "", none)
		row("Time", m.Time, "", none)
		row("Frequency", m.Frequency, "", none)
	}
	return g
}

// facts lists what the header says of an article beside its windows.
func (s *site) facts(root string, a *manual.Article) []fact {
	l := factList{s: s, root: root}
	if rows := rowsOf[a.Kind]; rows != nil {
		rows(&l, a)
	} else {
		l.named(a)
	}
	return l.facts
}

// rowsOf is what each kind has to say of its header. One that is not here says which articles its header names; a test tells where it has
// other keys.
var rowsOf = map[manual.Kind]func(*factList, *manual.Article){
	manual.Soil: soilRows, manual.Chemistry: chemistryRows, manual.Material: materialRows, manual.Part: partRows,
	manual.Procedure: procedureRows, manual.Lesson: lessonRows, manual.Symptom: symptomRows,
}

func soilRows(l *factList, a *manual.Article) {
	l.text("Nature", a.Soil.Nature)
	l.words("May contain", a.Soil.MayContain)
	for _, r := range a.Soil.RemovedBy {
		l.html("Lifted by", l.liftedBy(a, r))
	}
}

func chemistryRows(l *factList, a *manual.Article) {
	c := a.Chemistry
	if c.NoWater {
		l.text("pH", l.s.words.say("none: there is no water in it"))
	}
	l.words("Contains", ownOnly(c.Contains))
	l.limit("Never above", c.Ceiling)
	l.limit("Cloud point", c.CloudPoint)
	l.limit("Flash point", c.FlashPoint)
	l.soils("Lifts", a, relate.Removes(l.s.Manual, original(a)))
	l.hazards(c.Hazards)
	l.text("Wear", strings.Join(c.ProtectiveEquipment, ", "))
	l.names("Never with", manual.Chemistry, c.NeverWith)
	l.names("Controlled by", manual.Procedure, one(c.ControlTest))
	l.text("Rinses off", cmp.Or(unrinsed[c.Rinses], c.Rinses))
	l.limit("Density of the concentrate", c.Density)
	l.limit("Total alkalinity of the bath", c.Alkalinity)
	l.limit("Acidity of the bath", c.Acidity)
}

// unrinsed says what the grades of rinsing mean that are no grade.
var unrinsed = map[string]string{"stays-on": "no, it is meant to stay on the part", "dries-off": "no, it dries off"}

func materialRows(l *factList, a *manual.Article) {
	if a.Material.NoSound {
		l.text("Frequency", l.s.words.say("no ultrasonics"))
	}
	l.words("Made of", ownOnly(a.Material.MadeOf))
	l.words("Attacked by", a.Material.AttackedBy)
	l.text("Damage looks like", strings.Join(a.Material.Damage, ", "))
}

func partRows(l *factList, a *manual.Article) {
	p := a.Part
	l.names("Material", manual.Material, p.Materials)
	l.words("Mind", p.Features)
	l.names("Soil", manual.Soil, p.Soils)
	for i, st := range p.Steps {
		name := l.s.words.say("Wash")
		if len(p.Steps) > 1 {
			name = admit.WashName(i+1, l.s.words.say)
		}
		l.facts = append(l.facts, fact{name, template.HTML(l.tank(st.Tank) + ", " + l.name(manual.Chemistry, st.Chemistry) + l.window(st.Window))})
	}
	l.html("Rinse", l.rinses(p.Rinse))
	l.html("Dry", l.dryer(p.Dry))
	if p.MustNotSpot {
		l.text("Spots", l.s.words.say("must not spot"))
	}
	l.text("Goes to", p.Next)
}

func procedureRows(l *factList, a *manual.Article) {
	p := a.Procedure
	l.limit("Takes", p.Time)
	l.text("You need", strings.Join(p.Equipment, ", "))
	l.names("Chemistry", manual.Chemistry, p.Chemistries)
	l.hazards(p.Hazards)
	l.text("Wear", strings.Join(p.ProtectiveEquipment, ", "))
}

func lessonRows(l *factList, a *manual.Article) {
	l.limit("Takes", a.Lesson.Duration)
	l.inManualLanguage("For", strings.Join(a.Lesson.For, ", "))
	l.html("Comes after", l.lessonNeeds(a.Lesson.Needs))
}

func symptomRows(l *factList, a *manual.Article) {
	l.names("Seen on", manual.Material, a.Symptom.Affects)
}

// named links all articles that a header names, kind by kind.
func (l *factList) named(a *manual.Article) {
	for _, k := range manual.Kinds {
		var refs []manual.Ref
		for kind, ref := range a.References {
			if kind == k && l.s.Manual.Named(k, ref.Name) != nil {
				refs = append(refs, ref)
			}
		}
		l.names(k.Heading(), k, refs)
	}
}

// factList collects rows and leaves out the empty ones.
type factList struct {
	s     *site
	root  string
	facts []fact
}

func (l *factList) html(name string, value string) {
	if value != "" {
		l.facts = append(l.facts, fact{l.s.words.say(name), template.HTML(value)})
	}
}

func (l *factList) text(name, value string) {
	l.html(name, template.HTMLEscapeString(l.s.words.say(value)))
}

func (l *factList) limit(name string, v manual.Limit) { l.html(name, string(l.s.shown(v))) }

// words lists words of a vocabulary.
func (l *factList) words(name string, refs []manual.Ref) {
	var out []string
	for _, r := range refs {
		out = append(out, l.word(r))
	}
	l.html(name, strings.Join(out, ", "))
}

// word is a word of a header; one of the shop's own with what it means, and whether it is checked.
func (l *factList) word(r manual.Ref) string {
	text := template.HTMLEscapeString(strings.ReplaceAll(r.Name, "-", " "))
	if r.As == "" && !r.Unchecked {
		return template.HTMLEscapeString(l.s.words.say(strings.ReplaceAll(r.Name, "-", " ")))
	}
	if r.Means != "" {
		text += ", " + template.HTMLEscapeString(r.Means)
	}
	if r.Unchecked {
		return text + " (" + template.HTMLEscapeString(l.s.words.say("not checked")) + ")"
	}
	return text + " (" + template.HTMLEscapeString(l.s.words.say("counts as")+" "+l.s.words.say(strings.ReplaceAll(r.As, "-", " "))) + ")"
}

// hazards lists GHS statements with their text.
func (l *factList) hazards(refs []manual.Ref) {
	var out []string
	for _, r := range refs {
		if r.As != "" || r.Unchecked {
			out = append(out, l.word(r))
			continue
		}
		text := r.Name
		if says := manual.HazardStatements[r.Name]; says != "" {
			text += " " + l.s.words.say(says)
		}
		out = append(out, template.HTMLEscapeString(text))
	}
	l.html("Hazards", strings.Join(out, "<br>"))
}

// codes lists the hazards by their codes alone.
func (l *factList) codes(refs []manual.Ref) {
	var out []string
	for _, r := range refs {
		out = append(out, template.HTMLEscapeString(r.Name))
	}
	l.html("Hazards", strings.Join(out, ", "))
}

// name links an article by its name; a name without article stays text.
func (l *factList) name(kind manual.Kind, r manual.Ref) string {
	a := l.s.Manual.Named(kind, r.Name)
	if a == nil {
		return template.HTMLEscapeString(l.s.words.say(strings.ReplaceAll(r.Name, "-", " ")))
	}
	return l.link(a)
}

// languages writes the languages of a link, where they are not the page's.
func languages(l link) string {
	text := ""
	if l.Hreflang != "" {
		text += ` hreflang="` + template.HTMLEscapeString(l.Hreflang) + `"`
	}
	if l.Lang != "" {
		text += ` lang="` + template.HTMLEscapeString(l.Lang) + `"`
	}
	return text
}

// inManualLanguage writes words that stand in the language of the manual: names of roles, means of the shop.
func (l *factList) inManualLanguage(name, value string) {
	text := template.HTMLEscapeString(l.s.words.say(value))
	if lang := l.s.written(); lang != "" && value != "" && l.s.words[value] == "" {
		text = `<span lang="` + template.HTMLEscapeString(lang) + `">` + text + `</span>`
	}
	l.html(name, text)
}

func (l *factList) link(a *manual.Article) string {
	return l.s.toArticle(l.root, a).html()
}

// html is a link in a line of facts. On paper the number of the section that it leads to follows.
func (l link) html() string {
	text := `<a href="` + template.HTMLEscapeString(l.Href) + `"` + languages(l) + `>` + template.HTMLEscapeString(l.Title) + `</a>`
	if l.Number != "" {
		text += ` <span class="see">(` + template.HTMLEscapeString(l.Number) + `)</span>`
	}
	return text
}

// ownOnly gives the words of the shop's own vocabulary, about which a reader has to know how far they are checked.
func ownOnly(refs []manual.Ref) []manual.Ref {
	var list []manual.Ref
	for _, r := range refs {
		if r.As != "" || r.Unchecked {
			list = append(list, r)
		}
	}
	return list
}

// names links articles by their names. A name that is a word of a vocabulary stays text.
func (l *factList) names(name string, kind manual.Kind, refs []manual.Ref) {
	var out []string
	for _, r := range refs {
		out = append(out, l.name(kind, r))
	}
	l.html(name, l.several(out))
}

// several writes links one after the other: on the screen as a list, whose items keep a finger's distance; on paper in a line.
func (l *factList) several(links []string) string {
	if len(links) < 2 || l.s.paper != nil || !slices.ContainsFunc(links, func(link string) bool { return strings.Contains(link, "<a ") }) {
		return strings.Join(links, ", ")
	}
	return `<ul class="names"><li>` + strings.Join(links, "</li><li>") + "</li></ul>"
}

func (l *factList) lessonNeeds(refs []manual.Ref) string {
	var out []string
	for _, r := range refs {
		kind := manual.Lesson
		if l.s.Manual.Named(kind, r.Name) == nil {
			kind = manual.Procedure
		}
		out = append(out, l.name(kind, r))
	}
	return l.several(out)
}

// lifting says what the decision has to say of lifting a soil with a chemistry beside the soil's own window: what stands against it, such as that
// the lot has to be cleared first, or else every condition in a few words.
func (l *factList) lifting(soil *manual.Article, chemistry string) (against, conditions string) {
	answer, err := l.s.sheet.Table.Answer(admit.Question{Soil: soil.Name, Bath: chemistry})
	if err != nil {
		return "", "" // a name that is not there has been reported
	}
	if answer.Verdict == admit.No {
		return string(l.s.both(func(in quantity.System) string { return answer.Reasons[0].Says.In(l.s.sheet.Words, in) })), ""
	}
	answer.Reasons = slices.DeleteFunc(answer.Reasons, func(r admit.Reason) bool { return r.Verdict != admit.Conditions })
	return "", string(l.s.both(func(in quantity.System) string { return answer.Brief(l.s.sheet.Words, in) }))
}

// liftedBy is a chemistry that lifts a soil, with the window and what the decision says of it.
func (l *factList) liftedBy(soil *manual.Article, r manual.Removal) string {
	text := l.name(manual.Chemistry, r.Chemistry) + l.window(r.Window)
	against, conditions := l.lifting(soil, r.Chemistry.Name)
	if conditions != "" {
		return text + "; " + conditions
	}
	if against != "" {
		return text + ": " + against
	}
	return text
}

// soils links soils that a chemistry lifts, each with what stands against it or has to be kept to.
func (l *factList) soils(name string, chemistry *manual.Article, list []*manual.Article) {
	var out []string
	for _, a := range list {
		against, note := l.lifting(a, chemistry.Name)
		if against != "" {
			note = template.HTMLEscapeString(l.s.words.say("stop"))
		}
		if note != "" {
			note = " (" + note + ")"
		}
		out = append(out, l.link(a)+note)
	}
	l.html(name, l.several(out))
}

// window writes how strong, hot, long and at what frequency.
func (l *factList) window(w manual.Window) string {
	var out []string
	for _, v := range []manual.Limit{w.Strength, w.Temperature, w.Time, w.Frequency} {
		if t := l.s.shown(v); t != "" {
			out = append(out, string(t))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return ": " + strings.Join(out, ", ")
}

func (l *factList) tank(r manual.Ref) string {
	for _, t := range l.s.Manual.Shop.Tanks {
		if t.ID == r.Name {
			return l.s.toPage(l.root, tankPage(t.ID), t.Name).html()
		}
	}
	return template.HTMLEscapeString(r.Name)
}

func (l *factList) rinses(refs []manual.Ref) string {
	var out []string
	for _, r := range refs {
		name := r.Name
		for _, rinse := range l.s.Manual.Shop.Rinses {
			if rinse.ID == r.Name {
				name = rinse.Name
			}
		}
		out = append(out, l.s.toPage(l.root, l.s.vesselPage(r.Name, "rinse"), name).html())
	}
	return l.several(out)
}

func (l *factList) dryer(r manual.Ref) string {
	d := l.s.Manual.Shop.Dryer
	if r.Name == "" || d.ID != r.Name {
		return template.HTMLEscapeString(r.Name)
	}
	text := l.s.toPage(l.root, l.s.vesselPage(d.ID, "dry"), d.Name).html()
	if t := l.s.shown(d.Temperature); t != "" {
		text += ", " + string(t)
	}
	return text
}

func one(r manual.Ref) []manual.Ref {
	if r.Name == "" {
		return nil
	}
	return []manual.Ref{r}
}
