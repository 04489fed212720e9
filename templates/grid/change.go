package grid

import (
	"time"

	"github.com/shopspring/decimal"
)

// Change is one thing altered in a workbook that otherwise stays as it is:
// cells of a row get other values, or a new row goes under the last one.
type Change struct {
	Sheet string // its name; case does not matter
	Row   int    // of the cells; of a new row, the last row of data, under which it goes
	New   bool   // a new row directly under Row, or under those that earlier changes put there
	Put   []Put
}

// Put is what one cell of a Change gets.
type Put struct {
	Col    int  // counted from 1
	Kind   Kind // Number, Text or Date
	Number decimal.Decimal
	Text   string
	Day    time.Time
}

// PutNumber puts a number into a column.
func PutNumber(col int, d decimal.Decimal) Put { return Put{Col: col, Kind: Number, Number: d} }

// PutText puts a text into a column.
func PutText(col int, s string) Put { return Put{Col: col, Kind: Text, Text: s} }

// PutDay puts a day into a column.
func PutDay(col int, day time.Time) Put { return Put{Col: col, Kind: Date, Day: day} }
