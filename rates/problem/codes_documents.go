package problem

// The codes of what is found when the documents are to be written.
const (
	ReferenceTwice Code = "reference-shared"
	NoRoom         Code = "no-room"
	LettersMissing Code = "letters-missing"
	ClauseEmpty    Code = "clause-empty"
	ClauseStanding Code = "clause-standing"
	ClauseUnknown  Code = "clause-unknown"
	ClauseSeveral  Code = "clause-several"
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
		{ClauseEmpty, Error,
			"A row of Clauses has neither words of its own nor a standing clause that it is in place of, so that it changes nothing.",
			`Clauses: Part exclusions, Clause blank, In place of blank`,
			"Type the words to be added, or the first words of the clause to be left out, or clear the row."},
		{ClauseStanding, Error,
			"A caution is to be replaced or left out. Cautions are there for people's safety, and may only be added to.",
			`Clauses: Part cautions, In place of "Hot work"`,
			"Clear In place of, and add a caution of your own where the standing one is not enough."},
		{ClauseUnknown, Error,
			"No standing clause of that part of the tender begins with these words, so that nothing can be put in its place or left out.",
			`Clauses: Part exclusions, In place of "Towage", where that clause begins "Hull, war and voyage risks"`,
			"Copy the first words of the clause from a tender. One that says what the Job or the bill has, such as payment and hours, is changed there."},
		{ClauseSeveral, Error,
			"Several standing clauses of that part of the tender begin with these words, and which is meant cannot be told.",
			`Clauses: Part assumptions, In place of "The"`,
			"Type more of the first words, as many as tell the clause from the others."},
	}
}
