package job_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

func n(s string) decimal.Decimal     { return decimal.RequireFromString(s) }
func percent(s string) money.Percent { return money.NewPercent(n(s)) }
func price(s string) money.Price     { return money.NewPrice(n(s)) }
func cell(sheet string, row, col int) origin.Cell {
	return origin.Cell{Book: "yard.xlsx", Sheet: sheet, Row: row, Col: col}
}

func date(s string) time.Time {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		panic(err)
	}
	return t
}

// sound is a job of one renewed plank and one item, in which nothing is amiss.
func sound() (*job.Job, *rates.Book) {
	work := func(sheet string, row int, ref string) job.Work {
		return job.Work{
			At: cell(sheet, row, 1), Ref: ref, Section: "4", BuildUp: "renew plank", BuildUpAt: cell(sheet, row, 9),
			Difficulty: n("1"), Access: n("1"), Carried: job.Measured, Least: percent("100"), Most: percent("100"),
			TradeAt: cell(sheet, row, 11), BillItemAt: cell(sheet, row, 12), BillQtyAt: cell(sheet, row, 13),
		}
	}
	j := &job.Job{
		Book: "yard.xlsx",
		Particulars: job.Particulars{
			TenderDate: date("2026-05-01"), Currency: "GBP", VATCode: "Z", VATEvidence: "certificate of registry", DesignedFor: "cargo",
			Tonnage: n("60"), TonnageGiven: true,
			Cells: map[string]origin.Cell{
				"VAT code": cell("Job", 20, 2), "VAT evidence": cell("Job", 21, 2),
				"Gross tonnage": cell("Job", 22, 2), "Designed or adapted for": cell("Job", 23, 2),
			},
		},
		Members: []job.Member{{
			Work: work("Members", 2, "4.1"), Member: "plank", Nr: 1, Treatment: job.Renew, Timber: "oak",
			TreatmentAt: cell("Members", 2, 5), StockAt: cell("Members", 2, 6), Seams: n("1"), Fastening: "spikes",
		}},
		Items: []job.Item{{
			Work: work("Items", 2, "4.2"), Quantity: n("12.5"), QuantityAt: cell("Items", 2, 3), Unit: measure.M,
			CostAt: cell("Items", 2, 7),
		}},
		Stages: []job.Stage{{At: cell("Stages", 2, 1), Stage: "planking", LeastAt: cell("Stages", 2, 4)}},
	}
	j.Items[0].BuildUp = "paint"
	b := &rates.Book{
		BuildUps: []rates.BuildUp{
			{Name: "renew plank", Part: rates.Task, Item: "take off", By: rates.ByOldVolume},
			{Name: "renew plank", Part: rates.Task, Item: "caulk", By: rates.BySeam},
			{Name: "paint", Part: rates.MaterialPart, Item: "paint", By: rates.ByLength},
			{Name: "caulk old", Part: rates.Task, Item: "caulk", By: rates.BySeam},
			{Name: "only new", Part: rates.Task, Item: "caulk", By: rates.BySeam},
		},
		Norms:     []rates.Norm{{Task: "take off", Trade: "shipwright"}, {Task: "caulk", Trade: "caulker"}},
		Labour:    []rates.Labour{{At: cell("Labour", 2, 1), Trade: "shipwright", Rate: price("46")}, {At: cell("Labour", 3, 1), Trade: "caulker", Rate: price("44")}},
		Stock:     []rates.Stock{{At: cell("Stock", 2, 1), PriceAt: cell("Stock", 2, 9), Stock: "oak 3in", Timber: "oak", Price: price("1800")}},
		Materials: []rates.Material{{At: cell("Materials", 2, 1), PriceAt: cell("Materials", 2, 5), Material: "paint", Price: price("14")}, {At: cell("Materials", 3, 1), PriceAt: cell("Materials", 3, 5), Material: "spike", Price: price("0.6")}},
		Plant:     []rates.Plant{{At: cell("Plant", 2, 1), Plant: "crane", Weekly: price("300")}},
		VAT: []rates.VAT{
			{At: cell("VAT", 2, 1), Code: "Z", Category: "Z", Otherwise: "S"},
			{At: cell("VAT", 3, 1), Code: "S", Category: "S", Rate: percent("20")},
		},
		Fastenings: []rates.Fastening{{Rule: "spikes", Material: "spike"}},
	}
	return j, b
}

