package explain_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/output/explain"
	"futtock/rates/origin"
	"futtock/templates"
	"futtock/templates/grid"
)

// held is what stands in a cell of a workbook, as text.
func held(book grid.Workbook, at origin.Cell) string {
	for _, page := range book.Sheets {
		for _, line := range page.Rows {
			if page.Name == at.Sheet && line.Row == at.Row {
				return line.Cell(at.Col).Raw
			}
		}
	}
	return ""
}

var figures = regexp.MustCompile(`-?\d[\d,]*(?:\.\d+)?`)

// says reports that the words of a line say what a cell holds: its figure, a percentage
// as a share or in hundredths, or its text.
func says(text, cell string) bool {
	n, err := decimal.NewFromString(strings.TrimSuffix(strings.ReplaceAll(cell, ",", ""), "%"))
	if err != nil {
		return strings.Contains(text, cell)
	}
	return slices.ContainsFunc(figures.FindAllString(text, -1), func(s string) bool {
		f := figure(s)
		return f.Equal(n) || f.Equal(n.Shift(2))
	})
}

// Every cell that a line of the demonstration names holds what the line says. Lengths the
// yard typed in feet, and the day it starts, are written otherwise; the row of a stick stands for its
// sizes; and a charge given in its row, a row on record and a quantity of one are their own words.
func TestACellNamedHoldsWhatTheLineSays(t *testing.T) {
	book := templates.TextBook("yard.xlsx", demoTables())
	r := demonstration()
	found := map[string]int{}
	each(t, r, func(ref string, l explain.Line) {
		at := l.At
		if at.IsZero() {
			return
		}
		cell := held(book, at)
		if cell == "" {
			t.Errorf("%s: %s names %s, which is blank", ref, l.Label, at)
			return
		}
		text := strings.Join([]string{l.Label, l.Value, l.How}, " ")
		otherwise := strings.ContainsAny(cell, `'"`) || l.Label == "Size" || l.How == "given in the row" || l.Label == "Counted from" ||
			at == r.Job.Cell("Start on site") || at.Sheet == "Build-ups" && cell == "1" || strings.Contains(l.How, "sweep ") ||
			strings.HasPrefix(l.Label, "Crossings") || strings.HasSuffix(l.Label, ": Crossings")
		if !otherwise && at.Sheet != "Job" && !says(text, cell) {
			t.Errorf("%s: %q names %s, which holds %q", ref, text, at, cell)
		}
		found[at.Sheet+" "+origin.Column(at.Col)]++
	})
	for _, column := range []string{"Build-ups C", "Build-ups E", "Norms D", "Labour C", "Labour B", "Materials E", "Plant C", "Plant D", "Plant E", "Subcontract D",
		"Stock R", "Stock N", "Stock W", "Fastenings D", "Overheads and profit B", "Overheads and profit C", "Gangs C", "VAT D", "Sections D",
		"Preliminaries E", "Preliminaries F", "Preliminaries G", "Preliminaries J", "Preliminaries M", "Preliminaries N",
		"Sums E", "Sums F", "Sums G", "Sums K", "Dayworks B", "Dayworks C", "Risks D", "Risks G", "Members F", "Members H", "Items D", "Items G"} {
		if found[column] == 0 {
			t.Errorf("no line names a cell of %s", column)
		}
	}
}

// Where prices stand in a workbook of their own, its cells are named.
func TestAPriceBookKeptApartIsNamed(t *testing.T) {
	var own, apart []templates.Table
	for _, table := range caseTables(cases + "wales-both-sides.txtar") {
		if slices.Contains([]string{"Build-ups", "Norms", "Labour", "Timber", "Stock"}, table.Sheet) {
			apart = append(apart, table)
		} else {
			own = append(own, table)
		}
	}
	prices := templates.TextBook("prices.xlsx", apart)
	j, b, problems := templates.Read(templates.TextBook("yard.xlsx", own), &prices)
	r := estimate.Run(j, b)
	if problems.Join(r.Problems); problems.HasErrors() {
		t.Fatal(problems)
	}
	for label, want := range map[string]string{"Shipwright": "prices.xlsx: Labour!B2", "Price": "prices.xlsx: Stock!I2", "Length": "yard.xlsx: Members!F2", "Overheads": "yard.xlsx: Overheads and profit!B2"} {
		var got []string
		for _, l := range labelled(r, "wales", label) {
			got = append(got, l.At.String())
		}
		if !slices.Contains(got, want) {
			t.Errorf("%s names %q, want %s", label, got, want)
		}
	}
}
