package sheets_test

import (
	"fmt"
	"strings"
	"testing"

	"futtock/estimate"
	"futtock/estimate/cash"
	"futtock/output/sheets"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// rowOf is the row of a sheet whose first cell holds a text, from a row on.
func rowOf(t *testing.T, s *grid.Sheet, text string, from int) int {
	t.Helper()
	for i := from; i < len(s.Rows); i++ {
		if r := s.Rows[i]; len(r.Cells) > 0 && r.Cells[0].Text == text {
			return i
		}
	}
	t.Fatalf("sheet %q has no row %q from %d on", s.Name, text, from+1)
	return 0
}

// The months, what they are made of and the funds each come to the bill, to the
// penny, and so does every month.
func TestTheCashFlowComesToTheBill(t *testing.T) {
	for name, r := range map[string]estimate.Result{
		"as it is": demonstration(t), "simulated": simulated(t), "by the year of weeks": kept(t, "frames-six-inch.txtar"),
	} {
		s := sheet(t, sheets.Estimate(r), "Cash")
		months := 0
		for _, m := range r.Cash.Months {
			if m.Working {
				months++
			}
		}
		head := rowOf(t, s, "Month", 0)
		// table adds up the rows between a heading and its totals, by column.
		table := func(heading string, col int) (parts money.Amount, total string) {
			from := head
			if heading != "Month" {
				from = rowOf(t, s, heading, head)
			}
			to := rowOf(t, s, "In all", from)
			for _, row := range s.Rows[from+1 : to] {
				parts = parts.Add(money.Round(row.Cells[col].Number))
			}
			return parts, s.Rows[to].Cells[col].Number.StringFixed(2)
		}
		want := r.Bill.Net
		for _, c := range []struct {
			heading string
			col     int
		}{{"Month", 3}, {"What it is made of", 3}, {"Drawn from", 3}} {
			if parts, total := table(c.heading, c.col); !parts.Equal(want) || total != want.Decimal().StringFixed(2) {
				t.Errorf("%s: %s: the rows come to %s, the total says %s and the bill %s", name, c.heading, parts, total, want)
			}
		}
		for n := range months {
			value := s.Rows[head+1+n].Cells[3]
			for _, heading := range []string{"What it is made of", "Drawn from"} {
				if parts, _ := table(heading, 4+n); !parts.Equal(money.Round(value.Number)) {
					t.Errorf("%s: %s: month %d comes to %s and its value is %s", name, heading, n+1, parts, value.Number)
				}
			}
			for _, col := range []int{3, 4, 6, 7, 10, 11, 13} {
				if s.Rows[head+1+n].Cells[col].Formula == "" {
					t.Errorf("%s: month %d: column %s is a bare figure", name, n+1, origin.Column(col+1))
				}
			}
		}
		if got := s.Rows[head+len(r.Cash.Months)].Cells[11].Number; !got.Equal(want.Decimal()) {
			t.Errorf("%s: received come to %s when defects are made good and the bill to %s", name, got, want)
		}
		for _, l := range r.Cash.Lines {
			if l.Of != cash.OfDeposits {
				continue
			}
			if got := s.Rows[rowOf(t, s, "Deposits in all", head)].Cells[7].Number; !got.Equal(l.Total.Decimal()) {
				t.Errorf("%s: orders have deposits of %s and the months %s", name, got, l.Total)
			}
		}
	}
}

// The risk sheet shows draws only where they were made, and what optimism bias
// would add in either case: 51 % on the price at the upper bound of non-standard
// buildings (Mott MacDonald 2002, Table 2).
func TestTheRiskSheetSaysWhatWasDrawn(t *testing.T) {
	for name, r := range map[string]estimate.Result{"by percent": demonstration(t), "simulated": simulated(t)} {
		s := sheet(t, sheets.Estimate(r), "Risk")
		base := s.Rows[4].Cells[3].Number
		held, draws, biased := false, 0, false
		for _, row := range s.Rows {
			if len(row.Cells) < 4 {
				continue
			}
			text, figure := row.Cells[1].Text, row.Cells[3]
			held = held || strings.HasPrefix(text, "Contingency held") && figure.Number.Equal(r.Contingency.Total.Decimal())
			if len(row.Cells) == 7 && text == "In all" {
				draws = int(row.Cells[5].Number.IntPart())
			}
			if text == "Non-standard buildings" && row.Cells[2].Text == "upper" {
				biased = row.Cells[4].Number.Equal(money.Round(base).Percent(r.Contingency.Bias[0].Bias.CapitalUpper).Decimal()) &&
					row.Cells[3].Number.String() == "0.51" && strings.Contains(row.Cells[7].Text, "Mott MacDonald")
			}
		}
		rowOf(t, s, "Optimism bias: for comparison only, never in the total", 0)
		if !biased {
			t.Errorf("%s: the bias of non-standard buildings is not 51 %% of %s", name, base)
		}
		if drawn := r.Contingency.Simulation != nil; drawn != held || drawn != (draws == 100_000) || drawn != (len(s.Charts) == 1) {
			t.Errorf("%s: held %v, %d draws, %d charts", name, held, draws, len(s.Charts))
		}
	}
}

// Charts read figures by names that are there, and cover no cell that holds
// anything.
func TestChartsReadFiguresAndCoverNothing(t *testing.T) {
	b := laidOutSimulated(t)
	charts := 0
	for _, s := range b.Sheets {
		for _, c := range s.Charts {
			charts++
			of := reach(t, b, c.Of)
			for _, series := range c.Series {
				name, values := reach(t, b, series.Name), reach(t, b, series.Values)
				if len(name) != 1 || name[0].Text == "" || len(values) != len(of) || len(of) < 5 {
					t.Errorf("%s: %q: %d names of %q, %d values at %d places", s.Name, c.Title, len(name), series.Name, len(values), len(of))
				}
				for n, v := range values {
					if v.Kind != grid.Number || of[n].Kind == grid.Blank {
						t.Errorf("%s: %q: figure %d of %s is %+v at %+v", s.Name, c.Title, n+1, series.Values, v, of[n])
					}
				}
			}
			for _, cell := range reach(t, b, "'"+s.Name+"'!"+c.Range) {
				if cell.Kind != grid.Blank {
					t.Errorf("%s: %q covers %+v", s.Name, c.Title, cell)
				}
			}
		}
	}
	if charts != 5 {
		t.Errorf("%d charts; summary, cash, risk, programme and old fabric have one each", charts)
	}
	if _, err := xlsx.Write(b); err != nil {
		t.Error(err)
	}
}

// reach is the cells of a range, row by row.
func reach(t *testing.T, b *grid.Book, where string) (cells []grid.Cell) {
	t.Helper()
	m := reference.FindStringSubmatch(where)
	if m == nil {
		t.Fatalf("%q is no range", where)
	}
	if m[4] == "" {
		m[4], m[5] = m[2], m[3]
	}
	var top, bottom int
	fmt.Sscan(m[3], &top)
	fmt.Sscan(m[5], &bottom)
	rows := sheet(t, b, m[1]).Rows
	for row := top; row <= bottom; row++ {
		for col := 1; col <= 26; col++ {
			if name := origin.Column(col); name < m[2] || name > m[4] {
				continue
			}
			var c grid.Cell
			if row <= len(rows) && col <= len(rows[row-1].Cells) {
				c = rows[row-1].Cells[col-1]
			}
			cells = append(cells, c)
		}
	}
	return cells
}
