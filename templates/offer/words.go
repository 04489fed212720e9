package offer

// Sheets of the form for a letter.
const (
	LetterSheet    = "Letter"
	LetterSections = "By section"
	LetterItems    = "By item"
)

// Headings of the form for a letter, beside those it shares with the form.
const (
	HeadSection = "Section"
	HeadTitle   = "Title"
	HeadSaidFor = "Sum in the letter" // money: for all of a section or part, or for one item
	HeadByItem  = "By item"           // money, reckoned: what its items come to that are priced by themselves
	HeadWord    = "Or in a word"      // bill.Included, Excluded or ByOwner
	HeadSays    = "Remark"
	HeadKey     = "Row id" // of a section, a part, or what is put in
)

// What the sheet Letter asks, beside what the form's Offer does.
const (
	AskLetter  = "Reference of the letter"
	AskDated   = "Date of the letter"
	AskInWords = "Total in words"
	SaidTyped  = "Total of what is typed" // reckoned
)

// What HeadKey begins with.
const (
	OfSection = "section/"
	OfPart    = "part/"
	OfBeside  = "beside/"
)
