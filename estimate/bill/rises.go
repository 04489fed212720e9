package bill

import (
	"fmt"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/programme"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// rise reckons what prices are expected to rise between the tender and the
// middle of the work, where the Job asks for it:
//
//	E = round((A + B + D) (f - 1), 2)   f = round((1 + r)^(days / 365.25), 6)
//
// with days from the tender date to the start on site and half the weeks of
// the programme after it. Sums and dayworks are the client's to settle and
// bear none. E bears the Job's VAT code.
func (c *casting) rise(out *Bill, g programme.Programme) {
	out.RiseFactor = decimal.New(1, 0)
	r := c.job.PriceRises
	if r.IsZero() {
		return
	}
	if c.job.Start.IsZero() {
		c.problems.Add(problem.Problem{Code: problem.RisesStart, At: c.job.Cell("Price rises % a year"), With: c.job.Cell("Start on site"),
			Text: fmt.Sprintf("rises of %s a year are asked, and Start on site is blank; the day work begins is wanted", r)})
		return
	}
	before := decimal.New(int64(c.job.Start.Sub(c.job.TenderDate)/(24*time.Hour)), 0)
	out.RiseDays = before.Add(g.Weeks.Mul(halfWeek))
	out.RiseFactor = Factor(r, out.RiseDays)
	base := money.Sum(out.Items, out.Prelims, out.Held)
	out.Rises = base.Times(out.RiseFactor.Sub(decimal.New(1, 0)))
	c.bear(c.job.VATCode, out.Rises, c.job.Cell("VAT code"))
}

var (
	halfWeek = decimal.New(35, -1)                 // days
	year     = decimal.RequireFromString("365.25") // days
)

// Factor is how many times dearer a thing is after some days at a yearly rise
// compounded, to six places. Two years, 730.5 days, at 5 % are 1.102500.
func Factor(r money.Percent, days decimal.Decimal) decimal.Decimal {
	f, err := r.Fraction().Add(decimal.New(1, 0)).PowWithPrecision(days.DivRound(year, 20), 20)
	if err != nil {
		panic(fmt.Sprintf("bill: a rise of %s over %s days: %v", r, days, err))
	}
	return f.Round(6)
}
