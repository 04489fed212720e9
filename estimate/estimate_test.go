package estimate_test

import (
	"fmt"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

func dec(s string) decimal.Decimal   { return decimal.RequireFromString(s) }
func quoted(s string) money.Price    { return money.NewPrice(dec(s)) }
func percent(s string) money.Percent { return money.NewPercent(dec(s)) }

func at(sheet string, row int) origin.Cell {
	return origin.Cell{Book: "yard.xlsx", Sheet: sheet, Row: row, Col: 1}
}

// smack is the refit of a small fishing smack: two covering boards renewed, a
// deck caulked, and a beam that may be found rotten.
func smack() (job.Job, rates.Book) {
	work := func(sheet string, row int, ref, section, buildUp string) job.Work {
		return job.Work{At: at(sheet, row), Ref: ref, Section: section, BuildUp: buildUp, Carried: job.Measured, Difficulty: dec("1"), Access: dec("1")}
	}
	board := job.Member{
		Work: work("Members", 2, "1.1", "1", "plank"), Member: "Covering board", Side: "port", Nr: 1,
		Length: 24 * measure.Foot, Sided: 2 * measure.Inch, Moulded: 8 * measure.Inch, Shape: job.Square, Heart: job.AnyHeart,
		Timber: "oak", Treatment: job.Renew, Joint: job.Scarph, Scarph: dec("6"), Seams: dec("1"),
	}
	other := board
	other.At, other.Ref, other.Side = at("Members", 3), "1.2", "starboard"
	beam := board
	beam.Work = work("Members", 4, "1.3", "1", "plank")
	beam.Member, beam.Side, beam.Joint, beam.Scarph, beam.Length = "Deck beam", "", job.NoJoint, decimal.Zero, 10*measure.Foot
	beam.Carried, beam.Chance = job.AtRisk, percent("40")

	j := job.Job{
		Book: "yard.xlsx",
		Particulars: job.Particulars{
			Vessel: "Polly", Client: "The Polly Trust", Yard: "The yard", Reference: "T1", Currency: "GBP",
			TenderDate: time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC),
			LengthsIn:  measure.Ft, SizesIn: measure.In, VolumesIn: measure.Ft3,
			VATCode: "S", VATRounding: job.Nearest, HoursAWeek: dec("39"), WorkingWeeks: dec("52"),
			ContingencyOn: job.OnItems, ContingencyShown: job.ClientSum, Contingency: percent("5"),
		},
		Sections: []job.Section{{At: at("Sections", 2), Section: "1", Title: "Hull", Stage: "hull"}, {At: at("Sections", 3), Section: "2", Title: "Deck", Stage: "deck"}},
		Members:  []job.Member{board, other, beam},
		Items: []job.Item{{
			Work: work("Items", 2, "2.1", "2", "caulk"), Description: "Rake out and caulk deck seams", Quantity: dec("120"), Unit: measure.M,
		}},
		Preliminaries: []job.Preliminary{{At: at("Preliminaries", 2), Ref: "P1", Description: "Shed", Weekly: quoted("150")}},
		Stages:        []job.Stage{{At: at("Stages", 2), Stage: "hull"}, {At: at("Stages", 3), Stage: "deck", After: []string{"hull"}}},
		Gangs: []job.Gang{
			{At: at("Gangs", 2), Stage: "hull", Trade: "shipwright", Men: dec("2")},
			{At: at("Gangs", 3), Stage: "deck", Trade: "shipwright", Men: dec("1")},
		},
	}
	for _, k := range rates.Kinds() {
		j.Additions = append(j.Additions, rates.Addition{Kind: k, Overheads: percent("10"), Profit: percent("5")})
	}
	b := rates.Book{
		Labour: []rates.Labour{{At: at("Labour", 2), Trade: "shipwright", Rate: quoted("40"), Men: dec("2"), MenGiven: true}},
		Norms: []rates.Norm{
			{At: at("Norms", 2), Task: "fit plank", Trade: "shipwright", Hours: dec("1.5"), Unit: measure.Ft, SetUp: dec("4"), Place: rates.Aboard},
			{At: at("Norms", 3), Task: "take off", Trade: "shipwright", Hours: dec("2"), Unit: measure.Ft3, Place: rates.Aboard},
			{At: at("Norms", 4), Task: "caulk", Trade: "shipwright", Hours: dec("0.25"), Unit: measure.M, Place: rates.Aboard},
		},
		BuildUps: []rates.BuildUp{
			{At: at("Build-ups", 2), Name: "plank", Part: rates.Task, Item: "fit plank", By: rates.ByLength, Quantity: dec("1")},
			{At: at("Build-ups", 3), Name: "plank", Part: rates.Task, Item: "take off", By: rates.ByOldVolume, Quantity: dec("1")},
			{At: at("Build-ups", 4), Name: "caulk", Part: rates.Task, Item: "caulk", By: rates.ByLength, Quantity: dec("1")},
			{At: at("Build-ups", 5), Name: "caulk", Part: rates.MaterialPart, Item: "oakum", By: rates.ByLength, Per: measure.M, Quantity: dec("0.35"), Waste: percent("5")},
		},
		Timber: []rates.Timber{{At: at("Timber", 2), Timber: "oak", Density: dec("720"), Kerf: 4 * measure.Millimetre}},
		Stock: []rates.Stock{{
			At: at("Stock", 2), Stock: "oak 2 x 9", Timber: "oak", Form: rates.Plank, Thickness: 2 * measure.Inch, Width: 9 * measure.Inch,
			Length: 16 * measure.Foot, Price: quoted("75"), Unit: measure.Ft3, Measure: rates.True,
		}},
		Materials: []rates.Material{{At: at("Materials", 2), Material: "oakum", Unit: measure.Kg, Price: quoted("6.20")}},
		VAT:       []rates.VAT{{At: at("VAT", 2), Code: "S", Category: "S", Meaning: "standard rate", Rate: percent("20")}},
	}
	return j, b
}

