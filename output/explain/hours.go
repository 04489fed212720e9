package explain

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/labour"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// hours is the hours of rows by trade, each with its tasks.
func (m maker) hours(rows []takeoff.Row, several bool) []Line {
	var out []Line
	for _, r := range rows {
		for _, h := range m.Hours.Lines {
			if h.Ref != r.Work.Ref {
				continue
			}
			l := Line{Label: of(h.Ref, h.Trade, several), Value: h.Hours.StringFixed(2), Unit: string(measure.Hour), How: "tasks added up"}
			for _, t := range h.Tasks {
				l.Under = append(l.Under, m.task(r, t))
			}
			out = append(out, l)
		}
	}
	return out
}

// task is one task: norm x amount, with set-up, learning, difficulty and access.
func (m maker) task(r takeoff.Row, t labour.Task) Line {
	one := decimal.New(1, 0)
	factors := ""
	if !t.Difficulty.Equal(one) {
		factors += " x " + number(t.Difficulty) + " difficulty"
	}
	if !t.Access.Equal(one) {
		factors += " x " + number(t.Access) + " access"
	}
	out := Line{Label: t.Norm.Task, Value: sixth(t.Hours), Unit: string(measure.Hour)}
	if t.Norm.Task == "" {
		out.Label, out.How, out.At = "Hours given in the row", "as the row has it", m.Job.Under(r.Work.At, "Hours")
		if factors != "" {
			out.How = number(t.Given) + " h" + factors
		}
		return out
	}
	amount := fmt.Sprintf("%s %s", number(t.Taken.Amount), t.Norm.Unit)
	if name := driverName(t.BuildUp.By); name != "" && plainly(t.BuildUp, t.Taken, t.Norm.Unit) {
		amount += " of " + name
	}
	work := fmt.Sprintf("%s h x %s", number(t.Norm.Hours), amount)
	if !t.Learning.Equal(one) {
		work += " x " + number(t.Learning) + " learning"
	}
	if !t.SetUp.IsZero() {
		work = number(t.SetUp) + " h set-up + " + work
		if factors != "" {
			work = "(" + work + ")"
		}
	}
	out.How, out.At = joined("; ", work+factors, t.BuildUp.Note), t.BuildUp.ItemAt
	if !plainly(t.BuildUp, t.Taken, t.Norm.Unit) {
		out.Under = append(out.Under, Line{Label: "Amount", Value: sixth(t.Taken.Amount), Unit: string(t.Norm.Unit), How: takenWords(t.BuildUp, t.Taken, t.Norm.Unit), At: m.Job.Under(t.BuildUp.At, "Quantity")})
	}
	return out
}

// norms is the norms of the tasks of rows, each once, in the order in which
// they come.
func (m maker) norms(rows []takeoff.Row) []Line {
	var out []Line
	seen := map[origin.Cell]bool{}
	for _, r := range rows {
		for _, h := range m.Hours.Lines {
			for _, t := range h.Tasks {
				if n := t.Norm; h.Ref == r.Work.Ref && n.Task != "" && !seen[n.At] {
					seen[n.At] = true
					out = append(out, Line{Label: n.Task, Value: n.Hours.String(), Unit: "h/" + string(n.Unit), How: normWords(n), At: m.Job.Under(n.At, "Hours")})
				}
			}
		}
	}
	return out
}

// normWords is what else the norm says: what it covers, where, and from when.
func normWords(n rates.Norm) string {
	setUp, learning, place, from := "", "", "aboard", ""
	if !n.SetUp.IsZero() {
		setUp = "set-up " + number(n.SetUp) + " h"
	}
	if !n.Learning.IsZero() {
		learning = "learning " + n.Learning.String()
	}
	if n.Place == rates.Bench {
		place = "at the bench, where access does not count"
	}
	if !n.From.IsZero() {
		from = inForce(n.From)
	}
	return joined("; ", n.Description, setUp, learning, place, n.Source, from)
}

// plainly reports a driver that is the amount as it stands.
func plainly(u rates.BuildUp, t takeoff.Taken, key measure.Unit) bool {
	return u.Per == "" && u.Quantity.Equal(decimal.New(1, 0)) && t.Unit == key
}

// driverName is a driver within words; a number and a row are named by their
// units.
func driverName(d rates.Driver) string {
	switch d {
	case rates.ByNr, rates.ByItem:
		return ""
	case rates.ByFastening, rates.ByJoint:
		return string(d) + "s"
	case rates.ByJointToOld:
		return "joints to old work"
	}
	return string(d)
}

// takenWords is how the amount of a task or a material comes from its driver.
func takenWords(u rates.BuildUp, t takeoff.Taken, key measure.Unit) string {
	driver := joined(" ", number(t.Driver), string(t.Unit))
	if name := driverName(u.By); name != "" {
		driver += " of " + name
	}
	if plainly(u, t, key) {
		return driver
	}
	return fmt.Sprintf("%s %s x %s", number(u.Quantity), key, driver)
}
