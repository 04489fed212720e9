package quotes

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// asked are the cells of a line that whoever prices it fills in with money; of a
// letter there is but one.
func asked(l *Line, o *Offered, lump bool) []Figure {
	switch {
	case lump:
		return []Figure{o.Amount}
	case l.Part == Preliminaries:
		return []Figure{o.Once, o.Rate}
	case l.Part == Sums && l.Given:
		return []Figure{o.Profit, o.Attendance}
	case l.Part == Sums:
		return []Figure{o.Quantity, o.Profit, o.Attendance}
	case l.addition():
		return []Figure{o.Addition}
	}
	return []Figure{o.Rate}
}

// prices are those of them without which a line is not priced: profit on a
// quotation that is not there is none, nor is a rate for time without a time.
func prices(l *Line, o *Offered, lump bool) []Figure {
	all := asked(l, o, lump)
	switch {
	case lump || l.bears():
	case l.Part == Sums, l.Part == Preliminaries && !timed(l, o):
		return all[:1]
	}
	return all
}

// timed reports a preliminary that has a time, given or the firm's own.
func timed(l *Line, o *Offered) bool {
	_, said := number(quantityOf(l, o))
	return said || !l.open()
}

// addition reports a daywork that is a sum of money: what is asked is the addition to it.
func (l *Line) addition() bool { return l.Part == Dayworks && l.Unit != measure.Hour }

// bears reports a line that bears money of the bill's own, whatever a firm says of it.
func (l *Line) bears() bool { return l.Part == Sums && l.Given || l.addition() }

// open reports a line whose quantity is for whoever prices it to say: the
// time of a preliminary that is not given, or the sum of a quotation.
func (l *Line) open() bool {
	switch l.Part {
	case Preliminaries:
		return l.Standing != bill.TimeGiven
	case Sums:
		return !l.Given
	}
	return false
}

// quantityOf is the cell a line's quantity stands in.
func quantityOf(l *Line, o *Offered) Figure {
	if l.Part == Preliminaries && o.Time.State != Missing {
		return o.Time
	}
	return o.Quantity
}

// ownQuantity is the quantity a quote reckons a line with: as it stands there,
// or the bill's where no number does.
func ownQuantity(l *Line, o *Offered) decimal.Decimal {
	if n, ok := number(quantityOf(l, o)); ok || l.open() {
		return n
	}
	return l.Quantity
}

// billed is the quantity a line is corrected with: the bill's, or where that
// leaves it open the quote's.
func billed(l *Line, o *Offered) decimal.Decimal {
	if l.open() {
		return ownQuantity(l, o)
	}
	return l.Quantity
}

// sumAt is what a line comes to at a quantity, by the formula of the form,
// with the decimal point of its rate moved by so many places: work and hours
// round(quantity x rate, 2); preliminaries round(once, 2) + round(time x rate, 2);
// sums round(sum, 2) + round(sum x profit, 2) + round(attendance, 2); sums of
// daywork round(sum, 2) + round(sum x addition, 2). It returns false where no number is there to reckon it from.
func sumAt(l *Line, o *Offered, quantity decimal.Decimal, point int32) (money.Amount, bool) {
	rate, rated := number(o.Rate)
	byRate := money.Round(quantity.Mul(rate.Shift(point)))
	switch {
	case l.Carried == job.RateOnly:
		return money.Amount{}, true
	case l.Part == Preliminaries:
		once, paid := number(o.Once)
		return money.Round(once).Add(byRate), rated || paid
	case l.Part == Sums:
		profit, _ := number(o.Profit)
		attendance, _ := number(o.Attendance)
		_, priced := number(o.Quantity)
		return money.Sum(money.Round(quantity), money.Round(quantity.Mul(profit)), money.Round(attendance)), l.Given || priced
	case l.addition():
		added, _ := number(o.Addition)
		return money.Round(quantity).Add(money.Round(quantity.Mul(added))), true
	}
	return byRate, rated
}

// formula is how sumAt comes by its figure, as it is printed: "10 m x 12.00 = 120.00".
func formula(l *Line, o *Offered, quantity decimal.Decimal, point int32) string {
	sum, _ := sumAt(l, o, quantity, point)
	rate, rated := number(o.Rate)
	times := fmt.Sprintf("%s %s x %s", quantity, l.Unit, money.NewPrice(rate.Shift(point)))
	text := times
	switch {
	case l.Part == Preliminaries:
		once, paid := number(o.Once)
		switch {
		case paid && rated:
			text = money.Round(once).Grouped() + " + " + times
		case paid:
			text = money.Round(once).Grouped() + " once"
		}
	case l.Part == Sums:
		text = money.Round(quantity).Grouped()
		if profit, ok := number(o.Profit); ok {
			text += " + " + percent(profit)
		}
		if attendance, ok := number(o.Attendance); ok {
			text += " + " + money.Round(attendance).Grouped()
		}
	case l.addition():
		text = money.Round(quantity).Grouped()
		if added, ok := number(o.Addition); ok {
			text += " + " + percent(added)
		}
	}
	return text + " = " + sum.Grouped()
}

