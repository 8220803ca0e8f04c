package page

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
	"tankside/calculators"
	"tankside/calculators/safety"
)

// restsPage lists every value and statement that decides about harm with what it rests on, for whoever answers for the manual: what most wants
// to be looked at stands first.
const restsPage = "rests-on.html"

// restsContent is what it shows.
type restsContent struct {
	Groups  []restGroup
	People  int          // values and sentences with a number that people hang on
	Minutes int          // to read those
	Sources []fullSource // in full, each once; a row names them in short
}

// restGroup has all of one standing.
type restGroup struct {
	Anchor, Title, Note   string
	Count                 int       // of values and statements
	People, Parts, Worded []restRow // what people hang on, what parts and baths do, what has no number
	Here, Others, Words   int       // how many those are
}

// restRow has what rests on the same sources in one place.
type restRow struct {
	Place      link
	Facts      []fact
	Statements []statement
	Sources    []restSource
	Confirm    string // who is to confirm it, where its source does not say
	Lang       string // of the sources and statements, where it is not the page's

	standing manual.Standing
	people   bool
}

// restSource is a source in short, with its number in the list of those in full.
type restSource struct {
	Number int
	Short  string
}

// fullSource is a source in full, with its language where that is not the page's.
type fullSource struct {
	Number int
	Text   string
	Lang   string
}

// statement is a sentence of a text; Signal is the word of the safety message that it stands in.
type statement struct{ Signal, Text string }

// standingWords say what each standing is, and what there is to do about it.
var standingWords = map[manual.Standing][2]string{
	manual.NotSaid:        {"Not said", "Nobody has written on what these rest. Find out, or write that nobody knows."},
	manual.FromMemory:     {"From memory, or a source that nobody can look up", "Somebody recalled these, or read them where no title, year or place is named. Find the document, or confirm them and sign for it."},
	manual.CommonPractice: {"Common practice, no source", "This is what the trade does. Ask whether it fits your parts and baths."},
	manual.DataSheet:      {"The supplier's data sheet", "Lay your own data sheets beside these: the next drum may have others."},
	manual.Calculated:     {"Calculated", "Check what went into the sum."},
	manual.MeasuredHere:   {"Measured here", "Check that somebody has measured it lately."},
	manual.Handbook:       {"Handbooks and other publications", "Look up what decides most."},
	manual.StandardOrLaw:  {"Standards and law", "Check that the edition is the one in force where you are."},
}

// wordsAMinute is how fast people read who look at each line: less than the 238 words a minute of silent reading of English prose (M. Brysbaert,
// Journal of Memory and Language 109 (2019) 104047).
const wordsAMinute = 200

// rests fills the page.
func (s *site) rests(f *frame) error {
	f.Title = s.words.say("What rests on what")
	r := restList{s: s, root: f.Root, at: map[string]int{}, number: map[string]int{}}
	for _, a := range s.Manual.Articles {
		r.article(a)
		r.part(a)
	}
	r.glossary()
	r.shop()
	r.program()
	f.Content = r.content()
	return nil
}

// content parts the rows by standing and by what hangs on them.
func (r *restList) content() restsContent {
	var c restsContent
	words := 0
	for standing := manual.NotSaid; standing <= manual.StandardOrLaw; standing++ {
		title, note := standingWords[standing][0], standingWords[standing][1]
		g := restGroup{Anchor: fmt.Sprintf("standing-%d", standing), Title: r.s.words.say(title), Note: r.s.words.say(note)}
		for _, row := range r.rows {
			if row.standing != standing {
				continue
			}
			numbers, worded := row.parted()
			n, w := numbers.count(), worded.count()
			switch {
			case n > 0 && row.people:
				g.People, g.Here, words = append(g.People, numbers), g.Here+n, words+numbers.length()
			case n > 0:
				g.Parts, g.Others = append(g.Parts, numbers), g.Others+n
			}
			if w > 0 {
				g.Worded, g.Words = append(g.Worded, worded), g.Words+w
			}
		}
		if g.Count = g.Here + g.Others + g.Words; g.Count > 0 {
			c.Groups = append(c.Groups, g)
		}
		c.People += g.Here
	}
	c.Sources, c.Minutes = r.sources, (words+wordsAMinute-1)/wordsAMinute
	return c
}

