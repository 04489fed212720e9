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
		Lists:      b.Lists,
		BuildUps:   groups(b.BuildUps, func(r rates.BuildUp) string { return r.Name }, b.BuildUp),
		Fastenings: groups(b.Fastenings, func(r rates.Fastening) string { return r.Rule }, b.FastenersOf),
		Timber:     rows(b.Timber, func(r rates.Timber) string { return r.Timber }, b.TimberRow),
		Norms: rows(b.Norms, func(r rates.Norm) string { return r.Task }, func(key string) (rates.Norm, bool) {
			r, ok := b.Norm(key, day)
			r.From = time.Time{}
			return r, ok
		}),
		Labour: rows(b.Labour, func(r rates.Labour) string { return r.Trade }, func(key string) (rates.Labour, bool) {
			r, ok := b.Trade(key, day)
			r.From = time.Time{}
			return r, ok
		}),
		Stock: rows(b.Stock, func(r rates.Stock) string { return r.Stock }, func(key string) (rates.Stock, bool) {
			r, ok := b.StockRow(key, day)
			r.From = time.Time{}
			return r, ok
		}),
		Materials: rows(b.Materials, func(r rates.Material) string { return r.Material }, func(key string) (rates.Material, bool) {
			r, ok := b.Material(key, day)
			r.From = time.Time{}
			return r, ok
		}),
		Plant: rows(b.Plant, func(r rates.Plant) string { return r.Plant }, func(key string) (rates.Plant, bool) {
			r, ok := b.PlantRow(key, day)
			r.From = time.Time{}
			return r, ok
		}),
		Subcontract: rows(b.Subcontract, func(r rates.Subcontract) string { return r.Work }, func(key string) (rates.Subcontract, bool) {
			r, ok := b.Work(key, day)
			r.From = time.Time{}
			return r, ok
		}),
		VAT: rows(b.VAT, func(r rates.VAT) string { return r.Code }, func(key string) (rates.VAT, bool) {
			r, ok := b.Tax(key, day)
			r.From = time.Time{}
			return r, ok
		}),
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
