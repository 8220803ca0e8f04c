package page

import (
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"tankside/builder/history"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/record"
)

// writing is the part of a tank's page, or a rinse's or the dryer's, at which readings are written down on the device.
type writing struct {
	Tank, Name string
	Here, More []ask  // what is read here; what else can be
	Works      []work // what can be done to the bath
	Zoned      bool   // times of its record say their offset from UTC
	Heads      string // those of its record, as JSON
	Parcel     string // what is published of its readings, or ""
	HasRecord  bool
}

// ask is a quantity that is written down.
type ask struct {
	Quantity, Title, Head, Unit string
	Units                       string // JSON: those that the number may be given in
	Low, High                   string // what is likely here, in the unit of the head; "" where nobody can tell
	Least, Most                 string // what can be
	Whole                       bool
	Last, LastAt                string // the newest of the record, in the unit of the head, and when
}

// work is what is done to a bath, as the record says it.
type work struct{ Word, Title string }

// vesselWords is what scripts have to know of a tank to write a reading of it.
type vesselWords struct {
	ID    string            `json:"id"`
	Name  string            `json:"name"`
	Page  string            `json:"page"` // of the edition
	Zoned bool              `json:"zoned"`
	Heads map[string]string `json:"heads"` // by quantity
	Units map[string]string `json:"units"`
}

// underHead is the head and the unit under which a quantity of a tank is written down: those of its record, or the usual ones.
func (s *site) underHead(id string, q record.Quantity) (head string, u quantity.Unit, known bool) {
	if r := s.Manual.Record(id); r != nil {
		if at := r.Column(q.Name); at >= 0 {
			return headFor(q, r.Columns[at].Unit), r.Columns[at].Unit, true
		}
	}
	kind := q.Kinds[0]
	_, symbol, _ := strings.Cut(strings.TrimSuffix(q.Example, ")"), "(")
	if t := s.Manual.Shop.Tank(id); t != nil && q.Name == "strength" && t.Strength.Set && t.Strength.Unit.Symbol != "1:N" {
		kind, symbol = t.Strength.Kind, t.Strength.Unit.Symbol
	}
	u, found := quantity.UnitNamed(symbol, kind)
	if found && q.Name == "temperature" {
		u = quantity.Preferred(u.ToSI(50), kind, s.system)
	}
	return headFor(q, u), u, false
}

func headFor(q record.Quantity, u quantity.Unit) string {
	if u.Symbol == "" || u.Kind == quantity.PH {
		return q.Example
	}
	return q.Name + " (" + u.Symbol + ")"
}

// usuallyRead are quantities that are read at a tank, and at a rinse or the dryer, of which there is no record yet.
var usuallyRead = map[bool][]string{true: {"strength", "temperature", "ph", "level"}, false: {"conductivity", "temperature", "ph"}}

// writing fills it.
func (s *site) writing(f *frame, id, name string) (*writing, error) {
	w := &writing{Tank: id, Name: name}
	if file := s.parcels["record-"+id]; file != "" {
		w.Parcel = f.Root + file
	}
	r := s.Manual.Record(id)
	if r != nil {
		w.HasRecord, w.Zoned = len(r.Rows) > 0, r.Zoned
	}
	t := s.Manual.Shop.Tank(id)
	var heads []string
	for _, q := range record.Quantities {
		a, known, err := s.askedFor(id, q)
		if err != nil {
			return nil, err
		}
		if known {
			heads = append(heads, a.Head)
		}
		usual := false
		for _, one := range usuallyRead[t != nil] {
			usual = usual || one == q.Name && !(q.Name == "strength" && !t.Strength.Set)
		}
		if known || usual && !w.HasRecord {
			w.Here = append(w.Here, a)
		} else {
			w.More = append(w.More, a)
		}
	}
	all, err := json.Marshal(append([]string{"when"}, heads...))
	w.Heads = string(all)
	for _, one := range []record.Work{record.TopUp, record.Change, record.Repair} {
		w.Works = append(w.Works, work{string(one), s.workName(one)})
	}
	s.writes(f)
	s.script(f, "chart.js")
	s.script(f, "write.js")
	return w, err
}

