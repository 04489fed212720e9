package quotes

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// formulaGone tells of a number typed over the formula of an amount.
func (e *examination) formulaGone(i int, sum money.Amount, reckons bool) {
	o := e.cells[i].Offered
	n, ok := number(o.Amount)
	if !ok || o.Amount.State == Reckoned {
		return
	}
	amount := money.Round(n)
	f := Finding{Kind: FormulaReplaced, At: o.Amount.At}
	switch {
	case !reckons:
		f.Text = fmt.Sprintf("amount of %s is typed over its formula, and there is no rate", amount.Grouped())
		f.Query = fmt.Sprintf("Please give the rate that the %s of %s rests on.", amount.Grouped(), item(&e.sent.Lines[i]))
	case amount.Equal(sum):
		f.Text = "amount is typed over its formula; it agrees"
		e.typed = append(e.typed, e.atLine(i, f))
		return
	default:
		f.Text = fmt.Sprintf("amount is typed over its formula: %s, where the form reckons %s", amount.Grouped(), sum.Grouped())
	}
	e.ofLine(i, f)
}

// differs tells of an amount that its own quantity and rate do not come to, or of
// one that is not there. A rate nobody can read has been told of already.
func (e *examination) differs(i int, stood string, sum money.Amount, own decimal.Decimal) {
	l, o := &e.sent.Lines[i], e.cells[i].Offered
	f := Finding{Kind: AmountDiffers, At: o.Amount.At, Worth: sum,
		Query: fmt.Sprintf("Please confirm what your price for %s is: %s.", item(l), formula(l, o, own, 0))}
	switch {
	case stood != "":
		f.Worth = sum.Sub(e.cells[i].AsTendered.Amount)
		f.Text = fmt.Sprintf("amount stands at %s; %s", stood, formula(l, o, own, 0))
		f.Query = fmt.Sprintf("Please confirm your price for %s: %s, where the amount stands at %s.", item(l), formula(l, o, own, 0), stood)
	case o.Amount.State == Missing:
		f.Text = "there is no amount; " + formula(l, o, own, 0)
	default:
		f.Text = fmt.Sprintf("amount reads %q; %s", o.Amount.Text, formula(l, o, own, 0))
	}
	e.ofLine(i, f)
}

// pointMoved tells of a rate whose decimal point is plainly misplaced.
func (e *examination) pointMoved(i int, point int32, own decimal.Decimal) {
	l, o := &e.sent.Lines[i], e.cells[i].Offered
	rate, _ := number(o.Rate)
	was, is := money.NewPrice(rate), money.NewPrice(rate.Shift(point))
	f := Finding{Kind: PointMisplaced, At: o.Rate.At,
		Text: fmt.Sprintf("amount of %s is that of a rate of %s, which stands as %s: %s",
			e.cells[i].AsTendered.Amount.Grouped(), is, was, formula(l, o, own, 0)),
		Query: fmt.Sprintf("Please confirm that your rate for %s is %s and not %s.", item(l), is, was)}
	e.ofLine(i, f)
}

// The ratio to the bill's own rate within which a decimal point is doubted:
// ten, give or take a quarter. Our own measure; none is published.
var (
	doubtLow  = decimal.RequireFromString("8")
	doubtHigh = decimal.RequireFromString("12.5")
)

// tenfold reports a rate that is about ten times another, or a tenth of it.
func tenfold(rate, other decimal.Decimal) bool {
	between := func(a, b decimal.Decimal) bool {
		return a.Cmp(b.Mul(doubtLow)) >= 0 && a.Cmp(b.Mul(doubtHigh)) <= 0
	}
	return rate.Sign() > 0 && other.Sign() > 0 && (between(rate, other) || between(other, rate))
}

// doubtful tells of a rate about ten times the bill's own, or a tenth of it.
// Nothing is corrected for that.
func (e *examination) doubtful(i int, rate decimal.Decimal) {
	l := &e.sent.Lines[i]
	if !l.Priced || !tenfold(rate, l.Rate.Decimal()) {
		return
	}
	r := money.NewPrice(rate)
	e.ofLine(i, Finding{Kind: PointDoubtful, At: e.cells[i].Offered.Rate.At,
		Text:  fmt.Sprintf("rate is %s where the bill has %s: the decimal point may be misplaced", r, l.Rate.Grouped()),
		Query: fmt.Sprintf("Please confirm your rate of %s for %s.", r, item(l))})
}
