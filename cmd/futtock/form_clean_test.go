package main

import (
	"archive/zip"
	"bytes"
	"fmt"
	"html"
	"io"
	"maps"
	"slices"
	"strings"
	"testing"

	"futtock/estimate/bill"
	"futtock/output/sheets"
	"futtock/rates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// A form holds nothing of how the yard would price it: no name of its price
// book, nor its own, in any part of the file; no number but quantities, sums
// that are given and counts; nothing hidden, no note, and one defined name
// beside those of printing.
func TestAFormIsCleanOfTheYardsPricing(t *testing.T) {
	f, r := demonstratedForm(t), demonstration(t)
	book := sheets.Unpriced(f)
	given := map[string]bool{"0": true}
	for _, part := range slices.Concat(lineSets(f.Bill)...) {
		given[part.Quantity.String()] = true
	}
	for i := 1; i <= 217; i++ { // counts of lines still to be priced
		given[fmt.Sprint(i)] = true
	}
	for _, s := range book.Sheets {
		if len(s.Notes)+len(s.Charts)+len(s.Images) > 0 {
			t.Errorf("%s has notes or pictures", s.Name)
		}
		for _, c := range s.Columns {
			if c.Hidden {
				t.Errorf("%s has a hidden column", s.Name)
			}
		}
		for n, row := range s.Rows {
			for _, c := range row.Cells {
				if c.Kind == grid.Number && c.Formula == "" && !given[c.Number.String()] {
					t.Errorf("%s row %d holds %s, which is no quantity and no sum that is given", s.Name, n+1, c.Number)
				}
				if c.Formula != "" && strings.ContainsAny(c.Formula, "[|") {
					t.Errorf("%s row %d reckons =%s", s.Name, n+1, c.Formula)
				}
			}
		}
	}
	if len(book.Names) != 1 || book.Names[0] != (grid.Name{Name: bill.FormName, Range: `"` + f.Bill.Fingerprint + `"`}) {
		t.Errorf("the names are %v", book.Names)
	}
	data, err := xlsx.Write(book)
	if err != nil {
		t.Fatal(err)
	}
	text := wordsIn(t, data)
	secret := []string{r.Job.Yard}
	for _, n := range r.Book.Norms {
		secret = append(secret, n.Task)
	}
	for _, u := range r.Book.BuildUps {
		secret = append(secret, u.Name)
	}
	for _, s := range r.Book.Stock {
		secret = append(secret, s.Stock, s.Supplier)
	}
	for _, m := range r.Book.Materials {
		secret = append(secret, m.Supplier)
	}
	for _, s := range r.Job.Sums {
		secret = append(secret, s.QuotedBy)
	}
	said := strings.Builder{} // what the job itself says in so many words
	for _, l := range slices.Concat(lineSets(f.Bill)...) {
		said.WriteString(" " + l.Description)
	}
	looked := 0
	for _, s := range secret {
		if len(s) < 8 || strings.Contains(strings.ToLower(said.String()), strings.ToLower(s)) || rates.Same(s, r.Job.Client) {
			continue
		}
		looked++
		if strings.Contains(text, strings.ToLower(s)) {
			t.Errorf("the file holds %q", s)
		}
	}
	if looked < 150 {
		t.Errorf("only %d names were looked for: the demonstration has more", looked)
	}
	if !strings.Contains(text, "brimhalla") || !strings.Contains(text, "renew knightheads") {
		t.Error("the words of the file were not found at all")
	}
	read, err := xlsx.Read("form.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range read.Sheets {
		if s.Hidden || slices.ContainsFunc(s.Rows, func(l grid.Line) bool { return l.Hidden }) {
			t.Errorf("%s is hidden, or has a hidden row", s.Name)
		}
	}
	again, err := xlsx.Write(sheets.Unpriced(f))
	if err != nil || !bytes.Equal(again, data) {
		t.Error("the same form is not the same bytes", err)
	}
}

// lineSets is every run of lines of a form.
func lineSets(f bill.Form) [][]bill.FormLine {
	out := [][]bill.FormLine{f.Preliminaries, f.Sums, f.Dayworks}
	for _, s := range f.Sections {
		out = append(out, s.Lines)
	}
	return out
}

// partsOf is the parts of a file as text, by their names.
func partsOf(t *testing.T, data []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		parts[f.Name] = string(text)
	}
	return parts
}

// wordsIn is all that any part of a file says, in small letters.
func wordsIn(t *testing.T, data []byte) string {
	t.Helper()
	var all strings.Builder
	parts := partsOf(t, data)
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		all.WriteString(html.UnescapeString(parts[name]) + "\n")
	}
	return strings.ToLower(all.String())
}
