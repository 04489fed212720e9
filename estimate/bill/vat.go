package bill

import (
	"cmp"
	"fmt"
	"slices"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// net is what one code of VAT is borne by, and the first cell that asked for it.
type net struct {
	code string
	sum  money.Amount
	at   origin.Cell
}

// bear puts an amount to its code. Nil money makes no line of VAT.
func (c *casting) bear(code string, a money.Amount, at origin.Cell) {
	if !a.IsZero() {
		c.nets = add(c.nets, net{code, a, at})
	}
}

func add(nets []net, n net) []net {
	for i := range nets {
		if rates.Same(nets[i].code, n.code) {
			nets[i].sum = nets[i].sum.Add(n.sum)
			return nets
		}
	}
	return append(nets, n)
}

// tax reckons VAT by code: the net of all lines that bear it times the rate in
// force on the tender date, rounded once to the penny, nearest or down as the
// Job has it. Codes stand in the order of the VAT sheet. Where a code on the
// bill says what it would be otherwise, the total is cast that way too.
func (c *casting) tax(out *Bill) {
	for _, n := range c.nets {
		c.inForce(n)
	}
	out.VAT, out.VATTotal = c.taxes(c.nets)
	out.Total = out.Net.Add(out.VATTotal)
	var base money.Amount
	for _, t := range out.VAT {
		base = base.Add(t.Net)
	}
	mustCast("the net total by code of VAT", base, out.Net)

	var other []net
	either := false
	for _, n := range c.nets {
		if row, ok := c.book.Tax(n.code, c.job.TenderDate); ok && row.Otherwise != "" {
			n.code = row.Otherwise
			either = true
		}
		other = add(other, n)
	}
	if either {
		o := Otherwise{}
		o.VAT, o.VATTotal = c.taxes(other)
		o.Total = out.Net.Add(o.VATTotal)
		out.Otherwise = &o
	}
}

// taxes is the VAT on each net and all of it.
func (c *casting) taxes(nets []net) ([]Tax, money.Amount) {
	var out []Tax
	var total money.Amount
	for _, n := range nets {
		row, _ := c.book.Tax(n.code, c.job.TenderDate)
		t := Tax{Code: cmp.Or(row.Code, n.code), Category: row.Category, Meaning: row.Meaning, Rate: row.Rate, Net: n.sum}
		t.VAT = n.sum.Percent(row.Rate)
		if c.job.VATRounding == job.Down {
			t.VAT = money.RoundDown(n.sum.Decimal().Mul(row.Rate.Fraction()))
		}
		out = append(out, t)
		total = total.Add(t.VAT)
	}
	slices.SortStableFunc(out, func(a, b Tax) int {
		return cmp.Or(cmp.Compare(c.place(a.Code), c.place(b.Code)), cmp.Compare(rates.Key(a.Code), rates.Key(b.Code)))
	})
	return out, total
}

// inForce puts a code with rows, but none in force, on the list; one with no
// row whatever is found when the workbook is read.
func (c *casting) inForce(n net) {
	if _, ok := c.book.Tax(n.code, c.job.TenderDate); ok || c.place(n.code) == len(c.book.VAT) {
		return
	}
	if rates.Same(n.code, c.job.VATCode) {
		n.at = c.job.Cell("VAT code")
	}
	c.problems.Add(problem.Problem{Code: problem.VATPrice, At: n.at, With: c.job.Cell("Tender date"),
		Text: fmt.Sprintf("the VAT code %q has no rate on the tender date, %s; a row that holds from that day or before is wanted",
			n.code, c.job.TenderDate.Format("2006-01-02"))})
}

// place is where a code first stands in the VAT sheet, or past its end.
func (c *casting) place(code string) int {
	i := slices.IndexFunc(c.book.VAT, func(v rates.VAT) bool { return rates.Same(v.Code, code) })
	if i < 0 {
		return len(c.book.VAT)
	}
	return i
}
