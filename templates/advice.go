package templates

import (
	"fmt"
	"strings"

	"futtock/templates/grid"
)

// advice is how the workbook is filled in, in the order in which it is needed:
// a word to find it by, and a sentence or two. The Guide sheet and README.md
// both print it.
func advice() [][2]string {
	return [][2]string{
		{"Begin", "Fill in Job, Sections and Members or Items. The other sheets are wanted as rows name what stands in them: a build-up its norms and materials, a member its timber and stock."},
		{"Headings", "The row of headings is found by its words, case and spaces aside. Columns may stand in any order, columns of your own are left alone, and the rows above are free."},
		{"Must", "A dark heading must be filled in (in the tables it stands in bold); a pale one may stay blank."},
		{"Example", "The row whose first cell begins with \"example:\" is passed over, and so are blank rows. Begin beneath it; it may be deleted."},
		{"Hidden rows", "Rows hidden by hand or by a filter are read like the others, and remarked."},
		{"Lengths", "A number is in the unit in the heading's brackets, as in Length (ft), else in the Job's. Text may bring its own: 24' 6\", 24ft 6 1/2in, 4½\", 7.5 m, 150 mm. In a price sheet the heading or the cell must name the unit. 6-3 is refused: it may be six and three or six to three, and a spreadsheet makes a date of it."},
		{"Percentages", "Type 12 % or 12. A bare 0.12 is read as 0.12 %, and asked about."},
		{"Dates", "Type a date as the spreadsheet takes it, or as text: 2026-03-12, 12 March 2026, 12 Mar 2026. 03/04/2026 as text is refused: it may be April or March."},
		{"Money", "Before VAT, as a number or as text: 1250, 1,250.00, £1,250.00. The sign of another currency than the Job's is a problem."},
		{"Formulas", "A cell with a formula is read by the result stored with it. Where none is stored, or the cell shows an error such as #REF!, it is a problem and never nothing."},
		{"Names", "Names of rows match without regard to case and spaces. Every Ref stands once over Members, Items, Preliminaries, Sums and Risks."},
		{"From", "A price table may hold several rows of one name with different From dates: the latest not after the tender date is in force, and the others are history."},
		{"Price book", "Sheets marked as price sheets may stand in a workbook of their own, given with --rates. What the job's own workbook has in force goes before it."},
		{"Condition", "0 not seen, 1 sound, 2 surface defect, 3 local decay, graving piece or scarph, 4 renew part, 5 renew whole. Not seen is a grade of its own, for that is where the risk lies."},
		{"Carried as", "Measured is priced and stands. Provisional is priced in full and re-measured. Risk stands in the contingency only, by its chance. Option is priced, shown and not added. Rate only asks for the rate."},
	}
}

// guidePage is the Guide sheet, the first of the workbook: the advice, then
// every column of every sheet.
func guidePage() *grid.Sheet {
	s := &grid.Sheet{
		Name: guideSheet, Print: sheetPrint(),
		Columns: []grid.Width{{Chars: 22}, {Chars: 24}, {Chars: 42}, {Chars: 72}, {Chars: 26}},
	}
	body := grid.Style{Top: true, Wrap: true}
	bold := grid.Style{Font: grid.Font{Bold: true, Colour: dark}, Top: true}
	s.Rows = []grid.Row{
		{Cells: []grid.Cell{grid.Textual("How to fill in this workbook", titleStyle())}},
		{},
	}
	for _, a := range advice() {
		s.Rows = append(s.Rows, grid.Row{Cells: []grid.Cell{
			grid.Textual(a[0], bold), grid.Textual(a[1], body), {Style: body}, {Style: body},
		}})
		at := len(s.Rows)
		s.Merges = append(s.Merges, fmt.Sprintf("B%d:D%d", at, at))
		s.Rows[at-1].Height = 4 + 13*float64(1+len(a[1])/145)
	}
	s.Rows = append(s.Rows, grid.Row{}, grid.Row{Cells: []grid.Cell{grid.Textual("Sheets and their columns", titleStyle())}})
	heads := grid.Row{}
	for _, t := range []string{"Sheet", "Column", "What to type", "Meaning", "Example"} {
		heads.Cells = append(heads.Cells, grid.Textual(t, label(Heading{Required: true})))
	}
	s.Rows = append(s.Rows, heads)
	for _, o := range Sheets() {
		link := grid.Textual(o.Name, bold)
		link.Link = "'" + o.Name + "'!A1"
		over := grid.Style{Font: grid.Font{Italic: true, Colour: grey}, Border: grid.Over}
		link.Style.Border = grid.Over
		s.Rows = append(s.Rows, grid.Row{Cells: []grid.Cell{link, grid.Textual(o.purpose(), over), {Style: over}, {Style: over}, {Style: over}}})
		for _, h := range o.Headings {
			head := grid.Style{Font: grid.Font{Bold: h.mustFill()}, Top: true, Wrap: true}
			s.Rows = append(s.Rows, grid.Row{Cells: []grid.Cell{
				{}, grid.Textual(h.Title(), head), grid.Textual(upper(h.how()), body), grid.Textual(h.meaning(), body), grid.Textual(h.Example, body),
			}})
		}
	}
	return s
}

// meaning is the heading's help.
func (h Heading) meaning() string {
	return h.Help + "."
}

// Guide is how the workbook is filled in, in the markdown of README.md: the names of
// the sheets as links, the advice, then a table of columns for each sheet.
func Guide() string {
	var b strings.Builder
	var job, prices []string
	for _, o := range Sheets() {
		link := "[" + o.Name + "](#" + strings.ReplaceAll(strings.ToLower(o.Name), " ", "-") + ")"
		if o.Prices {
			prices = append(prices, link)
		} else {
			job = append(job, link)
		}
	}
	b.WriteString("Sheets of the job: " + strings.Join(job, ", ") + ".\n\nPrice sheets: " + strings.Join(prices, ", ") + ".\n\n")
	for _, a := range advice() {
		b.WriteString("- **" + a[0] + ".** " + a[1] + "\n")
	}
	for _, o := range Sheets() {
		b.WriteString("\n### " + o.Name + "\n\n" + upper(o.Purpose) + ".")
		if o.Prices {
			b.WriteString(" A price sheet: it may stand in a price book of its own.")
		}
		b.WriteString("\n\n| column | what to type | example | meaning |\n|---|---|---|---|\n")
		for _, h := range o.Headings {
			name := h.Title()
			if h.mustFill() {
				name = "**" + name + "**"
			}
			b.WriteString("| " + name + " | " + h.how() + " | " + h.Example + " | " + h.meaning() + " |\n")
		}
	}
	return b.String()
}
