package xlsx

import (
	"fmt"
	"slices"
	"strings"
)

// edit puts a text in the place of a run of bytes; a run of no length is where
// the text goes in.
type edit struct {
	place
	text string
}

// apply gives the part with the edits made. Edits at one place keep their
// order. Edits that overlap would spoil the part and are a fault of ours.
func apply(part []byte, edits []edit) []byte {
	edits = slices.Clone(edits)
	slices.SortStableFunc(edits, func(a, b edit) int {
		if a.from != b.from {
			return a.from - b.from
		}
		return a.to - b.to // what goes in before a run goes before what takes its place
	})
	out := make([]byte, 0, len(part)+1024)
	at := 0
	for _, e := range edits {
		if e.from < at || e.to < e.from || e.to > len(part) {
			panic(fmt.Sprintf("an edit of bytes %d to %d begins before %d or ends after %d", e.from, e.to, at, len(part)))
		}
		out = append(append(out, part[at:e.from]...), e.text...)
		at = e.to
	}
	return append(out, part[at:]...)
}

// attrIn finds an attribute without a prefix in a tag: its value between the
// quotes, and all of it with the space before. The part is well formed.
func attrIn(part []byte, tag place, name string) (value, all place, ok bool) {
	i := tag.from + 1
	for i < tag.to && !isSpace(part[i]) && part[i] != '>' && part[i] != '/' {
		i++
	}
	for i < tag.to {
		from := i
		for i < tag.to && isSpace(part[i]) {
			i++
		}
		at := i
		for i < tag.to && part[i] != '=' && part[i] != '>' && part[i] != '/' && !isSpace(part[i]) {
			i++
		}
		found := string(part[at:i]) == name
		for i < tag.to && part[i] != '"' && part[i] != '\'' {
			if part[i] == '>' {
				return place{}, place{}, false
			}
			i++
		}
		if i >= tag.to {
			break
		}
		quote := part[i]
		i++
		at = i
		for i < tag.to && part[i] != quote {
			i++
		}
		if found {
			return place{at, i}, place{from, i + 1}, true
		}
		i++
	}
	return place{}, place{}, false
}

// attrEdits are the edits that give an attribute of a tag its value; "" takes
// it away. The value needs no escaping.
func attrEdits(part []byte, tag place, name, value string) []edit {
	v, all, ok := attrIn(part, tag, name)
	switch {
	case ok && value == "":
		return []edit{{place: all}}
	case ok && string(part[v.from:v.to]) != value:
		return []edit{{v, value}}
	case !ok && value != "":
		at := tagEnd(part, tag)
		return []edit{{place{at, at}, fmt.Sprintf(` %s="%s"`, name, value)}}
	}
	return nil
}

func isSpace(b byte) bool { return b == ' ' || b == '\t' || b == '\r' || b == '\n' }

// prefixOf is the prefix that the elements of the tag's kind bear, with its
// colon; mostly there is none.
func prefixOf(part []byte, tag place) string {
	name := part[tag.from+1 : tag.to]
	for i, b := range name {
		switch {
		case b == ':':
			return string(name[:i+1])
		case isSpace(b) || b == '>' || b == '/':
			return ""
		}
	}
	return ""
}

// selfClosing reports a tag that has no content and no end tag.
func selfClosing(part []byte, tag place) bool { return part[tag.to-2] == '/' }

// tagEnd is where an attribute can be added to a tag.
func tagEnd(part []byte, tag place) int {
	at := tag.to - 1
	if selfClosing(part, tag) {
		at--
	}
	for isSpace(part[at-1]) {
		at--
	}
	return at
}

// escapeText is a text as it stands in an element: the signs of markup named,
// and an underscore that would begin a character in the form _xHHHH_ in that
// form itself (ECMA-376 part 1, 22.9.2.19).
func escapeText(s string) string {
	var out strings.Builder
	for i, r := range s {
		switch {
		case r == '&':
			out.WriteString("&amp;")
		case r == '<':
			out.WriteString("&lt;")
		case r == '>':
			out.WriteString("&gt;")
		case r == '_':
			if _, ok := escaped(s[i:]); ok {
				out.WriteString("_x005F_")
				continue
			}
			out.WriteRune(r)
		default:
			out.WriteRune(r)
		}
	}
	return out.String()
}
