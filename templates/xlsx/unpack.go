package xlsx

import (
	"archive/zip"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"path"
	"strings"
)

// bundle is a checked zip file: every member has been read to its end, its
// checksum and length found right, within the limits.
type bundle struct {
	members map[string]*zip.File // by name in lower case, without a leading slash
}

// unpack opens the zip file and checks all of it.
func unpack(src io.ReaderAt, size int64) (*bundle, error) {
	// The list of members is read whole by the zip package, whatever its
	// length, so the reading of it is metered.
	meter := &listing{src: src, left: maxListing}
	z, err := zip.NewReader(meter, size)
	switch {
	case meter.spent:
		return nil, fmt.Errorf("%w: it holds too many parts", ErrTooBig)
	case err != nil:
		return nil, damaged("the end of the file is missing or broken")
	case len(z.File) > maxMembers:
		return nil, fmt.Errorf("%w: it holds %d parts and the limit is %d", ErrTooBig, len(z.File), maxMembers)
	}
	meter.open = true

	pack := &bundle{members: make(map[string]*zip.File, len(z.File))}
	claimed := uint64(0)
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		key := memberKey(f.Name)
		if _, twice := pack.members[key]; twice {
			return nil, damaged("it holds two parts named %q", clip(f.Name))
		}
		if f.Flags&1 != 0 {
			return nil, fmt.Errorf("%w; unpack it with the password first", ErrEncrypted)
		}
		pack.members[key] = f
		if claimed += min(f.UncompressedSize64, maxUnpacked+1); claimed > maxUnpacked {
			return nil, unpacksTooBig()
		}
	}
	mimetype := ""
	if f := pack.members["mimetype"]; f != nil && f.UncompressedSize64 < 200 {
		if r, err := f.Open(); err == nil {
			b, _ := io.ReadAll(io.LimitReader(r, 200)) // a fault in it is found below
			r.Close()
			mimetype = string(b)
		}
	}
	if err := otherPackage(mimetype, pack.has); err != nil {
		return nil, err
	}
	return pack, pack.check(z.File)
}

// check reads every member to its end. The lengths written in the file are
// not believed: what comes out is counted.
func (b *bundle) check(files []*zip.File) error {
	left := int64(maxUnpacked)
	buf := make([]byte, 32<<10)
	for _, f := range files {
		r, err := f.Open()
		if err != nil {
			return damaged("its part %q cannot be unpacked", clip(f.Name))
		}
		sum := crc32.NewIEEE()
		for err == nil {
			var n int
			n, err = r.Read(buf)
			sum.Write(buf[:n])
			if left -= int64(n); left < 0 {
				r.Close()
				return unpacksTooBig()
			}
		}
		r.Close()
		// The zip package takes a checksum of nil for one that was never written.
		if err != io.EOF || sum.Sum32() != f.CRC32 {
			return damaged("its part %q is cut short or altered", clip(f.Name))
		}
	}
	return nil
}

func unpacksTooBig() error {
	return fmt.Errorf("%w: unpacked it is more than %d MB; take out pictures or sheets that are not needed", ErrTooBig, maxUnpacked>>20)
}

// has reports a member by name.
func (b *bundle) has(name string) bool { return b.members[memberKey(name)] != nil }

// open gives a member to be read, or an error when it is missing or too big
// to be read as anything but a picture.
func (b *bundle) open(name string) (io.ReadCloser, error) {
	f := b.members[memberKey(name)]
	if f == nil {
		return nil, damaged("its part %q is missing", clip(name))
	}
	if f.UncompressedSize64 > maxPart {
		return nil, fmt.Errorf("%w: its part %q is more than %d MB", ErrTooBig, clip(name), maxPart>>20)
	}
	r, err := f.Open()
	if err != nil {
		return nil, damaged("its part %q cannot be unpacked", clip(name))
	}
	return r, nil
}

// memberKey is the name under which a member is found. Part names do not
// regard case; some programs write a leading slash or backslashes.
func memberKey(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

// resolve is the name of the part a relationship of another part leads to.
func resolve(from, target string) string {
	target = strings.ReplaceAll(target, `\`, "/")
	if strings.HasPrefix(target, "/") {
		return strings.TrimPrefix(path.Clean(target), "/")
	}
	return strings.TrimPrefix(path.Join("/", path.Dir(from), target), "/")
}

// clip keeps a name from the file short enough for a message.
func clip(s string) string {
	if len(s) > 80 {
		return strings.ToValidUTF8(s[:80], "") + "..."
	}
	return s
}

// errListing ends the listing of a zip file with too many members.
var errListing = errors.New("listing too long")

// listing meters what is read of a file while its members are listed.
type listing struct {
	src   io.ReaderAt
	left  int
	open  bool // the listing is done: no more metering
	spent bool
}

// ReadAt reads on within the meter.
func (l *listing) ReadAt(p []byte, off int64) (int, error) {
	if !l.open {
		if l.left -= len(p); l.left < 0 {
			l.spent = true
			return 0, errListing
		}
	}
	return l.src.ReadAt(p, off)
}
