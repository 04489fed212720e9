package xlsx

import (
	"encoding/xml"
	"strings"

	"futtock/templates/grid"
)

// sheetNotes reads the notes on the cells of a sheet, in the order of the file.
// They stand in a part of their own that the relationships of the sheet lead to;
// it is asked for only where the sheet says that something is drawn on it.
func sheetNotes(pack *bundle, s sheetPart, kept *budget) ([]grid.Remark, error) {
	if !pack.has(relationsOf(s.part)) {
		return nil, damaged("what is drawn on its sheet %q is missing", clip(s.name))
	}
	rels, err := relations(pack, s.part, kept)
	if err != nil {
		return nil, err
	}
	part := ""
	for _, r := range rels {
		if r.kind == "comments" && !r.outside && (part == "" || r.target < part) {
			part = r.target
		}
	}
	if part == "" {
		return nil, nil
	}
	var notes []grid.Remark
	err = walk(pack, part, func(w *walker, t xml.StartElement) error {
		if w.depth != 3 || t.Name.Local != "comment" || !isMain(t.Name.Space) {
			return nil
		}
		col, row, ok := parseCell(attr(t, "ref"))
		text, err := w.plain()
		if err != nil {
			return err
		}
		if text = noteText(text); ok && text != "" {
			notes = append(notes, grid.Remark{Row: row, Col: col, Text: text})
		}
		return kept.keep(80 + len(text))
	})
	return notes, err
}

// noteText is the text of a note without what a program puts before one that belongs
// to a conversation, for those that cannot show it.
func noteText(text string) string {
	if strings.HasPrefix(text, "[Threaded comment]") {
		if _, own, ok := strings.Cut(text, "Comment:"); ok {
			text = own
		}
	}
	return strings.TrimSpace(text)
}