// Every covering board of 24 ft needs two lengths of 12 ft 6 in with a scarph of
// 12 in (six to one of 2 in), each out of a plank of 16 ft at 16 x 2/12 x 9/12 =
// 2 ft3, 150.00: two planks, 300.00 a board. It takes 4 + 1.5 x 24 + 2 x 24 x
// 2/12 x 8/12 = 45.33 h at 40.00, 1,813.20. With 10 % and 5 % on each kind:
//
//	labour 1813.20 + 181.32 + 99.73 (99.726) = 2094.25, timber 300.00 + 30.00 + 16.50 = 346.50
//	in all 2440.75 a board
//	caulking 120 x 0.25 = 30 h, 1200.00 + 120.00 + 66.00 = 1386.00; oakum 42 kg + 5 % = 44.1 kg,
//	273.42 + 27.34 + 15.04 (15.038) = 315.80; 1701.80 / 120 = 14.18 (14.1817), x 120 = 1701.60
//	hull 90.66 h / (2 x 39) = 1.1623, so 1.2 weeks; deck 30 / 39 = 0.769, so 0.8; shed 2 weeks at 150.00 +
//	15.00 + 8.25 = 173.25, 346.50
//	beam 10 ft: 4 + 15 + 2 x 10/9 = 21.22 h, 848.80 + 84.88 + 46.68 (46.684) = 980.36, and a plank of its own
//	150.00 + 15.00 + 8.25 = 173.25; 1153.61, held at 40 % 461.44 (461.444)
//	D 5 % of 4881.50 = 244.08 (244.075), of 1701.60 = 85.08; 790.60
//	net 4881.50 + 1701.60 + 346.50 + 790.60 = 7720.20; VAT 1544.04
func ExampleRun() {
	j, b := smack()
	r := estimate.Run(j, b)
	for _, s := range r.Bill.Sections {
		for _, l := range s.Lines {
			fmt.Println(l.Ref, l.Description+";", l.Quantity, l.Unit, "at", l.Rate, l.Amount)
		}
		fmt.Println(s.Title, s.Total)
	}
	for _, l := range r.Bill.Preliminaries {
		fmt.Println(l.Ref, l.Description+";", l.Quantity, l.Unit, "at", l.Rate, l.Amount)
	}
	fmt.Println("contingency", r.Bill.Held, "net", r.Bill.Net, "VAT", r.Bill.VATTotal, "total", r.Bill.Total)
	// Output:
	// 1.1 Renew covering board, port side, oak 8 x 2 in in scarphed lengths, 24' long; 1 nr at 2440.75 2440.75
	// 1.2 Renew covering board, starboard side, oak 8 x 2 in in scarphed lengths, 24' long; 1 nr at 2440.75 2440.75
	// Hull 4881.50
	// 2.1 Rake out and caulk deck seams; 120 m at 14.18 1701.60
	// Deck 1701.60
	// P1 Shed; 2 wk at 173.25 346.50
	// contingency 790.60 net 7720.20 VAT 1544.04 total 9264.24
}

func TestTheSmallJobHasNothingToStopIt(t *testing.T) {
	j, b := smack()
	if r := estimate.Run(j, b); r.Problems.HasErrors() || r.Problems.Count(problem.Warning) > 0 {
		t.Errorf("problems: %v", r.Problems)
	}
}

