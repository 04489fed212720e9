package bill_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/risk"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/problem"
)

func dec(s string) decimal.Decimal   { return decimal.RequireFromString(s) }
func quoted(s string) money.Price    { return money.NewPrice(dec(s)) }
func percent(s string) money.Percent { return money.NewPercent(dec(s)) }

func equal(t *testing.T, what string, got, want any) {
	t.Helper()
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("%s (-want +got):\n%s", what, d)
	}
}

// cast prices the items of a job and casts its bill, which must cast by hand.
func cast(t testing.TB, j *job.Job, b *rates.Book, g programme.Programme) (bill.Bill, price.Priced, problem.List) {
	t.Helper()
	var rows []takeoff.Row
	for i := range j.Items {
		rows = append(rows, takeoff.Row{Work: j.Items[i].Work, Item: &j.Items[i]})
	}
	p, found := price.Price(j, b, takeoff.Takeoff{Rows: rows}, cutting.Plan{}, labour.Hours{}, g)
	out, more := bill.Cast(j, b, p, risk.Hold(j, &rates.Book{}, labour.Hours{}, programme.Programme{}, p), g)
	found.Join(more)
	for _, fault := range audit(j, b, out) {
		t.Error(fault)
	}
	return out, p, found
}

func costing(ref, section, quantity, cost string) job.Item {
	return job.Item{
		Work:     job.Work{Ref: ref, Section: section},
		Quantity: dec(quantity), Unit: measure.M, Cost: quoted(cost), CostKind: rates.OfSubcontract, Description: "Work " + ref,
	}
}

// whole is a job with something of every part of a bill. Nothing bears
// additions, so that an item's sum is its cost.
//
//	1.1   12.50 m at   41.67 (520.83 / 12.5 = 41.6664)          520.88 (520.875)
//	1.2    3.00 m at  411.52 (1234.56 / 3), zero-rated         1234.56
//	1.3    2.00 m at   50.00, option                            100.00 not added
//	1.4    1.00 m at   75.00, rate only
//	1.10   1.00 m at 2000.00, risk at 30 %                      in D
//	                                            section 1      1755.44
//	2.1    7.00 m at  142.86 (1000.00 / 7), provisional        1000.02
//	                                            section 2      1000.02
//	A 2755.46
//	B 2 weeks at 85.50                                          171.00
//	C 1000.00 + 5 % + 25.00 = 1075.00; daywork 10 h at 40.00 + 20 % = 480.00   1555.00
//	D 10 % of 1755.44 = 175.54; 5 % of 1000.02 = 50.00; 30 % of 2000.00 = 600.00   825.54
func whole() (*job.Job, *rates.Book) {
	zero, option, only, maybe, again := costing("1.2", "1", "3", "1234.56"), costing("1.3", "1", "2", "100"), costing("1.4", "1", "1", "75"),
		costing("1.10", "1", "1", "2000"), costing("2.1", "2", "7", "1000")
	zero.VAT = "Z"
	option.Carried, only.Carried, maybe.Carried, again.Carried = job.Option, job.RateOnly, job.AtRisk, job.Provisional
	maybe.Chance = percent("30")
	j := &job.Job{
		Book: "yard.xlsx",
		Particulars: job.Particulars{
			TenderDate: time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC), VATCode: "S", VATRounding: job.Nearest,
			Contingency: percent("10"), ContingencyOn: job.OnItems, ContingencyShown: job.ClientSum,
		},
		Sections:      []job.Section{{Section: "1", Title: "Hull"}, {Section: "2", Title: "Deck", Contingency: percent("5"), OwnRate: true}},
		Items:         []job.Item{maybe, again, costing("1.1", "1", "12.5", "520.83"), zero, option, only},
		Preliminaries: []job.Preliminary{{Ref: "P1", Description: "Shed", Weekly: quoted("85.50"), Weeks: dec("2"), WeeksGiven: true}},
		Sums:          []job.Sum{{Ref: "S1", Description: "Survey of the keel", Kind: job.Defined, Amount: quoted("1000"), Profit: percent("5"), Attendance: quoted("25")}},
		Dayworks:      []job.Daywork{{Of: "shipwright", Quantity: dec("10"), Addition: percent("20")}},
	}
	b := &rates.Book{
		Labour: []rates.Labour{{Trade: "shipwright", Rate: quoted("40")}},
		VAT: []rates.VAT{
			{Code: "Z", Category: "Z", Meaning: "qualifying ship", Rate: percent("0"), Otherwise: "S"},
			{Code: "S", Category: "S", Meaning: "standard", Rate: percent("20")},
		},
	}
	return j, b
}

