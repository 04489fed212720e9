package xlsx

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// styleOrder is the parts of the styles in the order they stand in (ECMA-376 part 1,
// 18.8.39).
var styleOrder = []string{"numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs", "tableStyles", "colors", "extLst"}

// styleBasis is what a list of styles begins with where a workbook has none.
var styleBasis = map[string][]string{
	"fonts":   {`<font><sz val="10"/><name val="` + face + `"/><family val="2"/></font>`},
	"fills":   {`<fill><patternFill patternType="none"/></fill>`, `<fill><patternFill patternType="gray125"/></fill>`},
	"borders": {`<border><left/><right/><top/><bottom/><diagonal/></border>`},
	"cellXfs": {`<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>`},
}

// styleBook is the styles of the workbook and those that join them.
type styleBook struct {
	name  string
	part  []byte
	root  *node
	more  map[string][]string // new elements, by the list they go to
	fills map[string]int      // by colour
	made  map[[2]string]string
}

// openStyles reads the styles, or begins some.
func (m *marker) openStyles() error {
	b := &styleBook{name: m.list.styles, more: make(map[string][]string), fills: make(map[string]int), made: make(map[[2]string]string)}
	m.styles = b
	if b.name == "" {
		return nil
	}
	var err error
	if b.part, err = m.part(b.name); err == nil {
		b.root, err = tree(m.pack, b.name, 3)
	}
	return err
}

// element is an element of ours for the styles.
func (b *styleBook) element(space, text string) string {
	if b.root == nil {
		return text
	}
	return standing(text, prefixOf(b.part, b.root.tag), space)
}

// list is the elements of a list, in the file as it is.
func (b *styleBook) list(name string) []*node {
	if b.root == nil || b.root.one(name) == nil {
		return nil
	}
	return b.root.one(name).kids
}

// add puts an element on a list and gives its number.
func (b *styleBook) add(list, element string) int {
	if len(b.list(list)) == 0 && len(b.more[list]) == 0 {
		b.more[list] = slices.Clone(styleBasis[list])
	}
	b.more[list] = append(b.more[list], element)
	return len(b.list(list)) + len(b.more[list]) - 1
}

// filled is a style like another, with a fill of a colour; "" is the ordinary one.
func (b *styleBook) filled(style, colour string) (string, error) {
	key := [2]string{style, colour}
	if made, ok := b.made[key]; ok {
		return made, nil
	}
	fill, ok := b.fills[colour]
	if !ok {
		fill = b.add("fills", `<fill><patternFill patternType="solid"><fgColor rgb="FF`+colour+`"/><bgColor indexed="64"/></patternFill></fill>`)
		b.fills[colour] = fill
	}
	xf := []byte(styleBasis["cellXfs"][0])
	if xfs := b.list("cellXfs"); len(xfs) > 0 {
		n := atoi(style)
		if n >= len(xfs) {
			return "", fmt.Errorf("its styles are laid out in an unusual way")
		}
		xf = b.part[xfs[n].all.from:xfs[n].all.to]
	}
	tag := place{0, tagLength(xf)}
	edits := slices.Concat(attrEdits(xf, tag, "fillId", strconv.Itoa(fill)), attrEdits(xf, tag, "applyFill", "1"))
	if len(b.list("cellXfs"))+len(b.more["cellXfs"]) >= mostStyles {
		return "", fmt.Errorf("it has no room for more styles of cells")
	}
	made := strconv.Itoa(b.add("cellXfs", string(apply(xf, edits))))
	b.made[key] = made
	return made, nil
}

// mostStyles is how many styles of cells a spreadsheet program takes.
const mostStyles = 65_490

// tagLength is how long the tag is that an element begins with.
func tagLength(element []byte) int {
	quote := byte(0)
	for i, c := range element {
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			return i + 1
		}
	}
	panic("an element without an end of its tag")
}

// closeStyles writes the new styles.
func (m *marker) closeStyles() error {
	b := m.styles
	space, _ := m.space()
	if b.root == nil || len(b.root.kids) == 0 {
		text := ""
		for _, list := range styleOrder {
			if more := b.more[list]; len(more) > 0 {
				text += b.element(space, newList(list, more))
			}
		}
		if b.root != nil {
			m.edit(b.name, b.root.appended(b.part, text)...)
			return nil
		}
		name := m.newName("", "styles", ".xml")
		m.newPart(name, cType+"spreadsheetml.styles+xml", []byte(xmlHead+`<styleSheet xmlns="`+space+`">`+text+`</styleSheet>`))
		_, err := m.leadTo(m.list.main, "styles", name)
		return err
	}
	for i, list := range styleOrder {
		more := b.more[list]
		if len(more) == 0 {
			continue
		}
		n := b.root.one(list)
		if n == nil {
			m.edit(b.name, b.newListAt(styleOrder[:i], b.element(space, newList(list, more)))...)
			continue
		}
		if n.attr("count") != "" {
			m.edit(b.name, attrEdits(b.part, n.tag, "count", strconv.Itoa(len(n.kids)+len(more)))...)
		}
		text := ""
		for _, e := range more {
			if strings.HasPrefix(e, "<"+prefixOf(b.part, b.root.tag)) && prefixOf(b.part, b.root.tag) != "" {
				text += e // like one of the part's own
				continue
			}
			text += b.element(space, e)
		}
		m.edit(b.name, n.appended(b.part, text)...)
	}
	return nil
}

func newList(name string, elements []string) string {
	return fmt.Sprintf(`<%s count="%d">%s</%s>`, name, len(elements), strings.Join(elements, ""), name)
}

// newListAt are the edits that put a list behind those that go before it.
func (b *styleBook) newListAt(before []string, text string) []edit {
	for _, list := range slices.Backward(before) {
		if n := b.root.one(list); n != nil {
			return []edit{{place{n.all.to, n.all.to}, text}}
		}
	}
	return []edit{{place{b.root.tag.to, b.root.tag.to}, text}}
}
