package pdf

import (
	"cmp"
	"slices"
	"strconv"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/output/drawing"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/templates/wording"
)

// Timber is the timber order with the drawings for the sawmill and the saw bench:
// what is to be got from whom, how every stick is sawn, and what every member is
// cut from. There is no money in it. The same result makes the same bytes. It
// fails only where the library does.
func Timber(r estimate.Result) ([]byte, error) {
	t, err := layTimber(r)
	if err != nil {
		return nil, err
	}
	return t.paint()
}

// layTimber lays the document out, ready to be painted.
func layTimber(r estimate.Result) (*timber, error) {
	d, err := newDocument(r.Job.Paper)
	if err != nil {
		return nil, err
	}
	t := &timber{document: d, Result: r, members: map[string]*job.Member{}}
	d.title = d.short("Timber order and sawing drawings for "+r.Job.Vessel, longTitle)
	d.author = d.short(r.Job.Yard, longTitle)
	d.subject = d.short("Timber of tender "+r.Job.Reference, longTitle)
	d.vessel, d.foot = r.Job.Vessel, r.Job.Yard
	d.middle = "Timber, " + r.Job.Reference + ", " + day(r.Job.TenderDate)
	d.stamp = r.Job.TenderDate
	for i := range r.Job.Members {
		t.members[r.Job.Members[i].Ref] = &r.Job.Members[i]
	}
	t.frame = t.drawingFrame()
	t.numberThrough()

	t.front()
	t.reading()
	t.cautions()
	t.order()
	t.drawings()
	t.sources()
	t.byNumber()
	t.byCube()
	t.list()
	if t.replaced {
		t.y += 4
		t.say(aside, text("characters")...)
	}
	d.listContents()
	d.running()
	return t, nil
}

// timber is the document and what it is made of.
type timber struct {
	*document
	estimate.Result
	members map[string]*job.Member
	frame   drawing.Frame
	stock   []stockLine // by supplier, what may be wanted last
	cuts    map[int][]source
}

// stockLine is a line of the plan with the number of its first pattern.
type stockLine struct {
	order.Line
	first  int
	number []int // of each pattern, as they came to be drawn
}

// source is where some of a piece's number come from: so many from a pattern.
type source struct {
	line    int // in timber.stock
	pattern int // its number; nil for timber by the cube
	count   int
}

const (
	nobody = "No supplier named"
	owners = "Owner's timber: nothing to order, to be sawn as drawn"
	maybe  = "May be wanted"
)

// supplier is the heading a line stands under.
func supplier(l order.Line) string {
	switch {
	case l.Carried != job.Measured:
		return maybe
	case l.Stock.ByOwner:
		return owners
	}
	return cmp.Or(l.Stock.Supplier, nobody)
}

// outside says why timber may be wanted that is not ordered.
func outside(c job.Carried) string {
	if c == job.RateOnly {
		return "if it is ordered"
	}
	return string(c)
}

// numberThrough puts the lines in the order of the document and numbers their
// patterns through. Drawing may yet change their numbers within a line.
func (t *timber) numberThrough() {
	for _, l := range slices.Concat(t.Plan.Order, t.Plan.Maybe) {
		t.stock = append(t.stock, stockLine{Line: l})
	}
	last := func(l stockLine) int { return slices.Index([]string{nobody, owners, maybe}, supplier(l.Line)) }
	slices.SortStableFunc(t.stock, func(a, b stockLine) int {
		return cmp.Or(cmp.Compare(last(a), last(b)), cmp.Compare(rates.Key(supplier(a.Line)), rates.Key(supplier(b.Line))),
			cmp.Compare(rates.Key(a.Stock.Timber), rates.Key(b.Stock.Timber)))
	})
	next := 1
	for i := range t.stock {
		l := &t.stock[i]
		l.first = next
		for n := range l.Patterns {
			l.number = append(l.number, next+n)
		}
		next += len(l.Patterns)
	}
}

