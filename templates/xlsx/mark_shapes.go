package xlsx

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// The name spaces of old drawings, by the prefix that programs give them. The drawings
// are not always proper XML (some end no line breaks), so they are edited as text.
var shapeSpaces = [][2]string{
	{"v", "urn:schemas-microsoft-com:vml"}, {"o", "urn:schemas-microsoft-com:office:office"}, {"x", "urn:schemas-microsoft-com:office:excel"},
}

// noteKind is the kind of shape that notes are.
const noteKind = `<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe">` +
	`<v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>`

var (
	shapeID     = regexp.MustCompile(`_x0000_s[0-9]+`)
	noteData    = regexp.MustCompile(`(?s)<x:ClientData\s[^>]*ObjectType=["']Note["'][^>]*>.*?</x:ClientData>`)
	noteAnchor  = regexp.MustCompile(`<x:Anchor>([^<]*)</x:Anchor>`)
	noteRow     = regexp.MustCompile(`<x:Row>\s*([0-9]+)\s*</x:Row>`)
	noteColumn  = regexp.MustCompile(`<x:Column>\s*([0-9]+)\s*</x:Column>`)
	drawingRoot = regexp.MustCompile(`<([A-Za-z][A-Za-z-]*)[^>]*>`) // mostly xml
)

// shapes draws the boxes of the notes put on, and makes those big enough that were
// there.
func (m *marker) shapes(n *noted) error {
	if len(n.written) == 0 {
		return nil
	}
	name := ""
	if d := n.tree.one("legacyDrawing"); d != nil {
		r, ok := n.rels[d.id()]
		if !ok || r.outside || !m.pack.has(r.target) {
			return damaged("what is drawn on its sheet %q is missing", clip(n.sheet.name))
		}
		name = r.target
	}
	if name == "" {
		name = m.newName("drawings", "vmlDrawing", ".vml")
		base := 1024 * (n.index + 1) // the numbers of one sheet's shapes are a thousand, or more, of their own
		m.newPart(name, "", fmt.Appendf(nil, `<xml xmlns:v="%s" xmlns:o="%s" xmlns:x="%s"><o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="%s"/></o:shapelayout>%s%s</xml>`,
			shapeSpaces[0][1], shapeSpaces[1][1], shapeSpaces[2][1], shapeBlocks(base, len(n.fresh)), noteKind, n.boxes(base+1)))
		if err := m.drawingType(name); err != nil {
			return err
		}
		id, err := m.leadTo(n.sheet.part, "vmlDrawing", name)
		if err != nil {
			return err
		}
		return m.draw(n.markedSheet, id)
	}
	part, err := m.part(name)
	if err != nil {
		return err
	}
	edits, err := n.drawn(part)
	if err != nil {
		return &Refusal{Why: Unsure, Sheet: n.sheet.name, Detail: err.Error()}
	}
	m.edit(name, edits...)
	return nil
}

// shapeBlocks names the thousands that the numbers of shapes are taken from.
func shapeBlocks(base, count int) string {
	text := fmt.Sprint(base / 1024)
	for block := base/1024 + 1; block <= (base+count)/1024; block++ {
		text += fmt.Sprintf(",%d", block)
	}
	return text
}

// drawn are the edits of a drawing that is there.
func (n *noted) drawn(part []byte) ([]edit, error) {
	root, at := drawingRoot.FindSubmatchIndex(part), -1
	if root != nil {
		at = bytes.LastIndex(part, fmt.Appendf(nil, "</%s>", part[root[2]:root[3]]))
	}
	if at < 0 {
		return nil, fmt.Errorf("what is drawn on it is laid out in an unusual way")
	}
	tag := string(part[root[0]:root[1]])
	var edits []edit
	for _, s := range shapeSpaces {
		says := "xmlns:" + s[0] + "="
		switch {
		case strings.Contains(tag, says+`"`+s[1]+`"`) || strings.Contains(tag, says+"'"+s[1]+"'"):
		case strings.Contains(tag, says):
			return nil, fmt.Errorf("what is drawn on it is laid out in an unusual way")
		default:
			edits = append(edits, edit{place{root[1] - 1, root[1] - 1}, " " + says + `"` + s[1] + `"`})
		}
	}
	edits = append(edits, n.grown(part)...)
	if len(n.fresh) == 0 {
		return edits, nil
	}
	next := 1025
	for _, id := range shapeID.FindAll(part, -1) {
		next = max(next, shapeNumber(string(id))+1)
	}
	text := n.boxes(next)
	if !bytes.Contains(part, []byte(`"_x0000_t202"`)) || !bytes.Contains(part, []byte("<v:shapetype")) {
		text = noteKind + text
	}
	return append(edits, edit{place{at, at}, text}), nil
}

