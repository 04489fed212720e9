package quotes

// FindingKind is what may be amiss in a quote.
type FindingKind string

// FindingFacts says what a kind of finding means.
type FindingFacts struct {
	Kind    FindingKind
	Meaning string // a whole sentence
	Example string // what raises it
	Cure    string // what the client does about it
}

// The kinds of finding.
const (
	FormChanged        FindingKind = "form-changed" // fingerprint reckoned from its lines is not the one sent
	OtherForm          FindingKind = "other-form"   // fingerprint on it is of another bill
	QuantityChanged    FindingKind = "quantity-changed"
	UnitChanged        FindingKind = "unit-changed"
	DescriptionChanged FindingKind = "description-changed"
	StandingChanged    FindingKind = "standing-changed" // the remark, kind or time of a line
	SumChanged         FindingKind = "given-sum-changed"
	LineInserted       FindingKind = "line-inserted"
	LineDeleted        FindingKind = "line-deleted"
	LineTwice          FindingKind = "line-twice"
	RateInWords        FindingKind = "rate-in-words"
	RateNegative       FindingKind = "rate-negative"
	RateNil            FindingKind = "rate-nil"
	RateAndWord        FindingKind = "rate-and-word"    // a rate, and a word that says there is none
	FormulaReplaced    FindingKind = "formula-replaced" // a number typed where the form reckons
	AmountDiffers      FindingKind = "amount-differs"   // from quantity x rate
	PointMisplaced     FindingKind = "point-misplaced"  // amount = quantity x rate x 10, 100, ... or a tenth, ...
	PointDoubtful      FindingKind = "point-doubtful"   // the rate is about ten times, or a tenth, of what others have
	SectionDiffers     FindingKind = "section-differs"  // from its lines
	TotalDiffers       FindingKind = "total-differs"    // from its parts
	WordsDiffer        FindingKind = "words-differ"     // total in words from that in figures
	TaxUnsaid          FindingKind = "tax-unsaid"
	TaxRateUnsaid      FindingKind = "tax-rate-unsaid" // value added tax is in the rates, and its rate is not said
	LineUnpriced       FindingKind = "line-unpriced"
	LineExcluded       FindingKind = "line-excluded"
	LineByOwner        FindingKind = "line-by-owner"
	DayworkUnpriced    FindingKind = "daywork-unpriced"
	RateOnlyUnpriced   FindingKind = "rate-only-unpriced"
	FirmUnsaid         FindingKind = "firm-unsaid"
	WeeksUnsaid        FindingKind = "weeks-unsaid"
	ValidityUnsaid     FindingKind = "validity-unsaid"
	Unsigned           FindingKind = "unsigned"
	ContingencyPut     FindingKind = "contingency-put-in"
)