func (row *restRow) count() int { return len(row.Facts) + len(row.Statements) }

// length is how many words a row has as it is read.
func (row *restRow) length() int {
	n := len(strings.Fields(row.Place.Title)) + len(strings.Fields(row.Confirm))
	for _, f := range row.Facts {
		n += len(strings.Fields(f.Name)) + len(strings.Fields(tag.ReplaceAllString(string(f.Value), " ")))
	}
	for _, st := range row.Statements {
		n += len(strings.Fields(st.Signal)) + len(strings.Fields(st.Text))
	}
	for _, s := range row.Sources {
		n += len(strings.Fields(s.Short))
	}
	return n
}

var tag = expression.Of(`<[^>]*>`)

// parted parts what has a number from what has none.
func (row restRow) parted() (numbers, words restRow) {
	numbers, words = row, row
	numbers.Facts, words.Facts, numbers.Statements, words.Statements = nil, nil, nil, nil
	for _, f := range row.Facts {
		if hasDigit(tag.ReplaceAllString(string(f.Value), " ")) {
			numbers.Facts = append(numbers.Facts, f)
		} else {
			words.Facts = append(words.Facts, f)
		}
	}
	for _, st := range row.Statements {
		if hasDigit(st.Text) {
			numbers.Statements = append(numbers.Statements, st)
		} else {
			words.Statements = append(words.Statements, st)
		}
	}
	return numbers, words
}

func hasDigit(text string) bool { return strings.ContainsAny(text, "0123456789") }

// restList gathers the rows.
type restList struct {
	sources []fullSource
	number  map[string]int // of a source in those
	s       *site
	root    string
	rows    []restRow
	at      map[string]int // by key
}

// row is the row of what rests in one place on the same sources, and of whether people hang on it.
func (r *restList) row(place link, sources []string, people bool) *restRow {
	return r.rowSaid(place, sources, people, asWritten, r.s.written())
}

// rowSaid is the same of sources that are shown otherwise than they are written, in a language.
func (r *restList) rowSaid(place link, sources []string, people bool, show func(string) string, language string) *restRow {
	key := fmt.Sprint(people) + "\x00" + place.Href + "\x00" + place.Title + "\x00" + strings.Join(sources, "\x00")
	i, known := r.at[key]
	if !known {
		i = len(r.rows)
		r.at[key] = i
		r.rows = append(r.rows, restRow{Place: place, Sources: r.short(sources, show, language), Lang: language, standing: manual.Weakest(sources), people: people})
		r.rows[i].Confirm = r.confirm(&r.rows[i], sources)
	}
	return &r.rows[i]
}

// confirming finds whom a source names for it: the short form of the source often ends before that.
var confirming = expression.Of(`to be confirmed by the \pL+(?: \pL+)?`)

// confirm says who is to confirm what somebody recalled, or what nobody has said anything of: whom its sources name, or else who it is for.
func (r *restList) confirm(row *restRow, sources []string) string {
	said := confirming.FindString(strings.Join(sources, "; "))
	switch {
	case row.standing > manual.FromMemory:
		return ""
	case said == "to be confirmed by the safety officer", said == "" && row.people:
		return r.s.words.say("to be confirmed by the safety officer")
	case said == "to be confirmed by the process engineer", said == "":
		return r.s.words.say("to be confirmed by the process engineer")
	}
	return said
}

// short names sources in short, and puts each into the list of those in full.
func (r *restList) short(sources []string, show func(string) string, language string) []restSource {
	var list []restSource
	for _, text := range sources {
		text = show(text)
		if r.number[text] == 0 {
			r.sources = append(r.sources, fullSource{len(r.sources) + 1, text, language})
			r.number[text] = len(r.sources)
		}
		list = append(list, restSource{r.number[text], shortened(text)})
	}
	return list
}

