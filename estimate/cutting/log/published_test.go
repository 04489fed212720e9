package log

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// published is the rows of a file of figures from published sources.
func published(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../../testdata/published/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

const inch = 25_400_000 // nanometres

// sided is the siding of the largest timber that a diameter gives, moulded so many
// parts for so many sided.
func sided(diameter, moulded, parts int64) int64 {
	low, high := int64(0), diameter
	for low < high {
		if mid := low + (high-low+1)/2; across(diameter, mid*moulded/parts) < mid {
			high = mid - 1
		} else {
			low = mid
		}
	}
	return low
}

func TestGeometryAgreesWithPublishedFigures(t *testing.T) {
	// Boards of 52 mm with cuts of 3 mm from a top of 600 mm, 30 mm of it sapwood.
	boards := Boards(Log{Top: 600 * mm, Length: 6000 * mm, Sapwood: 30 * mm}, 52*mm, 3*mm, false)
	width := func(n int) float64 { return float64(boards[len(boards)/2+n].Small) / mm }
	sawn := 0.0
	for _, b := range boards {
		sawn += 52 * float64(b.Small) / mm
	}
	// Twelve boards of 1 1/8 in, face to face: the outer cuts fall in the slabs.
	depth := func(kerf int64) float64 {
		b := Boards(Log{Top: 600 * mm, Length: 1000 * mm}, 9*inch/8, kerf, true)
		return float64(b[0].Low+9*inch/8-b[11].Low) / inch
	}
	checks := map[string]float64{
		"GEO-01":   math.Pow(float64(sided(300*mm, 1, 1))/10/mm, 2),
		"GEO-04":   100 * math.Pow(float64(sided(300*mm, 1, 1))/mm, 2) / (math.Pi * 150 * 150),
		"GEO-07":   float64(Boards(Log{Top: 600 * mm, Length: 1000 * mm}, 300*mm, 0, true)[0].Small) / mm,
		"GEO-08":   float64(len(boards)),
		"GEO-09-0": width(0),
		"GEO-09-1": width(1),
		"GEO-09-2": width(-2),
		"GEO-09-3": width(3),
		"GEO-09-4": width(-4),
		"GEO-10":   sawn / (math.Pi * 300 * 300),
		"KERF-01":  depth(9 * inch / 32),
		"KERF-02":  depth(5 * inch / 32),
		"KERF-03":  100 * (depth(9*inch/32) - depth(5*inch/32)) / depth(9*inch/32),
		// The two sizes printed are the largest square; the rule beside them, two-thirds
		// of the calliper, is of timber moulded somewhat more than it is sided: an eighth.
		"SHIP-06": float64(sided(30*inch, 1, 1)) / inch,
		"SHIP-07": float64(sided(18*inch, 1, 1)) / inch,
		"SHIP-08": float64(sided(30*inch, 9, 8)) / (30 * inch),
	}
	for _, row := range append(published(t, "sawing.csv"), published(t, "cutting.csv")...) {
		got, ok := checks[row[0]]
		if !ok {
			continue
		}
		delete(checks, row[0])
		want, err1 := strconv.ParseFloat(row[3], 64)
		within, err2 := strconv.ParseFloat(row[5], 64)
		if err1 != nil || err2 != nil || row[8] == "memory" {
			t.Fatalf("row %v is no figure to check by", row)
		}
		if math.Abs(got-want) > within {
			t.Errorf("%s: %.4f, and published %v within %v (%s, %s)", row[0], got, want, within, row[6], row[7])
		}
	}
	for id := range checks {
		t.Errorf("no published row %s", id)
	}
}

// The taper gives shorter boards on the outside: with 10 mm/m over 6 m the radius
// grows from 180 to 210 mm. Boards of 50 mm with cuts of 5 mm have farther faces at 25,
// 80, 135, 190 and 245 mm: the fourth lies within the butt alone.
func TestTaperGivesShorterBoards(t *testing.T) {
	l := Log{Top: 360 * mm, Taper: 10 * mm, Length: 6000 * mm}
	boards := Boards(l, 50*mm, 5*mm, true)
	if len(boards) != 7 {
		t.Fatalf("%d boards, by hand 7", len(boards))
	}
	// Outermost: farther face at 190 of a butt radius of 210 mm; it meets the wood at a
	// radius of 190 mm, 2 m from the small end, and is 2 sqrt(210^2 - 190^2) = 178.885 mm wide at the butt.
	b := boards[0]
	if b.Low != 140*mm || b.Small != 0 || b.Length != 4000*mm || b.Butt/1000 != 178_885 {
		t.Errorf("the outermost board is %+v", b)
	}
	if m := boards[3]; m.Low != -25*mm || m.Length != l.Length || m.Small/1000 != 356_510 {
		t.Errorf("the middle board is %+v", m) // 2 sqrt(180^2 - 25^2) = 356.510
	}
}
