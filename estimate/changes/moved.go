package changes

import (
	"slices"
	"strings"

	"futtock/estimate/bill"
	"futtock/rates/money"
)

// Part is where in the bill a line stands.
type Part string

// The parts of the bill, in their order.
const (
	Measured      Part = "measured work"
	Preliminaries Part = "preliminaries"
	SumLines      Part = "sums"
	Dayworks      Part = "dayworks"
	Contingency   Part = "contingency"
	PriceRises    Part = "price rises"
	Tax           Part = "VAT"
)

// Line is a line of the bill whose amount a step moves. Was or Now is nil where the bill
// did not have it.
type Line struct {
	Part        Part
	Ref         string // blank of a figure that is one for the whole bill; of VAT the code
	Description string
	Was, Now    money.Amount
	Moved       money.Amount // Now less Was
}

// Words is the line as documents name it.
func (l Line) Words() string {
	switch {
	case l.Part == Contingency:
		return "Contingency"
	case l.Part == PriceRises:
		return "Price rises"
	case l.Part == Tax:
		return strings.TrimSuffix("VAT "+l.Ref+", "+l.Description, ", ")
	case l.Part == Dayworks:
		return "Dayworks, " + l.Ref
	}
	return l.Description
}

// lineKey tells the lines of a bill apart.
type lineKey struct {
	part Part
	ref  string
	nth  int // of lines with one Ref
}

// figures is every line of a bill that its total is the sum of.
type figures struct {
	order []lineKey
	lines map[lineKey]Line
}

func (f *figures) add(part Part, ref, description string, a money.Amount) {
	k := lineKey{part, ref, 0}
	for _, seen := f.lines[k]; seen; _, seen = f.lines[k] {
		k.nth++
	}
	f.order = append(f.order, k)
	f.lines[k] = Line{Part: part, Ref: ref, Description: description, Now: a}
}

// figuresOf takes a bill apart.
func figuresOf(b bill.Bill) figures {
	f := figures{lines: map[lineKey]Line{}}
	for _, s := range b.Sections {
		for _, l := range s.Lines {
			if l.Carried.InTotal() {
				f.add(Measured, l.Ref, l.Description, l.Amount)
			}
		}
	}
	for _, l := range b.Preliminaries {
		f.add(Preliminaries, l.Ref, l.Description, l.Amount)
	}
	for _, l := range b.Sums {
		f.add(SumLines, l.Ref, l.Description, l.Total)
	}
	for _, l := range b.Dayworks {
		f.add(Dayworks, l.Of, "", l.Total)
	}
	f.add(Contingency, "", "", b.Held)
	f.add(PriceRises, "", "", b.Rises)
	for _, t := range b.VAT {
		f.add(Tax, t.Code, t.Meaning, t.VAT)
	}
	return f
}

// moved is the lines that two bills have otherwise, the largest move first. Together they come
// to the difference of the totals.
func moved(old, new bill.Bill) []Line {
	was, now := figuresOf(old), figuresOf(new)
	var out []Line
	add := func(l Line) {
		if l.Moved = l.Now.Sub(l.Was); !l.Moved.IsZero() {
			out = append(out, l)
		}
	}
	for _, k := range now.order {
		l := now.lines[k]
		l.Was = was.lines[k].Now
		add(l)
	}
	for _, k := range was.order {
		if _, stays := now.lines[k]; !stays {
			l := was.lines[k]
			l.Was, l.Now = l.Now, money.Amount{}
			add(l)
		}
	}
	slices.SortStableFunc(out, func(a, b Line) int {
		return b.Moved.Decimal().Abs().Cmp(a.Moved.Decimal().Abs())
	})
	return out
}
