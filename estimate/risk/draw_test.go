package risk

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// The published project of mean 24 and variance 5 is done within 28 weeks with
// a probability of 0.9633, read off a table at 1.79; exactly it is 0.96318.
func TestTheNormalProbabilityIsThatPublished(t *testing.T) {
	f, err := os.Open("../../testdata/published/risk.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, r := range rows {
		if r[0] != "R-RSK-17" {
			continue
		}
		found = true
		want, err := strconv.ParseFloat(r[3], 64)
		if err != nil {
			t.Fatal(err)
		}
		if got := bells().upTo((28 - 24) / math.Sqrt(5)); math.Abs(got-want) > 0.0005 || math.Abs(got-0.96318) > 0.000005 {
			t.Errorf("%v; want %v", got, want)
		}
	}
	if !found {
		t.Fatal("no row R-RSK-17")
	}
}

// Between its steps the bell is out by no more than it says, and nowhere falls.
func TestTheBellIsTheErrorFunction(t *testing.T) {
	b := bells()
	before := 0.0
	for z := -9.0; z <= 9; z += 0.0017 {
		got := b.upTo(z)
		if want := 0.5 * math.Erfc(-z/math.Sqrt2); math.Abs(got-want) > 1e-9 {
			t.Fatalf("up to %v: %v; want %v", z, got, want)
		}
		if got < before {
			t.Fatalf("it falls at %v", z)
		}
		before = got
	}
}

// Streams with like names have nothing in common: a thousand draws of each pair
// are uncorrelated within three and a half deviations.
func TestStreamsHaveNothingInCommon(t *testing.T) {
	list := func(draw int64, ref string, block int) []float64 {
		r := stream(draw, ref, block)
		out := make([]float64, 1000)
		for i := range out {
			out[i] = r.NormFloat64()
		}
		return out
	}
	all := [][]float64{list(1, "4.1", 0), list(1, "4.1", 1), list(1, "4.11", 0), list(1, "4.2", 0), list(2, "4.1", 0), list(1, "", 0)}
	for i := range all {
		for k := range i {
			var sum float64
			for n := range all[i] {
				sum += all[i][n] * all[k][n]
			}
			if r := sum / 1000; math.Abs(r) > 3.5/math.Sqrt(1000) {
				t.Errorf("streams %d and %d are correlated by %v", i, k, r)
			}
		}
	}
}
