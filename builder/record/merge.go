package record

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"maps"
	"slices"
	"strings"

	"tankside/builder/expression"
)

// Cells is a row as a device keeps it and as it is handed on: head → cell, without empty cells. Known heads are in small letters, numbers have a decimal point:
// {"when": "2026-11-27T06:10:05", "strength (% v/v)": "3.4", "id": "…"}.
//
// Rows are added and never changed. One that corrects another names its id under “replaces” and stands for it as a whole; one without a number or work
// takes it back. themes/scripts/rows.js has the same rules for the page, word for word, and testdata/merge.json cases of both. No clock decides
// anything: devices have wrong ones.
type Cells map[string]string

// Merge puts rows of several devices together, in the order of time: each row once, whatever order they come in and however often. Of two rows with one id
// that say something else, the one whose content comes first in the alphabet keeps it; the other gets an id made of what it says, and replaces
// that one if it replaces nothing.
func Merge(lists ...[]Cells) []Cells {
	all := map[string]Cells{}
	for _, list := range lists {
		for _, row := range list {
			all = put(all, row.named())
		}
	}
	return slices.SortedFunc(maps.Values(all), func(a, b Cells) int {
		return cmp.Or(strings.Compare(alike(whenColumn, a[whenColumn]), alike(whenColumn, b[whenColumn])), strings.Compare(a[idColumn], b[idColumn]))
	})
}

func put(all map[string]Cells, row Cells) map[string]Cells {
	there, met := all[row[idColumn]]
	if !met {
		all[row[idColumn]] = row
		return all
	}
	stays, other := meet(there, row)
	all[row[idColumn]] = stays
	if other != nil {
		return put(all, other)
	}
	return all
}

// meet says which of two rows with one id keeps it, and what becomes of the other; nil where both say the same.
func meet(a, b Cells) (stays, other Cells) {
	order := strings.Compare(a.content(), b.content())
	switch {
	case order == 0 && strings.Compare(a.raw(), b.raw()) > 0:
		return b, nil
	case order == 0:
		return a, nil
	case order < 0:
		return a, b.aside()
	}
	return b, a.aside()
}

// aside is a row whose id another row has that says something else.
func (c Cells) aside() Cells {
	c = maps.Clone(c)
	own := c[idColumn]
	c[idColumn] = own + "." + digest(c.content())
	if c[replacesColumn] == "" {
		c[replacesColumn] = own
	}
	return c
}

// named gives a row its id: one that has none is named by what it says, so that it is the same row wherever it comes from.
func (c Cells) named() Cells {
	if c[idColumn] != "" {
		return c
	}
	c = maps.Clone(c)
	c[idColumn] = "row-" + digest(c.content())
	return c
}

// Standing are the rows that hold: of each row and all that correct it, also by correcting a correction, the one that most corrections lead to; of two that
// are equal in this, the one with the later id in the alphabet. What was taken back is not among them.
func Standing(rows []Cells) []Cells {
	holds := standing(len(rows), func(i int) (id, replaces string) { return rows[i][idColumn], rows[i][replacesColumn] })
	var list []Cells
	for i, row := range rows {
		if holds[i] && !(row[replacesColumn] != "" && row.bare()) {
			list = append(list, row)
		}
	}
	return list
}

// bare tells whether a row has neither a number nor work.
func (c Cells) bare() bool {
	for h := range c {
		if h == workColumn || isNumber(h) {
			return false
		}
	}
	return true
}

// standing tells of each row whether it holds. Rows without an id are replaced by none.
func standing(n int, of func(i int) (id, replaces string)) []bool {
	type place struct {
		end string
		far int
	}
	next := make(map[string]string, n)
	ids := make([]string, n)
	for i := range n {
		id, replaces := of(i)
		if id == "" {
			id = fmt.Sprintf("\x00%d", i)
		}
		ids[i], next[id] = id, replaces
	}
	ends := make(map[string]place, n)
	var endOf func(id string) place
	endOf = func(id string) place {
		var way []string
		on := map[string]int{}
		at := id
		for ; ; at = next[at] {
			if _, known := ends[at]; known {
				break
			}
			if from, ring := on[at]; ring { // its first id is its end
				first := slices.Min(way[from:])
				ends[first] = place{end: first}
				return endOf(id)
			}
			if next[at] == "" {
				ends[at] = place{end: at}
				break
			}
			on[at] = len(way)
			way = append(way, at)
		}
		e := ends[at]
		for _, one := range slices.Backward(way) {
			e.far++
			ends[one] = e
		}
		return ends[id]
	}
	best := make(map[string]int, n) // end → row
	for i := range n {
		e := endOf(ids[i])
		there, some := best[e.end]
		if !some || e.far > ends[ids[there]].far || e.far == ends[ids[there]].far && ids[i] > ids[there] {
			best[e.end] = i
		}
	}
	holds := make([]bool, n)
	for _, i := range best {
		holds[i] = true
	}
	return holds
}

// content is what a row says, all but its id, as it is compared.
func (c Cells) content() string {
	var b strings.Builder
	for _, h := range slices.Sorted(maps.Keys(c)) {
		if h == idColumn || c[h] == "" {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte('\x1e')
		}
		b.WriteString(h + "\x1f" + alike(h, c[h]))
	}
	return b.String()
}

// raw is all that stands in a row, as it stands.
func (c Cells) raw() string {
	var b strings.Builder
	for _, h := range slices.Sorted(maps.Keys(c)) {
		if c[h] != "" {
			b.WriteString(h + "\x1f" + c[h] + "\x1e")
		}
	}
	return b.String()
}

// digest is FNV-1a with 64 bits (IETF draft-eastlake-fnv), in 16 letters. It tells rows apart and keeps nothing secret.
func digest(text string) string {
	h := fnv.New64a()
	h.Write([]byte(text)) // a hash never fails
	return fmt.Sprintf("%016x", h.Sum64())
}

var written = expression.Of(`^([-−–+]?)0*(\d+)(?:\.(\d*?)0*)?((?:[ \x{a0}].*)?)$`)

// alike gives a cell as it is compared: 4.10 is 4.1, and a blank between day and time is a T.
func alike(head, cell string) string {
	if head == whenColumn {
		return strings.Replace(strings.ToUpper(cell), " ", "T", 1)
	}
	if !isNumber(head) {
		return cell
	}
	m := written.FindStringSubmatch(cell)
	if m == nil {
		return cell
	}
	text := m[2]
	if m[3] != "" {
		text += "." + m[3]
	}
	if m[1] != "" && m[1] != "+" {
		text = "-" + text
	}
	return text + strings.ReplaceAll(m[4], "\u00a0", " ")
}

// isNumber tells whether the column under a head holds numbers.
func isNumber(text string) bool {
	name, _, _ := head(text)
	_, is := QuantityNamed(name)
	return is
}
