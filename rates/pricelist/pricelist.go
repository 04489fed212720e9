// Package pricelist sets a supplier's list of prices against the price book.
//
// What comes in is the lines of the list as they were read, each with its key,
// its price, what the price is for one of, and its cell. What goes out is a Move
// for every line: the row of the price book it is of, the price that holds there,
// the new price for one of the yard's own unit, how it was converted, the change
// in per cent, and what is to be done. Nothing is written here.
//
// The rule: a price in the yard's own unit is taken as it stands in the list. Any
// other is converted once, exactly but for one rounding at the end, to as many
// places as the yard's own price has, at least two and at most four, and to four
// where it comes to less than one. Units of one
// dimension go by their sizes (rates/measure); what needs a stick, such as a price
// for each or by the Hoppus foot, goes by that stick's own measure.
//
// One figure worked: 45.00 a cubic foot is 45 / 0.028316846592 = 1,589.16 a cubic
// metre. Against 1,540.00 that is 3.2 % up.
package pricelist

import (
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// Line is one line of a list.
type Line struct {
	At       origin.Cell // the cell of the key
	PriceAt  origin.Cell
	UnitAt   origin.Cell // the cell of the unit; that of the price where the heading names it
	Key      string
	Price    decimal.Decimal
	Percent  bool // the price is shown as a percentage
	Of       Gives
	Per      Per
	From     time.Time // the day it holds from; zero where the list does not say
	Supplier string    // blank where the list does not say
}

// Gives is what a list's heading says its prices are, where the yard keeps two
// sorts of them.
type Gives string

// What the price of a trade may be.
const (
	GivesPay  Gives = "pay"
	GivesRate Gives = "rate"
)

// Sheet is a sheet of the price book that a list may be of.
type Sheet string

// The sheets.
const (
	Stock       Sheet = "Stock"
	Materials   Sheet = "Materials"
	Plant       Sheet = "Plant"
	Subcontract Sheet = "Subcontract"
	Labour      Sheet = "Labour"
	VAT         Sheet = "VAT"
)

// Sheets is the closed list in its printed order.
func Sheets() []Sheet { return []Sheet{Stock, Materials, Plant, Subcontract, Labour, VAT} }

// Terms is how a list is to be taken.
type Terms struct {
	Sheet     Sheet         // the one sheet its keys are looked up in; blank is all of them
	From      time.Time     // the day all its prices hold from; it goes before what the lines say
	Limit     money.Percent // a change by more is held back
	Confirmed []string      // keys that are changed all the same
}

// State is what is to be done with a line.
type State string

// The states. Only Up and Down are written.
const (
	Same      State = "same"
	Up        State = "up"
	Down      State = "down"
	Held      State = "held back"
	Unmatched State = "not matched"
	Several   State = "in several sheets"
	Twice     State = "twice in the list"
	Unlike    State = "not converted"
	NoDay     State = "no day"
)

// Move is what a line of a list does to the price book.
type Move struct {
	Line   Line
	State  State
	Why    string // of what is held back or cannot be done; lower case, no full stop
	Near   string // the nearest key to one that is not there
	Sheet  Sheet
	Key    string      // as the price book spells it
	Column string      // the heading under which the price stands
	Row    origin.Cell // the key's cell in the row that holds on the day, or that is followed
	Old    decimal.Decimal
	Since  time.Time // the day the old price holds from
	Fresh  bool      // no price of the key holds on the day
	New    decimal.Decimal
	Unit   measure.Unit // what both prices are for one of; blank of a trade's hour and of VAT
	How    string       // the conversion in words; blank where there was none
	Change money.Percent
	From   time.Time // the day of the new row; zero where the cell itself changes
	// Supplier is who the list says sells it, where the row names another.
	Supplier string
}

// Writes reports a move that changes the workbook.
func (m Move) Writes() bool { return m.State == Up || m.State == Down }

// Match sets every line against the price book, in the order of the list. The
// book is not changed.
func Match(b *rates.Book, lines []Line, t Terms) []Move {
	all := rowsOf(b)
	if t.Sheet != "" {
		all = slices.DeleteFunc(all, func(r row) bool { return r.sheet != t.Sheet })
	}
	var keys []string
	found := map[string][]row{}
	for _, r := range all {
		k := rates.Key(r.key)
		if found[k] == nil {
			keys = append(keys, r.key)
		}
		found[k] = append(found[k], r)
	}
	out := make([]Move, len(lines))
	for i, l := range lines {
		rows := found[rates.Key(l.Key)]
		if len(rows) == 0 {
			out[i] = Move{Line: l, State: Unmatched, Near: problem.Nearest(l.Key, keys)}
			continue
		}
		out[i] = moved(l, rows, t)
	}
	agreed(out)
	return out
}

// moved is the move of a line whose key has rows.
func moved(l Line, rows []row, t Terms) Move {
	m := Move{Line: l, Sheet: rows[0].sheet, Key: rows[0].key}
	for _, r := range rows {
		if r.sheet != m.Sheet {
			m.State, m.Why = Several, "it stands in "+string(m.Sheet)+" and in "+string(r.sheet)
			return m
		}
	}
	day := t.From
	if day.IsZero() {
		day = l.From
	}
	dated := slices.ContainsFunc(rows, func(r row) bool { return !r.from.IsZero() })
	if dated && day.IsZero() {
		m.State, m.Why = NoDay, "its rows are dated, and no day is given"
		return m
	}
	r, later := rows[0], time.Time{}
	if dated {
		r, later, m.Fresh = onDay(rows, day)
	}
	m.Key, m.Row, m.Since = r.key, r.at, r.from
	if r.supplier != "" && l.Supplier != "" && !rates.Same(r.supplier, l.Supplier) {
		m.Supplier = l.Supplier
	}
	c, why := r.charge(l)
	if why == "" {
		m.Column, m.Unit, m.Old = c.column, c.unit, c.old
		m.New, m.How, why = converted(l, c)
	}
	if why != "" {
		m.State, m.Why = Unlike, why
		return m
	}
	if dated && (m.Fresh || !r.from.Equal(day)) {
		m.From = day
	}
	m.judge(r.supplier, later, t)
	return m
}

// onDay is the row that holds on a day, and the day of the next after it, where
// there is one. Where none holds, it is the earliest, and true.
func onDay(rows []row, day time.Time) (in row, later time.Time, none bool) {
	first, none := rows[0], true
	for _, r := range rows {
		if r.from.Before(first.from) {
			first = r
		}
		switch {
		case r.from.After(day):
			if later.IsZero() || r.from.Before(later) {
				later = r.from
			}
		case none || r.from.After(in.from):
			in, none = r, false
		}
	}
	if none {
		in = first
	}
	return in, later, none
}

// judge says which way the price goes, and holds back what is likely a slip.
func (m *Move) judge(supplier string, later time.Time, t Terms) {
	hundred := decimal.New(100, 0)
	by := m.New.Sub(m.Old)
	if m.Old.Sign() > 0 && !m.Fresh {
		m.Change = money.NewPercent(by.Mul(hundred).DivRound(m.Old, 1))
	}
	m.State = Up
	if by.Sign() < 0 {
		m.State = Down
	}
	over := by.Abs().Mul(hundred).GreaterThan(m.Old.Mul(t.Limit.Decimal()))
	switch {
	case !m.Fresh && by.IsZero():
		m.State = Same
		return
	case m.Supplier != "":
		m.Why = "the row is of " + supplier + ", and the list of " + m.Supplier
	case m.Fresh:
		m.Why = "no price of it holds on that day, only from " + m.Since.Format(time.DateOnly)
	case !later.IsZero():
		m.Why = "a row from " + later.Format(time.DateOnly) + " follows"
	case m.Old.IsZero():
		m.Why = "it has had no price"
	case m.New.IsZero():
		m.Why = "it would cost nothing"
	case over:
		m.Why = "more than " + t.Limit.String()
	default:
		return
	}
	if !slices.ContainsFunc(t.Confirmed, func(k string) bool { return rates.Same(k, m.Key) }) {
		m.State = Held
	}
}

// day is the day from which the new price will hold; zero is from the beginning.
func (m Move) day() time.Time {
	if m.From.IsZero() {
		return m.Since
	}
	return m.From
}

// agreed finds lines that are of one price and day: of several at one price the
// first stands, and of several at unlike prices none.
func agreed(moves []Move) {
	type of struct {
		sheet       Sheet
		key, column string
		day         time.Time
	}
	at := map[of][]int{}
	for i, m := range moves {
		if m.Column == "" || m.State == Unlike {
			continue
		}
		k := of{m.Sheet, rates.Key(m.Key), m.Column, m.day()}
		first := at[k]
		at[k] = append(first, i)
		for _, j := range first {
			if !moves[j].New.Equal(m.New) {
				moves[i].State, moves[j].State = Twice, Twice
			}
		}
		if len(first) > 0 && moves[i].State != Twice {
			moves[i].State, moves[i].Why = Same, "the list has it twice, at one price"
		}
	}
	for i := range moves {
		if moves[i].State == Twice {
			moves[i].Why = "the list has it at unlike prices"
		}
	}
}
