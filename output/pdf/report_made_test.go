package pdf

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

func num(s string) decimal.Decimal { return decimal.RequireFromString(s) }
func Typed(s string) quotes.Figure { return quotes.Figure{State: quotes.Given, Value: num(s)} }
func on(y, m, d int) time.Time     { return time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC) }
func standing(d decimal.Decimal) quotes.Figure {
	return quotes.Figure{State: quotes.Given, Value: d}
}

// putOut is a bill for the refit of a smack as it went out, with its own prices:
// section, id, description, unit, quantity, rate, stage.
var putOut = [][7]string{
	{"K", "K1", "Keel: renew aft 4.2 m in oak, 280 x 250 mm, scarphed 1 in 8, bolted", "m", "4.20", "1180.00", "Keel"},
	{"K", "K2", "Sternpost: graving piece at rabbet, oak, 600 x 120 x 60 mm", "nr", "2", "264.00", "Keel"},
	{"F", "F1", "Frames: renew in grown oak, 150 x 150 mm, bevelled", "nr", "14", "612.50", "Framing"},
	{"F", "F2", "Floors: renew in oak, 180 x 150 mm", "nr", "8", "540.00", "Framing"},
	{"F", "F3", "Frame heels: refasten with 20 mm galvanised bolts", "nr", "44", "38.75", "Framing"},
	{"P", "P1", "Garboards: renew in oak, 54 mm, 8 1/2 x 2 1/8 in at the ends", "m", "22.40", "214.00", "Planking"},
	{"P", "P2", "Planking below wale: renew in larch, 48 mm", "m", "128.00", "142.60", "Planking"},
	{"P", "P3", "Seams: rake out, caulk with oakum, pay", "m", "640.00", "11.85", "Planking"},
	{"P", "P4", "Sheathing worm shoe", "m", "16.00", "62.00", "Planking"},
	{"D", "D1", "Deck beams: renew in oak, 130 x 110 mm", "nr", "5", "486.00", "Deck"},
	{"D", "D2", "Deck: renew in Douglas fir, 95 x 45 mm, laid and caulked", "m2", "31.50", "398.00", "Deck"},
	{"D", "D3", "Covering boards: renew in oak", "m", "18.00", "176.00", "Deck"},
	{"R", "R1", "Mainmast: new, grown spruce, 13.8 m", "nr", "1", "6850.00", "Rig"},
	{"R", "R2", "Standing rigging: renew in galvanised wire, served", "sum", "1", "5400.00", "Rig"},
}

