package bill

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/risk"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// sections lays the items out by section, in the order of the Sections sheet,
// with the shares of a contingency within the rates. Rows carried as risk are
// no lines of the bill.
func (c *casting) sections(out *Bill, items []price.Item, shares map[string]money.Amount) {
	place := sectionPlaces(c.job)
	for _, s := range c.job.Sections {
		out.Sections = append(out.Sections, Section{Section: s.Section, Title: s.Title})
	}
	for _, i := range items {
		if i.Carried == job.AtRisk {
			continue
		}
		s := &out.Sections[place[rates.Key(i.Section)]]
		l := c.line(i, shares[i.Ref])
		s.Lines = append(s.Lines, l)
		if !i.Carried.InTotal() {
			continue
		}
		s.Total = s.Total.Add(l.Amount)
		out.Items = out.Items.Add(l.Amount)
		out.Reconciled = append(out.Reconciled, Reconciled{
			Ref: i.Ref, Kind: onlyKind(i), Sum: i.Sum, Share: shares[i.Ref], Amount: l.Amount,
			Difference: l.Amount.Sub(i.Sum).Sub(shares[i.Ref]),
		})
		c.bear(l.VAT, l.Amount, i.Rows[0].At)
	}
}

// sectionPlaces is where a section stands in the Sections sheet, by its key; of
// two that are alike the first has the lines.
func sectionPlaces(j *job.Job) map[string]int {
	place := map[string]int{}
	for i, s := range j.Sections {
		if _, twice := place[rates.Key(s.Section)]; !twice {
			place[rates.Key(s.Section)] = i
		}
	}
	return place
}

// line is one item as printed, at a rate that carries its share of a
// contingency within the rates.
func (c *casting) line(i price.Item, share money.Amount) Line {
	l := Line{
		Ref: i.Ref, Description: i.Description, Carried: i.Carried, Quantity: i.Quantity, Unit: i.Unit,
		Rate: i.Sum.Add(share).Per(i.Quantity), VAT: i.VAT, Funding: i.Funding, Remark: remark(i), Stage: c.job.StageOf(i.Rows[0]),
	}
	if i.Carried != job.RateOnly {
		l.Amount = l.Rate.Times(l.Quantity)
	}
	return l
}

// carriedRemarks is what the remark of a line begins with that is not simply measured.
var carriedRemarks = []struct {
	carried job.Carried
	remark  string
}{{job.Provisional, "provisional quantity"}, {job.Option, "option, not in the total"}, {job.RateOnly, "rate only"}}

func remark(i price.Item) string {
	var words []string
	for _, c := range carriedRemarks {
		if c.carried == i.Carried {
			words = append(words, c.remark)
		}
	}
	if i.OwnerTimber {
		words = append(words, "timber by owner")
	}
	return strings.Join(words, "; ")
}

// CarriedOf is how a line is carried whose remark is this: the remark read back.
func CarriedOf(remark string) job.Carried {
	for _, c := range carriedRemarks {
		if strings.HasPrefix(remark, c.remark) {
			return c.carried
		}
	}
	return job.Measured
}

// onlyKind is the kind of an item of one kind, else blank.
func onlyKind(i price.Item) rates.Kind {
	if len(i.Kinds) == 1 && i.Bare.IsZero() {
		return i.Kinds[0].Kind
	}
	return ""
}

func (c *casting) preliminaries(lines []price.Preliminary) (out []Line, total money.Amount) {
	for _, p := range lines {
		l := Line{
			Ref: p.Ref, Description: p.Row.Description, Carried: job.Measured, Quantity: p.Quantity, Unit: p.Unit,
			Rate: p.Rate, Amount: p.Amount, VAT: p.VAT, Funding: p.Row.Funding, Stage: between(p.Row.FromStage, p.Row.ToStage),
		}
		if p.Ref != p.Row.Ref {
			l.Description += ", " + p.Basis.Words()
		}
		out = append(out, l)
		total = total.Add(l.Amount)
		c.bear(l.VAT, l.Amount, p.Row.At)
	}
	return out, total
}

