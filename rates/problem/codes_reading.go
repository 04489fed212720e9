package problem

// The codes of reading a workbook.
const (
	SheetMissing    Code = "sheet-missing"
	SheetAbsent     Code = "sheet-absent"
	SheetTwice      Code = "sheet-twice"
	SheetNear       Code = "sheet-near"
	SheetMisnamed   Code = "sheet-misnamed"
	SheetHidden     Code = "sheet-hidden"
	HeadingMissing  Code = "heading-missing"
	HeadingTwice    Code = "heading-twice"
	HeadingNear     Code = "heading-near"
	HeadingUnit     Code = "heading-unit"
	SizeUnit        Code = "size-unit"
	UnitsDiffer     Code = "units-differ"
	RowHidden       Code = "row-hidden"
	Required        Code = "required"
	NeededBeside    Code = "needed-beside"
	NotCalculated   Code = "not-calculated"
	CellFault       Code = "cell-fault"
	DateInCell      Code = "date-in-cell"
	NumberForm      Code = "number-form"
	WholeForm       Code = "whole-form"
	LengthForm      Code = "length-form"
	PercentForm     Code = "percent-form"
	PercentDoubt    Code = "percent-doubt"
	MoneyForm       Code = "money-form"
	CurrencyOther   Code = "currency-other"
	CurrencyForm    Code = "currency-form"
	DateForm        Code = "date-form"
	YesNoForm       Code = "yes-no-form"
	ChoiceUnknown   Code = "choice-unknown"
	UnitUnknown     Code = "unit-unknown"
	ReferenceForm   Code = "reference-form"
	KeyForm         Code = "key-form"
	OutOfRange      Code = "out-of-range"
	KeyTwice        Code = "key-twice"
	KeyUnknown      Code = "key-unknown"
	PriceKeyUnknown Code = "price-key-unknown"
)

func reading() []Facts {
	return append(append(readingSheets(), readingCells()...), readingKeys()...)
}

// readingSheets is what may be wrong with sheets, headings and rows.
func readingSheets() []Facts {
	return []Facts{
		{SheetMissing, Error,
			"A sheet that no job can do without is not in the workbook.",
			`a workbook without the sheet Sections`,
			"Add the sheet with its headings; futtock new writes a workbook that has them all."},
		{SheetAbsent, Warning,
			"A sheet with rows that are priced has been taken out of the workbook, and the price is made without it.",
			`a workbook of futtock new without the sheet Sums`,
			"Put the sheet back; where the job has no such rows, its headings alone will do."},
		{SheetTwice, Error,
			"Two sheets bear the same name, spaces and hyphens aside, and only the first is read.",
			`two sheets, "Build-ups" and "Build ups"`,
			"Put their rows together in one sheet, or give the other a name of its own."},
		{SheetNear, Warning,
			"A sheet is not read, and its name is like that of one that is not there.",
			`the sheet Lists named "List"`,
			"Correct the name of the sheet, or change it further where it is your own."},
		{SheetMisnamed, Error,
			"A sheet bears the headings of one that is not there, under a name that is not read, so that all its rows would be left out of the price.",
			`the sheet Sums named "Allowances"`,
			"Give the sheet its name; where it is your own and not to be read, change its headings."},
		{SheetHidden, Remark,
			"A sheet cannot be seen, and is read like the others.",
			`the sheet Stock, hidden`,
			"Show the sheet and look it over."},
		{HeadingMissing, Error,
			"No row among the first fifty of the sheet holds all the headings that are required.",
			`Members: no heading "Treatment"`,
			"Write the heading in the row of headings, spelt as in the guide; columns may stand in any order."},
		{HeadingTwice, Error,
			"A heading stands twice, so it is not known which column is meant.",
			`Members: the heading "Length" in two columns, one "Length (m)" and one "Length (ft)"`,
			"Take one of the columns away, or give it a heading of its own."},
		{HeadingNear, Warning,
			"A column is not read, and its heading is like one that is not there.",
			`Members: the heading "Acess" in place of "Access"`,
			"Correct the heading, or change it further where the column is your own."},
		{HeadingUnit, Error,
			"The unit in the brackets of a heading is none, or not one the column can be in.",
			`Members: the heading "Sided (kg)"`,
			"Write a unit the column can be in, such as Sided (mm), or leave the brackets out."},
		{SizeUnit, Error,
			"A price sheet holds a size without a unit, and its heading names none; price sheets may serve several jobs, so no Job's unit is taken.",
			`Stock: the heading "End trim" with no unit, and a cell of 2`,
			"Write the unit in the heading, such as End trim (mm)."},
		{UnitsDiffer, Remark,
			"A heading names another unit than the Job says lengths are in; the heading is followed.",
			`Job: Lengths in "ft", and Members: the heading "Length (m)"`,
			"Let it stand if it is meant; else correct the heading, or take its unit away."},
		{RowHidden, Remark,
			"Rows that cannot be seen are read like the others.",
			`Members: row 3 hidden by a filter`,
			"Show the rows and look them over; delete those that are not meant."},
	}
}

