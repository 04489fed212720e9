package quotes

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/bill"
)

type swing struct {
	Offer, Other, Line int
	Extra, Turns, At   string
}

func swingsOf(c Comparison) []swing {
	var out []swing
	for _, s := range c.Swings {
		x := swing{Offer: s.Offer, Other: s.Other, Line: s.Line, Extra: s.Extra.String()}
		if s.Turns.Known {
			x.Turns, x.At = s.Turns.Amount.String(), s.At.Decimal().String()
		}
		out = append(out, x)
	}
	return out
}

// work is a bill of lines of 10 m each without prices, and quotes with rates on them.
func work(lines int, quotes ...[]string) (Sent, []checked) {
	s := Sent{Sections: []Section{{"F", "Frames"}}}
	for n := range lines {
		s.Lines = append(s.Lines, line(Work, fmt.Sprintf("B/%d", n+1), "F", "", "10", "", ""))
	}
	var all []checked
	for i, rates := range quotes {
		var cells []Cell
		for _, r := range rates {
			cells = append(cells, cell(Answered, num(r).Mul(num("10")).String(), r))
		}
		all = append(all, examined(s, Quote{Firm: string(rune('A' + i)), Tax: bill.LeftOut}, cells...))
	}
	return s, all
}

func asMean() Terms {
	t := Usual()
	t.Gaps = AtMean
	return t
}

// A has 100.00, 10.00 and 5.00 on 10 m, 1,150.00; B has 90.00, 30.00 and 5.00,
// 1,250.00: 100.00 between them. On the first line A is 10 x 10 = 100.00 the
// dearer, so 25 % more makes 25.00 of it and 100 % more turns the order. C, at
// 1,550.00, is 300.00 behind B: on the first line B is 30.00 the dearer,
// 7.50 with 25 % more, but 1,000 % would be needed.
func TestMoreOfAQuantityMayTurnTheOrder(t *testing.T) {
	s, all := work(3, []string{"100", "10", "5"}, []string{"90", "30", "5"}, []string{"87", "63", "5"})
	c := mustCompare(t, s, all, asMean())
	want := []swing{
		{0, 1, 0, "25.00", "100.00", "100"},
		{1, 2, 0, "7.50", "", ""},
	}
	if d := cmp.Diff(want, swingsOf(c)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
}

// A at 1,000.00 and B at 1,000.10 differ by 0.10; A is 0.30 the dearer on the
// first line, and 33.333 % of it, raised to 33.4, turns the order. An extra of
// 0.075 is 0.08.
func TestWhatTurnsTheOrderIsRaisedToATenth(t *testing.T) {
	s, all := work(2, []string{"50.03", "49.97"}, []string{"50", "50.01"})
	c := mustCompare(t, s, all, asMean())
	if d := cmp.Diff([]swing{{0, 1, 0, "0.08", "0.10", "33.4"}}, swingsOf(c)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
}

func TestALineBelowAHundredthOfTheGapIsNotToldOf(t *testing.T) {
	// 1,000.00 apart; 25 % of 39.90 is 9.98, of 40.10 it is 10.03.
	for _, c := range []struct {
		name, rate string
		want       int
	}{{"below", "53.99", 0}, {"just at it", "54", 1}, {"above", "54.01", 1}} {
		t.Run(c.name, func(t *testing.T) {
			other := num("100").Add(num(c.rate)).String()
			s, all := work(2, []string{c.rate, "0"}, []string{"50", num(other).Sub(num("50")).String()})
			if got := swingsOf(mustCompare(t, s, all, asMean())); len(got) != c.want {
				t.Errorf("got %v", got)
			}
		})
	}
}

func TestNoMoreThanTwentyLinesOfTwoOffersAreToldOf(t *testing.T) {
	a, b := []string{"1"}, []string{"900"}
	for n := range 25 {
		a, b = append(a, fmt.Sprint(20+n)), append(b, "10")
	}
	s, all := work(26, a, b)
	got := swingsOf(mustCompare(t, s, all, asMean()))
	if len(got) != 20 || got[0].Line != 25 || got[19].Line != 6 {
		t.Errorf("%d lines: %v", len(got), got)
	}
}

// Of two at one sum the first given stands in front; any more of a line on which it
// is the dearer turns the order.
func TestBetweenEqualSumsAnythingMoreTurnsTheOrder(t *testing.T) {
	s, all := work(2, []string{"60", "40"}, []string{"40", "60"})
	c := mustCompare(t, s, all, asMean())
	if d := cmp.Diff([]swing{{0, 1, 0, "50.00", "0.00", "0"}}, swingsOf(c)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
}
