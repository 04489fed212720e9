package price_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

var day = time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)

func dec(s string) decimal.Decimal   { return decimal.RequireFromString(s) }
func amount(s string) money.Amount   { return money.MustAmount(s) }
func quoted(s string) money.Price    { return money.NewPrice(dec(s)) }
func percent(s string) money.Percent { return money.NewPercent(dec(s)) }
func cell(sheet string, row int) origin.Cell {
	return origin.Cell{Book: "yard.xlsx", Sheet: sheet, Row: row, Col: 1}
}

// yard is a job with one section and additions on every kind, and its book.
func yard() (*job.Job, *rates.Book) {
	j := &job.Job{
		Book: "yard.xlsx",
		Particulars: job.Particulars{
			TenderDate: day, VATCode: "S", LengthsIn: measure.Ft, SizesIn: measure.In, VolumesIn: measure.Ft3,
		},
		Sections: []job.Section{{Section: "Hull", Title: "Hull"}, {Section: "Deck", Title: "Deck"}},
	}
	for _, a := range []struct {
		kind              rates.Kind
		overheads, profit string
	}{
		{rates.OfLabour, "12", "8"}, {rates.OfTimber, "10", "5"}, {rates.OfMaterials, "10", "5"},
		{rates.OfPlant, "5", "0"}, {rates.OfSubcontract, "5", "2.5"}, {rates.OfPreliminaries, "10", "5"},
	} {
		j.Additions = append(j.Additions, rates.Addition{Kind: a.kind, Overheads: percent(a.overheads), Profit: percent(a.profit)})
	}
	b := &rates.Book{
		Labour: []rates.Labour{
			{At: cell("Labour", 2), Trade: "shipwright", Rate: quoted("38.50")},
			{At: cell("Labour", 3), Trade: "foreman", Rate: quoted("45.00")},
		},
		Materials: []rates.Material{
			{At: cell("Materials", 2), Material: "oakum", Unit: measure.Kg, Price: quoted("6.20")},
			{At: cell("Materials", 3), Material: "7 in spike", Unit: measure.Nr, Price: quoted("1.275")},
		},
		Plant: []rates.Plant{
			{At: cell("Plant", 2), Plant: "steam box", Each: quoted("15"), Unit: measure.Hour},
			{At: cell("Plant", 3), Plant: "crane", Fixed: quoted("350"), Weekly: quoted("120")},
		},
		Subcontract: []rates.Subcontract{
			{At: cell("Subcontract", 2), Work: "shot blasting", Unit: measure.M2, Price: quoted("14"), Least: quoted("60")},
		},
		BuildUps: []rates.BuildUp{
			{At: cell("Build-ups", 2), Name: "plank", Part: rates.MaterialPart, Item: "oakum", By: rates.BySeam, Per: measure.M, Quantity: dec("0.35"), Waste: percent("10")},
			{At: cell("Build-ups", 3), Name: "plank", Part: rates.PlantPart, Item: "steam box", By: rates.ByNr, Quantity: dec("2")},
			{At: cell("Build-ups", 4), Name: "plank", Part: rates.WorkPart, Item: "shot blasting", By: rates.ByFace, Quantity: dec("1")},
		},
	}
	return j, b
}

// member is a measured row of one piece, 24.5 ft long, 3 in by 9 in.
func member(ref string) takeoff.Row {
	m := &job.Member{
		Work:   job.Work{At: cell("Members", 2), Ref: ref, Section: "Hull"},
		Member: "Covering board", Side: "port", Nr: 1, Length: 24*measure.Foot + 6*measure.Inch,
		Sided: 3 * measure.Inch, Moulded: 9 * measure.Inch, Timber: "oak", Treatment: job.Renew, Joint: job.Scarph,
	}
	return measured(m)
}

func measured(m *job.Member) takeoff.Row {
	return takeoff.Row{Work: m.Work, Member: m, Amounts: map[rates.Driver]measure.Quantity{
		rates.ByNr:     measure.Of(decimal.NewFromInt(int64(m.Nr)), measure.Nr),
		rates.ByLength: m.New().Quantity().Times(decimal.NewFromInt(int64(m.Nr))),
		rates.ByVolume: m.New().Volume(m.Sided, m.Moulded).Times(decimal.NewFromInt(int64(m.Nr))),
		rates.ByFace:   m.New().Area(m.Moulded),
		rates.BySeam:   measure.Of(dec("12.5"), measure.M),
	}}
}

