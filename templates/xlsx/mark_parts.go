package xlsx

import (
	"encoding/xml"
	"fmt"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// lead is a new relationship of a part.
type lead struct{ id, kind, target string }

const (
	nsTypes = "http://schemas.openxmlformats.org/package/2006/content-types"
	xmlHead = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	cType   = "application/vnd.openxmlformats-officedocument."
)

// space is the name space of the workbook's elements, and that of its relationships.
func (m *marker) space() (main, rel string) {
	if m.strict {
		return nsMainStrict, nsRelStrict
	}
	return nsMain, nsRel
}

// newName is the name of a part that is not there: in the folder of the workbook,
// with the first number that is free.
func (m *marker) newName(folder, stem, ending string) string {
	for n := 1; ; n++ {
		name := path.Join(path.Dir(m.list.main), folder, fmt.Sprintf("%s%d%s", stem, n, ending))
		if _, taken := m.fresh[name]; !taken && !m.pack.has(name) {
			return name
		}
	}
}

// newPart adds a part; kind is its content type.
func (m *marker) newPart(name, kind string, content []byte) {
	m.fresh[name] = content
	if kind != "" {
		m.types = append(m.types, fmt.Sprintf(`<Override PartName="/%s" ContentType="%s"/>`, name, kind))
	}
}

// leadTo adds a relationship of a part to another and gives its id.
func (m *marker) leadTo(of, kind, target string) (string, error) {
	taken := make(map[string]relation)
	if m.pack.has(relationsOf(of)) {
		var err error
		if taken, err = relations(m.pack, of, &budget{left: maxKept}); err != nil {
			return "", err
		}
	}
	for n := len(taken) + len(m.leads[of]) + 1; ; n++ {
		id := fmt.Sprintf("rId%d", n)
		if _, ok := taken[id]; ok {
			continue
		}
		m.leads[of] = append(m.leads[of], lead{id, kind, target})
		return id, nil
	}
}

// closeParts writes the new relationships and content types, and hands over the new
// parts in the order of their names.
func (m *marker) closeParts() error {
	for _, of := range slices.Sorted(maps.Keys(m.leads)) {
		if err := m.writeLeads(of, m.leads[of]); err != nil {
			return err
		}
	}
	part, err := m.part(contentTypes)
	if err != nil {
		return err
	}
	t, err := tree(m.pack, contentTypes, 2)
	if err != nil {
		return err
	}
	text, prefix := "", prefixOf(part, t.tag)
	for _, entry := range m.types {
		text += standing(entry, prefix, nsTypes)
	}
	m.edit(contentTypes, t.appended(part, text)...)
	for _, name := range slices.Sorted(maps.Keys(m.fresh)) {
		m.added = append(m.added, member{name, m.fresh[name]})
	}
	return nil
}

// writeLeads puts relationships into the part that holds those of another, which may
// be new itself.
func (m *marker) writeLeads(of string, leads []lead) error {
	_, rel := m.space()
	name, text, prefix := relationsOf(of), "", ""
	var at *node
	var part []byte
	if m.pack.has(name) {
		var err error
		if part, err = m.part(name); err == nil {
			at, err = tree(m.pack, name, 2)
		}
		if err != nil {
			return err
		}
		prefix = prefixOf(part, at.tag)
	}
	for _, l := range leads {
		target, err := filepath.Rel("/"+path.Dir(of), "/"+l.target)
		if err != nil {
			return err
		}
		text += standing(fmt.Sprintf(`<Relationship Id="%s" Type="%s/%s" Target="%s"/>`, l.id, rel, l.kind, filepath.ToSlash(target)), prefix, nsPack)
	}
	if at == nil {
		m.fresh[name] = []byte(xmlHead + `<Relationships xmlns="` + nsPack + `">` + text + `</Relationships>`)
		return nil
	}
	m.edit(name, at.appended(part, text)...)
	return nil
}

// drawingType lets parts of old drawings be known by their ending, or says it of one
// where the file takes the ending for something else.
func (m *marker) drawingType(name string) error {
	const kind = cType + "vmlDrawing"
	known := false
	err := walk(m.pack, contentTypes, func(w *walker, t xml.StartElement) error {
		known = known || t.Name.Local == "Default" && strings.EqualFold(attr(t, "Extension"), "vml") && attr(t, "ContentType") == kind
		return nil
	})
	if err != nil || known {
		return err
	}
	m.types = append(m.types, fmt.Sprintf(`<Override PartName="/%s" ContentType="%s"/>`, name, kind))
	return nil
}