// shortened is a source up to where it begins to tell what it says, and no more than some 60 letters.
func shortened(source string) string {
	const least, most = 14, 60
	text := source
	for _, mark := range []string{": ", "; ", " ("} {
		if at := strings.Index(text, mark); at >= least {
			text = text[:at]
		}
	}
	if letters := []rune(text); len(letters) > most {
		text = string(letters[:most])
		if at := strings.LastIndex(text, " "); at > least {
			text = text[:at]
		}
		text += " …"
	}
	return text
}

// article lists the values of an article's header, and the statements of its text that name a source or have a number that limits or hurts.
func (r *restList) article(a *manual.Article) {
	place := r.s.toArticle(r.root, a)
	l := factList{s: r.s, root: r.root}
	for _, key := range manual.HarmKeys(a.Kind) {
		if _, given := a.Head.At[key]; !given {
			continue
		}
		l.facts = nil
		if write := harmRows[key]; write != nil {
			write(&l, a)
		}
		row := r.row(place, a.SourceTexts(a.SourcesOf(key)), ofPeople(a.Kind, key))
		row.Facts = append(row.Facts, l.facts...)
	}
	r.concessions(place, a)
	r.statements(place, a, &manual.Block{Text: a.Head.Summary}, a.SourcesOf("summary"))
	for i := range a.Blocks {
		r.statements(place, a, &a.Blocks[i], nil)
	}
}

// statements lists the sentences of a block, each with the sources that it names and those of the whole block, as numbers.
func (r *restList) statements(place link, a *manual.Article, b *manual.Block, all []int) {
	if b.Signal == "" && len(b.Rests) == 0 && !hasDigit(b.Text) {
		return // none of its sentences would be listed
	}
	english := r.s.manualLanguage() == english
	for _, st := range sentence.Statements(b) {
		if asks(b, st.Text) && len(st.Names) == 0 {
			continue
		}
		text := ofWhat(b) + r.withoutSignal(b, st.Text)
		marked := len(st.Names) > 0 || b.Signal != "" && len(a.Head.Sources) == 1
		if !marked && !(sentence.HasAmount(st.Text) && decides(text, b.Signal, english)) { // the first cell of a row is told by itself
			continue
		}
		sources := slices.Clone(all)
		for _, name := range st.Names {
			sources = append(sources, a.SourcesNamed(name)...)
		}
		if len(a.Head.Sources) == 1 {
			sources = []int{0}
		}
		slices.Sort(sources)
		people := hurtsPeople(text, b.Signal, english)
		var row *restRow
		if len(sources) == 0 && manual.OpensSigns(a, b) {
			row = r.rowSaid(place, []string{standingSaid[manual.CommonPractice]}, people, r.sourceSaid, "")
		} else {
			row = r.row(place, a.SourceTexts(slices.Compact(sources)), people)
		}
		row.Statements = append(row.Statements, statement{r.signal(b.Signal), text})
	}
}

// askingHeads are the words by which a heading asks without a question mark.
var askingHeads = expression.Of(`^(?:Why|How|What|Which|Where|When)\b`)

// asks tells whether a sentence says nothing and asks, such as a question of a lesson's test.
func asks(b *manual.Block, text string) bool {
	return strings.HasSuffix(strings.TrimRight(text, `)"'*”’`), "?") || b.Kind == manual.HeadingBlock && askingHeads.MatchString(text)
}

// concessions lists what a role lives with: its limits rest on that role and its reason.
func (r *restList) concessions(place link, a *manual.Article) {
	var list []manual.Concession
	switch {
	case a.Material != nil:
		list = a.Material.Concessions
	case a.Part != nil:
		list = a.Part.Concessions
	}
	for i := range list {
		c := &list[i]
		l := factList{s: r.s, root: r.root}
		l.html("Lives with", l.name(manual.Chemistry, c.Chemistry)+l.window(c.Window))
		row := r.row(place, []string{"accepted by " + c.By + ": " + c.Reason}, false)
		row.Facts = append(row.Facts, l.facts...)
	}
}

