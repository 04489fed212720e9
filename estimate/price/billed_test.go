package price_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

func works(ref string, q string, u measure.Unit) job.Item {
	return job.Item{Work: job.Work{Ref: ref, BillItem: "A"}, Quantity: dec(q), Unit: u, Cost: quoted("100"), CostKind: rates.OfPlant}
}

func inUnit(r takeoff.Row, u measure.Unit) takeoff.Row {
	r.Work.BillUnit = u
	r.Work.BillItem = "A"
	return r
}

func two(r takeoff.Row) takeoff.Row {
	m := *r.Member
	m.Nr = 2
	m.Ref = "9"
	return measured(&m)
}

func TestTheBilledQuantity(t *testing.T) {
	given := works("1", "12", measure.M)
	given.BillQty, given.BillUnit = dec("3"), measure.Nr
	noted := inUnit(member("1"), "")
	noted.Work.BillQty = dec("2.5")
	for _, c := range []struct {
		name string
		rows []takeoff.Row
		want string
		code problem.Code
	}{
		{"members are billed by number", []takeoff.Row{inUnit(member("1"), ""), inUnit(two(member("2")), "")}, "3 nr", ""},
		{"a length to a hundredth", []takeoff.Row{inUnit(member("1"), measure.M)}, "7.47 m", ""},                                                     // 24.5 x 0.3048 = 7.4676
		{"two rows of it add up before they are rounded", []takeoff.Row{inUnit(member("1"), measure.M), inUnit(two(member("2")), "")}, "22.4 m", ""}, // 22.4028
		{"a face", []takeoff.Row{inUnit(member("1"), measure.Ft2)}, "18.38 ft2", ""},                                                                 // 24.5 x 0.75 = 18.375
		{"pairs", []takeoff.Row{inUnit(two(member("1")), measure.Pair)}, "1 pair", ""},
		{"half a pair", []takeoff.Row{inUnit(member("1"), measure.Pair)}, "1 pair", problem.UnitUnlike},
		{"one item", []takeoff.Row{inUnit(two(member("1")), measure.One)}, "1 item", ""},
		{"a member in hours", []takeoff.Row{inUnit(member("1"), measure.Hour)}, "1 h", problem.UnitUnlike},
		{"an item as it says", []takeoff.Row{item(works("1", "12.5", measure.M))}, "12.5 m", ""},
		{"items as they say, added up", []takeoff.Row{item(works("1", "12.5", measure.M)), item(works("2", "2.25", measure.M))}, "14.75 m", ""},
		{"several items in the unit item", []takeoff.Row{item(works("1", "3", measure.One))}, "3 item", ""},
		{"items of two units", []takeoff.Row{item(works("1", "12.5", measure.M)), item(works("2", "2", measure.Nr))}, "1 item", problem.UnitsMixed},
		{"members and items are one item", []takeoff.Row{inUnit(member("1"), ""), item(works("2", "2", measure.Hour))}, "1 item", ""},
		{"an item in another unit of the kind", []takeoff.Row{inUnit(item(works("1", "10", measure.Ft)), measure.M)}, "3.05 m", ""}, // 3.048
		{"what is given governs", []takeoff.Row{item(given)}, "3 nr", ""},
		{"what is given without a unit is in the unit of the rows", []takeoff.Row{noted}, "2.5 nr", ""},
		{"nothing, for want of a size that is told of", []takeoff.Row{item(works("1", "0", measure.M))}, "1 m", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard()
			h := labour.Hours{Lines: []labour.Line{{Ref: "1", Trade: "shipwright", Hours: dec("1")}, {Ref: "9", Trade: "shipwright", Hours: dec("1")}}}
			got, found := only(t, j, b, c.rows, cutting.Plan{}, h)
			equal(t, "quantity", got.Quantity.String()+" "+string(got.Unit), c.want)
			var want []problem.Code
			if c.code != "" {
				want = []problem.Code{c.code}
			}
			equal(t, "problems", codes(found), want)
		})
	}
}

// A length of timber so short that its volume would round away is billed as the
// last place, never as nil: 1 mm of 3 x 9 in is 0.0000174 m3.
func TestAMeasuredQuantityIsNeverRoundedToNil(t *testing.T) {
	j, b := yard()
	r := inUnit(member("1"), measure.M3)
	r.Member.Length = measure.Millimetre
	r.Amounts = measured(r.Member).Amounts
	h := labour.Hours{Lines: []labour.Line{{Ref: "1", Trade: "shipwright", Hours: dec("1")}}}
	got, _ := only(t, j, b, []takeoff.Row{r}, cutting.Plan{}, h)
	equal(t, "quantity", got.Quantity.String(), "0.001")
	equal(t, "rate", got.Rate.String(), "46570.00") // 38.50 + 4.62 + 3.45 = 46.57 over 0.001
}

// A figure of the bill names what it was measured by, or the cell it was typed in.
func TestTheBilledQuantityKnowsWhereItCameFrom(t *testing.T) {
	noted := inUnit(member("1"), "")
	noted.Work.BillQty, noted.Work.BillQtyAt = dec("2.5"), cell("Members", 7)
	for _, c := range []struct {
		name string
		rows []takeoff.Row
		by   rates.Driver
		at   origin.Cell
	}{
		{"members by number", []takeoff.Row{inUnit(member("1"), "")}, rates.ByNr, origin.Cell{}},
		{"members by face area", []takeoff.Row{inUnit(member("1"), measure.Ft2), inUnit(two(member("2")), "")}, rates.ByFace, origin.Cell{}},
		{"members as one item", []takeoff.Row{inUnit(member("1"), measure.One)}, "", origin.Cell{}},
		{"members with items beside them", []takeoff.Row{inUnit(member("1"), measure.Ft), item(works("2", "12", measure.Ft))}, rates.ByLength, origin.Cell{}},
		{"items as they say", []takeoff.Row{item(works("1", "12.5", measure.M))}, "", origin.Cell{}},
		{"a quantity typed", []takeoff.Row{inUnit(two(member("2")), ""), noted}, "", cell("Members", 7)},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard()
			got, _ := only(t, j, b, c.rows, cutting.Plan{}, labour.Hours{Lines: []labour.Line{{Ref: "1", Trade: "shipwright", Hours: dec("1")}}})
			equal(t, "measured by", got.QuantityBy, c.by)
			equal(t, "typed at", got.QuantityAt, c.at)
		})
	}
}

