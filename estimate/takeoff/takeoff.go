// Package takeoff turns the schedule of members into what has to be got and
// done: for every row its drivers (lengths, areas, volumes, seams, fastenings,
// joints, weight) and, where new timber goes in, the pieces with their least
// sawn sections.
//
// In come the job and its price book; out come measured rows, pieces of timber
// for cutting to find, and what is wrong. Finished sizes grow to the least
// section that can be sawn, by planing, by drying (Wood Handbook, FPL-GTR-282,
// equation 4-9: shrinkage is a straight line from 30 % moisture to oven-dry) and
// by the bevel. A run of length L in n pieces with scarphs of length s takes
//
//	L + (n-1) s, and one s more for each joint to old work,
//
// and n is the least for which every piece fits Longest piece and the longest
// usable stick. A keel of 100 ft, moulded 15 in, in three pieces with scarphs
// of five times its depth takes 100 + 2 x 6.25 = 112.5 ft, or 37 ft 6 in a piece.
//
// Lengths stay whole nanometres, areas and volumes exact decimals. Only arcs
// and bevels are reckoned in floating point, in arc.go, and rounded up there to
// 0.01 mm; so is a section that drying has made larger.
package takeoff

import (
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// Takeoff is the schedule measured. Rows stand by Ref, members and items
// together; Pieces by Ref, then by their number within the row.
type Takeoff struct {
	Rows   []Row
	Pieces []Piece
}

// Row is one line of the schedule, measured.
type Row struct {
	Work       job.Work
	Member     *job.Member // nil for an item
	Item       *job.Item   // nil for a member
	Amounts    map[rates.Driver]measure.Quantity
	Fastenings []Fastened     // by rule row
	Growth     Growth         // of the section of new timber; nil where none goes in
	Along      measure.Length // of one run with its joints to old work; of a curved run round its concave edge
	PiecesEach int            // pieces in one run; 1 where it is not a run
	ScarphLen  measure.Length // of one scarph; nil where there is none
	Crossings  int            // of one piece or run; nil where no fastening rule asks
}

// Amount is a driver of the row, exact. It returns false where the row does
// not have it, such as a volume of an item measured in hours.
func (r Row) Amount(d rates.Driver) (measure.Quantity, bool) {
	q, ok := r.Amounts[d]
	return q, ok
}

// Fastened is what one row of a fastening rule comes to.
type Fastened struct {
	Rule     rates.Fastening
	Number   decimal.Decimal // whole fastenings for the row
	Material string
}

// Piece is a number of like pieces of new timber of one row.
type Piece struct {
	Ref       string
	At        origin.Cell // the row's Ref
	LengthAt  origin.Cell
	Carried   job.Carried
	Timber    string
	TimberAt  origin.Cell
	Stock     string // bound to this stock line, or blank
	StockAt   origin.Cell
	Shape     job.Shape
	Heart     job.Heart
	Sapwood   bool
	Count     int              // Nr times the pieces of a run
	Thickness measure.Length   // least sawn
	Width     measure.Length   // least sawn, of the piece itself without sweep
	Length    measure.Length   // of stock needed, ends square, scarphs within
	Curve     *Curve           // nil for a straight piece
	Run       *Run             // what may be chosen of their lengths; nil where Length is fixed
	Of        int              // which of the row's runs they are of, from 1, where their length was chosen; else nil
	Net       measure.Quantity // finished volume of all Count pieces, m3, a scarph counted once
	Sawn      decimal.Decimal  // volume of all Count pieces, Thickness x Width x Length, m3 to 0.000001
}

// Run is the leave that cutting has with the pieces of a straight run of several,
// where the row gives its Shortest piece and does not box the heart: each may be any length within the bounds,
// so long as those of one run come to Along. The Length of the Piece is then their mean.
type Run struct {
	Runs     int            // alike, of the row
	Pieces   int            // in one
	Along    measure.Length // of the pieces of one run together, scarphs within
	Shortest measure.Length
	Longest  measure.Length // nil where only the stock sets a limit
}

// Measure measures every row of the schedule. Rows and pieces come sorted by
// Ref, whatever the order of the workbook. A row with a problem is measured as
// far as it can be; without a section or a stick it has no pieces.
func Measure(j *job.Job, b *rates.Book) (Takeoff, problem.List) {
	return newSchedule(j, b).measure()
}

// Unpriced measures the schedule for a bill that others are to price. They find
// the timber and choose how it is fastened and built, so that no stock limits
// a run and no build-up or fastening rule asks for anything; what a bill is
// measured by (number, length, area, volume, weight) comes out as Measure has it.
func Unpriced(j *job.Job, b *rates.Book) (Takeoff, problem.List) {
	s := newSchedule(j, &rates.Book{Timber: b.Timber, Stock: b.Stock})
	s.anyStick = true
	return s.measure()
}

// measure measures every row and sorts what comes out.
func (s *schedule) measure() (Takeoff, problem.List) {
	j := s.job
	var t Takeoff
	for i := range j.Members {
		row, pieces := s.member(&j.Members[i])
		t.Rows = append(t.Rows, row)
		t.Pieces = append(t.Pieces, pieces...)
	}
	for i := range j.Items {
		t.Rows = append(t.Rows, item(&j.Items[i]))
	}
	slices.SortStableFunc(t.Rows, func(a, b Row) int { return job.CompareRefs(a.Work.Ref, b.Work.Ref) })
	slices.SortStableFunc(t.Pieces, func(a, b Piece) int { return job.CompareRefs(a.Ref, b.Ref) })
	return t, s.problems
}
