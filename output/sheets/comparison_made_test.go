package sheets_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func pounds(s string) money.Amount { return money.MustAmount(s) }

// sentBill is a bill of so many lines of measured work in sections of forty, with
// an option and a line of which only the rate is asked, and a few of every other part.
func sentBill(lines int) quotes.Sent {
	s := quotes.Sent{Book: "bill.xlsx", Vessel: "Ketch Example", Client: "The Example Ketch Trust", Reference: "EK-2026-3", Currency: "GBP",
		Tendered: time.Date(2026, time.March, 2, 0, 0, 0, 0, time.UTC), Priced: true, Contingency: pounds("4000"), HasHeld: true,
		Weeks:  quotes.Stretch{Weeks: dec("22.5"), Known: true},
		Stages: []quotes.Stage{{Stage: "Hauling", From: dec("0"), To: dec("2")}, {Stage: "Framing", From: dec("2"), To: dec("9.5")}, {Stage: "Planking", From: dec("8"), To: dec("22.5")}},
	}
	add := func(l quotes.Line) {
		l.At = origin.Cell{Book: s.Book, Sheet: string(l.Part), Row: len(s.Lines) + 6}
		if !l.Quantity.IsZero() && !l.Rate.IsZero() {
			l.Amount = l.Rate.Times(l.Quantity)
		}
		l.Priced = !l.Amount.IsZero()
		s.Lines = append(s.Lines, l)
	}
	works := []string{"Renew frame, oak 6 x 6 in as sawn, each 8' long, fayed to the keel and bolted", "Renew plank, larch 2 1/2 in, steamed, fastened with two spikes and one bolt to each frame",
		"Graving piece let into the covering board", "Reef out and caulk seam, two threads of oakum, payed", "Refasten strake with copper-nickel bolts", "Take off and refix rubbing strake"}
	stages := []string{"Hauling", "Framing", "Planking"}
	sections := (lines + 39) / 40
	for k := range sections {
		key := string(rune('A'+k%26)) + fmt.Sprint(k/26+1)
		if sections <= 26 {
			key = key[:1]
		}
		s.Sections = append(s.Sections, quotes.Section{Section: key, Title: []string{"Taking down and shoring", "Framing", "Planking and caulking", "Decks"}[k%4]})
		for n := range min(40, lines-40*k) {
			ref := fmt.Sprintf("%s%d", key, n+1)
			l := quotes.Line{Fixed: bill.Fixed{ID: bill.OfWork + ref, Description: works[(n+k)%len(works)], Unit: []measure.Unit{measure.Nr, measure.M, measure.Nr, measure.M, measure.M, measure.M}[(n+k)%6]},
				Part: quotes.Work, Ref: ref, Section: key, Carried: job.Measured, Stage: stages[(k+n/20)%3], Rate: money.Pennies(int64(1250 + (n*7919+k*104729)%61000))}
			l.Quantity = decimal.New(int64(1+(n*31+k*17)%48), 0)
			if l.Unit == measure.M {
				l.Quantity = decimal.New(int64(150+(n*977+k*331)%9000), -2)
			}
			switch {
			case n == min(40, lines-40*k)-1 && k%3 == 0:
				l.Carried, l.Standing = job.Option, "option"
			case n == min(40, lines-40*k)-2 && k%3 == 1:
				l.Carried, l.Standing, l.Quantity, l.Unit = job.RateOnly, "rate only", decimal.Decimal{}, measure.Hour
			}
			add(l)
		}
	}
	add(quotes.Line{Fixed: bill.Fixed{ID: bill.OfPreliminaries + "1", Description: "Slip, hauling and launching", Unit: measure.One, Quantity: dec("1")}, Part: quotes.Preliminaries, Ref: "P1", Carried: job.Measured, Stage: "to Hauling", Amount: pounds("3200")})
	add(quotes.Line{Fixed: bill.Fixed{ID: bill.OfPreliminaries + "2", Description: "Cover over the vessel", Unit: measure.Weeks, Quantity: dec("22.5"), Standing: bill.TimeGiven}, Part: quotes.Preliminaries, Ref: "P2", Carried: job.Measured, Rate: pounds("210")})
	add(quotes.Line{Fixed: bill.Fixed{ID: bill.OfSums + "1", Description: "Work to the keelson behind the ballast, undefined", Unit: measure.Sums, Quantity: dec("5000"), Standing: string(job.Undefined)}, Part: quotes.Sums, Ref: "S1", Given: true, Carried: job.Measured, Amount: pounds("5250")})
	add(quotes.Line{Fixed: bill.Fixed{ID: bill.OfSums + "2", Description: "Survey of the shaft", Unit: measure.Sums, Standing: string(job.Quotation)}, Part: quotes.Sums, Ref: "S2", Carried: job.Measured, Amount: pounds("1800")})
	add(quotes.Line{Fixed: bill.Fixed{ID: bill.OfDayworks + "1", Description: "Shipwright", Unit: measure.Hour, Quantity: dec("60")}, Part: quotes.Dayworks, Ref: "D1", Carried: job.Measured, Rate: pounds("44.5")})
	add(quotes.Line{Fixed: bill.Fixed{ID: bill.OfDayworks + "2", Description: "Timber", Unit: measure.Sums, Quantity: dec("1500")}, Part: quotes.Dayworks, Ref: "D2", Carried: job.Measured, Amount: pounds("1725")})
	return s
}

