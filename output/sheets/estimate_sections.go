package sheets

import (
	"cmp"
	"slices"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
)

// sectionRows are the rows of the schedule of one section, those of an item of
// the bill one after another.
type sectionRows struct {
	section, title string
	rows           []takeoff.Row
}

// bySection is the schedule in the order of the bill: by section, in it by item,
// and the rows of an item by Ref. What is on record only and in no item stands
// where its own Ref has it. With this an item adds up rows that stand together.
func (w *working) bySection() []sectionRows {
	type key struct {
		section int
		line    string
		item    bool
	}
	place := map[string]int{}
	out := make([]sectionRows, len(w.Job.Sections))
	for n, s := range w.Job.Sections {
		place[rates.Key(s.Section)] = n
		out[n].section, out[n].title = s.Section, s.Title
	}
	of := map[string]key{}
	for _, i := range w.Priced.Items {
		for _, r := range i.Rows {
			of[r.Ref] = key{place[rates.Key(i.Section)], i.Ref, true}
		}
	}
	for _, r := range w.Takeoff.Rows {
		k, priced := of[r.Work.Ref]
		if !priced {
			k = key{place[rates.Key(r.Work.Section)], r.Work.Ref, false}
			of[r.Work.Ref] = k
		}
		out[k.section].rows = append(out[k.section].rows, r)
	}
	for _, s := range out {
		slices.SortStableFunc(s.rows, func(a, b takeoff.Row) int {
			ka, kb := of[a.Work.Ref], of[b.Work.Ref]
			first := 0
			if ka.item != kb.item { // one Ref may be that of an item and of a row on record
				first = 1
				if ka.item {
					first = -1
				}
			}
			return cmp.Or(job.CompareRefs(ka.line, kb.line), first, job.CompareRefs(a.Work.Ref, b.Work.Ref))
		})
	}
	return out
}

// back is a row of another sheet that leads back to a section of the summary.
type back struct {
	page      *page
	row, last int // the columns from the first to last lead
	section   string
}

// leadsBack makes the band of a section lead to its row of the summary, which is
// laid out last.
func (w *working) leadsBack(p *page, row, last int, section string) {
	w.backs = append(w.backs, back{p, row, last, rates.Key(section)})
}

// sendBack leads the bands back to the summary, where each section has a row. A
// section that has nothing in the total has none, and its bands lead nowhere.
func (w *working) sendBack(summary *page, rows map[string]int) {
	for _, b := range w.backs {
		if n, ok := rows[b.section]; ok {
			for col := 1; col <= b.last; col++ {
				b.page.lead(col, b.row, summary.cell(1, n))
			}
		}
	}
}
