package xlsx

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"
)

// The causes for which a file is refused, for errors.Is.
var (
	ErrEmpty        = errors.New("is empty")
	ErrNotWorkbook  = errors.New("is not a workbook")
	ErrDamaged      = errors.New("is damaged")
	ErrEncrypted    = errors.New("is locked with a password")
	ErrOldFormat    = errors.New("is in the old .xls format")
	ErrOpenDocument = errors.New("is an OpenDocument file")
	ErrBinary       = errors.New("is in the binary .xlsb format")
	ErrTooBig       = errors.New("is too big")
)

// Refused is a file that was not read, and why. No part of the file has been
// taken over.
type Refused struct {
	File string // base name
	Why  error  // wraps one of the causes above; its text continues the file's name
}

// Error says in plain words what is wrong with the file and what to do.
func (r *Refused) Error() string { return r.File + " " + r.Why.Error() }

// Unwrap gives the cause.
func (r *Refused) Unwrap() error { return r.Why }

// cure is what to do about a damaged file; it ends every such message.
const cure = "open it in a spreadsheet program, look it through and save it again, or fetch a sound copy"

// refuse is a refusal of the file for a cause, with the particulars.
func refuse(name string, cause error, detail string) *Refused {
	return &Refused{File: name, Why: fmt.Errorf("%w: %s", cause, detail)}
}

// named gives an error found in the file the file's name, and a damaged file
// its cure.
func named(name string, err error) *Refused {
	if errors.Is(err, ErrDamaged) {
		err = fmt.Errorf("%w; %s", err, cure)
	}
	return &Refused{File: name, Why: err}
}

// damaged is a fault inside the file.
func damaged(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrDamaged, fmt.Sprintf(format, args...))
}

// sniff tells a workbook from other files by their first bytes.
func sniff(src io.ReaderAt, size int64) error {
	if size == 0 {
		return fmt.Errorf("%w; fetch the workbook again", ErrEmpty)
	}
	head := make([]byte, min(size, 512))
	if _, err := src.ReadAt(head, 0); err != nil && err != io.EOF {
		return fmt.Errorf("cannot be read: %w", err)
	}
	switch {
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return nil
	case bytes.HasPrefix(head, []byte("\xD0\xCF\x11\xE0")):
		return compound(src, size)
	case bytes.HasPrefix(head, []byte("%PDF")):
		return fmt.Errorf("%w: it is a PDF; the workbook it was printed from is wanted", ErrNotWorkbook)
	case isText(head):
		return fmt.Errorf("%w: it is a text file; open it in a spreadsheet program and save it as .xlsx", ErrNotWorkbook)
	}
	return fmt.Errorf("%w: its first bytes are not those of an .xlsx file; open it in a spreadsheet program and save it as .xlsx, or fetch a sound copy", ErrNotWorkbook)
}

// isText reports whether all bytes could stand in a text file.
func isText(head []byte) bool {
	for _, b := range head {
		if b < ' ' && b != '\t' && b != '\n' && b != '\r' {
			return false
		}
	}
	return true
}

// compound tells apart what is kept in the old compound container: a workbook
// locked with a password, or one of the old format. The names of its streams
// stand in it as UTF-16.
func compound(src io.ReaderAt, size int64) error {
	switch found, err := find(src, size, wide("EncryptedPackage"), wide("Workbook"), wide("Book")); {
	case err != nil:
		return err
	case found == 0:
		return fmt.Errorf("%w; open it with the password, save it without one, and give that file", ErrEncrypted)
	case found > 0:
		return fmt.Errorf("%w; save it as .xlsx", ErrOldFormat)
	}
	return fmt.Errorf("%w: it is an old office document; open it in a spreadsheet program and save it as .xlsx", ErrNotWorkbook)
}

// wide is text as it stands in a compound file.
func wide(s string) []byte {
	var b []byte
	for _, u := range utf16.Encode([]rune(s)) {
		b = append(b, byte(u), byte(u>>8))
	}
	return b
}

// find is the index of the first of the wanted byte runs that is anywhere in
// the file, -1 for none.
func find(src io.ReaderAt, size int64, wanted ...[]byte) (int, error) {
	const step, overlap = 64 << 10, 64
	best := -1
	buf := make([]byte, step+overlap)
	for at := int64(0); at < size; at += step {
		n, err := src.ReadAt(buf, at)
		if err != nil && err != io.EOF {
			return -1, fmt.Errorf("cannot be read: %w", err)
		}
		for i, w := range wanted {
			if (best < 0 || i < best) && bytes.Contains(buf[:n], w) {
				best = i
			}
		}
	}
	return best, nil
}

// otherPackage says what a zip file is that holds no workbook of ours, going
// by the names of its members and the type it declares; nil if it cannot say.
func otherPackage(mimetype string, has func(string) bool) error {
	switch {
	case strings.HasPrefix(mimetype, "application/vnd.oasis.opendocument"):
		return fmt.Errorf("%w; save it as .xlsx", ErrOpenDocument)
	case has("xl/workbook.bin"):
		return fmt.Errorf("%w; save it as .xlsx", ErrBinary)
	case has("word/document.xml"), has("ppt/presentation.xml"):
		return fmt.Errorf("%w: it is a text document or presentation; the workbook itself is wanted", ErrNotWorkbook)
	case has("index/document.iwa"):
		return fmt.Errorf("%w: it comes from another spreadsheet program; export it from there as .xlsx", ErrNotWorkbook)
	}
	return nil
}
