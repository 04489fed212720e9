// Package xlsx turns spreadsheet files into plain workbooks and plain books
// into spreadsheet files. It is the only package that knows the spreadsheet
// library, and it shows none of the library's types.
//
// What comes in to Open or Read is an .xlsx file (or .xlsm, its macros left
// alone); what goes out is a grid.Workbook: every cell with its kind, its
// stored value, the number format in force and its formula. The reader is our
// own, because the library reads a damaged file without an error and cannot
// tell a number from a text. It reads every byte of the file, checks every
// checksum, and refuses whatever is damaged, locked, of another kind or too
// big, each with a Refused saying what to do. Its memory is bounded whatever
// the file holds: what is kept is counted against a budget as it is read.
//
// A number is rounded to the 15 significant digits a spreadsheet shows, so
// that a cell shown as 1.15 and stored as 1.1499999999999999 is read as 1.15.
//
// What comes in to Write is a grid.Book; what goes out is the bytes of a file,
// the same bytes for the same book, read back and compared cell by cell before
// they are handed over.
//
// The file format is ECMA-376 (ISO/IEC 29500), part 1, SpreadsheetML, in its
// transitional and strict forms, within the package conventions of part 2.
package xlsx

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"futtock/templates/grid"
)

// Limits on what is read. They are far above any yard's workbook and are
// chosen together so that a process reading any file stays under 512 MiB: what
// is kept may double before the collector runs.
const (
	maxFile     = 128 << 20 // bytes of the file; it is read piecemeal by Open
	maxUnpacked = 256 << 20 // bytes of all members together, pictures included
	maxPart     = 128 << 20 // bytes of one part that is read as a sheet, strings or styles
	maxListing  = 2 << 20   // bytes read to list the members of the zip file
	maxMembers  = 10_000
	maxSheets   = 1_000
	maxToken    = 1 << 20   // bytes of one tag or one run of text
	maxDepth    = 64        // elements within elements
	maxString   = 1 << 20   // bytes of the text of one cell
	maxKept     = 240 << 20 // bytes kept in memory of cells, strings and formulas, by our own count
	maxArrays   = 500       // array formulas of more than one cell in force at once
	lastRow     = grid.MostRows
	lastColumn  = grid.MostColumns
	lastUnits   = grid.MostText // UTF-16 units of the text of one cell
)

// Open reads the workbook file at path. A file that cannot be opened is an
// error of the operating system; one that cannot be read as a workbook is a
// *Refused.
func Open(path string) (grid.Workbook, error) {
	f, size, err := opened(path)
	if err != nil {
		return grid.Workbook{}, err
	}
	defer f.Close()
	return read(filepath.Base(path), f, size)
}

// Load is the bytes of the workbook file at path, for Read and Patch. Its errors are
// those of Open, as far as they can be told without reading it; what is larger than
// any workbook is not taken into memory.
func Load(path string) ([]byte, error) {
	f, size, err := opened(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if size > maxFile {
		return nil, named(filepath.Base(path), tooLarge(size))
	}
	return io.ReadAll(f)
}

// opened is an ordinary file and its size.
func opened(path string) (*os.File, int64, error) {
	name := filepath.Base(path)
	// Asked before it is opened: opening a pipe waits until somebody writes to it.
	info, err := os.Stat(path)
	if err != nil {
		return nil, 0, unopened(path, err)
	}
	if info.IsDir() {
		return nil, 0, refuse(name, ErrNotWorkbook, "it is a folder; give the workbook's own file name")
	}
	if !info.Mode().IsRegular() {
		return nil, 0, refuse(name, ErrNotWorkbook, "it is not an ordinary file; save the workbook as a file first")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, 0, unopened(path, err)
	}
	return f, info.Size(), nil
}

// tooLarge refuses a file by its size.
func tooLarge(size int64) error {
	return fmt.Errorf("%w: it is %d MB and the limit is %d MB; take out pictures or sheets that are not needed",
		ErrTooBig, size>>20, maxFile>>20)
}

// unopened is an error of the operating system as people read it: the file and
// what is wrong with it, without the system's own word for what was asked of it.
func unopened(path string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return fmt.Errorf("%s: %w", path, at.Err)
	}
	return err
}

// Read reads a workbook from the bytes of its file. Name is the base name by
// which it is known in messages. Every error is a *Refused.
func Read(name string, data []byte) (grid.Workbook, error) {
	return read(name, bytes.NewReader(data), int64(len(data)))
}

// read is the order of work: the outer wrapping, the list of sheets, what the
// cells refer to (strings and number formats), then the cells.
func read(name string, src io.ReaderAt, size int64) (grid.Workbook, error) {
	book, err := readBook(name, src, size)
	if err != nil {
		return grid.Workbook{}, named(name, err)
	}
	return book, nil
}

func readBook(name string, src io.ReaderAt, size int64) (grid.Workbook, error) {
	book := grid.Workbook{Name: name}
	kept := &budget{left: maxKept}
	list, err := eachPage(src, size, kept, func(page grid.Page) error {
		book.Sheets = append(book.Sheets, page)
		return nil
	})
	book.Date1904 = list.date1904
	return book, err
}

// eachPage hands over the sheets of a file one after another, as they are read.
func eachPage(src io.ReaderAt, size int64, kept *budget, take func(grid.Page) error) (listed, error) {
	if size > maxFile {
		return listed{}, tooLarge(size)
	}
	if err := sniff(src, size); err != nil {
		return listed{}, err
	}
	pack, err := unpack(src, size)
	if err != nil {
		return listed{}, err
	}
	list, err := contents(pack, kept)
	if err != nil {
		return listed{}, err
	}
	strs, err := sharedStrings(pack, list.strings, kept)
	if err != nil {
		return listed{}, err
	}
	formats, err := numberFormats(pack, list.styles, kept)
	if err != nil {
		return listed{}, err
	}
	for _, s := range list.sheets {
		page, err := readSheet(pack, s, strs, formats, kept)
		if err == nil {
			err = take(page)
		}
		if err != nil {
			return listed{}, err
		}
	}
	return list, nil
}

// budget is what may still be kept in memory.
type budget struct{ left int }

// keep takes n bytes from the budget. The figures are rough, and on the high
// side: what counts is that they cannot be cheated.
func (b *budget) keep(n int) error {
	b.left -= n
	if b.left < 0 {
		return fmt.Errorf("%w: it holds more cells and text than can be read (about a million and a half filled cells); take out sheets that are not needed", ErrTooBig)
	}
	return nil
}
