package page

import (
	"fmt"
	"slices"
	"strings"

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
	Sources []numbered // in full, each once; a row names them in short
}

// restGroup has all of one standing.
type restGroup struct {
	Anchor, Title, Note string
	Count               int // of values and statements
	Rows                []restRow
	Worded              []restRow // what has no number
	Words               int       // how many those are
}

// restRow has what rests on the same sources in one place.
type restRow struct {
	Place      link
	Facts      []fact
	Statements []statement
	Sources    []restSource
	Lang       string // of the sources and statements, where it is not the page's

	standing manual.Standing
}

// restSource is a source in short, with its number in the list of those in full.
type restSource struct {
	Number int
	Short  string
}

// statement is a sentence of a text; Signal is the word of the safety message that it stands in.
type statement struct{ Signal, Text string }

// standingWords say what each standing is, and what there is to do about it.
var standingWords = map[manual.Standing][2]string{
	manual.NotSaid:        {"Not said", "Nobody has written on what these rest. Find out, or write that nobody knows."},
	manual.FromMemory:     {"From memory", "Somebody recalled these. Find the document, or confirm them and sign for it."},
	manual.CommonPractice: {"Common practice, no source", "This is what the trade does. Ask whether it fits your parts and baths."},
	manual.DataSheet:      {"The supplier's data sheet", "Lay your own data sheets beside these: the next drum may have others."},
	manual.Calculated:     {"Calculated", "Check what went into the sum."},
	manual.MeasuredHere:   {"Measured here", "Check that somebody has measured it lately."},
	manual.Handbook:       {"Handbooks and other publications", "Look up what decides most."},
	manual.StandardOrLaw:  {"Standards and law", "Check that the edition is the one in force where you are."},
}

// rests fills the page.
func (s *site) rests(f *frame) error {
	f.Title = s.words.say("What rests on what")
	r := restList{s: s, root: f.Root, at: map[string]int{}, number: map[string]int{}}
	for _, a := range s.Manual.Articles {
		r.article(a)
		r.part(a)
	}
	r.shop()
	r.program()
	var c restsContent
	for standing := manual.NotSaid; standing <= manual.StandardOrLaw; standing++ {
		title, note := standingWords[standing][0], standingWords[standing][1]
		g := restGroup{Anchor: fmt.Sprintf("standing-%d", standing), Title: s.words.say(title), Note: s.words.say(note)}
		for _, row := range r.rows {
			if row.standing == standing {
				numbers, words := row.parted()
				g.Count += len(row.Facts) + len(row.Statements)
				if len(numbers.Facts)+len(numbers.Statements) > 0 {
					g.Rows = append(g.Rows, numbers)
				}
				if n := len(words.Facts) + len(words.Statements); n > 0 {
					g.Worded = append(g.Worded, words)
					g.Words += n
				}
			}
		}
		if len(g.Rows)+len(g.Worded) > 0 {
			c.Groups = append(c.Groups, g)
		}
	}
	c.Sources = r.sources
	f.Content = c
	return nil
}

// parted parts what has a number from what has none.
func (row restRow) parted() (numbers, words restRow) {
	numbers, words = row, row
	numbers.Facts, words.Facts, numbers.Statements, words.Statements = nil, nil, nil, nil
	for _, f := range row.Facts {
		if hasDigit(string(f.Value)) {
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
	sources []numbered
	number  map[string]int // of a source in those
	s       *site
	root    string
	rows    []restRow
	at      map[string]int // by key
}

// row is the row of what rests in one place on the same sources.
func (r *restList) row(place link, sources []string) *restRow {
	key := place.Href + "\x00" + place.Title + "\x00" + strings.Join(sources, "\x00")
	i, known := r.at[key]
	if !known {
		i = len(r.rows)
		r.at[key] = i
		r.rows = append(r.rows, restRow{Place: place, Sources: r.short(sources), Lang: r.s.written(), standing: manual.Weakest(sources)})
	}
	return &r.rows[i]
}

// short names sources in short, and puts each into the list of those in full.
func (r *restList) short(sources []string) []restSource {
	var list []restSource
	for _, text := range sources {
		if r.number[text] == 0 {
			r.sources = append(r.sources, numbered{len(r.sources) + 1, text})
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

// article lists the values of an article's header that decide about harm, and the statements of its text that name a source.
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
		row := r.row(place, a.SourceTexts(a.SourcesOf(key)))
		row.Facts = append(row.Facts, l.facts...)
	}
	for i := range a.Blocks {
		b := &a.Blocks[i]
		for _, st := range sentence.Statements(b) {
			if len(st.Names) == 0 && (b.Signal == "" || len(a.Head.Sources) > 1) {
				continue
			}
			var sources []int
			for _, name := range st.Names {
				sources = append(sources, a.SourcesNamed(name)...)
			}
			if len(a.Head.Sources) == 1 {
				sources = []int{0}
			}
			slices.Sort(sources)
			row := r.row(place, a.SourceTexts(slices.Compact(sources)))
			row.Statements = append(row.Statements, statement{b.Signal, ofWhat(b) + strings.TrimSpace(strings.TrimPrefix(st.Text, b.Signal))})
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
			row := r.row(place, a.SourceTexts(a.SourcesOf(key)))
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
	"ph":           func(l *factList, a *manual.Article) { l.limit("pH", windowOf(a).ph) },
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
	"contains":    func(l *factList, a *manual.Article) { l.words("Contains", a.Chemistry.Contains) },
	"hazards":     func(l *factList, a *manual.Article) { l.codes(a.Chemistry.Hazards) },
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
		var sources []string
		for _, rest := range restsOn {
			if slices.ContainsFunc(rest.Keys, func(k manual.Ref) bool { return k.Name == v.key }) {
				sources = append(sources, rest.Source.Name)
			}
		}
		l := factList{s: r.s, root: r.root}
		l.limit(v.name, v.limit) // the names are those of the tables above
		row := r.row(place, sources)
		row.Facts = append(row.Facts, l.facts...)
	}
}

// standingSaid is the source of a limit of a calculator that says in its own words that it has none.
var standingSaid = map[manual.Standing]string{manual.FromMemory: "from memory", manual.CommonPractice: "common practice, no source"}

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
		row := r.row(link{Title: r.s.words.say("The proof-reader") + ": " + string(rule.Name)}, []string{rule.Source})
		row.Statements, row.Lang = append(row.Statements, statement{Text: rule.Finds}), language
	}
	for _, n := range safety.Numbers {
		row := r.row(link{Title: r.s.words.say("Calculators")}, []string{n.Source})
		row.Statements, row.Lang = append(row.Statements, statement{Text: n.Says}), language
	}
	for _, c := range calculators.All() {
		title := r.s.words.say("Calculator") + ": " + c.Title
		for _, limit := range c.Limits {
			sources := c.Sources
			if weaker := manual.StandingOf(limit); weaker < manual.DataSheet && weaker < manual.Weakest(sources) {
				sources = []string{standingSaid[weaker]} // the sources are of the sums, and the limit itself says that it has none
			}
			row := r.row(link{Title: title}, sources)
			row.Statements, row.Lang = append(row.Statements, statement{Text: limit}), language
		}
	}
}
