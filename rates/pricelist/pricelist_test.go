package pricelist

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func price(s string) money.Price { return money.NewPrice(dec(s)) }

func day(s string) time.Time {
	d, err := time.Parse(time.DateOnly, s)
	if err != nil {
		panic(err)
	}
	return d
}

func length(s string) measure.Length {
	l, err := measure.ParseLength(s, "")
	if err != nil {
		panic(err)
	}
	return l
}

func at(sheet string, row int) origin.Cell {
	return origin.Cell{Book: "yard.xlsx", Sheet: sheet, Row: row, Col: 1}
}

// plank is 2 in by 12 in by 6 ft: one cubic foot, or 12 board feet.
func plank() rates.Stock {
	return rates.Stock{At: at("Stock", 2), Stock: "oak plank", Form: rates.Plank, Thickness: length("2 in"), Width: length("12 in"), Length: length("6 ft"),
		Price: price("40"), Unit: measure.Ft3, Measure: rates.True}
}

// log is 48 in round its middle and 9 ft long: 12 in quarter girth, 9 Hoppus feet.
func log() rates.Stock {
	return rates.Stock{At: at("Stock", 3), Stock: "oak log", Form: rates.Log, MidGirth: length("48 in"), Length: length("9 ft"),
		Price: price("12.00"), Unit: measure.HFt, Measure: rates.Hoppus}
}

func yard() *rates.Book {
	return &rates.Book{
		Stock: []rates.Stock{plank(), log(), {At: at("Stock", 4), Stock: "owner's oak", Form: rates.Baulk, ByOwner: true, Unit: measure.M3}},
		Materials: []rates.Material{
			{At: at("Materials", 2), Material: "Spike", Unit: measure.Nr, Pack: dec("50"), Price: price("1.20"), Supplier: "the smith", From: day("2025-02-01")},
			{At: at("Materials", 3), Material: "Spike", Unit: measure.Nr, Pack: dec("50"), Price: price("1.30"), Supplier: "the smith", From: day("2026-02-01")},
			{At: at("Materials", 4), Material: "Oakum", Unit: measure.Kg, Price: price("12.60")},
			{At: at("Materials", 5), Material: "Nail", Unit: measure.Nr, Price: price("0.38")},
			{At: at("Materials", 6), Material: "Gift", Unit: measure.Nr, Price: price("0")},
			{At: at("Materials", 7), Material: "Blasting", Unit: measure.Nr, Price: price("2")},
		},
		Plant: []rates.Plant{
			{At: at("Plant", 2), Plant: "Crane", Each: price("118"), Unit: measure.Lifts},
			{At: at("Plant", 3), Plant: "Cover", Fixed: price("6400"), Weekly: price("335")},
		},
		Subcontract: []rates.Subcontract{{At: at("Subcontract", 2), Work: "Blasting", Unit: measure.M2, Price: price("88")}},
		Labour: []rates.Labour{
			{At: at("Labour", 2), Trade: "Shipwright", Pay: price("23.80")},
			{At: at("Labour", 3), Trade: "Engineer", Rate: price("46")},
		},
		VAT: []rates.VAT{{At: at("VAT", 2), Code: "S", Rate: money.NewPercent(dec("20"))}},
	}
}

func line(key, amount, per string) Line {
	p, ok := ParsePer(per)
	if !ok {
		panic(per)
	}
	return Line{Key: key, Price: dec(amount), Per: p}
}

func terms() Terms { return Terms{Limit: money.NewPercent(dec("25"))} }

func moveOf(t *testing.T, b *rates.Book, l Line, with Terms) Move {
	t.Helper()
	moves := Match(b, []Line{l}, with)
	if len(moves) != 1 {
		t.Fatalf("one line makes %d moves", len(moves))
	}
	return moves[0]
}

