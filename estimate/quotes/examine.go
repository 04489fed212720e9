package quotes

import (
	"cmp"
	"fmt"
	"slices"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
)

// compare sets what a line of a form says now beside what went out. What is
// blank in a priced bill, which does not say all that a form does, is not compared.
func (e *examination) compare(i int) {
	l, o := &e.sent.Lines[i], e.cells[i].Offered
	form := e.sent.Fingerprint != ""
	said := len(e.found)
	if was, is := l.Description, o.Description; was != is && fold(was) != fold(is) && (form || was != "") {
		e.ofLine(i, Finding{Kind: DescriptionChanged, Text: fmt.Sprintf("description reads %q instead of %q", is, was),
			Query: fmt.Sprintf("Please confirm that your price for %s is for the work as the bill describes it: %q.", item(l), was)})
	}
	if l.Unit != o.Unit && unitKey(l.Unit) != unitKey(o.Unit) && (form || l.Unit != "") {
		e.ofLine(i, Finding{Kind: UnitChanged, Text: fmt.Sprintf("unit is %q instead of %q", o.Unit, l.Unit),
			Query: fmt.Sprintf("Please confirm that your rate for %s is by the unit of the bill, %s.", item(l), l.Unit)})
	}
	if was, is := l.Standing, o.Standing; was != is && fold(was) != fold(is) && (form || was != "") {
		e.ofLine(i, Finding{Kind: StandingChanged, Text: fmt.Sprintf("marked %q instead of %q", is, was),
			Query: fmt.Sprintf("Please confirm that %s is offered as the bill marks it: %q.", item(l), was)})
	}
	e.compareQuantity(i)
	if len(e.found) > said {
		e.altered++
		return
	}
	if now := asSent(o).Mark(); o.Mark != now && idKey(o.ID) == idKey(l.ID) {
		e.altered++
		if o.Mark == "" {
			e.bare = append(e.bare, e.atLine(i, Finding{Kind: FormChanged, Text: "the mark of the line is gone"}))
			return
		}
		e.ofLine(i, Finding{Kind: FormChanged, Text: fmt.Sprintf("mark reads %q, and the line comes to %q, though it says what the bill does", o.Mark, now)})
	}
}

// compareQuantity tells of a quantity, a time or a given sum that is not the bill's.
func (e *examination) compareQuantity(i int) {
	l, o := &e.sent.Lines[i], e.cells[i].Offered
	f := quantityOf(l, o)
	n, ok := number(f)
	due := l.Quantity
	if l.Carried == job.RateOnly {
		due = bill.Fixed{}.Quantity // none on a form, whatever a priced bill has
	}
	if l.open() || ok && n.Equal(due) || !ok && l.Carried == job.RateOnly {
		return
	}
	is := "gone"
	switch {
	case ok && l.bears():
		is = money.Round(n).Grouped()
	case ok:
		is = n.String()
	case f.State != Missing:
		is = fmt.Sprintf("%q", f.Text)
	}
	own, _ := sumAt(l, o, ownQuantity(l, o), 0)
	sum, _ := sumAt(l, o, due, 0)
	found := Finding{Kind: QuantityChanged, At: f.At, Worth: sum.Sub(own),
		Text:  fmt.Sprintf("quantity is %s instead of %s %s", is, due, l.Unit),
		Query: fmt.Sprintf("Please confirm your rate for %s at the quantity of the bill, %s %s.", item(l), due, l.Unit)}
	if l.bears() {
		asGiven := money.Round(due).Grouped()
		found.Kind = SumChanged
		found.Text = fmt.Sprintf("given sum is %s instead of %s", is, asGiven)
		found.Query = fmt.Sprintf("Please confirm that %s stands at the sum of the bill, %s.", item(l), asGiven)
	}
	e.ofLine(i, found)
}

// asSent is what the mark of a line is of: what is for others to say is no part of it.
func asSent(o *Offered) bill.Fixed {
	f := o.Fixed
	if f.Standing == string(job.Quotation) || f.Standing == bill.TimeOpen {
		f.Quantity = bill.Fixed{}.Quantity
	}
	return f
}

