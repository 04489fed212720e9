package xlsx

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"futtock/templates/grid"
)

// verify reads the marked file back and compares it with the old one: the sheet put
// first, then every sheet with its cells as they were and its notes with ours.
func (m *marker) verify(data []byte) error {
	after, err := Read("the marked workbook", data)
	if err != nil {
		return err
	}
	if len(after.Sheets) != len(m.before.Sheets)+1 || after.Date1904 != m.before.Date1904 {
		return fmt.Errorf("it would have %d sheets, not %d", len(after.Sheets), len(m.before.Sheets)+1)
	}
	first := after.Sheets[0]
	if first.Name != m.first.Name || first.Hidden {
		return fmt.Errorf("the first sheet would be %q", first.Name)
	}
	if err := verifySheet(m.first, first.Rows); err != nil {
		return fmt.Errorf("on sheet %q %w", first.Name, err)
	}
	marked := make(map[int]*markedSheet)
	for _, s := range m.on {
		marked[s.index] = s
	}
	for i, want := range m.before.Sheets {
		got := after.Sheets[i+1]
		if got.Name != want.Name || got.Hidden != want.Hidden {
			return fmt.Errorf("the sheet %q would be %q", want.Name, got.Name)
		}
		if err := samePage(want.Rows, got.Rows); err != nil {
			return fmt.Errorf("on sheet %q %w", want.Name, err)
		}
		if err := sameNotes(want.Notes, got.Notes, marked[i]); err != nil {
			return fmt.Errorf("on sheet %q %w", want.Name, err)
		}
	}
	return nil
}

// sameNotes says which note is not what it was, or was to be. Blanks at the ends of a
// note and between its parts do not count.
func sameNotes(old, got []grid.Remark, marked *markedSheet) error {
	var want []grid.Remark
	for _, n := range old {
		if marked == nil || marked.written[[2]int{n.Row, n.Col}] == "" {
			want = append(want, n)
		}
	}
	if marked != nil {
		for at, text := range marked.written {
			want = append(want, grid.Remark{Row: at[0], Col: at[1], Text: text})
		}
	}
	got = slices.Clone(got)
	slices.SortFunc(want, compareNotes)
	slices.SortFunc(got, compareNotes)
	for i := range max(len(want), len(got)) {
		switch {
		case i >= len(got):
			return fmt.Errorf("cell %s would lose the note %q", cellName(want[i].Col, want[i].Row), clip(want[i].Text))
		case i >= len(want) || compareNotes(want[i], got[i]) != 0:
			return fmt.Errorf("cell %s would have the note %q", cellName(got[i].Col, got[i].Row), clip(got[i].Text))
		}
	}
	return nil
}

// compareNotes orders notes by cell, then by their words.
func compareNotes(a, b grid.Remark) int {
	if a.Row != b.Row || a.Col != b.Col {
		return cmp.Or(a.Row-b.Row, a.Col-b.Col)
	}
	return slices.Compare(strings.Fields(a.Text), strings.Fields(b.Text))
}
