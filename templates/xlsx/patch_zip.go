package xlsx

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"slices"
)

// The records of a zip file, by their signatures and fixed lengths (PKWARE
// APPNOTE, sections 4.3.7, 4.3.12, 4.3.14 to 4.3.16).
const (
	localMark, localSize     = 0x04034b50, 30
	centralMark, centralSize = 0x02014b50, 46
	endMark, endSize         = 0x06054b50, 22
	end64Mark, end64Size     = 0x06064b50, 56
	locatorMark, locatorSize = 0x07064b50, 20

	inExtra     = 0xFFFFFFFF // the figure stands in the extra field of 64 bits
	wideExtra   = 1          // the number of that field
	described   = 1 << 3     // flag: lengths and checksum stand behind the data
	storedPlain = uint16(zip.Store)
	deflated    = uint16(zip.Deflate)
)

// errLayout is a zip file that reads well and is laid out in a way that could
// not be kept.
var errLayout = errors.New("the zip file is laid out in an unusual way; save the workbook once in a spreadsheet program")

// entry is a member of the zip file as its directory has it.
type entry struct {
	record []byte // its record in the directory
	at     int    // where its local header begins
	name   string
}

// member is a part that joins a zip file.
type member struct {
	name    string
	content []byte
}

// splice gives the zip file with other contents for some members, by
// memberKey, and with those added behind the others. All else is copied byte
// for byte: the members as they are compressed, their headers and extra fields,
// their order, gaps and comments. Only positions in the directory move.
func splice(data []byte, fresh map[string][]byte, added []member) ([]byte, error) {
	entries, dirAt, end, err := directory(data)
	if err != nil {
		return nil, err
	}
	order := make([]int, len(entries)) // by position; the directory may list them otherwise
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return entries[a].at - entries[b].at })
	var out bytes.Buffer
	out.Grow(len(data) + len(data)/8)
	records := make([][]byte, len(entries))
	for k, i := range order {
		e, to := entries[i], dirAt
		if k+1 < len(order) {
			to = entries[order[k+1]].at
		}
		if k == 0 {
			out.Write(data[:e.at])
		}
		if e.at+localSize > to || binary.LittleEndian.Uint32(data[e.at:]) != localMark {
			return nil, errLayout
		}
		at := out.Len()
		content, changed := fresh[memberKey(e.name)]
		if !changed {
			out.Write(data[e.at:to])
			records[i], err = moved(e.record, at)
		} else {
			records[i], err = rewritten(&out, data[e.at:to], e.record, content)
		}
		if err != nil {
			return nil, err
		}
	}
	if len(records)+len(added) > maxMembers {
		return nil, errLayout
	}
	for _, m := range added {
		r, err := joined(&out, m)
		if err != nil {
			return nil, err
		}
		records = append(records, r)
	}
	at := out.Len()
	for _, r := range records {
		out.Write(r)
	}
	end = slices.Clone(end)
	le := binary.LittleEndian
	le.PutUint16(end[8:], uint16(len(records))) // the limits on what is read keep all three small
	le.PutUint16(end[10:], uint16(len(records)))
	le.PutUint32(end[12:], uint32(out.Len()-at))
	le.PutUint32(end[16:], uint32(at))
	out.Write(end)
	return out.Bytes(), nil
}

// directory reads the list of members: the entries in their order, where the
// list begins, and the record at the end of the file.
func directory(data []byte) (entries []entry, dirAt int, end []byte, err error) {
	le := binary.LittleEndian
	at := bytes.LastIndex(data, []byte("PK\x05\x06"))
	for ; at >= 0; at = bytes.LastIndex(data[:at], []byte("PK\x05\x06")) {
		if at+endSize <= len(data) && at+endSize+int(le.Uint16(data[at+20:])) == len(data) {
			break
		}
	}
	if at < 0 {
		return nil, 0, nil, errLayout
	}
	end = data[at:]
	count, size, from := uint64(le.Uint16(end[10:])), uint64(le.Uint32(end[12:])), uint64(le.Uint32(end[16:]))
	dirEnd := at
	if l := at - locatorSize; l >= 0 && le.Uint32(data[l:]) == locatorMark {
		far := le.Uint64(data[l+8:])
		if far+end64Size > uint64(l) || le.Uint32(data[far:]) != end64Mark {
			return nil, 0, nil, errLayout
		}
		wide := data[far:]
		count, size, from = le.Uint64(wide[32:]), le.Uint64(wide[40:]), le.Uint64(wide[48:])
		dirEnd = int(far)
	}
	if from > uint64(dirEnd) || from+size != uint64(dirEnd) || count > maxMembers {
		return nil, 0, nil, errLayout
	}
	dirAt = int(from)
	for at := dirAt; at < dirEnd; {
		r := data[at:dirEnd]
		if len(r) < centralSize || le.Uint32(r) != centralMark {
			return nil, 0, nil, errLayout
		}
		n := centralSize + int(le.Uint16(r[28:])) + int(le.Uint16(r[30:])) + int(le.Uint16(r[32:]))
		if n > len(r) {
			return nil, 0, nil, errLayout
		}
		e := entry{record: r[:n], name: string(r[centralSize : centralSize+int(le.Uint16(r[28:]))])}
		local, ok := position(e.record)
		if !ok || local+localSize > uint64(dirAt) {
			return nil, 0, nil, errLayout
		}
		e.at = int(local)
		entries = append(entries, e)
		at += n
	}
	if uint64(len(entries)) != count {
		return nil, 0, nil, errLayout
	}
	return entries, dirAt, end, nil
}