func item(i job.Item) takeoff.Row {
	if i.Section == "" {
		i.Section = "Hull"
	}
	return takeoff.Row{Work: i.Work, Item: &i}
}

// one prices a job of these rows and gives its only item.
func only(t *testing.T, j *job.Job, b *rates.Book, rows []takeoff.Row, c cutting.Plan, h labour.Hours) (price.Item, problem.List) {
	t.Helper()
	p, found := price.Price(j, b, takeoff.Takeoff{Rows: rows}, c, h, programme.Programme{})
	if len(p.Items) != 1 {
		t.Fatalf("%d items, want one", len(p.Items))
	}
	return p.Items[0], found
}

func equal(t *testing.T, what string, got, want any) {
	t.Helper()
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("%s (-want +got):\n%s", what, d)
	}
}

func codes(l problem.List) []problem.Code {
	var out []problem.Code
	for _, p := range l {
		out = append(out, p.Code)
	}
	return out
}

// A covering board worked by hand:
//
//	labour       3.33 h x 38.50 = 128.205                       128.21
//	timber       share                                          212.40
//	oakum        12.5 m x 0.35 = 4.375 kg, + 10 % = 4.8125,
//	             4.813 kg x 6.20 = 29.8406                       29.84
//	spikes       74 nr x 1.275 = 94.35                           94.35
//	steam box    2 h x 15.00                                     30.00
//	blasting     24.5 ft x 9 in = 18.375 ft2 = 1.707093 m2,
//	             1.707 x 14.00 = 23.898, least charge            60.00
//
//	labour       128.21, 12 % 15.3852 = 15.39, 8 % of 143.60 = 11.488 = 11.49    155.09
//	timber       212.40, 10 % 21.24, 5 % of 233.64 = 11.682 = 11.68              245.32
//	materials    124.19, 10 % 12.419 = 12.42, 5 % of 136.61 = 6.8305 = 6.83      143.44
//	plant         30.00, 5 % 1.50, 0 %                                            31.50
//	subcontract   60.00, 5 % 3.00, 2.5 % of 63.00 = 1.575 = 1.58                  64.58
//	sum 639.93; / 24.5 ft = 26.1196 = 26.12; x 24.5 = 639.94; difference 0.01
func TestACoveringBoardIsPricedAsByHand(t *testing.T) {
	j, b := yard()
	r := member("2.1")
	r.Member.BillUnit, r.Member.BuildUp = measure.Ft, "plank"
	r.Work = r.Member.Work
	r.Fastenings = []takeoff.Fastened{{Rule: rates.Fastening{At: cell("Fastenings", 2), Rule: "hull"}, Number: dec("74"), Material: "7 in spike"}}
	c := cutting.Plan{Shares: []cutting.Share{{Ref: "2.1", Stock: "oak 3 in", Sawn: dec("0.110613"), Cost: amount("212.40")}}}
	h := labour.Hours{Lines: []labour.Line{{Ref: "2.1", Trade: "Shipwright", Carried: job.Measured, Hours: dec("3.33")}}}
	got, found := only(t, j, b, []takeoff.Row{r}, c, h)

	if len(found) > 0 {
		t.Errorf("problems: %v", found)
	}
	type line struct{ Kind, Name, Quantity, Cost string }
	var lines []line
	for _, l := range got.Costs {
		lines = append(lines, line{string(l.Kind), l.Name, l.Quantity.String() + " " + string(l.Unit), l.Cost.String()})
	}
	equal(t, "cost lines", lines, []line{
		{"labour", "shipwright", "3.33 h", "128.21"},
		{"timber", "oak 3 in", "1 item", "212.40"},
		{"materials", "7 in spike", "74 nr", "94.35"},
		{"materials", "oakum", "4.813 kg", "29.84"},
		{"plant", "steam box", "2 h", "30.00"},
		{"subcontract", "shot blasting", "1.707 m2", "60.00"},
	})
	var kinds []string
	for _, k := range got.Kinds {
		kinds = append(kinds, string(k.Kind)+" "+k.Overheads.String()+" "+k.Profit.String()+" "+k.Sum.String())
	}
	equal(t, "kinds", kinds, []string{"labour 15.39 11.49 155.09", "timber 21.24 11.68 245.32",
		"materials 12.42 6.83 143.44", "plant 1.50 0.00 31.50", "subcontract 3.00 1.58 64.58"})
	equal(t, "sum, quantity, rate, amount, difference",
		[]string{got.Sum.String(), got.Quantity.String(), string(got.Unit), got.Rate.String(), got.Amount.String(), got.Difference.String()},
		[]string{"639.93", "24.5", "ft", "26.12", "639.94", "0.01"})
	equal(t, "note of the least charge", got.Costs[5].Note, "least charge")
	equal(t, "note of the fastenings", got.Costs[2].Note, "fastening rule hull")
}

