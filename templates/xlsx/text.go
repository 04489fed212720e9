package xlsx

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// sharedStrings reads the texts that cells refer to by number. A workbook
// with none has no such part.
func sharedStrings(pack *bundle, part string, kept *budget) ([]string, error) {
	if part == "" {
		return nil, nil
	}
	var strs []string
	err := walk(pack, part, func(w *walker, t xml.StartElement) error {
		if w.depth == 1 && (!isMain(t.Name.Space) || t.Name.Local != "sst") {
			return damaged("its part %q does not hold texts", clip(part))
		}
		if w.depth != 2 || t.Name.Local != "si" || !isMain(t.Name.Space) {
			return nil
		}
		s, err := w.plain()
		if err != nil {
			return fmt.Errorf("%w in text %d of its part %q", err, len(strs)+1, clip(part))
		}
		// The slice doubles as it grows, so each string header counts for several.
		if err := kept.keep(64 + len(s)); err != nil {
			return err
		}
		strs = append(strs, s)
		return nil
	})
	return strs, err
}

// plain reads the text of the element just started: rich text made plain,
// without the pronunciation (rPh) some languages carry beside it.
func (w *walker) plain() (string, error) {
	base, said := w.depth, 0
	var text strings.Builder
	for {
		t, err := w.next()
		if err != nil {
			return "", w.early(err)
		}
		switch t := t.(type) {
		case xml.StartElement:
			switch {
			case said > 0 || !isMain(t.Name.Space):
			case t.Name.Local == "rPh":
				said = w.depth
			case t.Name.Local == "t":
				s, err := w.chars()
				if err != nil {
					return "", err
				}
				// Without this attribute programs drop the spaces at the ends.
				if !keepsSpace(t) {
					s = strings.Trim(s, " \t\r\n")
				}
				text.WriteString(s)
				if text.Len() > maxString {
					return "", fmt.Errorf("%w: it holds a text longer than %d kB", ErrTooBig, maxString>>10)
				}
			}
		case xml.EndElement:
			if w.depth < said {
				said = 0
			}
			if w.depth < base {
				return unescape(text.String()), nil
			}
		}
	}
}

// chars is the character data of the element just started, to its end.
func (w *walker) chars() (string, error) {
	base := w.depth
	text, whole := "", true // nearly always one piece, which then is not copied twice
	var more strings.Builder
	for {
		t, err := w.next()
		if err != nil {
			return "", w.early(err)
		}
		switch t := t.(type) {
		case xml.CharData:
			if whole && text == "" {
				text = string(t)
				continue
			}
			if whole {
				more.WriteString(text)
				whole = false
			}
			more.Write(t)
			if more.Len() > maxString {
				return "", fmt.Errorf("%w: it holds a text longer than %d kB", ErrTooBig, maxString>>10)
			}
		case xml.EndElement:
			if w.depth < base {
				if whole {
					return text, nil
				}
				return more.String(), nil
			}
		}
	}
}

// early turns the end of a part inside an element into damage. The decoder
// reports it as a fault itself; this guards against the day it does not.
func (w *walker) early(err error) error {
	if err == io.EOF {
		return damaged("its part %q ends in the middle", clip(w.part))
	}
	return err
}

// keepsSpace reports xml:space="preserve".
func keepsSpace(t xml.StartElement) bool {
	for _, a := range t.Attr {
		if a.Name.Local == "space" && a.Value == "preserve" {
			return true
		}
	}
	return false
}

// unescape decodes the _xHHHH_ form in which a file holds characters that XML
// cannot (ECMA-376 part 1, 22.9.2.19): _x000D_ is a carriage return, _x005F_
// an underscore that would otherwise begin such a form. Line ends become a
// plain line feed whatever program wrote them.
func unescape(s string) string {
	if strings.Contains(s, "_x") {
		var out strings.Builder
		for i := 0; i < len(s); {
			u, ok := escaped(s[i:])
			if !ok {
				out.WriteByte(s[i])
				i++
				continue
			}
			i += 7
			r := rune(u)
			if utf16.IsSurrogate(r) {
				if low, ok := escaped(s[i:]); ok && utf16.DecodeRune(r, rune(low)) != utf8.RuneError {
					r = utf16.DecodeRune(r, rune(low))
					i += 7
				} else {
					out.WriteString(s[i-7 : i]) // half a pair: left as it stands
					continue
				}
			}
			out.WriteRune(r)
		}
		s = out.String()
	}
	if strings.Contains(s, "\r") {
		s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
	}
	return s
}

// escaped reads _xHHHH_ at the start of s.
func escaped(s string) (uint16, bool) {
	if len(s) < 7 || s[0] != '_' || s[1] != 'x' || s[6] != '_' {
		return 0, false
	}
	u := uint16(0)
	for _, c := range []byte(s[2:6]) {
		switch {
		case c >= '0' && c <= '9':
			u = u<<4 | uint16(c-'0')
		case c >= 'A' && c <= 'F':
			u = u<<4 | uint16(c-'A'+10)
		case c >= 'a' && c <= 'f':
			u = u<<4 | uint16(c-'a'+10)
		default:
			return 0, false
		}
	}
	return u, true
}
