package pdf

import (
	"fmt"
	"strconv"
	"strings"

	"futtock/estimate/quotes"
	"futtock/rates/money"
)

// How many rows of one quote are printed: of what moves money, and of
// adjustments and questions; where there are more quotes than a few, fewer, and
// never less than the least. The rest is counted, and in the workbook.
const (
	mostFindings, leastFindings = 25, 10
	mostRows, leastRows         = 60, 20
	few                         = 6
)

// share is how many rows of each quote are printed.
func (r *report) share(most, least int) int {
	return min(most, max(least, most*few/max(1, len(r.Offers))))
}

// rest is a row that says what is not printed; it stays with the row above.
func (t *table) rest(text string) {
	t.add(totalRow, styled(text, cellNote, len(t.columns)))
}

// arithmetic is the rule for errors, what each quote comes to by it, and what
// was found.
func (r *report) arithmetic() {
	r.need(130) // for the rule and the table by it
	r.begin("Arithmetic")
	r.clause(reported("errors "+string(r.Terms.Errors), "{rule}", r.Terms.Errors.Meaning())...)
	r.clause(reported("errors before")...)
	if len(r.Offers) == 0 {
		return
	}
	table := r.table(numberColumn, column{head: "Firm", share: 1}, column{head: r.money("As tendered"), align: pointed}, column{head: r.money("Corrections"), align: pointed},
		column{head: r.money("Corrected"), align: pointed}, column{head: r.money("VAT taken out"), align: pointed}, column{head: r.money("Corrected, before VAT"), align: pointed})
	table.band = "As tendered and as corrected"
	for i, o := range r.Offers {
		table.add(plainRow, words(strconv.Itoa(i+1), ""), words(o.Name, taxSaid(o)), words(figures(o.AsTendered), ""), words(signedFigures(o.Corrected.Sub(o.AsTendered)), ""),
			words(figures(o.Corrected), ""), words(signedFigures(o.TaxOut.Neg()), ""), styled(figures(o.Net), cellBold, 1))
	}
	r.headed("Totals as tendered and as corrected", table, reported("arithmetic")...)
	r.found()
}

// found is what was found in each quote: what moves money line by line, the rest counted.
func (r *report) found() {
	moves := r.table(column{head: "Line"}, column{head: "What was found", share: 1}, column{head: "Cell", wide: 26}, column{head: r.money("Effect"), align: pointed})
	moves.band = "Findings that move money"
	rest := r.table(numberColumn, column{head: "Firm", share: 1}, column{head: "Found, and how often", share: 1.6})
	rest.band = "Other findings"
	for i, o := range r.Offers {
		var found []quotes.Finding
		others := map[quotes.FindingKind]int{}
		for _, f := range o.Findings {
			if f.Worth.IsZero() {
				others[f.Kind]++
			} else {
				found = append(found, f)
			}
		}
		r.moving(moves, i, found)
		rest.add(plainRow, words(strconv.Itoa(i+1), ""), words(o.Name, ""), kinds(others))
	}
	if len(moves.rows) > 0 {
		said := reported("moves")
		if r.Terms.Errors != quotes.RateGoverns {
			said = append(said, reported("moves nothing")...)
		}
		r.headed("Findings that move money", moves, said...)
	} else {
		r.head("Findings that move money")
		r.clause("None was found in any quote.")
	}
	r.headed("Other findings", rest, reported("rest")...)
}

// moving puts the findings of one quote that move money into a table.
func (r *report) moving(table *table, i int, found []quotes.Finding) {
	if len(found) == 0 {
		return
	}
	table.across(bandRow, r.numbered(i), "")
	kept, left := greatest(found, r.share(mostFindings, leastFindings), func(f quotes.Finding) money.Amount { return f.Worth })
	for _, f := range kept {
		at := f.At
		at.Book = ""
		table.add(plainRow, words(orWhole(f.ID), ""), r.lineWords(f.ID, f.Text), words(at.String(), ""), words(signedFigures(f.Worth), ""))
	}
	if left > 0 {
		table.rest(counted(left, "finding", "findings") + " more, none with more money in it, in the comparison workbook")
	}
}

// kinds are findings by kind, in their printed order, with how many there are of each.
func kinds(found map[quotes.FindingKind]int) cell {
	var said []string
	for _, f := range quotes.Findings() {
		if n := found[f.Kind]; n > 0 {
			said = append(said, fmt.Sprintf("%s\u00a0(%d)", strings.ReplaceAll(string(f.Kind), "-", " "), n))
		}
	}
	if len(said) == 0 {
		return styled("none", cellNote, 1)
	}
	return words(strings.Join(said, ", "), "")
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
		return words(capital(typeset(text)), "")
	}
	return cell{paras: []para{{typeset(l.Description), cellText}, {typeset(text), cellNote}}}
}
