package sheets_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"futtock/output/sheets"
	"futtock/templates/grid"
)

// The bill ends with its sections gathered, each read from the total under its
// lines, and the summary reads what they come to.
func TestTheBillEndsWithACollectionOfItsSections(t *testing.T) {
	r := simulated(t)
	b := sheets.Bill(r)
	bill := sheet(t, b, "Bill")
	from := 0
	for n, row := range bill.Rows {
		if len(row.Cells) > 1 && row.Cells[1].Text == "Collection" {
			from = n + 1
		}
	}
	if from == 0 {
		t.Fatal("there is no collection")
	}
	for i, s := range r.Bill.Sections {
		row := bill.Rows[from+i]
		if row.Cells[0].Text != s.Section || row.Cells[1].Text != s.Title || row.Cells[5].Formula == "" || !row.Cells[5].Number.Equal(s.Total.Decimal()) {
			t.Errorf("%s is gathered as %q, %s by %q", s.Section, row.Cells[1].Text, row.Cells[5].Number, row.Cells[5].Formula)
		}
	}
	end := bill.Rows[from+len(r.Bill.Sections)]
	if !strings.HasPrefix(end.Cells[5].Formula, "SUM(F") || !end.Cells[5].Number.Equal(r.Bill.Items.Decimal()) {
		t.Errorf("they come to %s by %q", end.Cells[5].Number, end.Cells[5].Formula)
	}
	if a := rowWith(t, b, "Summary", "Measured work"); !strings.HasPrefix(a[4].Formula, "'Bill'!F") {
		t.Errorf("the summary reads %q", a[4].Formula)
	}
}

// The client's programme has the weeks and days of every stage; hours, men and
// what a stage may slip are the yard's.
func TestTheClientsProgrammeHasWeeksAndNoHours(t *testing.T) {
	r := simulated(t)
	if len(r.Programme.Stages) < 3 {
		t.Fatal("there is no programme to look at")
	}
	b := sheets.Bill(r)
	for _, s := range r.Programme.Stages {
		row := rowWith(t, b, "Programme", s.Stage.Stage)
		var figures []string
		for _, c := range row {
			switch c.Kind {
			case grid.Number:
				figures = append(figures, c.Number.String())
			case grid.Date:
				figures = append(figures, c.Day.Format("2006-01-02"))
			}
		}
		want := []string{s.Earliest.String(), s.Weeks.String(), s.EarliestFinish.String()}
		if !s.Start.IsZero() {
			want = append(want, s.Start.Format("2006-01-02"), s.Finish.Format("2006-01-02"))
		}
		if strings.Join(figures, " ") != strings.Join(want, " ") {
			t.Errorf("%s has %v, and its weeks and days are %v", s.Stage.Stage, figures, want)
		}
	}
	for _, row := range sheet(t, b, "Programme").Rows {
		for _, c := range row.Cells {
			for _, word := range []string{"hour", "men", "float", "trade"} {
				if strings.Contains(strings.ToLower(c.Text), word) {
					t.Errorf("the programme says %q", c.Text)
				}
			}
		}
	}
}

// The cover comes first, says what the bill comes to by reading the summary, and
// leads to every other sheet.
func TestTheCoverLeadsToEverySheet(t *testing.T) {
	r := simulated(t)
	b := sheets.Bill(r)
	cover := b.Sheets[0]
	leads := map[string]bool{}
	for _, row := range cover.Rows {
		for _, c := range row.Cells {
			if c.Link != "" {
				leads[c.Link] = true
			}
		}
	}
	for _, s := range b.Sheets[1:] {
		if !leads["'"+s.Name+"'!A1"] {
			t.Errorf("the cover does not lead to %s", s.Name)
		}
		if row := rowWith(t, b, "Cover", s.Name); len(row) < 2 || row[1].Text == "" {
			t.Errorf("the cover does not say what %s holds", s.Name)
		}
	}
	if total := rowWith(t, b, "Cover", "Total with VAT")[1]; !strings.HasPrefix(total.Formula, "'Summary'!") || !total.Number.Equal(r.Bill.Total.Decimal()) {
		t.Errorf("the cover has a total of %s by %q", total.Number, total.Formula)
	}
}

