package bill

// Sheets of a form, by which what comes back is found again.
const (
	FormCover          = "Cover"
	FormOffer          = "Offer"
	FormQualifications = "Qualifications"
	FormSummary        = "Summary"
	FormWork           = "Bill"
	FormPreliminaries  = "Preliminaries"
	FormSums           = "Sums"
	FormDayworks       = "Dayworks"
)

// Headings of the lines of a form. Those of money are followed by the sign of
// the currency, as in "Rate £".
const (
	HeadItem        = "Item"
	HeadDescription = "Description"
	HeadQuantity    = "Quantity"
	HeadUnit        = "Unit"
	HeadRate        = "Rate"           // money, of one of the unit
	HeadAmount      = "Amount"         // money, reckoned; of a qualification, filled in
	HeadWithout     = "Without a rate" // Included, Excluded, ByOwner or blank
	HeadRemarks     = "Your remarks"
	HeadMarked      = "Marked" // Standing of a line of work or a preliminary
	HeadStage       = "Stage"
	HeadID          = "Line id"
	HeadMark        = "Check mark" // see Fixed.Mark
	HeadForm        = "Form"       // the fingerprint of the form the line is of
)

// Headings that only some parts of a form have.
const (
	HeadOnce       = "Paid once"     // of a preliminary, money
	HeadTime       = "Time"          // of a preliminary
	HeadKind       = "Kind"          // of a sum: its Standing
	HeadSum        = "Sum"           // money
	HeadProfit     = "Profit %"      // on a sum
	HeadProfitSum  = "Profit"        // money, reckoned
	HeadAttendance = "Attendance"    // on a sum, money
	HeadTotal      = "Total"         // money, reckoned
	HeadNoSum      = "Without a sum" // as HeadWithout, of a quotation
	HeadTrade      = "Trade or kind of cost"
	HeadHours      = "Hours"
	HeadAddition   = "Addition %"
	HeadOf         = "Item it is of"
	HeadSaid       = "Qualification"
)

// What the cover says of the form, in its first column; the second has the answer.
const (
	SaidReference   = "Tender"
	SaidCurrency    = "Currency"
	SaidFingerprint = "Fingerprint of the form"
)

// What the sheet Offer asks, in its first column; the second has the answer.
const (
	AskFirm      = "Name of the firm"
	AskAddress   = "Address"
	AskReach     = "Telephone or e-mail"
	AskVAT       = "Value added tax" // LeftOut or AddedIn
	AskVATRate   = "Rate of value added tax"
	AskTotal     = "Total offered" // as the firm states it
	AskStart     = "Earliest start on site"
	AskWeeks     = "Weeks on site"
	AskOpenUntil = "Stands open until"
	AskSigned    = "Signed by"
	AskPosition  = "Position in the firm"
	AskDay       = "Date"
	AskSignature = "Signature"
)
