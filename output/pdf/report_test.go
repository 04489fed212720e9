package pdf_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"futtock/estimate/quotes"
	"futtock/output/pdf"
	"futtock/rates/money"
)

func report(t testing.TB, c quotes.Comparison) []byte {
	t.Helper()
	data, err := pdf.Report(c)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// forty are so many quotes, the names of some long, and gaps here and there.
func forty(s quotes.Sent) []quotes.Quote {
	var all []quotes.Quote
	for i := range 40 {
		name := fmt.Sprintf("Yard %02d", i+1)
		if i%7 == 3 {
			name = fmt.Sprintf("The Amalgamated Traditional Shipbuilding, Sparmaking and Slipway Company of the Northern Estuaries (%02d) Limited", i+1)
		}
		q := formOf(s, name, fmt.Sprintf("%.2f", 0.82+0.013*float64(i*17%40)))
		if i%5 == 2 {
			o := offered(&q, "B/D2")
			o.Rate = quotes.Figure{}
			reckon(&q)
		}
		all = append(all, q)
	}
	return all
}

func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip()
	}
	s := smack()
	none := s
	bare := quotes.Sent{Book: "bill.xlsx", Currency: "EUR", Lines: slices.Clone(s.Lines), Sections: s.Sections}
	for n := range bare.Lines {
		bare.Lines[n].Priced, bare.Lines[n].Rate, bare.Lines[n].Amount = false, money.Amount{}, money.Amount{}
	}
	bareQuotes := three(s)
	for i := range bareQuotes {
		bareQuotes[i].Qualifications, bareQuotes[i].Weeks, bareQuotes[i].Dated = nil, quotes.Figure{}, time.Time{}
		for n := range bareQuotes[i].Lines {
			if bareQuotes[i].Lines[n].Part == quotes.Sums {
				bareQuotes[i].Lines[n].Attendance = typed("3000")
			}
		}
	}
	low := three(s)
	low[1] = formOf(s, "Cheap", "0.5")
	low[2] = formOf(s, "Dear", "1.3")
	odd := three(s)
	odd[0].Firm, odd[1].Firm = "Верфь Маяк 船 🚢", "نور للسفن — The Amalgamated Traditional Shipbuilding, Sparmaking and Slipway Company of the Northern Estuaries Limited"
	for name, c := range map[string]quotes.Comparison{
		"three": compared(t, s, three(s), costed), "one": compared(t, s, three(s)[:1], nil), "two": compared(t, s, three(s)[:2], nil),
		"forty": compared(t, s, forty(s), nil), "none": compared(t, none, nil, nil), "odd": compared(t, s, odd, nil),
		"bare": compared(t, bare, bareQuotes, func(t *quotes.Terms) { t.Errors, t.Gaps, t.Low = quotes.ReportOnly, quotes.AtMean, quotes.NoLow }),
		"low":  compared(t, s, low, func(t *quotes.Terms) { t.Errors, t.Gaps, t.Low = quotes.TotalStands, quotes.AtHighest, quotes.Spanish }),
	} {
		if err := os.WriteFile(filepath.Join(dir, name+".pdf"), report(t, c), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
