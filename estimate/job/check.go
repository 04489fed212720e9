package job

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// Check is what does not make sense across the sheets of a job and its price
// book, beyond a name that stands nowhere, which is found in reading. Errors
// are only where no honest figure can be made; VAT is never judged, only what
// code and particulars say of each other.
func Check(j *Job, b *rates.Book) problem.List {
	problems := CheckUnpriced(j)
	c := check{job: j, book: b, buildUps: map[string][]rates.BuildUp{}}
	c.work()
	c.labour()
	c.stock()
	c.programme()
	c.paid()
	c.nearBuildUps()
	c.vat()
	c.conditions()
	c.seams()
	c.takingOff()
	c.oldPrices()
	c.descriptions()
	problems.Join(c.problems)
	return problems
}

// CheckUnpriced is the part of Check that matters to a bill others are to
// price: what is carried and billed, not how it is built up.
func CheckUnpriced(j *Job) problem.List {
	c := check{job: j}
	c.carried()
	c.billed()
	return c.problems
}

// check gathers what is found.
type check struct {
	job      *Job
	book     *rates.Book
	buildUps map[string][]rates.BuildUp // looked up once each
	problems problem.List
}

// found puts a problem at the first of the cells that is known.
func (c *check) found(code problem.Code, text string, cells ...origin.Cell) {
	c.problems.Add(problem.Problem{Code: code, At: cmp.Or(cells...), Text: text})
}

// buildUp is the rows of a build-up; none where the name is blank.
func (c *check) buildUp(name string) []rates.BuildUp {
	k := rates.Key(name)
	if _, ok := c.buildUps[k]; !ok && k != "" {
		c.buildUps[k] = c.book.BuildUp(name)
	}
	return c.buildUps[k]
}

// carried checks the chance and the range of every row.
func (c *check) carried() {
	for _, w := range c.job.Works() {
		switch {
		case w.Carried == AtRisk && w.Chance.Decimal().Sign() <= 0:
			c.found(problem.RiskWithoutChance, fmt.Sprintf("%q is carried as a risk; a Chance %% above nil is wanted", w.Ref), w.At)
		case w.Carried != AtRisk && !w.Chance.IsZero():
			c.found(problem.ChanceNotAtRisk, fmt.Sprintf("%q has a Chance %% of %q and is carried as %q; a chance belongs to a risk", w.Ref, w.Chance, w.Carried), w.At)
		}
		if w.Least.Decimal().GreaterThan(hundred) || (!w.Most.IsZero() && w.Most.Decimal().LessThan(hundred)) {
			c.found(problem.RangeOrder, fmt.Sprintf("%q ranges from %q to %q of its amount; a range about 100 %% is wanted", w.Ref, w.Least, w.Most), w.At)
		}
	}
	for _, r := range c.job.Risks {
		least, likely, most := r.Least.Decimal(), r.Likely.Decimal(), r.Most.Decimal()
		if least.GreaterThan(likely) || likely.GreaterThan(most) {
			c.found(problem.RangeOrder, fmt.Sprintf("%q ranges over %q, %q, %q; a least, a likely and a most in rising order are wanted", r.Ref, r.Least, r.Likely, r.Most), r.At)
		}
	}
}

// billed checks what the lines of the bill are made of.
func (c *check) billed() {
	for _, i := range c.job.Items {
		c.finer(i.Quantity, i.Unit, i.QuantityAt, i.At)
	}
	var names []string
	lines := map[string][]Work{}
	for _, w := range c.job.Works() {
		if !w.BillQty.IsZero() && w.BillUnit == "" {
			c.found(problem.BillQuantityWithoutUnit, fmt.Sprintf("%q has a Bill quantity of %q and no Bill unit; the unit is wanted", w.Ref, w.BillQty), w.BillQtyAt, w.At)
		}
		c.finer(w.BillQty, w.BillUnit, w.BillQtyAt, w.At)
		k := rates.Key(w.Line())
		if lines[k] == nil {
			names = append(names, k)
		}
		lines[k] = append(lines[k], w)
	}
	for _, k := range names {
		c.line(lines[k])
	}
}

// finer finds a typed quantity that its unit would round.
func (c *check) finer(q decimal.Decimal, u measure.Unit, cells ...origin.Cell) {
	if u == "" || q.Equal(q.Round(u.Places())) {
		return
	}
	c.problems.Add(problem.Problem{
		Code: problem.FinerThanUnit, At: cmp.Or(cells...),
		Text:    fmt.Sprintf("%q is finer than %q is billed in; at most %d decimal places are wanted", q, u, u.Places()),
		Example: q.StringFixed(u.Places()),
	})
}

// line checks that the rows of one line of the bill agree with its first by Ref.
func (c *check) line(rows []Work) {
	first := rows[0]
	for _, w := range rows[1:] {
		if CompareRefs(w.Ref, first.Ref) < 0 {
			first = w
		}
	}
	billed := first
	for _, w := range rows {
		if billed.BillQty.IsZero() && !w.BillQty.IsZero() {
			billed = w
		}
	}
	for _, w := range rows {
		if w.At == first.At && w.Ref == first.Ref {
			continue
		}
		for _, f := range []struct{ name, here, there string }{
			{"Section", w.Section, first.Section},
			{"VAT", cmp.Or(w.VAT, c.job.VATCode), cmp.Or(first.VAT, c.job.VATCode)},
			{"Funding", w.Funding, first.Funding},
		} {
			if !rates.Same(f.here, f.there) {
				c.found(problem.BillItemDiffers, fmt.Sprintf("rows of the bill item %q must agree in %s: %q here, %q in row %q",
					w.Line(), f.name, f.here, f.there, first.Ref), w.BillItemAt, w.At)
			}
		}
		if !w.BillQty.IsZero() && w.Ref != billed.Ref {
			c.found(problem.BillQuantityTwice, fmt.Sprintf("the bill item %q has its Bill quantity from row %q; %q here is not read",
				w.Line(), billed.Ref, w.BillQty), w.BillQtyAt, w.At)
		}
	}
}