// glossary lists what the glossary says of what limits or hurts. Its terms name no source.
func (r *restList) glossary() {
	for i := range r.s.Manual.Glossary {
		t := &r.s.Manual.Glossary[i]
		for _, st := range sentence.Statements(&manual.Block{Text: t.Means}) {
			if english := r.s.manualLanguage() == english; decides(st.Text, "", english) {
				row := r.row(r.s.toPage(r.root, glossaryPage, t.Term), nil, hurtsPeople(st.Text, "", english))
				row.Statements = append(row.Statements, statement{Text: st.Text})
			}
		}
	}
}

// ofWhat says of a cell which row and column it stands in: “50 ppm” alone says nothing to whoever has to judge it.
func ofWhat(b *manual.Block) string {
	switch {
	case b.Row == "" || b.First:
		return ""
	case b.Column == "":
		return b.Row + ": "
	}
	return b.Row + ", " + b.Column + ": "
}

// part lists what the sheet of a part asks of its washes. A sheet with a list of washes says of the list what it rests on.
func (r *restList) part(a *manual.Article) {
	if a.Part == nil {
		return
	}
	place := r.s.toArticle(r.root, a)
	for i := range a.Part.Steps {
		w := &a.Part.Steps[i]
		for _, v := range []vesselValue{{"strength", "Strength", w.Strength}, {"temperature", "Temperature", w.Temperature}, {"time", "Time", w.Time}, {"frequency", "Frequency", w.Frequency}} {
			if !v.limit.Set {
				continue
			}
			key := v.key
			if _, several := a.Head.At["steps"]; several {
				key = "steps"
			}
			l := factList{s: r.s, root: r.root}
			l.limit(v.name, v.limit)
			row := r.row(place, a.SourceTexts(a.SourcesOf(key)), false)
			row.Facts = append(row.Facts, l.facts...)
		}
	}
}

// harmRows write the value of each key that decides about harm.
var harmRows = map[string]func(*factList, *manual.Article){
	"may-contain": func(l *factList, a *manual.Article) { l.words("May contain", a.Soil.MayContain) },
	"removed-by": func(l *factList, a *manual.Article) {
		for _, r := range a.Soil.RemovedBy {
			l.html("Lifted by", l.name(manual.Chemistry, r.Chemistry)+l.window(r.Window))
		}
	},
	"ph": func(l *factList, a *manual.Article) {
		if a.Chemistry != nil && a.Chemistry.NoWater {
			l.text("pH", "none: there is no water in it")
			return
		}
		l.limit("pH", windowOf(a).ph)
	},
	"ph-silicated": func(l *factList, a *manual.Article) { l.limit("pH with silicate", a.Material.PHSilicated) },
	"temperature":  func(l *factList, a *manual.Article) { l.limit("Temperature", windowOf(a).temperature) },
	"time":         func(l *factList, a *manual.Article) { l.limit("Time", windowOf(a).time) },
	"frequency": func(l *factList, a *manual.Article) {
		if a.Material != nil && a.Material.NoSound {
			l.text("Frequency", "no ultrasonics")
			return
		}
		l.limit("Frequency", windowOf(a).frequency)
	},
	"strength":    func(l *factList, a *manual.Article) { l.limit("Strength", a.Chemistry.Strength) },
	"ceiling":     func(l *factList, a *manual.Article) { l.limit("Never above", a.Chemistry.Ceiling) },
	"flash-point": func(l *factList, a *manual.Article) { l.limit("Flash point", a.Chemistry.FlashPoint) },
	"density":     func(l *factList, a *manual.Article) { l.limit("Density of the concentrate", a.Chemistry.Density) },
	"alkalinity":  func(l *factList, a *manual.Article) { l.limit("Total alkalinity of the bath", a.Chemistry.Alkalinity) },
	"acidity":     func(l *factList, a *manual.Article) { l.limit("Acidity of the bath", a.Chemistry.Acidity) },
	"cloud-point": func(l *factList, a *manual.Article) { l.limit("Cloud point", a.Chemistry.CloudPoint) },
	"contains":    func(l *factList, a *manual.Article) { l.words("Contains", a.Chemistry.Contains) },
	"hazards": func(l *factList, a *manual.Article) {
		if a.Procedure != nil {
			l.codes(a.Procedure.Hazards)
			return
		}
		l.codes(a.Chemistry.Hazards)
	},
	"protective-equipment": func(l *factList, a *manual.Article) {
		if a.Procedure != nil {
			l.inManualLanguage("Wear", strings.Join(a.Procedure.ProtectiveEquipment, ", "))
			return
		}
		l.inManualLanguage("Wear", strings.Join(a.Chemistry.ProtectiveEquipment, ", "))
	},
	"never-with":  func(l *factList, a *manual.Article) { l.names("Never with", manual.Chemistry, a.Chemistry.NeverWith) },
	"attacked-by": func(l *factList, a *manual.Article) { l.words("Attacked by", a.Material.AttackedBy) },
}