// sources finds for every piece the patterns it is cut in, once they are drawn
// and have their numbers.
func (t *timber) sources() {
	t.cuts = map[int][]source{}
	for i, l := range t.stock {
		for n, p := range l.Patterns {
			for _, c := range p.Cuts {
				list := t.cuts[c.Piece]
				if k := len(list) - 1; k >= 0 && list[k].pattern == l.number[n] {
					list[k].count += p.Times
				} else {
					list = append(list, source{i, l.number[n], p.Times})
				}
				t.cuts[c.Piece] = list
			}
		}
		if l.Stock.Form == rates.Cube {
			for _, g := range l.Got {
				t.cuts[g.Piece] = append(t.cuts[g.Piece], source{i, 0, g.Count})
			}
		}
	}
}

// drawingFrame is what the drawings are fitted to: a sheet on its side.
func (t *timber) drawingFrame() drawing.Frame {
	f := drawing.Frame{
		Type:  t.letters.Type,
		Width: t.wideWidth, Height: t.wideBottom - 50,
		LengthIn: measure.M, SizeIn: measure.Mm,
		Pieces: t.Plan.Pieces, Member: map[string]string{},
	}
	if u := t.Job.LengthsIn; u == measure.Ft || u == measure.In {
		f.LengthIn = measure.Ft
	}
	if u := t.Job.SizesIn; u == measure.Ft || u == measure.In {
		f.SizeIn = measure.In
	}
	for ref, m := range t.members {
		f.Member[ref] = m.Member
	}
	return f
}

// standing is a part of what the timber order says in words.
func (t *timber) standing(part string, pairs ...string) []string {
	return wording.Timber(part, pairs...)
}

// volume is a volume in the unit of the job.
func (t *timber) volume(m3 decimal.Decimal) string {
	u := t.Job.VolumeUnit()
	return quantity(measure.Of(m3, measure.M3).In(u, u.Places()), u)
}

// wanted is when the first work with a line's timber begins: its day, or weeks
// from the start; false where the programme does not say.
func (t *timber) wanted(l order.Line) (at time.Time, weeks decimal.Decimal, known bool) {
	for _, g := range l.Got {
		m := t.members[g.Ref]
		if m == nil {
			continue
		}
		name := t.Job.StageOf(m.Work)
		for _, s := range t.Programme.Stages {
			if !rates.Same(s.Stage.Stage, name) || known && s.Earliest.GreaterThanOrEqual(weeks) {
				continue
			}
			at, weeks, known = s.Start, s.Earliest, true
		}
	}
	return at, weeks, known
}

// stick is the size of a stick as the job writes sizes.
func (t *timber) stick(s rates.Stock) string {
	f := t.frame
	text := ""
	switch {
	case s.TopDiameter > 0:
		text = "top diameter " + f.Size(s.TopDiameter)
		if s.MidGirth > 0 {
			text += ", mid girth " + f.Size(s.MidGirth)
		}
		if s.Length > 0 {
			text += ", "
		}
	case s.MidGirth > 0:
		text = "mid girth " + f.Size(s.MidGirth)
		if s.Length > 0 {
			text += ", "
		}
	case s.Thickness > 0 && s.Width > 0:
		text = f.Sizes(s.Thickness, s.Width)
		if s.Length > 0 {
			text += " × "
		}
	case s.Thickness > 0:
		text = f.Size(s.Thickness) + " thick"
		if s.Length > 0 {
			text += ", "
		}
	}
	if s.Length > 0 {
		text += f.Length(s.Length)
		if s.Thickness == 0 || s.Width == 0 {
			text += " long"
		}
	}
	if s.Form == rates.Crook && s.Sweep > 0 {
		text += ", sweep " + f.Size(s.Sweep)
	}
	return text
}

// sticks is a number of sticks in words: 1 stick, 12 sticks.
func sticks(n int) string {
	if n == 1 {
		return "1 stick"
	}
	return strconv.Itoa(n) + " sticks"
}