// lines is a section as a test states it.
func lines(s bill.Section) []string {
	var out []string
	for _, l := range s.Lines {
		out = append(out, l.Ref+" "+l.Quantity.String()+" "+l.Rate.String()+" "+l.Amount.String()+" "+l.VAT+" "+l.Remark)
	}
	return append(out, s.Title+" "+s.Total.String())
}

// The rest of the bill of whole:
//
//	net    2755.46 + 171.00 + 1555.00 + 825.54 = 5307.00
//	VAT    Z 1234.56 at 0 %; S 4072.44 at 20 % = 814.488 = 814.49
//	total  6121.49; were she no qualifying ship 5307.00 at 20 % = 1061.40, 6368.40
func TestAWholeBillCastsAsByHand(t *testing.T) {
	j, b := whole()
	got, _, found := cast(t, j, b, programme.Programme{})
	if found.HasErrors() {
		t.Errorf("problems: %v", found)
	}
	equal(t, "section 1", lines(got.Sections[0]), []string{
		"1.1 12.5 41.67 520.88 S ", "1.2 3 411.52 1234.56 Z ", "1.3 2 50.00 100.00 S option, not in the total", "1.4 1 75.00 0.00 S rate only", "Hull 1755.44"})
	equal(t, "section 2", lines(got.Sections[1]), []string{"2.1 7 142.86 1000.02 S provisional quantity", "Deck 1000.02"})
	equal(t, "A B C D E", []string{got.Items.String(), got.Prelims.String(), got.SumsDayworks.String(), got.Held.String(), got.Rises.String()},
		[]string{"2755.46", "171.00", "1555.00", "825.54", "0.00"})
	equal(t, "net, VAT, total", []string{got.Net.String(), got.VATTotal.String(), got.Total.String()}, []string{"5307.00", "814.49", "6121.49"})
	equal(t, "otherwise", []string{got.Otherwise.VATTotal.String(), got.Otherwise.Total.String()}, []string{"1061.40", "6368.40"})
	var codes []string
	for _, v := range got.VAT {
		codes = append(codes, v.Code+" "+v.Net.String()+" "+v.VAT.String())
	}
	equal(t, "codes in the order of the sheet", codes, []string{"Z 1234.56 0.00", "S 4072.44 814.49"})
	var rec []string
	for _, r := range got.Reconciled {
		rec = append(rec, r.Ref+" "+string(r.Kind)+" "+r.Sum.String()+" "+r.Amount.String()+" "+r.Difference.String())
	}
	equal(t, "reconciliation", rec, []string{"1.1 subcontract 520.83 520.88 0.05", "1.2 subcontract 1234.56 1234.56 0.00", "2.1 subcontract 1000.00 1000.02 0.02"})
	equal(t, "held for what may be wanted", got.Contingency.Risks, []bill.RiskPart{{Ref: "1.10", Description: "Work 1.10",
		Amount: money.MustAmount("2000.00"), Chance: percent("30"), Held: money.MustAmount("600.00")}})
}

