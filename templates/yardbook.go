package templates

// Sheets is every sheet of the yard workbook in its order.
func Sheets() []Outline {
	return []Outline{
		particulars().Outline, sections().Outline, members().Outline, items().Outline,
		buildUps().Outline, norms().Outline, labour().Outline, timbers().Outline, stock().Outline,
		materials().Outline, plant().Outline, subcontract().Outline,
		preliminaries().Outline, sums().Outline, dayworks().Outline,
		stages().Outline, gangs().Outline, closures().Outline, risks().Outline, clauses().Outline,
		additions().Outline, vat().Outline, fastenings().Outline, priceLists().Outline,
	}
}

// Names of the sheets that the workbook has beside those that are read.
const (
	guideSheet   = "Guide"
	choicesSheet = "Choices"
)

// Order is the names of the sheets in their order, by which problems are sorted.
func Order() []string {
	list := Sheets()
	names := make([]string, len(list))
	for i, s := range list {
		names[i] = s.Name
	}
	return names
}

// outline is the declared sheet of a name, however it is spelt.
func outline(name string) (Outline, bool) { return among(Sheets(), name) }

// among is the sheet of a name out of some, however it is spelt.
func among(sheets []Outline, name string) (Outline, bool) {
	for _, s := range sheets {
		if alike(s.Name, name) {
			return s, true
		}
	}
	return Outline{}, false
}

// keyHeading is the heading under which other sheets look rows of this one up.
func (o Outline) keyHeading() (Heading, bool) {
	for _, h := range o.Headings {
		if h.Names {
			return h, true
		}
	}
	return Heading{}, false
}
