package letters

import (
	"encoding/binary"
	"fmt"

	"golang.org/x/image/font/sfnt"
)

// hyphened gives the type a short hyphen. Its own is drawn as long as a minus, as
// programs want it; the short one, a third of the size wide, stands under U+00AD,
// which print never shows. Dash and minus keep their own.
func hyphened(file []byte) []byte {
	parsed, err := sfnt.Parse(file)
	if err != nil {
		panic(fmt.Sprintf("letters: the type cannot be read: %v", err))
	}
	var buf sfnt.Buffer
	index := func(r rune) int {
		i, err := parsed.GlyphIndex(&buf, r)
		if err != nil || i == 0 {
			panic(fmt.Sprintf("letters: the type has no %U: %v", r, err))
		}
		return int(i)
	}
	short := func(at int) int { return int(binary.BigEndian.Uint16(file[at:])) }
	long := func(at int) int { return int(binary.BigEndian.Uint32(file[at:])) }
	table := func(tag string) int {
		for at := 12; at < 12+16*short(4); at += 16 {
			if string(file[at:at+4]) == tag {
				return long(at + 8)
			}
		}
		panic("letters: the type has no table " + tag)
	}
	loca, glyf, hmtx, advances := table("loca"), table("glyf"), table("hmtx"), short(table("hhea")+34)
	outline := func(i int) []byte {
		if short(table("head")+50) == 0 { // places are counted in pairs of bytes
			return file[glyf+2*short(loca+2*i) : glyf+2*short(loca+2*i+2)]
		}
		return file[glyf+long(loca+4*i) : glyf+long(loca+4*i+4)]
	}
	hyphen, want := index('-'), index('\u00ad')
	if to, from := outline(hyphen), outline(want); len(from) > len(to) || max(hyphen, want) >= advances {
		panic(fmt.Sprintf("letters: a hyphen of %d bytes has no room in %d, or is not among %d advances", len(from), len(to), advances))
	}
	copy(outline(hyphen), outline(want))
	copy(file[hmtx+4*hyphen:hmtx+4*hyphen+4], file[hmtx+4*want:])
	return file
}
