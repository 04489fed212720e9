package xlsx

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"

	"futtock/templates/grid"
)

// Patch gives the workbook file with the changes made and every other byte of
// its parts as it was; the library's own saving loses things. The parts are
// edited as text, and only the parts with an edit in them are packed anew.
//
// A cell that is put keeps its style. A new row goes directly under the last
// row of data: its texts stand in the cells themselves, styles and height are
// those of the row above. The size of the sheet, the range of the table (or of
// the filter, where the sheet has one instead) and the ranges of drop-down
// lists that end at the last row of data, or that a list anywhere reads, by
// name or not, take in the new rows. Conditional formats, other checks on
// typing, print areas, other names, charts and pivots stay as they are, and a
// formula in the row above is not repeated. A date under a cell that does
// not show dates is put as text, 2027-04-01, since a bare day number would be
// taken for a price. Protection is no hindrance and stays as it is: it guards
// against slips of the hand, and the command is the owner's.
//
// Read tells which cells are read by this program. All other formulas lose
// their stored results, which may no longer be true, and are reckoned anew by
// the next spreadsheet program that opens the file (a reader has to, says
// Microsoft's account of the format, where the v element is omitted;
// LibreOffice was seen to). Formulas that are read keep theirs: if one of them
// hangs on a changed cell, or if that cannot be told, the changes are refused.
// A function from the workbook's own macros is taken to read its arguments
// alone, as spreadsheet programs take it.
//
// All changes are made or none. The error is a *Refused if the file cannot be
// read, else a *Refusal. Before the bytes are handed over they are read back,
// and compared cell by cell with the old cells and the changes.
func Patch(data []byte, changes []grid.Change, read func(sheet string, row, col int) bool) ([]byte, error) {
	before, err := Read("the workbook", data)
	if err != nil {
		return nil, err
	}
	if len(changes) == 0 {
		return slices.Clone(data), nil
	}
	p := &patcher{before: before, read: read, edits: make(map[string][]edit), parts: make(map[string][]byte)}
	if err := p.open(data); err != nil {
		return nil, err
	}
	steps := []func() error{
		func() error { return p.place(changes) }, p.scan, p.put, p.grow, p.trace,
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, err
		}
	}
	out, err := p.packed(data)
	if err != nil {
		return nil, p.unsure(err)
	}
	if err := p.verify(out); err != nil {
		return nil, p.unsure(err)
	}
	return out, nil
}

// patcher is one run of Patch.
type patcher struct {
	before  grid.Workbook
	read    func(sheet string, row, col int) bool
	pack    *bundle
	list    listed
	formats []string
	names   []*definedName
	tables  []*table
	sheets  []*scanned
	targets []target
	adds    []*addition
	parts   map[string][]byte // the parts that may be edited, unpacked
	edits   map[string][]edit // by part
	added   []member          // parts that were not there
}

// target is a cell that is put.
type target struct {
	sheet, row, col int
	put             grid.Put
	style           string // in force once it is put
}

// addition is the new rows of a sheet.
type addition struct {
	sheet, under int // the last row of data
	rows         [][]grid.Put
	left, right  int // the columns that are put, and those of the table that grows
}

// bottom is the last of the new rows.
func (a *addition) bottom() int { return a.under + len(a.rows) }

// open finds the parts and what the whole workbook has.
func (p *patcher) open(data []byte) error {
	pack, err := unpack(bytes.NewReader(data), int64(len(data)))
	if err == nil {
		p.pack = pack
		p.list, err = contents(pack, &budget{left: maxKept})
	}
	if err == nil {
		p.formats, err = numberFormats(pack, p.list.styles, &budget{left: maxKept})
	}
	if err == nil {
		p.names, err = definedNames(pack, p.list.main)
	}
	for i, s := range p.list.sheets {
		if err != nil {
			break
		}
		var found []*table
		found, err = tables(pack, i, s.part)
		p.tables = append(p.tables, found...)
	}
	if err != nil {
		return named("the workbook", err)
	}
	return nil
}

// place finds the sheets of the changes and the cells of those that alter a
// row that is there. Changes that contradict each other are a fault of ours.
func (p *patcher) place(changes []grid.Change) error {
	if p.signed() {
		return &Refusal{Why: Sealed, Sheet: changes[0].Sheet, Detail: signedDetail}
	}
	seen := make(map[string]bool)
	for _, c := range changes {
		sheet, ok := p.sheetIndex(c.Sheet)
		if !ok {
			return &Refusal{Why: Absent, Sheet: c.Sheet, Detail: "there is no such sheet"}
		}
		if c.Row < 1 || len(c.Put) == 0 {
			panic(fmt.Sprintf("a change of row %d with %d cells", c.Row, len(c.Put)))
		}
		row, name := c.Row, p.list.sheets[sheet].name
		if c.New {
			i := slices.IndexFunc(p.adds, func(a *addition) bool { return a.sheet == sheet })
			if i < 0 {
				i = len(p.adds)
				p.adds = append(p.adds, &addition{sheet: sheet, under: c.Row})
			}
			a := p.adds[i]
			if a.under != c.Row {
				panic(fmt.Sprintf("new rows under row %d and under row %d of sheet %q", a.under, c.Row, name))
			}
			a.rows = append(a.rows, slices.SortedFunc(slices.Values(c.Put), func(a, b grid.Put) int { return a.Col - b.Col }))
			row = a.bottom()
		}
		for _, put := range c.Put {
			at := name + "!" + cellName(put.Col, row)
			if seen[at] || put.Col < 1 || put.Col > lastColumn {
				panic(fmt.Sprintf("two changes of one cell, or one off the sheet: %s", at))
			}
			seen[at] = true
			if row > lastRow {
				return &Refusal{Why: Occupied, Sheet: name, Cell: cellName(put.Col, lastRow), Detail: "the sheet ends there"}
			}
			if err := checkPut(put); err != nil {
				return &Refusal{Why: Unfit, Sheet: name, Cell: cellName(put.Col, row), Detail: err.Error()}
			}
			p.targets = append(p.targets, target{sheet: sheet, row: row, col: put.Col, put: put})
		}
	}
	slices.SortFunc(p.targets, func(a, b target) int {
		return cmp.Or(a.sheet-b.sheet, a.row-b.row, a.col-b.col)
	})
	return nil
}