// Clenches are sold by the pair: 75 of them are 37.5 pairs at 4.00.
func TestFastenersSoldByThePairArePricedByThePair(t *testing.T) {
	j, b := yard()
	b.Materials = append(b.Materials, rates.Material{Material: "clench", Unit: measure.Pair, Price: quoted("4.00")})
	r := member("2.1")
	r.Fastenings = []takeoff.Fastened{{Number: dec("75"), Material: "clench"}}
	got, _ := only(t, j, b, []takeoff.Row{r}, cutting.Plan{}, labour.Hours{})
	c := got.Costs[0]
	equal(t, "cost line", []string{c.Name, c.Quantity.String(), string(c.Unit), c.Cost.String()}, []string{"clench", "37.5", "pair", "150.00"})
}

// Work of one name in several rows of a build-up stands under one least charge:
// 2 x 1.707 m2 x 14.00 = 47.796, still under 60.00; three times are 71.69.
func TestALeastChargeIsByTheRowOfTheSchedule(t *testing.T) {
	for _, c := range []struct {
		times int
		want  string
	}{{2, "60.00"}, {3, "71.69"}} {
		j, b := yard()
		work := b.BuildUps[2]
		b.BuildUps = nil
		for range c.times {
			b.BuildUps = append(b.BuildUps, work)
		}
		r := member("2.1")
		r.Work.BuildUp = "plank"
		got, _ := only(t, j, b, []takeoff.Row{r}, cutting.Plan{}, labour.Hours{})
		if len(got.Costs) != 1 || got.Costs[0].Cost.String() != c.want {
			t.Errorf("%d rows of blasting make %v, want one line of %s", c.times, got.Costs, c.want)
		}
	}
}

// Owner's timber: sawing and delivery of 40.00 bear nothing; labour of 2 h x
// 38.50 = 77.00, + 12 % 9.24, + 8 % of 86.24 = 6.8992 = 6.90, makes 93.14.
func TestHandlingOfOwnersTimberBearsNoAdditions(t *testing.T) {
	j, b := yard()
	c := cutting.Plan{Shares: []cutting.Share{{Ref: "2.1", Stock: "owner's oak", Cost: amount("40.00"), Owner: true}}}
	h := labour.Hours{Lines: []labour.Line{{Ref: "2.1", Trade: "shipwright", Hours: dec("2")}}}
	b.Stock = append(b.Stock, rates.Stock{Stock: "owner's oak", Timber: "oak", ByOwner: true})
	m := *member("2.1").Member
	m.Stock = "Owner's oak"
	got, _ := only(t, j, b, []takeoff.Row{measured(&m)}, c, h)
	equal(t, "sum", got.Sum.String(), "133.14")
	equal(t, "bare", got.Bare.String(), "40.00")
	equal(t, "owner's timber", got.OwnerTimber, true)
	equal(t, "kinds", len(got.Kinds), 1)
}

