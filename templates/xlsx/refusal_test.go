package xlsx

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// sheetOf is a sound file but for the cells of its sheet.
func sheetOf(t *testing.T, sheetData string) []byte { return zipped(t, plainParts(sheetData)) }

// with is a sound file but for one part; "" takes the part out.
func with(t *testing.T, name, part string) []byte {
	parts := plainParts(`<row r="1"><c r="A1" t="s"><v>0</v></c></row>`)
	parts[name] = part
	if part == "" {
		delete(parts, name)
	}
	return zipped(t, parts)
}

// understated packs one part that says it is shorter than it is.
func understated(t *testing.T) []byte {
	t.Helper()
	var packed, buf bytes.Buffer
	d, err := flate.NewWriter(&packed, flate.BestSpeed)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.Write(make([]byte, 100_000)); err != nil {
		t.Fatal(err)
	}
	d.Close()
	z := zip.NewWriter(&buf)
	w, err := z.CreateRaw(&zip.FileHeader{Name: "a", Method: zip.Deflate, CompressedSize64: uint64(packed.Len()), UncompressedSize64: 10})
	if err != nil {
		t.Fatal(err)
	}
	w.Write(packed.Bytes())
	z.Close()
	return buf.Bytes()
}

// rawZip packs stored members with whatever names and lengths are given.
func rawZip(t *testing.T, names []string, claim uint64) []byte {
	t.Helper()
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	for _, name := range names {
		w, err := z.CreateRaw(&zip.FileHeader{Name: name, Method: zip.Deflate, CompressedSize64: 2, UncompressedSize64: claim})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte{3, 0}); err != nil { // nothing at all, deflated
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// oldOffice is the beginning of an old compound file with a stream of the name.
func oldOffice(stream string) []byte {
	data := make([]byte, 200_000)
	copy(data, "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1")
	copy(data[65_530:], wide(stream)) // across the border of two pieces read
	return data
}

func TestFilesThatCannotBeTrustedAreRefusedEachForItsOwnCause(t *testing.T) {
	sound := sheetOf(t, `<row r="1"><c r="A1"><v>1</v></c></row>`)
	many := make([]string, maxMembers+1)
	for i := range many {
		many[i] = fmt.Sprint(i)
	}
	longest := strings.Repeat("x", maxToken+1)
	cases := []struct {
		name  string
		data  []byte
		cause error
		says  string
	}{
		{"an empty file", nil, ErrEmpty, "fetch the workbook again"},
		{"a text file", []byte("Ref,Member\n1,Stem\n"), ErrNotWorkbook, "save it as .xlsx"},
		{"a PDF", []byte("%PDF-1.7\x00\x01"), ErrNotWorkbook, "PDF"},
		{"a picture", []byte("\x89PNG\r\n\x1a\n\x00\x00"), ErrNotWorkbook, "first bytes"},
		{"a workbook with a password", oldOffice("EncryptedPackage"), ErrEncrypted, "save it without one"},
		{"an old workbook", oldOffice("Workbook"), ErrOldFormat, "save it as .xlsx"},
		{"a still older workbook", oldOffice("Book"), ErrOldFormat, "save it as .xlsx"},
		{"another old office document", oldOffice("WordDocument"), ErrNotWorkbook, "old office document"},
		{"an OpenDocument file", zipped(t, map[string]string{"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<x/>"}),
			ErrOpenDocument, "is an OpenDocument file; save it as .xlsx"},
		{"a binary workbook", with(t, "xl/workbook.bin", "x"), ErrBinary, "save it as .xlsx"},
		{"a text document", with(t, "word/document.xml", "<x/>"), ErrNotWorkbook, "text document"},
		{"a zip of something else", zipped(t, map[string]string{"photo.jpg": "x"}), ErrNotWorkbook, "something else"},
		{"half a file", sound[:len(sound)/2], ErrDamaged, "end of the file"},
		{"a file without its last byte", sound[:len(sound)-1], ErrDamaged, "end of the file"},
		{"a locked zip", func() []byte {
			b := bytes.Clone(sound)
			i := bytes.Index(b, []byte("PK\x01\x02"))
			binary.LittleEndian.PutUint16(b[i+8:], 1)
			return b
		}(), ErrEncrypted, "password"},
		{"two parts of one name", rawZip(t, []string{"xl/a.xml", "XL/A.xml"}, 0), ErrDamaged, "two parts"},
		{"too many parts", rawZip(t, many, 0), ErrTooBig, "parts"},
		{"parts that claim gigabytes", rawZip(t, []string{"a", "b"}, 3<<30), ErrTooBig, "unpacked"},
		{"a part longer than it claims", understated(t), ErrDamaged, `"a" is cut short or altered`},
		{"no list of sheets", with(t, "xl/workbook.xml", ""), ErrDamaged, `"xl/workbook.xml" is missing`},
		{"no relationships", with(t, "xl/_rels/workbook.xml.rels", ""), ErrDamaged, "is missing"},
		{"no texts", with(t, "xl/sharedStrings.xml", ""), ErrDamaged, "is missing"},
		{"no cells", with(t, "xl/worksheets/sheet1.xml", ""), ErrDamaged, `"Members" are missing`},
		{"an empty part", with(t, "xl/worksheets/sheet1.xml", " "), ErrDamaged, "is empty"},
		{"a main part that is no workbook", with(t, "xl/workbook.xml", "<html/>"), ErrNotWorkbook, "html"},
		{"a workbook without sheets", with(t, "xl/workbook.xml", `<workbook xmlns="`+nsMain+`"><sheets/></workbook>`), ErrDamaged, "no sheets"},
		{"a sheet that leads nowhere", with(t, "xl/workbook.xml", strings.Replace(plainParts("")["xl/workbook.xml"], "rId1", "rId9", 1)),
			ErrDamaged, `"Members" leads nowhere`},
		{"a sheet that leads to the styles", with(t, "xl/workbook.xml", strings.Replace(plainParts("")["xl/workbook.xml"], "rId1", "rId3", 1)),
			ErrDamaged, "leads nowhere"},
		{"two sheets of one name", with(t, "xl/workbook.xml", strings.Replace(plainParts("")["xl/workbook.xml"], "</sheets>", `<sheet name="MEMBERS" r:id="rId1"/></sheets>`, 1)),
			ErrDamaged, "two sheets"},
		{"two relationships of one number", with(t, "xl/_rels/workbook.xml.rels", strings.Replace(plainParts("")["xl/_rels/workbook.xml.rels"], "rId2", "rId1", 1)),
			ErrDamaged, "two entries"},
		{"a sheet cut short", with(t, "xl/worksheets/sheet1.xml", strings.TrimSuffix(sheetXML(""), "</worksheet>")), ErrDamaged, "ends in the middle"},
		{"a sheet cut within a cell", with(t, "xl/worksheets/sheet1.xml", sheetXML(`<row r="1"><c r="A1"><v>1`)[:300]), ErrDamaged, "sheet1.xml"},
		{"a wrong end tag", sheetOf(t, `<row r="1"><c r="A1"><v>1</w></c></row>`), ErrDamaged, "garbled at line 1"},
		{"a second root", with(t, "xl/worksheets/sheet1.xml", sheetXML("")+"<worksheet/>"), ErrDamaged, "goes on after its end"},
		{"text after the end", with(t, "xl/worksheets/sheet1.xml", sheetXML("")+"tail"), ErrDamaged, "outside"},
		{"cells twice", with(t, "xl/worksheets/sheet1.xml", strings.Replace(sheetXML(""), "<mergeCells", "<sheetData/><mergeCells", 1)), ErrDamaged, "twice"},
		{"cells within something else", with(t, "xl/worksheets/sheet1.xml", strings.NewReplacer("<sheetData>", "<Choice><sheetData>", "</sheetData>", "</sheetData></Choice>").Replace(sheetXML(""))), ErrDamaged, "no place for cells"},
		{"entities to be expanded", with(t, "xl/sharedStrings.xml", `<!DOCTYPE sst [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><sst xmlns="`+nsMain+`"><si><t>&b;</t></si></sst>`),
			ErrDamaged, "document type"},
		{"an entity nobody declared", sheetOf(t, `<row r="1"><c r="A1" t="inlineStr"><is><t>&boom;</t></is></c></row>`), ErrDamaged, "entity"},
		{"a part in another alphabet", with(t, "xl/worksheets/sheet1.xml", `<?xml version="1.0" encoding="UTF-16"?><worksheet/>`), ErrDamaged, "UTF-16"},
		{"nesting without end", sheetOf(t, `<row r="1"><extLst>`+strings.Repeat("<a>", 100)), ErrDamaged, "nested too deep"},
		{"rows within something else", sheetOf(t, `<AlternateContent><row r="1"><c r="A1"><v>1</v></c></row></AlternateContent>`), ErrDamaged, `"AlternateContent" among the rows`},
		{"rows of another kind of document", sheetOf(t, `<row xmlns="urn:x" r="1"/>`), ErrDamaged, `"row" among the rows`},
		{"single cells within something else", sheetOf(t, `<row r="1"><Choice><c r="A1"><v>1</v></c></Choice></row>`), ErrDamaged, `"Choice" among the cells of row 1`},
		{"a value within something else", sheetOf(t, `<row r="1"><c r="A1"><Choice><v>1</v></Choice></c></row>`), ErrDamaged, `"Choice" in it (cell A1`},
		{"a value of another kind of document", sheetOf(t, `<row r="1"><c r="A1"><v xmlns="urn:x">1</v></c></row>`), ErrDamaged, `"v" in it (cell A1`},
		{"a piece of text without end", sheetOf(t, `<row r="1"><c r="A1" t="inlineStr"><is><t>`+longest+`</t></is></c></row>`), ErrTooBig, "piece of text"},
		{"a tag without end", sheetOf(t, `<row r="1" x="`+longest+`"/>`), ErrTooBig, "piece of text"},
		{"a text of many pieces without end", sheetOf(t, `<row r="1"><c r="A1" t="inlineStr"><is>`+strings.Repeat(`<r><t>`+longest[:500_000]+`</t></r>`, 3)+`</is></c></row>`),
			ErrTooBig, "cell A1"},
		{"a row beyond the sheet", sheetOf(t, `<row r="1048577"><c><v>1</v></c></row>`), ErrDamaged, "1048577"},
		{"a row number without end", sheetOf(t, `<row r="99999999999999999999"/>`), ErrDamaged, "out of order"},
		{"a row numbered nought", sheetOf(t, `<row r="0"/>`), ErrDamaged, "out of order"},
		{"rows out of order", sheetOf(t, `<row r="2"/><row r="1"/>`), ErrDamaged, `row "1"`},
		{"a row twice", sheetOf(t, `<row r="2"/><row r="2"/>`), ErrDamaged, `row "2"`},
		{"a column beyond the sheet", sheetOf(t, `<row r="1"><c r="XFE1"><v>1</v></c></row>`), ErrDamaged, `"XFE1"`},
		{"a column beyond the sheet by counting", sheetOf(t, `<row r="1"><c r="XFD1"/><c/></row>`), ErrDamaged, "16384"},
		{"a cell of another row", sheetOf(t, `<row r="1"><c r="A2"><v>1</v></c></row>`), ErrDamaged, `"A2"`},
		{"a cell twice", sheetOf(t, `<row r="1"><c r="B1"/><c r="B1"/></row>`), ErrDamaged, `"B1"`},
		{"a text that is not there", sheetOf(t, `<row r="1"><c r="C1" t="s"><v>4</v></c></row>`), ErrDamaged, `text "4", and the workbook holds 4 texts (cell C1`},
		{"a text numbered below nought", sheetOf(t, `<row r="1"><c r="C1" t="s"><v>-1</v></c></row>`), ErrDamaged, "cell C1"},
		{"a style that is not there", sheetOf(t, `<row r="1"><c r="C1" s="8"><v>1</v></c></row>`), ErrDamaged, "style"},
		{"a number that is none", sheetOf(t, `<row r="1"><c r="C1"><v>12,5</v></c></row>`), ErrDamaged, `"12,5"`},
		{"a number in another base", sheetOf(t, `<row r="1"><c r="C1"><v>0x10</v></c></row>`), ErrDamaged, `"0x10"`},
		{"a number that is not one", sheetOf(t, `<row r="1"><c r="C1"><v>NaN</v></c></row>`), ErrDamaged, `"NaN"`},
		{"a number beyond all", sheetOf(t, `<row r="1"><c r="C1"><v>1e999</v></c></row>`), ErrDamaged, `"1e999"`},
		{"a truth value that is none", sheetOf(t, `<row r="1"><c r="C1" t="b"><v>2</v></c></row>`), ErrDamaged, `"2"`},
		{"a cell of unknown kind", sheetOf(t, `<row r="1"><c r="C1" t="z"><v>2</v></c></row>`), ErrDamaged, `"z"`},
		{"too many array formulas", sheetOf(t, func() string {
			row := `<row r="1">`
			for col := 1; col <= maxArrays+1; col++ {
				row += fmt.Sprintf(`<c r="%s"><f t="array" ref="%[1]s:%s">1</f></c>`, cellName(col, 1), cellName(col, 9))
			}
			return row + `</row>`
		}()), ErrTooBig, "fill ranges"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			book, err := Read("yard.xlsx", c.data)
			var refused *Refused
			if !errors.As(err, &refused) {
				t.Fatalf("got %v, error %v", book, err)
			}
			if !errors.Is(err, c.cause) || refused.File != "yard.xlsx" {
				t.Errorf("cause of %q is not %q", err, c.cause)
			}
			if !strings.HasPrefix(err.Error(), "yard.xlsx is ") || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%q does not say %q", err, c.says)
			}
			if len(book.Sheets) > 0 {
				t.Errorf("something was read all the same: %v", book)
			}
		})
	}
}

