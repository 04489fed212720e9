package pdf

import (
	"cmp"
	"strconv"
	"strings"

	"futtock/estimate/quotes"
	"futtock/rates/money"
)

// cover is the first page: quotes for what, and what they come to in short.
func (r *report) cover() {
	s := r.Sent
	r.opening("Tender report", "Cover", s.Client, "Tender report", s.Vessel)
	r.y += 4
	r.say(fore.in(grey), reported("what", "{vessel}", cmp.Or(s.Vessel, "the vessel"))...)
	r.y += 5
	list := []fact{{"Client", s.Client}, {"Tender reference", s.Reference}}
	if !s.Tendered.IsZero() {
		list = append(list, fact{"Date of tender", day(s.Tendered)})
	}
	list = append(list, fact{"Bill compared with", s.Book})
	if s.Fingerprint != "" {
		list = append(list, fact{"Fingerprint of the bill", s.Fingerprint})
	}
	r.facts(list, fore)
	r.y += 4
	r.line(left, r.y, r.width, 0, strong)
	r.y += 3
	r.facts(r.inShort(), fore)
	r.y += 1
	r.line(left, r.y, r.width, 0, strong)
	r.y += 8
	r.contentsRoom()
}

// inShort is what came back on a few lines.
func (r *report) inShort() []fact {
	list := []fact{{"Quotes received", strconv.Itoa(len(r.Offers))}}
	var before, after quotes.Offer
	for _, o := range r.Offers {
		if o.RankBefore == 1 {
			before = o
		}
		if o.RankAfter == 1 {
			after = o
		}
	}
	switch len(r.Offers) {
	case 0:
	case 1:
		list = append(list, fact{"As corrected", r.sum(before.Net) + " before value added tax"},
			fact{"Levelled", r.sum(after.Levelled) + " before value added tax"})
	default:
		first := func(a money.Amount, is func(quotes.Offer) bool) string {
			return r.sum(a) + " before value added tax:\n" + r.named(is)
		}
		list = append(list,
			fact{"Lowest as corrected", first(before.Net, func(o quotes.Offer) bool { return o.RankBefore == 1 })},
			fact{"Lowest when levelled", first(after.Levelled, func(o quotes.Offer) bool { return o.RankAfter == 1 })})
	}
	if r.Yardstick.Known {
		list = append(list, fact{"Estimate, made up likewise", r.sum(r.Yardstick.Amount) + " before value added tax"})
	}
	return list
}

// asked is who was asked, the record of the opening, and how far the appraisal goes.
func (r *report) asked() {
	r.turn()
	r.begin("What was asked, and of whom")
	r.clause(reported("asked")...)
	const blanks = 4 // rows for firms that returned nothing
	table := r.table(numberColumn, column{head: "Firm", share: 1}, column{head: "Asked on", wide: 24}, column{head: "Received, day and hour", wide: 30},
		column{head: r.money("Total as it stands"), align: flush, wide: 46})
	table.band = "Firms asked, and the opening"
	for i, o := range r.Offers {
		table.add(plainRow, words(strconv.Itoa(i+1), ""), words(o.Name, ""), cell{}, cell{}, words(figures(o.AsTendered), taxSaid(o)))
	}
	for range blanks {
		table.add(plainRow, cell{}, words("\n", ""), cell{}, cell{}, cell{})
	}
	r.headed("Firms asked, and the record of the opening", table, counted(len(r.Offers), "quote was received.", "quotes were received."))
	parties := []fact{{"Opened by", ""}, {"In the presence of", ""}}
	_, _, deep := r.signing(parties, roomy)
	opened := reported("opened")
	for _, p := range opened {
		deep += float64(len(r.lines(p, body, r.width-clauseIn)))*body.pitch() + 2
	}
	r.need(deep + 2*roomy.written + 3)
	r.clause(opened...)
	r.blankLines(2)
	r.signatures(roomy, parties...)
	r.head("What was appraised")
	r.clause(reported("appraised")...)
}

// blankLines is so many lines to write on across the page, kept together.
func (d *document) blankLines(n int) {
	d.need(float64(n) * roomy.written)
	for range n {
		d.y += roomy.written
		d.line(left, d.y, d.width, 0, hairline)
	}
	d.y += 3
}

// returned is what came back, a row for each quote.
func (r *report) returned() {
	r.begin("What came back")
	if len(r.Offers) == 0 {
		r.clause(reported("order none")...)
		return
	}
	table := r.table(numberColumn, column{head: "Firm and workbook", share: 1}, column{head: "As", wide: 13}, column{head: "Dated", wide: 21},
		column{head: "Signed by", wide: 26}, column{head: "Valid until", wide: 21}, column{head: "Value added tax", wide: 24}, column{head: "Weeks", align: pointed})
	table.band = "What came back"
	for i, o := range r.Offers {
		as, weeks := "form", unsaid()
		if o.Lump {
			as = "letter"
		}
		if o.Weeks.Known {
			weeks = words(o.Weeks.Weeks.String(), "")
		}
		table.add(plainRow, words(strconv.Itoa(i+1), ""), words(o.Name, o.Book), words(as, ""), dated(o.Dated), orUnsaid(o.Signed), dated(o.Until),
			words(strings.TrimPrefix(taxSaid(o), "VAT "), ""), weeks)
	}
	table.set()
	r.clause(reported("forms")...)
}
