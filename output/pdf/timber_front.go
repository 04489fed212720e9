package pdf

import (
	"strings"

	"futtock/rates"
	"futtock/rates/measure"
)

// front is the first page: what it is, for which vessel, in which units and for
// which saw, and the contents.
func (t *timber) front() {
	t.opening("Timber order", "Front page", t.Job.Yard, "Timber order and sawing drawings", t.Job.Vessel)
	t.y += 4
	t.say(fore, t.standing("what", "{vessel}", t.Job.Vessel)...)
	t.y += 4
	list := []fact{
		{"Yard", t.Job.Yard},
		{"Tender reference", t.Job.Reference},
		{"Date of tender", day(t.Job.TenderDate)},
	}
	if !t.Job.Start.IsZero() {
		list = append(list, fact{"Start on site", day(t.Job.Start)})
	}
	lengths, sizes := "metres", "millimetres"
	if t.frame.LengthIn == measure.Ft {
		lengths = "feet and inches"
	}
	if t.frame.SizeIn == measure.In {
		sizes = "inches"
	}
	list = append(list, fact{"Units", strings.Join(t.standing("units", "{lengths}", lengths, "{sizes}", sizes), " ")})
	if kerfs := t.kerfs(); kerfs != "" {
		list = append(list, fact{"Saw kerf", strings.Join(t.standing("kerf", "{kerf}", kerfs), " ")})
	} else {
		list = append(list, fact{"Saw kerf", strings.Join(t.standing("no kerf"), " ")})
	}
	t.facts(list, fore)
	t.y += 6
	t.contentsRoom()
}

// kerfs is the kerf allowed for, by timber.
func (t *timber) kerfs() string {
	var out []string
	seen := map[string]bool{}
	for _, l := range t.stock {
		k := rates.Key(l.Stock.Timber)
		row, ok := t.Book.TimberRow(l.Stock.Timber)
		if seen[k] || !ok || row.Kerf == 0 {
			continue
		}
		seen[k] = true
		out = append(out, strings.ReplaceAll(l.Stock.Timber+" "+t.frame.Size(row.Kerf), " ", "\u00a0"))
	}
	return strings.Join(out, ", ")
}

// reading says how the drawings are read, and what each shade stands for.
func (t *timber) reading() {
	t.turn()
	t.begin("How to read the drawings")
	t.clause(t.standing("reading")...)
	t.clause(t.standing("judgement")...)
	f := t.frame
	f.Width = t.width
	legend := f.Legend()
	t.need(legend.Height + 8)
	t.y += 3
	t.lay(legend, left, t.y)
	t.y += legend.Height + 4
}

// cautions are those of the saw and of heavy timber.
func (t *timber) cautions() {
	t.begin("Cautions")
	t.clause(t.standing("cautions")...)
}
