package sheets

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/rates/measure"
	"futtock/templates/grid"
)

// Columns of the logs, of a class and of its boards.
const (
	logTop = iota + 2
	logSapwood
	logTaper
	logLength
	logThickness
	logKerf
)

const (
	boardAt = iota + 1
	boardLow
	boardHigh
	boardFar
	boardTop
	boardButt
	boardLength
)

// logs lays out what each class of logs gives sawn through and through, as formulas of its
// size, the thickness of the boards and the cut, which may be changed to see what another gives.
func (w *working) logs() {
	if len(w.Plan.Boards) == 0 {
		return
	}
	p := w.page(logSheet, "Logs sawn through and through", "What a log gives in boards of one thickness, the middle one about the heart, edged square and clear of sapwood: "+
		"a width is twice the root of the radius squared less the farther face's distance squared. Thickness and cut may be changed here. What is cut from the logs bought stands in Cutting.",
		34, 16, 16, 14, 15, 15, 15)
	for i, b := range w.Plan.Boards {
		if i > 0 {
			p.gap()
		}
		w.boards(p, b)
	}
	p.Print.Area = "$A$1:$G$" + itoa(p.next()-1)
}

// boards is one class of logs.
func (w *working) boards(p *page, b order.Boards) {
	p.add(append([]grid.Cell{words(b.Stock.Stock+", "+w.stickSize(b.Stock), band)}, blanks(boardLength-1, band)...)...)
	p.add(heads("", ">Top mm, bark off", ">Sapwood mm", ">Taper mm a metre", ">Length m, trimmed", ">Board mm", ">Cut mm")...)
	n := p.next()
	mm := func(l measure.Length) decimal.Decimal { return decimal.New(int64(l), -6) }
	p.add(words("The log, and the boards wanted of it", plain), figure(mm(b.Top), "0.0##"), figure(mm(b.Stock.Sapwood), "0.0##"), figure(mm(b.Stock.Taper), "0.0##"),
		figure(b.Length.Metres(), "0.000"), typed(mm(b.Thickness), "0.0##"), typed(mm(b.Kerf), "0.0##"))
	p.add(heads("Boards from the heart", ">Lower face mm", ">Upper face mm", ">Farther mm", ">Clear at top mm", ">Clear at butt mm", ">Clear length m")...)
	fixedAt := func(col int) string { return "$" + at(col, 1)[:1] + "$" + itoa(n) }
	thick, taper, long := fixedAt(logThickness), fixedAt(logTaper), fixedAt(logLength)
	top := "(" + fixedAt(logTop) + "/2-" + fixedAt(logSapwood) + ")"
	butt := "(" + top + "+" + taper + "*" + long + "/2)"
	for _, o := range b.Boards {
		r := p.next()
		far := at(boardFar, r)
		width := func(radius string) string {
			// The inner rounding, far finer than the saw, takes off the noise of binary
			// fractions, which would drop an exact 24.60 to 24.59.
			return "ROUNDDOWN(ROUND(2*SQRT(MAX(0," + radius + "*" + radius + "-" + far + "*" + far + ")),9),2)"
		}
		clear := long
		if b.Stock.Taper > 0 {
			clear = "MAX(0," + long + "-MAX(0,2*(" + far + "-" + top + ")/" + taper + "))"
		}
		low, high := mm(o.Low), mm(o.Low+b.Thickness)
		p.add(figure(decimal.New(int64(o.At), 0), "+0;-0;0"),
			live(at(boardAt, r)+"*("+thick+"+"+fixedAt(logKerf)+")-"+thick+"/2", low, "0.00"),
			live(at(boardLow, r)+"+"+thick, high, "0.00"),
			live("MAX(ABS("+at(boardLow, r)+"),ABS("+at(boardHigh, r)+"))", decimal.Max(low.Abs(), high.Abs()), "0.00"),
			live(width(top), mm(o.Top).Truncate(2), "0.00"), live(width(butt), mm(o.Butt).Truncate(2), "0.00"),
			live("ROUNDDOWN(ROUND("+clear+",12),3)", o.Length.Metres().Truncate(3), "0.000"))
	}
}
