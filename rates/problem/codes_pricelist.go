package problem

// The codes of a supplier's list of prices, and of putting it into the workbook.
const (
	ListHeadings Code = "list-headings"
	ListColumns  Code = "list-columns"
	ListDecimals Code = "list-decimals"
	ListPrice    Code = "list-price"
	ListUnit     Code = "list-unit"
	ListDay      Code = "list-day"
	ListUnlike   Code = "list-unlike"
	ListNoDay    Code = "list-no-day"
	ListTwice    Code = "list-twice"
	ListSheets   Code = "list-sheets"
	WriteFormula Code = "write-formula"
	WriteRoom    Code = "write-room"
	WriteDepends Code = "write-depends"
	WriteTrace   Code = "write-untraced"
	WriteSealed  Code = "write-sealed"
)

func lists() []Facts { return append(readingLists(), writing()...) }

// readingLists is what may be wrong with a list.
func readingLists() []Facts {
	return []Facts{
		{ListHeadings, Error,
			"No row of the list has a heading for the key and one for the price.",
			`a list with the headings "Bezeichnung" and "Preis" and no mapping`,
			"Say which headings they are with --columns, as in --columns \"Key=Article, Price=Net price\", or in a row of the sheet Lists."},
		{ListColumns, Error,
			"A heading of the list that was named is not there, or two headings may be the price.",
			`a list with two columns "Price"`,
			"Name the heading as the list spells it, with --columns or in the sheet Lists."},
		{ListDecimals, Error,
			"Whether a comma or a point parts the pence from the pounds cannot be told from the column, or the column has it both ways.",
			`a list with the prices "1,250" and "3,400" and nothing else`,
			"Say which with --decimal comma or --decimal point, or under Decimal mark in the sheet Lists."},
		{ListPrice, Warning,
			"A cell under the price of a list holds no price, so that its line is left out.",
			`a list with "on request" under Price`,
			"Ask for the price, or let the line be left out."},
		{ListUnit, Warning,
			"What a price of a list is for one of is not known, so that its line is left out.",
			`a list with "bdl" under Unit`,
			"Write the unit as the guide has it, or state it for the whole list with --per."},
		{ListDay, Warning,
			"The day a price of a list holds from cannot be read, so that its line is left out.",
			`a list with "03/04/2026" under From`,
			"Write the month in letters or the date as 2026-04-03, or give one day for the whole list with --from."},
		{ListUnlike, Warning,
			"A price of a list cannot be made one of the yard's own unit, so that its line is left out.",
			`a list with a price per kg of "Oil paint", which Materials has by the l`,
			"Ask for a price by a unit of the same kind; a price for each needs the sizes of the stick, and one for a pack its Pack."},
		{ListNoDay, Error,
			"The rows of a key bear days, and no day is known for its new price.",
			`a list without a heading From, where Materials has "Oil paint" From 2026-01-05`,
			"Give the day with --from, as in --from 2027-01-01."},
		{ListTwice, Warning,
			"A list has one key with two prices for one day, and neither is taken.",
			`a list with "Oil paint" at 12.80 and at 13.10`,
			"Ask which of them holds, and take the other out of the list."},
		{ListSheets, Warning,
			"A key of a list stands in several sheets of the workbook, and its line is left out.",
			`a list with "Oil paint", which stands in Materials and in Subcontract`,
			"Say which sheet the list is of with --kind, or in the sheet Lists."},
	}
}

// writing is why prices are not put into a workbook.
func writing() []Facts {
	return []Facts{
		{WriteFormula, Error,
			"The price that would change is the result of a formula, which is never written over.",
			`Materials: Price "=2*6" of "Oil paint", without From`,
			"Type the price over the formula, change what it is reckoned from, or give the key's rows a From, so that the new price gets a row of its own."},
		{WriteRoom, Error,
			"Something stands where the new row or price would go.",
			`Materials: a remark of the yard's own under the last row`,
			"Move what stands there, or put blank rows between."},
		{WriteDepends, Error,
			"A cell that is read hangs on a cell that would change, so that its stored result would no longer be true and could not be reckoned here.",
			`Materials: Price "=B3*2" of "Spike 6 in", where B3 is the price that changes`,
			"Type a figure in the place of the formula, or change the price in the spreadsheet program, which reckons it anew."},
		{WriteTrace, Error,
			"Whether a cell that is read hangs on one that would change cannot be told.",
			`Materials: Price "=INDIRECT(D1)" of "Spike 6 in"`,
			"Type a figure in the place of the formula, or change the price in the spreadsheet program, which reckons it anew."},
		{WriteSealed, Error,
			"The workbook is signed, linked or laid out so that it cannot be changed from outside without harm.",
			`a workbook with a digital signature`,
			"Change the prices in the spreadsheet program, or save the workbook there anew without what stands against it."},
	}
}
