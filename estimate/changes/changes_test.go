package changes_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/changes"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// caulked is a job of one item: so many metres of seam at 0.25 h, an hour at so much.
func caulked(book, metres, hour string) changes.Input {
	at := func(sheet string) origin.Cell { return origin.Cell{Book: book, Sheet: sheet, Row: 2, Col: 1} }
	var in changes.Input
	in.Job = job.Job{
		Book: book,
		Particulars: job.Particulars{
			Vessel: "Polly", Client: "The Polly Trust", Yard: "The yard", Reference: "T1", Currency: "GBP", TenderDate: time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC),
			LengthsIn: measure.M, SizesIn: measure.Mm, VATCode: "S", VATRounding: job.Nearest, HoursAWeek: dec("39"), WorkingWeeks: dec("52"),
		},
		Sections: []job.Section{{At: at("Sections"), Section: "1", Title: "Deck"}},
		Items: []job.Item{{
			Work:        job.Work{At: at("Items"), Ref: "1.1", Section: "1", BuildUp: "caulk", Carried: job.Measured, Difficulty: dec("1"), Access: dec("1")},
			Description: "Caulk deck seams", Quantity: dec(metres), QuantityAt: at("Items").In(4), Unit: measure.M,
		}},
	}
	in.Book = rates.Book{
		Labour:   []rates.Labour{{At: at("Labour"), Trade: "caulker", Rate: money.NewPrice(dec(hour))}},
		Norms:    []rates.Norm{{At: at("Norms"), Task: "caulk", Trade: "caulker", Hours: dec("0.25"), Unit: measure.M, Place: rates.Aboard}},
		BuildUps: []rates.BuildUp{{At: at("Build-ups"), Name: "caulk", Part: rates.Task, Item: "caulk", By: rates.ByLength, Quantity: dec("1")}},
		VAT:      []rates.VAT{{At: at("VAT"), Code: "S", Category: "S", Meaning: "standard rate", Rate: money.NewPercent(dec("20"))}},
	}
	return in
}

// between prices two issues and reconciles them.
func between(old, new changes.Input) (changes.Bridge, problem.List) {
	return changes.Reconcile(estimate.Run(old.Job, old.Book), estimate.Run(new.Job, new.Book))
}

// The figures of the package comment, and VAT of 20 % on them.
func ExampleReconcile() {
	b, _ := between(caulked("old.xlsx", "120", "40"), caulked("new.xlsx", "150", "42"))
	fmt.Println("old", b.Old.Net, b.Old.Total)
	for _, s := range b.Shown() {
		if s.Worth.IsZero() {
			continue
		}
		fmt.Println(s.Kind.Title(), s.Net, s.Worth, s.After)
		for _, c := range s.Changes {
			fmt.Println(" ", c.Sheet, c.Key, c.Column, c.Was, "to", c.Now)
		}
		for _, l := range s.Lines {
			fmt.Println(" ", l.Words(), l.Was, "to", l.Now)
		}
	}
	fmt.Println("new", b.New.Net, b.New.Total, "difference", b.Difference())
	// Output:
	// old 1200.00 1440.00
	// Quantities 300.00 360.00 1800.00
	//   Items 1.1 Quantity 120 to 150
	//   Caulk deck seams 1200.00 to 1500.00
	//   VAT S, standard rate 240.00 to 300.00
	// Pay 75.00 90.00 1890.00
	//   Labour caulker Rate 40.00 to 42.00
	//   Caulk deck seams 1500.00 to 1575.00
	//   VAT S, standard rate 300.00 to 315.00
	// new 1575.00 1890.00 difference 450.00
}

func TestIssuesInOtherMoneyHaveNoBridge(t *testing.T) {
	euro := caulked("new.xlsx", "120", "40")
	euro.Job.Currency = "EUR"
	b, found := between(caulked("old.xlsx", "120", "40"), euro)
	if len(b.Steps) > 0 || len(found) != 1 || found[0].Code != problem.IssueCurrency {
		t.Errorf("%d steps, and told of: %v", len(b.Steps), found)
	}
}

// Another heading under which a supplier's list has its prices is told of, and
// moves no price.
func TestHowPriceListsAreReadMovesNoPrice(t *testing.T) {
	old, new := caulked("old.xlsx", "100", "30"), caulked("new.xlsx", "100", "30")
	old.Book.Lists = []rates.PriceList{{List: "mill", Price: "Net price", At: origin.Cell{Book: "old.xlsx", Sheet: "Lists", Row: 2}}}
	new.Book.Lists = []rates.PriceList{{List: "mill", Price: "Netto", At: origin.Cell{Book: "new.xlsx", Sheet: "Lists", Row: 2}}}
	told := changes.Listed(old, new)
	if len(told) != 1 || told[0].Step != changes.Rest || told[0].Column != "Price under" || told[0].Was != "Net price" || told[0].Now != "Netto" {
		t.Errorf("told of: %+v", told)
	}
}
