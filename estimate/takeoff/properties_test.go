package takeoff

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// anyMember draws a row of the schedule; some rows will not do.
func anyMember(ref int) *rapid.Generator[job.Member] {
	return rapid.Custom(func(t *rapid.T) job.Member {
		sixteenths := func(name string, most int) measure.Length {
			return measure.Length(rapid.IntRange(1, most*16).Draw(t, name)) * measure.Inch / 16
		}
		m := job.Member{
			Work: job.Work{Ref: fmt.Sprint(ref), Carried: rapid.SampledFrom(job.CarriedAs()).Draw(t, "carried"),
				At: origin.Cell{Book: "yard.xlsx", Sheet: "Members", Row: 2 + ref, Col: 1}},
			Member: rapid.SampledFrom([]string{"keel", "plank"}).Draw(t, "member"),
			Nr:     rapid.IntRange(1, 4).Draw(t, "nr"), Length: sixteenths("length", 1200),
			Sided: sixteenths("sided", 16), Moulded: sixteenths("moulded", 20),
			Timber: "oak", Treatment: rapid.SampledFrom(job.Treatments()).Draw(t, "treatment"),
			Shape:       rapid.SampledFrom([]job.Shape{job.Square, job.Square, job.Round, job.Eight}).Draw(t, "shape"),
			Joint:       rapid.SampledFrom([]job.Joint{job.NoJoint, job.Scarph, job.Butt}).Draw(t, "joint"),
			Joints:      rapid.IntRange(0, 2).Draw(t, "joints"),
			Scarph:      decimal.New(int64(rapid.IntRange(0, 12).Draw(t, "to one")), 0),
			PlanedFaces: rapid.IntRange(0, 4).Draw(t, "faces"), AsSawn: rapid.Bool().Draw(t, "as sawn"),
			Sapwood: rapid.Bool().Draw(t, "sapwood"),
			Strake:  fmt.Sprint(rapid.IntRange(1, 6).Draw(t, "strake")), Seams: decimal.New(1, 0),
			FromFrame: rapid.IntRange(1, 40).Draw(t, "from"), ToFrame: rapid.IntRange(1, 40).Draw(t, "to"), FramesGiven: true,
			Fastening: rapid.SampledFrom([]string{"", "lloyd 1855", "spikes and bolt"}).Draw(t, "rule"),
		}
		if m.Shape != job.Square {
			m.Moulded = 0
		}
		m.Renewed = min(m.Length, sixteenths("renewed", 1200))
		if rapid.Bool().Draw(t, "curved") {
			m.Sweep = m.Length * measure.Length(rapid.IntRange(1, 250).Draw(t, "sweep")) / 1000
		}
		if rapid.Bool().Draw(t, "bevelled") {
			m.Bevel = decimal.New(int64(rapid.IntRange(-400, 400).Draw(t, "bevel")), -1)
		}
		return m
	})
}

// anySchedule draws a job and a book with dry or green oak.
func anySchedule(t *rapid.T) (*job.Job, *rates.Book) {
	var members []job.Member
	for i := range rapid.IntRange(1, 12).Draw(t, "rows") {
		members = append(members, anyMember(i).Draw(t, "member"))
	}
	j, b := yard(members...)
	if rapid.Bool().Draw(t, "dries") {
		k := &b.Timber[0]
		k.Tangential, k.Radial, k.SawnAt, k.InUse, k.Dries = percent("10.5"), percent("5.6"), percent("60"), percent("16"), true
	}
	b.Stock = append(b.Stock, plankStock("wide", "8in", "30in", "30ft"))
	return j, b
}

func TestTakeoffIsTheSameInAnyOrderOfTheSchedule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, b := anySchedule(t)
		want, wantProblems := told(j, b)
		before := *j
		j.Members = rapid.Permutation(j.Members).Draw(t, "order")
		got, problems := told(j, b)
		// Figures are compared as they print: equal decimals may be held apart.
		figures := cmp.Comparer(func(a, b decimal.Decimal) bool { return a.Equal(b) })
		if d := cmp.Diff(want, got, figures); d != "" {
			t.Fatalf("takeoff differs (-first +shuffled):\n%s", d)
		}
		if d := cmp.Diff(wantProblems.Sorted(nil), problems.Sorted(nil)); d != "" {
			t.Fatalf("problems differ:\n%s", d)
		}
		if again, _ := Measure(&before, b); cmp.Diff(want, again, figures) != "" {
			t.Fatal("measuring twice gives two takeoffs")
		}
	})
}

