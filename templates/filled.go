package templates

import (
	"fmt"
	"slices"

	"futtock/rates/measure"
	"futtock/templates/grid"
)

// Filled is a yard workbook laid out as the empty one and filled with the
// tables, without example rows. A heading stands as its table spells it, unit
// and all; columns a table has none of are there and blank. A table or column
// that the workbook does not declare is an error.
func Filled(tables []Table) (*grid.Book, error) {
	b := newBook("Yard workbook", "")
	lists := newLists()
	for _, t := range tables {
		if _, ok := outline(t.Sheet); !ok {
			return nil, fmt.Errorf("templates: there is no sheet %q", t.Sheet)
		}
	}
	for _, o := range Sheets() {
		c := newContent(o, "")
		i := slices.IndexFunc(tables, func(t Table) bool { return alike(t.Sheet, o.Name) })
		if i >= 0 {
			var err error
			if c, err = tables[i].content(o); err != nil {
				return nil, err
			}
		}
		b.Sheets = append(b.Sheets, laid(o, c, lists, false))
	}
	b.Sheets = append(b.Sheets, lists.sheet())
	return b, nil
}

// content is the table's rows by the headings of its sheet.
func (t Table) content(o Outline) (content, error) {
	if o.Upright {
		return t.uprightContent(o)
	}
	head, complete := o.headingRow(t.page())
	if !complete {
		return content{}, fmt.Errorf("templates: the table %s has no row of all required headings", t.Sheet)
	}
	col := make([]int, len(o.Headings))
	c := newContent(o, t.longUnit(o, head))
	for _, d := range head.Cells {
		i, _ := o.heading(d.Raw)
		if i < 0 || col[i] > 0 {
			return content{}, fmt.Errorf("templates: the heading %q of %s is unknown or stands twice", d.Raw, t.Sheet)
		}
		col[i], c.titles[i] = d.Col, single(d.Raw)
	}
	for _, row := range t.Rows[head.Row:] {
		out := make([]string, len(o.Headings))
		for i, at := range col {
			if at > 0 && at <= len(row.Cells) {
				out[i] = row.Cells[at-1]
			}
		}
		c.rows = append(c.rows, out)
	}
	return c, nil
}

// longUnit is the unit of the first heading of long lengths that names one, so
// that columns added beside it do not speak of another.
func (t Table) longUnit(o Outline, head grid.Line) measure.Unit {
	for _, d := range head.Cells {
		i, bracket := o.heading(d.Raw)
		if i < 0 || o.Headings[i].Form != Length || o.Headings[i].Scale != Long {
			continue
		}
		if u, ok := measure.ParseUnit(bracket); ok {
			return u
		}
	}
	return ""
}

// uprightContent is the table's values by the headings of its sheet.
func (t Table) uprightContent(o Outline) (content, error) {
	c := newContent(o, "")
	out := make([]string, len(o.Headings))
	for _, row := range t.Rows {
		if row.Cells[0] == "" || alike(row.Cells[0], uprightHead) {
			continue
		}
		i, _ := o.heading(row.Cells[0])
		if i < 0 {
			return content{}, fmt.Errorf("templates: the heading %q of %s is unknown", row.Cells[0], t.Sheet)
		}
		c.titles[i] = single(row.Cells[0])
		if len(row.Cells) > 1 {
			out[i] = row.Cells[1]
		}
	}
	c.rows = [][]string{out}
	return c, nil
}
