package pdf

import (
	"strconv"
	"strings"

	"futtock/estimate/quotes"
)

// step is one row of tables that have a column for each firm.
type step struct {
	kind rowKind
	text string
	bill cell // of the bill itself
	of   func(quotes.Offer) cell
	by   []cell // by offer, where there is no of
}

func (s step) at(i int, o quotes.Offer) cell {
	if s.of != nil {
		return s.of(o)
	}
	return s.by[i]
}

// Widths of tables with a column for each firm, in mm: the least for what the
// rows are, and the most for a firm.
const (
	leastSteps = 46.0
	mostFirm   = 33.0
)

// sideBySide sets rows with a column for each firm, as many tables under one
// another as it takes for their figures to have room. With bill, which names
// its column, the bill stands before them.
func (r *report) sideBySide(name string, steps []step, bill *string, paragraphs ...string) {
	widest := 15.0
	look := func(c cell) {
		for _, p := range c.paras {
			if p.style.face != italic {
				widest = max(widest, r.letters.width(r.clean(p.text), p.style))
			}
		}
	}
	for _, s := range steps {
		look(s.bill)
		for i, o := range r.Offers {
			look(s.at(i, o))
		}
	}
	own := 0
	if bill != nil {
		own = 1
	}
	each := widest + 2*gutter + 0.3
	per := max(1, int((r.width-leastSteps)/each)-own)
	tables := (len(r.Offers) + per - 1) / per
	if tables == 0 {
		return
	}
	per = (len(r.Offers) + tables - 1) / tables
	each = max(each, min(mostFirm, (r.width-leastSteps)/float64(per+own)))
	for from := 0; from < len(r.Offers); from += per {
		to := min(from+per, len(r.Offers))
		columns := []column{{head: "", share: 1}}
		if bill != nil {
			columns = append(columns, column{head: *bill, align: flush, wide: each})
		}
		for i := from; i < to; i++ {
			columns = append(columns, column{head: r.columnHead(i, each-2*gutter), align: flush, wide: each})
		}
		table := r.table(columns...)
		table.band = name
		for _, s := range steps {
			text := cellText
			if s.kind != plainRow {
				text = cellBold
			}
			cells := []cell{styled(s.text, text, 1)}
			if bill != nil {
				cells = append(cells, s.bill)
			}
			for i := from; i < to; i++ {
				cells = append(cells, s.at(i, r.Offers[i]))
			}
			table.add(s.kind, cells...)
		}
		if from == 0 {
			r.keep(table, paragraphs...)
			r.headed(name+r.inCurrency(), table, paragraphs...)
		} else {
			r.keep(table)
			table.set()
		}
	}
}

// keep turns the page unless the whole of a table that is no deeper than half a
// page has room, and a heading over it.
func (r *report) keep(table *table, paragraphs ...string) {
	table.depth()
	deep := table.height(table.heads) + 2
	for _, c := range table.cells {
		deep += table.height(c)
	}
	if deep < (r.bottom-top)/2 {
		for _, p := range paragraphs {
			deep += float64(len(r.lines(p, body, r.width-clauseIn)))*body.pitch() + 2
		}
		r.need(deep + headDeep)
	}
}

// columnHead is a firm at the head of a column: its number, and as much of its
// name as three lines hold. In full it stands in the table of what came back.
func (r *report) columnHead(i int, w float64) string {
	var fit []string
	for word := range strings.FieldsSeq(r.clean(r.Offers[i].Name)) {
		fit = append(fit, r.letters.shorten(word, cellHead, w))
	}
	lines := r.lines(strings.Join(fit, " "), cellHead, w)
	if len(lines) > 3 {
		lines = append(lines[:2], r.letters.shorten(strings.Join(lines[2:], " "), cellHead, w))
	}
	return strconv.Itoa(i+1) + "\n" + strings.Join(lines, "\n")
}
