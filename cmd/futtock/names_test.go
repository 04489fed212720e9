package main

import (
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"futtock/rates/problem"
)

// A name of a row elsewhere that has no such row is told of by the reader,
// wherever it stands, so that no stage need look for it.
func TestEveryNameOfARowElsewhereIsLookedUp(t *testing.T) {
	base := archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt"))
	for _, c := range []struct{ name, sheet, heading, typed, near string }{
		{"stage of a section", "sections", "Stage", "Plankin", "Planking"},
		{"section of a member", "members", "Section", "44", ""},
		{"timber of a member", "members", "Timber", "Oaak", "Oak"},
		{"stock of a member", "members", "Stock", "Oak 2 1/2 inn", "Oak 2 1/2 in"},
		{"fastening of a member", "members", "Fastening", "Spike", "Spikes"},
		{"build-up of a member", "members", "Build-up", "Plnk", "Plank"},
		{"trade of a member", "members", "Trade", "Shipwrihgt", "Shipwright"},
		{"stage of a member", "members", "Stage", "Plankng", "Planking"},
		{"VAT of a member", "members", "VAT", "SS", ""},
		{"section of an item", "items", "Section", "55", ""},
		{"build-up of an item", "items", "Build-up", "Piant", "Paint"},
		{"trade of an item", "items", "Trade", "Pianter", "Painter"},
		{"stage of an item", "items", "Stage", "Paintng", "Painting"},
		{"VAT of an item", "items", "VAT", "SS", ""},
		{"task of a build-up", "build-ups", "task:Key", "Fit plnak", "Fit plank"},
		{"material of a build-up", "build-ups", "material:Key", "Oil piant", "Oil paint"},
		{"plant of a build-up", "build-ups", "plant:Key", "Mobile carne", "Mobile crane"},
		{"work of a build-up", "build-ups", "subcontract:Key", "Shot blsating", "Shot blasting"},
		{"a task looked up among materials", "build-ups", "material:Key", "Fit plank", ""},
		{"trade of a norm", "norms", "Trade", "Shipwrigth", "Shipwright"},
		{"timber of a stock line", "stock", "Timber", "Oaak", "Oak"},
		{"material of a fastening rule", "fastenings", "Material", "Spike 6in", "Spike 6 in"},
		{"code a zero rate would otherwise bear", "vat", "Otherwise", "SS", ""},
		{"plant of a preliminary", "preliminaries", "Plant", "Mobile carne", "Mobile crane"},
		{"first stage of a preliminary", "preliminaries", "From stage", "Plankng", "Planking"},
		{"last stage of a preliminary", "preliminaries", "To stage", "Paintng", "Painting"},
		{"trade of a preliminary", "preliminaries", "Trade", "Shipwrigt", "Shipwright"},
		{"VAT of a preliminary", "preliminaries", "VAT", "SS", ""},
		{"section of a sum", "sums", "Section", "44", ""},
		{"stage of a sum", "sums", "Stage", "Plankng", "Planking"},
		{"VAT of a sum", "sums", "VAT", "SS", ""},
		{"trade of daywork", "dayworks", "Trade or kind", "Shipwrigt", "Shipwright"},
		{"what a stage comes after", "stages", "After", "Painting, Plankng", "Planking"},
		{"stage of a gang", "gangs", "Stage", "Plankng", "Planking"},
		{"trade of a gang", "gangs", "Trade", "Shipwrigt", "Shipwright"},
		{"section of a risk", "risks", "Section", "44", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			cells := map[string]string{c.heading: c.typed}
			if kind, key, ok := strings.Cut(c.heading, ":"); ok {
				cells = map[string]string{"Kind": kind, key: c.typed}
			}
			missed(t, raised(t, base, firstRow(t, base, c.sheet, cells)), c.typed, c.near)
		})
	}
	t.Run("VAT code of the Job", func(t *testing.T) {
		sheet := strings.Replace(part(t, base, "job"), "VAT code\tS\n", "VAT code\tSS\n", 1)
		missed(t, raised(t, base, &txtar.Archive{Files: []txtar.File{{Name: "job", Data: []byte(sheet)}}}), "SS", "")
	})
}

// missed checks that a name is told of as unknown, with what it is near to.
func missed(t *testing.T, found problem.List, typed, near string) {
	t.Helper()
	names := strings.Split(typed, ", ")
	for _, p := range found {
		unknown := p.Code == problem.KeyUnknown || p.Code == problem.PriceKeyUnknown
		if unknown && strings.HasPrefix(p.Text, `"`+names[len(names)-1]+`" is not in the sheet`) && p.Near == near {
			return
		}
	}
	t.Errorf("nobody misses %q, like %q; found %v", typed, near, found)
}

// firstRow is a sheet of the base with cells of its first row typed over; a
// heading that is not there is added.
func firstRow(t *testing.T, base *txtar.Archive, name string, cells map[string]string) *txtar.Archive {
	t.Helper()
	lines := strings.Split(part(t, base, name), "\n")
	heads, row := strings.Split(lines[0], "\t"), strings.Split(lines[1], "\t")
	for _, h := range slices.Sorted(maps.Keys(cells)) {
		at := slices.Index(heads, h)
		if at < 0 {
			at = len(heads)
			heads = append(heads, h)
		}
		for len(row) < len(heads) {
			row = append(row, "")
		}
		row[at] = cells[h]
	}
	lines[0], lines[1] = strings.Join(heads, "\t"), strings.Join(row, "\t")
	return &txtar.Archive{Files: []txtar.File{{Name: name, Data: []byte(strings.Join(lines, "\n"))}}}
}
