package sheets_test

import (
	"bytes"
	"fmt"
	"image/png"
	"strings"
	"testing"

	"futtock/estimate/cutting/order"
	"futtock/output/drawing"
	"futtock/output/sheets"
	"futtock/templates/grid"
)

// cuttingOf is the cutting sheet of a working.
func cuttingOf(t *testing.T, book *grid.Book) *grid.Sheet {
	t.Helper()
	for _, s := range book.Sheets {
		if s.Name == "Cutting" {
			return s
		}
	}
	t.Fatal("the working has no cutting sheet")
	return nil
}

// Every pattern that can be drawn has its drawing under its rows, in a row high enough
// for it, and the pictures are small.
func TestEveryPatternHasItsDrawing(t *testing.T) {
	r := demonstration(t)
	s := cuttingOf(t, sheets.Estimate(r))
	want := 0
	for _, l := range append(append([]order.Line(nil), r.Plan.Order...), r.Plan.Maybe...) {
		if drawing.Drawn(l.Stock) {
			want += len(l.Patterns)
		}
	}
	first, bytesAll := 0, 0
	for _, i := range s.Images {
		if !strings.HasSuffix(i.Alt, ", continued") {
			first++
		}
		bytesAll += len(i.PNG)
		row := 0
		if _, err := fmt.Sscanf(i.Cell, "A%d", &row); err != nil {
			t.Fatalf("a picture stands on %q", i.Cell)
		}
		if have := s.Rows[row-1].Height * 25.4 / 72; have < i.High || have > 144.4 {
			t.Errorf("the row of %s is %.1f mm high for a picture of %.1f", i.Cell, have, i.High)
		}
		c, err := png.DecodeConfig(bytes.NewReader(i.PNG))
		if err != nil {
			t.Fatalf("%s: %v", i.Cell, err)
		}
		if got, want := float64(c.Width)/float64(c.Height), i.Wide/i.High; got < 0.95*want || got > 1.05*want {
			t.Errorf("%s is %d x %d dots and shown %.0f x %.0f mm", i.Cell, c.Width, c.Height, i.Wide, i.High)
		}
	}
	if want = min(want, 120); first != want {
		t.Errorf("%d patterns are drawn, want %d", first, want)
	}
	if most := 12_000 * len(s.Images); bytesAll > most {
		t.Errorf("the pictures are %d bytes, more than %d", bytesAll, most)
	}
}

// Past the number that is drawn the sheet says so once.
func TestTheSheetSaysThatNotAllIsDrawn(t *testing.T) {
	r := demonstration(t)
	l := r.Plan.Order[0]
	for _, o := range r.Plan.Order {
		if drawing.Drawn(o.Stock) {
			l = o
			break
		}
	}
	l.Patterns = nil
	for range 130 {
		l.Patterns = append(l.Patterns, r.Plan.Order[0].Patterns...)
	}
	r.Plan.Order = append([]order.Line{l}, r.Plan.Order[1:]...)
	s := cuttingOf(t, sheets.Estimate(r))
	said := 0
	for _, row := range s.Rows {
		for _, c := range row.Cells {
			if strings.HasPrefix(c.Text, "No more than 120 patterns are drawn here; BRIM-114-timber.pdf has them all") {
				said++
			}
		}
	}
	if said != 1 || len(s.Images) < 120 {
		t.Errorf("it is said %d times, with %d pictures", said, len(s.Images))
	}
}

func TestTheDrawingsOfTheSheetAreTheSameEveryTime(t *testing.T) {
	r := demonstration(t)
	a, b := cuttingOf(t, sheets.Estimate(r)), cuttingOf(t, sheets.Estimate(r))
	for n := range a.Images {
		if !bytes.Equal(a.Images[n].PNG, b.Images[n].PNG) {
			t.Fatalf("the picture on %s has other bytes the next time", a.Images[n].Cell)
		}
	}
}