func TestNoPieceIsSawnSmallerThanItIsInTheShip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, b := anySchedule(t)
		got, _ := Measure(j, b)
		for _, p := range got.Pieces {
			if p.Sawn.LessThan(p.Net.Base.Round(6)) {
				t.Fatalf("row %s: %s m3 sawn, %s m3 in the ship", p.Ref, p.Sawn, p.Net.Base)
			}
			m := member(j, p.Ref)
			sided, moulded := across(m)
			if p.Thickness < sided || p.Width < moulded {
				t.Fatalf("row %s: sawn %d x %d nm for %d x %d", p.Ref, p.Thickness, p.Width, sided, moulded)
			}
		}
	})
}

func TestPiecesOfARunAddUpToItsLengthAndItsScarphs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, b := anySchedule(t)
		got, _ := Measure(j, b)
		rows := map[string]Row{}
		for _, r := range got.Rows {
			rows[r.Work.Ref] = r
		}
		for _, p := range got.Pieces {
			m, r := member(j, p.Ref), rows[p.Ref]
			n, s := measure.Length(r.PiecesEach), r.ScarphLen
			if p.Count != m.Nr*r.PiecesEach {
				t.Fatalf("row %s: %d pieces of %d runs of %d", p.Ref, p.Count, m.Nr, r.PiecesEach)
			}
			wanted := m.New() + (n-1)*s + measure.Length(m.Joints)*s
			over := n*p.Length - wanted
			if m.Sweep == 0 && (over < 0 || over >= n) {
				t.Fatalf("row %s: %d pieces of %d nm for %d nm", p.Ref, n, p.Length, wanted)
			}
			// The convex edge of a curved run is never shorter than its chord.
			if over < 0 && s == 0 {
				t.Fatalf("row %s: %d curved pieces of %d nm for %d nm", p.Ref, n, p.Length, wanted)
			}
			if n > 1 {
				fewer, ok := r.fewer(p)
				if ok && fits(b, fewer) {
					t.Fatalf("row %s: got in %d pieces, and one fewer would do", p.Ref, n)
				}
			}
		}
	})
}

// fewer is the straight piece the row would have with one piece less in the run.
func (r Row) fewer(p Piece) (Piece, bool) {
	n := measure.Length(r.PiecesEach - 1)
	total := r.Member.New() + (n-1+measure.Length(r.Member.Joints))*r.ScarphLen
	p.Length = (total + n - 1) / n
	return p, r.Member.Sweep == 0
}

func fits(b *rates.Book, p Piece) bool {
	for _, k := range b.Stock {
		if p.From(k) {
			return true
		}
	}
	return false
}

func member(j *job.Job, ref string) *job.Member {
	for i := range j.Members {
		if j.Members[i].Ref == ref {
			return &j.Members[i]
		}
	}
	panic("no row " + ref)
}

// BenchmarkMeasure measures 3,000 members, a large refit many times over.
func BenchmarkMeasure(b *testing.B) {
	var members []job.Member
	for i := range 3000 {
		m := strakePlank(fmt.Sprint(i), fmt.Sprint(i%40), 1+i%60, 20+i%60)
		m.Length, m.Fastening, m.Joint, m.Scarph = l("76ft"), "lloyd 1855", []job.Joint{job.Butt, job.Scarph}[i%2], dec("6")
		if i%3 == 0 {
			m.Sweep = l("18in")
		}
		members = append(members, m)
	}
	j, book := yard(members...)
	for i := range 60 {
		k := plankStock(fmt.Sprintf("oak %d", i), "5in", "14in", "24ft")
		k.Length += measure.Length(i) * measure.Inch
		book.Stock = append(book.Stock, k)
	}
	for b.Loop() {
		if got, _ := Measure(j, book); len(got.Pieces) != 3000 {
			b.Fatalf("%d pieces", len(got.Pieces))
		}
	}
}
