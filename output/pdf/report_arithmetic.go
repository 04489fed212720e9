package pdf

import (
	"fmt"
	"strings"

	"futtock/estimate/quotes"
	"futtock/rates/money"
)

// How many rows of one quote are printed: of what moves money, and of
// adjustments and questions. The rest is counted, and in the workbook.
const (
	mostFindings = 25
	mostRows     = 60
)

// arithmetic is the rule for errors, what each quote comes to by it, and what
// was found.
func (r *report) arithmetic() {
	r.begin("Arithmetic")
	r.clause(reported("errors "+string(r.Terms.Errors), "{rule}", r.Terms.Errors.Meaning())...)
	r.clause(reported("errors before")...)
	if len(r.Offers) == 0 {
		return
	}
	steps := []step{
		{text: "Total as tendered", of: func(o quotes.Offer) cell { return words(figures(o.AsTendered), "") }},
		{text: "Corrections", of: func(o quotes.Offer) cell { return words(signedFigures(o.Corrected.Sub(o.AsTendered)), "") }},
		{kind: totalRow, text: "Corrected", of: func(o quotes.Offer) cell { return styled(figures(o.Corrected), cellBold, 1) }},
		{text: "with value added tax as the firm has it", of: func(o quotes.Offer) cell { return styled(strings.TrimPrefix(taxSaid(o), "VAT "), cellNote, 1) }},
		{text: "Value added tax taken out", of: func(o quotes.Offer) cell { return words(signedFigures(o.TaxOut.Neg()), "") }},
		{kind: totalRow, text: "Corrected, before value added tax", of: func(o quotes.Offer) cell { return styled(figures(o.Net), cellBold, 1) }},
	}
	r.sideBySide("Totals as tendered and as corrected", steps, nil, reported("arithmetic")...)
	r.head("What was found")
	r.clause(reported("moves")...)
	for i := range r.Offers {
		r.found(i)
	}
}

// found is the findings of one quote: those that move money in a table, and
// the others counted.
func (r *report) found(i int) {
	o := r.Offers[i]
	var moves []quotes.Finding
	others := map[quotes.FindingKind]int{}
	for _, f := range o.Findings {
		if f.Worth.IsZero() {
			others[f.Kind]++
		} else {
			moves = append(moves, f)
		}
	}
	var said []string
	for _, f := range quotes.Findings() {
		if n := others[f.Kind]; n > 0 {
			said = append(said, fmt.Sprintf("%s\u00a0(%d)", strings.ReplaceAll(string(f.Kind), "-", " "), n))
		}
	}
	rest := ""
	switch {
	case len(o.Findings) == 0:
		rest = "Nothing amiss was found."
	case len(moves) == 0:
		rest = "Nothing that moves money was found."
	}
	if len(said) > 0 {
		rest = strings.TrimSpace(rest + " Without money in them: " + strings.Join(said, ", ") + ".")
	}
	if len(moves) == 0 {
		r.need(3 * body.pitch())
		r.heads(i)
		r.say(body, rest)
		return
	}
	kept, left := greatest(moves, mostFindings, func(f quotes.Finding) money.Amount { return f.Worth })
	table := r.table(column{head: "Line"}, column{head: "What was found", share: 1}, column{head: "Cell", wide: 26}, column{head: r.money("Effect"), align: pointed})
	table.band = r.numbered(i)
	for _, f := range kept {
		at := f.At
		at.Book = ""
		table.add(plainRow, words(orWhole(f.ID), ""), r.lineWords(f.ID, f.Text), words(at.String(), ""), words(signedFigures(f.Worth), ""))
	}
	if left > 0 {
		table.across(noteRow, counted(left, "finding", "findings")+" more with less money in each, in the comparison workbook", "")
	}
	r.under(i, table)
	if rest != "" {
		r.say(body, rest)
	}
}

// orWhole is the line of something, or that it is of the whole quote.
func orWhole(id string) string {
	if id == "" {
		return "whole"
	}
	return id
}

// lineWords is what is said of a line under its description.
func (r *report) lineWords(id, text string) cell {
	l, ok := r.byID[id]
	if !ok {
		return words(capital(text), "")
	}
	return cell{paras: []para{{typeset(l.Description), cellText}, {text, cellNote}}}
}

// under sets the table of one quote under the name of its firm.
func (r *report) under(i int, table *table) {
	r.need(2*body.pitch() + table.depth())
	r.heads(i)
	table.set()
}

// heads is the name of a firm over what is said of it.
func (r *report) heads(i int) {
	r.flow(left, width, r.numbered(i), emphatic.in(slate))
	r.y += 0.8
}
