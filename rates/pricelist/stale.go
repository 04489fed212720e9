package pricelist

import (
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// Old is a price that holds on a day, and how old it is then.
type Old struct {
	Sheet  Sheet
	Key    string
	At     origin.Cell // the cell of the key
	Column string
	Price  decimal.Decimal
	Unit   measure.Unit
	From   time.Time // zero where the row bears no day, and its age cannot be told
	Days   int       // from From to the day
}

// Stale is every price that holds on a day and has done so for more than so many
// days, the oldest first of each sheet, and after them those without a day. VAT is
// left out, whose rates hold until the law changes them, and the owner's stock.
func Stale(b *rates.Book, day time.Time, days int) []Old {
	var out []Old
	for _, same := range byKey(rowsOf(b)) {
		r := same[0]
		in, _, none := onDay(same, day)
		if none || r.sheet == VAT {
			continue
		}
		c, why := in.charge(Line{})
		if why != "" && r.sheet != Plant {
			continue
		}
		o := Old{Sheet: r.sheet, Key: in.key, At: in.at, Column: c.column, Price: c.old, Unit: c.unit, From: in.from}
		if !in.from.IsZero() {
			if o.Days = int(day.Sub(in.from) / (24 * time.Hour)); o.Days <= days {
				continue
			}
		}
		out = append(out, o)
	}
	order := Sheets()
	slices.SortStableFunc(out, func(a, b Old) int {
		if a.Sheet != b.Sheet {
			return slices.Index(order, a.Sheet) - slices.Index(order, b.Sheet)
		}
		return b.Days - a.Days
	})
	return out
}

// byKey is the rows of each key of each sheet, in the order in which keys first
// appear.
func byKey(all []row) [][]row {
	type of struct {
		sheet Sheet
		key   string
	}
	at := map[of]int{}
	var out [][]row
	for _, r := range all {
		k := of{r.sheet, rates.Key(r.key)}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k], out = i, append(out, nil)
		}
		out[i] = append(out[i], r)
	}
	return out
}