func TestRowsOfOneBillItemMakeOneLineWithTheirOwnCosts(t *testing.T) {
	j, b := yard()
	rows := []takeoff.Row{
		item(job.Item{Work: job.Work{Ref: "3.10", BillItem: "3.A"}, Description: "Second", Quantity: dec("7"), Unit: measure.M, Cost: quoted("200"), CostKind: rates.OfPlant}),
		item(job.Item{Work: job.Work{Ref: "3.2", BillItem: "3.a", VAT: "Z"}, Description: "First", Quantity: dec("5"), Unit: measure.M, Cost: quoted("100"), CostKind: rates.OfPlant}),
	}
	got, found := only(t, j, b, rows, cutting.Plan{}, labour.Hours{})
	if len(found) > 0 {
		t.Errorf("problems: %v", found)
	}
	// 300.00 + 5 % = 315.00 over 12 m = 26.25 a metre.
	equal(t, "line", []string{got.Ref, got.Description, got.VAT, got.Quantity.String(), string(got.Unit), got.Rate.String(), got.Amount.String()},
		[]string{"3.a", "First", "Z", "12", "m", "26.25", "315.00"})
	equal(t, "rows", []string{got.Rows[0].Ref, got.Rows[1].Ref, got.Costs[0].Ref, got.Costs[1].Ref}, []string{"3.2", "3.10", "3.2", "3.10"})
}

func TestItemsStandBySectionThenByRef(t *testing.T) {
	j, b := yard()
	var rows []takeoff.Row
	for _, r := range [][2]string{{"10", "Deck"}, {"2", "Deck"}, {"9", "Hull"}, {"1", "Nowhere"}} {
		rows = append(rows, item(job.Item{Work: job.Work{Ref: r[0], Section: r[1]}, Quantity: dec("1"), Unit: measure.One, Cost: quoted("1"), CostKind: rates.OfPlant}))
	}
	p, _ := price.Price(j, b, takeoff.Takeoff{Rows: rows}, cutting.Plan{}, labour.Hours{}, programme.Programme{})
	var refs []string
	for _, i := range p.Items {
		refs = append(refs, i.Ref)
	}
	equal(t, "refs; the row of no section is left to job.Check", refs, []string{"9", "2", "10"})
}

func TestAMemberRetainedWithoutABuildUpMakesNoLine(t *testing.T) {
	j, b := yard()
	kept, priced := member("1"), member("2")
	kept.Member.Treatment, priced.Member.Treatment = job.Retain, job.Retain
	priced.Work.Hours = dec("1")
	h := labour.Hours{Lines: []labour.Line{{Ref: "2", Trade: "shipwright", Hours: dec("1")}}}
	got, _ := only(t, j, b, []takeoff.Row{kept, priced}, cutting.Plan{}, h)
	equal(t, "ref", got.Ref, "2")
}

// Provisional and prime cost sums: 1,250.50 + 7.5 % (93.7875 = 93.79) + 85.00
// attendance = 1,429.29. Dayworks: an hour at 38.50 + 25 % = 48.125 = 48.13, 20 h 962.60;
// materials of 333.33 + 15 % (49.9995 = 50.00) = 383.33.
func TestSumsAndDayworksAreWorkedAsByHand(t *testing.T) {
	j, b := yard()
	j.Sums = []job.Sum{
		{Ref: "S10", Amount: quoted("10"), VAT: "Z"},
		{Ref: "S2", Amount: quoted("1250.50"), Profit: percent("7.5"), Attendance: quoted("85")},
	}
	j.Dayworks = []job.Daywork{
		{Of: "Shipwright", Quantity: dec("20"), Addition: percent("25")},
		{Of: "Materials", Quantity: dec("333.33"), Addition: percent("15")},
	}
	p, found := price.Price(j, b, takeoff.Takeoff{}, cutting.Plan{}, labour.Hours{}, programme.Programme{})
	if len(found) > 0 {
		t.Errorf("problems: %v", found)
	}
	var got []string
	for _, s := range p.Sums {
		got = append(got, s.Row.Ref+" "+s.Profit.String()+" "+s.Total.String()+" "+s.VAT)
	}
	for _, d := range p.Dayworks {
		got = append(got, d.Row.Of+" "+d.Charge.String()+" "+d.Cost.String()+" "+d.Addition.String()+" "+d.Total.String())
	}
	equal(t, "sums and dayworks", got, []string{"S2 93.79 1429.29 S", "S10 0.00 10.00 Z",
		"Shipwright 48.13 0.00 0.00 962.60", "Materials 0.00 333.33 50.00 383.33"})
}

func priceOf(pennies int64) money.Price { return money.PriceOf(money.Pennies(pennies)) }
