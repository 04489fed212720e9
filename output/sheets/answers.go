package sheets

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Answers is what is typed into a form, or into the form for a letter. A cell
// has what was typed and no style; one that is blank was left so.
type Answers struct {
	Lines          map[string]Answer       // by the id of the line
	Sections       map[string]money.Amount // totals of measured work typed over their formulas
	Offer          map[string]grid.Cell    // by what is asked of the whole: bill.AskFirm and the like
	Qualifications []Qualified             // no more than there is room for
}

// Answer is what is typed for one line; which of it is asked hangs on its part.
type Answer struct {
	Rate       grid.Cell
	Once       grid.Cell  // of a preliminary: what is paid once
	Time       grid.Cell  // of a preliminary whose time is open
	Sum        grid.Cell  // of a quotation; of a letter that for the line, section or part
	Profit     grid.Cell  // of a sum: a fraction
	Attendance grid.Cell  // of a sum
	Addition   grid.Cell  // of a daywork that is a sum of money: a fraction
	Amount     *grid.Cell // typed over the formula, which a blank one takes away; nil where the formula stands
	Choice     string     // in place of a rate
	Remark     string
	Text       string // of a letter: what it puts in
}

// Qualified is one qualification with the item it is of and what it would add.
type Qualified struct {
	Of, Text string
	Amount   grid.Cell
}

// in puts an answer into the cell that asks for it.
func in(asks, answer grid.Cell) grid.Cell {
	answer.Style = asks.Style
	return answer
}

// said is an answer in words.
func said(text string) grid.Cell {
	if text == "" {
		return grid.Cell{}
	}
	return words(text, grid.Style{})
}

// numberIn is the number typed into a cell, nil where there is none.
func numberIn(c grid.Cell) decimal.Decimal {
	if c.Kind != grid.Number {
		return decimal.Decimal{}
	}
	return c.Number
}

// times is round(quantity x rate, 2).
func (a Answer) times(quantity decimal.Decimal) money.Amount {
	return money.Round(quantity.Mul(numberIn(a.Rate)))
}

// amount is the cell of a line's amount, as it is reckoned or as it was typed
// over, and what it comes to.
func (a Answer) amount(reckoned grid.Cell) (grid.Cell, money.Amount) {
	c := reckoned
	if a.Amount != nil {
		c = in(reckoned, *a.Amount)
	}
	return c, money.Round(numberIn(c))
}

// answered takes in a line that comes to an amount; it is still to be priced while
// all that would settle it is blank.
func (c *carried) answered(comes money.Amount, settle ...grid.Cell) {
	c.stored = c.stored.Add(comes)
	for _, s := range settle {
		if s.Kind != grid.Blank {
			return
		}
	}
	c.left++
}

// totalled is the cell of a section's total, as it is reckoned or as it was typed
// over, and what it comes to.
func (l *form) totalled(section string, reckoned grid.Cell) (grid.Cell, money.Amount) {
	if typed, over := l.answers.Sections[section]; over {
		reckoned = in(reckoned, grid.Numeric(typed.Decimal(), grid.Style{}))
	}
	return reckoned, money.Round(reckoned.Number)
}

// beside is the cell beside a question of the whole, with its answer.
func (a Answers) beside(question string, asks grid.Cell) grid.Cell {
	if answer, ok := a.Offer[question]; ok && asks.Style.Open {
		return in(asks, answer)
	}
	return asks
}

// differs is what the total that is stated has beyond another; nil where none is.
func (a Answers) differs(from money.Amount) money.Amount {
	stated := a.Offer[bill.AskTotal]
	if stated.Kind != grid.Number {
		return money.Amount{}
	}
	return money.Round(stated.Number.Sub(from.Decimal()))
}

// asides is what the qualifications come to.
func (a Answers) asides() money.Amount {
	var all money.Amount
	for _, q := range a.Qualifications {
		all = all.Add(money.Round(numberIn(q.Amount)))
	}
	return all
}

// qualified lays out the rows for qualifications.
func (l *form) qualified(p *page) {
	for n := range qualifications {
		var q Qualified
		if n < len(l.answers.Qualifications) {
			q = l.answers.Qualifications[n]
		}
		l.row(p, in(openText(), said(q.Of)), in(openText(), said(q.Text)), in(open(moneyFormat), q.Amount))
	}
}
