package verify

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

var (
	hundred = decimal.New(100, 0)
	grain   = decimal.New(1, -6) // a millionth, to which volumes and the cube are carried
)

// bought checks what is needed, what is bought and what it costs.
func (r *reading) bought(l order.Line, cut []int) {
	sticks := 0
	for _, p := range l.Patterns {
		sticks += p.Times
	}
	left := hundred.Sub(l.Stock.Loss.Decimal())
	step := whole(1)
	slack := decimal.Decimal{}
	switch l.Stock.Form {
	case rates.Crook, rates.Knee, rates.Spar:
		left = hundred
	case rates.Cube:
		step, slack = decimal.New(1, -l.Stock.Unit.Places()), grain
	}
	if l.Stock.Form == rates.Cube {
		var net decimal.Decimal
		for i, n := range cut {
			if n > 0 {
				net = net.Add(r.pieces[i].Net.Base.Mul(whole(n)).DivRound(whole(r.pieces[i].Count), 18))
			}
		}
		inShip := l.Needed.Mul(l.Stock.Unit.Size()).Mul(l.Stock.Yield.Fraction())
		if inShip.Sub(net).Abs().GreaterThan(grain.Mul(l.Stock.Unit.Size())) {
			r.fault("stock %q: %s %s at a yield of %s give %s m3, and %s m3 are in the ship", l.Stock.Stock, l.Needed, l.Stock.Unit, l.Stock.Yield, inShip, net)
		}
	} else if !l.Needed.Equal(whole(sticks)) {
		r.fault("stock %q: %s sticks are needed, and %d are sawn", l.Stock.Stock, l.Needed, sticks)
	}
	remain := func(buy decimal.Decimal) decimal.Decimal { return buy.Mul(left).Shift(-2) }
	if remain(l.Buy).Add(slack).LessThan(l.Needed) || remain(l.Buy.Sub(step)).GreaterThanOrEqual(l.Needed.Add(slack)) {
		r.fault("stock %q: %s are bought for %s needed, with a loss of %s", l.Stock.Stock, l.Buy, l.Needed, l.Stock.Loss)
	}
	each, cost := r.price(l)
	material := cost
	if l.Stock.ByOwner {
		material = money.Amount{}
	}
	if !l.Each.Equal(each) || !l.Cost.Equal(cost) || !l.Material.Equal(material) {
		r.fault("stock %q: %s at %s each cost %s, of which timber %s; reckoned again %s, %s and %s",
			l.Stock.Stock, l.Buy, l.Each, l.Cost, l.Material, each, cost, material)
	}
}

// inHand checks what the off-cuts of a line are worth.
func (r *reading) inHand(l order.Line) {
	var sum money.Amount
	for _, p := range l.Patterns {
		for _, o := range p.Offcuts {
			v, err := l.Stock.TrueVolume()
			if err != nil {
				continue
			}
			worth := money.Round(l.Each.Decimal().Mul(o.Length.Volume(o.Thickness, o.Width).Base).DivRound(v.Base, 2))
			if !worth.Equal(o.Worth) {
				r.fault("stock %q: an off-cut of %d x %d x %d nm is worth %s, reckoned again %s", l.Stock.Stock, o.Thickness, o.Width, o.Length, o.Worth, worth)
			}
			sum = sum.Add(worth.Times(whole(p.Times)))
		}
	}
	if !sum.Equal(l.InHand) {
		r.fault("stock %q: off-cuts of %s in hand are put at %s", l.Stock.Stock, sum, l.InHand)
	}
}

// price is what one stick and what the line costs.
func (r *reading) price(l order.Line) (each, cost money.Amount) {
	if l.Stock.Form != rates.Cube {
		each, _, err := l.Stock.StickPrice()
		if err != nil {
			r.fault("stock %q has no price: %v", l.Stock.Stock, err)
		}
		return each, each.Times(l.Buy)
	}
	sum := l.Stock.Delivery.Decimal().Mul(l.Buy)
	if !l.Stock.ByOwner {
		sum = sum.Add(l.Stock.Price.Decimal().Mul(l.Buy))
	}
	if !l.Stock.Sawing.IsZero() {
		unit := l.Stock.SawingUnit
		if unit == "" {
			unit = l.Stock.Unit
		}
		sum = sum.Add(l.Stock.Sawing.Decimal().Mul(l.Buy).Mul(l.Stock.Unit.Size()).DivRound(unit.Size(), 15))
	}
	return money.Amount{}, money.Round(sum)
}

// available checks that no more is bought than there is: by the order, and by
// each kind of row outside it together with the order.
func (r *reading) available() {
	for _, l := range r.lines {
		if !l.Stock.Limited {
			continue
		}
		sum := l.Buy.Ceil()
		if l.Carried != job.Measured {
			for _, o := range r.plan.Order {
				if o.Stock.At == l.Stock.At {
					sum = sum.Add(o.Buy.Ceil())
				}
			}
		}
		if sum.GreaterThan(whole(l.Stock.Available)) {
			r.fault("stock %q: %s are bought of %d available", l.Stock.Stock, sum, l.Stock.Available)
		}
	}
}

// volumes checks the cubic metres of every line, and that those of a piece got
// whole add up to the piece's.
func (r *reading) volumes() {
	sawn, net := make([]decimal.Decimal, len(r.pieces)), make([]decimal.Decimal, len(r.pieces))
	got := make([]int, len(r.pieces))
	for _, l := range r.lines {
		var s, n decimal.Decimal
		for _, g := range l.Got {
			s, n = s.Add(g.Sawn), n.Add(g.Net)
			sawn[g.Piece], net[g.Piece] = sawn[g.Piece].Add(g.Sawn), net[g.Piece].Add(g.Net)
			got[g.Piece] += g.Count
		}
		bought := s
		if l.Stock.Form == rates.Cube {
			bought = measure.Of(l.Buy, l.Stock.Unit).Base.Round(6)
		} else if v, err := l.Stock.TrueVolume(); err == nil {
			bought = l.Buy.Mul(v.Base).Round(6)
		}
		if !s.Equal(l.Sawn) || !n.Equal(l.Net) || !bought.Equal(l.Bought) {
			r.fault("stock %q: %s m3 bought, %s sawn, %s net; reckoned again %s, %s and %s", l.Stock.Stock, l.Bought, l.Sawn, l.Net, bought, s, n)
		}
	}
	for i, p := range r.pieces {
		if got[i] != p.Count {
			continue
		}
		if !sawn[i].Equal(p.Sawn.Round(6)) || !net[i].Equal(p.Net.Base.Round(6)) {
			r.fault("row %q: %s m3 sawn and %s net are got, %s and %s wanted", p.Ref, sawn[i], net[i], p.Sawn, p.Net.Base)
		}
	}
}
