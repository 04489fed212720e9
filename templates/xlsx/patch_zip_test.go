package xlsx

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// oddZip packs the parts with all that a zip file may bear: members stored and
// deflated, comments, extra fields, old dates, folders, an order of its own.
func oddZip(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	names := slices.Sorted(maps.Keys(parts))
	slices.Reverse(names)
	for i, name := range append(names, "xl/empty/") {
		h := &zip.FileHeader{
			Name: name, Method: zip.Deflate, Comment: "member " + name, Extra: []byte{0xFE, 0xCA, 2, 0, 'h', 'i'},
			ModifiedDate: uint16(100 + i), ModifiedTime: uint16(i), ExternalAttrs: uint32(i) << 16,
		}
		if i%2 == 0 {
			h.Method = zip.Store
		}
		if strings.HasSuffix(name, "/") {
			h.Method = zip.Store
		}
		w, err := z.CreateHeader(h)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(parts[name])); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.SetComment("packed by hand PK\x05\x06"); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// wideZip packs the parts with all lengths and positions in fields of 64 bits,
// as programs do that pack without knowing how much will come.
func wideZip(parts map[string]string) []byte {
	le := binary.LittleEndian
	var out, dir []byte
	names := slices.Sorted(maps.Keys(parts))
	for _, name := range names {
		body, at := []byte(parts[name]), len(out)
		size := func(b []byte) []byte {
			return le.AppendUint64(le.AppendUint64(b, uint64(len(body))), uint64(len(body)))
		}
		head := le.AppendUint32(nil, localMark)
		for _, n := range []uint16{45, 0, 0, 0, 0x21} { // version, flags, stored, time, date
			head = le.AppendUint16(head, n)
		}
		tail := le.AppendUint32(nil, crc32.ChecksumIEEE(body))
		tail = le.AppendUint32(le.AppendUint32(tail, inExtra), inExtra)
		tail = le.AppendUint16(tail, uint16(len(name)))
		out = append(append(out, head...), tail...)
		out = append(le.AppendUint16(out, 20), name...)
		out = size(le.AppendUint16(le.AppendUint16(out, wideExtra), 16))
		out = append(out, body...)

		dir = append(le.AppendUint16(le.AppendUint32(dir, centralMark), 45), head[4:]...)
		dir = append(dir, tail...)
		dir = append(le.AppendUint16(dir, 28), make([]byte, 10)...)
		dir = append(le.AppendUint32(dir, inExtra), name...)
		dir = le.AppendUint64(size(le.AppendUint16(le.AppendUint16(dir, wideExtra), 24)), uint64(at))
	}
	at := len(out)
	out = append(out, dir...)
	end := len(out)
	out = le.AppendUint64(le.AppendUint32(out, end64Mark), end64Size-12)
	out = append(out, 45, 0, 45, 0, 0, 0, 0, 0, 0, 0, 0, 0)
	out = le.AppendUint64(le.AppendUint64(out, uint64(len(names))), uint64(len(names)))
	out = le.AppendUint64(le.AppendUint64(out, uint64(len(dir))), uint64(at))
	out = le.AppendUint64(append(le.AppendUint32(out, locatorMark), 0, 0, 0, 0), uint64(end))
	out = le.AppendUint32(append(out, 1, 0, 0, 0), endMark)
	out = append(out, 0, 0, 0, 0, 0xFF, 0xFF, 0xFF, 0xFF)
	return append(out, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0, 0)
}

// Members without a change keep every byte: header, extra field, compressed
// data, what stands behind it, and their record but for the position.
func TestTheZipFileKeepsAllButTheMembersThatChange(t *testing.T) {
	parts := yardParts()
	for name, data := range map[string][]byte{"odd": oddZip(t, parts), "wide": wideZip(parts), "plain": zipped(t, parts)} {
		t.Run(name, func(t *testing.T) {
			if _, err := Read("yard.xlsx", data); err != nil {
				t.Fatal(err)
			}
			fresh := map[string][]byte{"xl/worksheets/sheet1.xml": []byte("<new>"), "xl/workbook.xml": bytes.Repeat([]byte("long "), 9000)}
			out, err := splice(data, fresh, nil)
			if err != nil {
				t.Fatal(err)
			}
			want := maps.Clone(parts)
			for name, b := range fresh {
				want[name] = string(b)
			}
			got := partsOf(t, out)
			delete(got, "xl/empty/")
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			old, oldDir, oldEnd, err := directory(data)
			if err != nil {
				t.Fatal(err)
			}
			now, nowDir, nowEnd, err := directory(out)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(oldEnd[20:], nowEnd[20:]) {
				t.Error("the comment of the file is altered")
			}
			for i, e := range old {
				o := now[i]
				region := func(data []byte, list []entry, i, end int) []byte {
					for _, x := range list {
						if x.at > list[i].at && x.at < end {
							end = x.at
						}
					}
					return data[list[i].at:end]
				}
				if fresh[e.name] != nil {
					if !bytes.Equal(e.record[12:16], o.record[12:16]) || !bytes.Equal(e.record[36:42], o.record[36:42]) || !bytes.HasSuffix(o.record, e.record[len(e.record)-int(e.record[32]):]) {
						t.Errorf("%s: date, attributes or comment altered", e.name)
					}
					continue
				}
				if !bytes.Equal(region(data, old, i, oldDir), region(out, now, i, nowDir)) {
					t.Errorf("%s: its bytes are altered", e.name)
				}
				a, b := slices.Clone(e.record), slices.Clone(o.record)
				for _, r := range [][]byte{a, b} {
					if k := positionExtra(r); name == "wide" {
						copy(r[k:], make([]byte, 8))
					} else {
						copy(r[42:], make([]byte, 4))
					}
				}
				if !bytes.Equal(a, b) {
					t.Errorf("%s: its record is altered", e.name)
				}
			}
		})
	}
}

func TestAZipFileLaidOutOddlyIsRefused(t *testing.T) {
	sound := zipped(t, yardParts())
	_, dirAt, end, err := directory(sound)
	if err != nil {
		t.Fatal(err)
	}
	le := binary.LittleEndian
	for name, spoil := range map[string]func([]byte) []byte{
		"no end":                       func(b []byte) []byte { return b[:len(b)-1] },
		"something behind the end":     func(b []byte) []byte { return append(b, 0) },
		"something before the members": func(b []byte) []byte { return append([]byte("MZ"), b...) },
		"a wrong count":                func(b []byte) []byte { b[len(b)-len(end)+10]++; return b },
		"a broken record":              func(b []byte) []byte { b[dirAt] = 'X'; return b },
		"a record too long":            func(b []byte) []byte { b[dirAt+33] = 0xFF; return b },
		"a member that is not there":   func(b []byte) []byte { le.PutUint32(b[dirAt+42:], 7); return b },
		"a member past the directory":  func(b []byte) []byte { le.PutUint32(b[dirAt+42:], uint32(dirAt)); return b },
		"a position kept nowhere":      func(b []byte) []byte { le.PutUint32(b[dirAt+42:], inExtra); return b },
	} {
		t.Run(name, func(t *testing.T) {
			if out, err := splice(spoil(slices.Clone(sound)), nil, nil); err == nil {
				t.Errorf("%d bytes and no error", len(out))
			}
		})
	}
	if out, err := splice(sound, nil, nil); err != nil || !bytes.Equal(out, sound) {
		t.Errorf("the sound file: %v", err)
	}
}
