package xlsx

import (
	"encoding/xml"
	"fmt"
	"slices"
	"strings"

	"futtock/templates/grid"
)

// noted is a sheet's notes while more are put on.
type noted struct {
	*markedSheet
	rels  map[string]relation
	notes string          // its comments part, "" where there is none
	old   []grid.Remark   // the notes that it has
	talk  map[[2]int]bool // the cells with a conversation
	fresh [][2]int        // the cells that had no note, in order
}

// notes puts the notes on.
func (m *marker) notes() error {
	for _, s := range m.on {
		n := &noted{markedSheet: s, talk: make(map[[2]int]bool)}
		if err := m.related(n); err != nil {
			return err
		}
		err := m.texts(n)
		if err == nil {
			err = m.shapes(n)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// related finds the parts that the sheet has its notes in, and the conversations on it.
func (m *marker) related(n *noted) error {
	if !m.pack.has(relationsOf(n.sheet.part)) {
		return nil
	}
	var err error
	if n.rels, err = relations(m.pack, n.sheet.part, &budget{left: maxKept}); err != nil {
		return err
	}
	for _, r := range n.rels {
		switch {
		case r.outside:
		case r.kind == "comments" && (n.notes == "" || r.target < n.notes):
			n.notes = r.target
		case r.kind == "threadedComment":
			err := walk(m.pack, r.target, func(_ *walker, t xml.StartElement) error {
				if col, row, ok := parseCell(attr(t, "ref")); ok && t.Name.Local == "threadedComment" {
					n.talk[[2]int{row, col}] = true
				}
				return nil
			})
			if err != nil {
				return err
			}
		}
	}
	if n.notes == "" {
		return nil
	}
	// A sheet on which nothing is drawn does not show the notes that it has, and was read
	// without them; now it will.
	n.old, err = sheetNotes(m.pack, n.sheet, &budget{left: maxKept})
	m.before.Sheets[n.index].Notes = n.old
	return err
}

// texts puts the texts of the notes into the comments part of the sheet: below those
// that cells have, behind the others where they have none.
func (m *marker) texts(n *noted) error {
	space, _ := m.space()
	if n.notes == "" {
		n.notes = m.newName("", "comments", ".xml")
		var text strings.Builder
		for _, c := range n.cells {
			text.WriteString(n.comment(c, "", 0))
		}
		m.newPart(n.notes, cType+"spreadsheetml.comments+xml", []byte(xmlHead+`<comments xmlns="`+space+`"><authors><author>`+program+
			`</author></authors><commentList>`+text.String()+`</commentList></comments>`))
		_, err := m.leadTo(n.sheet.part, "comments", n.notes)
		return err
	}
	part, err := m.part(n.notes)
	if err != nil {
		return err
	}
	root, err := tree(m.pack, n.notes, 5)
	if err != nil {
		return err
	}
	prefix := prefixOf(part, root.tag)
	there := make(map[[2]int]*node)
	list := root.one("commentList")
	if list != nil {
		for _, k := range list.named("comment") {
			if col, row, ok := parseCell(k.attr("ref")); ok && there[[2]int{row, col}] == nil {
				there[[2]int{row, col}] = k
			}
		}
	}
	author := authorOf(root, part)
	var text strings.Builder
	for _, c := range n.cells {
		at := [2]int{c.row, c.col}
		k := there[at]
		switch {
		case n.talk[at]:
		case k == nil:
			text.WriteString(n.comment(c, prefix, author))
		case k.one("text") == nil:
			m.edit(n.notes, k.appended(part, "<"+prefix+"text>"+noteRun(c.note, prefix)+"</"+prefix+"text>")...)
			n.written[at] = c.note
		default:
			n.written[at] = n.below(c)
			m.edit(n.notes, below(part, k.one("text"), noteRun("\n\n"+c.note, prefix), prefix)...)
		}
	}
	if text.Len() > 0 {
		m.edit(n.notes, joinedNotes(root, part, text.String(), prefix)...)
	}
	return nil
}

// joinedNotes are the edits that put notes of ours behind the others, and us among the
// authors where we are not yet.
func joinedNotes(root *node, part []byte, text, prefix string) []edit {
	own := "<" + prefix + "author>" + program + "</" + prefix + "author>"
	authors, list := root.one("authors"), root.one("commentList")
	wrapped := "<" + prefix + "commentList>" + text + "</" + prefix + "commentList>"
	if authors == nil && list == nil {
		return root.appended(part, "<"+prefix+"authors>"+own+"</"+prefix+"authors>"+wrapped)
	}
	var edits []edit
	switch {
	case authors == nil:
		edits = append(edits, edit{place{list.all.from, list.all.from}, "<" + prefix + "authors>" + own + "</" + prefix + "authors>"})
	case authorOf(root, part) == len(authors.kids):
		edits = append(edits, authors.appended(part, own)...)
	}
	if list == nil {
		return append(edits, edit{place{authors.all.to, authors.all.to}, wrapped})
	}
	return append(edits, list.appended(part, text)...)
}

// authorOf is our number among the authors of the notes, or the next one.
func authorOf(root *node, part []byte) int {
	authors := root.one("authors")
	if authors == nil {
		return 0
	}
	for i, a := range authors.kids {
		if string(part[a.tag.to:a.end(part).from]) == program {
			return i
		}
	}
	return len(authors.kids)
}

// below is the text a cell's note has once the mark's stands under it.
func (n *noted) below(c *markedCell) string {
	i := slices.IndexFunc(n.old, func(r grid.Remark) bool { return r.Row == c.row && r.Col == c.col })
	if i < 0 {
		return c.note // it was blank
	}
	return n.old[i].Text + "\n\n" + c.note
}

// comment is a note of ours on a cell that has none. In a conversation there is none.
func (n *noted) comment(c *markedCell, prefix string, author int) string {
	at := [2]int{c.row, c.col}
	if n.talk[at] {
		return ""
	}
	n.written[at] = c.note
	n.fresh = append(n.fresh, at)
	return fmt.Sprintf(`<%[1]scomment ref="%[2]s" authorId="%[3]d"><%[1]stext>%[4]s</%[1]stext></%[1]scomment>`,
		prefix, cellName(c.col, c.row), author, noteRun(c.note, prefix))
}

// noteRun is a text in the letters of our notes.
func noteRun(text, prefix string) string {
	return fmt.Sprintf(`<%[1]sr><%[1]srPr><%[1]ssz val="%[2]g"/><%[1]scolor indexed="81"/><%[1]srFont val="%[3]s"/><%[1]sfamily val="2"/></%[1]srPr><%[1]st xml:space="preserve">%[4]s</%[1]st></%[1]sr>`,
		prefix, noteSize, face, escapeText(text))
}

// below are the edits that put a run under the text of a note. A text without runs
// becomes one, since none may stand beside runs.
func below(part []byte, text *node, run, prefix string) []edit {
	var edits []edit
	at := text.tag.to
	for _, k := range text.kids {
		switch k.name {
		case "t":
			edits = append(edits, edit{place{k.all.from, k.all.from}, "<" + prefix + "r>"}, edit{place{k.all.to, k.all.to}, "</" + prefix + "r>"})
			at = k.all.to
		case "r":
			at = k.all.to
		}
	}
	if selfClosing(part, text.tag) {
		return text.appended(part, run)
	}
	return append(edits, edit{place{at, at}, run})
}

// widthAt and heightAt are how many dots a column is wide and a row is high.
func (s *scanned) widthAt(col int) float64 {
	wide := s.wide
	for _, k := range s.columns {
		if col >= k.from && col <= k.to {
			if k.hidden {
				return 0
			}
			wide = k.wide
			break
		}
	}
	if wide <= 0 {
		return plainWidth
	}
	return float64(int(wide*digitDots + 0.5))
}

func (s *scanned) heightAt(row int) float64 {
	high, ok := s.heights[row]
	if !ok {
		high = s.high
	}
	switch {
	case ok && high == 0 || high == hiddenHigh:
		return 0
	case high == 0:
		high = plainHeight
	}
	return float64(int(high*96/72 + 0.5))
}