// D of 825.54 goes into the rates by amount, in the order of the Refs 1.1, 1.2, 2.1:
//
//	825.54 x  520.88 / 2755.46 = 156.0560, so 156.06;                520.83 + 156.06 = 676.89 / 12.5 = 54.15, 676.88 (676.875)
//	825.54 x 1755.44 / 2755.46 = 525.9323, so 525.93 - 156.06 = 369.87;  1234.56 + 369.87 = 1604.43 / 3 = 534.81, 1604.43
//	825.54 - 525.93 = 299.61;                                        1000.00 + 299.61 = 1299.61 / 7 = 185.66, 1299.62
func TestAContingencyWithinTheRatesIsNotToBeSeen(t *testing.T) {
	j, b := whole()
	j.ContingencyShown = job.WithinRates
	got, _, found := cast(t, j, b, programme.Programme{})
	if found.HasErrors() {
		t.Errorf("problems: %v", found)
	}
	equal(t, "section 1", lines(got.Sections[0]), []string{
		"1.1 12.5 54.15 676.88 S ", "1.2 3 534.81 1604.43 Z ", "1.3 2 50.00 100.00 S option, not in the total", "1.4 1 75.00 0.00 S rate only", "Hull 2281.31"})
	equal(t, "section 2", lines(got.Sections[1]), []string{"2.1 7 185.66 1299.62 S provisional quantity", "Deck 1299.62"})
	equal(t, "D", got.Held.String(), "0.00")
	equal(t, "parts shown", len(got.Contingency.Parts)+len(got.Contingency.Risks), 0)
	equal(t, "net", got.Net.String(), "5306.93") // 3580.93 + 171.00 + 1555.00
	equal(t, "share of 1.2", []string{got.Reconciled[1].Share.String(), got.Reconciled[1].Difference.String()}, []string{"369.87", "0.00"})
}

// 1.01 held on the one section and 1.00 on the other are 2.01 on two equal items:
// half of it is 1.005, and the odd penny goes to the first by Ref, 2.1, though its
// section stands last.
func TestTheOddPennyOfAContingencyWithinTheRatesGoesByRef(t *testing.T) {
	j, b := whole()
	j.ContingencyShown = job.WithinRates
	j.Items = []job.Item{costing("3.1", "1", "1", "100"), costing("2.1", "2", "1", "100")}
	j.Sections[0].Contingency, j.Sections[0].OwnRate, j.Sections[1].Contingency = percent("1.01"), true, percent("1")
	got, _, _ := cast(t, j, b, programme.Programme{})
	equal(t, "section 1", lines(got.Sections[0]), []string{"3.1 1 101.00 101.00 S ", "Hull 101.00"})
	equal(t, "section 2", lines(got.Sections[1]), []string{"2.1 1 101.01 101.01 S ", "Deck 101.01"})
}

func TestAContingencyWithinTheRatesNeedsRates(t *testing.T) {
	j, b := whole()
	j.ContingencyShown = job.WithinRates
	j.Items = j.Items[:1]
	_, _, found := cast(t, j, b, programme.Programme{})
	equal(t, "code", found[len(found)-1].Code, problem.ContingencyHome)
}

// A credit below nil bears no share of a contingency within the rates.
func TestACreditBearsNoContingency(t *testing.T) {
	j, b := whole()
	j.ContingencyShown = job.WithinRates
	j.Items = append(j.Items, costing("0.1", "1", "1", "-300"))
	got, _, _ := cast(t, j, b, programme.Programme{})
	equal(t, "credit", lines(got.Sections[0])[0], "0.1 1 -300.00 -300.00 S ")
}

// 275 days from the tender to the start and half of 52 weeks, 182, are 457.
// f = 1.05^(457/365.25): ln 1.05 = 0.0487901642, x 1.2511978 = x = 0.0610461468,
//
//	1 + x + x2/2 + x3/6 + x4/24 + ...
//	= 1 + 0.0610461468 + 0.0018633160 + 0.0000379161 + 0.0000005787 + 0.0000000071
//	= 1.0629479647
//
// on 2755.46 + 171.00 + 825.54 = 3752.00: 3752.00 x 0.062948 = 236.180896.
func TestPricesRiseToTheMiddleOfTheProgramme(t *testing.T) {
	j, b := whole()
	j.PriceRises = percent("5")
	j.Start = j.TenderDate.AddDate(0, 0, 275)
	got, _, _ := cast(t, j, b, programme.Programme{Weeks: dec("52")})
	equal(t, "days and factor", []string{got.RiseDays.String(), got.RiseFactor.String()}, []string{"457", "1.062948"})
	equal(t, "E", got.Rises.String(), "236.18")
	equal(t, "net", got.Net.String(), "5543.18")
}

