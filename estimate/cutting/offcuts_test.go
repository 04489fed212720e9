package cutting

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/takeoff"
	"futtock/rates"
)

// One length of 2.950 by 200 from a plank of 5.903 by 306 usable leaves a strip of
// 306 - 203 = 103, full length, and of the first strip 5.903 - 2.953 = 2.950. By volume
// 5.903 x 0.103 of 6.003 x 0.306 at 80 is 26.48, and 2.950 x 0.200 is 25.70.
func TestOffcutsWorkedByHand(t *testing.T) {
	plan, _ := Cut(oakJob(), book(plank("wide plank", 52*mm, 306*mm, 6003*mm, "80")), pieces(straight("1", 1, 50*mm, 200*mm, 2950*mm)))
	var got []string
	for _, o := range plan.Order[0].Patterns[0].Offcuts {
		got = append(got, fmt.Sprintf("%s x %s x %s at %s, %s: %s", o.Length.Format("mm"), o.Width.Format("mm"), o.Thickness.Format("mm"),
			o.Along.Format("mm"), o.Across.Format("mm"), o.Worth))
	}
	want := []string{"5903 mm x 103 mm x 52 mm at 0 mm, 203 mm: 26.48", "2950 mm x 200 mm x 52 mm at 2953 mm, 0 mm: 25.70"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if in := plan.Order[0].InHand.String(); in != "52.18" {
		t.Errorf("%s in hand", in)
	}
	if c := plan.Order[0].Cost.String(); c != "80.00" {
		t.Errorf("the plank costs %s: off-cuts are credited to nobody", c)
	}
}

// Off-cuts under the least sizes are not listed: 306 - 203 would be 103 wide, 302 - 203 is 99.
func TestWhatIsTooSmallIsNoOffcut(t *testing.T) {
	plan, _ := Cut(oakJob(), book(plank("plank", 52*mm, 302*mm, 3652*mm, "80")), pieces(straight("1", 1, 50*mm, 200*mm, 2950*mm)))
	if got := plan.Order[0].Patterns[0].Offcuts; len(got) > 0 { // 3552 - 2953 is 599 long
		t.Errorf("%+v", got)
	}
}

// A curve comes out of a crook where that is cheaper than the plank, without being bound to it.
func TestUnboundCurvesComeFromCrooksWhereThatIsCheaper(t *testing.T) {
	c := takeoff.Curve{Chord: 1600 * mm, Sweep: 90 * mm}
	p := straight("1", 3, 100*mm, 200*mm, c.LengthGot(200*mm))
	p.Curve = &c
	crook := rates.Stock{Stock: "crook", Timber: "oak", Form: rates.Crook, Thickness: 110 * mm, Width: 260 * mm, Length: 2200 * mm, Sweep: 165 * mm,
		Available: 2, Limited: true, Price: price("60"), Unit: "nr"}
	// A plank gives one, at 75: two crooks and a plank are 195.
	plan, problems := Cut(oakJob(), book(crook, plank("plank", 105*mm, 300*mm, 2000*mm, "75")), pieces(p))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if d := cmp.Diff([]string{"2 of crook 120.00", "1 of plank 75.00"}, boughtText(plan.Order)); d != "" {
		t.Error(d)
	}
	if b := plan.Bound; b.Least.String() != "195.00" {
		t.Errorf("not under %s", b.Least)
	}
}

// Six lengths, two a plank, need three planks; with a Loss of 8 % four are bought,
// and no fewer can be: 3 x 100 / 0.92 is only 326.09.
func TestTheBoundKnowsWholePurchases(t *testing.T) {
	s := plank("plank", 52*mm, 150*mm, 4200*mm, "100")
	s.Loss = percent("8")
	plan, _ := Cut(oakJob(), book(s), pieces(straight("1", 6, 50*mm, 140*mm, 2*m)))
	if b := plan.Bound; b.Cost.String() != "400.00" || b.Least.String() != "400.00" {
		t.Errorf("costs %s, not under %s", b.Cost, b.Least)
	}
}
