package pdf

import (
	"fmt"

	"futtock/output/letters"
)

// face is a cut of the type.
type face = letters.Cut

const (
	regular = letters.Regular
	bold    = letters.Bold
	italic  = letters.Italic
	faces   = letters.Cuts
)

// colour is chosen so that every shade is told from the next in greyscale too.
type colour struct{ r, g, b uint8 }

var (
	black = colour{0x1A, 0x1A, 0x1A}
	slate = colour{0x1F, 0x2E, 0x3A} // the one accent
	grey  = colour{0x5A, 0x66, 0x6E}
	pale  = colour{0xC4, 0xCB, 0xD0}
	wash  = colour{0xEE, 0xF1, 0xF3}
	mid   = colour{0xA9, 0xB4, 0xBB}
)

// style is how a mark looks. size is in points, of a rule its thickness in
// millimetres; lead is the distance of lines in parts of the size.
type style struct {
	face   face
	size   float64
	lead   float64
	colour colour
}

var (
	body     = style{regular, 9.5, 1.42, black}
	emphatic = style{bold, 9.5, 1.42, black}
	aside    = style{italic, 9, 1.4, grey}
	part     = style{bold, 17, 1.2, slate}
	heading  = style{bold, 11, 1.3, slate}
	cellText = style{regular, 8.4, 1.34, black}
	cellBold = style{bold, 8.4, 1.34, black}
	cellNote = style{italic, 7.8, 1.34, grey}
	cellHead = style{bold, 7.8, 1.25, slate}
	grand    = style{bold, 10, 1.3, slate}
	running  = style{regular, 7.6, 1.2, grey}

	hairline = style{size: 0.1, colour: mid}
	faint    = style{size: 0.1, colour: pale}
	strong   = style{size: 0.35, colour: slate}
	heavy    = style{size: 1.6, colour: slate}
)

// of is the style in another cut.
func (s style) of(f face) style {
	s.face = f
	return s
}

// in is the style in another colour.
func (s style) in(c colour) style {
	s.colour = c
	return s
}

const point = letters.Point

// pitch is the distance from line to line, in mm.
func (s style) pitch() float64 { return s.size * s.lead * point }

// baseline is how far down a line of its pitch the baseline stands, in mm.
func (s style) baseline() float64 { return (s.pitch()-s.size*point)/2 + s.size*point*0.8 }

func pageNumber(n, of int) string { return fmt.Sprintf("Page %d of %d", n, of) }
