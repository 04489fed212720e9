package xlsx

import (
	"fmt"
	"strconv"
	"strings"
)

// grow lets the ranges that end at the last row of data take in the new rows.
func (p *patcher) grow() error {
	for _, s := range p.sheets {
		p.growSize(s)
	}
	for _, a := range p.adds {
		s := p.sheets[a.sheet]
		for _, b := range p.tables {
			if b.sheet == a.sheet && b.area.bottom == a.under && b.area.left <= a.right && b.area.right >= a.left {
				if err := p.growTable(b, a); err != nil {
					return err
				}
			}
		}
		if err := p.growFilter(s, a); err != nil {
			return err
		}
		p.growRules(s, a)
		for _, on := range p.sheets {
			for _, r := range on.rules {
				if !r.list {
					continue
				}
				if err := p.growSource(on, r.source, a); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// growSize lets the size of the sheet take in the cells that were not there.
// A size that is too small as it stands is none to rely on and stays.
func (p *patcher) growSize(s *scanned) {
	if !s.size.there() {
		return
	}
	v, _, ok := attrIn(s.part, s.size, "ref")
	size, proper := parseRange(string(s.part[v.from:v.to]))
	if !ok || !proper {
		return
	}
	grown := size
	for _, t := range p.targets {
		above := t.row
		if a := p.additionOf(&t); a != nil {
			above = a.under
		}
		if t.sheet != s.index || above > size.bottom || above < size.top {
			continue
		}
		grown.bottom = max(grown.bottom, t.row)
		grown.left, grown.right = min(grown.left, t.col), max(grown.right, t.col)
	}
	if grown != size {
		p.edit(s.sheet.part, edit{v, cellName(grown.left, grown.top) + ":" + cellName(grown.right, grown.bottom)})
	}
}

// growTable lets a table take in the new rows under it, its filter with it.
func (p *patcher) growTable(b *table, a *addition) error {
	for _, r := range b.ranges {
		if area, ok := parseRange(r.text); !ok || area.bottom != a.under {
			continue
		}
		if err := p.growEnd(b.part, r.place, a); err != nil {
			return err
		}
	}
	b.area.bottom = a.bottom()
	return nil
}

// growFilter lets the filter of a sheet without a table take in the new rows,
// together with the hidden name that some programs find its range by.
func (p *patcher) growFilter(s *scanned, a *addition) error {
	if !s.filter.there() {
		return nil
	}
	v, _, _ := attrIn(s.part, s.filter, "ref")
	area, ok := parseRange(string(s.part[v.from:v.to]))
	if !ok || area.bottom != a.under || area.left > a.right || area.right < a.left {
		return nil
	}
	if err := p.growEnd(s.sheet.part, v, a); err != nil {
		return err
	}
	for _, n := range p.names {
		if n.key != "_xlnm._filterdatabase" || n.sheet != a.sheet {
			continue
		}
		if err := p.growName(n, a); err != nil {
			return err
		}
	}
	return nil
}

// growRules lets the drop-downs of the last row of data go on to the new rows,
// unless there is another check on what is typed there.
func (p *patcher) growRules(s *scanned, a *addition) {
	taken := func(area span) bool {
		for _, r := range s.rules {
			for word := range strings.FieldsSeq(r.cells.text) {
				if other, ok := parseRange(word); ok && other.meets(area) {
					return true
				}
			}
		}
		return false
	}
	for _, r := range s.rules {
		raw := string(s.part[r.cells.from:r.cells.to])
		if !r.list || strings.Contains(raw, "&") {
			continue
		}
		at := 0
		for word := range strings.FieldsSeq(raw) {
			at += strings.Index(raw[at:], word)
			area, ok := parseRange(word)
			if ok && area.bottom == a.under && !taken(span{a.under + 1, area.left, a.bottom(), area.right}) {
				from := r.cells.from + at
				grown := cellName(area.left, area.top) + ":" + cellName(area.right, a.bottom())
				p.edit(s.sheet.part, edit{place{from, from + len(word)}, grown})
			}
			at += len(word)
		}
	}
}

// growSource lets the range that a drop-down list reads take in the new rows:
// the range itself, or the name that stands for it.
func (p *patcher) growSource(on *scanned, source textPlace, a *addition) error {
	if p.ends(source.text, on.index, a) {
		return p.growEnd(on.sheet.part, source.place, a)
	}
	key := strings.ToLower(strings.TrimSpace(source.text))
	for _, n := range p.names {
		if n.key != key || n.sheet >= 0 && n.sheet != on.index {
			continue
		}
		if err := p.growName(n, a); err != nil {
			return err
		}
	}
	return nil
}

// growName lets a name that stands for a range take in the new rows.
func (p *patcher) growName(n *definedName, a *addition) error {
	if !p.ends(n.text.text, max(n.sheet, 0), a) {
		return nil
	}
	if err := p.growEnd(p.list.main, n.text.place, a); err != nil {
		return err
	}
	text := strings.TrimSpace(n.text.text)
	n.text.text = strings.TrimSuffix(text, strconv.Itoa(a.under)) + strconv.Itoa(a.bottom())
	return nil
}

// ends reports a formula that is one range, down to the last row of data.
func (p *patcher) ends(formula string, home int, a *addition) bool {
	formula = strings.TrimSpace(formula)
	r := readsOf(strings.TrimPrefix(formula, "="), home, p.sheetIndex)
	if len(r.areas) != 1 || len(r.names)+len(r.tables) > 0 || r.lost != "" {
		return false
	}
	area := r.areas[0]
	_, plain := parseRange(strings.ReplaceAll(formula[strings.LastIndexByte(formula, '!')+1:], "$", ""))
	return plain && area.from == a.sheet && area.to == a.sheet && area.area.bottom == a.under && area.area.top < a.under &&
		area.area.left <= a.right && area.area.right >= a.left
}

// growEnd turns the row a range ends with, in a run of a part, into the last
// of the new rows.
func (p *patcher) growEnd(part string, run place, a *addition) error {
	content, err := p.part(part)
	if err != nil {
		return named("the workbook", err)
	}
	text := strings.TrimRight(string(content[run.from:run.to]), " \t\r\n")
	old := strconv.Itoa(a.under)
	if !strings.HasSuffix(text, old) { // its figures are spelt as marks of XML
		return p.unsure(fmt.Errorf("the range %q is written in an unusual way", clip(text)))
	}
	to := run.from + len(text)
	p.edit(part, edit{place{to - len(old), to}, strconv.Itoa(a.bottom())})
	return nil
}
