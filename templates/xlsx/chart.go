package xlsx

import (
	"errors"
	"fmt"
	"regexp"

	"github.com/xuri/excelize/v2"

	"futtock/templates/grid"
)

// The letters and inks of charts: greys that stay apart on a printer without
// colour. Bars differ by shade, lines by shade and dash.
const (
	chartInk   = "303030"
	titleSize  = 11.0
	axisSize   = 9.0
	lineWidth  = 2.25
	gapOfBars  = 40 // between bars, in hundredths of a bar
	wholeCover = 100
)

var (
	chartShades = []string{"4A4A4A", "A6A6A6", "D0D0D0"}
	chartDashes = []excelize.LineDashType{excelize.LineDashSolid, excelize.LineDashDash, excelize.LineDashSysDot}
	chartTypes  = map[grid.ChartKind]excelize.ChartType{
		grid.Columns: excelize.Col, grid.Stacked: excelize.BarStacked, grid.Lines: excelize.Line,
	}
)

// charts draws the charts of the sheet. The cells they cover are set when the
// file is packed: the library reckons them from widths and heights that it
// does not know while the sheet is a stream.
func (w *sheetWriter) charts() error {
	for _, c := range w.sheet.Charts {
		area, _ := parseRange(c.Range) // checked with the book
		if err := w.file.AddChart(w.sheet.Name, cellName(area.left, area.top), chart(c)); err != nil {
			return fmt.Errorf("chart %q: %w", c.Title, err)
		}
	}
	return nil
}

// chart is a chart in the library's terms.
func chart(c grid.Chart) *excelize.Chart {
	same, gap, cover := false, uint(gapOfBars), wholeCover
	out := &excelize.Chart{
		Type:       chartTypes[c.Kind],
		Format:     excelize.GraphicOptions{AltText: c.Alt, Positioning: "twoCell"},
		Legend:     excelize.ChartLegend{Position: "none"},
		Title:      chartTitle(c.Title, titleSize),
		VaryColors: &same,
		Fill:       excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFFFFF"}},
		XAxis:      excelize.ChartAxis{Font: chartFont(axisSize), Title: chartTitle(c.OfTitle, axisSize)},
		YAxis:      excelize.ChartAxis{Font: chartFont(axisSize), Title: chartTitle(c.InTitle, axisSize), MajorGridLines: true},
	}
	out.YAxis.NumFmt.CustomNumFmt = "#,##0"
	if c.FromNil {
		var nought float64
		out.YAxis.Minimum = &nought
	}
	if c.OnEnd {
		out.XAxis.Alignment.TextRotation = -90
	}
	if c.Kind != grid.Lines {
		out.GapWidth = &gap
	}
	if c.Kind == grid.Stacked {
		out.Overlap, out.XAxis.ReverseOrder = &cover, true
		// With the first name on top the axis of the figures lies there too: its
		// labels go to the far side, beside its title.
		out.YAxis.TickLabelPosition = excelize.ChartTickLabelHigh
	}
	seen, hidden := 0, false
	for _, s := range c.Series {
		hidden = hidden || s.Hidden
		fill := excelize.Fill{Type: "pattern"} // of pattern 0: nothing is drawn
		line := excelize.LineOptions{Type: excelize.LineNone}
		if !s.Hidden {
			fill.Pattern, fill.Color = 1, []string{chartShades[seen%len(chartShades)]}
			line = excelize.LineOptions{Type: excelize.LineSolid, Width: lineWidth, Dash: chartDashes[seen%len(chartDashes)]}
			seen++
		}
		out.Series = append(out.Series, excelize.ChartSeries{
			Name: s.Name, Categories: c.Of, Values: s.Values, Fill: fill, Line: line, Marker: excelize.ChartMarker{Symbol: "none"},
		})
	}
	if seen > 1 && !hidden { // a legend would name what is not drawn
		font := chartFont(axisSize)
		out.Legend = excelize.ChartLegend{Position: "bottom", Font: &font}
	}
	return out
}

func chartFont(size float64) excelize.Font {
	return excelize.Font{Family: face, Size: size, Color: chartInk}
}

func chartTitle(text string, size float64) excelize.ChartTitle {
	if text == "" {
		return excelize.ChartTitle{}
	}
	font := chartFont(size)
	font.Bold = size == titleSize
	return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: text, Font: &font}}}
}

// covers finds from where to where a chart is drawn.
var covers = regexp.MustCompile(`(?s)(<xdr:twoCellAnchor[^>]*>)<xdr:from>.*?</xdr:to>`)

// reach is from where to where a chart is drawn: over its cells.
func reach(c grid.Chart) []byte {
	area, _ := parseRange(c.Range) // checked with the book
	corner := func(name string, col, row int) string {
		return fmt.Sprintf("<xdr:%s><xdr:col>%d</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>%d</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:%s>", name, col, row, name)
	}
	return []byte(corner("from", area.left-1, area.top-1) + corner("to", area.right, area.bottom))
}

// checkChart refuses a chart that could not be drawn.
func checkChart(c grid.Chart) error {
	if _, known := chartTypes[c.Kind]; !known {
		return fmt.Errorf("charts of kind %d cannot be drawn", c.Kind)
	}
	if _, ok := parseRange(c.Range); !ok {
		return fmt.Errorf("%q is not a range to draw over", c.Range)
	}
	if len(c.Series) == 0 || c.Of == "" {
		return errors.New("it draws nothing")
	}
	for _, text := range []string{c.Title, c.Alt, c.OfTitle, c.InTitle} {
		if err := checkText(text); err != nil {
			return err
		}
	}
	return nil
}
