package explain

import (
	"fmt"
	"slices"
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// item is one line of the bill, from its amount to the cells.
func (m maker) item(i price.Item) Line {
	first := i.Rows[0]
	at := first.At
	if first.BillItem != "" {
		at = first.BillItemAt
	}
	out := words("Bill item "+i.Ref, i.Description, at)
	if len(i.Rows) > 1 {
		var refs []string
		for _, r := range i.Rows {
			refs = append(refs, r.Ref)
		}
		out.Under = append(out.Under, words("Rows", strings.Join(refs, ", ")+", billed as one", origin.Cell{}))
	}
	out.Under = append(out.Under, m.sectionWords(i.Section), words("Carried as", carriedWords(i.Carried), origin.Cell{}))
	out.Under = append(out.Under, m.amount(i)...)
	out.Under = append(out.Under, m.vatWords(i.VAT, first.VAT != "", first.At))
	if i.Funding != "" {
		out.Under = append(out.Under, words("Funding", i.Funding, origin.Cell{}))
	}
	var rows []takeoff.Row
	for _, w := range i.Rows {
		rows = append(rows, m.rows[w.Ref])
	}
	out.Under = append(out.Under, m.workings(rows, i.Costs)...)
	return out
}

// row is one row of the schedule that belongs to a bill item, or stands on
// record only.
func (m maker) row(r takeoff.Row) Line {
	out := words("Row "+r.Work.Ref+" of the schedule", rowWords(r), r.Work.At)
	for _, i := range m.Priced.Items {
		if !slices.ContainsFunc(i.Rows, func(w job.Work) bool { return w.Ref == r.Work.Ref }) {
			continue
		}
		var costs []price.Cost
		for _, c := range i.Costs {
			if c.Ref == r.Work.Ref {
				costs = append(costs, c)
			}
		}
		out.Under = append(out.Under,
			m.money("Bill item "+i.Ref, m.line(i).Amount, fmt.Sprintf("of which this row is one of %d; explain %s for its rate", len(i.Rows), i.Ref), r.Work.BillItemAt),
			m.sectionWords(i.Section), words("Carried as", carriedWords(i.Carried), origin.Cell{}))
		out.Under = append(out.Under, m.drawnFor(r.Work.Ref)...)
		out.Under = append(out.Under, heading("Costs of this row, before overheads and profit", m.costLines(costs, false))...)
		out.Under = append(out.Under, m.workings([]takeoff.Row{r}, costs)...)
		return out
	}
	out.Under = append(out.Under, words("Not priced", "on record only: it stays, and has neither a build-up nor hours", origin.Cell{}), m.measured(r, nil, used{}))
	return out
}

// workings is everything below the money: hours, timber, what is bought, how it
// was measured, and the prices used.
func (m maker) workings(rows []takeoff.Row, costs []price.Cost) []Line {
	several := len(rows) > 1
	out := heading("Hours, rounded once for a row and trade to 0.01 h", m.hours(rows, several))
	out = append(out, heading("Norms used", m.norms(rows))...)
	out = append(out, heading("Timber", m.timber(rows, several))...)
	out = append(out, heading("Sticks bought", m.bought(rows))...)
	out = append(out, heading("Materials, plant and subcontract, to 0.001 after waste", m.materials(costs, several))...)
	out = append(out, heading("Fastenings", m.fastenings(rows, several))...)
	out = append(out, heading("Measured", m.measurements(rows, costs))...)
	return append(out, heading("Prices used", m.prices(costs))...)
}

// line is the item as the bill prints it; a row carried as risk is no line of
// the bill, and stands as it is priced.
func (m maker) line(i price.Item) bill.Line {
	for _, s := range m.Bill.Sections {
		for _, l := range s.Lines {
			if l.Ref == i.Ref {
				return l
			}
		}
	}
	return bill.Line{Ref: i.Ref, Quantity: i.Quantity, Unit: i.Unit, Rate: i.Rate, Amount: i.Amount}
}

// amount is the amount of an item with its rate and sum, the pennies between,
// and what the contingency holds for its rows.
func (m maker) amount(i price.Item) []Line {
	l := m.line(i)
	rec := m.reconciled(i.Ref)
	rate := Line{Label: "Rate", Value: l.Rate.String(), Unit: m.per(l.Unit), Under: []Line{m.makeUp(i)},
		How: fmt.Sprintf("%s / %s, to the penny", i.Sum.Grouped(), billed(l.Quantity, l.Unit))}
	if !rec.Share.IsZero() {
		rate.How = fmt.Sprintf("(%s + %s) / %s, to the penny", i.Sum.Grouped(), rec.Share.Grouped(), billed(l.Quantity, l.Unit))
		rate.Under = append(rate.Under, m.money("Contingency within the rate", rec.Share,
			fmt.Sprintf("its part of %s, by amount", m.Contingency.Total.Grouped()), m.Job.Cell("Contingency shown")))
	}
	quantity := Line{Label: "Billed quantity", Value: l.Quantity.StringFixed(max(places(l.Quantity), l.Unit.Places())), Unit: string(l.Unit),
		How: quantityWords(i), At: m.quantityAt(i)}
	if i.Carried == job.RateOnly {
		return []Line{quantity, rate, words("Amount", "none: only the rate is asked", origin.Cell{})}
	}
	amount := m.money("Amount", l.Amount, fmt.Sprintf("%s %s x %s, to the penny", billed(l.Quantity, l.Unit), l.Unit, l.Rate.Grouped()), origin.Cell{}, quantity, rate)
	switch i.Carried {
	case job.AtRisk:
		return append(m.heldFor(i.Ref, i.Rows), amount)
	case job.Option:
		amount.How += "; shown, and not added"
		return []Line{amount}
	}
	how := fmt.Sprintf("%s - %s: what rounding the rate made; in the Reconciliation, never spread", l.Amount.Grouped(), i.Sum.Grouped())
	switch {
	case rec.Difference.IsZero():
		how = "nothing is lost by rounding the rate"
	case !rec.Share.IsZero():
		how = fmt.Sprintf("%s - %s - %s: what rounding the rate made", l.Amount.Grouped(), i.Sum.Grouped(), rec.Share.Grouped())
	}
	return append([]Line{amount, m.money("Amount less sum", rec.Difference, how, origin.Cell{})}, m.drawnRows(i.Rows)...)
}

// makeUp is the sum of an item by kind of cost.
func (m maker) makeUp(i price.Item) Line {
	sum := m.money("Sum", i.Sum, Added, origin.Cell{})
	for _, k := range i.Kinds {
		var costs []price.Cost
		for _, c := range i.Costs {
			if c.Kind == k.Kind && !c.Bare {
				costs = append(costs, c)
			}
		}
		sum.Under = append(sum.Under, m.kind(k, m.costLines(costs, len(i.Rows) > 1)))
	}
	if !i.Bare.IsZero() {
		var bare []price.Cost
		for _, c := range i.Costs {
			if c.Bare {
				bare = append(bare, c)
			}
		}
		sum.Under = append(sum.Under, m.money("Owner's timber, bears no additions", i.Bare, Added, origin.Cell{}, m.costLines(bare, len(i.Rows) > 1)...))
	}
	return sum
}

// kind is the cost of one kind with its overheads and profit.
func (m maker) kind(k price.Kind, costs []Line) Line {
	name := strings.ToUpper(string(k.Kind)[:1]) + string(k.Kind)[1:]
	return m.money(name, k.Sum, Added, origin.Cell{},
		m.money("Cost", k.Cost, Added, origin.Cell{}, costs...),
		m.money("Overheads", k.Overheads, fmt.Sprintf("%s of %s", k.OverheadsPercent, k.Cost.Grouped()), m.addition(k.Kind, "Overheads %")),
		m.money("Profit", k.Profit, fmt.Sprintf("%s of (%s + %s)", k.ProfitPercent, k.Cost.Grouped(), k.Overheads.Grouped()), m.addition(k.Kind, "Profit %")))
}

// addition is the cell of what is added to a kind of cost; none where the yard says nothing of it.
func (m maker) addition(k rates.Kind, heading string) origin.Cell {
	return m.Job.Under(m.Job.Addition(k).At, heading)
}

// costLines is cost lines as they add up; several names the row of each.
func (m maker) costLines(costs []price.Cost, several bool) []Line {
	var out []Line
	for _, c := range costs {
		l := m.money(of(c.Ref, c.Name, several), c.Cost, "", origin.Cell{})
		extension := extended(c)
		switch {
		case c.Kind == rates.OfTimber && c.Note != "":
			l.How = "its share; see Timber"
		case c.Unit == measure.One && !c.UseAt.IsZero() && c.RateAt.Row == c.UseAt.Row && c.RateAt.Sheet == c.UseAt.Sheet:
			l.How, l.At = "cost given in the row", c.RateAt
		case !c.Least.IsZero() && c.Cost.Equal(c.Least):
			l.How = "the least charge; " + extension + " comes to less"
		default:
			l.How = extension
		}
		out = append(out, l)
	}
	return out
}

// extended is quantity x rate; hours show their hundredths.
func extended(c price.Cost) string {
	quantity := number(c.Quantity)
	if c.Unit == measure.Hour {
		quantity = billed(c.Quantity, c.Unit)
	}
	return fmt.Sprintf("%s %s x %s", quantity, c.Unit, priceText(c.Rate))
}

// of is a label with the row it belongs to, where there are several.
func of(ref, name string, several bool) string {
	if several {
		return ref + ": " + name
	}
	return name
}

// per is the unit of a rate: money for one of a unit.
func (m maker) per(u measure.Unit) string { return m.Job.Currency + "/" + string(u) }

func (m maker) reconciled(ref string) bill.Reconciled {
	for _, r := range m.Bill.Reconciled {
		if r.Ref == ref {
			return r
		}
	}
	return bill.Reconciled{}
}

func (m maker) sectionWords(section string) Line {
	s, _ := m.Job.Section(section)
	return words("Section", joined(", ", s.Section, s.Title), s.At)
}

func carriedWords(c job.Carried) string {
	switch c {
	case job.Provisional:
		return "provisional: priced in full, to be measured again"
	case job.AtRisk:
		return "risk: outside the total, in the contingency only"
	case job.Option:
		return "option: priced and shown, not in the total"
	case job.RateOnly:
		return "rate only: nothing of it in the total"
	}
	return "measured, in the total"
}

// vatWords is the code of VAT a line bears, and whose choice it is: the Job's, or own of the row at.
func (m maker) vatWords(code string, own bool, row origin.Cell) Line {
	tax, _ := m.Book.Tax(code, m.Job.TenderDate)
	whose, at := "the Job's code", m.Job.Cell("VAT code")
	if own {
		whose, at = "the row's own code", m.Job.Under(row, "VAT")
	}
	return words("VAT", joined(", ", "code "+code+" at "+tax.Rate.String(), whose), at)
}

// quantityAt is where a billed quantity was typed; none where it is measured, or of several rows.
func (m maker) quantityAt(i price.Item) origin.Cell {
	r := m.rows[i.Rows[0].Ref]
	switch {
	case !i.QuantityAt.IsZero() || len(i.Rows) > 1:
		return i.QuantityAt
	case r.Item != nil && r.Item.Unit == i.Unit:
		return r.Item.QuantityAt
	case r.Member != nil && i.QuantityBy == rates.ByNr:
		return m.Job.Under(r.Work.At, "Nr")
	}
	return origin.Cell{}
}

// quantityWords says how the billed quantity was found.
func quantityWords(i price.Item) string {
	whose := "of the row"
	if len(i.Rows) > 1 {
		whose = "of the rows, added up"
	}
	dim := i.Unit.Dimension()
	switch {
	case !i.QuantityAt.IsZero():
		return "as the Bill quantity has it"
	case i.QuantityBy == rates.ByNr:
		return "Nr " + whose
	case i.QuantityBy != "":
		return fmt.Sprintf("%s %s, to %d places", i.QuantityBy, whose, i.Unit.Places())
	case (dim == measure.Item || dim == measure.Sum) && len(i.Rows) > 1:
		return "billed as one"
	}
	return "Quantity " + whose
}

// rowWords names the work of a row.
func rowWords(r takeoff.Row) string {
	if r.Item != nil {
		return r.Item.Description
	}
	return joined(", ", r.Member.Member, r.Member.Side, string(r.Member.Treatment))
}