// form tells of another form than the one that was sent, and of one that is
// not as it was printed.
func (e *examination) form() {
	s, q := e.sent, e.quote
	at := q.At
	switch {
	case s.Fingerprint != "" && q.Fingerprint != "" && s.Fingerprint != q.Fingerprint:
		e.whole(Finding{Kind: OtherForm, At: at, Text: fmt.Sprintf("fingerprint is %q, that of the bill %q: it prices another issue of the bill, or another bill", q.Fingerprint, s.Fingerprint),
			Query: fmt.Sprintf("Please confirm that your prices hold for the bill with the fingerprint %s, or price that.", s.Fingerprint)})
	case q.Reference != "" && s.Reference != "" && rates.Key(q.Reference) != rates.Key(s.Reference):
		e.whole(Finding{Kind: OtherForm, At: at, Text: fmt.Sprintf("tender reference is %q, that of the bill %q", q.Reference, s.Reference),
			Query: fmt.Sprintf("Please confirm that your prices are for the tender %s.", s.Reference)})
	}
	if q.Lump {
		return
	}
	f := Finding{Kind: FormChanged, At: at, Query: "Please confirm that your prices are for every line of the bill as it was sent to you."}
	now := e.fingerprint(false)
	switch {
	case q.Fingerprint == "":
		f.Text = "the fingerprint of the form is gone"
	case q.Fingerprint == now || q.Fingerprint == e.fingerprint(true):
		return
	case e.altered > 0:
		f.Text = fmt.Sprintf("lines come to the fingerprint %q, the form's is %q: %s not as sent", now, q.Fingerprint, count(e.altered, "line is", "lines are"))
	default:
		f.Text = fmt.Sprintf("lines come to the fingerprint %q, the form's is %q, though each says what the bill does: lines were moved, or the tender reference was changed", now, q.Fingerprint)
	}
	e.whole(f)
}

// fingerprint is that of the lines as they stand. A form reckons it with
// options and rate-only lines in their place by reference, and prints them
// behind the others of their section: so they may be put back first.
func (e *examination) fingerprint(byReference bool) string {
	all := make([]*Offered, len(e.quote.Lines))
	for n := range e.quote.Lines {
		all[n] = &e.quote.Lines[n]
	}
	if byReference {
		place := e.places()
		slices.SortStableFunc(all, func(a, b *Offered) int {
			return cmp.Or(place[a]-place[b], job.CompareRefs(a.ID, b.ID))
		})
	}
	lines := make([]bill.Fixed, len(all))
	for n, o := range all {
		lines[n] = asSent(o)
	}
	return bill.Fingerprint(e.quote.Reference, lines)
}

// places are where the lines of the quote stand in it, those of the work all
// with the first of their section.
func (e *examination) places() map[*Offered]int {
	section := make(map[*Offered]string, len(e.cells))
	for i := range e.cells {
		if l, o := &e.sent.Lines[i], e.cells[i].Offered; o != nil && l.Part == Work {
			section[o] = rates.Key(l.Section)
		}
	}
	first := map[string]int{}
	place := make(map[*Offered]int, len(e.quote.Lines))
	for n := range e.quote.Lines {
		o := &e.quote.Lines[n]
		place[o] = n
		if key, ok := section[o]; ok {
			if _, ok := first[key]; !ok {
				first[key] = n
			}
			place[o] = first[key]
		}
	}
	return place
}

// offer tells of what is not said of the whole of the offer.
func (e *examination) offer() {
	q := e.quote
	ask := func(is bool, k FindingKind, text, query string) {
		if is {
			e.whole(Finding{Kind: k, At: q.At, Text: text, Query: query})
		}
	}
	tax := rates.Key(q.Tax)
	said := tax == bill.LeftOut || tax == bill.AddedIn
	text := "nothing is said of value added tax"
	if tax != "" {
		text = fmt.Sprintf("of value added tax %q is said, which is neither %q nor %q", q.Tax, bill.LeftOut, bill.AddedIn)
	}
	ask(!said, TaxUnsaid, text, "Please say whether value added tax is left out of your prices or is in them, and at what rate.")
	ask(tax == bill.AddedIn && (!q.TaxRateGiven || q.TaxRate.Decimal().Sign() < 0), TaxRateUnsaid, "value added tax is in the prices, and its rate is not said",
		"Please say at what rate value added tax is in your prices.")
	ask(fold(q.Firm) == "", FirmUnsaid, "the firm is not named", "Please say in whose name the offer is made.")
	ask(!q.Weeks.Is(), WeeksUnsaid, "weeks on site are not said", "Please say how many weeks on site you allow, closures counted.")
	ask(q.Until.IsZero(), ValidityUnsaid, "it is not said how long the offer stands", "Please say until what day the offer may be accepted.")
	ask(fold(q.Signed) == "", Unsigned, "nobody has signed", "Please have the offer signed by somebody who may bind the firm.")
}

func count(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}
