package grid

import (
	"time"

	"github.com/shopspring/decimal"
)

// Book is a workbook to be written.
type Book struct {
	Sheets   []*Sheet
	Title    string    // document property
	Subject  string    // document property
	Creator  string    // document property
	Language string    // document property, such as "en-GB"
	Stamp    time.Time // created and modified; from the job, never the clock
	Names    []Name
}

// Name is a defined name of the workbook, such as a range a drop-down list reads.
type Name struct {
	Name  string
	Range string // "'Stages'!$A$5:$A$400"
}

// Sheet is one sheet to be written.
type Sheet struct {
	Name    string
	Columns []Width // by column, the first is A
	Rows    []Row   // the first is row 1
	Freeze  Freeze
	Lists   []List
	Bounds  []Bound
	Notes   []Note
	Merges  []string // "A1:F1"
	Shades  []Shade
	Print   Print
	Charts  []Chart
	Images  []Image
	Tab     string // RRGGBB, "" for none
	Filter  string // range of an autofilter, "" for none
	Locked  bool   // protect the sheet, without password; only cells of an Open style can be changed
	Close   bool   // plain rows are no higher than their letters need, so that a page holds a tenth more of them
	Above   bool   // the row an outline folds into stands above its detail, not below
}

// Width is a column's width in characters and whether it is hidden.
type Width struct {
	Chars  float64
	Hidden bool
}

// Row is one row to be written; Height in points, 0 for the writer to reckon
// from wrapped text.
type Row struct {
	Cells  []Cell
	Height float64
	Level  int  // outline level, 0 for none
	Grows  bool // its height is not fixed: it grows with what is typed into it
	Keep   bool // printed on the page of the row after it, where pages are as wide as the sheet
}

// Cell is one cell to be written. A Formula (without =) carries its stored
// result in the value beside it.
type Cell struct {
	Kind    Kind // Blank, Number, Text, Bool or Date
	Bool    bool
	Text    string
	Number  decimal.Decimal
	Day     time.Time
	Formula string
	Link    string // "'Bill'!A12" within the workbook, "" for none
	Style   Style
}

// Style is the look of a cell. The zero Style is plain body text.
type Style struct {
	Font   Font
	Fill   string // RRGGBB, "" for none
	Border Border
	Align  Align
	Top    bool // vertical: at the top rather than the bottom
	Wrap   bool
	Open   bool // may be changed when the sheet is locked
	Indent int
	Format string // number format code, "" for General
}

// Font is the part of a style that letters have.
type Font struct {
	Bold   bool
	Italic bool
	Size   float64 // points, 0 for the ordinary 10
	Colour string  // RRGGBB, "" for black
}

// Border says which edges have a line.
type Border uint8

// The lines a cell may have.
const (
	Hair   Border = 1 << iota // hairline below
	Under                     // thin line below
	Over                      // thin line above
	Double                    // double line below, for totals
	Box                       // thin line all round
)

// Align is how a cell's text stands across it.
type Align uint8

// The alignments; Auto is text left and numbers right.
const (
	Auto Align = iota
	Left
	Right
	Centre
)

// Freeze keeps rows and columns in view.
type Freeze struct{ Rows, Cols int }

// List is a drop-down list on a range of cells that reads another range.
type List struct {
	Range  string // "C5:C400"
	Source string // "'Lists'!$A$2:$A$9" or a defined name
	Strict bool   // refuse anything else; otherwise only warn
	Title  string // of the message
	Prompt string // shown when something else is typed
	Hint   string // shown when a cell is chosen, "" for none
}

// Bound lets a range of cells take numbers only, from Least to Most.
type Bound struct {
	Range       string // "E5:E400"
	Least, Most decimal.Decimal
	Title       string // of the message
	Prompt      string // shown when something else is typed
	Hint        string // shown when a cell is chosen, "" for none
}

// Note is a comment on a cell.
type Note struct {
	Cell string
	Text string
}

// Shade is conditional fill: cells of Range take Fill where Formula holds.
type Shade struct {
	Range, Formula, Fill string
}

// Chart is a picture of figures that stand in cells, drawn over a range of
// cells that are left free for it. Ranges name their sheet, as in
// "'Cash'!$A$9:$A$20", and run down one column.
type Chart struct {
	Kind    ChartKind
	Title   string
	Alt     string // what it shows, for who cannot see it
	Of      string // range of the names or figures along the axis
	OfTitle string // of that axis
	OnEnd   bool   // its labels stand on end, where there are many
	Series  []Series
	InTitle string // of the axis of the figures drawn
	FromNil bool   // that axis begins at nil, so that bars are as long as what they stand for
	Range   string // cells it covers, "A22:H40"
}

// Series is one row of bars or one line of a chart.
type Series struct {
	Name   string // cell of its heading, "'Cash'!$F$8"
	Values string
	Hidden bool // takes its room and is not drawn, as what a bar that floats stands on; the chart then has no legend
}

// ChartKind is how figures are drawn.
type ChartKind uint8

// The kinds of chart.
const (
	Columns ChartKind = iota // bars that stand
	Stacked                  // bars that lie, one series after another, the first name on top
	Lines
)

// Image is a picture that lies over cells left free for it, its top left corner
// at that of a cell.
type Image struct {
	Cell       string
	PNG        []byte
	Wide, High float64 // mm, as it is shown and printed
	Alt        string  // what it shows, for who cannot see it
}

// Print is the print set-up of a sheet.
type Print struct {
	Paper     Paper
	Landscape bool
	FitWidth  bool   // one page wide, as many high as it takes
	Repeat    string // heading rows printed on every page, "$1:$4"
	Area      string // "$A$1:$H$80", "" for all
	Header    string // in the spreadsheet's header code, such as "&L...&R&P of &N"
	Footer    string
	Breaks    []int // rows before which a new page begins
	Full      bool  // narrower head and foot, so that a page holds more
	OwnPaper  bool  // pages end by what its own paper holds, not by the least of both
}

// Paper is the size of sheet printed on.
type Paper uint8

// The papers.
const (
	A4 Paper = iota
	Letter
)

// Textual is a text cell.
func Textual(s string, style Style) Cell { return Cell{Kind: Text, Text: s, Style: style} }

// Numeric is a number cell.
func Numeric(d decimal.Decimal, style Style) Cell { return Cell{Kind: Number, Number: d, Style: style} }

// Reckoned is a formula cell with its stored numeric result.
func Reckoned(formula string, result decimal.Decimal, style Style) Cell {
	return Cell{Kind: Number, Number: result, Formula: formula, Style: style}
}

// Dated is a cell holding a day.
func Dated(day time.Time, style Style) Cell { return Cell{Kind: Date, Day: day, Style: style} }

// What a spreadsheet program has room for.
const (
	MostRows    = 1_048_576 // in a sheet
	MostColumns = 16_384
	MostText    = 32_767 // characters in a cell, those beyond the first plane counting twice
	MostFormula = 8_192  // characters in a formula
	MostLinks   = 65_529 // that lead from a sheet
)
