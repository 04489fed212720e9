package sheets_test

import (
	"fmt"
	"testing"

	"futtock/output/sheets"
	"futtock/templates/xlsx"
)

// BenchmarkComparisonOfForty lays out and writes forty quotes of five thousand lines.
func BenchmarkComparisonOfForty(b *testing.B) {
	s := sentBill(5000)
	all := threeOffers(s)
	for n := len(all); n < 40; n++ {
		all = append(all, priced(s, fmt.Sprintf("Yard %d", n+1), int64(80+n)))
	}
	c := compared(b, s, all, clientsTerms())
	b.ReportAllocs()
	for b.Loop() {
		data, err := xlsx.Write(sheets.Comparison(c))
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(data)), "bytes")
	}
}