// Smack is the whole of that bill: with preliminaries, sums, dayworks, the
// client's contingency and a programme.
func Smack() quotes.Sent {
	s := quotes.Sent{Book: "smack-bill.xlsx", Vessel: "Hopewell", Client: "The Hopewell Trust", Reference: "HW/2026-3", Currency: "GBP",
		Tendered: on(2026, 5, 4), Priced: true,
		Contingency: money.MustAmount("7500.00"), HasHeld: true, Weeks: quotes.Stretch{Weeks: num("24.5"), Known: true}}
	for _, x := range [][2]string{{"K", "Keel and posts"}, {"F", "Framing"}, {"P", "Planking and caulking"}, {"D", "Deck"}, {"R", "Spars and rigging"}} {
		s.Sections = append(s.Sections, quotes.Section{Section: x[0], Title: x[1]})
	}
	for _, x := range [][3]string{{"Keel", "0", "5"}, {"Framing", "4", "11"}, {"Planking", "9", "18"}, {"Deck", "15", "21"}, {"Rig", "19", "24.5"}} {
		s.Stages = append(s.Stages, quotes.Stage{Stage: x[0], From: num(x[1]), To: num(x[2])})
	}
	row := 4
	add := func(l quotes.Line) {
		row++
		l.Priced, l.Carried = true, job.Measured
		l.At = origin.Cell{Book: s.Book, Sheet: "Bill", Row: row}
		s.Lines = append(s.Lines, l)
	}
	for _, x := range putOut {
		q, rate := num(x[4]), money.MustAmount(x[5])
		add(quotes.Line{Fixed: bill.Fixed{ID: bill.OfWork + x[1], Description: x[2], Unit: measure.Unit(x[3]), Quantity: q}, Part: quotes.Work, Ref: x[1], Section: x[0],
			Stage: x[6], Rate: rate, Amount: rate.Times(q)})
	}
	add(quotes.Line{Fixed: bill.Fixed{ID: "P/1", Description: "Slip and berth", Unit: measure.Weeks, Quantity: num("24.5"), Standing: bill.TimeGiven}, Part: quotes.Preliminaries, Ref: "1",
		Rate: money.MustAmount("310.00"), Amount: money.MustAmount("7595.00")})
	add(quotes.Line{Fixed: bill.Fixed{ID: "P/2", Description: "Cover and staging", Unit: measure.Weeks, Quantity: num("20"), Standing: bill.TimeGiven}, Part: quotes.Preliminaries, Ref: "2",
		Rate: money.MustAmount("145.00"), Amount: money.MustAmount("2900.00")})
	add(quotes.Line{Fixed: bill.Fixed{ID: "S/1", Description: "Rot not yet seen under the covering boards", Unit: measure.Sums, Quantity: num("6000"), Standing: string(job.Undefined)}, Part: quotes.Sums,
		Ref: "1", Given: true, Amount: money.MustAmount("6300.00")})
	add(quotes.Line{Fixed: bill.Fixed{ID: "D/1", Description: "shipwright", Unit: measure.Hour, Quantity: num("60")}, Part: quotes.Dayworks, Ref: "", Rate: money.MustAmount("46.00"), Amount: money.MustAmount("2760.00")})
	lines := make([]bill.Fixed, len(s.Lines))
	for n, l := range s.Lines {
		lines[n] = l.Fixed
	}
	s.Fingerprint = bill.Fingerprint(s.Reference, lines)
	return s
}

// FormOf is that bill as a form filled in at its own prices, times a factor.
func FormOf(s quotes.Sent, firm, factor string) quotes.Quote {
	q := quotes.Quote{Book: fmt.Sprintf("%s.xlsx", firm), Firm: firm, Reference: s.Reference, Tax: bill.LeftOut, Weeks: Typed("26"),
		Start: on(2026, 9, 7), Until: on(2026, 9, 1), Signed: "J. Marlow", Dated: on(2026, 6, 12)}
	by := num(factor)
	for n, l := range s.Lines {
		o := quotes.Offered{Fixed: l.Fixed, Mark: l.Mark(), Part: l.Part, Quantity: standing(l.Quantity), At: origin.Cell{Book: q.Book, Sheet: "Bill", Row: n + 5}}
		rate := l.Rate.Times(by).Decimal()
		switch l.Part {
		case quotes.Preliminaries:
			o.Rate, o.Time = standing(rate), o.Quantity
		case quotes.Sums:
			o.Profit = standing(num("0.05"))
		default:
			o.Rate = standing(rate)
		}
		o.Rate.At = origin.Cell{Book: q.Book, Sheet: "Bill", Row: n + 5, Col: 5}
		q.Lines = append(q.Lines, o)
	}
	Reckon(&q)
	q.Fingerprint = s.Fingerprint
	return q
}

// Reckon fills in the amounts of a form and its total as the form does.
func Reckon(q *quotes.Quote) {
	var sum decimal.Decimal
	for n := range q.Lines {
		o := &q.Lines[n]
		a := o.Quantity.Value.Mul(o.Rate.Value).Round(2)
		if o.Part == quotes.Sums {
			a = o.Quantity.Value.Add(o.Quantity.Value.Mul(o.Profit.Value).Round(2))
		}
		o.Amount = quotes.Figure{State: quotes.Reckoned, Value: a, At: o.Rate.At.In(6)}
		sum = sum.Add(a)
	}
	q.Stated = quotes.Figure{State: quotes.Reckoned, Value: sum, At: origin.Cell{Book: q.Book, Sheet: "Offer", Row: 20, Col: 3}}
}

