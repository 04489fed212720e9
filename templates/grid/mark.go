package grid

// Mark is a note put on a cell of a workbook that otherwise stays as it is, and
// the colour that the cell gets.
type Mark struct {
	Sheet    string // its name; case does not matter
	Row, Col int
	Note     string // goes below what a note on the cell says already
	Fill     string // RRGGBB
}
