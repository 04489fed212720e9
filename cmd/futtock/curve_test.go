package main

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// curve is the published form of the money a building contract is valued at by
// the time x, both in parts of the whole: y = x + C x2 - C x - (6 x3 - 9 x2 + 3 x) / K
// (DHSS; in Skitmore 1992).
func curve(x, c, k float64) float64 {
	return x + c*x*x - c*x - (6*x*x*x-9*x*x+3*x)/k
}

// cashRow is a row of the published figures on cash.
func cashRow(t *testing.T, id string) (inputs, expected string) {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", "cash.csv"))
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

// The months of the demonstration are laid out by stages, and come out as such
// curves do: never falling, from nothing to all, steepest between. Constants are
// published for building works of the money of 1978, and fitted ones were ten
// times better, so that no more than likeness can be asked: within 15 points.
func TestTheDemonstrationIsValuedLikeThePublishedCurve(t *testing.T) {
	number := func(s string) float64 {
		f, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	_, constants := cashRow(t, "R-CSH-02") // C 0.134; K 3.884
	f := strings.Fields(strings.ReplaceAll(constants, ";", ""))
	c, k := number(f[1]), number(f[3])
	inputs, expected := cashRow(t, "F-CSH-03")
	_, at, _ := strings.Cut(inputs, "x=")
	want := strings.Split(expected, ";")
	for n, x := range strings.Split(at, ";") {
		if got := curve(number(x), c, k); math.Abs(got-number(want[n])) > 1e-6 {
			t.Errorf("at %s the curve is %v; want %s", x, got, want[n])
		}
	}

	r := demonstration(t)
	weeks := r.Programme.Weeks.InexactFloat64()
	before := 0.0
	for _, m := range r.Cash.Months {
		if !m.Working {
			continue
		}
		x, y := min(m.To.InexactFloat64()/weeks, 1), m.CumulativeShare.Decimal().InexactFloat64()/100
		if d := y - curve(x, c, k); math.Abs(d) > 0.15 {
			t.Errorf("by week %s %.3f is valued, %+.3f off the published curve", m.To, y, d)
		}
		if y < before {
			t.Errorf("by week %s %.3f is valued, after %.3f", m.To, y, before)
		}
		before = y
	}
	if before != 1 {
		t.Errorf("when the work is done %v is valued", before)
	}
}