// Worked by hand. The plank of one cubic foot holds 12 board feet, 6 ft of length
// and 6 ft2; the log of 9 Hoppus feet holds 9 x 4/pi = 11.4592 ft3 by true measure.
func TestAPriceForAnotherUnitIsConverted(t *testing.T) {
	for _, c := range []struct {
		name, key, price, per, want, change string
	}{
		{"as it stands", "oak plank", "41.555", "ft3", "41.555", "3.9"},
		{"without a unit as it stands", "oak plank", "41.555", "", "41.555", "3.9"},
		{"12 board feet in the foot", "oak plank", "3.50", "bf", "42", "5"},
		{"by the hundred superficial feet", "OAK  Plank", "345.00", "100 super ft", "41.4", "3.5"},
		{"165 cubic feet in the standard", "oak plank", "6600", "standard", "40", "0"},
		{"50 cubic feet in the load", "oak plank", "2050", "load", "41", "2.5"},
		{"a stick of one cubic foot", "oak plank", "43", "each", "43", "7.5"},
		{"6 ft of it", "oak plank", "7", "per ft", "42", "5"},
		{"6 square feet of it", "oak plank", "7.1", "ft2", "42.6", "6.5"},
		{"1500 a cubic metre is 42.475 a cubic foot", "oak plank", "1500", "m3", "42.48", "6.2"},
		{"a log of 9 Hoppus feet", "oak log", "117", "each", "13", "8.3"},
		{"a log by true measure: 10 x 11.4592 / 9", "oak log", "10", "cu ft", "12.73", "6.1"},
		{"a log by the cubic metre: 350 / 27.7361", "oak log", "350", "m3", "12.62", "5.2"},
		{"the yard's pack", "Spike", "66", "pack", "1.32", "1.5"},
		{"a box of the list's own", "Spike", "134", "box of 100", "1.34", "3.1"},
		{"by the gross", "Spike", "194.40", "gross", "1.35", "3.8"},
		{"a nail at less than one has four places", "Nail", "39.55", "per 100", "0.3955", "4.1"},
		{"112 lb in the hundredweight of 50.802 kg", "Oakum", "700", "cwt", "13.78", "9.4"},
		{"a bag of 25 kg", "Oakum", "320", "bag of 25 kg", "12.8", "1.6"},
		{"a lift of the crane", "Crane", "121", "lift", "121", "2.5"},
		{"a week of the cover", "Cover", "345", "week", "345", "3"},
		{"the cover once", "Cover", "6500", "once", "6500", "1.6"},
		{"pay", "Shipwright", "24.60", "h", "24.6", "3.4"},
		{"a rate", "Engineer", "47", "hour", "47", "2.2"},
		{"tax", "S", "21", "", "21", "5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			with := terms()
			with.From = day("2027-01-01")
			m := moveOf(t, yard(), line(c.key, c.price, c.per), with)
			if m.New.String() != c.want || m.Change.Decimal().String() != c.change || m.State == Unlike {
				t.Errorf("%s: %s, %s %%, %q; want %s, %s %%", m.State, m.New, m.Change.Decimal(), m.Why, c.want, c.change)
			}
		})
	}
}