// askedFor fills one quantity; known tells whether the record has it.
func (s *site) askedFor(id string, q record.Quantity) (a ask, known bool, err error) {
	head, u, known := s.underHead(id, q)
	a = ask{Quantity: q.Name, Title: s.words.say(q.Title), Head: head, Unit: u.Symbol, Whole: q.Whole}
	if q.Name == "foil" {
		a.Unit = ""
	}
	units := inUnits(u, s.system)
	for i := range units {
		units[i].First = units[i].System == s.system.String() || len(units) == 1
	}
	list, err := json.Marshal(units)
	a.Units = string(list)
	a.Least, a.Most = boundOf(u.FromSI(q.Low[u.Kind])), boundOf(u.FromSI(q.High[u.Kind]))
	low, high := math.Inf(1), math.Inf(-1)
	if h := s.history(id); h != nil {
		for i := range h.Charts {
			c := &h.Charts[i]
			if c.Quantity != q.Name {
				continue
			}
			low, high = usual(c)
			low, high = u.FromSI(c.Unit.ToSI(low)), u.FromSI(c.Unit.ToSI(high))
			last := c.Points[len(c.Points)-1]
			a.Last, a.LastAt = boundOf(u.FromSI(c.Unit.ToSI(last.Value))), stampOf(last)
		}
	}
	if w := s.allowedOf(id, q.Name); w.Set && w.Kind == u.Kind {
		low, high = min(low, u.FromSI(w.Low)), max(high, u.FromSI(w.High))
	}
	low, high = max(low, u.FromSI(q.Low[u.Kind])), min(high, u.FromSI(q.High[u.Kind]))
	if low <= high {
		a.Low, a.High = boundOf(low), boundOf(high)
	}
	return a, known, err
}

// usual is the span in which the newest readings of a chart lie, and half as much again on either side: what is outside is asked about once more.
func usual(c *history.Chart) (low, high float64) {
	const newest = 60
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range c.Points[max(0, len(c.Points)-newest):] {
		low, high = min(low, p.Value), max(high, p.Value)
	}
	half := (high - low) / 2
	if len(c.Points) < history.LeastBaseline { // nobody can tell yet
		return math.Inf(1), math.Inf(-1)
	}
	return low - half, high + half
}

// allowedOf is what the chemistry of a tank allows of a quantity.
func (s *site) allowedOf(id, name string) manual.Limit {
	t := s.Manual.Shop.Tank(id)
	if t == nil {
		return manual.Limit{}
	}
	a := s.Manual.Named(manual.Chemistry, t.Chemistry.Name)
	if a == nil {
		return manual.Limit{}
	}
	switch name {
	case "strength":
		return a.Chemistry.Strength
	case "temperature":
		return a.Chemistry.Temperature
	case "ph":
		return a.Chemistry.PH
	}
	return manual.Limit{}
}

// boundOf writes a bound for a script; one that is open is "".
func boundOf(x float64) string {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return ""
	}
	return strconv.FormatFloat(x, 'g', 6, 64)
}

func stampOf(p history.Point) string {
	if p.Day {
		return p.When.Format(time.DateOnly)
	}
	return p.When.Format("2006-01-02T15:04")
}

// writes has a page offer to write a number down as a reading.
func (s *site) writes(f *frame) {
	if f.Writing != "" {
		return
	}
	var list []vesselWords
	add := func(id, name string, st manual.Station) {
		page := tankPage(id)
		if st != "wash" {
			page = s.vesselPage(id, st)
		}
		v := vesselWords{ID: id, Name: name, Page: s.to(page), Heads: map[string]string{}, Units: map[string]string{}}
		if r := s.Manual.Record(id); r != nil {
			v.Zoned = r.Zoned
		}
		for _, q := range record.Quantities {
			head, u, _ := s.underHead(id, q)
			v.Heads[q.Name], v.Units[q.Name] = head, u.Symbol
		}
		list = append(list, v)
	}
	shop := &s.Manual.Shop
	for i := range shop.Tanks {
		add(shop.Tanks[i].ID, shop.Tanks[i].Name, "wash")
	}
	for i := range shop.Rinses {
		add(shop.Rinses[i].ID, shop.Rinses[i].Name, "rinse")
	}
	if shop.Dryer.ID != "" {
		add(shop.Dryer.ID, shop.Dryer.Name, "dry")
	}
	if len(list) == 0 {
		return
	}
	text, err := json.Marshal(list)
	if err != nil {
		panic(err) // texts always have their JSON
	}
	f.Writing = string(text)
	s.script(f, "rows.js")
	s.script(f, "readings.js")
	s.script(f, "write-down.js")
}

// publishedRecord is what scripts read of a published record: which rows they need not show as new, the newest points of its charts, and the newest rows that
// hold, which can be corrected at the bath.
type publishedRecord struct {
	IDs    []string         `json:"ids"`
	Charts []publishedChart `json:"charts"`
	Rows   []record.Cells   `json:"rows"` // in the order of time
}

