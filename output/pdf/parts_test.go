package pdf_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/output/pdf"
	"futtock/rates/money"
	"futtock/rates/problem"
	"futtock/templates/wording"
)

// pages is the text of each page.
func pages(t *testing.T, data []byte) []string {
	t.Helper()
	var out []string
	for page := range strings.SplitSeq(strings.TrimSuffix(words(t, data), "\f"), "\f") {
		out = append(out, single(page))
	}
	return out
}

// The summary names for every sum the page that carries it, and every page says
// which document of what day it is of.
func TestTheSummaryNamesThePageOfEverySum(t *testing.T) {
	r := demonstration(t)
	all := pages(t, tender(t, r))
	summary := all[slices.IndexFunc(all, func(s string) bool { return strings.Contains(s, "Carried from the bill") })]
	names := func(line, carries string, a money.Amount) {
		at := slices.IndexFunc(all, func(s string) bool { return strings.Contains(s, carries+" "+a.Grouped()) })
		if want := fmt.Sprintf("%s %d %s", line, at+1, a.Grouped()); at < 0 || !strings.Contains(summary, want) {
			t.Errorf("the summary has no %q", want)
		}
	}
	for _, s := range r.Bill.Sections {
		names(s.Section+" "+s.Title, "Carried to summary: "+s.Title, s.Total)
	}
	names("B Preliminaries", "Preliminaries, carried to summary", r.Bill.Prelims)
	names("C Sums and dayworks", "Sums and dayworks, carried to summary", r.Bill.SumsDayworks)
	names("D Contingency", "Contingency, carried to summary", r.Bill.Held)
	for n, page := range all {
		if want := fmt.Sprintf("Tender %s, 14 September 2026 Page %d of %d", r.Job.Reference, n+1, len(all)); !strings.HasSuffix(page, want) {
			t.Errorf("page %d does not end with %q", n+1, want)
		}
	}
}

// The contents lead to the pages the parts begin on.
func TestTheContentsNameThePagesOfTheParts(t *testing.T) {
	all := pages(t, tender(t, demonstration(t)))
	entries := regexp.MustCompile(`(\d+) ([A-Z][a-z, ]+[a-z]) \.[ .]+\. (\d+)`).FindAllStringSubmatch(all[0], -1)
	if len(entries) != 12 {
		t.Fatalf("the contents have %d parts: %s", len(entries), all[0])
	}
	for _, e := range entries {
		page, _ := strconv.Atoi(e[3])
		if page < 2 || page > len(all) || !strings.Contains(all[page-1], e[1]+" "+e[2]+" ") {
			t.Errorf("%q is said to begin on page %s, and does not", e[2], e[3])
		}
	}
}

