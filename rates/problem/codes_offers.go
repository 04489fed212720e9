package problem

// The codes of reading back a bill, and the quotes that came in for it.
const (
	NotABill      Code = "bill-not-ours"
	BillCell      Code = "bill-cell"
	BillCast      Code = "bill-cast"
	BillOnly      Code = "bill-only"
	NotAQuote     Code = "quote-not-ours"
	QuoteOther    Code = "quote-other-tender"
	QuoteCurrency Code = "quote-currency"
	QuoteHeading  Code = "quote-heading"
	QuoteSheet    Code = "quote-sheet"
	QuoteEmpty    Code = "quote-empty"
	QuoteOffer    Code = "quote-offer"
	QuoteIDs      Code = "quote-ids"
	QuoteAnswer   Code = "quote-answer"
	QuoteBesides  Code = "quote-besides"
	QuoteAdded    Code = "quote-sheet-added"
	QuoteNote     Code = "quote-note"
	TooMuch       Code = "quote-too-long"
)

// offers is what may be wrong with the workbooks of a comparison.
func offers() []Facts {
	return append([]Facts{
		{NotABill, Error,
			"The workbook that quotes are to be measured against is no bill that futtock wrote, or holds no lines.",
			`a workbook without a sheet that has the headings "Description", "Unit" and "Rate"`,
			"Name the priced bill, which ends in -bill.xlsx, or the bill to be priced as it was sent out, which ends in -unpriced.xlsx."},
		{BillCell, Error,
			"A cell of the bill that quotes are measured against cannot be read, so that nothing could be measured against its line.",
			`Bill: "twelve" under "Rate £"`,
			"Correct the cell, or take the bill as it was written."},
		{BillCast, Warning,
			"An amount in the bill that quotes are measured against is not its quantity times its rate; the product is taken.",
			`Bill: quantity 10, rate 2.50, and an amount of 26.00`,
			"See which of the figures was changed by hand."},
		{BillOnly, Remark,
			"A line of the priced bill is the yard's own and stands in no form, so that no quote can have it.",
			`Preliminaries: "waiting time"`,
			"Let it stand; it is left out of the comparison."},
	}, returned()...)
}

// returned is what may be wrong with a quote.
func returned() []Facts {
	return []Facts{
		{NotAQuote, Error,
			"A workbook given as a quote is neither a form that came back nor one that a letter was typed into.",
			`a workbook without a sheet that has the headings of the form`,
			"Name the form as the firm returned it, or type the letter into the form that futtock new --quote writes."},
		{QuoteOther, Error,
			"A quote is of another tender than the bill.",
			`Cover: Tender "SK-2026-5", and the bill is of SK-2026-4`,
			"Name the bill that the quote is of."},
		{QuoteCurrency, Error,
			"A quote is in another currency than the bill.",
			`Cover: Currency "EUR", and the bill is in GBP`,
			"Ask the firm for its rates in the currency of the bill."},
		{QuoteHeading, Error,
			"A heading is gone from a quote without which nobody can tell what is asked.",
			`Bill: no heading "Rate £"`,
			"Write the heading back over its column."},
		{QuoteSheet, Warning,
			"A sheet of the form is not in the quote, and its lines count as not priced.",
			`a quote without the sheet Preliminaries`,
			"Ask the firm whether it was taken out with intent."},
		{QuoteEmpty, Error,
			"A quote holds none of the lines of the bill.",
			`a form with every line deleted`,
			"Ask the firm for the form as it was sent out."},
		{QuoteOffer, Warning,
			"The sheet on which a firm says who it is and what it offers is not in the quote.",
			`a form without the sheet Offer`,
			"Ask the firm for it; until then the quote goes by the name of its workbook."},
		{QuoteIDs, Warning,
			"The ids by which lines are known for good are gone, and each line is taken for that of its Item.",
			`Bill: no heading "Line id"`,
			"See that no item was given another number."},
		{QuoteAnswer, Warning,
			"What a firm says of the whole of its offer cannot be read as what is wanted there, and counts as not said.",
			`Offer: "when the slip is free" under "Earliest start on site"`,
			"Type what is meant over it, or ask the firm."},
		{QuoteBesides, Warning,
			"Something stands beside the columns of the form and is not read.",
			`Bill: "see our letter" in a column of its own`,
			"See whether it is a qualification, and type it among them."},
		{QuoteAdded, Remark,
			"A sheet in a quote is none of the form and is not read.",
			`a sheet "Our terms"`,
			"See whether it holds qualifications, and type them among the others."},
		{QuoteNote, Remark,
			"A note hangs on a cell of a quote that is no line of the bill.",
			`Summary: a note "less 5 % if paid within ten days" on the total`,
			"See whether it is a qualification, and type it among them."},
		{TooMuch, Error,
			"A workbook holds more lines or qualifications than any bill has.",
			`a form with 20,001 lines`,
			"Take the form as it was sent out."},
	}
}