// mostCorrected is how many rows of a record can be corrected at the bath: of a bath that is read thrice a day, those of four months.
const mostCorrected = 360

// correctable are the newest rows of a record that a correction can name, as rows are written down at the bath.
func correctable(r *record.Record) []record.Cells {
	list := []record.Cells{}
	for i := len(r.Rows) - 1; i >= 0 && len(list) < mostCorrected; i-- {
		if r.Rows[i].ID != "" {
			list = append(list, cellsOf(r, &r.Rows[i]))
		}
	}
	slices.Reverse(list)
	return list
}

// cellsOf is a row by its heads, without its empty cells. A number has the unit of its column, and as many digits as it was written with.
func cellsOf(r *record.Record, row *record.Row) record.Cells {
	c := record.Cells{"when": timeOf(row), "id": row.ID}
	for i, column := range r.Columns {
		if q, known := record.QuantityNamed(column.Name); known && row.Values[i].Set {
			c[headFor(q, column.Unit)] = strconv.FormatFloat(rounded(column.Unit.FromSI(row.Values[i].SI)), 'f', -1, 64)
		}
	}
	for head, text := range map[string]string{"work": string(row.Work), "by": row.By, "note": row.Note, "replaces": row.Replaces} {
		if text != "" {
			c[head] = text
		}
	}
	for _, o := range row.Other {
		c[o.Head] = o.Text
	}
	return c
}

// timeOf writes when a row was read as the pages write it down.
func timeOf(row *record.Row) string {
	if row.Day {
		return row.When.Format(time.DateOnly)
	}
	layout := "2006-01-02T15:04"
	if row.When.Second() != 0 {
		layout += ":05"
	}
	if record.Zoned(row.When) {
		layout += "-07:00"
	}
	return row.When.Format(layout)
}

// rounded takes away what turning an amount into SI and back has added in the last digits of a computer's number.
func rounded(x float64) float64 {
	n, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 10, 64), 64)
	if err != nil {
		return x
	}
	return n
}

// publishedChart is a chart in numbers, in its own unit.
type publishedChart struct {
	Quantity string           `json:"quantity"`
	Unit     string           `json:"unit"`
	Low      *float64         `json:"low,omitempty"` // what is allowed
	High     *float64         `json:"high,omitempty"`
	Points   []publishedPoint `json:"points"`
}

type publishedPoint struct {
	At    string  `json:"at"`
	Value float64 `json:"value"`
}

// OfRecord tells whether a file of an edition hands over what scripts read of a record.
func OfRecord(path string) bool { return strings.HasPrefix(path, "assets/record-") }

// recordParcels publishes of each record what scripts read.
func (a *assets) recordParcels(tanks []history.Tank) error {
	for i := range tanks {
		t := &tanks[i]
		p := publishedRecord{IDs: []string{}, Charts: []publishedChart{}, Rows: correctable(t.Record)}
		for _, list := range [][]record.Row{t.Record.Rows, t.Record.Replaced} {
			for j := range list {
				if list[j].ID != "" {
					p.IDs = append(p.IDs, list[j].ID)
				}
			}
		}
		for j := range t.Charts {
			p.Charts = append(p.Charts, inNumbers(&t.Charts[j]))
		}
		text, err := json.Marshal(p)
		if err != nil {
			return err
		}
		if err := a.addParcelAs("record-"+t.ID, "record-"+t.ID, text); err != nil {
			return err
		}
	}
	return nil
}

// inNumbers gives the newest points of a chart.
func inNumbers(c *history.Chart) publishedChart {
	p := publishedChart{Quantity: c.Quantity, Unit: c.Unit.Symbol}
	if c.Window.Set {
		p.Low, p.High = finite(c.Window.Low), finite(c.Window.High)
	}
	for _, point := range c.Points[max(0, len(c.Points)-mostDrawn):] {
		p.Points = append(p.Points, publishedPoint{stampOf(point), point.Value})
	}
	return p
}

func finite(x float64) *float64 {
	if math.IsInf(x, 0) {
		return nil
	}
	return &x
}

// ReadingTitles are the headings of what can be read, by their words in a record, as JSON for scripts.
func (f *frame) ReadingTitles() string {
	titles := map[string]string{}
	for _, q := range record.Quantities {
		titles[q.Name] = f.site.words.say(q.Title)
	}
	text, err := json.Marshal(titles)
	if err != nil {
		panic(err) // texts always have their JSON
	}
	return string(text)
}