// Line is the line of a form with an ID.
func Line(q *quotes.Quote, id string) *quotes.Offered {
	for n := range q.Lines {
		if q.Lines[n].ID == id {
			return &q.Lines[n]
		}
	}
	panic("no line " + id)
}

// Three are three quotes for it: a form with errors, gaps and a low rate, another
// with tax in its prices and a contingency, and a letter by sections.
func Three(s quotes.Sent) []quotes.Quote {
	a := FormOf(s, "Marlow & Daughters, Shipwrights", "0.88")
	Line(&a, "B/P2").Rate = Typed("78.40")
	Line(&a, "B/F1").Rate = Typed("941.00")
	a.Qualifications = []quotes.Qualification{{Number: 1, Text: "Grown oak subject to availability; sawn oak may be offered for frames 9 to 12."}, {Number: 2, Text: "Price is for work on a slip free by 1 October."}}
	Reckon(&a)
	Line(&a, "B/D3").Rate = quotes.Figure{}
	Line(&a, "B/D3").Amount = quotes.Figure{State: quotes.Reckoned}
	Line(&a, "B/R2").Choice = bill.Excluded
	Line(&a, "B/R2").Rate, Line(&a, "B/R2").Amount = quotes.Figure{}, quotes.Figure{State: quotes.Reckoned}
	Line(&a, "B/K1").Amount = quotes.Figure{State: quotes.Given, Value: num("4995.98"), At: Line(&a, "B/K1").Rate.At.In(6)} // 4.20 at 1,038.40 are 4,361.28
	Line(&a, "B/P4").Rate.Value = Line(&a, "B/P4").Rate.Value.Shift(-1)
	a.Stated = Typed("77350.00")
	a.Stated.At = origin.Cell{Book: a.Book, Sheet: "Offer", Row: 20, Col: 3}

	b := FormOf(s, "Nordhavn Træskibsværft", "1.27")
	b.Tax, b.TaxRate, b.TaxRateGiven, b.Weeks = bill.AddedIn, money.NewPercent(num("20")), true, Typed("22")
	b.Lines = append(b.Lines, quotes.Offered{Fixed: bill.Fixed{Description: "Contingency"}, Part: quotes.Work, Rate: Typed("3600"), Quantity: Typed("1"), Amount: Typed("3600"), At: origin.Cell{Book: b.Book, Sheet: "Bill", Row: 31}})
	Line(&b, "B/P3").Rate = Typed("9.30")
	Reckon(&b)

	c := quotes.Quote{Book: "letter-tollesbury.xlsx", Firm: "Tollesbury Slipways Ltd", Lump: true, Tax: "", Weeks: Typed("30"), Dated: on(2026, 6, 20), Signed: "P. Ashe",
		Stated: Typed("131500.00"), At: origin.Cell{Book: "letter-tollesbury.xlsx", Sheet: "Letter"}}
	for _, x := range [][2]string{{"K", "7100.00"}, {"F", "16200.00"}, {"P", "36900.00"}, {"D", "19900.00"}, {"R", "14100.00"}} {
		c.Lines = append(c.Lines, quotes.Offered{Part: quotes.Work, Section: x[0], Amount: Typed(x[1])})
	}
	c.Qualifications = []quotes.Qualification{{Number: 1, Text: "No work by the tide on Sundays."}}
	return []quotes.Quote{a, b, c}
}

// Compared is quotes set side by side by the usual terms, or others.
func Compared(t testing.TB, s quotes.Sent, all []quotes.Quote, change func(*quotes.Terms)) quotes.Comparison {
	t.Helper()
	terms := quotes.Usual()
	if change != nil {
		change(&terms)
	}
	c, problems := quotes.Compare(s, all, terms)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return c
}

// Costed gives a week a cost, and one qualification a figure.
func Costed(t *quotes.Terms) {
	t.Week = money.MustAmount("420.00")
	t.Figures = []quotes.Priced{{Firm: "Marlow & Daughters, Shipwrights", Text: "Price is for work on a slip free by 1 October.", Amount: money.MustAmount("1800.00")}}
}
