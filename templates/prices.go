package templates

import (
	"slices"
	"time"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/pricelist"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// ReadPrices reads of a workbook only the sheets that a price list may change, and
// the sheet Lists. The workbook may be a job's or a price book kept apart. The
// currency is that of its Job, blank where it has none. What is wrong in other sheets
// is not told of.
func ReadPrices(w grid.Workbook) (b rates.Book, currency string, found problem.List) {
	terms := job.Particulars{}
	if slices.ContainsFunc(w.Sheets, func(p grid.Page) bool { return alike(p.Name, particulars().Name) }) {
		quiet := newReading(&terms)
		upright(&reader{reading: quiet, book: w}, particulars(), &terms)
	}
	r := &reader{reading: newReading(&terms), book: w}
	r.sheets(priceSheets(), false)
	b = rates.Book{
		Labour: values(rows(r, labour())), Stock: values(rows(r, stock())), Materials: values(rows(r, materials())),
		Plant: values(rows(r, plant())), Subcontract: values(rows(r, subcontract())), VAT: values(rows(r, vat())),
		Lists: values(rows(r.known(), priceLists())),
	}
	return b, terms.Currency, r.found.Sorted(Order())
}

func newReading(terms *job.Particulars) *reading {
	return &reading{terms: terms, refs: map[string]origin.Cell{}, keys: map[string]*keys{}, heads: map[job.Heading]int{}}
}

// ReadOn reads a workbook as Read does, as if it were tendered on another day.
func ReadOn(w grid.Workbook, prices *grid.Workbook, day time.Time) (job.Job, rates.Book, problem.List) {
	return read(w, prices, &reading{on: day})
}

// IsRead reports which cells of the workbook are read here: those under the
// headings of its sheets, the headings themselves, and all of the Job.
func IsRead(w grid.Workbook) func(sheet string, row, col int) bool {
	type place struct {
		all  bool
		head int
		cols map[int]bool
		text map[origin.Cell]bool // cells above the headings that hold text, among which they are looked for
	}
	read := map[string]place{}
	for _, o := range Sheets() {
		i := slices.IndexFunc(w.Sheets, func(p grid.Page) bool { return alike(p.Name, o.Name) })
		if i < 0 {
			continue
		}
		page := w.Sheets[i]
		p := place{all: o.Upright, cols: map[int]bool{}, text: map[origin.Cell]bool{}}
		head, _ := o.headingRow(page)
		p.head = head.Row
		for _, d := range head.Cells {
			if k, _ := o.heading(d.Raw); d.Kind == grid.Text && k >= 0 {
				p.cols[d.Col] = true
			}
		}
		for _, l := range page.Rows {
			for _, d := range l.Cells {
				if l.Row <= p.head && d.Kind == grid.Text {
					p.text[origin.Cell{Row: l.Row, Col: d.Col}] = true
				}
			}
		}
		read[page.Name] = p
	}
	return func(sheet string, row, col int) bool {
		p, ok := read[sheet]
		return ok && (p.all || row > p.head && p.cols[col] || p.text[origin.Cell{Row: row, Col: col}])
	}
}

// priceTable is where the headings of a price sheet stand.
type priceTable struct {
	page grid.Page
	o    Outline
	cols map[string]int
	last grid.Line // the last row of data
}

// table finds a price sheet of a workbook that was read without errors.
func table(w grid.Workbook, sheet pricelist.Sheet) priceTable {
	o, ok := outline(string(sheet))
	if !ok {
		panic("templates: no sheet " + string(sheet))
	}
	r := &reader{reading: newReading(&job.Particulars{}), book: w, prices: true}
	page, ok := r.page(o.Name)
	if !ok {
		panic("templates: the workbook has lost its sheet " + o.Name)
	}
	t := priceTable{page: page, o: o, cols: map[string]int{}}
	head, _ := o.headingRow(page)
	places, _ := r.places(o, page.Name, head)
	for i, p := range places {
		if p != nil {
			t.cols[o.Headings[i].Name] = p.col
		}
	}
	for _, l := range page.Rows {
		if l.Row > head.Row && !passedOver(l, places) {
			t.last = l
		}
	}
	return t
}
