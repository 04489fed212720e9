package explain

import (
	"fmt"
	"slices"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// used is a driver in the unit it was taken in.
type used struct {
	by   rates.Driver
	unit measure.Unit
}

// driversUsed is the drivers that the tasks and materials of a row took, each
// once, in the printed order of drivers.
func (m maker) driversUsed(r takeoff.Row, costs []price.Cost) []used {
	var all []used
	put := func(u used) {
		if !slices.Contains(all, u) {
			all = append(all, u)
		}
	}
	for _, h := range m.Hours.Lines {
		if h.Ref != r.Work.Ref {
			continue
		}
		for _, t := range h.Tasks {
			if t.Norm.Task != "" {
				put(used{t.BuildUp.By, t.Taken.Unit})
			}
		}
	}
	for _, c := range costs {
		if c.Ref != r.Work.Ref {
			continue
		}
		for _, a := range c.Asked {
			put(used{a.BuildUp.By, a.Taken.Unit})
		}
	}
	return inOrder(all)
}

func inOrder(all []used) []used {
	slices.SortStableFunc(all, func(a, b used) int {
		return slices.Index(rates.Drivers(), a.by) - slices.Index(rates.Drivers(), b.by)
	})
	return all
}

// billUnit is the unit the row's line of the bill is in.
func (m maker) billUnit(r takeoff.Row) used {
	for _, i := range m.Priced.Items {
		if slices.ContainsFunc(i.Rows, func(w job.Work) bool { return w.Ref == r.Work.Ref }) {
			return used{i.QuantityBy, i.Unit}
		}
	}
	return used{}
}

// withBill puts what the bill line is measured by to the drivers of a row.
func withBill(r takeoff.Row, all []used, bill used) []used {
	if bill.by != "" && !slices.Contains(all, bill) {
		all = inOrder(append(slices.Clone(all), bill))
	}
	// Nr stands at the head of every row, and an item is one.
	return slices.DeleteFunc(slices.Clone(all), func(u used) bool {
		_, known := r.Amount(u.by)
		return u.by == rates.ByNr || u.by == rates.ByItem || !known
	})
}

// driverWords is how a driver is measured.
func (m maker) driverWords(r takeoff.Row, by rates.Driver) string {
	k := r.Member
	length := m.length(k.New())
	if k.Nr > 1 {
		length = fmt.Sprintf("%d x %s", k.Nr, length)
	}
	switch by {
	case rates.ByLength:
		return length
	case rates.BySeam:
		return fmt.Sprintf("%s x %s, long seams charged to it", length, number(k.Seams))
	case rates.ByFace:
		return fmt.Sprintf("%s x %s, one face", length, m.size(wide(*k)))
	case rates.ByGirth:
		return length + " x " + m.girthWords(*k)
	case rates.ByVolume, rates.ByOldVolume:
		return length + " x " + m.areaWords(*k)
	case rates.ByWeight:
		timber, _ := m.Book.TimberRow(m.timberOf(r))
		return fmt.Sprintf("%s x %s x %s kg a m3", length, m.areaWords(*k), number(timber.Density))
	case rates.ByFastening:
		return "all fastenings of the rule"
	case rates.ByJoint:
		return fmt.Sprintf("%d nr x (%s - 1)", k.Nr, counted(r.PiecesEach, "piece"))
	case rates.ByJointToOld:
		return fmt.Sprintf("%d nr x %s to old work", k.Nr, counted(k.Joints, "joint"))
	}
	return ""
}

// wide is the moulded way; round and eight-sided work is the same both ways.
func wide(k job.Member) measure.Length {
	if k.Shape == job.Round || k.Shape == job.Eight {
		return k.Sided
	}
	return k.Moulded
}

func (m maker) girthWords(k job.Member) string {
	switch k.Shape {
	case job.Round:
		return "pi x " + m.size(k.Sided)
	case job.Eight:
		return "8 (root 2 - 1) x " + m.size(k.Sided)
	}
	return fmt.Sprintf("2 (%s + %s)", m.size(k.Sided), m.size(k.Moulded))
}

func (m maker) areaWords(k job.Member) string {
	switch k.Shape {
	case job.Round:
		return "pi/4 x " + m.size(k.Sided) + " squared"
	case job.Eight:
		return "2 (root 2 - 1) x " + m.size(k.Sided) + " squared"
	}
	return m.size(k.Sided) + " x " + m.size(k.Moulded)
}
