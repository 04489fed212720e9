package main

import (
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/templates"
)

// sketch is a whole job while it is drawn, sheet by sheet, as somebody would
// type it. It is sound by construction: whatever is drawn holds no error, though
// it may be remarked on. Prices and quantities are odd, so that halves of a penny
// are common.
type sketch struct {
	t      *rapid.T
	feet   bool // lengths in feet and inches
	sheets []*draft

	sections []string
	stageOf  map[string]string // of sections that have one
	stages   []string
	trades   []string
	codes    []string // of VAT
	timbers  []string
	lines    []stockLine // to which rows may be bound
	rules    []string    // of fastenings
	spaced   bool        // the Job gives the spacing of frames
	started  bool        // the Job gives its start on site
	keys     map[rates.Part][]keyed
	weekly   []string // plant hired by the week
	buildUps map[string][]string
	needs    map[[2]string]bool // a stage and a trade it has hours of
	groups   []group
	refs     int
}

// keyed is a norm, material, plant or work with its unit; a norm has a trade.
type keyed struct {
	name  string
	unit  measure.Unit
	trade string
}

// draft is one sheet: its headings in the order in which they were first
// wanted, and its rows.
type draft struct {
	name  string
	heads []string
	rows  []map[string]string
}

// generated is whole jobs, sheet by sheet.
func generated() *rapid.Generator[[]templates.Table] {
	return rapid.Custom(func(t *rapid.T) []templates.Table {
		s := &sketch{t: t, keys: map[rates.Part][]keyed{}, stageOf: map[string]string{}, buildUps: map[string][]string{}, needs: map[[2]string]bool{}}
		s.feet = s.odds(3)
		s.particulars()
		s.vat()
		s.layout()
		s.labour()
		s.bought()
		s.timber()
		s.fastenings()
		s.schedule()
		s.preliminaries()
		s.sums()
		s.gangs()
		return s.tables()
	})
}

// put adds a row to a sheet, given as headings each with its text; blank text
// is no cell.
func (s *sketch) put(sheet string, cells ...string) {
	i := slices.IndexFunc(s.sheets, func(d *draft) bool { return d.name == sheet })
	if i < 0 {
		i = len(s.sheets)
		s.sheets = append(s.sheets, &draft{name: sheet})
	}
	d, row := s.sheets[i], map[string]string{}
	for k := 0; k < len(cells); k += 2 {
		if !slices.Contains(d.heads, cells[k]) {
			d.heads = append(d.heads, cells[k])
		}
		row[cells[k]] = cells[k+1]
	}
	d.rows = append(d.rows, row)
}

// tables are the sheets as text. The Job stands upright, and is put as one row.
func (s *sketch) tables() []templates.Table {
	var out []templates.Table
	for _, d := range s.sheets {
		t := templates.Table{Sheet: d.name}
		line := func(cells ...string) { t.Rows = append(t.Rows, templates.TextRow{Cells: cells}) }
		if d.name == "Job" {
			for _, h := range d.heads {
				line(h, d.rows[0][h])
			}
		} else {
			line(d.heads...)
			for _, r := range d.rows {
				cells := make([]string, len(d.heads))
				for i, h := range d.heads {
					cells[i] = r[h]
				}
				line(cells...)
			}
		}
		out = append(out, t)
	}
	return out
}

// odds is true about once in n.
func (s *sketch) odds(n int) bool { return rapid.IntRange(1, n).Draw(s.t, "odds") == n }

// from is a whole number between two bounds. What is drawn leans to the least,
// and is spread over a wide range by a prime.
func (s *sketch) from(low, high int) int {
	n := rapid.IntRange(0, high-low).Draw(s.t, "number")
	if high-low > 40 {
		n = n * 7919 % (high - low + 1)
	}
	return low + n
}

func (s *sketch) pick(of ...string) string { return rapid.SampledFrom(of).Draw(s.t, "choice") }

// maybe is one of the texts about once in n, else blank.
func (s *sketch) maybe(n int, of ...string) string {
	if s.odds(n) {
		return s.pick(of...)
	}
	return ""
}

// number is a number of so many places between two bounds given in its last
// place. It ends in 5 more often than chance would have it.
func (s *sketch) number(low, high, places int) string {
	n := s.from(low, high)
	if s.odds(2) && n/10*10+5 <= high && n/10*10+5 >= low {
		n = n/10*10 + 5
	}
	return scaled(n, places)
}

func scaled(n, places int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	if places == 0 {
		return fmt.Sprint(sign, n)
	}
	t := fmt.Sprintf("%0*d", places+1, n)
	return sign + t[:len(t)-places] + "." + t[len(t)-places:]
}

// money is a price between two bounds in pounds: whole pounds, pennies, or
// finer than a penny.
func (s *sketch) money(low, high int) string {
	places := s.from(0, 3)
	if places == 1 {
		places = 2
	}
	k := 1
	for range places {
		k *= 10
	}
	return s.number(low*k, high*k, places)
}

func (s *sketch) percent() string {
	return s.pick("5%", "10%", "12.5%", "7.25%", "0%", "17.5%", "8%", "33%", "2.375%")
}

// spell is a key as the next man types it.
func (s *sketch) spell(key string) string {
	if key == "" {
		return ""
	}
	switch s.from(0, 9) {
	case 8:
		return strings.ToUpper(key)
	case 9:
		return " " + strings.ReplaceAll(strings.ToLower(key), " ", "  ")
	}
	return key
}

// long is a length near to so many millimetres, as the job writes lengths.
func (s *sketch) long(mm int) string {
	if !s.feet {
		switch s.from(0, 3) {
		case 0:
			return fmt.Sprintf("%d mm", mm)
		case 1:
			return scaled(mm, 3) + " m"
		}
		return scaled(mm, 3)
	}
	halves := mm * 10 / 127
	half := map[int]string{0: "", 1: " 1/2"}[halves%2]
	switch {
	case s.odds(4):
		return scaled(mm*1000/3048, 2)
	case s.odds(3):
		return fmt.Sprintf("%dft %d%sin", halves/24, halves/2%12, half)
	}
	return fmt.Sprintf("%d' %d%s\"", halves/24, halves/2%12, half)
}

// small is a size near to so many millimetres, as the job writes sizes. It is
// never more than that.
func (s *sketch) small(mm int) string {
	if !s.feet {
		return s.pick(fmt.Sprint(mm), fmt.Sprintf("%d mm", mm))
	}
	eighths := max(1, mm*80/254)
	if whole, part := eighths/8, eighths%8; part > 0 && whole > 0 && s.odds(2) {
		return fmt.Sprintf("%d %d/8\"", whole, part)
	}
	return scaled(eighths*125, 3)
}

// in is a heading with the unit that bare figures under it are in.
func (s *sketch) in(heading string, small bool) string {
	unit := map[bool]string{true: " (in)", false: " (ft)"}
	if !s.feet {
		unit = map[bool]string{true: " (mm)", false: " (m)"}
	}
	return heading + unit[small]
}

// code is a code of VAT, or blank.
func (s *sketch) code() string { return s.spell(s.maybe(3, s.codes...)) }

// stage is a stage, or blank.
func (s *sketch) stage(n int) string {
	if len(s.stages) == 0 {
		return ""
	}
	return s.maybe(n, s.stages...)
}

func (s *sketch) ref(letter string) string {
	s.refs++
	return s.pick(fmt.Sprintf("%s%d", letter, s.refs), fmt.Sprintf("%d.%s%d", s.from(1, 12), strings.ToLower(letter), s.refs))
}
