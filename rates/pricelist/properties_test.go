package pricelist

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// anyStick is a stick with all its sizes, by its form.
func anyStick(t *rapid.T) rates.Stock {
	mm := func(name string, least, most int64) measure.Length {
		l, err := measure.LengthOf(decimal.New(rapid.Int64Range(least, most).Draw(t, name), 0), measure.Mm)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	s := rates.Stock{Stock: "oak", Measure: rates.True, Length: mm("length", 900, 15000), Price: money.NewPrice(decimal.New(rapid.Int64Range(1, 900000).Draw(t, "price"), -2))}
	if rapid.Bool().Draw(t, "round") {
		s.Form, s.MidGirth = rates.Log, mm("girth", 300, 4000)
		return s
	}
	s.Form, s.Thickness, s.Width = rates.Plank, mm("thickness", 10, 400), mm("width", 50, 900)
	return s
}

// What a stick costs does not hang on the unit its price is for: from any unit to
// another and back is the price again.
func TestAPriceConvertedThereAndBackIsItself(t *testing.T) {
	sawn := []measure.Unit{measure.Nr, measure.M, measure.Ft, measure.M2, measure.Ft2, measure.M3, measure.Ft3, measure.BF, measure.Std, measure.Load}
	round := []measure.Unit{measure.Nr, measure.M, measure.Ft, measure.M3, measure.Ft3, measure.HFt}
	rapid.Check(t, func(t *rapid.T) {
		s := anyStick(t)
		units := sawn
		if s.Round() {
			units = round
		}
		from, to := rapid.SampledFrom(units).Draw(t, "from"), rapid.SampledFrom(units).Draw(t, "to")
		n := decimal.New(rapid.Int64Range(1, 1000).Draw(t, "number"), 0)
		s.Unit = to
		a, b, why := byStick(s, Per{Number: n, Unit: from})
		if why != "" {
			t.Fatalf("%s to %s: %s", from, to, why)
		}
		s.Unit = from
		c, d, why := byStick(s, Per{Number: one, Unit: to})
		if why != "" {
			t.Fatalf("%s to %s: %s", to, from, why)
		}
		back := a.Mul(c).Mul(n).DivRound(b.Mul(d), 12)
		if !back.Equal(one) {
			t.Errorf("from %s to %s and back 1 is %s", from, to, back)
		}
	})
}

// The stick costs the same to the penny whichever unit its price was stated in, but
// for the places a converted price is rounded to.
func TestAStickCostsTheSameAtAConvertedPrice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyStick(t)
		s.Unit = measure.M3
		each := decimal.New(rapid.Int64Range(100, 500000).Draw(t, "each"), -2)
		m := moveOfStick(t, s, Line{Key: "oak", Price: each, Per: Per{Number: one, Unit: measure.Nr}})
		s.Price = money.NewPrice(m.New)
		total, _, err := s.StickPrice()
		if err != nil {
			t.Fatal(err)
		}
		v, err := s.Measured(measure.M3)
		if err != nil {
			t.Fatal(err)
		}
		// Half a place of the price times the volume, and half a penny.
		most := v.Base.Mul(decimal.New(5, -3)).Add(decimal.New(5, -3))
		if off := total.Decimal().Sub(each).Abs(); off.GreaterThan(most) {
			t.Errorf("a stick for %s costs %s at %s a cubic metre", each, total, m.New)
		}
	})
}

func moveOfStick(t *rapid.T, s rates.Stock, l Line) Move {
	m := Match(&rates.Book{Stock: []rates.Stock{s}}, []Line{l}, terms())[0]
	if m.State == Unlike {
		t.Fatal(m.Why)
	}
	return m
}

// Once the moves are made, the same list changes nothing: every line that was
// written is then the same, and the others are as they were.
func TestAListTakenTwiceChangesNothingTheSecondTime(t *testing.T) {
	keys := []string{"oak plank", "oak log", "Spike", "Oakum", "Nail", "Crane", "Cover", "Shipwright", "Engineer", "S", "Oakem", "owner's oak"}
	days := []string{"2024-01-01", "2025-02-01", "2026-02-01", "2027-01-01"}
	rapid.Check(t, func(t *rapid.T) {
		b := yard()
		var lines []Line
		for range rapid.IntRange(1, 12).Draw(t, "lines") {
			l := Line{Key: rapid.SampledFrom(keys).Draw(t, "key"), Price: decimal.New(rapid.Int64Range(1, 10000).Draw(t, "price"), -2)}
			l.From = day(rapid.SampledFrom(days).Draw(t, "day"))
			lines = append(lines, l)
		}
		with := terms()
		with.Confirmed = keys
		first := Match(b, lines, with)
		after := After(b, first)
		rows := len(rowsOf(b))
		for _, m := range first {
			if m.Writes() && !m.From.IsZero() {
				rows++
			}
		}
		if got := len(rowsOf(&after)); got != rows {
			t.Errorf("%d rows, and %d are wanted", got, rows)
		}
		for i, m := range Match(&after, lines, with) {
			if was := first[i].State; first[i].Writes() && m.State != Same || !first[i].Writes() && m.State != was {
				t.Errorf("%q at %s from %s was %s and is now %s: %s", m.Line.Key, m.Line.Price, m.Line.From, was, m.State, m.Why)
			}
		}
	})
}

// Published conversions: a price for the larger unit, over the price for the smaller
// that is made of it, is how many of the smaller are in the larger.
func TestPublishedConversionsOfPrices(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", "pricelist.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	sawn, round := plank(), log()
	of := map[string]struct {
		stick rates.Stock
		per   string
		unit  measure.Unit
	}{
		"HOP-06":  {round, "m3", measure.HFt},
		"UNIT-01": {sawn, "std", measure.Ft3},
		"UNIT-02": {sawn, "std", measure.M3},
		"UNIT-13": {sawn, "load", measure.Ft3},
		"UNIT-20": {sawn, "super ft", measure.BF},
	}
	for _, r := range rows[1:] {
		c, ok := of[r[0]]
		if !ok {
			t.Errorf("%s is not checked", r[0])
			continue
		}
		delete(of, r[0])
		c.stick.Unit = c.unit
		p, ok := ParsePer(c.per)
		if !ok {
			t.Fatal(c.per)
		}
		num, den, why := byStick(c.stick, p)
		if why != "" {
			t.Fatal(why)
		}
		got := den.DivRound(num, 12)
		if off := got.Sub(dec(r[3])).Abs(); off.GreaterThan(dec(r[5])) {
			t.Errorf("%s (%s): %s, and %s is published", r[0], r[1], got, r[3])
		}
	}
	if len(of) > 0 {
		t.Errorf("not in the file: %v", of)
	}
}
