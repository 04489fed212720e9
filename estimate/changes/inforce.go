package changes

import (
	"time"

	"futtock/estimate/job"
	"futtock/rates"
)

// inForce is a price book as it stands on the tender date of its job: one row of a key, and
// no day on it, so that rows of two issues can be held side by side.
func inForce(j *job.Job, b *rates.Book) rates.Book {
	day := j.TenderDate
	return rates.Book{
		Lists:       b.Lists,
		BuildUps:    groups(b.BuildUps, func(r rates.BuildUp) string { return r.Name }, b.BuildUp),
		Fastenings:  groups(b.Fastenings, func(r rates.Fastening) string { return r.Rule }, b.FastenersOf),
		Timber:      rows(b.Timber, func(r rates.Timber) string { return r.Timber }, b.TimberRow),
		Norms:       rows(b.Norms, func(r rates.Norm) string { return r.Task }, onDay(b.Norm, day, func(r *rates.Norm) *time.Time { return &r.From })),
		Labour:      rows(b.Labour, func(r rates.Labour) string { return r.Trade }, onDay(b.Trade, day, func(r *rates.Labour) *time.Time { return &r.From })),
		Stock:       rows(b.Stock, func(r rates.Stock) string { return r.Stock }, onDay(b.StockRow, day, func(r *rates.Stock) *time.Time { return &r.From })),
		Materials:   rows(b.Materials, func(r rates.Material) string { return r.Material }, onDay(b.Material, day, func(r *rates.Material) *time.Time { return &r.From })),
		Plant:       rows(b.Plant, func(r rates.Plant) string { return r.Plant }, onDay(b.PlantRow, day, func(r *rates.Plant) *time.Time { return &r.From })),
		Subcontract: rows(b.Subcontract, func(r rates.Subcontract) string { return r.Work }, onDay(b.Work, day, func(r *rates.Subcontract) *time.Time { return &r.From })),
		VAT:         rows(b.VAT, func(r rates.VAT) string { return r.Code }, onDay(b.Tax, day, func(r *rates.VAT) *time.Time { return &r.From })),
	}
}

// onDay finds the row of a key that is in force on a day, and takes off it the day it holds from.
func onDay[T any](find func(string, time.Time) (T, bool), day time.Time, from func(*T) *time.Time) func(string) (T, bool) {
	return func(key string) (T, bool) {
		r, ok := find(key, day)
		*from(&r) = time.Time{}
		return r, ok
	}
}

// rows is the row in force of every key, in the order in which keys first appear.
func rows[T any](all []T, key func(T) string, find func(string) (T, bool)) []T {
	return groups(all, key, func(k string) []T {
		if r, ok := find(k); ok {
			return []T{r}
		}
		return nil
	})
}

// groups is the rows that hold of every key, in the order in which keys first appear.
func groups[T any](all []T, key func(T) string, find func(string) []T) []T {
	var out []T
	seen := map[string]bool{}
	for _, r := range all {
		if k := rates.Key(key(r)); !seen[k] {
			seen[k] = true
			out = append(out, find(key(r))...)
		}
	}
	return out
}
