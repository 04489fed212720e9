package estimate

import (
	"github.com/shopspring/decimal"

	"futtock/rates"
)

// TradeHours is the hours of one trade over all work in the total.
type TradeHours struct {
	Trade string
	Hours decimal.Decimal // to 0.01
}

// HoursByTrade adds up the hours of work in the total, trades in the order of
// the Labour sheet.
func (r Result) HoursByTrade() []TradeHours {
	var out []TradeHours
	place := map[string]int{}
	for _, l := range r.Book.Labour {
		if _, seen := place[rates.Key(l.Trade)]; !seen {
			place[rates.Key(l.Trade)] = len(out)
			out = append(out, TradeHours{Trade: l.Trade})
		}
	}
	for _, h := range r.Hours.Lines {
		if i, ok := place[rates.Key(h.Trade)]; ok && h.Carried.InTotal() {
			out[i].Hours = out[i].Hours.Add(h.Hours)
		}
	}
	worked := out[:0]
	for _, t := range out {
		if !t.Hours.IsZero() {
			worked = append(worked, t)
		}
	}
	return worked
}
