package explain

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/fabric"
	"futtock/estimate/job"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// fabric is the share of the old fabric that is kept, by section and row.
func (m maker) fabric() Line {
	f := m.Fabric
	out := words("Old fabric kept", "of the members in the schedule, by rows in the total", origin.Cell{})
	out.Under = m.kept(f.All)
	for _, s := range f.Sections {
		j, _ := m.Job.Section(s.Section)
		section := words("Section "+joined(", ", s.Section, s.Title), "", j.At)
		section.Under = m.kept(s.Count)
		for _, r := range s.Rows {
			section.Under = append(section.Under, m.keptRow(r))
		}
		out.Under = append(out.Under, section)
	}
	var apart []Line
	for _, r := range f.Fastenings {
		apart = append(apart, words(r.Member.Ref, joined(", ", r.Member.Member, r.Member.Side), r.Member.At))
	}
	out.Under = append(out.Under, heading("Not counted, since it is of fastenings", apart)...)
	return out
}

// kept is the two shares of a section, or of all.
func (m maker) kept(c fabric.Count) []Line {
	by := func(label string, p money.Percent, known bool, how string) Line {
		if !known {
			return words(label, "none: "+how, origin.Cell{})
		}
		return Line{Label: label, Value: p.Decimal().StringFixed(1), Unit: "%", How: how}
	}
	whole, numbered := c.ByNumber()
	timber, sized := c.ByVolume()
	return []Line{
		by("Kept, by volume", timber, sized, m.volumeText(c.Kept)+" of "+joined(", ", m.volumeText(c.Before), m.volumeOf(c.Renewed, "renewed"), m.volumeOf(c.Taken, "removed"))),
		by("Kept whole, by number", whole, numbered, fmt.Sprintf("%d of %s", c.Whole, joined(", ", counted(c.Members, "member"), numberOf(c.InPart, "kept in part"), numberOf(c.New, "renewed"), numberOf(c.Gone, "removed")))),
	}
}

func (m maker) volumeText(d decimal.Decimal) string {
	return billed(d, m.Fabric.Unit) + " " + string(m.Fabric.Unit)
}

// volumeOf and numberOf say what becomes of so many, nothing where it is none.
func (m maker) volumeOf(d decimal.Decimal, what string) string {
	if d.IsZero() {
		return ""
	}
	return m.volumeText(d) + " " + what
}

func numberOf(n int, what string) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%d %s", n, what)
}

// keptRow is one row: the volume of it that is kept, and of what.
func (m maker) keptRow(r fabric.Row) Line {
	member := r.Member
	out := Line{Label: member.Ref, Value: r.Kept.StringFixed(m.Fabric.Unit.Places()), Unit: string(m.Fabric.Unit), At: member.TreatmentAt}
	name := joined(", ", member.Member, member.Side, string(member.Treatment))
	switch {
	case !r.Sized:
		out.Value, out.Unit = "", ""
		out.How = joined(": ", name, fmt.Sprintf("not sized, %d by number", member.Nr))
		return out
	case member.Treatment == job.Part && r.InPart > 0:
		out.How = fmt.Sprintf("%s: %s less %s renewed, %s of %s", name, m.volumeText(r.Before), m.volumeText(r.Renewed), m.length(member.Renewed), m.length(member.Length))
	case r.Kept.IsZero():
		out.How = joined(": ", name, m.volumeText(r.Before)+" before")
	default:
		out.How = name
	}
	out.Under = []Line{{Label: "Volume before", Value: r.Before.StringFixed(m.Fabric.Unit.Places()), Unit: string(m.Fabric.Unit),
		How: fmt.Sprintf("%d x %s x %s", member.Nr, m.length(member.Length), m.sectionSizes(member)), At: member.LengthAt}}
	return out
}

// sectionSizes is the sizes a volume is reckoned from.
func (m maker) sectionSizes(member *job.Member) string {
	if member.Shape == job.Round || member.Shape == job.Eight {
		return m.size(member.Sided) + " " + string(member.Shape)
	}
	return m.across(member.Sided, member.Moulded)
}