// TestCheckFinds sets one thing wrong at a time and asks for just that code at
// just that cell.
func TestCheckFinds(t *testing.T) {
	member := func(col int) origin.Cell { return cell("Members", 2, col) }
	for _, c := range []struct {
		name string
		set  func(j *job.Job, b *rates.Book)
		code problem.Code // blank: nothing
		at   origin.Cell
	}{
		{"nothing in a sound job", func(*job.Job, *rates.Book) {}, "", origin.Cell{}},
		{"a renewed member without work", func(j *job.Job, _ *rates.Book) { j.Members[0].BuildUp = "" }, problem.TreatmentWithoutWork, member(5)},
		{"no fault in a retained member without work", func(j *job.Job, _ *rates.Book) {
			j.Members[0].BuildUp, j.Members[0].Treatment = "", job.Retain
		}, "", origin.Cell{}},
		{"no fault in a member with hours of its own", func(j *job.Job, _ *rates.Book) {
			j.Members[0].BuildUp, j.Members[0].Hours, j.Members[0].Trade = "", n("8"), "shipwright"
		}, "", origin.Cell{}},
		{"hours with nobody to work them", func(j *job.Job, _ *rates.Book) { j.Members[0].Hours = n("8") }, problem.HoursWithoutTrade, member(11)},
		{"a trade beside no hours", func(j *job.Job, _ *rates.Book) { j.Members[0].Trade = "shipwright" }, problem.TradeWithoutHours, member(11)},
		{"a deposit on a provisional sum", func(j *job.Job, _ *rates.Book) {
			j.Sums = append(j.Sums, job.Sum{At: origin.Cell{Sheet: "Sums", Row: 9, Col: 1}, Ref: "S9", Kind: job.Undefined, Deposit: percent("30")})
		}, problem.DepositWithoutOrder, origin.Cell{Sheet: "Sums", Row: 9, Col: 1}},
		{"a defects period without retention", func(j *job.Job, _ *rates.Book) { j.DefectsMonths, j.Retention = 12, money.Percent{} }, problem.DefectsWithoutRetention, origin.Cell{Book: "yard.xlsx", Sheet: "Job"}},
		{"a chance on measured work", func(j *job.Job, _ *rates.Book) { j.Members[0].Chance = percent("30") }, problem.ChanceNotAtRisk, member(1)},
		{"a risk without a chance", func(j *job.Job, _ *rates.Book) { j.Members[0].Carried = job.AtRisk }, problem.RiskWithoutChance, member(1)},
		{"no fault in a risk with its chance", func(j *job.Job, _ *rates.Book) {
			j.Members[0].Carried, j.Members[0].Chance = job.AtRisk, percent("30")
		}, "", origin.Cell{}},
		{"a least above the amount", func(j *job.Job, _ *rates.Book) { j.Members[0].Least = percent("110") }, problem.RangeOrder, member(1)},
		{"a most below the amount", func(j *job.Job, _ *rates.Book) { j.Members[0].Most = percent("90") }, problem.RangeOrder, member(1)},
		{"a risk whose range does not rise", func(j *job.Job, _ *rates.Book) {
			j.Risks = []job.Risk{{At: cell("Risks", 2, 1), Ref: "R1", Least: price("5000"), Likely: price("4000"), Most: price("9000")}}
		}, problem.RangeOrder, cell("Risks", 2, 1)},
		{"a bill item in two sections", func(j *job.Job, _ *rates.Book) {
			j.Members[0].BillItem, j.Items[0].BillItem, j.Items[0].Section = "A", "a", "5"
		}, problem.BillItemDiffers, cell("Items", 2, 12)},
		{"a bill item under two VAT codes", func(j *job.Job, _ *rates.Book) {
			j.Members[0].BillItem, j.Items[0].BillItem, j.Items[0].VAT = "A", "A", "S"
		}, problem.BillItemDiffers, cell("Items", 2, 12)},
		{"a bill item out of two purses", func(j *job.Job, _ *rates.Book) {
			j.Members[0].BillItem, j.Items[0].BillItem, j.Members[0].Funding = "A", "A", "grant"
		}, problem.BillItemDiffers, cell("Items", 2, 12)},
		{"a row that joins the line of another by its Ref", func(j *job.Job, _ *rates.Book) {
			j.Items[0].BillItem, j.Items[0].Section = "4.1", "5"
		}, problem.BillItemDiffers, cell("Items", 2, 12)},
		{"no fault in a bill item whose VAT is the Job's, said or unsaid", func(j *job.Job, _ *rates.Book) {
			j.Members[0].BillItem, j.Items[0].BillItem, j.Items[0].VAT = "A", "A", "z"
		}, "", origin.Cell{}},
		{"a second bill quantity", func(j *job.Job, _ *rates.Book) {
			j.Members[0].BillItem, j.Items[0].BillItem = "A", "A"
			j.Members[0].BillQty, j.Members[0].BillUnit = n("12"), measure.M
			j.Items[0].BillQty, j.Items[0].BillUnit = n("15"), measure.M
		}, problem.BillQuantityTwice, cell("Items", 2, 13)},
		{"a bill quantity without a unit", func(j *job.Job, _ *rates.Book) { j.Members[0].BillQty = n("12") }, problem.BillQuantityWithoutUnit, member(13)},
		{"a bill quantity finer than its unit", func(j *job.Job, _ *rates.Book) {
			j.Members[0].BillQty, j.Members[0].BillUnit = n("1.5"), measure.Nr
		}, problem.FinerThanUnit, member(13)},
		{"a quantity finer than its unit", func(j *job.Job, _ *rates.Book) { j.Items[0].Quantity = n("12.345") }, problem.FinerThanUnit, cell("Items", 2, 3)},
		{"a cost without a kind", func(j *job.Job, _ *rates.Book) { j.Items[0].Cost = price("250") }, problem.CostWithoutKind, cell("Items", 2, 7)},
		{"a stock line of another timber", func(j *job.Job, b *rates.Book) {
			j.Members[0].Stock, b.Stock[0].Timber = "oak 3in", "larch"
		}, problem.StockOfOtherTimber, member(6)},
		{"owner's timber with a price", func(_ *job.Job, b *rates.Book) { b.Stock[0].ByOwner = true }, problem.OwnerStockPriced, cell("Stock", 2, 9)},
		{"a trade with a rate and pay", func(_ *job.Job, b *rates.Book) { b.Labour[0].Pay = price("19.50") }, problem.LabourRateTwice, cell("Labour", 2, 1)},
		{"a stage of less than no time", func(j *job.Job, _ *rates.Book) { j.Stages[0].LeastWeeks = n("-2") }, problem.LeastWeeksNegative, cell("Stages", 2, 4)},
		{"a closure that ends before it begins", func(j *job.Job, _ *rates.Book) {
			j.Closures = []job.Closure{{At: cell("Closures", 2, 1), From: date("2026-12-24"), To: date("2026-01-03")}}
		}, problem.ClosureBackwards, cell("Closures", 2, 1)},
		{"a zero rate whose other code begins later", func(_ *job.Job, b *rates.Book) { b.VAT[1].From = date("2026-09-01") }, problem.OtherwiseNotInForce, cell("VAT", 2, 1)},
		{"a zero rate without evidence", func(j *job.Job, _ *rates.Book) { j.VATEvidence = " " }, problem.VATEvidenceMissing, cell("Job", 21, 2)},
		{"a zero rate at 14.99 tons", func(j *job.Job, _ *rates.Book) { j.Tonnage = n("14.99") }, problem.VATTonnage, cell("Job", 22, 2)},
		{"no fault in a zero rate at 15 tons", func(j *job.Job, _ *rates.Book) { j.Tonnage = n("15") }, "", origin.Cell{}},
		{"no fault where the dimensions make 37.45 tons", func(j *job.Job, _ *rates.Book) {
			// 16.50 x 4.60 x 2.10 x 0.235 = 37.457...: the sample of SI 1997/1510 by the factor for VAT.
			j.TonnageGiven, j.Tonnage = false, n("0")
			j.LengthOverall, j.Breadth, j.Depth = 16500*measure.Millimetre, 4600*measure.Millimetre, 2100*measure.Millimetre
		}, "", origin.Cell{}},
		{"a zero rate where the dimensions make under 15 tons", func(j *job.Job, _ *rates.Book) {
			// 10 x 4 x 1.5 x 0.235 = 14.1
			j.TonnageGiven, j.Tonnage = false, n("0")
			j.LengthOverall, j.Breadth, j.Depth = 10*measure.Metre, 4*measure.Metre, 1500*measure.Millimetre
		}, problem.VATTonnage, cell("Job", 22, 2)},
		{"a zero rate with no tonnage to be had", func(j *job.Job, _ *rates.Book) { j.TonnageGiven = false }, problem.VATTonnageUnknown, cell("Job", 22, 2)},
		{"a zero rate for a pleasure craft", func(j *job.Job, _ *rates.Book) { j.DesignedFor = "Pleasure sailing" }, problem.VATRecreation, cell("Job", 23, 2)},
		{"a zero rate with no purpose stated", func(j *job.Job, _ *rates.Book) { j.DesignedFor = "" }, problem.VATRecreation, cell("Job", 23, 2)},
		{"no fault where recreation is denied", func(j *job.Job, _ *rates.Book) { j.DesignedFor = "cargo; not for recreation" }, "", origin.Cell{}},
		{"no fault in a zero rate that hangs on no vessel", func(j *job.Job, b *rates.Book) {
			j.VATEvidence, b.VAT[0].Otherwise = "", ""
		}, "", origin.Cell{}},
		{"a code used in one row alone", func(j *job.Job, _ *rates.Book) {
			j.VATCode, j.Members[0].VAT, j.VATEvidence = "S", "Z", ""
		}, problem.VATEvidenceMissing, cell("Job", 21, 2)},
		{"a vessel that may qualify and bears the standard rate", func(j *job.Job, _ *rates.Book) { j.VATCode = "S" }, problem.VATMayQualify, cell("Job", 20, 2)},
		{"a zero rate for a yacht", func(j *job.Job, _ *rates.Book) { j.DesignedFor = "Gentleman's yacht of 1911" }, problem.VATRecreation, cell("Job", 23, 2)},
		{"an exemption without evidence", func(j *job.Job, b *rates.Book) {
			j.Currency, j.VATEvidence, b.VAT[0].Category = "EUR", "", "E"
		}, problem.VATEvidenceMissing, cell("Job", 21, 2)},
		{"no fault elsewhere in a vessel the law of the United Kingdom would not have", func(j *job.Job, _ *rates.Book) {
			j.Currency, j.Tonnage, j.DesignedFor = "NOK", n("9"), ""
		}, "", origin.Cell{}},
		{"no remark elsewhere that she may be a qualifying ship", func(j *job.Job, _ *rates.Book) { j.Currency, j.VATCode = "EUR", "S" }, "", origin.Cell{}},
		{"a zero rate that bears tax", func(_ *job.Job, b *rates.Book) { b.VAT[0].Rate = percent("5") }, problem.VATCategory, cell("VAT", 2, 1)},
		{"a standard rate of nil", func(_ *job.Job, b *rates.Book) { b.VAT[1].Rate = percent("0") }, problem.VATCategory, cell("VAT", 3, 1)},
		{"no remark on a pleasure craft at the standard rate", func(j *job.Job, _ *rates.Book) {
			j.VATCode, j.DesignedFor = "S", "recreation"
		}, "", origin.Cell{}},
		{"condition 5 retained", func(j *job.Job, _ *rates.Book) {
			j.Members[0].CondGiven, j.Members[0].Condition, j.Members[0].Treatment = true, 5, job.Retain
		}, problem.ConditionAndTreatment, member(5)},
		{"condition 1 renewed", func(j *job.Job, _ *rates.Book) {
			j.Members[0].CondGiven, j.Members[0].Condition = true, 1
		}, problem.ConditionAndTreatment, member(5)},
		{"a member not seen and sure of its price", func(j *job.Job, _ *rates.Book) {
			j.Members[0].CondGiven, j.Members[0].Carried, j.Members[0].Least, j.Members[0].Most = true, job.Measured, percent("100"), percent("100")
		}, problem.NotSeen, member(1)},
		{"no remark on one not seen with a range", func(j *job.Job, _ *rates.Book) {
			j.Members[0].CondGiven, j.Members[0].Carried, j.Members[0].Least, j.Members[0].Most = true, job.Provisional, percent("100"), percent("130")
		}, "", origin.Cell{}},
		{"no remark on one not seen and carried as a risk", func(j *job.Job, _ *rates.Book) {
			m := &j.Members[0]
			m.CondGiven, m.Carried, m.Chance, m.Least, m.Most = true, job.AtRisk, percent("30"), percent("100"), percent("100")
		}, "", origin.Cell{}},
		{"seams charged twice in a section", func(j *job.Job, _ *rates.Book) { j.Items[0].BuildUp = "caulk old" }, problem.SeamsTwice, cell("Items", 2, 9)},
		{"no remark on seams of two sections", func(j *job.Job, _ *rates.Book) {
			j.Items[0].BuildUp, j.Items[0].Section = "caulk old", "5"
		}, "", origin.Cell{}},
		{"no remark where the member has no seams", func(j *job.Job, _ *rates.Book) {
			j.Items[0].BuildUp, j.Members[0].Seams = "caulk old", n("0")
		}, "", origin.Cell{}},
		{"a build-up that takes nothing off", func(j *job.Job, _ *rates.Book) { j.Members[0].BuildUp = "only new" }, problem.NoTakingOff, member(9)},
		{"no remark where another row removes the old plank", func(j *job.Job, _ *rates.Book) {
			j.Members[0].BuildUp = "only new"
			off := j.Members[0]
			off.Ref, off.Treatment = "4.0", job.Remove
			j.Members = append(j.Members, off)
		}, "", origin.Cell{}},
		{"an old price of timber that may be bought", func(_ *job.Job, b *rates.Book) { b.Stock[0].From = date("2025-04-30") }, problem.OldPrice, cell("Stock", 2, 9)},
		{"no remark on a price a year old to the day", func(_ *job.Job, b *rates.Book) { b.Stock[0].From = date("2025-05-01") }, "", origin.Cell{}},
		{"an old price of a build-up's material", func(_ *job.Job, b *rates.Book) { b.Materials[0].From = date("2024-01-01") }, problem.OldPrice, cell("Materials", 2, 5)},
		{"an old price of a fastening", func(_ *job.Job, b *rates.Book) { b.Materials[1].From = date("2024-01-01") }, problem.OldPrice, cell("Materials", 3, 5)},
		{"an old rate of a norm's trade", func(_ *job.Job, b *rates.Book) { b.Labour[1].From = date("2024-01-01") }, problem.OldPrice, cell("Labour", 3, 1)},
		{"an old price of plant in the preliminaries", func(j *job.Job, b *rates.Book) {
			b.Plant[0].From = date("2024-01-01")
			j.Preliminaries = []job.Preliminary{{Plant: "crane"}}
		}, problem.OldPrice, cell("Plant", 2, 1)},
		{"no remark on an old price nothing uses", func(_ *job.Job, b *rates.Book) { b.Plant[0].From = date("2024-01-01") }, "", origin.Cell{}},
		{"no remark on an old price that a newer one followed", func(_ *job.Job, b *rates.Book) {
			b.Materials[0].From = date("2024-01-01")
			newer := b.Materials[0]
			newer.From = date("2026-01-01")
			b.Materials = append(b.Materials, newer)
		}, "", origin.Cell{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := sound()
			c.set(j, b)
			type found struct {
				Code problem.Code
				At   origin.Cell
			}
			var want, got []found
			if c.code != "" {
				want = []found{{c.code, c.at}}
			}
			problems := job.Check(j, b)
			for _, p := range problems {
				got = append(got, found{p.Code, p.At})
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("problems (-want +got):\n%s\n%v", diff, problems)
			}
		})
	}
}

