package rates

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// Norm is the norm of a task in force on a day.
func (b *Book) Norm(task string, day time.Time) (Norm, bool) { return inForce(b.Norms, task, day) }

// Trade is the labour row of a trade in force on a day.
func (b *Book) Trade(trade string, day time.Time) (Labour, bool) {
	return inForce(b.Labour, trade, day)
}

// Material is the row of a material in force on a day.
func (b *Book) Material(name string, day time.Time) (Material, bool) {
	return inForce(b.Materials, name, day)
}

// PlantRow is the row of a plant in force on a day.
func (b *Book) PlantRow(name string, day time.Time) (Plant, bool) { return inForce(b.Plant, name, day) }

// Work is the row of subcontracted work in force on a day.
func (b *Book) Work(name string, day time.Time) (Subcontract, bool) {
	return inForce(b.Subcontract, name, day)
}

// StockRow is the row of a stock line in force on a day.
func (b *Book) StockRow(name string, day time.Time) (Stock, bool) {
	return inForce(b.Stock, name, day)
}

// TradesInForce is the row of every trade in force on a day, in the order in which trades first
// stand in the workbook.
func (b *Book) TradesInForce(day time.Time) []Labour { return each(b.Labour, day) }

// StockInForce is the row in force of every stock line, in the order of the workbook.
func (b *Book) StockInForce(day time.Time) []Stock { return each(b.Stock, day) }

// Tax is the row of a VAT code in force on a day.
func (b *Book) Tax(code string, day time.Time) (VAT, bool) { return inForce(b.VAT, code, day) }

// TimberRow is what is known of a timber.
func (b *Book) TimberRow(name string) (Timber, bool) {
	for _, t := range b.Timber {
		if Same(t.Timber, name) {
			return t, true
		}
	}
	return Timber{}, false
}

// FastenersOf is the rows of a fastening rule in the order of the workbook;
// none means that there is no such rule. Rows of the workbook that names the
// rule first hide those of another.
func (b *Book) FastenersOf(rule string) []Fastening {
	var rows []Fastening
	for _, f := range b.Fastenings {
		if Same(f.Rule, rule) && (len(rows) == 0 || f.At.Book == rows[0].At.Book) {
			rows = append(rows, f)
		}
	}
	return rows
}

// Hour is what an hour of the trade costs: the rate as given, or
//
//	pay x paid hours x (1 + on-costs) / worked hours + other costs
//
// rounded once to the penny.
func (l Labour) Hour() money.Amount {
	if !l.Rate.IsZero() {
		return l.Rate.Amount()
	}
	if l.Worked.IsZero() {
		return money.Amount{}
	}
	loaded := l.OnCosts.Fraction().Add(decimal.New(1, 0))
	year := l.Pay.Decimal().Mul(l.Paid).Mul(loaded).Add(l.Other.Decimal().Mul(l.Worked))
	return money.Round(year.DivRound(l.Worked, 2))
}
