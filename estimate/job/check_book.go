package job

import (
	"fmt"
	"strings"

	"futtock/rates"
	"futtock/rates/problem"
)

// work checks that what is to be done is said: by a build-up, by hours with
// their trade, by a cost with its kind.
func (c *check) work() {
	for _, m := range c.job.Members {
		if m.Treatment != Retain && m.BuildUp == "" && m.Hours.IsZero() {
			c.found(problem.TreatmentWithoutWork, fmt.Sprintf("%q has the treatment %q and neither Build-up nor Hours; one of them is wanted", m.Ref, m.Treatment), m.TreatmentAt, m.At)
		}
	}
	for _, i := range c.job.Items {
		if !i.Cost.IsZero() && i.CostKind == "" {
			c.found(problem.CostWithoutKind, fmt.Sprintf("%q has a Cost of %q and no Cost kind; the kind whose overheads and profit it bears is wanted", i.Ref, i.Cost), i.CostAt, i.At)
		}
	}
	for _, w := range c.job.Works() {
		switch {
		case !w.Hours.IsZero() && w.Trade == "":
			c.found(problem.HoursWithoutTrade, fmt.Sprintf("%q has %q hours and no Trade; the trade that works them is wanted", w.Ref, w.Hours), w.TradeAt, w.At)
		case w.Hours.IsZero() && w.Trade != "":
			c.found(problem.TradeWithoutHours, fmt.Sprintf("%q names the Trade %q and gives no Hours; both are wanted, or neither", w.Ref, w.Trade), w.TradeAt, w.At)
		}
	}
}

// labour checks the trades in force.
func (c *check) labour() {
	for _, l := range c.book.Labour {
		in, ok := c.book.Trade(l.Trade, c.job.TenderDate)
		if ok && in.At == l.At && !l.Rate.IsZero() && !l.Pay.IsZero() {
			c.found(problem.LabourRateTwice, fmt.Sprintf("%q has a Rate of %q and a Pay of %q; the Rate is taken", l.Trade, l.Rate, l.Pay), l.At)
		}
	}
}

// stock checks the stock lines in force, and the rows bound to them.
func (c *check) stock() {
	for _, s := range c.book.StockInForce(c.job.TenderDate) {
		if s.ByOwner && !s.Price.IsZero() {
			c.found(problem.OwnerStockPriced, fmt.Sprintf("%q is supplied by the owner and has a Price of %q, which is not read", s.Stock, s.Price), s.PriceAt, s.At)
		}
	}
	for _, m := range c.job.Members {
		if m.Stock == "" || m.Timber == "" {
			continue
		}
		s, ok := c.book.StockRow(m.Stock, c.job.TenderDate)
		if ok && !rates.Same(s.Timber, m.Timber) {
			c.found(problem.StockOfOtherTimber, fmt.Sprintf("%q is of the Timber %q; row %q is of %q", m.Stock, s.Timber, m.Ref, m.Timber), m.StockAt, m.At)
		}
	}
}

// paid checks what is paid ahead, and what is kept back.
func (c *check) paid() {
	for _, s := range c.job.Sums {
		if !s.Deposit.IsZero() && !s.Kind.Ordered() {
			c.found(problem.DepositWithoutOrder, fmt.Sprintf("%q is %q and has a Deposit %% of %q; a deposit is paid on a quotation or prime cost", s.Ref, s.Kind, s.Deposit), s.DepositAt, s.At)
		}
	}
	if c.job.DefectsMonths > 0 && c.job.Retention.IsZero() {
		c.found(problem.DefectsWithoutRetention, fmt.Sprintf("a Defects period of %d months dates nothing; a Retention %% is wanted beside it", c.job.DefectsMonths), c.job.Cell("Defects period (months)"))
	}
}

// programme checks the stages and the closures by themselves.
func (c *check) programme() {
	for _, s := range c.job.Stages {
		if s.LeastWeeks.Sign() < 0 {
			c.found(problem.LeastWeeksNegative, fmt.Sprintf("%q has Least weeks of %q; nil or more is wanted", s.Stage, s.LeastWeeks), s.LeastAt, s.At)
		}
	}
	for _, k := range c.job.Closures {
		if k.To.Before(k.From) {
			c.found(problem.ClosureBackwards, fmt.Sprintf("the closure is to end on %s, before it begins on %s; a To not before From is wanted",
				k.To.Format("2006-01-02"), k.From.Format("2006-01-02")), k.At)
		} else if days := int(k.To.Sub(k.From).Hours()/24) + 1; days > longClosure {
			c.found(problem.ClosureLong, fmt.Sprintf("the yard is to be closed for %d days, from %s to %s; is the year right?",
				days, k.From.Format("2006-01-02"), k.To.Format("2006-01-02")), k.At)
		}
	}
}

// longClosure is how many days a yard may close before it is asked about: a
// quarter of a year.
const longClosure = 91

// nearBuildUps asks of a build-up that no row uses, and whose name is nearly
// that of one in use, whether it was meant for that: its tasks are priced
// nowhere. Names that differ in their figures are kinds of one thing.
func (c *check) nearBuildUps() {
	inUse := &names{seen: map[string]bool{}}
	for _, w := range c.job.Works() {
		inUse.add(w.BuildUp)
	}
	told := &names{seen: map[string]bool{}}
	for _, u := range c.book.BuildUps {
		if inUse.has(u.Name) || told.has(u.Name) {
			continue
		}
		var alike []string
		for _, n := range inUse.names {
			if figures(n) == figures(u.Name) {
				alike = append(alike, n)
			}
		}
		if near := problem.Nearest(u.Name, alike); near != "" {
			told.add(u.Name)
			c.problems.Add(problem.Problem{Code: problem.BuildUpNear, At: u.At, Near: near,
				Text: fmt.Sprintf("no row uses the build-up %q, and what it holds is priced nowhere", u.Name)})
		}
	}
}

// figures is the digits of a name.
func figures(s string) string {
	return strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, s)
}
