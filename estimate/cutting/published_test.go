package cutting

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// inch is a length in inches, to the nanometre.
func inch(n string) measure.Length {
	l, err := measure.LengthOf(dec(n), measure.In)
	if err != nil {
		panic(err)
	}
	return l
}

// boardsDepth is the least width of baulk, in inches, that gives twelve boards of
// an inch and an eighth sawn side by side with the kerf given.
func boardsDepth(t *testing.T, kerf string) float64 {
	t.Helper()
	boards := straight("1", 12, inch("1.125"), inch("10"), 2*m)
	low, high := inch("12"), inch("24")
	for high-low > 1000 {
		w := (low + high) / 2
		b := book(rates.Stock{Stock: "baulk", Timber: "oak", Form: rates.Baulk, Thickness: inch("10"), Width: w, Length: 2 * m, Price: price("100"), Unit: measure.Nr})
		b.Timber[0].Kerf = inch(kerf)
		plan, problems := Cut(oakJob(), b, pieces(boards))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if plan.Order[0].Buy.IntPart() == 1 {
			high = w
		} else {
			low = w
		}
	}
	return high.In(measure.In, 6).InexactFloat64()
}

func TestPublishedFigures(t *testing.T) {
	arc := takeoff.Curve{Inner: 2750 * mm, Chord: 2200 * mm, Sweep: 229591 * measure.Micrometre} // R 3, m 0.25, length got 2.4
	curved := takeoff.Piece{Thickness: 75 * mm, Width: 250 * mm, Length: arc.LengthGot(250 * mm), Curve: &arc}
	checks := map[string]func(t *testing.T) float64{
		"KERF-01": func(t *testing.T) float64 { return boardsDepth(t, "0.28125") },
		"KERF-02": func(t *testing.T) float64 { return boardsDepth(t, "0.15625") },
		"KERF-03": func(t *testing.T) float64 {
			thick := boardsDepth(t, "0.28125")
			return 100 * (thick - boardsDepth(t, "0.15625")) / thick
		},
		"SHIP-02": func(t *testing.T) float64 {
			fir := straight("1", 56, 12*measure.Inch, 12*measure.Inch, 100*measure.Foot) // 100 ft3 each
			log := cube("5", "70")
			log.Unit = measure.Ft3
			plan, problems := Cut(oakJob(), book(log), pieces(fir))
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			return plan.Order[0].Buy.InexactFloat64()
		},
		// The three additions are made on net. As a Loss, a share of what is
		// bought, each figure asks for more: the two are not one.
		"SHIP-17": func(t *testing.T) float64 { return addedOnNet(t, "10", 112) },
		"SHIP-18": func(t *testing.T) float64 { return addedOnNet(t, "20", 125) },
		"SHIP-19": func(t *testing.T) float64 { return addedOnNet(t, "60", 250) },
		"GEO-01": func(t *testing.T) float64 {
			side := 0.0
			for s := 200 * mm; s < 230*mm; s += 10 * measure.Micrometre {
				p := straight("1", 1, s, s, 2*m)
				p.Stock = "log"
				b := book(rates.Stock{Stock: "log", Timber: "oak", Form: rates.Log, TopDiameter: 300 * mm, Length: 2 * m, Price: price("100"), Unit: measure.Nr})
				if plan, _ := Cut(oakJob(), b, pieces(p)); len(plan.Order) == 0 {
					break
				}
				side = float64(s) / float64(10*mm)
			}
			return math.Ceil(100*side*side) / 100 // cm2, from the last 0.01 mm that goes in
		},
		"GEO-11": func(t *testing.T) float64 { return oblong(curved).Metres().InexactFloat64() },
	}
	f, err := os.Open("../../testdata/published/cutting.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		id, want, within := row[0], dec(row[3]).InexactFloat64(), dec(row[5]).InexactFloat64()
		t.Run(id+" "+row[1], func(t *testing.T) {
			check, ok := checks[id]
			if !ok {
				t.Fatal("nothing checks this row")
			}
			if got := check(t); math.Abs(got-want) > within {
				t.Errorf("%v, and %s has %v within %v", got, row[6], want, within)
			}
			delete(checks, id)
		})
	}
	if len(checks) > 0 {
		t.Errorf("%d checks have no published row", len(checks))
	}
}

// addedOnNet is the percentage that must be added to 100 sticks to come to the
// purchase a Yield of 100 / (100 + per) makes. Taken as a Loss the same figure
// buys so many sticks as lossBuys says.
func addedOnNet(t *testing.T, per string, lossBuys int) float64 {
	t.Helper()
	if got := buys(rates.Stock{Form: rates.Plank, Loss: percent(per)}, 100); got != lossBuys {
		t.Errorf("100 sticks with a loss of %s %% buy %d; by hand %d", per, got, lossBuys)
	}
	whole := decimal.New(100, 0)
	yield := whole.Mul(whole).DivRound(whole.Add(dec(per)), 12)
	hundredFt := straight("1", 1, 12*measure.Inch, 12*measure.Inch, 100*measure.Foot)
	log := cube("5", yield.String())
	log.Unit = measure.Ft3
	plan, problems := Cut(oakJob(), book(log), pieces(hundredFt))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return plan.Order[0].Buy.InexactFloat64() - 100
}
