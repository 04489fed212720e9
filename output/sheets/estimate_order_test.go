package sheets_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/output/sheets"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// atCell is a cell of a row, blank where the row is shorter.
func atCell(r grid.Row, col int) grid.Cell {
	if col > len(r.Cells) {
		return grid.Cell{}
	}
	return r.Cells[col-1]
}

// rowsUnder is the rows below the heading that begins with a text, with their
// numbers, down to the next heading of a table.
func rowsUnder(t *testing.T, s *grid.Sheet, text string) (rows []grid.Row, first int) {
	t.Helper()
	for i, r := range s.Rows {
		if len(r.Cells) > 0 && r.Cells[0].Text == text && r.Cells[0].Style.Fill != "" {
			for _, below := range s.Rows[i+1:] {
				if len(below.Cells) > 0 && below.Cells[0].Style.Fill != "" {
					break
				}
				rows = append(rows, below)
			}
			return rows, i + 2
		}
	}
	t.Fatalf("%s has no heading %q", s.Name, text)
	return nil, 0
}

// Every line of the order stands once, under its supplier, reads its figures
// from the timber bought, and is summed in one run with its supplier's others.
func TestTheTimberOrderIsSummedBySupplier(t *testing.T) {
	r := demonstration(t)
	s := sheet(t, sheets.Estimate(r), "Timber order")
	rows, first := rowsUnder(t, s, "Stock")
	supplier := map[string]string{}
	for _, l := range r.Plan.Order {
		supplier[l.Stock.Stock] = l.Stock.Supplier
	}
	band, from, lines, parts := "", 0, 0, decimal.Decimal{}
	for i, row := range rows {
		n := first + i
		name, cost := atCell(row, 1), atCell(row, 9)
		switch {
		case name.Link != "":
			lines++
			if want, ok := supplier[name.Text]; !ok || want != band && band != "Owner's timber: nothing to order, sawing and delivery only" {
				t.Errorf("%q of %q stands under %q", name.Text, want, band)
			}
			for _, col := range []int{5, 9} {
				if f := atCell(row, col).Formula; !regexp.MustCompile(`^'Timber bought'!\$?[A-Z]\$?\d+$`).MatchString(f) {
					t.Errorf("row %d column %d reads %q", n, col, f)
				}
			}
		case name.Text == "Sub-total":
			if want := fmt.Sprintf("SUM(I%d:I%d)", from, n-1); cost.Formula != want {
				t.Errorf("the sub-total of %s is =%s, want =%s", band, cost.Formula, want)
			}
			parts = parts.Add(cost.Number)
		case name.Text == "Timber of the order":
			if !cost.Number.Equal(r.Plan.Bound.Cost.Decimal()) || !cost.Number.Equal(parts) {
				t.Errorf("the order comes to %s, its suppliers to %s, the plan to %s", cost.Number, parts, r.Plan.Bound.Cost)
			}
		case name.Text != "":
			band, from = name.Text, n+1
		}
	}
	if lines != len(r.Plan.Order) || lines < 5 {
		t.Errorf("%d lines stand in the order, and %d are bought", lines, len(r.Plan.Order))
	}
}

// Every material to be ordered is the sum of one run of rows, all of its own
// name, and its packs hold it with less than one to spare.
func TestMaterialsAreOrderedInWholePacks(t *testing.T) {
	r := demonstration(t)
	s := sheet(t, sheets.Estimate(r), "Materials order")
	rows, _ := rowsUnder(t, s, "Material")
	of := regexp.MustCompile(`^ROUND\(SUM\(C(\d+):C(\d+)\),3\)$`)
	seen, packed := 0, 0
	for _, row := range rows {
		m := of.FindStringSubmatch(atCell(row, 3).Formula)
		if m == nil {
			continue
		}
		seen++
		var from, to int
		fmt.Sscan(m[1]+" "+m[2], &from, &to)
		var sum decimal.Decimal
		for n := from; n <= to; n++ {
			if got := s.Rows[n-1].Cells[0].Text; !rates.Same(got, row.Cells[0].Text) {
				t.Errorf("%s sums row %d, which is of %q", row.Cells[0].Text, n, got)
			}
			sum = sum.Add(s.Rows[n-1].Cells[2].Number)
		}
		if !sum.Equal(row.Cells[2].Number) {
			t.Errorf("%s: rows come to %s, the order says %s", row.Cells[0].Text, sum, row.Cells[2].Number)
		}
		if pack := atCell(row, 5).Number; pack.Sign() > 0 {
			packed++
			if spare := atCell(row, 6).Number.Mul(pack).Sub(sum); spare.Sign() < 0 || spare.Cmp(pack) >= 0 {
				t.Errorf("%s: %s packs of %s for %s", row.Cells[0].Text, row.Cells[5].Number, pack, sum)
			}
		}
	}
	if seen != len(r.Priced.Materials) || packed == 0 {
		t.Errorf("%d materials, %d in packs; %d are priced", seen, packed, len(r.Priced.Materials))
	}
}

