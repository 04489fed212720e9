package risk_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"reflect"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/risk"
	"futtock/rates"
	"futtock/rates/money"
)

// published is a row of testdata/published/risk.csv: its inputs and what is
// expected of them.
func published(t testing.TB, id string) (inputs, expected string) {
	t.Helper()
	f, err := os.Open("../../testdata/published/risk.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		if r[0] == id {
			return r[2], r[3]
		}
	}
	t.Fatalf("no row %s", id)
	return "", ""
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(s), ",", ""), 64)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func near(t testing.TB, what string, got money.Amount, want, within float64) {
	t.Helper()
	if math.Abs(value(got)-want) > within {
		t.Errorf("%s is %s; want %.4f within %g", what, got, want, within)
	}
}

func value(a money.Amount) float64 { return a.Decimal().InexactFloat64() }

func amount(f float64) money.Price { return money.NewPrice(decimal.NewFromFloat(f)) }

// drawn is a job whose contingency is simulated, at a confidence of 80 %.
func drawn(together string, risks ...job.Risk) *job.Job {
	return &job.Job{
		Particulars: job.Particulars{ContingencyBy: job.BySimulation, Confidence: percent("80"), Together: percent(together), DrawNumber: 1},
		Risks:       risks,
	}
}

// sure is a row of the register that is certain to come about.
func sure(ref string, least, likely, most float64) job.Risk {
	return job.Risk{Ref: ref, Chance: percent("100"), Least: amount(least), Likely: amount(likely), Most: amount(most)}
}

func hold(j *job.Job, p price.Priced) risk.Simulation {
	return *risk.Hold(j, &rates.Book{}, labour.Hours{}, programme.Programme{}, p).Simulation
}

// vehicle is the seven parts of one, in thousands, as a certain register.
func vehicle(t testing.TB) []job.Risk {
	inputs, _ := published(t, "F-RSK-26")
	_, list, _ := strings.Cut(inputs, ": ")
	var out []job.Risk
	for n, part := range strings.Split(list, "; ") {
		f := strings.Split(part, ",")
		out = append(out, sure(fmt.Sprintf("R%d", n+1), number(t, f[0]), number(t, f[1]), number(t, f[2])))
	}
	return out
}

// The inputs of the GAO cost guide: mean and deviation exactly as published, and
// the percentiles about where they were found (P50 81,610, P80 86,420). A hundred
// thousand draws tell the mean to about 4,600 / 316 = 15, a percentile to some 20.
func TestTheVehicleOfTheCostGuide(t *testing.T) {
	_, mean := published(t, "F-RSK-26")
	_, sd := published(t, "F-RSK-27")
	s := hold(drawn("0", vehicle(t)...), price.Priced{})
	near(t, "mean", s.Mean, number(t, mean), 45)
	near(t, "deviation", s.SD, number(t, sd), 35)
	near(t, "P50", s.P50, 81610, 60)
	near(t, "P80", s.P80, 86420, 60)
	if !s.Chosen.Equal(s.P80) {
		t.Errorf("80 %% is %s and chosen %s", s.P80, s.Chosen)
	}
	var exactly float64
	for _, r := range s.Rows {
		exactly += value(r.Mean)
	}
	if math.Abs(exactly-number(t, mean)) > 0.04 { // seven sums to the penny
		t.Errorf("the rows add %v on the average; want %s", exactly, mean)
	}

	// The sum of the most likely is in the base, and what they may be beside it a
	// credit: the chance that it is enough is 12.6 %.
	p := price.Priced{}
	for _, r := range vehicle(t) {
		part := func(m money.Price) string { return m.Decimal().Shift(2).Div(r.Likely.Decimal()).String() }
		p.Items = append(p.Items, ranged(r.Ref, r.Likely.Amount().String(), part(r.Least), part(r.Most)))
	}
	s = hold(drawn("0"), p)
	if _, want := published(t, "R-RSK-24"); !strings.Contains(want, "("+s.Base.Grouped()[:6]+" K)") {
		t.Errorf("the most likely add up to %s; want %s", s.Base.Grouped(), want)
	}
	if got := s.BaseEnough.Decimal().InexactFloat64(); math.Abs(got-12.6) > 0.4 {
		t.Errorf("the most likely are enough in %v %% of draws; want 12.6", got)
	}
	near(t, "P80 of rows with a range", s.P80, 86420, 60)
}

