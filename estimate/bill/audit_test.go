package bill_test

import (
	"fmt"
	"maps"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
)

// audit casts a bill again from its printed figures alone, as somebody with
// the paper and a pencil would, and says what does not come out.
func audit(j *job.Job, b *rates.Book, got bill.Bill) []string {
	a := auditor{nets: map[string]decimal.Decimal{}}
	var items, prelims, sums, held decimal.Decimal
	for _, s := range got.Sections {
		var total decimal.Decimal
		for _, l := range s.Lines {
			total = total.Add(a.line(l))
		}
		a.same("section "+s.Section, s.Total, total)
		items = items.Add(s.Total.Decimal())
	}
	a.same("A", got.Items, items)
	for _, l := range got.Preliminaries {
		prelims = prelims.Add(a.line(l))
	}
	a.same("B", got.Prelims, prelims)
	for _, s := range got.Sums {
		total := s.Amount.Decimal().Add(round(s.Amount.Decimal().Mul(s.Profit.Decimal()).Shift(-2))).Add(s.Attendance.Decimal())
		a.same("sum "+s.Ref, s.Total, total)
		a.bear(s.VAT, total)
		sums = sums.Add(total)
	}
	for _, d := range got.Dayworks {
		total := d.Sum.Decimal().Add(round(d.Sum.Decimal().Mul(d.Addition.Decimal()).Shift(-2)))
		if d.Hours {
			total = round(d.Quantity.Mul(d.Rate.Decimal()))
		}
		a.same("daywork of "+d.Of, d.Total, total)
		a.bear(j.VATCode, total)
		sums = sums.Add(total)
	}
	a.same("C", got.SumsDayworks, sums)
	for n, p := range got.Contingency.Parts {
		if n < len(got.Sections) {
			a.same("contingency on "+p.Title, p.On, got.Sections[n].Total.Decimal())
		}
		a.same("contingency of "+p.Title, p.Amount, round(p.On.Decimal().Mul(p.Percent.Decimal()).Shift(-2)))
		held = held.Add(p.Amount.Decimal())
	}
	for _, r := range got.Contingency.Risks {
		a.same("held for "+r.Ref, r.Held, round(r.Amount.Decimal().Mul(r.Chance.Decimal()).Shift(-2)))
		held = held.Add(r.Held.Decimal())
	}
	a.same("D", got.Held, held)
	base := items.Add(prelims).Add(held)
	a.same("E", got.Rises, round(base.Mul(got.RiseFactor.Sub(decimal.New(1, 0)))))
	a.bear(j.VATCode, got.Held.Decimal())
	a.bear(j.VATCode, got.Rises.Decimal())

	net := base.Add(sums).Add(got.Rises.Decimal())
	a.same("net total", got.Net, net)
	a.taxes(j, got.VAT, got.VATTotal)
	a.same("total", got.Total, net.Add(got.VATTotal.Decimal()))
	if o := got.Otherwise; o != nil {
		a.move(b)
		a.taxes(j, o.VAT, o.VATTotal)
		a.same("total otherwise", o.Total, net.Add(o.VATTotal.Decimal()))
	}
	a.reconciled(got)
	return a.faults
}

type auditor struct {
	nets   map[string]decimal.Decimal
	faults []string
}

func (a *auditor) same(what string, printed money.Amount, cast decimal.Decimal) {
	if !printed.Decimal().Equal(cast) {
		a.faults = append(a.faults, fmt.Sprintf("%s: %s is printed, %s is cast", what, printed, cast))
	}
}

func (a *auditor) bear(code string, d decimal.Decimal) {
	k := rates.Key(code)
	a.nets[k] = a.nets[k].Add(d)
}

// line is what a line adds to its total.
func (a *auditor) line(l bill.Line) decimal.Decimal {
	if l.Carried == job.RateOnly {
		a.same("rate-only line "+l.Ref, l.Amount, decimal.Zero)
		return decimal.Zero
	}
	a.same("line "+l.Ref, l.Amount, round(l.Quantity.Mul(l.Rate.Decimal())))
	if !l.Carried.InTotal() {
		return decimal.Zero
	}
	a.bear(l.VAT, l.Amount.Decimal())
	return l.Amount.Decimal()
}

// taxes checks that each code stands once, on all that bears it, and is
// rounded once.
func (a *auditor) taxes(j *job.Job, printed []bill.Tax, total money.Amount) {
	nets := maps.Clone(a.nets)
	var sum decimal.Decimal
	for _, t := range printed {
		k := rates.Key(t.Code)
		if _, once := nets[k]; !once {
			a.faults = append(a.faults, fmt.Sprintf("VAT code %s stands twice or is borne by nothing", t.Code))
		}
		a.same("net at "+t.Code, t.Net, nets[k])
		delete(nets, k)
		vat := t.Net.Decimal().Mul(t.Rate.Decimal()).Shift(-2)
		if j.VATRounding == job.Down {
			vat = vat.Truncate(2)
		}
		a.same("VAT at "+t.Code, t.VAT, round(vat))
		sum = sum.Add(t.VAT.Decimal())
	}
	for _, k := range slices.Sorted(maps.Keys(nets)) {
		if !nets[k].IsZero() {
			a.faults = append(a.faults, fmt.Sprintf("%s at VAT code %s is not printed", nets[k], k))
		}
	}
	a.same("VAT", total, sum)
}

// move puts what bears a code with an Otherwise to that code.
func (a *auditor) move(b *rates.Book) {
	moved := map[string]decimal.Decimal{}
	for k, d := range a.nets {
		for _, v := range b.VAT {
			if rates.Same(v.Code, k) && v.Otherwise != "" {
				k = rates.Key(v.Otherwise)
				break
			}
		}
		moved[k] = moved[k].Add(d)
	}
	a.nets = moved
}

func (a *auditor) reconciled(got bill.Bill) {
	var all decimal.Decimal
	for _, r := range got.Reconciled {
		a.same("reconciliation of "+r.Ref, r.Difference, r.Amount.Decimal().Sub(r.Sum.Decimal()).Sub(r.Share.Decimal()))
		all = all.Add(r.Sum.Decimal()).Add(r.Share.Decimal()).Add(r.Difference.Decimal())
	}
	a.same("sums, shares and differences of the items", got.Items, all)
}

func round(d decimal.Decimal) decimal.Decimal { return d.Round(2) }