// signedDetail is why a signed workbook is not changed.
const signedDetail = "the workbook is signed, and a change would break the signature"

// signed reports a workbook with a signature.
func (p *patcher) signed() bool {
	for name := range p.pack.members {
		if strings.HasPrefix(name, "_xmlsignatures/") {
			return true
		}
	}
	return false
}

// checkPut refuses what a cell cannot hold.
func checkPut(put grid.Put) error {
	if put.Kind != grid.Number && put.Kind != grid.Text && put.Kind != grid.Date {
		panic(fmt.Sprintf("a change puts a cell of kind %d", put.Kind))
	}
	return checkCell(grid.Cell{Kind: put.Kind, Text: put.Text, Number: put.Number, Day: put.Day})
}

// scan goes through every sheet: formulas and lists on any may hang on those
// that change.
func (p *patcher) scan() error {
	for i, s := range p.list.sheets {
		for j := range i {
			if memberKey(p.list.sheets[j].part) == memberKey(s.part) {
				return &Refusal{Why: Unsure, Sheet: s.name, Detail: fmt.Sprintf("it shares its cells with the sheet %q", clip(p.list.sheets[j].name))}
			}
		}
		part, err := p.part(s.part)
		if err != nil {
			return named("the workbook", err)
		}
		keep := func(row, col int) bool { return p.read(s.name, row, col) }
		c, err := scan(p.pack, i, s, part, p.wanted(i), keep)
		if err != nil {
			return named("the workbook", err)
		}
		p.sheets = append(p.sheets, c)
		p.edit(s.part, c.drops...)
	}
	return nil
}

// wanted are the rows of a sheet that may change, and the last row of data.
func (p *patcher) wanted(sheet int) []int {
	rows := make(map[int]bool)
	for _, t := range p.targets {
		rows[t.row] = rows[t.row] || t.sheet == sheet
	}
	for _, a := range p.adds {
		rows[a.under] = rows[a.under] || a.sheet == sheet
	}
	maps.DeleteFunc(rows, func(_ int, wanted bool) bool { return !wanted })
	return slices.Sorted(maps.Keys(rows))
}

// sheetIndex finds a sheet by name; case does not matter.
func (p *patcher) sheetIndex(name string) (int, bool) {
	i := slices.IndexFunc(p.list.sheets, func(s sheetPart) bool { return strings.EqualFold(s.name, name) })
	return i, i >= 0
}

// part is the content of a part that may be edited.
func (p *patcher) part(name string) ([]byte, error) {
	key := memberKey(name)
	if part, ok := p.parts[key]; ok {
		return part, nil
	}
	part, err := p.pack.bytes(name)
	p.parts[key] = part
	return part, err
}

// edit notes edits of a part.
func (p *patcher) edit(part string, edits ...edit) {
	p.edits[memberKey(part)] = append(p.edits[memberKey(part)], edits...)
}

// touched are the ranges that change, by sheet. A new row counts as changed
// from its first cell to its last, and across the table it belongs to.
func (p *patcher) touched() map[int][]span {
	out := make(map[int][]span)
	for _, t := range p.targets {
		if p.additionOf(&t) == nil {
			out[t.sheet] = append(out[t.sheet], span{t.row, t.col, t.row, t.col})
		}
	}
	for _, a := range p.adds {
		out[a.sheet] = append(out[a.sheet], span{a.under + 1, a.left, a.bottom(), a.right})
	}
	return out
}

// packed is the file with the edits made.
func (p *patcher) packed(data []byte) ([]byte, error) {
	fresh := make(map[string][]byte)
	for part, edits := range p.edits {
		if len(edits) > 0 {
			fresh[part] = apply(p.parts[part], edits)
		}
	}
	return splice(data, fresh, p.added)
}

// unsure refuses the changes for a reason that lies in the file as a whole.
func (p *patcher) unsure(err error) error {
	first := p.targets[0]
	return &Refusal{Why: Unsure, Sheet: p.list.sheets[first.sheet].name, Cell: cellName(first.col, first.row), Detail: err.Error()}
}

// bytes is a member unpacked.
func (b *bundle) bytes(name string) ([]byte, error) {
	r, err := b.open(name)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	content, err := io.ReadAll(r)
	if err != nil {
		return nil, damaged("its part %q is cut short or altered", clip(name))
	}
	return content, nil
}

// relsOf is the name of the part with the relationships of another.
func relsOf(part string) string {
	return path.Join(path.Dir(part), "_rels", path.Base(part)+".rels")
}

// atoi reads a figure of an attribute, 0 where there is none.
func atoi(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil {
		return 0
	}
	return n
}
