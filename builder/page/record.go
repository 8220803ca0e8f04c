package page

import (
	"fmt"
	"html/template"
	"strings"
	"time"

	"tankside/builder/expression"
	"tankside/builder/history"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/record"
)

func recordPage(id string) string { return "records/" + id + ".html" }
func monthPage(id string) string  { return "records/" + id + "-month.html" }

// recordContent is what the page of a bath's readings shows.
type recordContent struct {
	ID          string
	Name, Rows  string
	Notes       []string
	Charts      []chart
	Work        []workDone
	Table       readingTable
	Tank, Month link
	HasTank     bool
}

// chart is one quantity, drawn and in words.
type chart struct {
	Anchor, Title string
	Newest        template.HTML
	NewestAt      string
	Drawing       template.HTML
	Drawn         string // how many readings are drawn, where not all are
	Limits        []template.HTML
	Allowed       template.HTML
	By            link // the article that allows it
	Called        []called
	Drift         []template.HTML
	Brief         template.HTML // where a drift leads, in a few words, or nothing
	Grave         bool          // it is called out now, drifts, or is outside of what is allowed
	Links         []link
}

// called is what a rule calls out.
type called struct {
	What string
	When template.HTML
}

// workDone is what was done to the bath.
type workDone struct{ When, What, Note string }

// histories are what the records of the manual show on the day of publication.
func histories(in Input) ([]history.Tank, error) {
	if len(in.Manual.Records) == 0 {
		return nil, nil
	}
	day, err := time.Parse(time.DateOnly, in.Day)
	if err != nil {
		return nil, fmt.Errorf("the day of publication: %w", err)
	}
	return history.All(in.Manual, day), nil
}

// history is that of a tank, rinse or the dryer with readings, or nil.
func (s *site) history(id string) *history.Tank {
	for i := range s.histories {
		if s.histories[i].ID == id && s.histories[i].Last != nil {
			return &s.histories[i]
		}
	}
	return nil
}

// recordJobs are the pages of the readings.
func (s *site) recordJobs() []job {
	var jobs []job
	for i := range s.histories {
		h := &s.histories[i]
		if h.Last == nil {
			continue
		}
		jobs = append(jobs, s.page(recordPage(h.ID), "record", func(s *site, f *frame) error { return s.record(f, h) }),
			s.page(monthPage(h.ID), "record-month", func(s *site, f *frame) error { return s.month(f, h) }))
	}
	return jobs
}

// recordLinks lead to the readings of the tanks, or of what is not one.
func (s *site) recordLinks(root string, tanks bool) []link {
	var links []link
	for i := range s.histories {
		h := &s.histories[i]
		if h.Last == nil || (s.Manual.Shop.Tank(h.ID) != nil) != tanks {
			continue
		}
		l := s.toPage(root, recordPage(h.ID), h.Name)
		l.Lang = s.written()
		l.Note = fmt.Sprintf(s.words.say("last checked %s"), record.Stamp(h.Last.When, h.Last.Day))
		links = append(links, l)
	}
	return links
}

// record fills the page of a bath's readings.
func (s *site) record(f *frame, h *history.Tank) error {
	f.Title = fmt.Sprintf(s.words.say("Readings of %s"), h.Name)
	c := recordContent{ID: h.ID, Name: f.Title}
	s.together(f)
	c.Rows = fmt.Sprintf(s.words.say("%s rows from %s to %s."), fmt.Sprint(len(h.Rows())), h.Rows()[0].When.Format(time.DateOnly), record.Stamp(h.Last.When, h.Last.Day))
	c.Notes = s.recordNotes(h)
	if s.Manual.Shop.Tank(h.ID) != nil {
		f.here("wash", h.ID)
		c.Tank, c.HasTank = s.toPage(f.Root, tankPage(h.ID), h.Name), true
	} else {
		f.here("rinse")
		c.Tank, c.HasTank = s.toPage(f.Root, stationPage("rinse"), s.words.say("Rinse")), s.Manual.Shop.RinseTank(h.ID) != nil
	}
	c.Month = s.toPage(f.Root, monthPage(h.ID), s.words.say("A month on paper"))
	for i := range h.Charts {
		one, err := s.chart(f.Root, h, &h.Charts[i])
		if err != nil {
			return err
		}
		c.Charts = append(c.Charts, one)
	}
	for i := range h.Marks {
		m := h.Marks[len(h.Marks)-1-i]
		c.Work = append(c.Work, workDone{m.When.Format(time.DateOnly), s.workName(m.Work), m.Note})
	}
	c.Table = s.readingTable(h, h.Rows(), mostInTable)
	f.Content = c
	return nil
}

// recordNotes say what is missing, and what the readings are no part of.
func (s *site) recordNotes(h *history.Tank) []string {
	notes := []string{s.words.say("Readings are no part of the edition: they do not change its code.")}
	for _, g := range h.Gaps {
		notes = append(notes, fmt.Sprintf(s.words.say("No readings for %s days, between %s and %s."), fmt.Sprint(g.Days), g.From.Format(time.DateOnly), g.To.Format(time.DateOnly)))
	}
	if h.Record.Unused > 0 {
		notes = append(notes, fmt.Sprintf(s.words.say("Not used, because they cannot be read or cannot be: %s. The proof-reader says which."), fmt.Sprint(h.Record.Unused)))
	}
	if n := len(h.Record.Replaced); n > 0 {
		notes = append(notes, fmt.Sprintf(s.words.say("Corrected: rows that another one replaces stay in the record and are not charted: %s."), fmt.Sprint(n)))
	}
	if h.Later > 0 {
		notes = append(notes, fmt.Sprintf(s.words.say("Left out, because they are later than %s: %s."), s.Day, fmt.Sprint(h.Later)))
	}
	return notes
}

