package pdf_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/risk"
	"futtock/output/pdf"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/templates/wording"
)

// single is text with every run of spaces and new lines made one space.
func single(s string) string { return strings.Join(strings.Fields(s), " ") }

func TestTheTenderIsASoundDocumentWithItsTotals(t *testing.T) {
	r := demonstration(t)
	data := tender(t, r)
	read(t, data, "qpdf", "--check", "FILE")

	text := single(words(t, data))
	b := r.Bill
	for _, want := range []string{
		"Tender for refit", r.Job.Vessel, r.Job.Client, r.Job.Yard, r.Job.Reference, "14 September 2026", "13 December 2026",
		"£" + b.Net.Grouped(), "£" + b.Total.Grouped(), "£" + b.Otherwise.Total.Grouped(),
		"(" + wording.InWords(b.Net, "GBP") + ")", "(" + wording.InWords(b.Total, "GBP") + ")",
		b.Items.Grouped(), b.Prelims.Grouped(), b.SumsDayworks.Grouped(), b.Held.Grouped(), b.Rises.Grouped(),
		"Exclusions and assumptions", "What is provisional, and why", "Contingency in the sum " + b.Held.Grouped(), "Value Added Tax Act 1994, Schedule 8, Group 8", "certificate of registry",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	pages := len(regexp.MustCompile(`Page \d+ of \d+`).FindAllString(text, -1))
	if pages < 12 || pages > 30 {
		t.Errorf("the demonstration's tender has %d pages", pages)
	}
	for n := 1; n <= pages; n++ {
		if want := fmt.Sprintf("Page %d of %d", n, pages); !strings.Contains(text, want) {
			t.Errorf("no page says %q", want)
		}
	}
	for _, s := range b.Sections {
		if !strings.Contains(text, "Carried to summary: "+s.Title+" "+s.Total.Grouped()) {
			t.Errorf("section %s does not carry %s", s.Section, s.Total)
		}
	}
	for _, s := range r.Programme.Stages {
		if !strings.Contains(text, fmt.Sprintf("%s %s %s %s", s.Stage.Stage, s.Earliest.StringFixed(1), s.Weeks.StringFixed(1), s.EarliestFinish.StringFixed(1))) {
			t.Errorf("stage %s is not in the programme with its weeks", s.Stage.Stage)
		}
	}
	info := read(t, data, "pdfinfo", "FILE")
	for _, want := range []string{"Tender for the refit of " + r.Job.Vessel, r.Job.Yard, "595.28 x 841.89 pts (A4)"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo has no %q", want)
		}
	}
}

func TestTheSameResultIsTheSameBytes(t *testing.T) {
	r := demonstration(t)
	want := tender(t, r)
	var all sync.WaitGroup
	got := make([][]byte, 4)
	for i := range got {
		all.Go(func() { got[i], _ = pdf.Tender(r) })
	}
	all.Wait()
	for i := range got {
		if !bytes.Equal(got[i], want) {
			t.Errorf("run %d is not the same bytes", i)
		}
	}
}

// What the client must not see is taken out of the result: the tender must
// come out the same without it.
func TestTheTenderHoldsNothingOfTheMakeUp(t *testing.T) {
	r := demonstration(t)
	want := tender(t, r)
	r.Hours, r.Plan, r.Contingency = labour.Hours{}, cutting.Plan{}, risk.Contingency{}
	r.Book = rates.Book{Timber: r.Book.Timber}
	r.Bill.Reconciled = nil
	r.Job.Additions, r.Job.Gangs, r.Job.Risks, r.Job.Members, r.Job.Items = nil, nil, nil, nil, nil
	r.Priced.Items = slices.Clone(r.Priced.Items)
	for i := range r.Priced.Items {
		p := &r.Priced.Items[i]
		p.Costs, p.Kinds, p.Rows, p.Bare, p.Sum, p.Difference = nil, nil, nil, money.Amount{}, money.Amount{}, money.Amount{}
	}
	r.Priced.Preliminaries, r.Priced.Dayworks = nil, nil
	r.Programme.Stages = slices.Clone(r.Programme.Stages)
	for i := range r.Programme.Stages {
		r.Programme.Stages[i].Trades, r.Programme.Stages[i].Governs = nil, ""
	}
	if !bytes.Equal(tender(t, r), want) {
		t.Error("the tender changes with the yard's own working")
	}
}

