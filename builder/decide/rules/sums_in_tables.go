package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// table is a table of running text: its rows, each with its cells; the heads stand in the cells.
type table struct {
	rows [][]*sentence.Block
}

// tablesOf gathers the cells of an article's text into tables. A table ends where a block that is no cell stands, or where the heads change.
func tablesOf(blocks []sentence.Block) []table {
	var list []table
	inside := false
	for i := range blocks {
		b := &blocks[i]
		if b.Kind != sentence.Cell {
			inside = false
			continue
		}
		n := len(list)
		switch {
		case !inside || b.First && n > 0 && len(list[n-1].rows[0]) > 0 && list[n-1].rows[0][0].Column != b.Column:
			list = append(list, table{rows: [][]*sentence.Block{{b}}})
		case b.First:
			list[n-1].rows = append(list[n-1].rows, []*sentence.Block{b})
		default:
			rows := list[n-1].rows
			rows[len(rows)-1] = append(rows[len(rows)-1], b)
		}
		inside = true
	}
	return list
}

// findWrongTables finds rows of tables whose last amount is not what the others make, and last rows that are not the sum of those above. Each cell is
// read by itself elsewhere; only here are the cells of a row, and the rows of a column, seen together.
func (p *proof) findWrongTables(a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, t := range tablesOf(p.reading(a).blocks) {
		for _, row := range t.rows {
			if at, says := p.wrongRow(row); says != "" {
				list = append(list, wrongSum.At(placeIn(a, at, 0), says, "Correct the amount, or what it is worked out from."))
			}
		}
		if at, says := p.wrongGrid(t.rows); says != "" {
			list = append(list, wrongSum.At(placeIn(a, at, 0), says, "Correct the amount, or what it is worked out from."))
		}
		for column := 1; column < len(t.rows[0]); column++ {
			if at, says := p.wrongColumn(t.rows, column); says != "" {
				list = append(list, wrongSum.At(placeIn(a, at, 0), says, "Correct the total, or the rows above it."))
			}
		}
	}
	return list
}

// wrongGrid checks a table of volumes by per cents, either way round: “50 L” under “2 %” and “4 %”. Per cents at the head of a column may be something else, such as what was
// found; so most of the cells have to be the product.
func (p *proof) wrongGrid(rows [][]*sentence.Block) (wrong *sentence.Block, says string) {
	fit, misfit := 0, 0
	for _, row := range rows {
		first := p.cellAmount(row[0])
		if first == nil || first.Span {
			return nil, ""
		}
		for _, b := range row[1:] {
			whole, share, part := first, p.headAmount(b.Column), p.cellAmount(b)
			if share != nil && share.Kind == quantity.Volume {
				whole, share = share, whole // “2 %” under “concentrate in 120 L”
			}
			if share == nil || part == nil || whole.Kind != quantity.Volume || share.Kind != quantity.Fraction || share.Span || part.Span || part.Kind != quantity.Volume {
				return nil, ""
			}
			if _, text := rowResult(whole.Range.Low*share.Range.Low, part, b); text == "" {
				fit++
			} else {
				misfit, wrong, says = misfit+1, b, text
			}
		}
	}
	if misfit == 0 || fit <= misfit && !(fit == 1 && misfit == 1) {
		return nil, ""
	}
	return wrong, says
}

// headAmount gives the one amount in the head of a column, among words that only say what stands below: “at 5 %”, “concentrate in 120 L”.
func (p *proof) headAmount(head string) *sentence.Quantity {
	list := sentence.Of(&sentence.Block{Text: head}, p.names(), nil)
	if len(list) != 1 || len(list[0].Quantities) != 1 {
		return nil
	}
	if slices.ContainsFunc(list[0].AllWords(), func(w string) bool { return !headWords[w] && !concentrates[w] }) {
		return nil
	}
	return &list[0].Quantities[0]
}

var headWords = sentence.Set("at in for of to a the bath water make")

// wrongRow checks a row whose last amount is the product of those before it: a bath, its strength and the concentrate; a flow, a time and the water; so
// many pieces at so much each and the load.
func (p *proof) wrongRow(row []*sentence.Block) (*sentence.Block, string) {
	var amounts []*sentence.Quantity
	var cells []*sentence.Block
	count := 0.0
	for _, b := range row {
		text := strings.TrimSpace(b.Text)
		if q := p.cellAmount(b); q != nil && q.Range.Low > 0 {
			if q.Span || q.Relation != sentence.At && q.Relation != sentence.To {
				return nil, ""
			}
			amounts, cells = append(amounts, q), append(cells, b)
		} else if n := numberOf(text); n > 1 && len(amounts) == 0 && pieceHeads[strings.ToLower(strings.TrimSpace(b.Column))] {
			count = n
		} else if strings.ContainsAny(text, "0123456789") && !b.First {
			return nil, "" // something that is not read has a part in it
		}
	}
	n := len(amounts)
	switch {
	case n > 2 && count == 0 && totalRow(cells[n-1].Column) && allAlike(amounts):
		sum := 0.0
		for _, q := range amounts[:n-1] {
			sum += q.Range.Low
		}
		return rowResult(sum, amounts[n-1], cells[n-1])
	case n == 2 && count > 0 && amounts[0].Kind == amounts[1].Kind && addable[amounts[0].Kind]:
		return rowResult(count*amounts[0].Range.Low, amounts[1], cells[1])
	case n == 3 && count == 0:
	default:
		return nil, ""
	}
	one, two, three := amounts[0], amounts[1], amounts[2]
	for _, x := range rowProducts {
		if three.Kind != x[2] || !(one.Kind == x[0] && two.Kind == x[1] || one.Kind == x[1] && two.Kind == x[0]) {
			continue
		}
		if head := strings.ToLower(cells[2].Column); x[2] == quantity.Volume && (one.Kind == quantity.Volume || two.Kind == quantity.Volume) && !doseHead(head) {
			return nil, ""
		}
		return rowResult(one.Range.Low*two.Range.Low, three, cells[2])
	}
	return nil, ""
}

