package price

import (
	"cmp"
	"time"

	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/programme"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/problem"
)

// pricing is one job while it is priced: its inputs, ready to hand by key, and
// the problems found so far.
type pricing struct {
	job      *job.Job
	book     *rates.Book
	day      time.Time
	rows     []takeoff.Row
	hours    labour.Hours
	prog     programme.Programme
	sections map[string]int             // place in the Sections sheet
	linesOf  map[string][]labour.Line   // by Ref
	sharesOf map[string][]cutting.Share // by Ref

	buildUps  remembered[[]rates.BuildUp]
	trades    remembered[rates.Labour]
	materials remembered[rates.Material]
	plant     remembered[rates.Plant]
	works     remembered[rates.Subcontract]
	stock     remembered[rates.Stock]

	kindsUsed map[rates.Kind]bool
	problems  problem.List
}

func begin(j *job.Job, b *rates.Book, t takeoff.Takeoff, c cutting.Plan, h labour.Hours, g programme.Programme) *pricing {
	p := &pricing{
		job: j, book: b, day: j.TenderDate, rows: t.Rows, hours: h, prog: g,
		sections:  map[string]int{},
		linesOf:   map[string][]labour.Line{},
		sharesOf:  map[string][]cutting.Share{},
		kindsUsed: map[rates.Kind]bool{},
	}
	for i, s := range j.Sections {
		if _, twice := p.sections[rates.Key(s.Section)]; !twice {
			p.sections[rates.Key(s.Section)] = i
		}
	}
	for _, l := range h.Lines {
		p.linesOf[l.Ref] = append(p.linesOf[l.Ref], l)
	}
	for _, s := range c.Shares {
		p.sharesOf[s.Ref] = append(p.sharesOf[s.Ref], s)
	}
	p.buildUps.find = func(key string) ([]rates.BuildUp, bool) { r := b.BuildUp(key); return r, len(r) > 0 }
	p.trades.find = func(key string) (rates.Labour, bool) { return b.Trade(key, p.day) }
	p.materials.find = func(key string) (rates.Material, bool) { return b.Material(key, p.day) }
	p.plant.find = func(key string) (rates.Plant, bool) { return b.PlantRow(key, p.day) }
	p.works.find = func(key string) (rates.Subcontract, bool) { return b.Work(key, p.day) }
	p.stock.find = func(key string) (rates.Stock, bool) { return b.StockRow(key, p.day) }
	return p
}

// code is the code of VAT a line bears, that of its row or else the Job's, as
// the VAT sheet spells it.
func (p *pricing) code(own string) string {
	code := cmp.Or(own, p.job.VATCode)
	if row, ok := p.book.Tax(code, p.day); ok {
		return row.Code
	}
	return code
}

// remembered looks a key up in a table once, however many rows ask for it.
type remembered[T any] struct {
	find  func(key string) (T, bool)
	known map[string]answer[T]
}

type answer[T any] struct {
	row T
	ok  bool
}

func (r *remembered[T]) get(key string) (T, bool) {
	k := rates.Key(key)
	a, seen := r.known[k]
	if !seen {
		if r.known == nil {
			r.known = map[string]answer[T]{}
		}
		a.row, a.ok = r.find(key)
		r.known[k] = a
	}
	return a.row, a.ok
}
