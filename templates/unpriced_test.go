package templates

import (
	"testing"

	"futtock/rates/problem"
)

// Of a bill that others price a name is looked up only where the sheet it
// belongs to is there, and is no price sheet.
func TestWithoutPricesOnlyNamesOfTheJobsOwnSheetsAreLookedUp(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(*yard)
		want problem.Code
	}{
		{"a build-up that is not there", func(y *yard) { y.set("Members", "Build-up", "Side plnk") }, ""},
		{"no sheet of fastenings", func(y *yard) { y.without("Fastenings") }, ""},
		{"no sheet of VAT", func(y *yard) { y.without("VAT") }, ""},
		{"no sheet of stages", func(y *yard) { y.without("Stages") }, ""},
		{"a stage that is not there", func(y *yard) { y.set("Sections", "Stage", "Plnking") }, problem.KeyUnknown},
		{"a section that is not there", func(y *yard) { y.set("Members", "Section", "none") }, problem.KeyUnknown},
		{"no sheet of sections", func(y *yard) { y.without("Sections") }, problem.SheetMissing},
		{"a length that may be two", func(y *yard) { y.set("Members", "Length", "6-3") }, problem.LengthForm},
	} {
		t.Run(c.name, func(t *testing.T) {
			y := newYard(t)
			c.do(y)
			_, _, found := ReadUnpriced(TextBook("yard.xlsx", y.tables), nil)
			var codes []problem.Code
			for _, p := range found {
				if p.Severity() == problem.Error {
					codes = append(codes, p.Code)
				}
			}
			if c.want == "" && len(codes) > 0 || c.want != "" && (len(codes) != 1 || codes[0] != c.want) {
				t.Errorf("errors %v, want %q alone: %v", codes, c.want, found)
			}
		})
	}
}
