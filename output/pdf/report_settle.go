package pdf

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// question is one thing to ask a firm.
type question struct{ id, text string }

// questions are those to one firm: of its price, qualifications and rates, then
// as found in its quote.
func (r *report) questions(i int) []question {
	o := r.Offers[i]
	var out []question
	ask := func(text []string) {
		for _, t := range text {
			out = append(out, question{"", t})
		}
	}
	if r.Low.Applies && r.Low.Low[i] {
		ask(reported("ask low", "{sum}", r.sum(o.Levelled)))
	}
	for _, q := range o.Qualifications {
		ask(reported("ask qualification", "{text}", q.Text))
	}
	if items := r.standingOut(i); items != "" {
		ask(reported("ask rates", "{items}", items))
	}
	for _, f := range o.Findings {
		if f.Query != "" {
			out = append(out, question{f.ID, f.Query})
		}
	}
	return out
}

// standingOut are the items at which a rate of a firm stands out, as its form
// has them: those with the most money first.
func (r *report) standingOut(i int) string {
	var items []string
	for _, o := range r.Rates {
		if ref := r.Rows[o.Line].Line.Ref; o.Offer == i && !slices.Contains(items, ref) {
			items = append(items, ref)
		}
	}
	left := len(items) - mostRates
	text := strings.Join(items[:min(len(items), mostRates)], ", ")
	if left > 0 {
		text += " and " + counted(left, "other", "others")
	}
	return text
}

// settle is what is to be asked of each firm, numbered, and what is to be
// settled with any before a contract.
func (r *report) settle() {
	r.begin("Matters to settle")
	table := r.table(column{head: "Nr", wide: 16}, column{head: "Line"}, column{head: "To be asked", share: 1})
	table.band = "Questions"
	most := r.share(mostRows, leastRows)
	var none []string // numbers of firms of whom nothing is asked
	for i := range r.Offers {
		all := r.questions(i)
		if len(all) == 0 {
			none = append(none, strconv.Itoa(i+1))
			continue
		}
		table.across(bandRow, r.numbered(i), "")
		for n, q := range all[:min(len(all), most)] {
			table.add(plainRow, words(fmt.Sprintf("%d/%d", i+1, n+1), ""), words(orWhole(q.id), ""), words(typeset(q.text), ""))
		}
		if left := len(all) - most; left > 0 {
			table.rest(counted(left, "question", "questions") + " more, in the comparison workbook")
		}
	}
	if len(table.rows) > 0 {
		r.headed("Questions to each firm", table, reported("queries")...)
	}
	switch {
	case len(table.rows) == 0:
		r.clause(reported("queries none", "{firms}", "any firm")...)
	case len(none) == 1:
		r.clause(reported("queries none", "{firms}", "firm "+none[0])...)
	case len(none) > 1:
		r.clause(reported("queries none", "{firms}", "firms "+strings.Join(none, ", "))...)
	}
	r.head("With any firm, before a contract")
	r.clause(reported("contract")...)
}

// recommendation is left to be written and signed.
func (r *report) recommendation() {
	parties := []fact{{"For the client", r.Sent.Client}, {"For the client, second signature", ""}}
	_, _, deep := r.signing(parties, roomy)
	r.turn()
	r.begin("Recommendation")
	r.clause(reported("recommendation")...)
	for _, name := range []string{"Quote recommended", "Sum before value added tax", "Sum with value added tax"} {
		r.need(roomy.written)
		r.blank(left, r.width, name)
		r.y += roomy.written
	}
	r.y += 3
	r.write(left, r.y+cellText.baseline(), "Reasons, and conditions to be met first", cellText.in(grey))
	r.y += 3
	r.blankLines(int((r.room() - deep - 8) / roomy.written))
	r.y += 3
	r.signatures(roomy, parties...)
}

// cautions are what the report does not settle.
func (r *report) cautions() {
	r.turn()
	r.begin("Notes and cautions")
	r.clause(reported("cautions")...)
	if r.replaced {
		r.clause(reported("characters")...)
	}
}
