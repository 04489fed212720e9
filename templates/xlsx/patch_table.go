package xlsx

import (
	"encoding/xml"
	"slices"
	"strings"
)

// table is a table of a sheet: rows under named columns that grow together.
type table struct {
	key     string // its name in lower case
	part    string
	sheet   int
	area    span // headings and totals included
	headed  bool
	totals  bool
	sealed  string // why no row may be put into it, "" where one may
	columns []string
	ranges  []textPlace // its own range and that of its filter
}

// tables reads the tables of a sheet.
func tables(pack *bundle, sheet int, part string) ([]*table, error) {
	rels := relsOf(part)
	if !pack.has(rels) {
		return nil, nil
	}
	kept := &budget{left: maxKept}
	list, err := relations(pack, part, kept)
	if err != nil {
		return nil, err
	}
	var out []*table
	for _, r := range list {
		if r.kind != "table" || r.outside {
			continue
		}
		b, err := readTable(pack, sheet, r.target)
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	slices.SortFunc(out, func(a, b *table) int { return strings.Compare(a.part, b.part) })
	return out, nil
}

func readTable(pack *bundle, sheet int, part string) (*table, error) {
	content, err := pack.bytes(part)
	if err != nil {
		return nil, err
	}
	b := &table{part: part, sheet: sheet, headed: true}
	err = walk(pack, part, func(w *walker, t xml.StartElement) error {
		name := t.Name.Local
		switch {
		case !isMain(t.Name.Space):
		case w.depth == 1 && name == "table":
			b.key = strings.ToLower(attr(t, "displayName"))
			b.area, _ = parseRange(attr(t, "ref"))
			b.headed = attr(t, "headerRowCount") != "0"
			b.totals = atoi(attr(t, "totalsRowCount")) > 0
			switch kind := attr(t, "tableType"); {
			case kind != "" && kind != "worksheet": // a query, an XML map
				b.sealed = "the table above it is filled from elsewhere"
			case isTrue(attr(t, "insertRow")):
				b.sealed = "the table above it has no row yet"
			}
		case w.depth == 3 && name == "tableColumn":
			b.columns = append(b.columns, strings.ToLower(attr(t, "name")))
		}
		if isMain(t.Name.Space) && (w.depth == 1 && name == "table" || w.depth == 2 && name == "autoFilter") {
			if v, _, ok := attrIn(content, place{w.from, w.to()}, "ref"); ok {
				b.ranges = append(b.ranges, textPlace{v, attr(t, "ref")})
			}
		}
		return nil
	})
	if err == nil && b.area.top == 0 {
		err = damaged("its part %q holds a table without a range", clip(part))
	}
	return b, err
}

// tableArea is what a reference to a table takes in, for a formula on a sheet.
// Of what is said about rows only the formula's own row and the headings are
// told apart from the whole.
func (p *patcher) tableArea(s tableRef, f formulaAt) (sheet int, area span, ok bool) {
	i := slices.IndexFunc(p.tables, func(b *table) bool {
		return b.key == s.table || s.table == "" && b.sheet == f.sheet && b.area.holds(f.row, f.col)
	})
	if i < 0 {
		return 0, span{}, false
	}
	b := p.tables[i]
	area = b.area
	var columns []int
	whole, ownRow, headings, rest := false, strings.HasPrefix(s.within, "@"), false, false
	for _, item := range itemsOf(s.within) {
		switch item = strings.ToLower(item); {
		case item == "":
		case item == "#this row":
			ownRow = true
		case item == "#headers":
			headings = true
		case strings.HasPrefix(item, "#"):
			rest = true
		default:
			n := slices.Index(b.columns, item)
			whole = whole || n < 0
			columns = append(columns, n)
		}
	}
	if len(columns) > 0 && !whole {
		area.left, area.right = b.area.left+slices.Min(columns), b.area.left+slices.Max(columns)
	}
	switch {
	case rest:
	case ownRow:
		area.top, area.bottom = f.row, f.row
	case headings && b.headed:
		area.bottom = area.top
	}
	return b.sheet, area, true
}

// itemsOf are the names within the brackets of a reference to a table. A '
// makes the sign behind it part of a name.
func itemsOf(within string) []string {
	if !strings.ContainsAny(within, "[") {
		within = "[" + strings.TrimPrefix(within, "@") + "]"
	}
	var items []string
	var item strings.Builder
	inside := false
	for i := 0; i < len(within); i++ {
		switch c := within[i]; {
		case c == '\'' && i+1 < len(within):
			i++
			item.WriteByte(within[i])
		case c == '[':
			inside = true
			item.Reset()
		case c == ']':
			if inside {
				items = append(items, item.String())
			}
			inside = false
		default:
			item.WriteByte(c)
		}
	}
	return items
}
