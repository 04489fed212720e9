// Package order is the timber order of a job: which sticks are bought, how each
// is sawn, what every row of the schedule gets of it and bears of its cost.
// These are the results of cutting. They stand by themselves so that verify
// can read them without the package that made them. The package reckons
// nothing.
package order

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// Plan is the timber of a job. Order is what is bought for the tender sum;
// Maybe what would be bought for rows that stand outside it (risk, option,
// rate only), each kind of row planned by itself out of what the order leaves.
// Lines stand by Carried, then by timber, then by stock line.
type Plan struct {
	Pieces  []takeoff.Piece // as they are cut, by Ref: the takeoff's, those of a run with the lengths chosen
	Order   []Line
	Maybe   []Line
	Shares  []Share   // by Ref, then by stock, then by section
	Species []Species // of the order, by timber
	Boards  []Boards  // of the logs in force whose timber is in the order, by timber
	Short   []Short   // what could not be got; a problem says so of each
	Bound   Bound
}

// Line is one stock line bought.
type Line struct {
	Stock    rates.Stock
	Carried  job.Carried     // measured for the order, else the kind of row it may be wanted for
	Needed   decimal.Decimal // sticks, or for timber by the cube the volume in the stock's unit, to 0.000001
	Buy      decimal.Decimal // Needed raised for Loss, whole sticks; the cube up to the places of its unit
	Each     money.Amount    // cost of one stick; for the cube nil
	Material money.Amount    // part of Cost that is timber: all of it, or nil for the owner's
	Cost     money.Amount    // Buy x Each; for the cube price x Buy + sawing + delivery
	Bought   decimal.Decimal // m3 by true measure, to 0.000001; of sticks whose size is not given, their Sawn
	Sawn     decimal.Decimal // m3 of pieces at their least sawn section
	Net      decimal.Decimal // m3 finished
	Patterns []Pattern       // none for timber by the cube
	InHand   money.Amount    // worth of all off-cuts of the line, no part of Cost
	Got      []Got           // by Ref
	Sections []Section       // by thickness, then width
}

// BuyUnit is what Buy counts: sticks, or the stock's unit for timber by the cube.
func (l Line) BuyUnit() measure.Unit {
	if l.Stock.Form == rates.Cube {
		return l.Stock.Unit
	}
	return measure.Nr
}

// Pattern is one way of sawing a stick, and how many sticks are sawn so.
type Pattern struct {
	Times   int
	Cuts    []Cut
	Offcuts []Offcut // of one stick
}

// The least sizes of an off-cut worth putting by; the smaller of width and
// thickness counts as its thickness.
const (
	LeastLength    = 600 * measure.Millimetre
	LeastWidth     = 100 * measure.Millimetre
	LeastThickness = 25 * measure.Millimetre
)

// Offcut is what one stick leaves, clear of bark, and of sapwood unless all that is
// sawn from the stick allows it, in a size worth putting by. It lies in the stick as
// a Cut does. Worth is its part of the stick's price by volume, to the penny. It is stock in
// hand and credited to nobody: the rows bear the whole stick.
type Offcut struct {
	Along, Across, Through   measure.Length
	Length, Width, Thickness measure.Length
	Worth                    money.Amount // nil where the size of the stick is not stated
}

// Cut is one piece in a stick. In a log its place across and through is that of its lower left
// corner from the pith, seen on the end, and so may be under nil. In a crook, across is how far it lies
// above the lowest of its layer, which lies as far in as its sweep lets it, and Through is the
// layer. Elsewhere: its place from the butt end after trimming and
// from the lower edge with bark off and sapwood on, how far up through the
// thickness it lies, and its sawn size there. Thickness is what it takes of the stick's thickness, so that a piece turned on
// edge has its own sizes changed about. A sawn curve has the length and
// width of the oblong round it; curves nested in each other overlap as oblongs.
type Cut struct {
	Ref                      string
	Piece                    int // place in Plan.Pieces
	Along, Across, Through   measure.Length
	Length, Width, Thickness measure.Length
	Curve                    *takeoff.Curve // nil for a straight piece
}

