package sheets_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"futtock/rates/origin"
	"futtock/templates/grid"
)

// eachFormula visits every formula of a book.
func eachFormula(b *grid.Book, visit func(s *grid.Sheet, at string, c grid.Cell)) (n int) {
	for _, s := range b.Sheets {
		for i, r := range s.Rows {
			for k, c := range r.Cells {
				if c.Formula != "" {
					n++
					visit(s, origin.Column(k+1)+fmt.Sprint(i+1), c)
				}
			}
		}
	}
	return n
}

var function = regexp.MustCompile(`[A-Z]+\(`)

// Formulas keep to functions that every spreadsheet program reckons alike, and
// none looks through a whole column or sums by a condition.
func formulasKeepToPlainFunctions(t *testing.T, books map[string]*grid.Book) {
	plain := map[string]bool{"SUM(": true, "ROUND(": true, "ROUNDUP(": true, "ROUNDDOWN(": true, "IF(": true,
		"ABS(": true, "SUMPRODUCT(": true, "MAX(": true, "SQRT(": true}
	column := regexp.MustCompile(`\$?[A-Z]+:\$?[A-Z]+`)
	for name, b := range books {
		n := eachFormula(b, func(s *grid.Sheet, at string, c grid.Cell) {
			for _, f := range function.FindAllString(c.Formula, -1) {
				if !plain[f] {
					t.Errorf("%s: %s!%s: %s in =%s", name, s.Name, at, f, c.Formula)
				}
			}
			if column.MatchString(c.Formula) {
				t.Errorf("%s: %s!%s: a whole column in =%s", name, s.Name, at, c.Formula)
			}
		})
		if n < 3000 {
			t.Errorf("%s: only %d formulas", name, n)
		}
	}
}

var reference = regexp.MustCompile(`(?:'([^']+)'!)?\$?([A-Z]{1,2})\$?(\d+)(?::\$?([A-Z]{1,2})\$?(\d+))?`)

// A shaded figure is read by some formula: none looks as if it moved the bill and
// does not. None is itself a formula.
func whatMayBeChangedIsRead(t *testing.T, books map[string]*grid.Book) {
	const shade = "FFEFC2"
	for name, b := range books {
		read := map[string]bool{}
		eachFormula(b, func(s *grid.Sheet, at string, c grid.Cell) {
			for _, m := range reference.FindAllStringSubmatch(c.Formula, -1) {
				on := s.Name
				if m[1] != "" {
					on = m[1]
				}
				last := max(number(m[3]), number("0"+m[5]))
				for col := columnOf(m[2]); col <= max(columnOf(m[2]), columnOf(m[4])); col++ {
					for row := number(m[3]); row <= last; row++ {
						read[fmt.Sprint(on, "!", origin.Column(col), row)] = true
					}
				}
			}
			if c.Style.Fill == shade {
				t.Errorf("%s: %s!%s is shaded and a formula: =%s", name, s.Name, at, c.Formula)
			}
		})
		shaded := 0
		for _, s := range b.Sheets {
			for i, r := range s.Rows {
				for k, c := range r.Cells {
					if c.Kind != grid.Number || c.Style.Fill != shade {
						continue
					}
					shaded++
					if at := fmt.Sprint(s.Name, "!", origin.Column(k+1), i+1); !read[at] {
						t.Errorf("%s: %s may be changed and nothing reads it", name, at)
					}
				}
			}
		}
		if shaded < 1000 {
			t.Errorf("%s: only %d figures may be changed", name, shaded)
		}
	}
}

// Every cell a formula reads is there and holds a figure or nothing, never
// words, but for the codes of VAT that amounts are analysed by.
func formulasReadFigures(t *testing.T, books map[string]*grid.Book) {
	for name, b := range books {
		cells := map[string]grid.Cell{}
		for _, s := range b.Sheets {
			for i, r := range s.Rows {
				for k, c := range r.Cells {
					cells[s.Name+"!"+origin.Column(k+1)+fmt.Sprint(i+1)] = c
				}
			}
		}
		read := 0
		eachFormula(b, func(s *grid.Sheet, at string, c grid.Cell) {
			for _, m := range reference.FindAllStringSubmatch(c.Formula, -1) {
				on := s.Name
				if m[1] != "" {
					on = m[1]
				}
				for _, place := range []string{m[2] + m[3], m[4] + m[5]} {
					if place == "" {
						continue
					}
					read++
					got, ok := cells[on+"!"+place]
					ok = ok || m[4] != "" // the end of a range may be left blank
					if !ok || got.Kind == grid.Text && !strings.HasPrefix(c.Formula, "IF($") {
						t.Errorf("%s: %s!%s reads %s!%s, which holds %q: =%s", name, s.Name, at, on, place, got.Text, c.Formula)
					}
				}
			}
		})
		if read < 9000 {
			t.Errorf("%s: formulas read only %d cells", name, read)
		}
	}
}

// The costs, additions and sums of the make-up are all formulas, and the sum of
// a kind reads the lines of that kind that stand together in its own item.
func anItemSumsItsOwnLines(t *testing.T, books map[string]*grid.Book) {
	of := regexp.MustCompile(`^SUM\(G(\d+):G(\d+)\)$`)
	for name, b := range books {
		rows := sheet(t, b, "Make-up").Rows
		kinds := 0
		for i, r := range rows {
			if len(r.Cells) < 12 {
				continue
			}
			for _, col := range []int{7, 9, 11, 12} {
				if c := r.Cells[col-1]; c.Kind == grid.Number && c.Formula == "" {
					t.Errorf("%s: row %d column %d is a bare figure", name, i+1, col)
				}
			}
			m := of.FindStringSubmatch(r.Cells[6].Formula)
			if m == nil {
				continue
			}
			kinds++
			var from, to int
			fmt.Sscan(m[1], &from)
			fmt.Sscan(m[2], &to)
			for n := from; n <= i; n++ {
				line := rows[n-1].Cells
				if len(line) == 0 {
					t.Errorf("%s: row %d sums rows %d to %d across a gap", name, i+1, from, to)
				}
				if n <= to && line[1].Text != r.Cells[1].Text {
					t.Errorf("%s: row %d sums %s and row %d is %s", name, i+1, r.Cells[1].Text, n, line[1].Text)
				}
			}
		}
		if kinds < 100 {
			t.Errorf("%s: only %d kinds of cost are summed", name, kinds)
		}
	}
}

// Every link leads to a cell that is there, and the sections of the summary
// lead to their items.
func linksLeadSomewhere(t *testing.T, books map[string]*grid.Book) {
	for name, b := range books {
		links := 0
		for _, s := range b.Sheets {
			for i, r := range s.Rows {
				for _, c := range r.Cells {
					if c.Link == "" {
						continue
					}
					links++
					m := reference.FindStringSubmatch(c.Link)
					var row int
					fmt.Sscan(m[3], &row)
					if to := sheet(t, b, m[1]); row < 1 || row > len(to.Rows) {
						t.Errorf("%s: %s row %d leads to %s", name, s.Name, i+1, c.Link)
					} else if m[1] == "Make-up" && to.Rows[row-1].Cells[0].Text == "" {
						t.Errorf("%s: %s row %d leads to %s, where no item begins", name, s.Name, i+1, c.Link)
					}
				}
			}
		}
		if links < 100 {
			t.Errorf("%s: only %d links", name, links)
		}
	}
}