func TestAPriceThatCannotBeConvertedSaysWhy(t *testing.T) {
	bare := yard()
	bare.Stock[0].Length = 0
	for _, c := range []struct {
		name, key, per, why string
	}{
		{"another dimension", "Oakum", "l", "a price per l gives none per kg"},
		{"a pack of nobody knows how many", "Oakum", "pack", "how many are in a pack stands neither in the list nor under Pack"},
		{"a stick of no length", "oak plank", "each", "a plank is measured by thickness, width and length, and one is wanting"},
		{"sawn timber by the Hoppus foot", "oak plank", "hft", "a plank is sold by true measure, not by a rule for round timber"},
		{"a log by the standard", "oak log", "std", "the standard is of squared timber, and a log is round"},
		{"timber by the pack", "oak log", "pack", "timber is not sold by the pack"},
		{"the owner's", "owner's oak", "m3", "the owner supplies it, and it has no price"},
		{"several charges", "Cover", "", "it has several charges, and the line does not say which it is of: a week, once, or each"},
		{"a charge it has not", "Crane", "wk", "it is not charged per wk"},
		{"tax by the hour", "S", "h", "a rate of tax is a percentage"},
		{"a trade by the week", "Engineer", "wk", "a price per wk gives none per h"},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := moveOf(t, bare, line(c.key, "100", c.per), terms())
			if m.State != Unlike || m.Why != c.why {
				t.Errorf("%s: %q, want %q", m.State, m.Why, c.why)
			}
		})
	}
	paid := line("Engineer", "30", "h")
	paid.Of = GivesPay
	if m := moveOf(t, yard(), paid, terms()); m.State != Unlike || m.Why != "the list gives pay, and the row has rate" {
		t.Errorf("pay for a rate is %s: %q", m.State, m.Why)
	}
	shown := line("Oakum", "20", "")
	shown.Percent = true
	if m := moveOf(t, yard(), shown, terms()); m.State != Unlike || m.Why != "a percentage is no price" {
		t.Errorf("a percentage is %s: %q", m.State, m.Why)
	}
}

func TestEveryLineHasItsState(t *testing.T) {
	from := func(l Line, s string) Line { l.From = day(s); return l }
	of := func(l Line, s string) Line { l.Supplier = s; return l }
	for _, c := range []struct {
		name  string
		line  Line
		state State
		why   string
		from  string // of the new row; blank where a cell changes
	}{
		{"up, in its cell", line("Oakum", "13", "kg"), Up, "", ""},
		{"down, in its cell", line("Oakum", "12", "kg"), Down, "", ""},
		{"the same", line("Oakum", "12.600", "kg"), Same, "", ""},
		{"up, with a row of its own", from(line("Spike", "1.40", ""), "2027-01-01"), Up, "", "2027-01-01"},
		{"up, in the row of that day", from(line("Spike", "1.40", ""), "2026-02-01"), Up, "", ""},
		{"dated rows and no day", line("Spike", "1.40", ""), NoDay, "its rows are dated, and no day is given", ""},
		{"a quarter up is not over the limit", line("Oakum", "15.75", "kg"), Up, "", ""},
		{"a penny more is", line("Oakum", "15.76", "kg"), Held, "more than 25 %", ""},
		{"a quarter down is not over the limit", line("Oakum", "9.45", "kg"), Down, "", ""},
		{"a penny less is", line("Oakum", "9.44", "kg"), Held, "more than 25 %", ""},
		{"before a row that follows", from(line("Spike", "1.22", ""), "2025-06-01"), Held, "a row from 2026-02-01 follows", "2025-06-01"},
		{"before every row", from(line("Spike", "1.22", ""), "2024-06-01"), Held, "no price of it holds on that day, only from 2025-02-01", "2024-06-01"},
		{"from another", of(from(line("Spike", "1.32", ""), "2027-01-01"), "the chandler"), Held, "the row is of the smith, and the list of the chandler", "2027-01-01"},
		{"from the same, spelt otherwise", of(from(line("Spike", "1.32", ""), "2027-01-01"), "The  Smith"), Up, "", "2027-01-01"},
		{"of what was free", line("Gift", "1", ""), Held, "it has had no price", ""},
		{"for nothing", line("Oakum", "0", ""), Held, "it would cost nothing", ""},
		{"not there", line("Oakem", "13", "kg"), Unmatched, "", ""},
		{"in two sheets", line("Blasting", "90", ""), Several, "it stands in Materials and in Subcontract", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := moveOf(t, yard(), c.line, terms())
			got := ""
			if !m.From.IsZero() {
				got = m.From.Format(time.DateOnly)
			}
			if m.State != c.state || m.Why != c.why || got != c.from {
				t.Errorf("%s, %q, from %q; want %s, %q, from %q", m.State, m.Why, got, c.state, c.why, c.from)
			}
			if c.state == Held {
				with := terms()
				with.Confirmed = []string{" " + m.Key + " "}
				if m := moveOf(t, yard(), c.line, with); !m.Writes() {
					t.Errorf("confirmed it is %s", m.State)
				}
			}
		})
	}
}