// Got is how many of one piece's number come from a line.
type Got struct {
	Ref   string
	Piece int // place in Plan.Pieces
	Count int
	Sawn  decimal.Decimal // m3 to 0.000001
	Net   decimal.Decimal // m3 to 0.000001
}

// Section is what a line bears for all pieces of one sawn section: the line's
// cost is shared by the sawn volume cut from it. Pieces bound to a stock line are a
// section of their own, apart from like pieces that may be had anywhere.
type Section struct {
	Thickness, Width measure.Length
	Bound            bool
	Sawn             decimal.Decimal // m3 to 0.000001
	Cost             money.Amount
}

// Share is what one row bears of one line of stock. Every row with pieces of a
// section bears a part of what the section costs in each line, by the row's
// sawn volume of that section, whichever stick its own pieces come from: so
// equal pieces cost the same.
type Share struct {
	Ref              string
	Stock            string
	Thickness, Width measure.Length  // of the section
	Bound            bool            // the section is of pieces bound to the line
	Sawn             decimal.Decimal // m3 to 0.000001: the weight it was shared by
	Of               decimal.Decimal // m3 to 0.000001: the weight of all rows that share the section
	Cost             money.Amount
	Owner            bool // handling and sawing of the owner's timber
}

// Species is timber bought against timber in the ship, by timber. Timber of the
// owner's counts as bought.
type Species struct {
	Timber            string
	Net, Sawn, Bought decimal.Decimal // m3
	Waste             decimal.Decimal // Bought - Net, m3
	Yield             money.Percent   // Net / Bought, to 0.1
	Cost              money.Amount
	Bound             Bound // of this timber alone
}

// Short is a number of like pieces for which there is no stock.
type Short struct {
	Ref   string
	At    origin.Cell
	Piece int // place in Plan.Pieces
	Count int
}

// Bound is the cost of a purchase beside what none from the same stock could cost
// less than. Least is proven in whole numbers (see package solve) over every
// purchase of whole sticks that are sawn in the classes of layouts of packages
// board, log and crook, on no grid, with timber by the cube, and the pieces of a straight run of any
// lengths that its row allows, in the number that takeoff found; of a swept run, of one with the
// heart boxed in, and where the row gives no Shortest piece, equal. None is longer than a stick, or
// than timber by the cube is had where its line says so. What rounding up a line's purchase for its Loss adds is counted as far as the least numbers of sticks are searched for (package
// parcel), and beyond that every stick used at its price over the share kept. Sticks that
// rows bound to them have by number are counted in both. Gap is (Cost - Least) / Cost.
type Bound struct {
	Cost  money.Amount
	Least money.Amount  // whole pennies; nil where nothing is proven, as of a timber that is short
	Gap   money.Percent // to 0.01, up
}

// Without says what is struck out of the stock for a second-best plan.
type Without struct {
	Stock string     // one line, or
	Form  rates.Form // all lines of the other forms: what is left is of this form alone
}

// Instead is what a timber of the order would come to with something struck out for
// the rows not bound to it: what a line is worth to the job, and so what may be said to
// who sells it.
type Instead struct {
	Timber  string
	Without Without
	Bound   Bound // of what is got
	Short   int   // pieces that are not to be had so
}

// Strikes reports a line struck out.
func (w Without) Strikes(s rates.Stock) bool {
	if w.Form != "" {
		return s.Form != w.Form
	}
	return rates.Same(s.Stock, w.Stock)
}

// Boards is what a class of logs would give sawn through and through into boards of one
// thickness, the middle one about the pith, each edged square and clear of sapwood: for
// looking at what a log is good for, whatever is cut from it.
type Boards struct {
	Stock           rates.Stock
	Top             measure.Length // diameter at the small end, bark off
	Length          measure.Length // ends trimmed
	Thickness, Kerf measure.Length
	Boards          []Board // from the top down
}

// Board is one board of a log. A width is 2 sqrt(r2 - y2) of the radius clear of sapwood and
// the farther face's distance from the pith, rounded down; nil where nothing is clear.
type Board struct {
	At     int            // boards from the middle one, upward
	Low    measure.Length // its lower face, from the pith upward
	Top    measure.Length // clear width at the small end
	Butt   measure.Length // and at the butt
	Length measure.Length // over which any of its width is clear, against the butt
}
