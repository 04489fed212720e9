package job

import (
	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// Member is one row of the schedule of members. Length, Sweep, Renewed,
// Joints and Seams are of one piece or one run; Nr alone multiplies.
type Member struct {
	Work
	Member       string
	Description  string
	Side         string
	Nr           int
	Length       measure.Length
	Sided        measure.Length // thickness
	Moulded      measure.Length // width, or the depth that takes the curve
	AsSawn       bool           // sizes are of the sawn piece, not of the finished one
	Shape        Shape
	Sweep        measure.Length  // on the concave edge over its own chord
	Bevel        decimal.Decimal // degrees
	Timber       string
	TimberAt     origin.Cell
	Stock        string // binds the row to one stock line
	StockAt      origin.Cell
	Heart        Heart
	Sapwood      bool // sapwood is allowed
	Treatment    Treatment
	Renewed      measure.Length
	Joint        Joint
	Joints       int             // joints to old work
	Scarph       decimal.Decimal // length of a scarph to one of the dimension it is cut through
	ThroughSided bool            // the scarph is cut through the sided way
	ThroughGiven bool            // Scarph through was given
	Shortest     measure.Length
	Longest      measure.Length
	PlanedFaces  int
	Seams        decimal.Decimal // long seams charged to this strake
	Strake       string
	FromFrame    int
	ToFrame      int
	FramesGiven  bool
	Spacing      measure.Length
	Fastening    string // rule
	FasteningAt  origin.Cell
	Condition    int // 0 not seen to 5 renew whole
	CondGiven    bool
	Survey       string // survey reference
	LengthAt     origin.Cell
	SidedAt      origin.Cell
	MouldedAt    origin.Cell
	RenewedAt    origin.Cell
	TreatmentAt  origin.Cell
	JointAt      origin.Cell
	ScarphAt     origin.Cell
	FrameAt      origin.Cell
}

// Run reports a member got in several pieces, end to end, where no stick is
// long enough.
func (m Member) Run() bool { return m.Joint == Scarph || m.Joint == Butt }

// New is the length all drivers, fastenings, seams and the bill read: the
// renewed length of a part renewal, else the whole length.
func (m Member) New() measure.Length {
	if m.Treatment == Part {
		return m.Renewed
	}
	return m.Length
}

// Item is one row of work without timber.
type Item struct {
	Work
	Description string
	Quantity    decimal.Decimal
	QuantityAt  origin.Cell
	Unit        measure.Unit
	Cost        money.Price // for the whole row
	CostKind    rates.Kind
	CostAt      origin.Cell
}