// Whatever an item costs and whatever it is billed in, its amount is its
// quantity at its rate, and the difference what that makes of the sum.
func TestDifferencesAreWhatRoundingMade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, b := yard()
		var rows []takeoff.Row
		for n := range rapid.IntRange(1, 8).Draw(t, "items") {
			rows = append(rows, item(job.Item{
				Work:     job.Work{Ref: decimal.NewFromInt(int64(n)).String(), Section: rapid.SampledFrom([]string{"Hull", "Deck"}).Draw(t, "section")},
				Quantity: decimal.New(rapid.Int64Range(1, 999999).Draw(t, "quantity"), -2), Unit: measure.M,
				Cost: priceOf(rapid.Int64Range(-5000, 9999999).Draw(t, "cost")), CostKind: rapid.SampledFrom(rates.Kinds()).Draw(t, "kind"),
			}))
		}
		p, _ := price.Price(j, b, takeoff.Takeoff{Rows: rows}, cutting.Plan{}, labour.Hours{}, programme.Programme{})
		var sums, amounts, differences decimal.Decimal
		for _, i := range p.Items {
			if !i.Amount.Decimal().Equal(i.Quantity.Mul(i.Rate.Decimal()).Round(2)) {
				t.Fatalf("%s x %s is not %s", i.Quantity, i.Rate, i.Amount)
			}
			// The rate is off by half a penny at most, the amount by that for each
			// unit and half a penny more.
			if i.Difference.Decimal().Abs().GreaterThan(i.Quantity.Mul(dec("0.005")).Add(dec("0.005"))) {
				t.Fatalf("a difference of %s on %s", i.Difference, i.Quantity)
			}
			sums, amounts, differences = sums.Add(i.Sum.Decimal()), amounts.Add(i.Amount.Decimal()), differences.Add(i.Difference.Decimal())
		}
		if !differences.Equal(amounts.Sub(sums)) {
			t.Fatalf("differences %s, amounts %s less sums %s", differences, amounts, sums)
		}
	})
}

// published is the check rows of testdata/published/price.csv by their id.
func published(t *testing.T) map[string][]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/price.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]string{}
	for _, r := range rows[1:] {
		out[r[0]] = r
	}
	return out
}

// Published figures, their sources beside them in the file: the rounding of a
// half penny at the extension, the places of billed timber, and an hour of
// daywork.
func TestPublishedFiguresHold(t *testing.T) {
	rows := published(t)
	j, b := yard()

	half := works("1", "1", measure.One)
	half.Cost, half.CostKind = quoted(rows["R-RND-02"][2]), rates.OfPlant
	got, _ := only(t, j, b, []takeoff.Row{item(half)}, cutting.Plan{}, labour.Hours{})
	equal(t, "R-RND-02", got.Costs[0].Cost.String(), rows["R-RND-02"][3])

	// 24.5 ft of 9 x 3 in is 0.1300805 m3; 7.4676 m.
	equal(t, "R-BOQ-03", rows["R-BOQ-03"][3], "0.001 m3; 0.01 m3; 0.01 m2; 0.01 m; 0.001 t")
	h := labour.Hours{Lines: []labour.Line{{Ref: "1", Trade: "shipwright", Hours: dec("1")}}}
	for unit, want := range map[measure.Unit]string{measure.M3: "0.13", measure.M: "7.47", measure.M2: "1.71"} {
		got, _ := only(t, j, b, []takeoff.Row{inUnit(member("1"), unit)}, cutting.Plan{}, h)
		equal(t, "R-BOQ-03 in "+string(unit), got.Quantity.String(), want)
	}

	for _, c := range []struct{ id, year string }{{"R-LAB-08", "23586.71"}, {"R-LAB-09", "17666.72"}} {
		// The year's cost over the standard hours of the same sheet, as pay for one hour paid a year.
		b.Labour = []rates.Labour{{Trade: "daywork", Pay: quoted(c.year), Paid: dec("1"), Worked: dec("1794")}}
		j.Dayworks = []job.Daywork{{Of: "daywork", Quantity: dec("1")}}
		p, _ := price.Price(j, b, takeoff.Takeoff{}, cutting.Plan{}, labour.Hours{}, programme.Programme{})
		equal(t, c.id, p.Dayworks[0].Total.String(), rows[c.id][3])
	}
}

// A member is weighed by the density of its timber; where that is wanting the
// message says so.
func TestABillByWeightAsksForTheDensity(t *testing.T) {
	j, b := yard()
	r := inUnit(member("1"), measure.Kg)
	delete(r.Amounts, rates.ByWeight)
	_, found := price.Unpriced(j, b, takeoff.Takeoff{Rows: []takeoff.Row{r}})
	if len(found) != 1 || found[0].Code != problem.UnitUnlike || !strings.Contains(found[0].Text, "the Density of its timber is wanted") {
		t.Errorf("problems %v", found)
	}
}
