package picture

import (
	"bytes"
	"image"
	"image/png"
	"testing"

	"futtock/output/drawing"
	"futtock/output/letters"
)

func painter(t *testing.T) *Painter {
	t.Helper()
	face, err := letters.New()
	if err != nil {
		t.Fatal(err)
	}
	return &Painter{Type: face, DPI: 254} // ten dots to the millimetre
}

func box(x, y, w, h float64) []drawing.Step {
	return []drawing.Step{{Kind: drawing.Move, To: drawing.Point{X: x, Y: y}}, {Kind: drawing.Straight, To: drawing.Point{X: x + w, Y: y}},
		{Kind: drawing.Straight, To: drawing.Point{X: x + w, Y: y + h}}, {Kind: drawing.Straight, To: drawing.Point{X: x, Y: y + h}}, {Kind: drawing.Close}}
}

func decoded(t *testing.T, data []byte) image.Image {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// A drawing of 20 x 10 mm at ten dots to the millimetre is 200 x 100 dots; a box filled
// with sapwood from 5 to 15 mm is as dark inside as that shade, its edge is inked, and
// the paper round it is white.
func TestAShapeIsPaintedInItsPlace(t *testing.T) {
	d := drawing.Drawing{Width: 20, Height: 10, Shapes: []drawing.Shape{{Path: box(5, 2, 10, 6), Fill: drawing.Sapwood, Line: drawing.Line{Thick: 0.4}}}}
	p := painter(t)
	data, err := p.PNG(d)
	if err != nil {
		t.Fatal(err)
	}
	img := decoded(t, data)
	if got := img.Bounds().Size(); got != (image.Point{X: 200, Y: 100}) {
		t.Fatalf("it is %v dots, want 200 x 100", got)
	}
	for name, want := range map[string]struct{ x, y, least, most int }{
		"paper": {20, 50, 250, 255}, "inside": {100, 50, 195, 212}, "the left edge": {50, 50, 0, 60}, "the upper edge": {100, 20, 0, 60}, "under it": {100, 90, 250, 255},
	} {
		r, _, _, _ := img.At(want.x, want.y).RGBA()
		if grey := int(r >> 8); grey < want.least || grey > want.most {
			t.Errorf("%s is of grey %d, want %d to %d", name, grey, want.least, want.most)
		}
	}
}

// Writing stands on its baseline, begins or ends at its place, and keeps its width.
func TestWritingStandsWhereItIsPut(t *testing.T) {
	p := painter(t)
	for name, c := range map[string]struct {
		anchor     drawing.Anchor
		from, upto int
	}{"from the left": {drawing.Left, 100, 0}, "to the right": {drawing.Right, 0, 100}} {
		data, err := p.PNG(drawing.Drawing{Width: 20, Height: 10, Shapes: []drawing.Shape{{Text: "HH", At: drawing.Point{X: 10, Y: 6}, Size: 10, Bold: true, Anchor: c.anchor}}})
		if err != nil {
			t.Fatal(err)
		}
		img := decoded(t, data)
		first, last, low := 999, 0, 0
		for y := range 100 {
			for x := range 200 {
				if r, _, _, _ := img.At(x, y).RGBA(); r>>8 < 128 {
					first, last, low = min(first, x), max(last, x), max(low, y)
				}
			}
		}
		wide := p.Type.Width("HH", letters.Bold, 10) * 10
		if low < 57 || low > 61 {
			t.Errorf("%s: the foot of the letters is at %d, want 60", name, low)
		}
		if got := float64(last - first); got < 0.8*wide || got > wide {
			t.Errorf("%s: they are %.0f dots wide, want about %.0f", name, got, wide)
		}
		if c.from > 0 && (first < c.from || first > c.from+6) || c.upto > 0 && (last > c.upto || last < c.upto-6) {
			t.Errorf("%s: they stand from %d to %d", name, first, last)
		}
	}
}

func TestPicturesAreTheSameEveryTime(t *testing.T) {
	d := drawing.Drawing{Width: 60, Height: 10, Shapes: []drawing.Shape{{Path: box(5, 2, 10, 6), Line: drawing.Line{Thick: 0.2, Dash: true}}, {Text: "FR1 125 x 150 mm", At: drawing.Point{X: 20, Y: 6}, Size: 8}}}
	first, err := painter(t).PNG(d)
	if err != nil {
		t.Fatal(err)
	}
	again, err := painter(t).PNG(d)
	if err != nil || !bytes.Equal(first, again) {
		t.Errorf("other bytes the next time, or %v", err)
	}
}