func TestProblemsReadWell(t *testing.T) {
	j, b := sound()
	j.Items[0].Quantity = n("12.345")
	j.VATEvidence = ""
	want := []string{
		`yard.xlsx: Items!C2: error: "12.345" is finer than "m" is billed in; at most 2 decimal places are wanted, such as 12.35 [finer-than-unit]`,
		`yard.xlsx: Job!B21: warning: work is zero-rated by "Z", and VAT evidence is blank [vat-evidence-missing]`,
	}
	var got []string
	for _, p := range job.Check(j, b) {
		got = append(got, p.String())
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
}

func TestAnUnpricedBillAsksForNoBuildUpsOrPrices(t *testing.T) {
	j, _ := sound()
	j.Members[0].BuildUp, j.VATEvidence = "", ""
	if got := job.CheckUnpriced(j); len(got) != 0 {
		t.Errorf("problems: %v", got)
	}
	j.Items[0].Quantity = n("12.345")
	if got := job.CheckUnpriced(j); len(got) != 1 || got[0].Code != problem.FinerThanUnit {
		t.Errorf("problems %v; want that of the quantity alone", got)
	}
}

func BenchmarkCheckOf5000Rows(b *testing.B) {
	j, book := sound()
	m, i := j.Members[0], j.Items[0]
	j.Members, j.Items = nil, nil
	for k := range 2500 {
		m.Ref, i.Ref = fmt.Sprintf("4.%d", k), fmt.Sprintf("5.%d", k)
		m.BillItem = fmt.Sprintf("M%d", k/10)
		j.Members, j.Items = append(j.Members, m), append(j.Items, i)
	}
	for k := range 500 {
		book.BuildUps = append(book.BuildUps, rates.BuildUp{Name: fmt.Sprintf("other %d", k), Part: rates.Task, Item: "caulk", By: rates.BySeam})
	}
	for b.Loop() {
		job.Check(j, book)
	}
}
