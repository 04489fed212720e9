package templates

import (
	"testing"

	"futtock/rates"
	"futtock/rates/problem"
)

// apart is the example job with its price sheets in a book of their own.
func apart(t *testing.T) (own, prices *yard) {
	own, prices = newYard(t), newYard(t)
	for _, o := range Sheets() {
		if o.Prices {
			own.without(o.Name)
		} else {
			prices.without(o.Name)
		}
	}
	return own, prices
}

func readApart(own, prices *yard) (rates.Book, problem.List) {
	book := TextBook("prices.xlsx", prices.tables)
	_, b, found := Read(TextBook("yard.xlsx", own.tables), &book)
	return b, found
}

func TestAPriceBookKeptApartSuppliesThePriceSheets(t *testing.T) {
	own, prices := apart(t)
	b, found := readApart(own, prices)
	for _, p := range found {
		t.Error(p)
	}
	if !b.BookProvided || len(b.Norms) != 1 || b.Norms[0].At.Book != "prices.xlsx" || !b.BuildUps[0].ByPriceBk {
		t.Errorf("provided %t, norms %d, of %q", b.BookProvided, len(b.Norms), b.Norms[0].At.Book)
	}
}

func TestTheJobsOwnRowsGoBeforeThePriceBooks(t *testing.T) {
	cases := []struct {
		name, from, price string
		rows              int
	}{
		// The price book's row holds from 2026-01-05, the tender is of 2026-03-12.
		{"though they are older", "2025-01-01", "2.10", 1},
		{"but not before their day", "2026-06-01", "1.85", 2},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			own, prices := apart(t)
			own.tables = append(own.tables, ParseTSV("Materials", "Material\tUnit\tPrice\tFrom\nSPIKE  150\tnr\t2.10\t"+c.from))
			b, found := readApart(own, prices)
			for _, p := range found {
				t.Error(p)
			}
			day, err := parseDay("2026-03-12")
			if err != nil {
				t.Fatal(err)
			}
			m, ok := b.Material("spike 150", day)
			if !ok || m.Price.String() != c.price || len(b.Materials) != c.rows {
				t.Errorf("price %s of %d rows, want %s of %d", m.Price, len(b.Materials), c.price, c.rows)
			}
		})
	}
}

func TestProblemsOfAPriceBookNameIt(t *testing.T) {
	own, prices := apart(t)
	prices.set("Materials", "Price", "dear").set("Build-ups", "Key", "Fit side plnk")
	_, found := readApart(own, prices)
	if len(found) != 2 || found[0].At.String() != "prices.xlsx: Build-ups!C2" || found[1].At.String() != "prices.xlsx: Materials!E2" {
		t.Errorf("got %v", found)
	}
}
