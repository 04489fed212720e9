// Package job is what the yard told us of one refit: the vessel and the terms,
// the schedule of members and other work, the stages and the sums. Every row
// carries the cell it came from. The package holds what was said and checks
// that it makes sense across sheets; it reckons nothing.
package job

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// Job is one refit to be priced.
type Job struct {
	Book string // base name of the workbook
	Particulars
	Sections      []Section
	Members       []Member
	Items         []Item
	Preliminaries []Preliminary
	Sums          []Sum
	Dayworks      []Daywork
	Stages        []Stage
	Gangs         []Gang
	Closures      []Closure
	Risks         []Risk
	Clauses       []Clause
	Additions     []rates.Addition
	Columns       map[Heading]int // columns of the headings of its sheets and of those of its price book
}

// Heading is a heading of a sheet, as futtock spells it.
type Heading struct{ Book, Sheet, Heading string }

// Particulars is the Job sheet: one heading and one value a row. Cells holds
// where each value stands, by its heading.
type Particulars struct {
	Vessel, Description, Client, Yard string
	ReturnTo                          string    // of a bill that others price; blank is the Client
	ReturnBy                          time.Time // the last day it may come back; the zero time where not given
	Reference                         string    // tender reference: letters, digits, dot and hyphen
	TenderDate                        time.Time
	ValidDays                         int
	Start                             time.Time // on site; the zero time where not given
	Currency                          string    // ISO 4217, such as GBP
	LengthsIn, SizesIn, VolumesIn     measure.Unit
	LengthOverall, Breadth, Depth     measure.Length
	Tonnage                           decimal.Decimal
	TonnageGiven                      bool
	TonnageBasis, DesignedFor         string
	VATEvidence                       string
	VATCode                           string
	VATRounding                       Rounding
	HoursAWeek                        decimal.Decimal
	WorkingWeeks                      decimal.Decimal // a year
	FrameSpacing                      measure.Length
	ContingencyBy                     By
	Contingency                       money.Percent
	ContingencyOn                     Base
	ContingencyShown                  Shown
	Confidence, Together              money.Percent
	DrawNumber                        int64
	TimberSearch                      int           // times the usual effort for the cheapest timber; blank is 1
	PriceRises                        money.Percent // a year; nil where not asked
	Retention                         money.Percent
	PaymentWeeks                      decimal.Decimal
	DefectsMonths                     int // from the end of the works; nil is not said
	PriceWaiting                      bool
	Paper                             Paper // that documents are printed on; blank is A4
	Cells                             map[string]origin.Cell
}

// Cell is where a particular stands, or the sheet where it was not given.
func (j *Job) Cell(heading string) origin.Cell {
	if c, ok := j.Cells[heading]; ok {
		return c
	}
	return origin.Cell{Book: j.Book, Sheet: "Job"}
}

// Under is the cell of the row at, in the job's workbook or its price book, that stands
// under a heading; where the sheet has no such column it is the cell given.
func (j *Job) Under(at origin.Cell, heading string) origin.Cell {
	if col, known := j.Columns[Heading{Book: at.Book, Sheet: at.Sheet, Heading: heading}]; known {
		return at.In(col)
	}
	return at
}

// Until is the last day on which the tender may be accepted; false where the
// Job does not limit it.
func (p Particulars) Until() (time.Time, bool) {
	return p.TenderDate.AddDate(0, 0, p.ValidDays), p.ValidDays > 0
}

// VolumeUnit is what volumes of timber are printed in: cubic metres where the
// Job does not say.
func (p Particulars) VolumeUnit() measure.Unit {
	if p.VolumesIn.Dimension() == measure.VolumeMeasure {
		return p.VolumesIn
	}
	return measure.M3
}

// Paper is the size of sheet that documents are printed on.
type Paper string

// The papers.
const (
	A4     Paper = "A4"     // 210 by 297 mm
	Letter Paper = "Letter" // 8.5 by 11 in
)

// Rounding is how VAT is brought to the penny.
type Rounding string

// The ways of rounding VAT.
const (
	Nearest Rounding = "nearest"
	Down    Rounding = "down"
)

// By is how the contingency is found.
type By string

// The ways of finding the contingency.
const (
	ByPercent    By = "percent"
	BySimulation By = "simulated"
)

// Base is what a contingency by percent is taken on.
type Base string

