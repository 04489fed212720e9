package takeoff

import (
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// l reads a length as a yard writes it.
func l(s string) measure.Length {
	n, err := measure.ParseLength(s, measure.Mm)
	if err != nil {
		panic(err)
	}
	return n
}

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func percent(s string) money.Percent { return money.NewPercent(dec(s)) }

// yard is a job in feet and inches, and a book with oak planed 1/16 in a face,
// sold as planks of 24 ft and baulks of 40 ft.
func yard(members ...job.Member) (*job.Job, *rates.Book) {
	j := &job.Job{Book: "yard.xlsx", Members: members}
	j.LengthsIn, j.SizesIn, j.VolumesIn = measure.Ft, measure.In, measure.Ft3
	b := &rates.Book{
		Timber: []rates.Timber{{Timber: "Oak", Density: dec("720"), Planing: l("1/16in")}},
		Stock: []rates.Stock{
			plankStock("oak 5in", "5in", "12in", "24ft"),
			{Stock: "oak baulk", Timber: "oak", Form: rates.Baulk, Thickness: l("14in"), Width: l("16in"), Length: l("40ft")},
		},
		Fastenings: []rates.Fastening{
			{Rule: "lloyd 1855", To: l("9in"), Each: dec("1"), Material: "treenail"},
			{Rule: "lloyd 1855", Over: l("9in"), To: l("12in"), Each: dec("1.5"), Material: "treenail"},
			{Rule: "lloyd 1855", Over: l("12in"), Each: dec("2"), Material: "treenail"},
			{Rule: "spikes and bolt", To: l("12in"), Each: dec("3"), Material: "spike"},
			{Rule: "spikes and bolt", To: l("12in"), Each: dec("1"), Material: "bolt"},
		},
		BuildUps: []rates.BuildUp{
			{Name: "by weight", Part: rates.Task, Item: "lift", By: rates.ByWeight, Quantity: dec("1")},
			{Name: "by fastening", Part: rates.Task, Item: "drive", By: rates.ByFastening, Quantity: dec("1")},
		},
	}
	return j, b
}

func plankStock(name, thickness, width, length string) rates.Stock {
	return rates.Stock{Stock: name, Timber: "oak", Form: rates.Plank, Thickness: l(thickness), Width: l(width), Length: l(length)}
}

// oak is a member of new oak with the sizes given; more sets the rest of the row.
func oak(ref, length, sided, moulded string, more func(*job.Member)) job.Member {
	m := job.Member{
		Work:   job.Work{Ref: ref, Carried: job.Measured, At: origin.Cell{Book: "yard.xlsx", Sheet: "Members", Row: 7, Col: 1}},
		Member: "timber", Nr: 1, Length: l(length), Sided: l(sided), Shape: job.Square, Timber: "oak",
		Heart: job.AnyHeart, Treatment: job.Renew, Joint: job.NoJoint,
	}
	if moulded != "" {
		m.Moulded = l(moulded)
	}
	if more != nil {
		more(&m)
	}
	return m
}

// measured measures one member and wants nothing to be wrong with it.
func measured(t *testing.T, m job.Member, more func(*rates.Book)) (Row, []Piece) {
	t.Helper()
	j, b := yard(m)
	if more != nil {
		more(b)
	}
	got, problems := Measure(j, b)
	if len(problems) > 0 {
		t.Fatalf("problems: %v", problems)
	}
	return got.Rows[0], got.Pieces
}

// codes is the codes of a list, in its order.
func codes(l problem.List) []problem.Code {
	var out []problem.Code
	for _, p := range l {
		out = append(out, p.Code)
	}
	return out
}

func day(s string) time.Time {
	d, err := time.Parse(time.DateOnly, s)
	if err != nil {
		panic(err)
	}
	return d
}

// told is the takeoff of a job with the rules of planking checked, its runs of
// equal pieces.
func told(j *job.Job, b *rates.Book) (Takeoff, problem.List) {
	t, problems := Measure(j, b)
	_, more := Planking(j, b, t, t.Pieces)
	problems.Join(more)
	return t, problems
}