// The cutting shows every stick and every piece of every pattern, what is
// proven of each timber, and the worth of the off-cuts.
func TestTheCuttingShowsEveryStick(t *testing.T) {
	r := demonstration(t)
	s := sheet(t, sheets.Estimate(r), "Cutting")
	var sticks, pieces int64
	for _, l := range append(r.Plan.Order[:len(r.Plan.Order):len(r.Plan.Order)], r.Plan.Maybe...) {
		for _, p := range l.Patterns {
			sticks += int64(p.Times)
			pieces += int64(p.Times * len(p.Cuts))
		}
	}
	rows, _ := rowsUnder(t, s, "Stock")
	var times decimal.Decimal
	var shownSticks, shownPieces int64
	for _, row := range rows {
		if c := atCell(row, 2); c.Kind == grid.Number {
			times = c.Number
			shownSticks += times.IntPart()
		}
		if c := atCell(row, 5); c.Kind == grid.Number && atCell(row, 4).Text != "left over" {
			shownPieces += times.Mul(c.Number).IntPart()
		}
	}
	if shownSticks != sticks || shownPieces != pieces || pieces == 0 {
		t.Errorf("%d sticks and %d pieces are shown, of %d and %d", shownSticks, shownPieces, sticks, pieces)
	}

	rows, _ = rowsUnder(t, s, "Timber of the order")
	for i, sp := range r.Plan.Species {
		row := rows[i]
		if row.Cells[0].Text != sp.Timber || !row.Cells[5].Number.Equal(sp.Yield.Fraction()) || !row.Cells[7].Number.Equal(sp.Cost.Decimal()) {
			t.Errorf("%s stands as %s %s %s", sp.Timber, row.Cells[0].Text, row.Cells[5].Number, row.Cells[7].Number)
		}
		if none := strings.HasPrefix(row.Cells[8].Text, "nothing"); none != sp.Bound.Least.IsZero() {
			t.Errorf("%s: the least is %s, and the sheet says %q", sp.Timber, sp.Bound.Least, row.Cells[8].Text)
		}
	}
	if all := rows[len(r.Plan.Species)]; !all.Cells[8].Number.Equal(r.Plan.Bound.Least.Decimal()) || !all.Cells[9].Number.Equal(r.Plan.Bound.Gap.Fraction()) {
		t.Errorf("the least of the order is %s, gap %s", all.Cells[8].Number, all.Cells[9].Number)
	}

	var inHand, shown decimal.Decimal
	for _, l := range r.Plan.Order {
		inHand = inHand.Add(l.InHand.Decimal())
	}
	rows, _ = rowsUnder(t, s, "Off-cuts in hand, of")
	for _, row := range rows {
		if atCell(row, 1).Text == "In hand, no part of any price" {
			break
		}
		shown = shown.Add(atCell(row, 10).Number)
	}
	if !shown.Equal(inHand) || inHand.Sign() <= 0 {
		t.Errorf("off-cuts come to %s, of %s", shown, inHand)
	}
}

// Where nothing is proven of a timber the sheet says so, and sets no gap beside it.
func TestNothingProvenIsSaid(t *testing.T) {
	r := kept(t, "frames-six-inch.txtar")
	r.Plan.Species[0].Bound.Least, r.Plan.Bound.Least = money.Amount{}, money.Amount{}
	rows, _ := rowsUnder(t, sheet(t, sheets.Estimate(r), "Cutting"), "Timber of the order")
	for i, row := range rows[:2] {
		if row.Cells[8].Text != "nothing proven" || row.Cells[9].Formula != "" {
			t.Errorf("row %d says %q, gap =%s", i+1, row.Cells[8].Text, row.Cells[9].Formula)
		}
	}
}
