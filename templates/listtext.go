package templates

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"

	"futtock/templates/grid"
)

// listPage is what the one sheet of a list of plain text is called.
const listPage = "List"

// delimiters are what may part the cells of a line, the likeliest first.
var delimiters = []rune{';', '\t', '|', ','}

// ListText is a list of plain text as a workbook of one sheet, every cell a text. It
// is UTF-8 where it can be, and else Windows-1252; a mark of the byte order goes
// before both. Cells are parted by whichever of semicolon, tab, stroke and comma makes
// most headings of one line, and then most lines as long as that; a first line such as sep=; says
// so itself. Rows are counted as lines of the file.
func ListText(name string, data []byte, f ListForm) (grid.Workbook, error) {
	text, err := decoded(data)
	if err != nil {
		return grid.Workbook{}, fmt.Errorf("cannot read %s: %w", name, err)
	}
	tries, skipped := delimiters, 0
	if first, rest, ok := strings.Cut(text, "\n"); ok {
		if mark, said := strings.CutPrefix(strings.TrimRight(first, "\r"), "sep="); said && utf8.RuneCountInString(mark) == 1 {
			tries, text, skipped = []rune(mark), rest, 1
		}
	}
	var best grid.Page
	most := -1
	for _, d := range tries {
		page, err := parted(text, d, skipped)
		if err != nil {
			return grid.Workbook{}, fmt.Errorf("cannot read %s: %w", name, err)
		}
		if n := f.fit(page); n > most {
			best, most = page, n
		}
	}
	return grid.Workbook{Name: name, Sheets: []grid.Page{best}}, nil
}

// decoded is the bytes of a text file as text.
func decoded(data []byte) (string, error) {
	var other encoding.Encoding = charmap.Windows1252
	if utf8.Valid(data) {
		other = encoding.Nop
	}
	out, _, err := transform.Bytes(unicode.BOMOverride(other.NewDecoder()), data)
	if err == nil && bytes.IndexByte(out, 0) >= 0 {
		err = errors.New("it is no plain text; a list is wanted as .csv or .xlsx")
	}
	return string(out), err
}

// parted is the text with its lines parted into cells. Quotes are as in any such
// file, save where they do not fit: then they go by the line alone, so that one
// that is never closed swallows no more than that.
func parted(text string, by rune, skipped int) (grid.Page, error) {
	p := grid.Page{Name: listPage}
	if by == '"' || by == '\r' || by == '\n' || by == utf8.RuneError {
		return p, fmt.Errorf("%q cannot part the cells of a line", by)
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord = by, -1
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			return p, nil
		}
		if err != nil {
			return byLine(text, by, skipped), nil
		}
		row, _ := r.FieldPos(0)
		p.Rows = append(p.Rows, cells(record, row+skipped)...)
	}
}

// byLine parts each line by itself.
func byLine(text string, by rune, skipped int) grid.Page {
	p := grid.Page{Name: listPage}
	row := skipped
	for line := range strings.Lines(text) {
		row++
		r := csv.NewReader(strings.NewReader(line))
		r.Comma = by
		record, err := r.Read()
		if err != nil {
			record = strings.Split(strings.TrimRight(line, "\r\n"), string(by))
		}
		p.Rows = append(p.Rows, cells(record, row)...)
	}
	return p
}

// cells is a line as a row; none where nothing is in it.
func cells(record []string, row int) []grid.Line {
	l := grid.Line{Row: row}
	for i, text := range record {
		if text != "" {
			l.Cells = append(l.Cells, grid.Datum{Col: i + 1, Kind: grid.Text, Raw: text})
		}
	}
	if len(l.Cells) == 0 {
		return nil
	}
	return []grid.Line{l}
}

// fit is how well a page reads as a list: by the headings of its best row, and
// then by the number of rows that reach as far as it.
func (f ListForm) fit(p grid.Page) int {
	r := &listReader{form: f}
	best, width := 0, 0
	for _, l := range p.Rows {
		if l.Row > headingRows {
			break
		}
		n := 0
		for _, found := range [][]grid.Datum{
			r.columns(l, f.Key, keyNames), r.columns(l, f.Price, priceNames), r.columns(l, f.Unit, unitNames),
			r.columns(l, f.From, fromNames), r.columns(l, f.Supplier, sellNames),
		} {
			if len(found) > 0 {
				n++
			}
		}
		if n > best {
			best, width = n, l.Cells[len(l.Cells)-1].Col
		}
	}
	alike := 0
	for _, l := range p.Rows {
		if last := l.Cells[len(l.Cells)-1].Col; last <= width && last > 1 {
			alike++
		}
	}
	return best*1_000_000 + min(alike, 999_999)
}