// The bases of the contingency.
const (
	OnItems     Base = "items"
	OnItemsPrel Base = "items and preliminaries"
)

// Shown is how the contingency appears in the client's bill.
type Shown string

// The ways of showing the contingency.
const (
	ClientSum   Shown = "as a client's sum"
	WithinRates Shown = "within rates"
)

// Section is one part of the bill.
type Section struct {
	At          origin.Cell
	Section     string
	Title       string
	Stage       string
	StageAt     origin.Cell
	Contingency money.Percent
	OwnRate     bool // Contingency was given here
}

// Carried is how a line of work stands in the price.
type Carried string

// The ways a line may be carried. A provisional line is priced in full and
// re-measured; a risk stands in the contingency only; an option is priced and
// shown but not added; of a rate-only line nothing but the rate is asked.
const (
	Measured    Carried = "measured"
	Provisional Carried = "provisional"
	AtRisk      Carried = "risk"
	Option      Carried = "option"
	RateOnly    Carried = "rate only"
)

// CarriedAs is the closed list in its printed order.
func CarriedAs() []Carried { return []Carried{Measured, Provisional, AtRisk, Option, RateOnly} }

// InTotal reports a line that is part of the tender sum, the programme and the
// timber order.
func (c Carried) InTotal() bool { return c == Measured || c == Provisional }

// Treatment is what is done to a member.
type Treatment string

// The treatments.
const (
	Renew      Treatment = "renew"
	Part       Treatment = "part"
	Graving    Treatment = "graving piece"
	Refasten   Treatment = "refasten"
	OffAndBack Treatment = "off and back"
	Preserve   Treatment = "preserve"
	Remove     Treatment = "remove"
	Retain     Treatment = "retain"
)

// Treatments is the closed list in its printed order.
func Treatments() []Treatment {
	return []Treatment{Renew, Part, Graving, Refasten, OffAndBack, Preserve, Remove, Retain}
}

// TakesTimber reports a treatment that puts new timber in.
func (t Treatment) TakesTimber() bool { return t == Renew || t == Part || t == Graving }

// Shape is the cross-section of a member.
type Shape string

// The shapes.
const (
	Square Shape = "square"
	Round  Shape = "round"
	Eight  Shape = "eight-sided"
)

// Heart is what is asked of the heart of the tree in a piece.
type Heart string

// The choices of heart.
const (
	AnyHeart Heart = "any"
	Boxed    Heart = "boxed"
	Free     Heart = "free"
)

// Joint is how the pieces of a run, or new and old work, are joined.
type Joint string

// The joints.
const (
	NoJoint Joint = "none"
	Scarph  Joint = "scarph"
	Butt    Joint = "butt"
)

// Work is what Members and Items have in common: how a line of the schedule is
// priced, carried and billed.
type Work struct {
	At         origin.Cell // the cell of the Ref
	Ref        string
	Section    string
	BuildUp    string
	BuildUpAt  origin.Cell
	Hours      decimal.Decimal // for the whole row, beside the build-up
	Trade      string          // of those hours
	TradeAt    origin.Cell
	Difficulty decimal.Decimal // multiplies all hours; 1 where blank
	Access     decimal.Decimal // multiplies work aboard; 1 where blank
	Carried    Carried
	Chance     money.Percent // of a risk row
	Least      money.Percent // of the amount, 100 where blank
	Most       money.Percent // of the amount, 100 where blank
	Stage      string
	StageAt    origin.Cell
	VAT        string // code; blank is the Job's
	Funding    string
	BillItem   string // rows naming one bill item make one line of the bill
	BillItemAt origin.Cell
	BillQty    decimal.Decimal
	BillQtyAt  origin.Cell
	BillUnit   measure.Unit
	BillUnitAt origin.Cell
	Note       string
}

// Line is the name of the bill line the row belongs to: its Bill item, or its
// own Ref.
func (w Work) Line() string {
	if w.BillItem != "" {
		return w.BillItem
	}
	return w.Ref
}

// Ranged reports a row that may come to less or more than its amount. A Most of
// nil is none given.
func (w Work) Ranged() bool {
	least, most := w.Least.Decimal(), w.Most.Decimal()
	return least.LessThan(hundred) || most.GreaterThan(hundred)
}

var hundred = decimal.New(100, 0)