// Correlated by 0.25 the parts have a deviation of 5,183.6. The copula binds the
// places of the rows, not their costs, and skewed triangles come out a trifle
// less bound, at some 5,170; the mean does not move.
func TestSurprisesTogetherWidenTheSpreadAndLeaveTheMean(t *testing.T) {
	_, mean := published(t, "F-RSK-26")
	_, sd := published(t, "F-RSK-28")
	s := hold(drawn("25", vehicle(t)...), price.Priced{})
	near(t, "mean", s.Mean, number(t, mean), 50)
	near(t, "deviation", s.SD, number(t, sd), 40)

	all := hold(drawn("100", vehicle(t)...), price.Priced{})
	near(t, "mean, all alike", all.Mean, number(t, mean), 90)
	// All at the same place: percentiles add up.
	var p80 float64
	for _, r := range vehicle(t) {
		p80 += upTo(0.8, r)
	}
	near(t, "P80, all alike", all.P80, p80, 90)
}

// upTo is the quantile of a triangle, by its formula.
func upTo(v float64, r job.Risk) float64 {
	a, m, b := r.Least.Decimal().InexactFloat64(), r.Likely.Decimal().InexactFloat64(), r.Most.Decimal().InexactFloat64()
	if v < (m-a)/(b-a) {
		return a + math.Sqrt(v*(b-a)*(m-a))
	}
	return b - math.Sqrt((1-v)*(b-a)*(b-m))
}

func TestPublishedPercentilesOfOneTriangle(t *testing.T) {
	_, expected := published(t, "F-RSK-31")
	s := hold(drawn("0", sure("R", 32300, 35547, 52500)), price.Priced{})
	for n, got := range []money.Amount{s.P10, s.P50, s.P80, s.P90} {
		near(t, fmt.Sprintf("percentile %d", n), got, number(t, strings.Split(expected, "; ")[n]), 90)
	}
}

// The published project of seven activities, by its critical path 1, 3, 5, 7.
// PERT makes its mean 24 weeks and its variance 5, by (a + 4m + b) / 6; drawn are
// triangles, wider than it supposes: 10, 5, 6 and 4 weeks, in all 25, with a
// variance of 6.5 + 2/3 + 2/3 + 1/6 = 8.
func TestThePublishedProjectAsTriangles(t *testing.T) {
	inputs, _ := published(t, "R-RSK-15")
	var path []job.Risk
	for _, n := range []string{"1(", "3(", "5(", "7("} {
		_, at, _ := strings.Cut(inputs, n)
		at, _, _ = strings.Cut(at, ")")
		f := strings.Split(at, ",")
		path = append(path, sure(n, number(t, f[0]), number(t, f[1]), number(t, f[2])))
	}
	s := hold(drawn("0", path...), price.Priced{})
	near(t, "mean", s.Mean, 25, 0.05)
	near(t, "deviation", s.SD, math.Sqrt(8), 0.03)
}