// Money that stands by itself shows the sign of its currency, or its code.
func TestTotalsShowTheCurrencyOfTheJob(t *testing.T) {
	for currency, want := range map[string]string{"GBP": `"£"#,##0.00`, "EUR": `"€"#,##0.00`, "DKK": "\"DKK\u00a0\"#,##0.00"} {
		r := simulated(t)
		r.Job.Currency = currency
		total := rowWith(t, sheets.Bill(r), "Summary", "Total with VAT")[4]
		if !strings.HasPrefix(total.Style.Format, want+";") {
			t.Errorf("in %s the total is shown by %q", currency, total.Style.Format)
		}
	}
}

// However long her name, it is printed whole: it runs on in the columns that are
// printed, and its row is as high as it takes.
func TestALongNameIsNotCutOff(t *testing.T) {
	r := demonstration(t)
	r.Job.Vessel = strings.TrimSpace(strings.Repeat("Margravine Wilhelmina ", 7))
	for _, s := range sheets.Bill(r).Sheets {
		_, end, _ := strings.Cut(strings.ReplaceAll(s.Print.Area, "$", ""), ":")
		last := end[:1]
		found := false
		for n, row := range s.Rows[:3] {
			if len(row.Cells) == 0 || !strings.HasPrefix(row.Cells[0].Text, r.Job.Vessel) {
				continue
			}
			found = true
			if want := fmt.Sprintf("A%d:%s%d", n+1, last, n+1); !slices.Contains(s.Merges, want) || !row.Cells[0].Style.Wrap {
				t.Errorf("%s: her name in row %d is not broken over %s; merged are %v", s.Name, n+1, want, s.Merges)
			}
		}
		if !found {
			t.Errorf("%s does not name her", s.Name)
		}
	}
}

// A code typed wrong would take its line out of the tax without a word: the
// summary compares the total with what the codes of its table bear.
func TestTheSummaryTellsOfACodeThatBearsNoTax(t *testing.T) {
	checks := func(book *grid.Book) (found []grid.Cell) {
		for _, s := range book.Sheets {
			for _, row := range s.Rows {
				for _, c := range row.Cells {
					if strings.Contains(c.Style.Format, "its code is not in this table") {
						found = append(found, c)
					}
				}
			}
		}
		return found
	}
	r := demonstration(t)
	if len(r.Bill.VAT) != 2 {
		t.Fatalf("the demonstration bears %d codes", len(r.Bill.VAT))
	}
	got := checks(sheets.Bill(r))
	if len(got) != 1 || !got[0].Number.IsZero() || !strings.HasSuffix(got[0].Style.Format, `;""`) {
		t.Fatalf("checks are %v, want one that is nil as priced and shows nothing", got)
	}
	s := summaryOf(sheets.Bill(r))
	at := slices.IndexFunc(s.Rows, func(row grid.Row) bool { return len(row.Cells) > 1 && row.Cells[1].Text == "Net total" }) + 1
	// The net total, a gap and a heading, and the two codes.
	if want := fmt.Sprintf("ROUND(E%d-SUM(C%d:C%d),2)", at, at+3, at+4); at == 0 || got[0].Formula != want {
		t.Errorf("the check is %s, want %s", got[0].Formula, want)
	}
	one := r
	one.Bill.VAT = one.Bill.VAT[:1]
	if got := checks(sheets.Bill(one)); len(got) != 0 {
		t.Errorf("a bill of one code, which all lines bear, has the checks %v", got)
	}
}

func summaryOf(b *grid.Book) *grid.Sheet {
	return b.Sheets[slices.IndexFunc(b.Sheets, func(s *grid.Sheet) bool { return s.Name == "Summary" })]
}