func TestPriceRisesNeedAStart(t *testing.T) {
	j, b := whole()
	j.PriceRises = percent("5")
	got, _, found := cast(t, j, b, programme.Programme{})
	equal(t, "code", found[len(found)-1].Code, problem.RisesStart)
	equal(t, "factor", got.RiseFactor.String(), "1")
}

func TestARiseIsCompounded(t *testing.T) {
	for _, c := range []struct{ percent, days, want string }{
		{"5", "0", "1"},
		{"5", "365.25", "1.05"},
		{"5", "730.5", "1.1025"},
		{"10.25", "182.625", "1.05"},      // the root of 1.1025
		{"-19", "182.625", "0.9"},         // the root of 0.81
		{"10.25", "-182.625", "0.952381"}, // 1 / 1.05
	} {
		equal(t, c.percent+" % over "+c.days+" days", bill.Factor(percent(c.percent), dec(c.days)).String(), c.want)
	}
}

// The rate of a code is the latest not after the tender date, on the bill and in
// its other reading: 4072.44 and 5307.00 at 17.5 % are 712.677 and 928.725.
func TestVATIsAtTheRateOfTheTenderDate(t *testing.T) {
	j, b := whole()
	then, now, next := b.VAT[1], b.VAT[1], b.VAT[1]
	then.Rate, now.Rate, next.Rate = percent("15"), percent("17.5"), percent("20")
	then.From, now.From, next.From = j.TenderDate.AddDate(-2, 0, 0), j.TenderDate, j.TenderDate.AddDate(0, 0, 1)
	b.VAT = []rates.VAT{b.VAT[0], next, then, now}
	got, _, _ := cast(t, j, b, programme.Programme{})
	equal(t, "VAT, and otherwise", []string{got.VATTotal.String(), got.Otherwise.VATTotal.String()}, []string{"712.68", "928.73"})
}

func TestACodeOfVATThatIsNotInForceIsAProblem(t *testing.T) {
	j, b := whole()
	b.VAT[0].From = j.TenderDate.AddDate(0, 0, 1)
	_, _, found := cast(t, j, b, programme.Programme{})
	equal(t, "code", found[len(found)-1].Code, problem.VATPrice)
}

// A crane charged once and by the week makes two lines that say which they are.
func TestTheLinesOfOnePreliminarySayWhichTheyAre(t *testing.T) {
	j, b := whole()
	j.Preliminaries[0].Fixed = quoted("100")
	got, _, _ := cast(t, j, b, programme.Programme{})
	var said []string
	for _, l := range got.Preliminaries {
		said = append(said, l.Ref+" "+l.Description)
	}
	equal(t, "lines", said, []string{"P1a Shed, fixed charge", "P1b Shed, time-related charge"})
}

// The audit is worth nothing if it cannot fail.
func TestTheAuditFindsAPennyTooMuch(t *testing.T) {
	j, b := whole()
	penny := money.Pennies(1)
	for what, change := range map[string]func(*bill.Bill){
		"line":        func(x *bill.Bill) { x.Sections[0].Lines[0].Amount = x.Sections[0].Lines[0].Amount.Add(penny) },
		"section":     func(x *bill.Bill) { x.Sections[1].Total = x.Sections[1].Total.Add(penny) },
		"sum":         func(x *bill.Bill) { x.Sums[0].Total = x.Sums[0].Total.Add(penny) },
		"daywork":     func(x *bill.Bill) { x.Dayworks[0].Rate = x.Dayworks[0].Rate.Add(penny) },
		"contingency": func(x *bill.Bill) { x.Held = x.Held.Add(penny) },
		"net":         func(x *bill.Bill) { x.Net = x.Net.Add(penny) },
		"VAT":         func(x *bill.Bill) { x.VAT[1].VAT = x.VAT[1].VAT.Add(penny) },
		"otherwise":   func(x *bill.Bill) { x.Otherwise.Total = x.Otherwise.Total.Add(penny) },
	} {
		got, _, _ := cast(t, j, b, programme.Programme{})
		change(&got)
		if len(audit(j, b, got)) == 0 {
			t.Errorf("a penny too much in the %s is not found", what)
		}
	}
}
