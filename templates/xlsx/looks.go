package xlsx

import (
	"github.com/xuri/excelize/v2"

	"futtock/templates/grid"
)

// The ordinary letters, here and nowhere else. Arial is on every Windows and
// Mac; LibreOffice brings Liberation Sans, which has the same widths, so row
// heights reckoned from those widths hold in all of them.
const (
	face           = "Arial"
	bodySize       = 10.0
	noteSize       = 9.0
	hairColour     = "999999"
	lineColour     = "000000"
	largestHeight  = 409.0 // points a row can be high
	smallestLetter = 1.0
	largestLetter  = 409.0
)

// The library's numbers of line kinds.
const (
	thinLine   = 1
	doubleLine = 6
	hairLine   = 7
)

// looks keeps the style number of every look used so far.
type looks struct {
	file *excelize.File
	ids  map[grid.Style]int
}

// id is the style number of a look; the plain one is 0.
func (l *looks) id(s grid.Style) (int, error) {
	if s == (grid.Style{}) {
		return 0, nil
	}
	if id, ok := l.ids[s]; ok {
		return id, nil
	}
	id, err := l.file.NewStyle(look(s))
	if err == nil {
		l.ids[s] = id
	}
	return id, err
}

// look is a style as the library takes it.
func look(s grid.Style) *excelize.Style {
	out := &excelize.Style{
		Font:      letters(s.Font),
		Border:    edges(s.Border),
		Alignment: &excelize.Alignment{WrapText: s.Wrap, Indent: s.Indent, Horizontal: across(s)},
	}
	if s.Top {
		out.Alignment.Vertical = "top"
	}
	if s.Fill != "" {
		out.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{s.Fill}}
	}
	if s.Format != "" {
		out.CustomNumFmt = &s.Format
	}
	if s.Open {
		out.Protection = &excelize.Protection{Locked: false}
	}
	return out
}

// letters is a font as the library takes it, always in the one face.
func letters(f grid.Font) *excelize.Font {
	return &excelize.Font{Family: face, Size: sizeOf(f), Bold: f.Bold, Italic: f.Italic, Color: f.Colour}
}

// sizeOf is a font's size in points.
func sizeOf(f grid.Font) float64 {
	if f.Size == 0 {
		return bodySize
	}
	return f.Size
}

// across is the horizontal alignment. An indent needs a side to stand off.
func across(s grid.Style) string {
	switch s.Align {
	case grid.Left:
		return "left"
	case grid.Right:
		return "right"
	case grid.Centre:
		return "center"
	}
	if s.Indent > 0 {
		return "left"
	}
	return ""
}

// edges are the lines of a cell; where two claim one edge the stronger stands.
func edges(b grid.Border) []excelize.Border {
	var under, over int
	colour := lineColour
	switch {
	case b&grid.Double != 0:
		under = doubleLine
	case b&(grid.Under|grid.Box) != 0:
		under = thinLine
	case b&grid.Hair != 0:
		under, colour = hairLine, hairColour
	}
	if b&(grid.Over|grid.Box) != 0 {
		over = thinLine
	}
	var out []excelize.Border
	if b&grid.Box != 0 {
		out = append(out,
			excelize.Border{Type: "left", Style: thinLine, Color: lineColour},
			excelize.Border{Type: "right", Style: thinLine, Color: lineColour})
	}
	if over != 0 {
		out = append(out, excelize.Border{Type: "top", Style: over, Color: lineColour})
	}
	if under != 0 {
		out = append(out, excelize.Border{Type: "bottom", Style: under, Color: colour})
	}
	return out
}
