package templates

import (
	"cmp"
	"fmt"
	"slices"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// Read reads a job's workbook: the job, the price book, and everything that is
// wrong in any single sheet, or in names that one sheet calls another's rows
// by. Prices, where not nil, is a price book kept apart: it supplies the price
// sheets, and the job's own rows go before its rows of the same key.
//
// Nothing stops at the first problem: a cell that cannot be read takes a
// harmless value and its row is read on. The list is in the order of the
// sheets and their cells.
func Read(w grid.Workbook, prices *grid.Workbook) (job.Job, rates.Book, problem.List) {
	return read(w, prices, &reading{})
}

// ReadUnpriced reads a workbook as Read does, for a bill that others price. It
// does without build-ups, norms, prices and stages: a name that a price sheet lacks
// is no problem then, nor one that belongs to a sheet which is not there. What is
// there is read and checked like any other.
func ReadUnpriced(w grid.Workbook, prices *grid.Workbook) (job.Job, rates.Book, problem.List) {
	return read(w, prices, &reading{unpriced: true})
}

func read(w grid.Workbook, prices *grid.Workbook, all *reading) (job.Job, rates.Book, problem.List) {
	all.refs, all.keys, all.heads = map[string]origin.Cell{}, map[string]*keys{}, map[job.Heading]int{}
	own := &reader{reading: all, book: w}
	own.sheets(Sheets(), true)
	var apart *reader
	if prices != nil {
		apart = &reader{reading: all, book: *prices}
		apart.sheets(priceSheets(), false)
	}

	j := job.Job{Book: w.Name, Columns: all.heads}
	all.terms = &j.Particulars // a length of the Job sheet takes the units above it
	j.Cells = upright(own, particulars(), &j.Particulars)
	if !all.on.IsZero() {
		j.TenderDate = all.on
	}

	j.Sections = values(rows(own, sections()))
	j.Members = values(rows(own, members()))
	j.Items = values(rows(own, items()))
	b := book(own, apart, &j)
	j.Preliminaries = values(rows(own, preliminaries()))
	j.Sums = values(rows(own, sums()))
	j.Dayworks = values(rows(own, dayworks()))
	j.Stages = values(rows(own, stages()))
	j.Gangs = values(rows(own, gangs()))
	j.Closures = values(rows(own, closures()))
	j.Risks = values(rows(own, risks()))
	j.Clauses = values(rows(own, clauses()))
	j.Additions = values(rows(own, additions()))
	all.lookUp()
	return j, b, all.found.Sorted(Order())
}

// book reads the price sheets of both workbooks.
func book(own, apart *reader, j *job.Job) rates.Book {
	b := rates.Book{
		BuildUps:    priced(own, apart, buildUps(), j),
		Norms:       priced(own, apart, norms(), j),
		Labour:      priced(own, apart, labour(), j),
		Timber:      priced(own, apart, timbers(), j),
		Stock:       priced(own, apart, stock(), j),
		Materials:   priced(own, apart, materials(), j),
		Plant:       priced(own, apart, plant(), j),
		Subcontract: priced(own, apart, subcontract(), j),
		VAT:         priced(own, apart, vat(), j),
		Fastenings:  priced(own, apart, fastenings(), j),
		Lists:       priced(own.known(), apart.known(), priceLists(), j),
	}
	if apart != nil {
		b.BookProvided = true
		for i := range b.BuildUps {
			b.BuildUps[i].ByPriceBk = b.BuildUps[i].At.Book != j.Book
		}
	}
	return b
}

// priced is the rows of one price sheet, the job's own first. A key that the
// job's workbook has in force on the tender date is not taken from the price
// book at all, whatever day its row there holds from.
func priced[T any](own, apart *reader, s Sheet[T], j *job.Job) []T {
	mine := rows(own, s)
	out := values(mine)
	if apart == nil {
		return out
	}
	before := map[string]bool{}
	for _, r := range mine {
		before[r.key] = before[r.key] || !r.from.After(j.TenderDate)
	}
	for _, r := range rows(apart, s) {
		if !before[r.key] {
			out = append(out, r.value)
		}
	}
	return out
}

func values[T any](rows []row[T]) []T {
	out := make([]T, len(rows))
	for i, r := range rows {
		out[i] = r.value
	}
	return out
}

// priceSheets is the sheets a price book kept apart may supply.
func priceSheets() []Outline {
	var list []Outline
	for _, o := range Sheets() {
		if o.Prices {
			list = append(list, o)
		}
	}
	return list
}

// sheets looks over the sheets of a workbook before they are read: those that
// must be there, those that are there twice, those that cannot be seen, and
// those whose name is like one that is not there.
func (r *reader) sheets(declared []Outline, whole bool) {
	var absent []string
	all := Sheets()
	for _, o := range declared {
		n := 0
		for _, p := range r.book.Sheets {
			if !alike(p.Name, o.Name) {
				continue
			}
			if n++; n > 1 {
				r.say(problem.SheetTwice, r.at(p.Name, 0, 0), fmt.Sprintf("there is more than one sheet %q; the first is read", o.Name), "")
			}
			if p.Hidden {
				r.say(problem.SheetHidden, r.at(p.Name, 0, 0), "the sheet is hidden and read like the others", "")
			}
		}
		if n > 0 {
			continue
		}
		absent = append(absent, o.Name)
		if whole && o.Required {
			r.keysOf(o).unread = true // names looked up in it need not be told of one by one
			r.say(problem.SheetMissing, r.at(o.Name, 0, 0), fmt.Sprintf("the sheet %q is not there; it is required", o.Name), "")
		}
	}
	told := map[string]bool{} // absent sheets that another sheet is taken for
	for _, p := range r.book.Sheets {
		if _, known := among(all, p.Name); known || alike(p.Name, guideSheet) || alike(p.Name, choicesSheet) {
			continue
		}
		o, headed := headedAs(p, all)
		headed = headed && slices.Contains(absent, o.Name)
		if headed && !o.Prices {
			r.say(problem.SheetMisnamed, r.at(p.Name, 0, 0), fmt.Sprintf("the sheet has the headings of %q, which is not there, and is not read under the name %q", o.Name, p.Name), "")
			told[o.Name] = true
			continue
		}
		like := cmp.Or(nearest(p.Name, absent), akin(p.Name, absent))
		if headed {
			like = o.Name
		}
		if like != "" {
			told[like] = true
			r.found.Add(problem.Problem{Code: problem.SheetNear, At: r.at(p.Name, 0, 0), Near: like,
				Text: fmt.Sprintf("%q is not a sheet of the yard workbook and is not read", p.Name)})
		}
	}
	if whole {
		r.absent(absent, told)
	}
}

// absent warns of sheets taken out of a workbook that was laid out with all of
// them, as its guide or its choices tell: their rows go with them, and nothing else
// shows that money is left out. A workbook put together by hand has what its yard
// put in, and is asked only for Members where it has Stock, which nothing else uses.
func (r *reader) absent(names []string, told map[string]bool) {
	_, guide := r.page(guideSheet)
	_, choices := r.page(choicesSheet)
	_, stocked := r.page(stock().Name)
	for _, o := range []Outline{
		members().Outline, items().Outline, preliminaries().Outline, sums().Outline, dayworks().Outline, risks().Outline,
	} {
		if !slices.Contains(names, o.Name) || told[o.Name] || !guide && !choices && (!stocked || o.Name != members().Name) {
			continue
		}
		r.say(problem.SheetAbsent, r.at(o.Name, 0, 0), fmt.Sprintf("the sheet %q is not there, and the job is read without it", o.Name), "")
	}
}

// headedAs is the declared sheet whose headings a sheet of another name bears: all
// that are required and three at the least. Where several would do, it is the one of
// most, since a list of sums has the headings of preliminaries too.
func headedAs(p grid.Page, declared []Outline) (Outline, bool) {
	var best Outline
	most := 2
	for _, o := range declared {
		if o.Upright {
			continue
		}
		line, complete := o.headingRow(p)
		if n := len(o.held(line)); complete && n > most {
			best, most = o, n
		}
	}
	return best, most > 2
}