// window is what a chemistry is used at, or what a material stands.
type window struct{ ph, temperature, time, frequency manual.Limit }

func windowOf(a *manual.Article) window {
	if c := a.Chemistry; c != nil {
		return window{c.PH, c.Temperature, c.Time, c.Frequency}
	}
	m := a.Material
	return window{m.PH, m.Temperature, m.Time, m.Frequency}
}

// shop lists what the shop file says of its vessels and its water.
func (r *restList) shop() {
	shop := &r.s.Manual.Shop
	for i := range shop.Tanks {
		t := &shop.Tanks[i]
		r.vessel(r.s.toPage(r.root, tankPage(t.ID), t.Name), t.RestsOn, []vesselValue{
			{"volume", "Volume", t.Volume}, {"length", "Length", t.Length}, {"width", "Width", t.Width}, {"depth", "Depth", t.Depth}, {"insulation", "Insulation", t.Insulation},
			{"freeboard", "From the mark to the rim", t.Freeboard}, {"heater", "Heater", t.Heater}, {"ultrasonic-power", "Ultrasonics", t.Power},
			{"duty", "Share of the time that the ultrasonics run", t.Duty}, {"cooling", "Cooling coil", t.Cooling}, {"frequency", "Frequency", t.Frequency},
			{"strength", "Strength", t.Strength}, {"temperature", "Temperature", t.Temperature}, {"drag-out", "Carried out by the parts", t.DragOut},
		})
		r.yesNo(r.s.toPage(r.root, tankPage(t.ID), t.Name), t.RestsOn, t)
	}
	for i := range shop.Rinses {
		t := &shop.Rinses[i]
		r.vessel(r.s.toPage(r.root, r.s.vesselPage(t.ID, "rinse"), t.Name), t.RestsOn, []vesselValue{
			{"volume", "Volume", t.Volume}, {"flow", "Flow", t.Flow}, {"ph", "pH", t.PH}, {"alkalinity", "Alkalinity", t.Alkalinity}, {"temperature", "Temperature", t.Temperature}, {"conductivity", "Conductivity", t.Conductivity},
		})
	}
	r.vessel(r.s.toPage(r.root, r.s.vesselPage(shop.Dryer.ID, "dry"), shop.Dryer.Name), shop.Dryer.RestsOn, []vesselValue{{"temperature", "Temperature", shop.Dryer.Temperature}})
	w := &shop.Water
	r.vessel(r.s.toPage(r.root, homePage, r.s.words.say("Water")), w.RestsOn, []vesselValue{
		{"temperature", "Temperature", w.Temperature}, {"hardness", "Hardness", w.Hardness}, {"dissolved-solids", "Dissolved solids", w.DissolvedSolids},
		{"conductivity", "Conductivity", w.Conductivity}, {"ph", "pH", w.PH}, {"alkalinity", "Alkalinity", w.Alkalinity},
	})
}

// vesselValue is a value of the shop file.
type vesselValue struct {
	key, name string
	limit     manual.Limit
}

func (r *restList) vessel(place link, restsOn []manual.Rest, values []vesselValue) {
	for _, v := range values {
		if !v.limit.Set {
			continue
		}
		sources := restingOn(restsOn, v.key)
		l := factList{s: r.s, root: r.root}
		l.limit(v.name, v.limit) // the names are those of the tables above
		row := r.row(place, sources, slices.Contains(vesselPeople, v.key))
		row.Facts = append(row.Facts, l.facts...)
	}
}

// vesselPeople are the keys of a vessel whose values people hang on: what burns, and what runs over.
var vesselPeople = []string{"temperature", "freeboard"}

