// Package explain takes one figure of a priced job apart, down to the cells it
// came from, so that it can be followed with a pencil. In comes the result of
// estimate.Run and a reference as the bill or the workbook has it; out comes a
// tree of lines, read from the rate to the cells, which the writers of text and
// of JSON lay out each in its own way. Nothing is reckoned here: every figure
// is one that the result holds.
//
// Of 12 frames at a sum of 4,652.85 the tree begins: amount 4,652.88 = 12 nr x
// 387.74; rate 387.74 = 4,652.85 / 12; and under the sum stands every cost with
// its additions, 71.68 h x 41.50 = 2,974.72 among them.
package explain

import (
	"slices"
	"time"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// Line is one figure with what it is made of. A line without a Value is a
// heading, or says in How what is no figure.
type Line struct {
	Label string
	Value string      // a plain decimal without parted thousands, or a length or a date as it is written
	Unit  string      // of Value: GBP, GBP/ft, h, nr, m3
	How   string      // how Value comes about, in figures and words
	At    origin.Cell // where it was typed; zero where it is reckoned from the lines under it
	Under []Line
}

// Added is How of a figure that is the sum of the values under it.
const Added = "added up"

// Of explains whatever a reference names: a bill item, a row of the schedule, a
// preliminary, a sum, a risk, a daywork, a stage or a section, a trade, a line of stock, a letter of the
// summary from A to E or what it is called there, VAT, net or total, a fund, cash for the months, or fabric for
// what is kept of the old. A reference that names several things, as the letter of a section may, explains each of them; one that
// names nothing explains nothing. Case and spaces are folded.
func Of(r estimate.Result, ref string) []Line {
	m := begin(r)
	var out []Line
	for _, s := range m.subjects() {
		if rates.Same(s.ref, ref) || s.also != "" && rates.Same(s.also, ref) {
			out = append(out, s.explain())
		}
	}
	return out
}

// Refs is everything that can be explained, in the order of the bill, then of
// the workbook, each once.
func Refs(r estimate.Result) []string {
	m := begin(r)
	var out []string
	seen := map[string]bool{}
	for _, s := range m.subjects() {
		if k := rates.Key(s.ref); !seen[k] {
			seen[k] = true
			out = append(out, s.ref)
		}
	}
	return out
}

// maker is one result, ready to be taken apart.
type maker struct {
	estimate.Result
	rows map[string]takeoff.Row // by Ref
}

func begin(r estimate.Result) maker {
	m := maker{Result: r, rows: map[string]takeoff.Row{}}
	for _, row := range r.Takeoff.Rows {
		m.rows[row.Work.Ref] = row
	}
	return m
}

// subject is something a reference may name.
type subject struct {
	ref     string
	also    string // what the summary calls a letter
	explain func() Line
}

// subjects is all there is to explain: the bill first, then what leads to it.
func (m maker) subjects() []subject {
	var all []subject
	put := func(ref string, explain func() Line) { all = append(all, subject{ref: ref, explain: explain}) }
	own := map[string]bool{}
	for _, i := range m.Priced.Items {
		put(i.Ref, func() Line { return m.item(i) })
		own[rates.Key(i.Ref)] = true
	}
	for _, row := range m.Takeoff.Rows {
		if !own[rates.Key(row.Work.Ref)] {
			put(row.Work.Ref, func() Line { return m.row(row) })
		}
	}
	for _, p := range m.Job.Preliminaries {
		put(p.Ref, func() Line { return m.preliminaries(p) })
	}
	for _, l := range m.Priced.Preliminaries {
		if !rates.Same(l.Ref, l.Row.Ref) || !m.typed(l.Row.Ref) {
			put(l.Ref, func() Line { return m.preliminary(l) })
		}
	}
	for _, s := range m.Priced.Sums {
		put(s.Row.Ref, func() Line { return m.sum(s) })
	}
	for _, k := range m.Job.Risks {
		put(k.Ref, func() Line { return m.register(k) })
	}
	for _, d := range m.Priced.Dayworks {
		put(d.Row.Of, func() Line { return m.daywork(d) })
	}
	for _, s := range m.Programme.Stages {
		put(s.Stage.Stage, func() Line { return m.stage(s) })
	}
	for _, s := range m.Bill.Sections {
		put(s.Section, func() Line { return m.section(s) })
	}
	for _, f := range m.Cash.Funds {
		if f.Fund != "" {
			put(f.Fund, func() Line { return m.fund(f) })
		}
	}
	for _, t := range m.Book.TradesInForce(m.Job.TenderDate) {
		put(t.Trade, func() Line { return m.trade(t) })
	}
	for _, k := range m.Book.StockInForce(m.Job.TenderDate) {
		put(k.Stock, func() Line { return m.stockRow(k) })
	}
	all = append(all, m.summary()...)
	if len(m.Cash.Months) > 0 {
		put("cash", m.cash)
	}
	if m.Fabric.All.Any() {
		put("fabric", m.fabric)
	}
	return all
}

// typed reports a preliminary that stands in the workbook; waiting time is made
// by the programme and does not.
func (m maker) typed(ref string) bool {
	return slices.ContainsFunc(m.Job.Preliminaries, func(p job.Preliminary) bool { return rates.Same(p.Ref, ref) })
}

// money is a line of money.
func (m maker) money(label string, a money.Amount, how string, at origin.Cell, under ...Line) Line {
	return Line{Label: label, Value: a.String(), Unit: m.Job.Currency, How: how, At: at, Under: under}
}

// words is a line without a figure.
func words(label, how string, at origin.Cell, under ...Line) Line {
	return Line{Label: label, How: how, At: at, Under: under}
}

// heading is a line that only holds others; it is left out where it holds none.
func heading(label string, under []Line) []Line {
	if len(under) == 0 {
		return nil
	}
	return []Line{{Label: label, Under: under}}
}

// inForce says from which day a row of a price table holds.
func inForce(from time.Time) string {
	if from.IsZero() {
		return "no From date"
	}
	return "in force from " + day(from)
}

func day(t time.Time) string { return t.Format("2 January 2006") }
