package drawing

import (
	"fmt"
	"math"
	"strings"

	"futtock/estimate/cutting/order"
	"futtock/estimate/takeoff"
	"futtock/output/letters"
	"futtock/rates"
	"futtock/rates/measure"
)

// Frame is what drawings are fitted to. It serves one document at a time.
type Frame struct {
	Type          *letters.Type
	Width, Height float64 // most of one part, mm
	LengthIn      measure.Unit
	SizeIn        measure.Unit
	Pieces        []takeoff.Piece   // of the plan
	Member        map[string]string // name, by Ref

}

// Sizes of writing in points. Nothing is smaller than the second.
const (
	plainSize = 8.0
	smallSize = 7.5
	lineDeep  = 3.5 // of a line of writing, mm
	capital   = 2.0 // height of a capital, mm
)

// Sketch is a pattern drawn: in one part, or in several one below the other where
// it is deeper than the frame allows.
type Sketch struct {
	Scale Scale
	Parts []Drawing
}

// Scale is how many times smaller than the timber a drawing is, along the stick
// and across it; and on the end where that is drawn too, else nil.
type Scale struct{ Along, Across, End int }

// ScaleText is a scale as it is printed.
func (f Frame) ScaleText(s Scale) string {
	text := "scale " + f.ratio(s.Along)
	if s.Across != s.Along {
		text = "scale " + f.ratio(s.Along) + " along, " + f.ratio(s.Across) + " across"
	}
	if s.End > 0 {
		text += "; end view " + f.ratio(s.End)
	}
	return text
}

func (f Frame) ratio(n int) string {
	return fmt.Sprintf("1:%d", n)
}

// The scales drawn to: those of a metric rule, and those of a rule in parts of an
// inch to the foot.
var (
	metricScales = []int{2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200, 250, 300, 400, 500, 1000}
	footScales   = []int{2, 4, 6, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 256, 384, 512, 1024}
)

// scale is the largest of the usual ones, not over least, at which so much timber
// takes no more than so much paper.
func (f Frame) scale(timber, paper float64, least int) int {
	list := metricScales
	if f.LengthIn == measure.Ft || f.LengthIn == measure.In {
		list = footScales
	}
	for _, n := range list {
		if n >= least && timber/float64(n) <= paper {
			return n
		}
	}
	return int(math.Ceil(timber / paper))
}

// Drawn reports stock whose patterns can be drawn: sawn forms, crooks and logs of
// known size. Knees, spars and what has no size go by number, and have nothing to draw.
func Drawn(s rates.Stock) bool {
	switch s.Form {
	case rates.Plank, rates.Baulk, rates.Flitch, rates.Crook:
		return s.Thickness > 0 && s.Width > 0 && s.Length > 0
	case rates.Log:
		return s.Length > 0 && (s.TopDiameter > 0 || s.MidGirth > 0)
	}
	return false
}

// Draw draws one pattern of a stock line. It panics on stock that cannot be
// drawn, see Drawn.
func (f Frame) Draw(s rates.Stock, p order.Pattern) Sketch {
	if !Drawn(s) {
		panic(fmt.Sprintf("drawing: a %s, %q, has nothing to draw", s.Form, s.Stock))
	}
	switch s.Form {
	case rates.Log:
		return f.log(s, p)
	case rates.Crook:
		return f.crook(s, p)
	}
	return f.board(s, p)
}

// wide is how wide clean text is, mm.
func (f Frame) wide(text string, bold bool, size float64) float64 {
	if bold {
		return f.Type.Width(text, letters.Bold, size)
	}
	return f.Type.Width(text, letters.Regular, size)
}

// clean makes text fit to print on one line.
func (f Frame) clean(text string) string {
	text, _ = f.Type.Clean(text)
	return strings.ReplaceAll(text, "\n", " ")
}

// mm is a length in millimetres.
func mm(l measure.Length) float64 { return float64(l) / float64(measure.Millimetre) }

// Size writes a width or thickness as the job does: 150 mm, or 5½″.
func (f Frame) Size(l measure.Length) string { return printed.Replace(l.Format(f.SizeIn)) }

// Length writes a length as the job does: 2.40 m, or 7′ 10½″.
func (f Frame) Length(l measure.Length) string { return printed.Replace(l.Format(f.LengthIn)) }

// printed is a measure as print has it, in one piece; the type has no sixteenths.
var printed = strings.NewReplacer(` 1/2"`, "½″", ` 1/4"`, "¼″", ` 3/4"`, "¾″", ` 1/8"`, "⅛″", ` 3/8"`, "⅜″", ` 5/8"`, "⅝″", ` 7/8"`, "⅞″",
	`1/2"`, "½″", `1/4"`, "¼″", `3/4"`, "¾″", `1/8"`, "⅛″", `3/8"`, "⅜″", `5/8"`, "⅝″", `7/8"`, "⅞″", `"`, "″", `'`, "′", " ", "\u00a0")

// Sizes writes a section: 125 × 150 mm, or 5″ × 6″.
func (f Frame) Sizes(thickness, width measure.Length) string {
	if f.SizeIn == measure.Mm {
		return thickness.In(measure.Mm, 1).String() + " × " + f.Size(width)
	}
	return f.Size(thickness) + " × " + f.Size(width)
}

// Three writes thickness × width × length.
func (f Frame) Three(thickness, width, length measure.Length) string {
	return f.Sizes(thickness, width) + " × " + f.Length(length)
}

// tell is writing at a place.
func tell(x, y float64, text string, size float64, bold bool, a Anchor) Shape {
	return Shape{Text: text, At: Point{x, y}, Size: size, Bold: bold, Anchor: a}
}

// centred is writing with its middle at a place.
func centred(x, y float64, text string, size float64, bold bool) Shape {
	return tell(x, y+capital/2*size/plainSize, text, size, bold, Middle)
}

// stack puts blocks under one another into as few parts as the frame allows.
func (f Frame) stack(blocks []Drawing) []Drawing {
	var out []Drawing
	for _, b := range blocks {
		if n := len(out) - 1; n >= 0 && out[n].Height+b.Height <= f.Height {
			out[n].over(b, 0, out[n].Height)
			continue
		}
		out = append(out, Drawing{})
		out[len(out)-1].over(b, 0, 0)
	}
	for i := range out {
		out[i].Width = f.Width
	}
	return out
}
