package manual

import (
	"fmt"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
	"tankside/builder/record"
)

// RecordFolder is the folder with the records of the baths: a file for each tank, rinse or dryer, called by its id.
const RecordFolder = "records"

// readRecord reads the record of a bath, whatever a spreadsheet has saved it as.
func (r *result) readRecord(data []byte) {
	text, found, ok := record.Text(r.path, data)
	r.d.findings = append(r.d.findings, found...)
	if !ok {
		r.refused = true
		return
	}
	if r.conflict = r.d.conflict(text); r.conflict {
		r.record = &record.Record{Path: r.path}
		return
	}
	r.record, found = record.Parse(r.path, text)
	r.d.findings = append(r.d.findings, found...)
}

// nameRecords tells of records that belong to no tank of the shop.
func (m *Manual) nameRecords(d *decoder) {
	ids := m.Shop.Vessels()
	for _, r := range m.Records {
		known := false
		for _, id := range ids {
			known = known || id == r.Tank
		}
		if known {
			continue
		}
		remedy := "Call the file by the id of a tank, rinse or dryer of " + ShopFile + "."
		if n := Nearest(r.Tank, ids); n != "" {
			remedy = "Did you mean " + RecordFolder + "/" + n + ".csv? " + remedy
		}
		d.report(ruleUnknownName, finding.Place{File: r.Path}, "The shop has no tank “"+clip(r.Tank, 40)+"”, so nothing is done with this record.", remedy)
	}
}

// Vessels are the names of tanks, rinses and dryer.
func (s *Shop) Vessels() []string {
	var ids []string
	for i := range s.Tanks {
		ids = append(ids, s.Tanks[i].ID)
	}
	for i := range s.Rinses {
		ids = append(ids, s.Rinses[i].ID)
	}
	if s.Dryer.ID != "" {
		ids = append(ids, s.Dryer.ID)
	}
	return ids
}

// Record gives the record of a tank, rinse or dryer, or nil.
func (m *Manual) Record(id string) *record.Record {
	for _, r := range m.Records {
		if r.Tank == id {
			return r
		}
	}
	return nil
}

// Charting is what the shop says of how its records are charted.
type Charting struct {
	Baseline int // readings after a change of bath from which control limits are taken; 0: not said
}

// Bounds of a baseline: fewer readings give limits that are hardly better than none, more reach back to another bath.
const (
	LeastBaseline = 10
	MostBaseline  = 1000
)

// baseline is the number of readings that control limits are taken from.
func baseline() field[Charting] {
	f := whole("baseline", fmt.Sprintf("readings after a change of bath from which the control limits are taken, %d to %d; 20 without this key", LeastBaseline, MostBaseline), "20",
		func(c *Charting) *int { return &c.Baseline })
	read := f.read
	f.read = func(d *decoder, c *Charting, n *yaml.Node) {
		read(d, c, n)
		if c.Baseline != 0 && (c.Baseline < LeastBaseline || c.Baseline > MostBaseline) {
			d.report(ruleWrongValue, d.at(n), fmt.Sprintf("A baseline has %d to %d readings.", LeastBaseline, MostBaseline), "Write for example: baseline: 20")
			c.Baseline = 0
		}
	}
	return f
}

// WithRecords gives the manual with other records in the place of its own.
func (m *Manual) WithRecords(records []*record.Record) *Manual {
	other := *m
	other.Records = records
	return &other
}
