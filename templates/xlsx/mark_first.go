package xlsx

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"regexp"
	"strconv"

	"futtock/templates/grid"
)

// putFirst makes the sheet that goes before all others: written as any sheet is, with
// its styles brought over among the workbook's own.
func (m *marker) putFirst() error {
	book := &grid.Book{Sheets: []*grid.Sheet{m.first}}
	data, err := Write(book)
	if err != nil {
		return err
	}
	own, err := unpack(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return err
	}
	const from = "xl/worksheets/sheet1.xml"
	if own.has(relationsOf(from)) {
		panic("the sheet put first has more than cells, widths, panes and links")
	}
	part, err := own.bytes(from)
	if err != nil {
		return err
	}
	style, err := m.bring(own)
	if err != nil {
		return err
	}
	part = styledCell.ReplaceAllFunc(part, func(tag []byte) []byte {
		at := styledCell.FindSubmatchIndex(tag)
		return fmt.Appendf(nil, "%s%d%s", tag[:at[2]], style[atoi(string(tag[at[2]:at[3]]))], tag[at[3]:])
	})
	part = sheetMark.ReplaceAll(part, nil)
	main, _ := m.space()
	part = bytes.Replace(part, []byte(`"`+nsMain+`"`), []byte(`"`+main+`"`), 1)
	name := m.newName("worksheets", "sheet", ".xml")
	m.newPart(name, cType+"spreadsheetml.worksheet+xml", part)
	id, err := m.leadTo(m.list.main, "worksheet", name)
	if err != nil {
		return err
	}
	if err := m.listFirst(id); err != nil {
		return err
	}
	return m.outOfView()
}

// styledCell finds the style of a cell as our own sheets have it. Markup cannot stand in
// a text, so that every one found is a cell's.
var styledCell = regexp.MustCompile(`<c r="[A-Z]+[0-9]+" s="([0-9]+)"`)

// sheetMark finds what a sheet is known by across files, which in ours is always the same
// and may be that of a sheet which is there.
var sheetMark = regexp.MustCompile(` xr:uid="[^"]*"`)

// plainFills is how many fills are the same in every workbook: none, and grey.
const plainFills = 2

// bring puts the styles of a workbook of our own among those of the marked one, and
// gives their numbers there.
func (m *marker) bring(own *bundle) ([]int, error) {
	const from = "xl/styles.xml"
	part, err := own.bytes(from)
	if err != nil {
		return nil, err
	}
	root, err := tree(own, from, 3)
	if err != nil {
		return nil, err
	}
	moved := make(map[string][]int)
	for _, list := range []string{"fonts", "fills", "borders"} {
		for i, k := range root.one(list).kids {
			if list == "fills" && i < plainFills {
				moved[list] = append(moved[list], i)
				continue
			}
			moved[list] = append(moved[list], m.styles.add(list, string(part[k.all.from:k.all.to])))
		}
	}
	var out []int
	for _, k := range root.one("cellXfs").kids {
		if atoi(k.attr("numFmtId")) >= 164 {
			panic("the sheet put first has a number format of its own")
		}
		xf := part[k.all.from:k.all.to]
		var edits []edit
		for _, of := range [][2]string{{"fonts", "fontId"}, {"fills", "fillId"}, {"borders", "borderId"}} {
			edits = append(edits, attrEdits(xf, place{0, tagLength(xf)}, of[1], strconv.Itoa(moved[of[0]][atoi(k.attr(of[1]))]))...)
		}
		out = append(out, m.styles.add("cellXfs", string(apply(xf, edits))))
	}
	return out, nil
}

// listFirst puts the sheet before the others in the workbook. What counts sheets from
// the first moves on by one: the sheet of a name, and that in view is the new one.
func (m *marker) listFirst(id string) error {
	part, err := m.part(m.list.main)
	if err != nil {
		return err
	}
	t, err := tree(m.pack, m.list.main, 3)
	if err != nil {
		return err
	}
	sheets := t.one("sheets")
	if sheets == nil || len(sheets.kids) != len(m.list.sheets) {
		return fmt.Errorf("its sheets are listed in an unusual way")
	}
	taken := make(map[int]bool)
	next := 0
	for _, s := range sheets.kids {
		n := atoi(s.attr("sheetId"))
		taken[n], next = true, max(next, n)
	}
	if next++; next > mostSheetID {
		for next = 1; taken[next]; next++ {
		}
	}
	space, rel := m.space()
	element := fmt.Sprintf(`<sheet name="%s" sheetId="%d" xmlns:r="%s" r:id="%s"/>`, escapeText(m.first.Name), next, rel, id)
	at := sheets.kids[0].all.from
	edits := []edit{{place{at, at}, standing(element, prefixOf(part, sheets.tag), space)}}
	if names := t.one("definedNames"); names != nil {
		for _, n := range names.kids {
			if s := n.attr("localSheetId"); s != "" {
				edits = append(edits, attrEdits(part, n.tag, "localSheetId", strconv.Itoa(atoi(s)+1))...)
			}
		}
	}
	if views := t.one("bookViews"); views != nil {
		for _, v := range views.kids {
			for _, name := range []string{"activeTab", "firstSheet"} {
				if v.attr(name) != "" {
					edits = append(edits, attrEdits(part, v.tag, name, "0")...)
				}
			}
		}
	}
	m.edit(m.list.main, edits...)
	return nil
}

// mostSheetID is the highest number a sheet may be known by (ECMA-376 part 1, 18.2.19
// and the programs that read it).
const mostSheetID = 65_534

// outOfView takes the other sheets out of view: of two in view at once, what is typed
// into one goes into both.
func (m *marker) outOfView() error {
	over := errors.New("the views have been read")
	for _, s := range m.list.sheets {
		err := walk(m.pack, s.part, func(w *walker, t xml.StartElement) error {
			switch {
			case w.depth == 2 && t.Name.Local == "sheetData":
				return over
			case w.depth == 3 && t.Name.Local == "sheetView" && isTrue(attr(t, "tabSelected")):
				part, err := m.part(s.part)
				if err != nil {
					return err
				}
				m.edit(s.part, attrEdits(part, place{w.from, w.to()}, "tabSelected", "0")...)
			}
			return nil
		})
		if err != nil && err != over {
			return err
		}
	}
	return nil
}