// position is where the record says its member begins.
func position(record []byte) (uint64, bool) {
	le := binary.LittleEndian
	if at := le.Uint32(record[42:]); at != inExtra {
		return uint64(at), true
	}
	i := positionExtra(record)
	if i < 0 {
		return 0, false
	}
	return le.Uint64(record[i:]), true
}

// positionExtra is where in a record the position of 64 bits stands, -1 if
// nowhere. The lengths stand before it where they too are kept in 64 bits.
func positionExtra(record []byte) int {
	le := binary.LittleEndian
	from := centralSize + int(le.Uint16(record[28:]))
	to := from + int(le.Uint16(record[30:]))
	for at := from; at+4 <= to; at += 4 + int(le.Uint16(record[at+2:])) {
		if le.Uint16(record[at:]) != wideExtra {
			continue
		}
		i := at + 4
		for _, field := range []int{24, 20} {
			if le.Uint32(record[field:]) == inExtra {
				i += 8
			}
		}
		if i+8 <= min(to, at+4+int(le.Uint16(record[at+2:]))) {
			return i
		}
	}
	return -1
}

// moved is a member's record for another place in the file.
func moved(record []byte, at int) ([]byte, error) {
	r := slices.Clone(record)
	if binary.LittleEndian.Uint32(r[42:]) != inExtra {
		binary.LittleEndian.PutUint32(r[42:], uint32(at))
		return r, nil
	}
	i := positionExtra(r)
	if i < 0 {
		return nil, errLayout
	}
	binary.LittleEndian.PutUint64(r[i:], uint64(at))
	return r, nil
}

// rewritten writes a member with other content under its old header and gives
// its record. Lengths and checksum are then in both.
func rewritten(out *bytes.Buffer, local, record, content []byte) ([]byte, error) {
	le := binary.LittleEndian
	name, extra := int(le.Uint16(local[26:])), int(le.Uint16(local[28:]))
	if localSize+name+extra > len(local) {
		return nil, errLayout
	}
	body := content
	switch le.Uint16(record[10:]) {
	case storedPlain:
	case deflated:
		var err error
		if body, err = compressed(content); err != nil {
			return nil, err
		}
	default:
		return nil, errLayout
	}
	at, sum := out.Len(), crc32.ChecksumIEEE(content)
	head := slices.Clone(local[:localSize])
	kept := withoutWide(local[localSize+name : localSize+name+extra])
	le.PutUint16(head[6:], le.Uint16(head[6:])&^described)
	le.PutUint32(head[14:], sum)
	le.PutUint32(head[18:], uint32(len(body)))
	le.PutUint32(head[22:], uint32(len(content)))
	le.PutUint16(head[28:], uint16(len(kept)))
	out.Write(head)
	out.Write(local[localSize : localSize+name])
	out.Write(kept)
	out.Write(body)

	name, extra = int(le.Uint16(record[28:])), int(le.Uint16(record[30:]))
	kept = withoutWide(record[centralSize+name : centralSize+name+extra])
	r := slices.Concat(record[:centralSize+name], kept, record[centralSize+name+extra:])
	le.PutUint16(r[8:], le.Uint16(r[8:])&^described)
	le.PutUint32(r[16:], sum)
	le.PutUint32(r[20:], uint32(len(body)))
	le.PutUint32(r[24:], uint32(len(content)))
	le.PutUint16(r[30:], uint16(len(kept)))
	le.PutUint32(r[42:], uint32(at))
	return r, nil
}

// compressed is the content as zip files hold it.
func compressed(content []byte) ([]byte, error) {
	var packed bytes.Buffer
	w, err := flate.NewWriter(&packed, flate.DefaultCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(content); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return packed.Bytes(), nil
}

// joined writes a member that was not there, dated the first day a zip file can
// hold, and gives its record. Names are plain letters.
func joined(out *bytes.Buffer, m member) ([]byte, error) {
	body, err := compressed(m.content)
	if err != nil {
		return nil, err
	}
	le, at := binary.LittleEndian, out.Len()
	const version, day = 20, 1<<5 | 1 // 2.0, which knows compression; 1 January 1980
	head := make([]byte, localSize)
	le.PutUint32(head, localMark)
	le.PutUint16(head[4:], version)
	le.PutUint16(head[8:], deflated)
	le.PutUint16(head[12:], day)
	le.PutUint32(head[14:], crc32.ChecksumIEEE(m.content))
	le.PutUint32(head[18:], uint32(len(body)))
	le.PutUint32(head[22:], uint32(len(m.content)))
	le.PutUint16(head[26:], uint16(len(m.name)))
	out.Write(head)
	out.WriteString(m.name)
	out.Write(body)
	r := make([]byte, centralSize, centralSize+len(m.name))
	le.PutUint32(r, centralMark)
	le.PutUint16(r[4:], version)
	copy(r[6:32], head[4:30]) // version, flags, method, date, checksum and lengths stand in the same order
	le.PutUint32(r[42:], uint32(at))
	return append(r, m.name...), nil
}

// withoutWide is an extra field without its lengths and position of 64 bits.
func withoutWide(extra []byte) []byte {
	var kept []byte
	le := binary.LittleEndian
	for len(extra) >= 4 {
		n := min(4+int(le.Uint16(extra[2:])), len(extra))
		if le.Uint16(extra) != wideExtra {
			kept = append(kept, extra[:n]...)
		}
		extra = extra[n:]
	}
	return append(kept, extra...)
}
