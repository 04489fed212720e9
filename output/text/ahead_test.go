package text

import (
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/cash"
	"futtock/estimate/risk"
	"futtock/rates/money"
)

func TestASimulatedContingencyTakesOneSentence(t *testing.T) {
	sum := money.MustAmount
	s := &risk.Simulation{P50: sum("1140215.60"), P80: sum("1160962.27"), P90: sum("1173182.32"), PriceEnough: money.NewPercent(decimal.New(801, -1))}
	var b strings.Builder
	drawn(&b, nil)
	drawn(&b, s)
	want := "\n  The work as drawn: P50 1,140,215.60, P80 1,160,962.27, P90 1,173,182.32; the\n    stated price is enough in 80.1 % of draws\n"
	if b.String() != want {
		t.Errorf("got %q, want %q", b.String(), want)
	}
}

// Of three months the first brings nothing in; the second is the one at whose
// end most is outstanding.
func TestPaymentsTakeOneLine(t *testing.T) {
	sum := money.MustAmount
	month := func(n int, received, outstanding string) cash.Month {
		return cash.Month{Begins: time.Date(2026, time.Month(11+n), 1, 0, 0, 0, 0, time.UTC), To: decimal.New(int64(4+4*n), 0), Received: sum(received), Outstanding: sum(outstanding)}
	}
	c := cash.Cash{Dated: true, Months: []cash.Month{month(0, "0", "500.00"), month(1, "475.00", "1250.50"), month(2, "1200.00", "50.50")}}
	for _, k := range []struct {
		name  string
		dated bool
		want  string
	}{
		{"by the calendar", true, "\n  Paid first in December 2026, last January 2027; most outstanding 1,250.50\n"},
		{"by weeks where no start is known", false, "\n  Paid first by week 8.0, last week 12.0; most outstanding 1,250.50\n"},
	} {
		var b strings.Builder
		c.Dated = k.dated
		payments(&b, c)
		if b.String() != k.want {
			t.Errorf("%s: got %q, want %q", k.name, b.String(), k.want)
		}
	}
	var with strings.Builder
	c.Orders = []cash.Order{{Deposit: sum("1200.50")}, {}, {Deposit: sum("99.50")}}
	c.Months = append(c.Months, month(22, "50.50", "0.00"))
	c.Dated, c.AtMakingGood, c.MadeGood = true, sum("50.50"), &cash.Release{Month: 3, On: time.Date(2028, 9, 19, 0, 0, 0, 0, time.UTC)}
	if payments(&with, c); !strings.HasSuffix(with.String(), "last January 2027; most outstanding 1,250.50\n  The last of the retention, 50.50, on 19 September 2028\n  Deposits on orders 1,300.00\n") {
		t.Errorf("with deposits and a defects period it is %q", with.String())
	}
	var b strings.Builder
	if payments(&b, cash.Cash{}); b.Len() > 0 {
		t.Errorf("no months say %q", b.String())
	}
}
