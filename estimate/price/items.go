package price

import (
	"cmp"
	"fmt"
	"slices"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// items prices the schedule: rows naming one bill item make one line, every
// other row its own. A member retained without a build-up or hours is on
// record only and makes no line.
func (p *pricing) items() []Item { return p.lines(p.item) }

// lines makes the lines of the bill, each of its rows.
func (p *pricing) lines(line func(rows []takeoff.Row) Item) []Item {
	var names []string
	groups := map[string][]takeoff.Row{}
	for _, r := range p.rows {
		if onRecord(r) {
			continue
		}
		k := rates.Key(r.Work.Line())
		if groups[k] == nil {
			names = append(names, k)
		}
		groups[k] = append(groups[k], r)
	}
	items := make([]Item, 0, len(names))
	for _, k := range names {
		rows := groups[k]
		slices.SortStableFunc(rows, func(a, b takeoff.Row) int { return job.CompareRefs(a.Work.Ref, b.Work.Ref) })
		// A section that is not in the Sections sheet is found when the workbook is read.
		if _, ok := p.sections[rates.Key(rows[0].Work.Section)]; ok {
			items = append(items, line(rows))
		}
	}
	slices.SortStableFunc(items, func(a, b Item) int {
		return cmp.Or(cmp.Compare(p.sections[rates.Key(a.Section)], p.sections[rates.Key(b.Section)]), job.CompareRefs(a.Ref, b.Ref))
	})
	return items
}

// onRecord reports a member that stays as it is.
func onRecord(r takeoff.Row) bool {
	return r.Member != nil && r.Member.Treatment == job.Retain && r.Work.BuildUp == "" && r.Work.Hours.IsZero()
}

// line is one line of the bill as it reads before it is priced: its wording,
// its quantity and how it is carried.
func (p *pricing) line(rows []takeoff.Row) Item {
	first := rows[0].Work
	section := p.job.Sections[p.sections[rates.Key(first.Section)]]
	i := Item{
		Ref: first.Line(), Section: section.Section, Carried: carried(first),
		VAT: p.code(first.VAT), Funding: first.Funding,
	}
	for _, r := range rows {
		if c := carried(r.Work); c != i.Carried || c == job.AtRisk && !r.Work.Chance.Decimal().Equal(first.Chance.Decimal()) {
			p.problem(problem.CarriedMixed, cmp.Or(r.Work.BillItemAt, r.Work.At),
				fmt.Sprintf("%q is carried as %s and %q, of the same bill item %q, as %s; all rows of a bill item are carried alike",
					r.Work.Ref, asCarried(r.Work), first.Ref, i.Ref, asCarried(first)), "")
		}
		i.Rows = append(i.Rows, r.Work)
		i.OwnerTimber = i.OwnerTimber || p.ownersTimber(r)
	}
	i.Quantity, i.Unit = p.billed(rows)
	i.QuantityBy, i.QuantityAt = billedBy(rows, i.Unit)
	i.Description = wording(p.job, rows, i.Unit)
	return i
}

// ownersTimber reports a row whose new timber is the owner's own.
func (p *pricing) ownersTimber(r takeoff.Row) bool {
	if r.Member == nil || r.Member.Stock == "" || !r.Member.Treatment.TakesTimber() {
		return false
	}
	stock, _ := p.stock.get(r.Member.Stock)
	return stock.ByOwner
}

// item prices one line of the bill.
func (p *pricing) item(rows []takeoff.Row) Item {
	told := len(p.problems)
	i := p.line(rows)
	for _, r := range rows {
		i.Costs = append(i.Costs, p.costs(r)...)
	}
	for _, s := range i.Costs {
		if s.Bare {
			i.Bare = i.Bare.Add(s.Cost)
		}
	}
	i.Sum = i.Bare
	for _, k := range rates.Kinds() {
		if cost := costOf(i.Costs, k); !cost.IsZero() {
			kind := addTo(p.job, k, cost)
			i.Kinds = append(i.Kinds, kind)
			i.Sum = i.Sum.Add(kind.Sum)
		}
	}
	if i.Sum.IsZero() && len(p.problems) == told && p.buildUpsKnown(rows) {
		p.problem(problem.ItemFree, rows[0].Work.At, fmt.Sprintf("%q comes to nothing; a build-up, hours or a cost is wanted", i.Ref), "")
	}
	i.Rate = i.Sum.Per(i.Quantity)
	i.Amount = i.Rate.Times(i.Quantity)
	i.Difference = i.Amount.Sub(i.Sum)
	return i
}

// buildUpsKnown reports that every build-up the rows name has rows of its own;
// one that has none is found when the workbook is read.
func (p *pricing) buildUpsKnown(rows []takeoff.Row) bool {
	for _, r := range rows {
		if _, ok := p.buildUps.get(r.Work.BuildUp); !ok && r.Work.BuildUp != "" {
			return false
		}
	}
	return true
}

func carried(w job.Work) job.Carried { return cmp.Or(w.Carried, job.Measured) }

func asCarried(w job.Work) string {
	if w.Carried == job.AtRisk {
		return string(job.AtRisk) + " at " + w.Chance.String()
	}
	return string(carried(w))
}

// costOf adds up the cost lines of one kind that bear additions.
func costOf(lines []Cost, k rates.Kind) money.Amount {
	var sum money.Amount
	for _, l := range lines {
		if l.Kind == k && !l.Bare {
			sum = sum.Add(l.Cost)
		}
	}
	return sum
}

// addTo is a cost with the overheads and profit of its kind.
func addTo(j *job.Job, k rates.Kind, cost money.Amount) Kind {
	a := j.Addition(k)
	overheads := cost.Percent(a.Overheads)
	profit := cost.Add(overheads).Percent(a.Profit)
	return Kind{
		Kind: k, Cost: cost,
		OverheadsPercent: a.Overheads, Overheads: overheads,
		ProfitPercent: a.Profit, Profit: profit,
		Sum: money.Sum(cost, overheads, profit),
	}
}

// remarkAdditions says which kinds of cost bear nothing because the yard gave
// no row for them.
func (p *pricing) remarkAdditions() {
	for _, k := range rates.Kinds() {
		if !p.kindsUsed[k] || slices.ContainsFunc(p.job.Additions, func(a rates.Addition) bool { return a.Kind == k }) {
			continue
		}
		p.problem(problem.AdditionsNone, p.sheet("Overheads and profit"),
			fmt.Sprintf("there is no row for %q, so it bears no overheads and no profit", string(k)), "")
	}
}
