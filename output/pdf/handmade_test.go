package pdf

import (
	"fmt"
	"math"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// bench is a plan being made by hand, sizes in millimetres.
type bench struct{ estimate.Result }

func long(n int) measure.Length { return measure.Length(n) * measure.Millimetre }

// piece is a new piece of a member of its own.
func (b *bench) piece(ref string, t, w, l int, c *takeoff.Curve) int {
	b.Plan.Pieces = append(b.Plan.Pieces, takeoff.Piece{Ref: ref, Timber: "oak", Count: 1, Thickness: long(t), Width: long(w), Length: long(l), Curve: c, Carried: job.Measured, Shape: job.Square})
	b.Job.Members = append(b.Job.Members, job.Member{Work: job.Work{Ref: ref}, Member: "Member " + ref, Side: "both"})
	return len(b.Plan.Pieces) - 1
}

func (b *bench) cut(piece, along, across, through int) order.Cut {
	p := b.Plan.Pieces[piece]
	c := order.Cut{Ref: p.Ref, Piece: piece, Along: long(along), Across: long(across), Through: long(through), Length: p.Length, Width: p.Width, Thickness: p.Thickness, Curve: p.Curve}
	if p.Curve != nil {
		c.Width += p.Curve.Sweep
	}
	return c
}

// buy puts a line into the order, sawn by these patterns.
func (b *bench) buy(s rates.Stock, patterns ...order.Pattern) {
	l := order.Line{Stock: s, Carried: job.Measured, Patterns: patterns}
	count := map[int]int{}
	n := 0
	for _, p := range patterns {
		n += p.Times
		for _, c := range p.Cuts {
			count[c.Piece] += p.Times
		}
	}
	for i, p := range b.Plan.Pieces {
		if count[i] > 0 {
			l.Got = append(l.Got, order.Got{Ref: p.Ref, Piece: i, Count: count[i]})
		}
	}
	l.Buy = decimal.New(int64(n), 0)
	b.Plan.Order = append(b.Plan.Order, l)
}

func newBench(lengths, sizes measure.Unit) *bench {
	b := &bench{}
	b.Job.Vessel, b.Job.Yard, b.Job.Reference, b.Job.TenderDate = "Handmade", "A yard", "H-1", time.Date(2026, 1, 2, 0, 0, 0, 0, time.UTC)
	b.Job.LengthsIn, b.Job.SizesIn, b.Job.VolumesIn = lengths, sizes, measure.M3
	b.Book.Timber = []rates.Timber{{Timber: "oak", Kerf: long(4)}}
	return b
}

// Handmade is a job with a log sawn through and through, a log round a baulk, a crook
// in layers, and a waney flitch of many small pieces.
func Handmade(lengths, sizes measure.Unit) estimate.Result {
	b := newBench(lengths, sizes)
	log := rates.Stock{Stock: "oak log 600", Timber: "oak", Form: rates.Log, TopDiameter: long(600), Taper: long(10), Length: long(5300), Bark: long(15), Sapwood: long(25), EndTrim: long(100), Supplier: "Mill"}
	var p order.Pattern
	p.Times = 2
	n := 0
	for z := -230; z+54 < 260; z += 58 {
		far := math.Max(math.Abs(float64(z)), math.Abs(float64(z+54)))
		x := -int(math.Sqrt(260*260 - far*far))
		for range -2 * x / 154 {
			n++
			p.Cuts = append(p.Cuts, b.cut(b.piece(fmt.Sprint("PL", n), 54, 150, 5100, nil), 0, x, z))
			x += 154
		}
	}
	p.Offcuts = []order.Offcut{{Across: long(120), Through: long(-230), Length: long(2000), Width: long(100), Thickness: long(54)}}
	b.buy(log, p)

	log.Stock, log.TopDiameter, log.Length = "oak log 450", long(450), long(7000)
	side := b.piece("CE1", 40, 180, 4000, nil)
	onEdge := b.cut(side, 0, 129, -90)
	onEdge.Width, onEdge.Thickness = onEdge.Thickness, onEdge.Width
	b.buy(log, order.Pattern{Times: 1, Cuts: []order.Cut{b.cut(b.piece("KE1", 250, 250, 6700, nil), 0, -125, -125), b.cut(side, 0, -90, 129), b.cut(side, 0, -90, -169), onEdge}})

	curve := &takeoff.Curve{Chord: long(1800), Sweep: long(175)}
	f4, f5 := b.piece("FR4", 70, 110, 1920, curve), b.piece("FR5", 70, 110, 1920, curve)
	crook := rates.Stock{Stock: "oak crook", Timber: "oak", Form: rates.Crook, Thickness: long(160), Width: long(320), Length: long(2300), Sweep: long(300), Bark: long(10), Sapwood: long(20), EndTrim: long(50), Supplier: "Wood"}
	b.buy(crook, order.Pattern{Times: 3, Cuts: []order.Cut{b.cut(f4, 0, 0, 0), b.cut(f5, 0, 124, 0), b.cut(f5, 0, 0, 74)}})

	flitch := rates.Stock{Stock: "waney flitch", Timber: "oak", Form: rates.Flitch, Thickness: long(100), Width: long(500), Length: long(4000), Sapwood: long(30), Bark: long(15), Taper: long(10), EndTrim: long(75), Supplier: "Mill"}
	p = order.Pattern{Times: 1}
	for i := range 12 {
		for j := range 5 {
			p.Cuts = append(p.Cuts, b.cut(b.piece(fmt.Sprintf("TR%c%d", 'a'+i, j), 96, 70, 290, nil), i*294, 32+j*74, 0))
		}
	}
	b.buy(flitch, p)

	b.buy(rates.Stock{Stock: "oak knee", Timber: "oak", Form: rates.Knee, Thickness: long(140), Width: long(260), Length: long(950), Supplier: "Wood"},
		order.Pattern{Times: 4, Cuts: []order.Cut{b.cut(b.piece("KN1", 125, 220, 850, nil), 0, 0, 0)}})
	return b.Result
}

// ManyPatterns is a job of so many patterns, each of a few lengths of plank.
func ManyPatterns(n int) estimate.Result {
	b := newBench(measure.M, measure.Mm)
	var patterns []order.Pattern
	for i := range n {
		var cuts []order.Cut
		for k := range 1 + i%7 {
			cuts = append(cuts, b.cut(b.piece(fmt.Sprintf("S%d.%d", i, k), 50, 60+i%40, 900, nil), k*904, i%3*70, 0))
		}
		patterns = append(patterns, order.Pattern{Times: 1 + i%4, Cuts: cuts})
	}
	b.buy(rates.Stock{Stock: "oak plank", Timber: "oak", Form: rates.Plank, Thickness: long(54), Width: long(260), Length: long(6500), EndTrim: long(50)}, patterns...)
	return b.Result
}