// Every line of a bill stands on one line of the page with its figures, and
// they are those of the bill.
func TestTheBillIsPrintedAsCast(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/cases/*.txtar")
	if err != nil || len(paths) < 6 {
		t.Fatalf("there should be 6 cases or more: %v, %v", paths, err)
	}
	for _, path := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) {
			compareLines(t, worked(t, path))
		})
	}
	t.Run("demonstration", func(t *testing.T) { compareLines(t, demonstration(t)) })
}

func compareLines(t *testing.T, r estimate.Result) {
	text := words(t, tender(t, r))
	_, text, ok := strings.Cut(text, "Bill of quantities\n\n")
	if !ok {
		t.Fatal("there is no bill")
	}
	var printed []string
	for line := range strings.Lines(text) {
		printed = append(printed, single(line))
	}
	unit := strings.NewReplacer("m2", "m²", "m3", "m³", "ft2", "ft²", "ft3", "ft³")
	lines := slices.Clone(r.Bill.Preliminaries)
	for _, s := range r.Bill.Sections {
		lines = append(lines, s.Lines...)
	}
	if len(lines) == 0 {
		t.Fatal("the bill has no lines")
	}
	for _, l := range lines {
		if l.Carried == job.RateOnly {
			continue
		}
		figures := strings.Join([]string{money.Group(l.Quantity, l.Unit.Places()), unit.Replace(string(l.Unit)), l.Rate.Grouped(), l.Amount.Grouped(), l.VAT}, " ")
		figures = strings.ReplaceAll(" "+figures, " -", " −")
		first, _, _ := strings.Cut(l.Ref, " ")
		at := slices.IndexFunc(printed, func(s string) bool { return strings.HasPrefix(s, first+" ") && strings.HasSuffix(s, figures) })
		if at < 0 {
			t.Errorf("no line of %s is printed with%s", l.Ref, figures)
			continue
		}
		printed = slices.Delete(printed, at, at+1)
	}
	whole := single(text)
	for _, s := range r.Bill.Sections {
		if !strings.Contains(whole, "Carried to summary: "+s.Title+" "+s.Total.Grouped()) {
			t.Errorf("section %s does not carry %s", s.Section, s.Total)
		}
	}
}

// The points of all amounts of the bill stand under one another: to a
// twentieth of a millimetre on each page.
func TestAmountsAreRangedByTheirPoints(t *testing.T) {
	r := demonstration(t)
	var doc struct {
		Pages []struct {
			Words []struct {
				End  float64 `xml:"xMax,attr"`
				Text string  `xml:",chardata"`
			} `xml:"word"`
		} `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal([]byte(read(t, tender(t, r), "pdftotext", "-bbox", "FILE", "-")), &doc); err != nil {
		t.Fatal(err)
	}
	var amounts []string
	for _, s := range r.Bill.Sections {
		for _, l := range s.Lines {
			// Only those that stand once on the page can be told from rates.
			if l.Carried.InTotal() && !l.Amount.Equal(l.Rate) {
				amounts = append(amounts, l.Amount.Grouped())
			}
		}
	}
	compared := 0
	for _, p := range doc.Pages {
		ends, bill := 0.0, false
		for _, w := range p.Words {
			if bill = bill || w.Text == "Quantity"; !bill || !slices.Contains(amounts, w.Text) {
				continue
			}
			if compared++; ends == 0 {
				ends = w.End
			}
			if d := w.End - ends; d > 0.15 || d < -0.15 {
				t.Errorf("%s ends at %.2f points, the first amount of its page at %.2f", w.Text, w.End, ends)
			}
		}
	}
	if compared < 30 {
		t.Errorf("only %d amounts were compared", compared)
	}
}

func TestCharactersTheTypeLacksAreNotLost(t *testing.T) {
	r := demonstration(t)
	r.Job.Vessel = "Zeelandia 船 Ŵŷő"
	r.Job.Client = "نور Trust 🚢"
	r.Job.Yard = "Верфь Маяк"
	r.Bill.Sections = slices.Clone(r.Bill.Sections)
	r.Bill.Sections[0].Lines = slices.Clone(r.Bill.Sections[0].Lines)
	l := &r.Bill.Sections[0].Lines[0]
	l.Description = "Two\u202fthirds ⅔, non‑breaking, tick ✓,\ttab,\x07bell, cafe\u0301, \xffbad, soft\u00adhyphen, ⌀ 12 mm, 👩\u200d🔧"
	data := tender(t, r)
	read(t, data, "qpdf", "--check", "FILE")
	text := single(read(t, data, "pdftotext", "-raw", "FILE", "-"))
	for _, want := range []string{
		"Zeelandia [U+8239] Ŵŷő", "[U+0646][U+0648][U+0631] Trust [U+1F6A2]", "Верфь Маяк",
		"thirds 2/3, non-breaking, tick [tick], tab,[U+0007]bell, café,", "bad, softhyphen, Ø 12 mm, [U+1F469][U+1F527]",
		"The type of this document lacks some characters",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	if strings.Contains(single(words(t, tender(t, demonstration(t)))), "The type of this document lacks") {
		t.Error("a document that replaced nothing says that it did")
	}
}

func TestAVeryLongDescriptionIsPrintedWhole(t *testing.T) {
	r := demonstration(t)
	var said []string
	for n := 0; len(strings.Join(said, " ")) < 3000; n++ {
		said = append(said, fmt.Sprintf("word%03d", n))
	}
	r.Bill.Sections = slices.Clone(r.Bill.Sections)
	lines := slices.Clone(r.Bill.Sections[2].Lines)
	lines[1].Description = strings.Join(said, " ")
	lines[2].Description = strings.Repeat("unbroken", 400)
	r.Bill.Sections[2].Lines = lines
	data := tender(t, r)
	got := regexp.MustCompile(`word\d\d\d`).FindAllString(read(t, data, "pdftotext", "FILE", "-"), -1)
	if !slices.Equal(got, said) {
		t.Errorf("%d words of %d are printed, or not in order", len(got), len(said))
	}
	text := strings.Join(strings.Fields(read(t, data, "pdftotext", "-layout", "FILE", "-")), "")
	letters := 0
	for _, part := range regexp.MustCompile(`[unbroke]{20,}`).FindAllString(text, -1) {
		letters += len(part)
	}
	if letters < 3100 {
		t.Errorf("of a word of 3,200 letters %d are printed", letters)
	}
}

func TestABareJobMakesATender(t *testing.T) {
	r := worked(t, "../../testdata/cases/deck-700-feet.txtar")
	data := tender(t, r)
	read(t, data, "qpdf", "--check", "FILE")
	text := single(words(t, data))
	for _, want := range []string{"£17,471.30 (seventeen thousand four hundred and seventy-one pounds and thirty pence)", "The start and the time on site are to be agreed", "700.00 ft 22.69 15,883.00 Z"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	for _, not := range []string{"Programme", "Note on value added tax", "Dayworks", "Open for acceptance until"} {
		if strings.Contains(text, not) {
			t.Errorf("there is nothing to say under %q, and the tender has it", not)
		}
	}
	if empty := tender(t, estimate.Result{}); len(empty) == 0 {
		t.Error("an empty result makes no document")
	}
}

// large is the demonstration with so many lines in its bill.
func large(tb testing.TB, n int) estimate.Result {
	r := demonstration(tb)
	var lines []bill.Line
	for _, s := range r.Bill.Sections {
		lines = append(lines, s.Lines...)
	}
	r.Bill.Sections = slices.Clone(r.Bill.Sections)
	for i := range r.Bill.Sections {
		s := &r.Bill.Sections[i]
		s.Lines, s.Total = nil, money.Amount{}
		for k := range n / len(r.Bill.Sections) {
			l := lines[k%len(lines)]
			if s.Lines = append(s.Lines, l); l.Carried.InTotal() {
				s.Total = s.Total.Add(l.Amount)
			}
		}
	}
	return r
}

func BenchmarkTenderOf3000Lines(b *testing.B) {
	r := large(b, 3000)
	b.ReportAllocs()
	for b.Loop() {
		data, err := pdf.Tender(r)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(data)), "bytes")
	}
}
