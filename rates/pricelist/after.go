package pricelist

import (
	"fmt"
	"time"

	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// After is the price book as it is once the moves are written: new rows stand
// under the others of their sheet, in the order of the moves, and name the cells of
// the rows they follow. Moves of one key and day make one row. The book given is
// not changed.
func After(b *rates.Book, moves []Move) rates.Book {
	out := *b
	out.Stock = after(Stock, b.Stock, moves, func(s *rates.Stock, m Move) (origin.Cell, *time.Time) {
		s.Price, s.Supplier = money.NewPrice(m.New), supplier(s.Supplier, m)
		return s.At, &s.From
	})
	out.Materials = after(Materials, b.Materials, moves, func(s *rates.Material, m Move) (origin.Cell, *time.Time) {
		s.Price, s.Supplier = money.NewPrice(m.New), supplier(s.Supplier, m)
		return s.At, &s.From
	})
	out.Plant = after(Plant, b.Plant, moves, func(p *rates.Plant, m Move) (origin.Cell, *time.Time) {
		switch m.Column {
		case "Each":
			p.Each = money.NewPrice(m.New)
		case "A week":
			p.Weekly = money.NewPrice(m.New)
		default:
			p.Fixed = money.NewPrice(m.New)
		}
		return p.At, &p.From
	})
	out.Subcontract = after(Subcontract, b.Subcontract, moves, func(s *rates.Subcontract, m Move) (origin.Cell, *time.Time) {
		s.Price, s.Supplier = money.NewPrice(m.New), supplier(s.Supplier, m)
		return s.At, &s.From
	})
	out.Labour = after(Labour, b.Labour, moves, func(l *rates.Labour, m Move) (origin.Cell, *time.Time) {
		if m.Column == "Pay" {
			l.Pay = money.NewPrice(m.New)
		} else {
			l.Rate = money.NewPrice(m.New)
		}
		return l.At, &l.From
	})
	out.VAT = after(VAT, b.VAT, moves, func(v *rates.VAT, m Move) (origin.Cell, *time.Time) {
		v.Rate = money.NewPercent(m.New)
		return v.At, &v.From
	})
	return out
}

func supplier(was string, m Move) string {
	if m.Supplier != "" {
		return m.Supplier
	}
	return was
}

// after is one table with its moves made. Put sets the new price in a row, and
// gives the row's cell and where its day stands.
func after[T any](sheet Sheet, rows []T, moves []Move, put func(*T, Move) (origin.Cell, *time.Time)) []T {
	out := append([]T(nil), rows...)
	fresh := map[string]int{}
	for _, m := range moves {
		if m.Sheet != sheet || !m.Writes() {
			continue
		}
		if i, ok := fresh[m.rowName()]; ok {
			put(&out[i], m)
			continue
		}
		for i := range rows {
			r := rows[i]
			at, from := put(&r, m)
			if at != m.Row {
				continue
			}
			if m.From.IsZero() {
				put(&out[i], m)
				break
			}
			*from = m.From
			fresh[m.rowName()] = len(out)
			out = append(out, r)
			break
		}
	}
	return out
}

// rowName tells new rows apart.
func (m Move) rowName() string {
	if m.From.IsZero() {
		return ""
	}
	return rates.Key(m.Key) + "|" + m.From.Format(time.DateOnly)
}

// Differ is the first row of a sheet in which two price books differ, in words,
// or blank. The cells that rows came from are left out of account.
func Differ(a, b *rates.Book) string {
	for _, s := range Sheets() {
		x, y := told(a, s), told(b, s)
		for i := range max(len(x), len(y)) {
			switch {
			case i >= len(x):
				return fmt.Sprintf("%s has a row too many: %s", s, y[i])
			case i >= len(y):
				return fmt.Sprintf("%s lacks a row: %s", s, x[i])
			case x[i] != y[i]:
				return fmt.Sprintf("%s has %s, and should have %s", s, y[i], x[i])
			}
		}
	}
	return ""
}

// told is the rows of a sheet in words, without their cells.
func told(b *rates.Book, sheet Sheet) []string {
	none := origin.Cell{}
	switch sheet {
	case Stock:
		return inWords(b.Stock, func(s *rates.Stock) { s.At, s.PriceAt, s.TimberAt = none, none, none })
	case Materials:
		return inWords(b.Materials, func(m *rates.Material) { m.At, m.PriceAt = none, none })
	case Plant:
		return inWords(b.Plant, func(p *rates.Plant) { p.At = none })
	case Subcontract:
		return inWords(b.Subcontract, func(s *rates.Subcontract) { s.At, s.PriceAt = none, none })
	case Labour:
		return inWords(b.Labour, func(l *rates.Labour) { l.At = none })
	case VAT:
		return inWords(b.VAT, func(v *rates.VAT) { v.At = none })
	}
	return nil
}

// inWords is every row of a table in words, once bare has taken its cells off.
func inWords[T any](rows []T, bare func(*T)) []string {
	var out []string
	for _, r := range rows {
		bare(&r)
		out = append(out, fmt.Sprintf("%v", r))
	}
	return out
}
