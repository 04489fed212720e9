package xlsx

import (
	"bytes"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// drawn is a book of two sheets with charts of every kind, one of them beside
// a note.
func drawn() *grid.Book {
	book := &grid.Book{Title: "charts"}
	for _, name := range []string{"Cash", "Yard's own"} {
		s := &grid.Sheet{Name: name, Columns: []grid.Width{{Chars: 30}, {Chars: 12}}}
		s.Rows = append(s.Rows, grid.Row{Cells: []grid.Cell{grid.Textual("Month", grid.Style{}), grid.Textual("Value & more", grid.Style{})}})
		for n, month := range []string{"May", "June", "July"} {
			s.Rows = append(s.Rows, grid.Row{Cells: []grid.Cell{grid.Textual(month, grid.Style{}), grid.Numeric(decimal.NewFromInt(int64(n+2)), grid.Style{})}})
		}
		on := quoted(name) + "!"
		series := grid.Series{Name: on + "$B$1", Values: on + "$B$2:$B$4"}
		hidden := series
		hidden.Hidden = true
		of := on + "$A$2:$A$4"
		s.Charts = []grid.Chart{
			{Kind: grid.Columns, FromNil: true, Title: "Standing <bars>", Of: of, Series: []grid.Series{series}, Range: "A6:C20"},
			{Kind: grid.Stacked, Title: "Lying bars", Of: of, InTitle: "Weeks", Series: []grid.Series{hidden, series, series}, Range: "D6:F20"},
			{Kind: grid.Lines, Title: "Lines", Of: of, OfTitle: "Months", Series: []grid.Series{series, series}, Range: "A22:F40"},
		}
		book.Sheets = append(book.Sheets, s)
	}
	book.Sheets[0].Notes = []grid.Note{{Cell: "A1", Text: "noted"}}
	return book
}

func TestChartsAreWrittenAlike(t *testing.T) {
	first := written(t, drawn())
	for range 20 {
		if !bytes.Equal(first, written(t, drawn())) {
			t.Fatal("other bytes the next time")
		}
	}
}

// A chart lies over its range whatever the widths and heights, reads the cells
// it is told to, and a hidden series is not filled.
func TestAChartLiesOverItsCells(t *testing.T) {
	data := written(t, drawn())
	for _, part := range []string{"xl/drawings/drawing1.xml", "xl/drawings/drawing2.xml"} {
		xml := partOf(t, data, part)
		for _, want := range []string{ // counted from 0, and to the far edge: D6:F20, then A22:F40
			"<xdr:from><xdr:col>3</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>5</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from>" +
				"<xdr:to><xdr:col>6</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>20</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to>",
			"<xdr:to><xdr:col>6</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>40</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to>",
		} {
			if strings.Count(xml, want) != 1 {
				t.Errorf("%s: no %s in\n%s", part, want, xml)
			}
		}
	}
	lying := partOf(t, data, "xl/charts/chart5.xml")
	for _, want := range []string{"&#39;Yard&#39;&#39;s own&#39;!$B$2:$B$4", "<a:noFill>", "Lying bars", "Weeks"} {
		if !strings.Contains(lying, want) {
			t.Errorf("no %s in\n%s", want, lying)
		}
	}
	for part, want := range map[string]bool{"xl/charts/chart1.xml": false, "xl/charts/chart2.xml": false, "xl/charts/chart3.xml": true} {
		if got := strings.Contains(partOf(t, data, part), "<legend>"); got != want {
			t.Errorf("%s: a legend is %v; lines have one, bars that stand on what is not drawn do not", part, got)
		}
	}
	if !strings.Contains(partOf(t, data, "xl/charts/chart1.xml"), "Standing &lt;bars&gt;") {
		t.Error("the title is not escaped")
	}
}

// Bars that are to begin at nil say so; a program would else begin them near the least.
func TestBarsBeginAtNilWhereTheyAreAskedTo(t *testing.T) {
	data := written(t, drawn())
	for part, want := range map[string]int{"xl/charts/chart1.xml": 1, "xl/charts/chart2.xml": 0} {
		if n := strings.Count(partOf(t, data, part), `<min val="0"`); n != want {
			t.Errorf("%s: the axis begins at nil %d times, want %d", part, n, want)
		}
	}
}

func TestAChartThatCannotBeDrawnIsRefused(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*grid.Chart)
		want  string
	}{
		"over no cells":      {func(c *grid.Chart) { c.Range = "here" }, `"here" is not a range to draw over`},
		"of no figures":      {func(c *grid.Chart) { c.Series = nil }, "it draws nothing"},
		"of an unknown kind": {func(c *grid.Chart) { c.Kind = 9 }, "charts of kind 9 cannot be drawn"},
	} {
		book := drawn()
		c.spoil(&book.Sheets[0].Charts[0])
		if _, err := Write(book); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
