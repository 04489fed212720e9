package quotes

import (
	"github.com/shopspring/decimal"

	"futtock/rates/money"
	"futtock/rates/origin"
)

// Comparison is the quotes side by side. Offers stand in the order the quotes
// were given in; every slice "by offer" has one entry for each of them.
type Comparison struct {
	Sent      Sent
	Terms     Terms
	Offers    []Offer
	Rows      []Row     // one for each line of the bill, in its order
	Yardstick Money     // of the bill itself, made up as Levelled is: lines in the total, client's contingency, weeks priced
	Sections  []Spread  // of measured work by section, then the other parts, then what stands beside the lines: together each offer's Levelled
	Low       LowTest   // abnormally low, by the rule of Terms
	Rates     []Outlier // rates that stand out, the most money first
	Swings    []Swing   // quantities that would turn the order
}

// Offer is one quote examined, corrected and levelled. All money in it is
// before value added tax, from Corrected on; AsTendered is as it stands.
type Offer struct {
	Quote
	Name        string          // the firm, or the workbook where no firm is named
	Findings    []Finding       // in order of part and line, the whole quote's first
	AsTendered  money.Amount    // the total as it stands, value added tax as the firm has it
	Corrected   money.Amount    // after the rule for errors, value added tax as the firm has it
	TaxOut      money.Amount    // value added tax taken out; nil where it is left out
	Net         money.Amount    // Corrected less TaxOut
	Lumps       []Lump          // of a letter that gives sums of money for sections or parts: measured work first, as the bill has them
	Beside      money.Amount    // within Net and of no line or lump: what the firm put in, and what its total has beyond its lines
	Adjustments []Adjustment    // from Net to Levelled, by kind, then as the lines stand
	Levelled    money.Amount    // Net and all Adjustments
	Weeks       Stretch         // as offered
	WeeksTaken  Stretch         // that it is compared at: as offered, else of the programme, else the longest of the others; not known where nobody says
	RankBefore  int             // by Net, from 1; equal sums share a rank
	RankAfter   int             // by Levelled
	Marks       decimal.Decimal // lowest Levelled / Levelled x 100, to two places
	Behind      money.Amount    // Levelled less the lowest of all
	Over        money.Amount    // Levelled less the Yardstick: below nil where it is under that; nil where that is not known
	OverPart    money.Percent   // Over of the Yardstick, to a tenth; nil where that is not above nil
	Worth       money.Amount    // present value of its payments, over the programme; nil where that is not known
	RankWorth   int             // by Worth, from 1; nil where that is not known
	Middle      Stretch         // the week by which half of its money is paid, to a tenth; not known without a programme
	OutOfScope  money.Amount    // what lines put in by the firm come to, within Corrected
}

// Lump is one sum of money for a whole section of measured work, or a whole part.
type Lump struct {
	Of        string       // key of a section, or a Part
	Corrected money.Amount // with value added tax as the firm has it
	Net       money.Amount // before it; levelled as it stands
}

// Row is one line across all quotes.
type Row struct {
	Line  Line
	Cells []Cell // by offer
}

// Cell is one line of one quote: the four figures.
type Cell struct {
	Offered    *Offered     // nil where the quote has no such line
	AsTendered Money        // as it stands
	Corrected  money.Amount // after the rule for errors, with value added tax as the firm has it
	Net        money.Amount // the corrected figure before value added tax
	Untaxed    money.Amount // of a line in the total, how much of Corrected is free of it whatever the firm has in its rates
	Levelled   money.Amount // for comparison, before value added tax
	State      Answer
	Why        []string // how each figure came from the one before; none where all are one
	Rate       Money    // corrected rate before value added tax, of measured work
}

// Money is an amount that may not be there.
type Money struct {
	Amount money.Amount
	Known  bool
}

// Answer is how a firm answered a line.
type Answer string

// The answers.
const (
	Answered     Answer = "priced"
	WithinOthers Answer = "included"
	LeftOff      Answer = "excluded"
	ForOwner     Answer = "by owner"
	Silent       Answer = "not priced"       // neither a rate nor a word
	WithinLump   Answer = "in section's sum" // a letter that gives sections only
)

// Adjustment is one step from the net figure of a quote to its levelled one.
type Adjustment struct {
	Kind   AdjustmentKind
	ID     string // of the line, or blank
	Text   string
	Amount money.Amount
}

// AdjustmentKind groups the adjustments, in their printed order.
type AdjustmentKind string

// The kinds.
const (
	TaxTaken    AdjustmentKind = "value added tax"
	GapFilled   AdjustmentKind = "missing and excluded lines"
	SumsEqual   AdjustmentKind = "sums made equal"
	HeldEqual   AdjustmentKind = "client's contingency"
	Qualified   AdjustmentKind = "qualifications"
	WeeksPriced AdjustmentKind = "weeks on site"
	TakenOut    AdjustmentKind = "contingency of the firm taken out"
)

// AdjustmentKinds is the closed list in its printed order.
func AdjustmentKinds() []AdjustmentKind {
	return []AdjustmentKind{TaxTaken, GapFilled, SumsEqual, TakenOut, HeldEqual, Qualified, WeeksPriced}
}

// BesideLines is the key of what an offer comes to beside its lines: what the
// firm put in, the client's contingency, qualifications and weeks.
const BesideLines = "beside the lines"

// Spread is what one section or part comes to across quotes, levelled. Its key
// is that of a section, a Part, or BesideLines; Work is of measured work that a
// letter does not give by section.
type Spread struct {
	Key, Title string
	Yardstick  Money
	Levelled   []money.Amount // by offer
	Within     []bool         // by offer: it has this elsewhere, in a letter's greater sum or by section, and is left out of Low and High
	Low, High  money.Amount
	Percent    money.Percent // (High - Low) / Low, to a tenth; nil where Low is not above nil
}

// Finding is one thing amiss, or to be asked, in one quote.
type Finding struct {
	Kind  FindingKind
	ID    string // of the line; blank of the whole quote
	At    origin.Cell
	Text  string       // what was found, with figures
	Query string       // what to ask the firm, a whole sentence; blank where there is nothing to ask
	Worth money.Amount // what it makes of the total, where that can be said
}

// Outlier is a rate that stands out from the yardstick or the middle quote.
type Outlier struct {
	Offer  int
	Line   int // of Rows
	Rate   money.Amount
	Beside money.Amount  // the yardstick's or the middle rate
	Of     string        // "yardstick" or "middle quote"
	Ratio  money.Percent // Rate / Beside, to a tenth
	Amount money.Amount  // of the line, levelled
}

// Swing is a line of which More of the quantity would cost much more with one
// offer than with the one next to it in rank.
type Swing struct {
	Offer, Other int           // Offer ranks before Other
	Line         int           // of Rows
	Extra        money.Amount  // what More makes of the difference between them
	Turns        Money         // what the line has to make good, the gap between the two: known where a quantity not too much greater turns the order
	At           money.Percent // by how much more it does, raised to a tenth
}

// LowTest is a published rule applied to the levelled figures.
type LowTest struct {
	Rule    LowRule
	Applies bool         // there are enough quotes for it
	Source  string       // where the rule stands; blank where no rule was chosen
	Limit   money.Amount // below which an explanation is asked for, rounded; the test itself is exact
	Basis   string       // how the limit was come by, in figures
	Low     []bool       // by offer: so low that an explanation is asked for
}
