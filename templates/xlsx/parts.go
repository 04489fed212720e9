package xlsx

import (
	"encoding/xml"
	"fmt"
	"path"
	"strings"
)

// The names of the two forms of the format, transitional and strict.
const (
	nsMain       = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	nsMainStrict = "http://purl.oclc.org/ooxml/spreadsheetml/main"
	nsRel        = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	nsRelStrict  = "http://purl.oclc.org/ooxml/officeDocument/relationships"
	nsPack       = "http://schemas.openxmlformats.org/package/2006/relationships"
)

// sheetPart is a sheet as the workbook lists it.
type sheetPart struct {
	name   string
	hidden bool
	part   string // name of its part
}

// listed is what the workbook part and its relationships say.
type listed struct {
	sheets   []sheetPart
	main     string // part names, "" where there is none
	strings  string
	styles   string
	date1904 bool
}

// contents reads the list of sheets and where everything is.
func contents(pack *bundle, kept *budget) (listed, error) {
	if !pack.has("_rels/.rels") {
		return listed{}, fmt.Errorf("%w: it is a zip file of something else; the workbook itself is wanted", ErrNotWorkbook)
	}
	root, err := relations(pack, "", kept)
	if err != nil {
		return listed{}, err
	}
	main := ""
	for _, r := range root {
		if r.kind == "officeDocument" && !r.outside {
			main = r.target
		}
	}
	switch {
	case main == "":
		return listed{}, fmt.Errorf("%w: it is a zip file of something else; the workbook itself is wanted", ErrNotWorkbook)
	case strings.HasSuffix(strings.ToLower(main), ".bin"):
		return listed{}, fmt.Errorf("%w; save it as .xlsx", ErrBinary)
	}
	rels, err := relations(pack, main, kept)
	if err != nil {
		return listed{}, err
	}
	list := listed{main: main}
	for _, r := range rels {
		switch {
		case r.outside:
		case r.kind == "sharedStrings":
			list.strings = r.target
		case r.kind == "styles":
			list.styles = r.target
		}
	}
	return list, list.readWorkbook(pack, main, rels, kept)
}

// readWorkbook reads the workbook part: its sheets in order and the start of
// its day count.
func (l *listed) readWorkbook(pack *bundle, main string, rels map[string]relation, kept *budget) error {
	seen := make(map[string]bool)
	err := walk(pack, main, func(w *walker, t xml.StartElement) error {
		if w.depth == 1 && (!isMain(t.Name.Space) || t.Name.Local != "workbook") {
			return fmt.Errorf("%w: its main part is a %q; the workbook itself is wanted", ErrNotWorkbook, clip(t.Name.Local))
		}
		if !isMain(t.Name.Space) {
			return nil
		}
		switch {
		case w.depth == 2 && t.Name.Local == "workbookPr":
			l.date1904 = isTrue(attr(t, "date1904"))
		case w.depth == 3 && t.Name.Local == "sheet":
			s := sheetPart{name: attr(t, "name"), hidden: strings.HasSuffix(strings.ToLower(attr(t, "state")), "hidden")}
			if err := kept.keep(100 + len(s.name)); err != nil {
				return err
			}
			key := strings.ToLower(s.name)
			switch r, ok := rels[relID(t)]; {
			case s.name == "":
				return damaged("it lists a sheet without a name")
			case seen[key]:
				return damaged("it lists two sheets named %q", clip(s.name))
			case !ok || r.outside || !strings.HasSuffix(strings.ToLower(r.kind), "sheet"):
				return damaged("its sheet %q leads nowhere", clip(s.name))
			case !pack.has(r.target):
				return damaged("the cells of its sheet %q are missing", clip(s.name))
			default:
				s.part = r.target
			}
			seen[key] = true
			if l.sheets = append(l.sheets, s); len(l.sheets) > maxSheets {
				return fmt.Errorf("%w: it holds more than %d sheets", ErrTooBig, maxSheets)
			}
		}
		return nil
	})
	if err == nil && len(l.sheets) == 0 {
		err = damaged("it lists no sheets")
	}
	return err
}

// relation leads from one part to another, or outside the file.
type relation struct {
	kind    string // last word of its type: "worksheet", "styles"
	target  string // part name, or address when outside
	outside bool
}

// relationsOf is the name of the part that holds the relationships of another,
// "" of the whole file.
func relationsOf(part string) string {
	if part == "" {
		return "_rels/.rels"
	}
	return path.Join(path.Dir(part), "_rels", path.Base(part)+".rels")
}

// relations reads the relationships of a part ("" for the whole file), by id.
func relations(pack *bundle, of string, kept *budget) (map[string]relation, error) {
	rels := make(map[string]relation)
	name := relationsOf(of)
	err := walk(pack, name, func(w *walker, t xml.StartElement) error {
		if t.Name.Local != "Relationship" || t.Name.Space != nsPack {
			return nil
		}
		id := attr(t, "Id")
		if _, twice := rels[id]; twice {
			return damaged("its part %q has two entries named %q", clip(name), clip(id))
		}
		r := relation{
			kind:    path.Base(attr(t, "Type")),
			target:  attr(t, "Target"),
			outside: attr(t, "TargetMode") == "External",
		}
		if !r.outside {
			r.target = resolve(of, r.target)
		}
		rels[id] = r
		return kept.keep(250 + len(id) + len(r.kind) + len(r.target))
	})
	return rels, err
}

// isMain reports the name space of spreadsheet elements.
func isMain(space string) bool { return space == nsMain || space == nsMainStrict }

// relID is the r:id attribute of a sheet.
func relID(t xml.StartElement) string {
	for _, a := range t.Attr {
		if a.Name.Local == "id" && (a.Name.Space == nsRel || a.Name.Space == nsRelStrict) {
			return a.Value
		}
	}
	return ""
}

// attr is an attribute without a name space, "" where there is none.
func attr(t xml.StartElement, name string) string {
	for _, a := range t.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// isTrue reads the truth value of an attribute.
func isTrue(s string) bool { return s == "1" || s == "true" }
