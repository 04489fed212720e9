package xlsx

import "fmt"

// Refusal is why changes to a workbook were not made. Nothing of them was.
type Refusal struct {
	Why         Reason
	Sheet, Cell string // where the change was to be made; Cell is "" where it is the whole sheet
	BySheet, By string // the cell that stands against it, "" where there is none
	Detail      string // what is there, "" where the reason says all
}

// Reason is the kind of a Refusal.
type Reason uint8

// The reasons.
const (
	Reckoned    Reason = iota // the cell holds a formula
	Occupied                  // something stands in the way
	Dependent                 // a cell that is read is reckoned from the changed one
	Untraceable               // whether it is cannot be told
	Sealed                    // the workbook or table must not be changed from outside
	Absent                    // there is no such sheet or row
	Unfit                     // a cell cannot hold what is to be put
	Unsure                    // the file is laid out so that it could not be kept as it is
)

// Error says which cell cannot be changed and why.
func (r *Refusal) Error() string {
	at := fmt.Sprintf("%q", r.Sheet)
	if r.Cell != "" {
		at = r.Sheet + "!" + r.Cell
	}
	by := r.BySheet + "!" + r.By
	switch r.Why {
	case Reckoned:
		return fmt.Sprintf("%s holds a formula, which is not written over", at)
	case Occupied:
		if r.By == "" {
			return fmt.Sprintf("there is no room at %s: %s", at, r.Detail)
		}
		return fmt.Sprintf("there is no room at %s: %s at %s", at, r.Detail, by)
	case Dependent:
		return fmt.Sprintf("%s cannot be changed: %s is reckoned from it, and its stored result would no longer be true", at, by)
	case Untraceable:
		return fmt.Sprintf("%s cannot be changed: %s may be reckoned from it, which cannot be told because of %s", at, by, r.Detail)
	}
	return fmt.Sprintf("%s cannot be changed: %s", at, r.Detail)
}
