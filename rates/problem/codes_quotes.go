package problem

// The codes of comparing returned quotes.
const (
	YardstickUnpriced Code = "yardstick-unpriced"
	QuoteTaxRate      Code = "quote-tax-rate"
	LineNotLevelled   Code = "line-not-levelled"
	FigureUnmatched   Code = "figure-unmatched"
	WeeksNowhere      Code = "weeks-nowhere"
)

func quotes() []Facts {
	return []Facts{
		{YardstickUnpriced, Error,
			"Lines that a quote leaves out are to be levelled at the price of the bill, and the bill bears no prices.",
			`a bill to be priced, sent out and compared as it went, with gaps at the yardstick`,
			"Have gaps levelled at the mean or the highest of the others, or compare with a bill that is priced."},
		{QuoteTaxRate, Error,
			"A quote has value added tax in its rates and does not say at what rate, so that it cannot be put on one footing with the others.",
			`Offer: Value added tax "added in", where the rate is blank`,
			"Ask the firm for the rate, and enter it on the sheet Offer of its quote with a note of who said so."},
		{LineNotLevelled, Error,
			"A quote has no price for a line, and neither the yardstick nor any other quote has one to level it at.",
			`Bill: no Rate on line "B/F1" in any quote, where the bill itself is not priced`,
			"Ask a firm for its price of the line, or give the line one in the bill that quotes are compared with."},
		{FigureUnmatched, Error,
			"A figure is given for a qualification that the firm does not make, or a second one for the same.",
			`a figure of 1,200.00 for the qualification "docking by owner" of a firm that qualifies nothing`,
			"Give the firm and the words of the qualification as they stand in its quote, each once."},
		{WeeksNowhere, Warning,
			"A week on site is to be priced, and nobody says how many weeks there are.",
			`Offer: Weeks on site blank in every quote, where the bill has no programme and a week costs the client 900.00`,
			"Ask the firms for their weeks, or leave the cost of a week out."},
	}
}