// grown are the edits that make boxes big enough for what is added to their notes;
// those that already are stay.
func (n *noted) grown(part []byte) []edit {
	var edits []edit
	for _, m := range noteData.FindAllIndex(part, -1) {
		data := part[m[0]:m[1]]
		anchor, row, col := noteAnchor.FindSubmatchIndex(data), noteRow.FindSubmatch(data), noteColumn.FindSubmatch(data)
		if anchor == nil || row == nil || col == nil {
			continue
		}
		cell := [2]int{atoi(string(row[1])) + 1, atoi(string(col[1])) + 1}
		text, ours := n.written[cell]
		if !ours || slices.Contains(n.fresh, cell) {
			continue
		}
		edits = append(edits, edit{place{m[0] + anchor[2], m[0] + anchor[3]}, boxBeside(cell[0], cell[1], text, n.widthAt, n.heightAt)})
	}
	return edits
}

// boxes are the shapes of the cells that had no note, numbered from first on.
func (n *noted) boxes(first int) string {
	var out strings.Builder
	for i, at := range n.fresh {
		fmt.Fprintf(&out, `<v:shape id="_x0000_s%d" type="#_x0000_t202" style="position:absolute;z-index:%d;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto">`+
			`<v:fill color2="#ffffe1"/><v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/>`+
			`<v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>`+
			`<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>%s</x:Anchor><x:AutoFill>False</x:AutoFill><x:Row>%d</x:Row><x:Column>%d</x:Column></x:ClientData></v:shape>`,
			first+i, i+1, boxBeside(at[0], at[1], n.written[at], n.widthAt, n.heightAt), at[0]-1, at[1]-1)
	}
	return out.String()
}

// beforeDrawing is what may stand before the old drawing in a sheet (ECMA-376 part 1,
// 18.3.1.99).
var beforeDrawing = []string{
	"sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "sheetCalcPr", "sheetProtection", "protectedRanges", "scenarios",
	"autoFilter", "sortState", "dataConsolidate", "customSheetViews", "mergeCells", "phoneticPr", "conditionalFormatting", "dataValidations",
	"hyperlinks", "printOptions", "pageMargins", "pageSetup", "headerFooter", "rowBreaks", "colBreaks", "customProperties", "cellWatches",
	"ignoredErrors", "smartTags", "drawing",
}

// draw makes a sheet show an old drawing.
func (m *marker) draw(s *markedSheet, id string) error {
	at := 0
	for _, k := range s.tree.kids {
		name := k.name
		if name == "AlternateContent" && len(k.kids) > 0 && len(k.kids[0].kids) > 0 {
			name = k.kids[0].kids[0].name
		}
		if slices.Contains(beforeDrawing, name) {
			at = k.all.to
		}
	}
	_, rel := m.space()
	text := fmt.Sprintf(`<%slegacyDrawing xmlns:r="%s" r:id="%s"/>`, prefixOf(s.part, s.tree.tag), rel, id)
	m.edit(s.sheet.part, edit{place{at, at}, text})
	return nil
}

// shapeNumber reads the number of a shape's id, such as _x0000_s1025.
func shapeNumber(id string) int {
	n, err := strconv.Atoi(strings.TrimPrefix(id, "_x0000_s"))
	if err != nil {
		return 0
	}
	return n
}
