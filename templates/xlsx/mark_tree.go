package xlsx

import (
	"encoding/xml"
	"strings"
)

// node is an element of a part, where it stands, and those within it.
type node struct {
	name     string // without its prefix
	attrs    []xml.Attr
	tag, all place
	kids     []*node
}

// tree reads a part down to a level; its outermost element is level 1. What stands
// in an element of alternatives is gone through as if it stood in its place.
func tree(pack *bundle, part string, level int) (*node, error) {
	var root *node
	err := walk(pack, part, func(w *walker, t xml.StartElement) (err error) {
		root, err = w.node(t, level)
		return err
	})
	return root, err
}

// node reads the element just started to its end.
func (w *walker) node(t xml.StartElement, level int) (*node, error) {
	n := &node{name: t.Name.Local, attrs: t.Attr, tag: place{w.from, w.to()}}
	if n.name == "AlternateContent" {
		level = w.depth + 2 // its choice, and what that holds
	}
	base := w.depth
	for {
		t, err := w.next()
		if err != nil {
			return nil, w.early(err)
		}
		switch t := t.(type) {
		case xml.StartElement:
			if w.depth > level {
				continue
			}
			kid, err := w.node(t, level)
			if err != nil {
				return nil, err
			}
			n.kids = append(n.kids, kid)
		case xml.EndElement:
			if w.depth < base {
				n.all = place{n.tag.from, w.to()}
				return n, nil
			}
		}
	}
}

// named are the elements of a name directly within one.
func (n *node) named(name string) []*node {
	var out []*node
	for _, k := range n.kids {
		if k.name == name {
			out = append(out, k)
		}
	}
	return out
}

// one is the first element of a name directly within one, nil where there is none.
func (n *node) one(name string) *node {
	for _, k := range n.kids {
		if k.name == name {
			return k
		}
	}
	return nil
}

// attr is an attribute without a name space, "" where there is none.
func (n *node) attr(name string) string { return attr(xml.StartElement{Attr: n.attrs}, name) }

// id is the r:id attribute.
func (n *node) id() string { return relID(xml.StartElement{Attr: n.attrs}) }

// end is the place of the element's end tag, of no length behind a tag that closes
// itself.
func (n *node) end(part []byte) place {
	if selfClosing(part, n.tag) {
		return place{n.tag.to, n.tag.to}
	}
	text := string(part[n.tag.to:n.all.to])
	return place{n.tag.to + strings.LastIndex(text, "</"), n.all.to}
}

// appended are the edits that put a text at the end of an element of a part.
func (n *node) appended(part []byte, text string) []edit {
	if !selfClosing(part, n.tag) {
		at := n.end(part).from
		return []edit{{place{at, at}, text}}
	}
	name := string(part[n.tag.from+1 : n.tag.to-2])
	if i := strings.IndexAny(name, " \t\r\n"); i >= 0 {
		name = name[:i]
	}
	return []edit{
		{place{n.tag.to - 2, n.tag.to}, ">"},
		{place{n.tag.to, n.tag.to}, text + "</" + name + ">"},
	}
}

// standing is an element of ours made to stand in any part: without a
// prefix, and where the part has one with its name space named.
func standing(element, prefix, space string) string {
	if prefix == "" {
		return element
	}
	i := strings.IndexAny(element, " />")
	return element[:i] + ` xmlns="` + space + `"` + element[i:]
}