func TestTheNearestKeyIsShownForOneThatIsNotThere(t *testing.T) {
	if m := moveOf(t, yard(), line("oak plnk", "40", ""), terms()); m.Near != "oak plank" {
		t.Errorf("the nearest is %q", m.Near)
	}
}

func TestOneSheetCanBeNamed(t *testing.T) {
	with := terms()
	with.Sheet = Subcontract
	if m := moveOf(t, yard(), line("Blasting", "90", "m2"), with); m.State != Up || m.Sheet != Subcontract {
		t.Errorf("%s in %s: %s", m.State, m.Sheet, m.Why)
	}
}

func TestTheDayOfTheCommandGoesBeforeThatOfTheList(t *testing.T) {
	l := line("Spike", "1.40", "")
	l.From = day("2027-01-01")
	with := terms()
	with.From = day("2027-03-01")
	if m := moveOf(t, yard(), l, with); !m.From.Equal(day("2027-03-01")) {
		t.Errorf("it holds from %s", m.From)
	}
}

func TestLinesOfOneKeyMustAgree(t *testing.T) {
	for _, c := range []struct {
		name   string
		prices []string
		want   []State
	}{
		{"two prices", []string{"13", "13.10"}, []State{Twice, Twice}},
		{"one price twice", []string{"13", "13.00"}, []State{Up, Same}},
		{"one twice and another", []string{"13", "13", "13.10"}, []State{Twice, Twice, Twice}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var lines []Line
			for _, p := range c.prices {
				lines = append(lines, line("Oakum", p, "kg"))
			}
			var got []State
			for _, m := range Match(yard(), lines, terms()) {
				got = append(got, m.State)
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

// Two charges of one plant are two prices, not one twice.
func TestTwoChargesOfOnePlantMakeOneRow(t *testing.T) {
	b := yard()
	b.Plant[1].From = day("2026-01-05")
	with := terms()
	with.From = day("2027-01-01")
	moves := Match(b, []Line{line("Cover", "345", "wk"), line("Cover", "6500", "once")}, with)
	after := After(b, moves)
	if len(after.Plant) != 3 || after.Plant[2].Weekly.String() != "345.00" || after.Plant[2].Fixed.String() != "6500.00" || !after.Plant[2].From.Equal(with.From) {
		t.Errorf("after it: %v", after.Plant)
	}
	if b.Plant[1].Weekly.String() != "335.00" {
		t.Error("the book itself was changed")
	}
}

func TestOldPricesAreListedOldestFirst(t *testing.T) {
	b := yard()
	b.Labour[0].From = day("2024-01-01")
	var got []string
	for _, o := range Stale(b, day("2026-12-01"), 300) {
		got = append(got, string(o.Sheet)+" "+o.Key+" "+o.At.Address()+" "+o.From.Format(time.DateOnly)+" "+o.Price.String())
	}
	want := []string{
		"Stock oak plank A2 0001-01-01 40", "Stock oak log A3 0001-01-01 12",
		"Materials Spike A3 2026-02-01 1.3", "Materials Oakum A4 0001-01-01 12.6", "Materials Nail A5 0001-01-01 0.38",
		"Materials Gift A6 0001-01-01 0", "Materials Blasting A7 0001-01-01 2",
		"Plant Crane A2 0001-01-01 118", "Plant Cover A3 0001-01-01 0", "Subcontract Blasting A2 0001-01-01 88",
		"Labour Shipwright A2 2024-01-01 23.8", "Labour Engineer A3 0001-01-01 46",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if old := Stale(b, day("2026-11-28"), 300); old[2].Key == "Spike" {
		t.Errorf("300 days are more than 300: %v", old[2])
	}
	if old := Stale(b, day("2026-12-01"), 303); old[2].Key == "Spike" {
		t.Errorf("303 days are more than 303: %v", old[2])
	}
}
