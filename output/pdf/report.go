package pdf

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/templates/wording"
)

// Report is the report on the quotes that came back, for whoever pays and those
// who fund it: what was asked, what came back, arithmetic, levelling, order, the
// comparison with the estimate, and what is to be settled. What was noted at the
// opening and what is recommended is left to be written in by hand. The same
// comparison makes the same bytes. It fails only where the library does.
func Report(c quotes.Comparison) ([]byte, error) {
	d, err := laidOut(c)
	if err != nil {
		return nil, err
	}
	return d.paint()
}

// laidOut is the report with every mark in its place.
func laidOut(c quotes.Comparison) (*document, error) {
	d, err := newDocument(c.Sent.Paper)
	if err != nil {
		return nil, err
	}
	r := &report{document: d, Comparison: c, ranked: ranked(c), byID: map[string]*quotes.Line{}}
	for i := range c.Rows {
		r.byID[c.Rows[i].Line.ID] = &c.Rows[i].Line
	}
	s := c.Sent
	d.title = d.short("Tender report on the refit of "+s.Vessel, longTitle)
	d.author = d.short(s.Client, longTitle)
	d.subject = d.short("Quotes for tender "+s.Reference, longTitle)
	d.vessel, d.foot = s.Vessel, s.Client
	d.middle = "Tender report " + s.Reference
	d.stamp = s.Tendered
	if d.stamp.IsZero() { // of which the library would make the present day
		d.stamp = time.Unix(0, 0).UTC()
	} else {
		d.middle += ", " + day(s.Tendered)
	}

	r.cover()
	r.asked()
	r.returned()
	r.arithmetic()
	r.levelling()
	r.inOrder()
	r.estimate()
	r.balance()
	r.lowPrices()
	r.programme()
	r.settle()
	r.recommendation()
	r.cautions()
	r.listContents()
	d.refer()
	d.running()
	return d, nil
}

// report is the document and what it is made of.
type report struct {
	*document
	quotes.Comparison
	ranked []int                   // offers by rank of their levelled figures
	byID   map[string]*quotes.Line // of the bill, by ID
}

// reported is a part of the standing text of the report.
func reported(part string, pairs ...string) []string { return wording.Report(part, pairs...) }

// sum is money in figures with the sign of its currency.
func (r *report) sum(a money.Amount) string { return wording.Sum(a, r.Sent.Currency) }

// money is a heading with the currency of what stands under it, where it is known.
func (r *report) money(head string) string {
	if sign := wording.Sign(r.Sent.Currency); sign != "" {
		return head + "\u00a0" + sign
	}
	return head
}

// ranked are the offers by rank of their levelled figures.
func ranked(c quotes.Comparison) []int {
	order := make([]int, len(c.Offers))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(c.Offers[a].RankAfter, c.Offers[b].RankAfter) })
	return order
}

// numbered is a firm behind its number.
func (r *report) numbered(i int) string { return fmt.Sprintf("%d%s%s", i+1, wide, r.Offers[i].Name) }

// named are the firms for which is says so.
func (r *report) named(is func(quotes.Offer) bool) string {
	var names []string
	for _, o := range r.Offers {
		if is(o) {
			names = append(names, o.Name)
		}
	}
	return strings.Join(names, "; ")
}

// counted is a number of things in figures: 1 quote, 3 quotes.
func counted(n int, one, more string) string {
	if n == 1 {
		return "1\u00a0" + one
	}
	return fmt.Sprintf("%d\u00a0%s", n, more)
}

// taxSaid is what a firm says of value added tax in its prices.
func taxSaid(o quotes.Offer) string {
	switch {
	case rates.Same(o.Tax, bill.LeftOut):
		return "VAT left out"
	case rates.Same(o.Tax, bill.AddedIn) && o.TaxRateGiven:
		return "VAT added in, at " + percent(o.TaxRate)
	case rates.Same(o.Tax, bill.AddedIn):
		return "VAT added in, at no rate said"
	case rates.Key(o.Tax) == "":
		return "VAT not said, taken as left out"
	}
	return fmt.Sprintf("VAT said as %q, taken as left out", o.Tax)
}

// numberColumn is the first column of tables by firm: as wide as what stands in
// it where a row goes on overleaf.
var numberColumn = column{head: "Nr", wide: 11}

// signedFigures is money with a sign before it, whichever way it goes.
func signedFigures(a money.Amount) string {
	if a.Sign() > 0 {
		return "+" + figures(a)
	}
	return figures(a)
}

// dated is a day in a table, or that it is not said.
func dated(d time.Time) cell {
	if d.IsZero() {
		return unsaid()
	}
	return words(d.Format("2\u00a0Jan\u00a02006"), "")
}

func unsaid() cell { return styled("not said", cellNote, 1) }

// orUnsaid is a text in a table, or that it is not said.
func orUnsaid(s string) cell {
	if strings.TrimSpace(s) == "" {
		return unsaid()
	}
	return words(s, "")
}

// greatest are so many of the rows with the most money in them, in their order,
// and how many are left out.
func greatest[T any](rows []T, most int, of func(T) money.Amount) (kept []T, left int) {
	if len(rows) <= most {
		return rows, 0
	}
	order := make([]int, len(rows))
	for i := range order {
		order[i] = i
	}
	size := func(i int) money.Amount {
		a := of(rows[i])
		if a.Sign() < 0 {
			return a.Neg()
		}
		return a
	}
	slices.SortStableFunc(order, func(a, b int) int { return size(b).Cmp(size(a)) })
	order = order[:most]
	slices.Sort(order)
	for _, i := range order {
		kept = append(kept, rows[i])
	}
	return kept, len(rows) - most
}
