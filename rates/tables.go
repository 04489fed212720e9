package rates

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// Norm is how long a task takes.
type Norm struct {
	At          origin.Cell
	Task        string
	Description string
	Trade       string
	TradeAt     origin.Cell
	Hours       decimal.Decimal // for one Unit of the driver
	Unit        measure.Unit
	SetUp       decimal.Decimal // hours, once a row of the schedule
	Learning    money.Percent   // slope of the unit-time curve; nil is no learning
	Place       Place
	Source      string
	From        time.Time
}

// Place is where a task is done. Access multiplies only work aboard.
type Place string

// The places.
const (
	Bench  Place = "bench"
	Aboard Place = "aboard"
)

// Labour is what an hour of a trade costs: Rate as given, or reckoned from pay.
type Labour struct {
	At       origin.Cell
	Trade    string
	Rate     money.Price     // for an hour; nil where it is reckoned from pay
	Pay      money.Price     // for an hour paid
	Paid     decimal.Decimal // hours paid a year
	Worked   decimal.Decimal // hours worked a year
	OnCosts  money.Percent   // on pay
	Other    money.Price     // for an hour worked
	Men      decimal.Decimal // strength of the trade; nil where not given
	MenGiven bool
	From     time.Time
}

// Timber is what is known of a species or grade.
type Timber struct {
	At         origin.Cell
	Timber     string
	Botanical  string
	Density    decimal.Decimal // kg/m3
	Tangential money.Percent   // shrinkage from green to oven-dry
	Radial     money.Percent   // the same
	SawnAt     money.Percent   // moisture when sawn
	InUse      money.Percent   // moisture in use
	Dries      bool            // both moistures are given
	Planing    measure.Length  // taken off a face
	Kerf       measure.Length
	Durability string
	Source     string
}

// Stock is one line of timber to be had: a plank, a log, a crook, or timber by
// the cube.
type Stock struct {
	At          origin.Cell
	PriceAt     origin.Cell
	Stock       string
	Timber      string
	TimberAt    origin.Cell
	Form        Form
	Thickness   measure.Length
	Width       measure.Length
	Length      measure.Length
	TopDiameter measure.Length
	MidGirth    measure.Length // the full girth
	Taper       measure.Length // of diameter, for each metre of length
	Sapwood     measure.Length // thickness
	Bark        measure.Length // thickness
	Sweep       measure.Length // over the stick's own length
	EndTrim     measure.Length // at each end
	Loss        money.Percent  // share of what is bought
	Yield       money.Percent  // net over bought, for the cube
	Available   int            // sticks, or units of the cube
	Limited     bool           // Available was given
	ByOwner     bool
	Price       money.Price // for one Unit
	Unit        measure.Unit
	Measure     LogRule
	Sawing      money.Price
	SawingUnit  measure.Unit
	Delivery    money.Price // for one Unit
	Supplier    string
	LeadWeeks   decimal.Decimal
	LeadGiven   bool
	From        time.Time
}

// Form is the shape timber is bought in.
type Form string

// The forms.
const (
	Plank  Form = "plank"
	Baulk  Form = "baulk"
	Flitch Form = "flitch"
	Log    Form = "log"
	Crook  Form = "crook"
	Knee   Form = "knee"
	Spar   Form = "spar"
	Cube   Form = "cube"
)

// Forms is the closed list in its printed order.
func Forms() []Form { return []Form{Plank, Baulk, Flitch, Log, Crook, Knee, Spar, Cube} }

// LogRule is how the volume of a round stick is reckoned.
type LogRule string

// The rules.
const (
	True          LogRule = "true"
	Hoppus        LogRule = "hoppus"
	Doyle         LogRule = "doyle"
	Scribner      LogRule = "scribner"
	International LogRule = "international"
)

// LogRules is the closed list in its printed order.
func LogRules() []LogRule { return []LogRule{True, Hoppus, Doyle, Scribner, International} }

// Material is something bought by the unit, such as spikes or oakum.
type Material struct {
	At          origin.Cell
	PriceAt     origin.Cell
	Material    string
	Description string
	Unit        measure.Unit
	Pack        decimal.Decimal // units in a pack; nil where it is not packed
	Price       money.Price     // for one Unit
	Supplier    string
	From        time.Time
}

// Plant is a machine, or anything else hired or run.
type Plant struct {
	At          origin.Cell
	Plant       string
	Description string
	Fixed       money.Price // once, for bringing and taking away
	Weekly      money.Price // a week
	Each        money.Price // for one Unit
	Unit        measure.Unit
	From        time.Time
}

// Subcontract is work done by others at a price for the unit.
type Subcontract struct {
	At          origin.Cell
	PriceAt     origin.Cell
	Work        string
	Description string
	Unit        measure.Unit
	Price       money.Price // for one Unit
	Least       money.Price // least charge for a row of the schedule
	Supplier    string
	From        time.Time
}

// VAT is one code of value added tax.
type VAT struct {
	At        origin.Cell
	Code      string
	Category  string // as UNCL 5305: S Z E AE O G
	Meaning   string
	Rate      money.Percent
	Otherwise string // code a line would bear if the vessel did not qualify
	From      time.Time
}

// Fastening is one row of a fastening rule: what each crossing of plank and
// timber takes, for planks within a range of widths.
type Fastening struct {
	At         origin.Cell
	Rule       string
	Over, To   measure.Length  // plank over Over and up to To wide; a nil To is without end
	Each       decimal.Decimal // at each crossing; 1.5 is two and one alternately
	Material   string
	MaterialAt origin.Cell
	Source     string
}

// PriceList is how the price lists of one supplier are read: the headings they
// have, where they are not those that are known by themselves.
type PriceList struct {
	At       origin.Cell
	List     string // how the name of the file begins
	Sheet    string // the sheet of the price book it is of; blank is any
	Key      string
	Price    string
	Unit     string
	From     string
	Supplier string
	Per      string // what all its prices are for one of, where no column says so
	Mark     string // comma or point, as parts the pence; blank is told from the column
}

// Addition is the overheads and profit on one kind of cost.
type Addition struct {
	At        origin.Cell
	Kind      Kind
	Overheads money.Percent
	Profit    money.Percent
}

func (r Norm) key() string            { return r.Task }
func (r Norm) from() time.Time        { return r.From }
func (r Norm) at() origin.Cell        { return r.At }
func (r Labour) key() string          { return r.Trade }
func (r Labour) from() time.Time      { return r.From }
func (r Labour) at() origin.Cell      { return r.At }
func (r Stock) key() string           { return r.Stock }
func (r Stock) from() time.Time       { return r.From }
func (r Stock) at() origin.Cell       { return r.At }
func (r Material) key() string        { return r.Material }
func (r Material) from() time.Time    { return r.From }
func (r Material) at() origin.Cell    { return r.At }
func (r Plant) key() string           { return r.Plant }
func (r Plant) from() time.Time       { return r.From }
func (r Plant) at() origin.Cell       { return r.At }
func (r Subcontract) key() string     { return r.Work }
func (r Subcontract) from() time.Time { return r.From }
func (r Subcontract) at() origin.Cell { return r.At }
func (r VAT) key() string             { return r.Code }
func (r VAT) from() time.Time         { return r.From }
func (r VAT) at() origin.Cell         { return r.At }
