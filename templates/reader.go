package templates

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// reading is what one run over a job's workbooks has found so far.
type reading struct {
	terms *job.Particulars // units and currency, once the Job sheet is read
	found problem.List
	refs  map[string]origin.Cell // where each Ref stands
	keys  map[string]*keys       // by sheet
	calls []call
	heads map[job.Heading]int // columns, as the job keeps them

	unpriced bool      // what is read is for others to price
	on       time.Time // the day the job is read as tendered on; zero is its own
}

// reader reads one workbook of the run.
type reader struct {
	*reading
	book   grid.Workbook
	prices bool // the sheet in hand is a price sheet, where the Job's units do not hold
}

// row is a row as it was read, with what the price tables are matched by.
type row[T any] struct {
	value T
	key   string
	from  time.Time
}

func (r *reader) at(sheet string, row, col int) origin.Cell {
	return origin.Cell{Book: r.book.Name, Sheet: sheet, Row: row, Col: col}
}

func (r *reader) say(code problem.Code, at origin.Cell, text, example string) {
	r.found.Add(problem.Problem{Code: code, At: at, Text: text, Example: example})
}

// page is the sheet of a name, case, spaces and hyphens aside; of two that are
// alike the first is read.
func (r *reader) page(name string) (grid.Page, bool) {
	i := slices.IndexFunc(r.book.Sheets, func(p grid.Page) bool { return alike(p.Name, name) })
	if i < 0 {
		return grid.Page{}, false
	}
	return r.book.Sheets[i], true
}

// rows reads every row of a sheet.
func rows[T any](r *reader, s Sheet[T]) []row[T] {
	page, ok := r.page(s.Name)
	if !ok {
		return nil
	}
	r.prices = s.Prices
	keys := r.keysOf(s.Outline)
	if !slices.ContainsFunc(page.Rows, func(l grid.Line) bool { return len(l.Cells) > 0 }) {
		return nil
	}
	head, _ := s.headingRow(page)
	places, readable := r.places(s.Outline, page.Name, head)
	if !readable {
		keys.unread = true
		return nil
	}
	r.unitsDiffer(s.Outline, places, page.Name)
	for i, p := range places {
		if p != nil {
			r.heads[job.Heading{Book: r.book.Name, Sheet: page.Name, Heading: s.Headings[i].Name}] = p.col
		}
	}

	var out []row[T]
	var hidden []int
	once := map[string]origin.Cell{}
	for _, line := range page.Rows {
		if line.Row <= head.Row || passedOver(line, places) {
			continue
		}
		if line.Hidden {
			hidden = append(hidden, line.Row)
		}
		var t row[T]
		cells := func(i int) (*place, grid.Datum, origin.Cell) {
			p := places[i]
			if p == nil {
				return nil, grid.Datum{}, r.first(places, page.Name, line.Row)
			}
			return p, line.Cell(p.col), r.at(page.Name, line.Row, p.col)
		}
		l := fill(r, s, &t.value, cells)
		t.from = l.entries["From"].Day
		if h, ok := s.keyHeading(); ok {
			t.key = rates.Key(l.entries[h.Name].Text)
			keys.add(l.entries[h.Name].Text)
			keys.lost = keys.lost || l.entries[h.Name].bad
		}
		r.onlyOnce(s.Outline, l, once)
		out = append(out, t)
	}
	r.hidden(page.Name, hidden)
	return out
}

// fill puts every cell of a row into its value, by the declaration of each
// column, and has the finished row checked.
func fill[T any](r *reader, s Sheet[T], t *T, cell func(i int) (*place, grid.Datum, origin.Cell)) *Line {
	l := &Line{entries: make(map[string]Entry, len(s.Columns)), found: &r.found}
	for i, c := range s.Columns {
		p, d, at := cell(i)
		var e Entry
		switch {
		case p != nil:
			e = r.entry(c.Heading, p, d, at)
		case c.Required:
			e = r.harmless(c.Heading, at)
		default:
			e = r.standing(c.Heading, c.Default)
			e.At = at
		}
		l.entries[c.Name] = e
		c.Set(t, e)
	}
	for _, c := range s.Columns {
		r.call(c.Heading, l)
	}
	if s.Check != nil {
		s.Check(t, l)
	}
	return l
}

// first is the cell of a row under the first heading that there is.
func (r *reader) first(places []*place, sheet string, row int) origin.Cell {
	for _, p := range places {
		if p != nil {
			return r.at(sheet, row, p.col)
		}
	}
	return r.at(sheet, row, 0)
}

// exampleMark begins the first cell of an example row.
const exampleMark = "example:"

// passedOver reports a row with nothing under any heading, or an example row:
// one whose cell under the first heading begins with the mark.
func passedOver(line grid.Line, places []*place) bool {
	blank := true
	for i, p := range places {
		if p == nil {
			continue
		}
		d := line.Cell(p.col)
		if i == 0 && d.Kind == grid.Text && strings.HasPrefix(strings.ToLower(single(d.Raw)), exampleMark) {
			return true
		}
		blank = blank && nothing(d) && (!d.IsFormula() || d.Kind == grid.Text)
	}
	return blank
}

// hidden remarks on rows that are read and cannot be seen.
func (r *reader) hidden(sheet string, rows []int) {
	if len(rows) == 0 {
		return
	}
	var spans []string
	for i := 0; i < len(rows); {
		last := i
		for last+1 < len(rows) && rows[last+1] == rows[last]+1 {
			last++
		}
		span := fmt.Sprint(rows[i])
		if last > i {
			span = fmt.Sprintf("%d to %d", rows[i], rows[last])
		}
		spans, i = append(spans, span), last+1
	}
	noun := "hidden rows are"
	if len(rows) == 1 {
		noun = "hidden row is"
	}
	r.say(problem.RowHidden, r.at(sheet, rows[0], 0), fmt.Sprintf("%d %s read like the others: %s", len(rows), noun, strings.Join(spans, ", ")), "")
}

// upright reads a sheet whose headings run down: the first thing in a row is
// the heading, and the value stands in the cell at its right. It returns the
// cell of every value by its heading.
func upright[T any](r *reader, s Sheet[T], t *T) map[string]origin.Cell {
	page, ok := r.page(s.Name)
	if !ok {
		page.Name = s.Name
	}
	places := make([]*place, len(s.Headings))
	values := make([]grid.Datum, len(s.Headings))
	var unknown []stray
	var hidden []int
	for _, line := range page.Rows {
		if len(line.Cells) == 0 || line.Cells[0].Kind != grid.Text {
			continue
		}
		d := line.Cells[0]
		r.put(s.Outline, places, &unknown, page.Name, line.Row, d)
		if i, _ := s.heading(d.Raw); i >= 0 && places[i].row == line.Row {
			values[i] = line.Cell(d.Col + 1)
			if line.Hidden {
				hidden = append(hidden, line.Row)
			}
		}
	}
	if ok {
		r.missing(s.Outline, places, r.at(page.Name, 0, 0))
		r.near(s.Outline, places, unknown, page.Name)
		r.hidden(page.Name, hidden)
	}
	stand := map[string]origin.Cell{}
	fill(r, s, t, func(i int) (*place, grid.Datum, origin.Cell) {
		p := places[i]
		if p == nil {
			return nil, grid.Datum{}, r.at(page.Name, 0, 0)
		}
		at := r.at(page.Name, p.row, p.col+1)
		stand[s.Headings[i].Name] = at
		return p, values[i], at
	})
	return stand
}
