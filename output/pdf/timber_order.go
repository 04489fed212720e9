package pdf

import (
	"strconv"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
)

// order is the timber to be got, by supplier. It has pages of its own: they are
// what goes to the suppliers.
func (t *timber) order() {
	if len(t.stock) > 0 && !t.fresh() {
		t.turn()
	}
	t.begin("Timber order")
	dated, laid := !t.Programme.Start.IsZero(), len(t.Programme.Stages) > 0
	t.say(body, t.standing("order")...)
	columns := []column{{head: "Stock", share: 1}, {head: "Size", share: 1.1}, {head: "Number", align: flush}, {head: "Bought " + unit(t.Job.VolumeUnit()), align: pointed}, {head: "Lead weeks", align: flush}}
	switch {
	case laid && dated:
		t.say(body, t.standing("order wanted")...)
		columns = append(columns, column{head: "Order by", align: ranged}, column{head: "Wanted by", align: ranged})
	case laid:
		t.say(body, t.standing("order weeks")...)
		columns = append(columns, column{head: "Wanted by week", align: flush})
	}
	columns = append(columns, column{head: "Drawn as", align: ranged})
	table := t.table(columns...)
	band := ""
	for _, l := range t.stock {
		if s := supplier(l.Line); band == "" || rates.Key(s) != rates.Key(band) {
			band = s
			table.across(bandRow, s, s)
			if s == maybe {
				for _, p := range t.standing("maybe") {
					table.across(noteRow, p, "")
				}
			}
		}
		table.add(plainRow, t.orderCells(l, laid, dated)...)
	}
	if len(t.stock) == 0 {
		t.say(body, "No timber is wanted.")
		return
	}
	table.set()
}

func (t *timber) orderCells(l stockLine, laid, dated bool) []cell {
	s := l.Stock
	what := s.Timber + ", " + string(s.Form)
	if l.Carried != job.Measured {
		what += ", " + outside(l.Carried)
	}
	number := quantity(l.Buy, measure.Nr)
	if s.Form == rates.Cube {
		number = quantity(l.Buy, s.Unit) + "\u00a0" + unit(s.Unit)
	}
	lead := ""
	if s.LeadGiven {
		lead = s.LeadWeeks.String()
	}
	cells := []cell{words(s.Stock, what), words(t.stick(s), t.bought(l)), styled(number, cellBold, 1), words(t.volume(l.Bought), ""), words(lead, "")}
	if laid {
		at, weeks, known := t.wanted(l.Line)
		switch {
		case !known && dated:
			cells = append(cells, words("", ""), words("", ""))
		case !known:
			cells = append(cells, words("", ""))
		case dated:
			by, past := "", ""
			if s.LeadGiven {
				on := at.AddDate(0, 0, -int(s.LeadWeeks.Mul(decimal.New(7, 0)).Ceil().IntPart()))
				if by = on.Format(shortDay); on.Before(t.Job.TenderDate) {
					past = "already past"
				}
			}
			cells = append(cells, words(by, past), words(at.Format(shortDay), ""))
		default:
			cells = append(cells, words(weeks.StringFixed(1), ""))
		}
	}
	return append(cells, words(l.patterns(), ""))
}

// bought says how many sticks are sawn where more are bought than that.
func (t *timber) bought(l stockLine) string {
	if l.Stock.Form == rates.Cube {
		return ""
	}
	spare := int(l.Buy.IntPart()) - l.sawn()
	if spare <= 0 {
		return ""
	}
	return strconv.Itoa(l.sawn()) + " sawn, " + strconv.Itoa(spare) + " for loss"
}

// sawn is how many sticks of a line are sawn.
func (l stockLine) sawn() int {
	n := 0
	for _, p := range l.Patterns {
		n += p.Times
	}
	return n
}

// patterns is the numbers of a line's patterns.
func (l stockLine) patterns() string {
	switch n := len(l.Patterns); n {
	case 0:
		return "by list"
	case 1:
		return strconv.Itoa(l.first)
	default:
		return strconv.Itoa(l.first) + "–" + strconv.Itoa(l.first+n-1)
	}
}

// shortDay is how tables write a day.
const shortDay = "2\u00a0Jan\u00a02006"
