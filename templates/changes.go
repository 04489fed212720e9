package templates

import (
	"fmt"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/pricelist"
	"futtock/templates/grid"
)

// PriceChanges is the moves as changes to the workbook that the price book was
// read from, without errors. A new row says what the row says that it follows,
// under every heading of the sheet, but for the price, the day and the supplier.
// Of a formula in that row it says the result.
func PriceChanges(w grid.Workbook, moves []pricelist.Move) []grid.Change {
	var out []grid.Change
	for _, sheet := range pricelist.Sheets() {
		var t *priceTable
		fresh := map[string]int{}
		for _, m := range moves {
			if m.Sheet != sheet || !m.Writes() {
				continue
			}
			if t == nil {
				found := table(w, sheet)
				t = &found
			}
			puts := t.puts(m)
			if m.From.IsZero() {
				out = append(out, grid.Change{Sheet: t.page.Name, Row: m.Row.Row, Put: puts})
				continue
			}
			k := rates.Key(m.Key) + "|" + m.From.Format(time.DateOnly)
			i, ok := fresh[k]
			if !ok {
				i = len(out)
				fresh[k] = i
				out = append(out, grid.Change{Sheet: t.page.Name, Row: t.last.Row, New: true, Put: t.followed(m)})
			}
			out[i].Put = over(out[i].Put, puts)
		}
	}
	return out
}

// puts is the cells that a move is about.
func (t priceTable) puts(m pricelist.Move) []grid.Put {
	target := t.line(m.Row.Row)
	if !m.From.IsZero() {
		target = t.last
	}
	col := t.col(m.Column)
	puts := []grid.Put{grid.PutNumber(col, m.New)}
	if t.form(m.Column) == Percent {
		puts[0] = percentPut(col, m.New, target.Cell(col))
	}
	if m.Supplier != "" {
		puts = append(puts, grid.PutText(t.col("Supplier"), m.Supplier))
	}
	if !m.From.IsZero() {
		puts = append(puts, grid.PutDay(t.col("From"), m.From))
	}
	return puts
}

// followed is the cells of a new row as the row it follows has them.
func (t priceTable) followed(m pricelist.Move) []grid.Put {
	var puts []grid.Put
	was := t.line(m.Row.Row)
	for _, h := range t.o.Headings {
		col, ok := t.cols[h.Name]
		if !ok {
			continue
		}
		switch d := was.Cell(col); {
		case d.Kind == grid.Number && h.Form == Percent:
			n := d.Value
			if lookOf(d.Format).percent {
				n = n.Shift(2)
			}
			puts = append(puts, percentPut(col, n, t.last.Cell(col)))
		case d.Kind == grid.Number:
			puts = append(puts, grid.PutNumber(col, d.Value))
		case d.Kind == grid.Text:
			puts = append(puts, grid.PutText(col, d.Raw))
		}
	}
	return puts
}

// percentPut is a percentage as a cell of this look shows it; where that cannot be
// told it is written out, 12 %, which is read alike everywhere.
func percentPut(col int, n decimal.Decimal, as grid.Datum) grid.Put {
	switch {
	case as.Kind != grid.Number:
		return grid.PutText(col, n.String()+" %")
	case lookOf(as.Format).percent:
		return grid.PutNumber(col, n.Shift(-2))
	}
	return grid.PutNumber(col, n)
}

// over is cells with others in their places.
func over(puts, others []grid.Put) []grid.Put {
	out := slices.DeleteFunc(slices.Clone(puts), func(p grid.Put) bool {
		return slices.ContainsFunc(others, func(o grid.Put) bool { return o.Col == p.Col })
	})
	return append(out, others...)
}

func (t priceTable) line(row int) grid.Line {
	i := slices.IndexFunc(t.page.Rows, func(l grid.Line) bool { return l.Row == row })
	if i < 0 {
		panic(fmt.Sprintf("templates: %s has lost its row %d", t.page.Name, row))
	}
	return t.page.Rows[i]
}

func (t priceTable) col(heading string) int {
	col, ok := t.cols[heading]
	if !ok {
		panic(fmt.Sprintf("templates: %s has lost its heading %q", t.page.Name, heading))
	}
	return col
}

func (t priceTable) form(heading string) Form {
	i := slices.IndexFunc(t.o.Headings, func(h Heading) bool { return h.Name == heading })
	return t.o.Headings[i].Form
}