// restingOn gives what a key of the shop file rests on.
func restingOn(restsOn []manual.Rest, key string) []string {
	var sources []string
	for _, rest := range restsOn {
		if slices.ContainsFunc(rest.Keys, func(k manual.Ref) bool { return k.Name == key }) {
			sources = append(sources, rest.Source.Name)
		}
	}
	return sources
}

// yesNo lists what the shop file says of a tank with yes or no: its lid, and whether what can be lit may be in it.
func (r *restList) yesNo(place link, restsOn []manual.Rest, t *manual.Tank) {
	for _, v := range []struct {
		key, name string
		is        bool
	}{{"lid", "Lid", t.Lid}, {"flammables", "Built for flammable liquids", t.Flammables}, {"ventilated", "Ventilated", t.Ventilated}} {
		if _, given := t.Keys[v.key]; !given {
			continue
		}
		says := "no"
		if v.is {
			says = "yes"
		}
		l := factList{s: r.s, root: r.root}
		l.text(v.name, says)
		row := r.row(place, restingOn(restsOn, v.key), v.key != "lid")
		row.Facts = append(row.Facts, l.facts...)
	}
}

// signal is a signal word in the page's language; "" of what is no safety message.
func (r *restList) signal(word string) string {
	if word == "" {
		return ""
	}
	return r.s.words.say(word)
}

// withoutSignal is the text of a statement without the signal word of its message, in whatever language that is written.
func (r *restList) withoutSignal(b *manual.Block, text string) string {
	if b.Signal == "" {
		return strings.TrimSpace(text)
	}
	for _, word := range append(r.s.Manual.SignalWordsIn(r.s.Manual.OwnLanguage()), manual.SignalWords...) {
		if rest, is := strings.CutPrefix(text, word); is {
			return strings.TrimSpace(rest)
		}
	}
	return strings.TrimSpace(text)
}

// standingSaid is the source of a limit of a calculator that says in its own words that it has none.
var standingSaid = map[manual.Standing]string{manual.FromMemory: "from memory", manual.CommonPractice: "common practice, no source"}

// sourceSaid is the source of a calculator in the page's language.
func (r *restList) sourceSaid(text string) string {
	switch text {
	case standingSaid[manual.FromMemory]:
		return r.s.words.say("From memory")
	case standingSaid[manual.CommonPractice]:
		return r.s.words.say("Common practice, no source")
	}
	return r.s.sums.Say(text)
}

func asWritten(text string) string { return text }

// program lists what the program itself decides by: its rules about harm, and its calculators.
func (r *restList) program() {
	language := ""
	if r.s.language != english {
		language = english
	}
	for _, rule := range r.s.Rules {
		if rule.Severity != finding.People && rule.Severity != finding.Parts || strings.HasPrefix(rule.Source, "the ") || strings.HasPrefix(rule.Source, "as ") {
			continue // the others hold the manual to its own headers, which stand above
		}
		row := r.rowSaid(link{Title: r.s.words.say("The proof-reader") + ": " + string(rule.Name)}, []string{rule.Source}, rule.Severity == finding.People, asWritten, language)
		row.Statements = append(row.Statements, statement{Text: rule.Finds})
	}
	for _, n := range safety.Numbers {
		row := r.rowSaid(link{Title: r.s.words.say("Decisions and calculators")}, []string{n.Source}, n.People, asWritten, language)
		row.Statements = append(row.Statements, statement{Text: n.Says})
	}
	for _, c := range calculators.All() {
		title := r.s.words.say("Calculator") + ": " + r.s.sums.Say(c.Title)
		for _, limit := range c.Limits {
			sources := c.Sources
			if weaker := manual.StandingOf(limit); weaker < manual.DataSheet && weaker < manual.Weakest(sources) {
				sources = []string{standingSaid[weaker]} // the sources are of the sums, and the limit itself says that it has none
			}
			row := r.rowSaid(link{Title: title}, sources, harms(limit), r.sourceSaid, "")
			row.Statements = append(row.Statements, statement{Text: r.s.sums.Say(limit)})
		}
	}
}