// readingCells is what may be wrong with a single cell.
func readingCells() []Facts {
	return []Facts{
		{Required, Error,
			"A cell that must be filled in is blank.",
			`Members: Nr blank in a row that has a Ref`,
			"Fill the cell in; the heading's note says with what."},
		{NeededBeside, Error,
			"A cell is blank that another cell of the row calls for.",
			`Members: From frame 8, To frame blank`,
			"Fill the cell in, or clear the other."},
		{NotCalculated, Error,
			"A cell holds a formula whose result was never stored, so what it comes to is not known.",
			`Members: Nr "=2*3", in a workbook written by a program that does not calculate`,
			"Open the workbook in a spreadsheet program, let it calculate, and save it."},
		{CellFault, Error,
			"A cell shows an error of the spreadsheet, such as #REF! where what a formula read has been deleted.",
			`Items: Quantity #REF!`,
			"Mend the formula, or type the figure."},
		{DateInCell, Error,
			"A cell holds a date or a time where none belongs; spreadsheets turn 6-3 and 1/2 into dates as they are typed.",
			`Members: Length 2026-03-06, typed as 6-3`,
			`Format the cell as text and type it anew, a length as 6' 3" or 75 mm.`},
		{NumberForm, Error,
			"A number is wanted and something else is in the cell.",
			`Items: Quantity "about 12"`,
			"Type the number alone; the unit has its own column, and remarks go under Note."},
		{WholeForm, Error,
			"A whole number is wanted and something else is in the cell.",
			`Members: Nr 1.5`,
			"Type a whole number."},
		{LengthForm, Error,
			"A length cannot be read, or could be read in two ways.",
			`Members: Length "6-3"`,
			`Type a number in the column's unit, or with units: 24' 6", 24ft 6 1/2in, 7.5 m, 150 mm.`},
		{PercentForm, Error,
			"A percentage is wanted and something else is in the cell.",
			`Overheads and profit: Profit % "ten"`,
			"Type 12 %, or 12."},
		{PercentDoubt, Warning,
			"A bare number between nil and one is read as that many hundredths; it may have been meant as a share of one.",
			`Overheads and profit: Profit % 0.12, not shown as a percentage`,
			"Type 12 %, or 0.12 % where that is meant."},
		{MoneyForm, Error,
			"A sum of money is wanted and something else is in the cell.",
			`Materials: Price "on request"`,
			"Type the figure alone, or with the currency's sign: 1250, 1,250.00 or £1,250.00."},
		{CurrencyOther, Error,
			"A sum of money bears the sign of another currency than the Job's, or its number format does.",
			`Materials: Price "€4.20", where the Job's Currency is GBP`,
			"Type the sum in the Job's currency."},
		{CurrencyForm, Error,
			"The currency of the Job is not written as three letters.",
			`Job: Currency "pounds"`,
			"Write its letters as in ISO 4217, such as GBP or EUR."},
		{DateForm, Error,
			"A date is wanted and something else is in the cell, or a date that may be read with the day first or the month first.",
			`Job: Tender date "03/04/2026"`,
			"Type 2026-04-03 or 3 April 2026."},
		{YesNoForm, Error,
			"Yes or no is wanted and something else is in the cell.",
			`Members: Sapwood "some"`,
			"Type yes or no."},
		{ChoiceUnknown, Error,
			"The cell takes one of a closed list, and holds something else.",
			`Members: Treatment "replace"`,
			"Take one from the list; the message names them all."},
		{UnitUnknown, Error,
			"The cell takes a unit of the closed list, and holds something else.",
			`Items: Unit "bucket"`,
			"Take one from the list; the message names those that may stand there."},
		{ReferenceForm, Error,
			"Every file written begins with the tender reference, which holds something that no name of a file may.",
			`Job: Tender reference "SW/2026/1"`,
			"Use letters, digits, dot and hyphen, and begin with a letter or digit."},
		{KeyForm, Error,
			"The name of a stage holds a comma or semicolon, which part the names under After.",
			`Stages: Stage "Deck, forward"`,
			"Name the stage without."},
		{OutOfRange, Error,
			"A value is beyond what its column can hold.",
			`Members: Condition 7`,
			"Correct the value; where it is a length, look at the unit of the heading first."},
	}
}

// readingKeys is what may be wrong with the names of rows.
func readingKeys() []Facts {
	return []Facts{
		{KeyTwice, Error,
			"Two rows bear the same key, so it is not known which is meant.",
			`Members: Ref "4.1" in two rows`,
			"Give one of them another key; a row of prices that takes the place of an older one bears another From."},
		{KeyUnknown, Error,
			"A row names something that the sheet it belongs to does not have.",
			`Members: Section "9", where Sections has no "9"`,
			"Correct the name, or give it a row of its own there."},
		{PriceKeyUnknown, Error,
			"A row names something that is in no price sheet, neither in the job's workbook nor in a price book given with --rates.",
			`Members: Build-up "Plnk", where Build-ups has "Plank"`,
			"Correct the name, or give it a row of its own there; a bill without prices does not need it."},
	}
}