func (s *site) workName(w record.Work) string {
	switch w {
	case record.Change:
		return s.words.say("Bath changed")
	case record.TopUp:
		return s.words.say("Topped up")
	}
	return s.words.say("Repaired")
}

// quantityName is the heading of a quantity.
func (s *site) quantityName(name string) string {
	q, _ := record.QuantityNamed(name)
	return s.words.say(q.Title)
}

// amountIn writes a number of a chart in a system of units.
func amountIn(c *history.Chart, x float64, system quantity.System) string {
	u := c.Unit
	if !u.Suits(system) {
		u = quantity.Preferred(c.Unit.ToSI(x), u.Kind, system)
	}
	text := quantity.Decimal(u.FromSI(c.Unit.ToSI(x)), 4)
	if u.Symbol == "" {
		return text
	}
	return text + "\u00a0" + u.Symbol
}

// isoDay is a date; one that would be parted at the end of a line is hard to read.
var isoDay = expression.Of(`\d{4}-\d{2}-\d{2}`)

// wholeDays keeps dates on one line. There are none in what stands between angle brackets.
func wholeDays(text template.HTML) template.HTML {
	return template.HTML(isoDay.ReplaceAllString(string(text), `<span class="day">$0</span>`))
}

// differenceIn writes a difference of two numbers of a chart.
func differenceIn(c *history.Chart, x float64, system quantity.System) string {
	u := c.Unit
	if !u.Suits(system) {
		u = quantity.Preferred(c.Unit.ToSI(1), u.Kind, system)
	}
	x = u.FromSI(c.Unit.ToSI(x)) - u.FromSI(c.Unit.ToSI(0))
	if u.Symbol == "" {
		return quantity.Decimal(x, 2)
	}
	return quantity.Decimal(x, 2) + "\u00a0" + u.Symbol
}

// chart fills one quantity.
func (s *site) chart(root string, h *history.Tank, c *history.Chart) (chart, error) {
	last := c.Points[len(c.Points)-1]
	one := chart{
		Anchor: "at." + c.Quantity, Title: s.quantityName(c.Quantity), NewestAt: record.Stamp(last.When, last.Day),
		Newest: s.both(func(system quantity.System) string { return amountIn(c, last.Value, system) }),
	}
	d := newDrawing(h, c)
	one.Drawing = s.drawChart(d)
	if d.from > 0 {
		one.Drawn = fmt.Sprintf(s.words.say("The newest %s of %s readings are drawn."), fmt.Sprint(len(c.Points)-d.from), fmt.Sprint(len(c.Points)))
	}
	one.Limits = s.limitsSay(c)
	one.Allowed = s.allowedSay(c)
	if a := s.Manual.At(c.Window.Article); a != nil {
		one.By = s.toArticle(root, a)
	}
	for i := range c.Baths {
		for _, e := range c.Baths[i].Episodes() {
			if e.To >= d.from {
				one.Called = append(one.Called, s.calledSay(c, e))
			}
		}
	}
	one.Drift = s.driftSay(c)
	for i := range one.Drift {
		one.Drift[i] = wholeDays(one.Drift[i])
	}
	for i := range one.Limits {
		one.Limits[i] = wholeDays(one.Limits[i])
	}
	one.Brief = wholeDays(escaped(s.driftBrief(c)))
	newest := len(c.Points) - 1
	now := c.Now().Called()[newest]
	one.Grave = now || c.Drift.State == history.Drifts || !c.Window.Allows(last.Value)
	if one.Grave {
		one.Links = s.whereToLook(root, h, c)
	}
	return one, nil
}

// mostOnBench is how many quantities that give no cause to look stand on the tank's own page.
const mostOnBench = 3

// checked is what the tank's own page says of its readings.
type checked struct {
	Last, Href string
	Values     []nowValue // the newest of each quantity
	Notable    []chart    // those that are called out, drift or are outside of what is allowed
}

// checked gives it, or nil where there are no readings.
func (s *site) checked(root string, t *manual.Tank) (*checked, error) {
	h := s.history(t.ID)
	if h == nil {
		return nil, nil
	}
	c := &checked{Last: record.Stamp(h.Last.When, h.Last.Day), Href: s.address(root, s.to(recordPage(t.ID)))}
	for i := range h.Charts {
		one, err := s.chart(root, h, &h.Charts[i])
		if err != nil {
			return nil, err
		}
		if one.Grave || len(c.Values) < mostOnBench {
			c.Values = append(c.Values, nowValue{Name: one.Title, Value: one.Newest})
		}
		if one.Grave {
			one.Drift = one.Drift[len(one.Drift)-1:] // where it leads; the rest stands on the page of the readings
			c.Notable = append(c.Notable, one)
		}
	}
	return c, nil
}

// LastChecked is when a tank, rinse or the dryer was last checked by its record, or "".
func (p *Parts) LastChecked(id string) string {
	h := p.s.history(id)
	if h == nil {
		return ""
	}
	return strings.ReplaceAll(record.Stamp(h.Last.When, h.Last.Day), " ", "\u00a0")
}