func TestAWorkbookWithMacrosIsReadAndItsMacrosLeftAlone(t *testing.T) {
	book, err := Read("yard.xlsm", with(t, "xl/vbaProject.bin", "\x00\x01"))
	if err != nil || book.Sheets[0].Rows[0].Cell(1).Raw != "Frame 12" {
		t.Errorf("%v, %v", book, err)
	}
}

func TestOpenAndLoadReadAFileAndRefuseWhatIsNone(t *testing.T) {
	dir := t.TempDir()
	path, data := filepath.Join(dir, "yard.xlsx"), with(t, "x", "y")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	if book, err := Open(path); err != nil || book.Name != "yard.xlsx" || len(book.Sheets) != 1 {
		t.Errorf("%v, %v", book, err)
	}
	if loaded, err := Load(path); err != nil || !bytes.Equal(loaded, data) {
		t.Errorf("%d bytes are loaded of %d, %v", len(loaded), len(data), err)
	}
	big := filepath.Join(dir, "big.xlsx")
	if err := os.WriteFile(big, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(big, maxFile+1); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, path string
		want       error
	}{
		{"a folder", dir, ErrNotWorkbook},
		{"no file", filepath.Join(dir, "none.xlsx"), os.ErrNotExist},
		{"a file too big", big, ErrTooBig},
	} {
		if _, err := Open(c.path); !errors.Is(err, c.want) {
			t.Errorf("opening %s: %v", c.name, err)
		}
		if _, err := Load(c.path); !errors.Is(err, c.want) {
			t.Errorf("loading %s: %v", c.name, err)
		}
	}
}