func percent(fraction decimal.Decimal) string {
	return money.NewPercent(fraction.Shift(2)).String()
}

// misplaced finds by how many places the decimal point of a rate must move for
// the line to come to the amount that stands, at any of the quantities: at
// most three, either way; nought where no such move does it. World Bank
// standard bidding documents: "obvious misplacement of the decimal point in the unit rate".
func misplaced(l *Line, o *Offered, stood money.Amount, quantities ...decimal.Decimal) int32 {
	rate, rated := number(o.Rate)
	if !rated || rate.IsZero() || stood.IsZero() || l.Part == Sums || l.addition() {
		return 0
	}
	for _, point := range []int32{1, -1, 2, -2, 3, -3} {
		for _, q := range quantities {
			if sum, _ := sumAt(l, o, q, point); sum.Equal(stood) {
				return point
			}
		}
	}
	return 0
}

// reckon sets the amount that stands beside the one its rate gives, and finds
// what the line is corrected to where its rate governs.
func (e *examination) reckon(i int) {
	l, c := &e.sent.Lines[i], &e.cells[i]
	o := c.Offered
	e.broken = e.broken || o.Amount.State == Faulty
	if c.State != Answered {
		return
	}
	if e.quote.Lump || l.Carried == job.RateOnly {
		e.plain(i)
		return
	}
	own, due := ownQuantity(l, o), billed(l, o)
	ownSum, ok := sumAt(l, o, own, 0)
	e.formulaGone(i, ownSum, ok)
	if !ok {
		e.plain(i)
		e.reckons[i].why = "no rate: the amount stands"
		return
	}
	sum, _ := sumAt(l, o, due, 0)
	r := &e.reckons[i]
	stood := c.AsTendered
	point := int32(0)
	switch {
	case !stood.Known:
		r.why = "no amount stood: " + formula(l, o, due, 0)
		e.differs(i, "", ownSum, own)
	case stood.Amount.Equal(sum): // at the quantity of the bill, whatever stands beside it
	case stood.Amount.Equal(ownSum):
		r.why = governs(l, o, due, own, stood.Amount)
	default:
		point = misplaced(l, o, stood.Amount, own, due)
		if point == 0 {
			r.why = fmt.Sprintf("rate governs: %s, stood as %s", formula(l, o, due, 0), stood.Amount.Grouped())
			e.differs(i, stood.Amount.Grouped(), ownSum, own)
			break
		}
		sum, _ = sumAt(l, o, due, point)
		e.pointMoved(i, point, own)
		r.why = fmt.Sprintf("point of the rate misplaced: %s, rate stood as %s", formula(l, o, due, point), money.NewPrice(o.Rate.Value))
	}
	r.sum = sum
	if l.Part == Work {
		rate, _ := number(o.Rate)
		r.rate = Money{money.Round(rate.Shift(point)), true}
		e.doubtful(i, rate.Shift(point))
	}
}

// governs says why an amount that agrees with its own quantity is corrected.
func governs(l *Line, o *Offered, due, own decimal.Decimal, stood money.Amount) string {
	if l.bears() {
		return fmt.Sprintf("sum of the bill: %s, stood as %s", formula(l, o, due, 0), stood.Grouped())
	}
	return fmt.Sprintf("quantity of the bill: %s, stood as %s for %s %s", formula(l, o, due, 0), stood.Grouped(), own, l.Unit)
}

// plain takes the amount of a line as it stands: there is nothing to reckon it
// from. Its rate, where it is of work, is the amount over the quantity.
func (e *examination) plain(i int) {
	l, c := &e.sent.Lines[i], &e.cells[i]
	r := &e.reckons[i]
	r.sum = c.AsTendered.Amount
	if l.Part != Work {
		return
	}
	rate, rated := number(c.Offered.Rate)
	switch {
	case e.quote.Lump && l.Carried == job.RateOnly:
		amount, ok := number(c.Offered.Amount)
		r.rate = Money{money.Round(amount), ok}
	case rated:
		r.rate = Money{money.Round(rate), true}
	case !l.Quantity.IsZero() && c.AsTendered.Known:
		r.rate = Money{r.sum.Per(l.Quantity), true}
	}
}