func (c *casting) sums(sums []price.Sum) (out []SumLine, total money.Amount) {
	for _, s := range sums {
		r := s.Row
		out = append(out, SumLine{
			Ref: r.Ref, Section: r.Section, Description: r.Description, Kind: r.Kind, Amount: s.Amount, Profit: r.Profit,
			ProfitSum: s.Profit, Attendance: s.Attendance, Total: s.Total, VAT: s.VAT, QuotedBy: r.QuotedBy, Stage: r.Stage,
		})
		total = total.Add(s.Total)
		c.bear(s.VAT, s.Total, r.At)
	}
	return out, total
}

func (c *casting) dayworks(dayworks []price.Daywork) (out []DayworkLine, total money.Amount) {
	for _, d := range dayworks {
		l := DayworkLine{Of: d.Row.Of, Hours: d.Trade, Total: d.Total, VAT: d.VAT}
		if d.Trade {
			l.Quantity, l.Rate = d.Row.Quantity, d.Charge
		} else {
			l.Sum, l.Addition = d.Cost, d.Row.Addition
		}
		out = append(out, l)
		total = total.Add(l.Total)
		c.bear(l.VAT, l.Total, d.Row.At)
	}
	return out, total
}

// within is each item's share of a contingency that stands within the rates:
// by amount over the items in the total, in the order of their Refs, with no
// penny lost. An item below nil, such as a credit for scrap, bears none.
func (c *casting) within(items []price.Item, r risk.Contingency) map[string]money.Amount {
	if c.job.ContingencyShown != job.WithinRates || r.Total.IsZero() {
		return nil
	}
	var refs []string
	amounts := map[string]decimal.Decimal{}
	for _, i := range items {
		if i.Carried.InTotal() && i.Amount.Sign() > 0 {
			refs = append(refs, i.Ref)
			amounts[i.Ref] = i.Amount.Decimal()
		}
	}
	slices.SortFunc(refs, job.CompareRefs)
	weights := make([]decimal.Decimal, len(refs))
	for n, ref := range refs {
		weights[n] = amounts[ref]
	}
	parts, ok := money.Share(r.Total, weights)
	if !ok {
		c.problems.Add(problem.Problem{Code: problem.ContingencyHome, At: c.job.Cell("Contingency shown"),
			Text: "a contingency of " + r.Total.Grouped() + " is to stand within the rates, and there is no measured work to carry it; a contingency as a client's sum is wanted",
		})
		return nil
	}
	shares := map[string]money.Amount{}
	for n, ref := range refs {
		shares[ref] = parts[n]
	}
	return shares
}

// held prints the contingency as a client's sum. It bears the Job's VAT code.
func (c *casting) held(out *Bill, r risk.Contingency) {
	out.Held = r.Total
	if s := r.Simulation; s != nil {
		out.Contingency.Basis = "simulated, at " + s.Confidence.String()
	}
	asked := !r.Preliminaries.Percent.IsZero()
	for _, s := range r.Sections {
		asked = asked || !s.Percent.IsZero()
	}
	if asked {
		for n, s := range r.Sections {
			out.Contingency.Parts = append(out.Contingency.Parts, ContingencyPart{out.Sections[n].Title, s.On, s.Percent, s.Amount})
			mustCast("section "+s.Section+" under the contingency", s.On, out.Sections[n].Total)
		}
		if c.job.ContingencyOn == job.OnItemsPrel {
			s := r.Preliminaries
			out.Contingency.Parts = append(out.Contingency.Parts, ContingencyPart{"Preliminaries", s.On, s.Percent, s.Amount})
			mustCast("preliminaries under the contingency", s.On, out.Prelims)
		}
	}
	for _, row := range r.Rows {
		out.Contingency.Risks = append(out.Contingency.Risks, RiskPart(row))
	}
	c.bear(c.job.VATCode, out.Held, c.job.Cell("VAT code"))
}