// What is not settled is cast: the parts of it, all of it, and the rest, which
// come to the net total together.
func TestWhatIsProvisionalIsCast(t *testing.T) {
	r := demonstration(t)
	b := r.Bill
	var quantities, sums, dayworks money.Amount
	for _, s := range b.Sections {
		for _, l := range s.Lines {
			if l.Carried == job.Provisional {
				quantities = quantities.Add(l.Amount)
			}
		}
	}
	for _, s := range b.Sums {
		sums = sums.Add(s.Total)
	}
	for _, d := range b.Dayworks {
		dayworks = dayworks.Add(d.Total)
	}
	open := quantities.Add(sums).Add(dayworks).Add(b.Held)
	text := single(words(t, tender(t, r)))
	for _, want := range []string{
		"Provisional quantities, at the rates of the bill " + quantities.Grouped(),
		"Provisional sums, prime cost sums and quotations " + sums.Grouped(),
		"Dayworks " + dayworks.Grouped() + " Contingency " + b.Held.Grouped() + " Provisional " + open.Grouped(),
		"All else, not provisional " + b.Net.Sub(open).Grouped() + " Total before value added tax " + b.Net.Grouped(),
		"Dayworks " + dayworks.Grouped() + " Sums and quotations, from above " + sums.Grouped() + " C Sums and dayworks, carried to summary " + b.SumsDayworks.Grouped(),
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	r.Bill.Sections = slices.Clone(b.Sections)
	for i := range r.Bill.Sections {
		s := &r.Bill.Sections[i]
		s.Lines = slices.Clone(s.Lines)
		for k := range s.Lines {
			if s.Lines[k].Carried == job.Provisional {
				s.Lines[k].Carried = job.Measured
			}
		}
	}
	r.Bill.Sums, r.Bill.Dayworks, r.Bill.SumsDayworks, r.Bill.Contingency = nil, nil, money.Amount{}, bill.Contingency{}
	if text := single(words(t, tender(t, r))); strings.Contains(text, "All else, not provisional") {
		t.Error("a tender of which nothing is provisional parts its sum")
	}
}

// A job in another currency has no pennies, and the funder is told of the old
// fabric in a sentence.
func TestThePartsSayWhatHoldsOfTheJob(t *testing.T) {
	r := demonstration(t)
	all := r.Fabric.All
	number, _ := all.ByNumber()
	volume, _ := all.ByVolume()
	text := single(words(t, tender(t, r)))
	for _, want := range []string{
		fmt.Sprintf("Of %d members named in the schedule of work, %d are kept whole and %d in part: %s %% by number are kept whole, and %s %% of their timber by volume is kept.",
			all.Members, all.Whole, all.InPart, number.Decimal().StringFixed(1), volume.Decimal().StringFixed(1)),
		"rounded once to the penny", "Options taken up, by item",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	r.Job.Currency = "EUR"
	text = strings.ToLower(single(words(t, tender(t, r))))
	if strings.Contains(text, "penny") || strings.Contains(text, "£") || !strings.Contains(text, "rounded once to the cent") || wording.Penny("PLN") != "hundredth" {
		t.Error("a tender in euro has pennies in it")
	}
	bare := worked(t, "../../testdata/cases/deck-700-feet.txtar")
	if strings.Contains(words(t, tender(t, bare)), "Options taken up") {
		t.Error("there are no options, and the form asks which are taken up")
	}
}

// Whatever text of a job is printed with the number of a character in place of
// it, the yard is told of.
func TestEveryTextThatCannotBePrintedIsToldOf(t *testing.T) {
	r := worked(t, "../../testdata/cases/frames-six-inch.txtar")
	for name, write := range map[string]func(r *estimate.Result) *string{
		"Vessel":       func(r *estimate.Result) *string { return &r.Job.Vessel },
		"Description":  func(r *estimate.Result) *string { return &r.Job.Description },
		"Client":       func(r *estimate.Result) *string { return &r.Job.Client },
		"Yard":         func(r *estimate.Result) *string { return &r.Job.Yard },
		"a section":    func(r *estimate.Result) *string { return &r.Job.Sections[0].Title },
		"a member":     func(r *estimate.Result) *string { return &r.Job.Members[0].Member },
		"a name":       func(r *estimate.Result) *string { return &r.Book.Timber[0].Botanical },
		"a durability": func(r *estimate.Result) *string { return &r.Book.Timber[0].Durability },
		"a supplier":   func(r *estimate.Result) *string { return &r.Book.Stock[0].Supplier },
		"a tax":        func(r *estimate.Result) *string { return &r.Book.VAT[0].Meaning },
	} {
		t.Run(name, func(t *testing.T) {
			j, b := r.Job, r.Book
			j.Sections, j.Members = slices.Clone(j.Sections), slices.Clone(j.Members)
			b.Timber, b.Stock, b.VAT = slices.Clone(b.Timber), slices.Clone(b.Stock), slices.Clone(b.VAT)
			changed := estimate.Result{Job: j, Book: b}
			*write(&changed) = "planka 船 Мачта"
			again := estimate.Run(changed.Job, changed.Book)
			timber, err := pdf.Timber(again)
			if err != nil {
				t.Fatal(err)
			}
			if text := single(words(t, tender(t, again)) + words(t, timber)); !strings.Contains(text, "lanka [U+8239] Мачта") {
				t.Error("the text is not printed")
			}
			found, err := pdf.Unprinted(changed.Job, changed.Book)
			if err != nil || len(found) != 1 || found[0].Code != problem.LettersMissing || !strings.Contains(found[0].Text, "[U+8239]") {
				t.Errorf("told is %v, %v", found, err)
			}
		})
	}
	if found, err := pdf.Unprinted(r.Job, r.Book); err != nil || len(found) > 0 {
		t.Errorf("nothing is lost, and told is %v, %v", found, err)
	}
}