// Whatever bit of a file is flipped, it is refused or read as it was: never
// read with another figure.
func TestAFlippedBitIsRefusedOrMakesNoDifference(t *testing.T) {
	data, err := Write(sampleBook())
	if err != nil {
		t.Fatal(err)
	}
	sound, err := Read("bill.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(1, 2))
	refused := 0
	const flips = 400
	for range flips {
		at, bit := rng.IntN(len(data)), byte(1)<<rng.IntN(8)
		hurt := bytes.Clone(data)
		hurt[at] ^= bit
		got, err := Read("bill.xlsx", hurt)
		if err != nil {
			refused++
			continue
		}
		if diff := cmp.Diff(sound, got); diff != "" {
			t.Errorf("bit %08b of byte %d (-sound +got):\n%s", bit, at, diff)
		}
	}
	if refused < flips/2 {
		t.Errorf("only %d of %d were refused", refused, flips)
	}
}

func TestAFileThatIsNotThereIsNamedWithoutTheSystemsOwnWords(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yrad.xlsx")
	_, err := Open(path)
	if want := path + ": no such file or directory"; !errors.Is(err, os.ErrNotExist) || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// The zip package holds a checksum of nil for one that was never written, and
// does not compare it.
func TestAPartWhoseChecksumWasWipedOutIsRefused(t *testing.T) {
	data := sheetOf(t, `<row r="1"><c r="A1"><v>1</v></c></row>`)
	for i := bytes.Index(data, []byte("PK\x01\x02")); i >= 0; {
		binary.LittleEndian.PutUint32(data[i+16:], 0)
		next := bytes.Index(data[i+4:], []byte("PK\x01\x02"))
		if next < 0 {
			break
		}
		i += 4 + next
	}
	if _, err := Read("bill.xlsx", data); !errors.Is(err, ErrDamaged) {
		t.Errorf("got %v", err)
	}
}

func TestAFileCutAnywhereIsRefused(t *testing.T) {
	data, err := Write(sampleBook())
	if err != nil {
		t.Fatal(err)
	}
	for n := 0; n < len(data); n += 1 + len(data)/300 {
		if _, err := Read("bill.xlsx", data[:n]); err == nil {
			t.Errorf("read from its first %d of %d bytes", n, len(data))
		}
	}
}
