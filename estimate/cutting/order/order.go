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
	Order   []Line
	Maybe   []Line
	Shares  []Share   // by Ref, then by stock, then by section
	Species []Species // of the order, by timber
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
	Times int
	Cuts  []Cut
}

// Cut is one piece in a stick: its place from the butt end after trimming and
// from the lower edge with bark off and sapwood on, and its sawn size there.
// Thickness is what it takes of the stick's thickness, so that a piece turned on
// edge has its own sizes changed about. A sawn curve has the length and
// width of the oblong round it; curves nested in each other overlap as oblongs.
type Cut struct {
	Ref                      string
	Piece                    int // place in takeoff.Takeoff.Pieces
	Along, Across            measure.Length
	Length, Width, Thickness measure.Length
	Curve                    *takeoff.Curve // nil for a straight piece
}

// Got is how many of one piece's number come from a line.
type Got struct {
	Ref   string
	Piece int // place in takeoff.Takeoff.Pieces
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
}

// Short is a number of like pieces for which there is no stock.
type Short struct {
	Ref   string
	At    origin.Cell
	Piece int // place in takeoff.Takeoff.Pieces
	Count int
}

// Bound is the cost of the order beside what no order from the same stock could
// cost less than. Least rests on volume and face alone: every piece takes its own
// face and a saw-cut each way out of the face of a stick, at the least price for
// that among the lines that give the piece; timber by the cube is taken at its
// price for what is in the ship, and sticks that give one piece each are counted. It
// does not ask whether the pieces go together in whole sticks, so the true
// least cost lies between Least and Cost. Gap is (Cost - Least) / Cost.
type Bound struct {
	Cost  money.Amount
	Least money.Amount  // rounded down to the penny
	Gap   money.Percent // to 0.01, up
}
