package pdf_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"futtock/estimate/quotes"
	"futtock/output/pdf"
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
	odd := three(s)
	odd[0].Firm, odd[1].Firm = "Верфь Маяк 船 🚢", "نور للسفن — The Amalgamated Traditional Shipbuilding, Sparmaking and Slipway Company of the Northern Estuaries Limited"
	for name, c := range map[string]quotes.Comparison{
		"three": compared(t, s, three(s), costed), "one": compared(t, s, three(s)[:1], nil), "two": compared(t, s, three(s)[:2], nil),
		"forty": compared(t, s, forty(s), nil), "none": compared(t, none, nil, nil), "odd": compared(t, s, odd, nil),
	} {
		if err := os.WriteFile(filepath.Join(dir, name+".pdf"), report(t, c), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