func given(d decimal.Decimal) quotes.Figure { return quotes.Figure{State: quotes.Given, Value: d} }

// priced is a form that came back with the bill's own rates times a factor, that
// of each line swayed a little by its place.
func priced(s quotes.Sent, firm string, hundredths int64) quotes.Quote {
	q := quotes.Quote{Book: "quote-" + firm[:1] + ".xlsx", Firm: firm, Tax: bill.LeftOut, Reference: s.Reference, Signed: "A. Master",
		Weeks: given(dec("24")), Until: time.Date(2026, time.July, 1, 0, 0, 0, 0, time.UTC), At: origin.Cell{Book: "quote.xlsx", Sheet: "Offer"}}
	q.Lines = make([]quotes.Offered, 0, len(s.Lines)+2)
	total := decimal.Decimal{}
	for n, l := range s.Lines {
		times := decimal.New(hundredths+int64(n*37%21)-10, -2)
		o := quotes.Offered{Fixed: l.Fixed, Mark: l.Mark(), Part: l.Part, Quantity: given(l.Quantity), At: origin.Cell{Book: q.Book, Sheet: "Bill", Row: n + 6}}
		rate := l.Rate.Decimal().Mul(times).Round(2)
		amount := l.Quantity.Mul(rate).Round(2)
		switch {
		case l.Given:
			o.Profit, o.Attendance = given(dec("0.05")), given(dec("120"))
			amount = l.Quantity.Add(l.Quantity.Mul(dec("0.05")).Round(2)).Add(dec("120"))
		case l.Part == quotes.Sums:
			o.Quantity = given(l.Amount.Decimal().Mul(times).Round(2))
			o.Profit = given(dec("0.1"))
			amount = o.Quantity.Value.Add(o.Quantity.Value.Mul(dec("0.1")).Round(2))
		case l.Part == quotes.Dayworks && l.Unit != measure.Hour:
			o.Addition = given(dec("0.15"))
			amount = l.Quantity.Add(l.Quantity.Mul(dec("0.15")).Round(2))
		case l.Part == quotes.Preliminaries && l.Rate.IsZero():
			o.Once, o.Time = given(l.Amount.Decimal().Mul(times).Round(2)), o.Quantity
			amount = o.Once.Value
		case l.Part == quotes.Preliminaries:
			o.Rate, o.Time = given(rate), o.Quantity
		default:
			o.Rate = given(rate)
		}
		if l.Carried == job.RateOnly {
			o.Amount = quotes.Figure{State: quotes.Words, Text: "rate only"}
		} else {
			o.Amount = quotes.Figure{State: quotes.Reckoned, Value: amount}
		}
		if l.InTotal() {
			total = total.Add(amount)
		}
		q.Lines = append(q.Lines, o)
	}
	q.Stated = quotes.Figure{State: quotes.Reckoned, Value: total}
	return q
}

