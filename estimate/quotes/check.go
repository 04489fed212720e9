package quotes

import "futtock/rates/money"

// checked is one quote examined and corrected, before it is levelled. Its
// cells stand for the lines of the bill in their order.
type checked struct {
	quote      *Quote
	cells      []Cell                  // Offered, AsTendered, Corrected, State and Why; of measured work Rate, with value added tax as the firm has it
	lumps      map[string]money.Amount // sum of money for a section of measured work, by its key, or for a part; of a letter
	extra      []*Offered              // lines that the firm put in, with their money
	findings   []Finding
	asTendered money.Amount
	corrected  money.Amount // cells in the total, lumps and extra
	outOfScope money.Amount // of extra
}