// allAlike tells whether amounts can be added.
func allAlike(list []*sentence.Quantity) bool {
	return addable[list[0].Kind] && !slices.ContainsFunc(list, func(q *sentence.Quantity) bool { return q.Kind != list[0].Kind })
}

// rowResult compares what a row makes with what stands in its last cell.
func rowResult(want float64, result *sentence.Quantity, cell *sentence.Block) (*sentence.Block, string) {
	if off(want, result.Range.Low) <= slackOf(result) {
		return nil, ""
	}
	return cell, fmt.Sprintf("The row makes %s, not %s.", quantity.ShowIn(want, result.Unit), result.Text)
}

// rowProducts are kinds of which the last cell of a row is the product.
var rowProducts = [][3]quantity.Kind{
	{quantity.Volume, quantity.VolumeFraction, quantity.Volume},
	{quantity.Volume, quantity.Fraction, quantity.Volume},
	{quantity.Volume, quantity.MassConcentration, quantity.Mass},
	{quantity.Flow, quantity.Time, quantity.Volume},
	{quantity.Power, quantity.Time, quantity.Energy},
	{quantity.Volume, quantity.Density, quantity.Mass},
	{quantity.Film, quantity.Area, quantity.Volume},
}

// pieceHeads are heads of columns that count.
var pieceHeads = sentence.Set("pieces number count parts pcs no. how-many quantity trays loads nuts fills")

// doseHead tells whether the head of a column says that what stands in it goes into a bath.
func doseHead(head string) bool {
	for _, w := range []string{"concentrate", "cleaner", "dose", "detergent", "product", "add", "acid"} {
		if strings.Contains(head, w) {
			return !strings.Contains(head, "week") && !strings.Contains(head, "top") && !strings.Contains(head, "month")
		}
	}
	return false
}

// wrongColumn checks the last row of a table, where its first cell says that it is a total, against those above.
func (p *proof) wrongColumn(rows [][]*sentence.Block, column int) (*sentence.Block, string) {
	n := len(rows)
	if n < 3 || column >= len(rows[n-1]) || !totalRow(rows[n-1][0].Text) {
		return nil, ""
	}
	total := p.cellAmount(rows[n-1][column])
	if total == nil || total.Span || !addable[total.Kind] || total.Range.Low <= 0 {
		return nil, ""
	}
	sum := 0.0
	for _, row := range rows[:n-1] {
		if column >= len(row) || totalRow(row[0].Text) {
			return nil, ""
		}
		if text := strings.Trim(row[column].Text, " –—-"); text == "" {
			continue
		}
		q := p.cellAmount(row[column])
		if q == nil || q.Span || q.Kind != total.Kind {
			return nil, ""
		}
		sum += q.Range.Low
	}
	if math.Abs(sum-total.Range.Low) <= max(0.01*sum, 0.55*lastFigure(total)) {
		return nil, ""
	}
	return rows[n-1][column], fmt.Sprintf("The column makes %s, not %s.", quantity.ShowIn(sum, total.Unit), total.Text)
}

// totalRow tells whether the first cell of a row says that it is the sum of those above.
func totalRow(text string) bool {
	w := strings.ToLower(strings.Trim(text, " .:*"))
	return totalRows[w]
}

var totalRows = map[string]bool{"total": true, "sum": true, "together": true, "all": true, "in all": true, "altogether": true, "in total": true, "all together": true, "totals": true}

// findWrongItems finds lists whose last item is said to be the sum of those above and is not: “drain 5 min”, “refill 30 min”, “together 35 min”.
func (p *proof) findWrongItems(a *manual.Article) []finding.Finding {
	var list []finding.Finding
	var above []*sentence.Quantity
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		if s.Block.Kind != sentence.Item || len(s.Quantities) != 1 || !plain(&s.Quantities[0]) || !addable[s.Quantities[0].Kind] || i > 0 && said.sentences[i-1].Block == s.Block {
			above = nil
			continue
		}
		q := &s.Quantities[0]
		if len(above) > 0 && above[0].Kind != q.Kind {
			above = nil
		}
		if len(above) > 1 && isTotal(s, q) && q.Near != "of" && !s.Has(noWords) {
			sum := 0.0
			for _, o := range above {
				sum += o.Range.Low
			}
			if math.Abs(sum-q.Range.Low) > max(0.01*sum, 0.55*lastFigure(q)) {
				list = append(list, wrongSum.At(placeIn(a, s.Block, q.From), fmt.Sprintf("The items make %s, not %s.", quantity.ShowIn(sum, q.Unit), q.Text), "Correct the total, or the items above it."))
			}
			above = nil
			continue
		}
		above = append(above, q)
	}
	return list
}