// letter is a letter that gives a sum for every section and part, and nothing of one line.
func letter(s quotes.Sent, firm string, hundredths int64) quotes.Quote {
	q := quotes.Quote{Book: "letter.xlsx", Firm: firm, Lump: true, Tax: bill.LeftOut, Reference: s.Reference, At: origin.Cell{Book: "letter.xlsx", Sheet: "Letter"}}
	total := decimal.Decimal{}
	put := func(section string, p quotes.Part, of func(quotes.Line) bool) {
		var a money.Amount
		for _, l := range s.Lines {
			if l.InTotal() && of(l) {
				a = a.Add(l.Amount)
			}
		}
		sum := a.Decimal().Mul(decimal.New(hundredths, -2)).Round(0)
		total = total.Add(sum)
		q.Lines = append(q.Lines, quotes.Offered{Part: p, Section: section, Amount: given(sum), At: origin.Cell{Book: q.Book, Sheet: "By section", Row: len(q.Lines) + 5}})
	}
	for _, sec := range s.Sections {
		put(sec.Section, quotes.Work, func(l quotes.Line) bool { return l.Part == quotes.Work && l.Section == sec.Section })
	}
	for _, p := range quotes.Parts()[1:] {
		put("", p, func(l quotes.Line) bool { return l.Part == p })
	}
	q.Stated = given(total)
	return q
}

const (
	hostileLink = `=HYPERLINK("http://example.test/","press here")`
	hostileCall = "+1-cmd|' /C calc'!A0"
	hostileAt   = "@SUM(A1:A9)"
)

// threeOffers are a careful form with value added tax in it, a letter by
// sections, and a form with all that may be amiss and words meant to harm.
func threeOffers(s quotes.Sent) []quotes.Quote {
	a := priced(s, "Able & Daughters [Slip 2]", 104)
	a.Tax, a.TaxRate, a.TaxRateGiven = bill.AddedIn, money.NewPercent(dec("20")), true
	a.Qualifications = []quotes.Qualification{{Number: 1, Text: "Docking at spring tides alone; waiting for one is not in our price."}, {Number: 2, Text: "Owner to clear the hold."}}
	b := letter(s, "Baker's Yard", 97)
	b.Qualifications = []quotes.Qualification{{Number: 1, Text: hostileLink}}
	c := priced(s, "=2+3", 81)
	c.Weeks = given(dec("31"))
	c.Lines[0].Rate.Value = c.Lines[0].Rate.Value.Mul(dec("2.9")).Round(2)
	c.Lines[1].Amount.Value = c.Lines[1].Amount.Value.Add(dec("100"))
	c.Lines[2].Rate, c.Lines[2].Choice, c.Lines[2].Amount = quotes.Figure{}, bill.Excluded, quotes.Figure{State: quotes.Reckoned}
	c.Lines[3].Rate, c.Lines[3].Amount = quotes.Figure{}, quotes.Figure{State: quotes.Reckoned}
	c.Lines[4].Rate, c.Lines[4].Choice, c.Lines[4].Amount = quotes.Figure{}, bill.ByOwner, quotes.Figure{State: quotes.Reckoned}
	c.Lines[5].Rate, c.Lines[5].Choice, c.Lines[5].Amount = quotes.Figure{}, bill.Included, quotes.Figure{State: quotes.Reckoned}
	c.Lines[6].Rate = quotes.Figure{State: quotes.Words, Text: hostileCall}
	c.Lines[6].Amount = quotes.Figure{State: quotes.Reckoned}
	c.Lines[7].Remark = hostileAt
	c.Lines[8].Rate.Value = c.Lines[8].Rate.Value.Shift(-1)
	c.Lines = append(c.Lines, quotes.Offered{Fixed: bill.Fixed{Description: hostileLink, Unit: measure.One}, Part: quotes.Work, Section: s.Sections[0].Section, Amount: given(dec("640")), At: origin.Cell{Book: c.Book, Sheet: "Bill", Row: 90}},
		quotes.Offered{Fixed: bill.Fixed{Description: "contingency", Unit: measure.One}, Part: quotes.Work, Amount: given(dec("2000")), At: origin.Cell{Book: c.Book, Sheet: "Bill", Row: 91}})
	c.Qualifications = []quotes.Qualification{{Number: 1, Text: hostileCall}, {Number: 2, Text: "Timber at today's price."}}
	return []quotes.Quote{a, b, c}
}

// compared is a comparison that holds no problem.
func compared(t testing.TB, s quotes.Sent, all []quotes.Quote, terms quotes.Terms) quotes.Comparison {
	t.Helper()
	c, found := quotes.Compare(s, all, terms)
	if found.HasErrors() {
		t.Fatal(found)
	}
	return c
}

func clientsTerms() quotes.Terms {
	t := quotes.Usual()
	t.Week = pounds("350")
	t.Figures = []quotes.Priced{{Firm: "Able & Daughters [Slip 2]", Text: "Owner to clear the hold.", Amount: pounds("850")}, {Firm: "=2+3", Text: "timber at today's price.", Amount: pounds("1250.5")}}
	return t
}
