package xlsx

import "testing"

// A box for "x" is the least there is, 76 dots wide, and 26 high for its one line; with
// its 15 and 4 dots off the corner it ends after 91 and 30.
func TestABoxIsPlacedWhereItCanBeSeen(t *testing.T) {
	even := func(dots float64) func(int) float64 { return func(int) float64 { return dots } }
	for _, c := range []struct {
		name     string
		row, col int
		dots     func(int) float64
		want     string
	}{
		{"in the next column", 5, 3, even(100), "3, 15, 3, 4, 3, 91, 4, 10"},
		{"over several narrow ones", 5, 3, even(40), "3, 15, 3, 4, 5, 11, 4, 10"},
		{"before the cell, where all behind it are hidden", 5, 3, func(col int) float64 {
			if col > 3 {
				return 0
			}
			return 100
		}, "2, 15, 3, 4, 2, 91, 4, 10"},
		{"in the last column of the sheet", 1, lastColumn, even(100), "16383, 15, 0, 4, 16383, 91, 1, 10"},
		{"anywhere, where no column is seen", 5, 3, even(0), "0, 15, 3, 4, 200, 0, 4, 10"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := boxBeside(c.row, c.col, "x", c.dots, even(20)); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}
