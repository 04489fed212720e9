package main

import (
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
)

// priceChange is one kind of figure changed: in the written estimate, and apart from
// it in the price book of a job that is then priced from the start.
type priceChange struct {
	name                 string
	sheet, table, column string
	rows                 func(r estimate.Result) []string // those that may be changed, the likeliest first
	set                  func(j *job.Job, b *rates.Book, row string, to raise)
	solves               bool // the purchase or the weeks may hang on it
}

const used = "Prices used"

// dearer is a figure made dearer by 1.5 %, as finely as a price is quoted.
func dearer(d decimal.Decimal) decimal.Decimal {
	return d.Mul(decimal.RequireFromString("1.015")).Round(4)
}

type raise = func(decimal.Decimal) decimal.Decimal

// reprice changes a price.
func reprice(p *money.Price, to raise) { *p = money.NewPrice(to(p.Decimal())) }

// percent changes the share of one that the workbook shows.
func percent(p *money.Percent, to raise) { *p = money.NewPercent(to(p.Fraction()).Shift(2)) }

// bought is the names of what the items are charged with of one kind.
func bought(r estimate.Result, kind rates.Kind) []string {
	var names []string
	for _, i := range r.Priced.Items {
		for _, c := range i.Costs {
			if c.Kind == kind && len(c.Asked) > 0 && i.Carried.InTotal() && !slices.Contains(names, c.Name) {
				names = append(names, c.Name)
			}
		}
	}
	return names
}

func priceChanges() []priceChange {
	trades := func(paid bool) func(r estimate.Result) []string {
		return func(r estimate.Result) (names []string) {
			for _, h := range r.HoursByTrade() {
				if l, ok := r.Book.Trade(h.Trade, r.Job.TenderDate); ok && l.Rate.IsZero() == paid {
					names = append(names, h.Trade)
				}
			}
			return names
		}
	}
	timber := func(cube bool) func(r estimate.Result) []string {
		return func(r estimate.Result) (names []string) {
			lines := slices.Clone(r.Plan.Order)
			// A knee is bought for one piece, whatever it costs: the rest of the
			// purchase does not hang on it. Then the dearest.
			slices.SortStableFunc(lines, func(a, b cutting.Line) int {
				switch ka, kb := a.Stock.Form == rates.Knee, b.Stock.Form == rates.Knee; {
				case ka == kb:
					return b.Cost.Cmp(a.Cost)
				case ka:
					return -1
				}
				return 1
			})
			for _, l := range lines {
				if (l.Stock.Form == rates.Cube) == cube && !l.Stock.ByOwner && (cube || rates.Same(l.Stock.Timber, "oak")) {
					names = append(names, l.Stock.Stock)
				}
			}
			return names
		}
	}
	prelim := func(is func(job.Preliminary) bool) func(r estimate.Result) []string {
		return func(r estimate.Result) (names []string) {
			for _, p := range r.Job.Preliminaries {
				if is(p) {
					names = append(names, p.Ref)
				}
			}
			return names
		}
	}
	one := func(names ...string) func(estimate.Result) []string {
		return func(estimate.Result) []string { return names }
	}
	return []priceChange{
		{"a pay rate", used, "Trade", "Pay £", trades(true), func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Labour {
				if l := &b.Labour[i]; rates.Same(l.Trade, row) {
					reprice(&l.Pay, to)
				}
			}
		}, false},
		{"an oak price", used, "Stock", "Price £", timber(false), setStock, true},
		{"an overhead", used, "Kind of cost", "Overheads", one("labour", "timber"), func(j *job.Job, _ *rates.Book, row string, to raise) {
			for i := range j.Additions {
				if a := &j.Additions[i]; string(a.Kind) == row {
					percent(&a.Overheads, to)
				}
			}
		}, false},
		{"a profit", used, "Kind of cost", "Profit", one("materials"), func(j *job.Job, _ *rates.Book, row string, to raise) {
			for i := range j.Additions {
				if a := &j.Additions[i]; string(a.Kind) == row {
					percent(&a.Profit, to)
				}
			}
		}, false},
		{"an hour as given", used, "Trade", "Rate given £", trades(false), func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Labour {
				if l := &b.Labour[i]; rates.Same(l.Trade, row) {
					reprice(&l.Rate, to)
				}
			}
		}, false},
		{"timber by the cube", used, "Stock", "Price £", timber(true), setStock, true},
		{"a material", used, "Material", "Price £", func(r estimate.Result) []string { return bought(r, rates.OfMaterials) }, func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Materials {
				if m := &b.Materials[i]; rates.Same(m.Material, row) {
					reprice(&m.Price, to)
				}
			}
		}, false},
		{"a plant", used, "Plant", "Each £", func(r estimate.Result) []string { return bought(r, rates.OfPlant) }, func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Plant {
				if p := &b.Plant[i]; rates.Same(p.Plant, row) {
					reprice(&p.Each, to)
				}
			}
		}, false},
		{"a subcontract price", used, "Work", "Price £", func(r estimate.Result) []string { return bought(r, rates.OfSubcontract) }, func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Subcontract {
				if s := &b.Subcontract[i]; rates.Same(s.Work, row) {
					reprice(&s.Price, to)
				}
			}
		}, false},
		{"a norm", used, "Task", "Hours", func(r estimate.Result) (names []string) {
			for _, l := range r.Hours.Lines {
				if t := l.Tasks[0].Norm.Task; t != "" && l.Carried.InTotal() && !slices.Contains(names, t) {
					names = append(names, t)
				}
			}
			return names
		}, func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Norms {
				if n := &b.Norms[i]; rates.Same(n.Task, row) {
					n.Hours = to(n.Hours)
				}
			}
		}, true},
		{"a charge paid once", "Preliminaries", "Item", "Price £", prelim(func(p job.Preliminary) bool { return !p.Fixed.IsZero() && p.Weekly.IsZero() }),
			func(j *job.Job, _ *rates.Book, row string, to raise) {
				for i := range j.Preliminaries {
					if p := &j.Preliminaries[i]; p.Ref == row {
						reprice(&p.Fixed, to)
					}
				}
			}, false},
		{"a charge by the week", "Preliminaries", "Item", "Price £", prelim(func(p job.Preliminary) bool { return p.Fixed.IsZero() && !p.Weekly.IsZero() }),
			func(j *job.Job, _ *rates.Book, row string, to raise) {
				for i := range j.Preliminaries {
					if p := &j.Preliminaries[i]; p.Ref == row {
						reprice(&p.Weekly, to)
					}
				}
			}, false},
		{"a rate of VAT", used, "Code", "Rate", one("S"), func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.VAT {
				if v := &b.VAT[i]; v.Code == row {
					percent(&v.Rate, to)
				}
			}
		}, false},
	}
}

func setStock(_ *job.Job, b *rates.Book, row string, to raise) {
	for i := range b.Stock {
		if s := &b.Stock[i]; rates.Same(s.Stock, row) {
			reprice(&s.Price, to)
		}
	}
}
