package problem

// The codes of what is found when the documents are to be written.
const (
	ReferenceTwice Code = "reference-shared"
	NoRoom         Code = "no-room"
)

func documents() []Facts {
	return []Facts{
		{ReferenceTwice, Error,
			"Two workbooks priced in one call bear one tender reference, so that the documents of one would be written over those of the other.",
			`Job: Tender reference "SK-2026-4" in both workbooks`,
			"Give each job a reference of its own, or price them one at a time into folders of their own."},
		{NoRoom, Error,
			"A document would hold more than a spreadsheet has room for: characters in a cell, rows or links in a sheet. Nothing is cut, so nothing is written.",
			`Members: Member "side plank, ..." of 32,760 characters, with Side "port"`,
			"Shorten the text, or part the row or the bill item."},
	}
}
