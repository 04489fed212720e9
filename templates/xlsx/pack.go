package xlsx

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"futtock/templates/grid"
)

// patches are the last touches to parts of the file before they are packed,
// by part name: what the format has and the library cannot write.
type patches map[string]func([]byte) []byte

// sheet puts right the part of a sheet. A formula that comes to no text at
// all loses its stored result in the library and would look never reckoned;
// the depth of the outline must be declared or its buttons do not show; and every
// height is marked as fixed by hand, also of a row that is to grow.
// Markup cannot stand in the text of a cell, so these runs of it are certain.
func (p patches) sheet(index int, s *grid.Sheet) {
	level, grows := 0, false
	for _, row := range s.Rows {
		level, grows = max(level, row.Level), grows || row.Grows
	}
	p[fmt.Sprintf("xl/worksheets/sheet%d.xml", index+1)] = func(part []byte) []byte {
		part = bytes.ReplaceAll(part, []byte("</f></c>"), []byte("</f><v></v></c>"))
		if level > 0 {
			depth := fmt.Sprintf(`<sheetFormatPr outlineLevelRow="%d" `, level)
			part = bytes.Replace(part, []byte("<sheetFormatPr "), []byte(depth), 1)
		}
		if grows {
			part = loosened(part, s)
		}
		return part
	}
}

// rowTag finds where a row begins, and its number.
var rowTag = regexp.MustCompile(`<row r="(\d+)"[^>]*>`)

// loosened is the part of a sheet whose rows that grow have no fixed height.
func loosened(part []byte, s *grid.Sheet) []byte {
	return rowTag.ReplaceAllFunc(part, func(tag []byte) []byte {
		n, _ := strconv.Atoi(string(rowTag.FindSubmatch(tag)[1])) // digits, by the pattern
		if !s.Rows[n-1].Grows {
			return tag
		}
		return bytes.Replace(tag, []byte(` customHeight="1"`), nil, 1)
	})
}

// placed finds where a note is drawn, and of which cell it is.
var placed = regexp.MustCompile(`<x:Anchor>[^<]*</x:Anchor>((?:<x:[A-Za-z]+>[^<]*</x:[A-Za-z]+>)*?<x:Row>(\d+)</x:Row><x:Column>(\d+)</x:Column>)`)

// notes puts the notes of the nth sheet that has any beside their cells,
// where the library draws them over the cell in one size.
func (p patches) notes(nth int, l layout, notes []grid.Note) {
	anchors := make(map[string]string, len(notes))
	for _, n := range notes {
		anchors[n.Cell] = l.anchor(n)
	}
	p[fmt.Sprintf("xl/drawings/vmlDrawing%d.vml", nth)] = func(part []byte) []byte {
		return placed.ReplaceAllFunc(part, func(found []byte) []byte {
			m := placed.FindSubmatch(found)
			row, _ := strconv.Atoi(string(m[2])) // digits, by the pattern
			col, _ := strconv.Atoi(string(m[3]))
			return fmt.Appendf(nil, "<x:Anchor>%s</x:Anchor>%s", anchors[cellName(col+1, row+1)], m[1])
		})
	}
}

// zipWriter is the packer in the library's terms.
func (p patches) zipWriter(w io.Writer) excelize.ZipWriter {
	return &packer{out: w, patches: p, parts: make(map[string]*bytes.Buffer)}
}

// contentTypes is the part that says what every other is.
const contentTypes = "[Content_Types].xml"

// byEnding is one entry of the content types for all parts whose name ends alike.
var byEnding = regexp.MustCompile(`(?:<Default [^>]*></Default>)+`)

// inOneOrder sorts the content types by ending, which the library lists in
// another order on every run once there is a chart.
func inOneOrder(part []byte) []byte {
	return byEnding.ReplaceAllFunc(part, func(found []byte) []byte {
		list := strings.SplitAfter(string(found), "</Default>")
		slices.Sort(list)
		return []byte(strings.Join(list, ""))
	})
}

// packer gathers the parts and packs them in one order with one date, so that
// the same book gives the same bytes.
type packer struct {
	out     io.Writer
	patches patches
	parts   map[string]*bytes.Buffer
}

// Create begins a part.
func (p *packer) Create(name string) (io.Writer, error) {
	name = strings.TrimPrefix(name, "/")
	if p.parts[name] != nil {
		return nil, fmt.Errorf("the part %q is written twice", name)
	}
	p.parts[name] = new(bytes.Buffer)
	return p.parts[name], nil
}

// AddFS is asked for by the library's interface and never called by it.
func (p *packer) AddFS(fs.FS) error { return errors.New("parts are written one by one") }

// Close packs the parts: the list of contents first, as some readers expect,
// the others by name. The date in the zip file is the first it can hold.
func (p *packer) Close() error {
	names := make([]string, 0, len(p.parts))
	for name := range p.parts {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int {
		if a == contentTypes || b == contentTypes {
			return map[bool]int{true: -1, false: 1}[a == contentTypes]
		}
		return strings.Compare(a, b)
	})
	z := zip.NewWriter(p.out)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) {
		return flate.NewWriter(w, flate.DefaultCompression)
	})
	const firstZipDate = 1<<5 | 1 // 1 January 1980 in the zip file's own form
	for _, name := range names {
		part := p.parts[name].Bytes()
		if name == contentTypes {
			part = inOneOrder(part)
		}
		if patch := p.patches[name]; patch != nil {
			part = patch(part)
		}
		w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, ModifiedDate: firstZipDate})
		if err != nil {
			return err
		}
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return z.Close()
}