// What the timber order costs is all in the items of the total, and what may be
// wanted beside it all in the rest.
func TestTheTimberOrderIsAllInTheItems(t *testing.T) {
	r := estimate.Run(many(60))
	var ordered, wanted, inTotal, beside money.Amount
	for _, l := range r.Plan.Order {
		ordered = ordered.Add(l.Cost)
	}
	for _, l := range r.Plan.Maybe {
		wanted = wanted.Add(l.Cost)
	}
	for _, i := range r.Priced.Items {
		for _, c := range i.Costs {
			switch {
			case c.Kind != rates.OfTimber:
			case i.Carried.InTotal():
				inTotal = inTotal.Add(c.Cost)
			default:
				beside = beside.Add(c.Cost)
			}
		}
	}
	if ordered.IsZero() || wanted.IsZero() || !ordered.Equal(inTotal) || !wanted.Equal(beside) {
		t.Errorf("ordered %s, in the items %s; wanted %s, in the rest %s", ordered, inTotal, wanted, beside)
	}
}

func TestRunChangesNeitherTheJobNorTheBook(t *testing.T) {
	j, b := smack()
	estimate.Run(j, b)
	wantJob, wantBook := smack()
	if d := cmp.Diff(wantJob, j); d != "" {
		t.Errorf("job (-before +after):\n%s", d)
	}
	if d := cmp.Diff(wantBook, b); d != "" {
		t.Errorf("book (-before +after):\n%s", d)
	}
}

// many is the small job with its members many times over, in sections of a
// hundred.
func many(n int) (job.Job, rates.Book) {
	j, b := smack()
	members := j.Members
	j.Members, j.Sections, j.Items = nil, nil, nil
	for i := range n {
		if i%100 == 0 {
			s := strconv.Itoa(i / 100)
			j.Sections = append(j.Sections, job.Section{Section: s, Title: "Part " + s, Stage: "hull"})
		}
		m := members[i%len(members)]
		m.Ref, m.Section = fmt.Sprintf("%d.%d", i/100, i%100), strconv.Itoa(i/100)
		m.At = at("Members", i+2)
		j.Members = append(j.Members, m)
	}
	j.Gangs = j.Gangs[:1]
	j.Stages = j.Stages[:1]
	return j, b
}

func TestTheSameJobIsPricedTheSameTwice(t *testing.T) {
	j, b := many(60)
	first, second := estimate.Run(j, b), estimate.Run(j, b)
	if d := cmp.Diff(first, second); d != "" {
		t.Errorf("(-first +second):\n%s", d)
	}
}

// The members stand in the workbook as they come; in whichever order, the bill
// is the same.
func TestMembersInAnyOrderMakeTheSameBill(t *testing.T) {
	j, b := many(60)
	first := estimate.Run(j, b)
	j.Members = slices.Clone(j.Members)
	slices.Reverse(j.Members)
	second := estimate.Run(j, b)
	if d := cmp.Diff(first.Bill, second.Bill); d != "" {
		t.Errorf("(-first +second):\n%s", d)
	}
}

func BenchmarkRunThreeThousandMembers(b *testing.B) {
	j, book := many(3000)
	for b.Loop() {
		estimate.Run(j, book)
	}
}

// The price of a job with a simulated contingency and its months do not hang on
// the order of the rows, and the months add up to the bill.
func TestASimulatedContingencyAndTheMonthsFollowTheJobAndNotItsOrder(t *testing.T) {
	j, b := smack()
	j.ContingencyBy, j.Confidence, j.Together, j.DrawNumber = job.BySimulation, percent("80"), percent("20"), 7
	j.Retention, j.Start = percent("5"), time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC)
	for i := range j.Members {
		j.Members[i].Least, j.Members[i].Most = percent("90"), percent("140")
	}
	r := estimate.Run(j, b)
	if r.Problems.HasErrors() || r.Contingency.Simulation == nil || r.Bill.Held.IsZero() {
		t.Fatalf("held %s; %v", r.Bill.Held, r.Problems)
	}
	slices.Reverse(j.Members)
	again := estimate.Run(j, b)
	if d := cmp.Diff(r.Contingency.Simulation.Drivers, again.Contingency.Simulation.Drivers); d != "" {
		t.Errorf("drivers (-first +second):\n%s", d)
	}
	if d := cmp.Diff(r.Cash, again.Cash); d != "" {
		t.Errorf("months (-first +second):\n%s", d)
	}
	var value money.Amount
	for _, m := range r.Cash.Months {
		value = value.Add(m.Value)
	}
	if !value.Equal(r.Bill.Net) || !r.Bill.Held.Decimal().IsInteger() {
		t.Errorf("the months come to %s and the bill to %s, with %s held", value, r.Bill.Net, r.Bill.Held)
	}
}
