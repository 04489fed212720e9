// Package letters is the type that documents and pictures are set in. A
// character goes in and out comes how wide it is; text goes in as somebody
// typed it and comes out fit to print. The type is the Go family in three cuts;
// all its figures are of one width.
//
// A figure is 0.556 of the size wide (569 of 1024): ten of them at 9 point take
// 10 x 0.556 x 9 x 25.4 / 72 = 17.6 mm.
package letters

import (
	"fmt"
	"slices"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Cut is a cut of the type.
type Cut uint8

// The cuts, and how many there are.
const (
	Regular Cut = iota
	Bold
	Italic
	Cuts
)

// Point is a typographer's point in millimetres.
const Point = 25.4 / 72

// Type is the type with what has been asked of it so far. It serves one
// document at a time.
type Type struct {
	fonts [Cuts]*sfnt.Font
	ems   [Cuts]float64
	adv   [Cuts]map[rune]float64 // in parts of the size; below nil where there is no such glyph
	buf   sfnt.Buffer
}

// File is the file of one cut, a copy: who is given it may write into it.
func File(c Cut) []byte {
	return hyphened(slices.Clone([Cuts][]byte{goregular.TTF, gobold.TTF, goitalic.TTF}[c]))
}

// New reads the type. It fails only where the files that come with the program
// are damaged.
func New() (*Type, error) {
	t := &Type{}
	for c := range Cuts {
		parsed, err := sfnt.Parse(File(c))
		if err != nil {
			return nil, fmt.Errorf("the type of the document: %w", err)
		}
		t.fonts[c], t.ems[c], t.adv[c] = parsed, float64(parsed.UnitsPerEm()), map[rune]float64{}
	}
	return t, nil
}

// Font is one cut as its outlines are read.
func (t *Type) Font(c Cut) *sfnt.Font { return t.fonts[c] }

// Advance is how far a character moves on, in parts of the size, or below nil
// where the cut has none of it.
func (t *Type) Advance(r rune, c Cut) float64 {
	if a, ok := t.adv[c][r]; ok {
		return a
	}
	a := -1.0
	// The library that writes documents has no room for characters beyond the first plane.
	if i, err := t.fonts[c].GlyphIndex(&t.buf, r); err == nil && i != 0 && r <= 0xFFFF {
		if w, err := t.fonts[c].GlyphAdvance(&t.buf, i, fixed.I(int(t.ems[c])), font.HintingNone); err == nil {
			a = float64(w) / 64 / t.ems[c]
		}
	}
	t.adv[c][r] = a
	return a
}

// Has reports a character every cut has.
func (t *Type) Has(r rune) bool {
	for c := range Cuts {
		if t.Advance(r, c) < 0 {
			return false
		}
	}
	return true
}

// Width is that of clean text on one line, in mm; size is in points.
func (t *Type) Width(s string, c Cut, size float64) float64 {
	w := 0.0
	for _, r := range s {
		w += t.Advance(r, c)
	}
	return w * size * Point
}
