package problem

// The codes of what is found when the documents are to be written.
const (
	ReferenceTwice Code = "reference-shared"
	NoRoom         Code = "no-room"
	LettersMissing Code = "letters-missing"
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
		{LettersMissing, Warning,
			"The type of the PDFs, which has the Latin, Greek and Cyrillic letters, lacks characters of a text. Each is printed as its Unicode number in square brackets, and the tender says so; the workbooks hold the text as it is.",
			`Job: Vessel "Zeelandia 船"`,
			"Write it in letters that are had, such as the name as her papers spell it abroad, or let the numbers stand."},
	}
}