// Whatever the register, rows each for itself have the mean and the variance
// that the formulas give: p m, and p (v + m2) - p2 m2.
func TestAnyRegisterHasItsExactMeanAndVariance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var risks []job.Risk
		var mean, variance float64
		for n := range rapid.IntRange(1, 4).Draw(t, "rows") {
			least := rapid.IntRange(0, 1000).Draw(t, "least")
			likely := least + rapid.IntRange(0, 1000).Draw(t, "likely")
			most := likely + rapid.IntRange(0, 3000).Draw(t, "most")
			chance := rapid.IntRange(1, 100).Draw(t, "chance")
			r := sure(strconv.Itoa(n), float64(least), float64(likely), float64(most))
			r.Chance = money.NewPercent(decimal.New(int64(chance), 0))
			risks = append(risks, r)
			a, m, b, p := float64(least), float64(likely), float64(most), float64(chance)/100
			mu := (a + m + b) / 3
			mean += p * mu
			variance += p*((a*a+m*m+b*b-a*m-a*b-m*b)/18+mu*mu) - p*p*mu*mu
		}
		s := hold(drawn("0", risks...), price.Priced{})
		sd := math.Sqrt(variance)
		if got := value(s.Mean); math.Abs(got-mean) > 5*sd/math.Sqrt(risk.Draws)+0.02 {
			t.Fatalf("mean %v; want %v", got, mean)
		}
		// The error of a deviation has the fourth moment in it; rare risks are the worst.
		if got := value(s.SD); math.Abs(got-sd) > 0.05*sd+0.02 {
			t.Fatalf("deviation %v; want %v", got, sd)
		}
		var rows, squares float64
		for _, r := range s.Rows {
			rows += value(r.Mean)
			squares += value(r.SD) * value(r.SD)
		}
		if math.Abs(rows-mean) > 0.01*float64(len(risks)) || math.Abs(math.Sqrt(squares)-sd) > 0.05 {
			t.Fatalf("the rows say %v and %v; want %v and %v", rows, math.Sqrt(squares), mean, sd)
		}
		count := 0
		for n, b := range s.Bins {
			count += b.Draws
			if n > 0 && !b.From.Equal(s.Bins[n-1].To) {
				t.Fatalf("a bin from %s after one to %s", b.From, s.Bins[n-1].To)
			}
		}
		if count != risk.Draws || len(s.Bins) > 41 {
			t.Fatalf("%d draws in %d bins", count, len(s.Bins))
		}
	})
}

// The same answer on any number of processors, down to the last figure.
func TestTheNumberOfProcessorsHasNoSay(t *testing.T) {
	was := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(was)
	one := hold(drawn("20", vehicle(t)...), price.Priced{})
	for _, n := range []int{2, 7} {
		runtime.GOMAXPROCS(n)
		if got := hold(drawn("20", vehicle(t)...), price.Priced{}); !reflect.DeepEqual(one, got) {
			t.Errorf("on %d: %+v\non one: %+v", n, got, one)
		}
	}
}

// Each row has a stream of its own: another order, or a row that adds nothing,
// leaves every figure as it was; another Draw number does not.
func TestARowKeepsItsDraws(t *testing.T) {
	want := hold(drawn("20", vehicle(t)...), price.Priced{})
	turned := vehicle(t)
	slices.Reverse(turned)
	turned = append(turned, sure("Z", 0, 0, 0))
	got := hold(drawn("20", turned...), price.Priced{})
	if !got.P50.Equal(want.P50) || !got.P80.Equal(want.P80) || !got.Most.Equal(want.Most) {
		t.Errorf("P50 %s, P80 %s, most %s; want %s, %s, %s", got.P50, got.P80, got.Most, want.P50, want.P80, want.Most)
	}
	j := drawn("20", vehicle(t)...)
	j.DrawNumber = 2
	if got := hold(j, price.Priced{}); got.Most.Equal(want.Most) {
		t.Error("another Draw number draws the same")
	}
}

func TestTheDriversMakeUpWhatIsHeld(t *testing.T) {
	s := hold(drawn("20", vehicle(t)...), price.Priced{})
	var all money.Amount
	for n, d := range s.Drivers {
		all = all.Add(d.Bears)
		if n > 0 && d.Bears.Cmp(s.Drivers[n-1].Bears) > 0 {
			t.Errorf("%s bears more than %s before it", d.Ref, s.Drivers[n-1].Ref)
		}
	}
	near(t, "what the drivers bear", all, value(s.Held), 40)
	if s.Drivers[0].Ref != "R6" { // 32,300 to 52,500, by far the widest
		t.Errorf("the first driver is %s", s.Drivers[0].Ref)
	}
	if got := s.PriceEnough.Decimal(); got.LessThan(decimal.New(80, 0)) {
		t.Errorf("the price is enough in %s %% of draws", got)
	}
}
