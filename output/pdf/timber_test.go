package pdf_test

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/cash"
	"futtock/estimate/cutting/order"
	"futtock/estimate/price"
	"futtock/estimate/risk"
	"futtock/output/pdf"
	"futtock/rates/measure"
	"futtock/rates/money"
)

func timber(t testing.TB, r estimate.Result) []byte {
	t.Helper()
	data, err := pdf.Timber(r)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// One run of words, whatever lines they stand on.
func flowing(s string) string { return strings.Join(strings.Fields(s), " ") }

func TestTheTimberOrderNamesEveryStickAndEveryMember(t *testing.T) {
	r := demonstration(t)
	text := flowing(words(t, timber(t, r)))
	for _, l := range append(slices.Clone(r.Plan.Order), r.Plan.Maybe...) {
		if !strings.Contains(text, l.Stock.Stock) {
			t.Errorf("the stock line %q is not in it", l.Stock.Stock)
		}
	}
	for _, p := range r.Plan.Pieces {
		if p.Count > 0 && !regexp.MustCompile(`(^| )`+regexp.QuoteMeta(p.Ref)+`( |$)`).MatchString(text) {
			t.Errorf("the row %q takes timber and is not in it", p.Ref)
		}
	}
	for _, want := range []string{"How to read the drawings", "Cautions",
		"blocks and shores", "Lifts are planned", "Work at height", "confined spaces", "hot work near oakum, pitch", "lead paint and antifouling", "asbestos", "Dust",
		"Noise and hand-arm vibration", "defer to local law, the surveyor to class or flag, and licensed practice", "Timber order", "Sawing drawings", "Knees, spars and sticks by number", "Timber by volume",
		"Cutting list by member", "oak 4 mm", "defer to local law", "Order by", "Page 1 of "} {
		if !strings.Contains(text, want) {
			t.Errorf("it does not say %q", want)
		}
	}
}

// The figures of the drawings and the list are the plan's: so many sticks of every
// pattern, and of every piece so many from each.
func TestTheTimberOrderCountsAsThePlanDoes(t *testing.T) {
	r := pdf.Handmade(measure.M, measure.Mm)
	text := flowing(words(t, timber(t, r)))
	for _, want := range []string{
		"PL1 Member PL1, both sides 1 54 × 150 mm 5.10 m oak log 600:",
		"CE1 Member CE1, both sides 1 40 × 180 mm 4.00 m oak log 450:",
		"FR4 Member FR4, both sides 1 70 × 110 mm 1.92 m oak crook:",
		"FR4 70 × 110 mm × 1.92 m, sweep 175 mm on 1.80 m, Member FR4",
		"3 of 40 × 180 mm × 4.00 m, Member CE1",
		"keep 54 × 100 mm × 2.00 m, off-cut",
		"2 sticks sawn so; scale 1:", "3 sticks sawn so; scale 1:15",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("it does not say %q", want)
		}
	}
}

// There is no money in the document: all of it may change and not a byte does.
func TestThereIsNoMoneyInTheTimberOrder(t *testing.T) {
	r := demonstration(t)
	was := timber(t, r)
	other := money.Pennies(987654321)
	change := func(lines []order.Line) []order.Line {
		lines = slices.Clone(lines)
		for i := range lines {
			l := &lines[i]
			l.Each, l.Cost, l.Material, l.InHand, l.Sections = other, other, other, other, nil
			l.Stock.Price, l.Stock.Sawing, l.Stock.Delivery = money.PriceOf(other), money.PriceOf(other), money.PriceOf(other)
			l.Patterns = slices.Clone(l.Patterns)
			for k := range l.Patterns {
				l.Patterns[k].Offcuts = slices.Clone(l.Patterns[k].Offcuts)
				for n := range l.Patterns[k].Offcuts {
					l.Patterns[k].Offcuts[n].Worth = other
				}
			}
		}
		return lines
	}
	r.Plan.Order, r.Plan.Maybe = change(r.Plan.Order), change(r.Plan.Maybe)
	r.Plan.Shares, r.Plan.Species, r.Plan.Bound = nil, nil, order.Bound{}
	r.Priced, r.Bill, r.Cash, r.Contingency = price.Priced{}, bill.Bill{}, cash.Cash{}, risk.Contingency{}
	if !bytes.Equal(was, timber(t, r)) {
		t.Error("the document changes with the money")
	}
	text := words(t, was)
	if found := regexp.MustCompile(`[£$€]|GBP|\bprice|\brate\b|\bcost|profit|margin`).FindAllString(text, -1); found != nil {
		t.Errorf("it speaks of money: %q", found)
	}
}

func TestTheTimberOrderIsTheSameEveryTimeAndSound(t *testing.T) {
	for name, r := range map[string]estimate.Result{"the demonstration": demonstration(t), "by hand, in feet": pdf.Handmade(measure.Ft, measure.In)} {
		t.Run(name, func(t *testing.T) {
			data := timber(t, r)
			if !bytes.Equal(data, timber(t, r)) {
				t.Error("two runs give different bytes")
			}
			read(t, data, "qpdf", "--check", "FILE")
			for line := range strings.Lines(read(t, data, "pdffonts", "FILE")) {
				if strings.Contains(line, "no  no") {
					t.Errorf("a font is not in the file: %s", line)
				}
			}
		})
	}
}

// A character the type lacks is told by its number wherever it stands, on the drawings too.
func TestNoBoxStandsForAMissingCharacter(t *testing.T) {
	r := pdf.Handmade(measure.M, measure.Mm)
	for i := range r.Plan.Order {
		for k := range r.Plan.Order[i].Patterns {
			for n := range r.Plan.Order[i].Patterns[k].Cuts {
				if c := &r.Plan.Order[i].Patterns[k].Cuts[n]; c.Ref == "KE1" {
					c.Ref = "船1"
				}
			}
		}
	}
	text := words(t, timber(t, r))
	if !strings.Contains(text, "[U+8239]1") || strings.Contains(text, "船") {
		t.Error("a character the type lacks is printed as it is")
	}
}

func TestAJobWithoutTimberHasItsTimberOrder(t *testing.T) {
	r := pdf.Handmade(measure.M, measure.Mm)
	r.Plan = order.Plan{}
	if text := words(t, timber(t, r)); !strings.Contains(text, "No timber is wanted.") {
		t.Errorf("it says:\n%s", text)
	}
}

func TestHundredsOfPatternsAreDrawnInGoodTime(t *testing.T) {
	r := pdf.ManyPatterns(300)
	start := time.Now()
	data := timber(t, r)
	if took := time.Since(start); took > 10*time.Second {
		t.Errorf("300 patterns took %v", took)
	}
	if n := bytes.Count(data, []byte("/Type /Page\n")); n < 30 {
		t.Errorf("300 patterns stand on %d pages", n)
	}
}
