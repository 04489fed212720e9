package xlsx

// place is a run of bytes of a part.
type place struct{ from, to int }

// there reports a place that was found.
func (p place) there() bool { return p.to > 0 }

// textPlace is a text of a part and where it stands; the text is decoded.
type textPlace struct {
	place
	text string
}

// rowPlace is where a row stands in its part.
type rowPlace struct {
	all, tag place
	hidden   bool
	cells    []cellPlace
}

// cellPlace is where a cell stands in its part.
type cellPlace struct {
	col      int
	tag      place
	all      place
	value    []place // its v and is
	style    string
	kind     string // its t
	valueKin bool   // it is bound to data about its value elsewhere in the file
}

// formulaCell is a cell that is reckoned. Its formula may stand in another
// cell: then it is shifted by what lies between.
type formulaCell struct {
	row, col int
	formula  *formulaText
}

// formulaText is a formula and the cell for which it is written.
type formulaText struct {
	row, col int
	text     string
	fixed    bool   // it is not shifted: it fills a range as a whole
	lost     string // why what it reads cannot be told, "" if it can
	parsed   *refs
}

// rule is a check on what is typed into cells; a list of it is a drop-down.
type rule struct {
	list   bool
	cells  textPlace // the ranges it is for
	source textPlace // the range or name a list reads
}

// scanned is a sheet's part with the places that may have to change.
type scanned struct {
	index   int // of the sheet
	sheet   sheetPart
	part    []byte
	wanted  []int // rows that are to be found, in rising order
	keep    func(row, col int) bool
	rows    map[int]*rowPlace
	gaps    map[int]int // where a wanted row would go that is not there
	size    place       // the tag that says how far the sheet goes
	data    place       // the tag before the rows
	filter  place       // the tag of a filter over the sheet's rows
	columns []columnStyle
	wide    float64         // figures across of a column that says nothing, 0 where that is not said
	high    float64         // points of a row that says nothing, likewise
	heights map[int]float64 // points of rows that say so; of hidden ones 0
	merges  []span
	rules   []rule

	formulas []formulaCell
	spread   []spreadFormula
	shared   map[int]*formulaText
	drops    []edit // stored results that go

	row, end int // the row being read; where the one before ends
}

// columnStyle is the style of columns in which a row says nothing, and how many
// figures they are wide, 0 where that is not said.
type columnStyle struct {
	from, to int
	style    string
	wide     float64
	hidden   bool
}

// spreadFormula is a formula whose results fill a range.
type spreadFormula struct {
	area    span
	formula *formulaText
}
