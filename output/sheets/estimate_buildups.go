package sheets

import (
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/templates/grid"
)

// Columns of the build-ups, and of the fastening rules below them.
const (
	buildName = iota + 1
	buildPart
	buildKey
	buildBy
	buildEach
	buildWaste
	buildNote
	buildCell
)

// buildUpCells is where the figures of one row of a build-up stand.
type buildUpCells struct{ each, waste string }

// buildUps lays out the rows of build-ups and fastening rules that the job takes,
// each once: a quantity or a waste changed here goes to every row of the schedule
// that has the build-up.
func (w *working) buildUps() {
	builds, rules := map[origin.Cell]bool{}, map[origin.Cell]bool{}
	for _, l := range w.Hours.Lines {
		for _, t := range l.Tasks {
			builds[t.BuildUp.At] = t.Norm.Task != ""
		}
	}
	for _, i := range w.Priced.Items {
		for _, c := range i.Costs {
			for _, a := range c.Asked {
				builds[a.BuildUp.At] = true
			}
		}
	}
	for _, r := range w.Takeoff.Rows {
		for _, f := range r.Fastenings {
			rules[f.Rule.At] = true
		}
	}
	if len(builds)+len(rules) == 0 {
		return
	}
	p := w.page(buildUpSheet, "Build-ups and fastening rules", "What one line of the schedule takes, each once: a shaded figure changed here goes to every row that has the build-up or the rule, "+
		"its hours, its quantities and the bill.", 26, 11, 30, 22, 9, 8, 30, 17)
	head := p.add(heads("Build-up", "Kind", "Taken", "Measured by", ">For one", ">Waste", "<Note", "<Cell")...)
	p.repeat(head, head)
	name := ""
	for _, b := range w.Book.BuildUps {
		if !builds[b.At] {
			continue
		}
		row := []grid.Cell{words("", plain), words(string(b.Part), plain), words(b.Item, wrapped), words(by(b), wrapped), typed(b.Quantity, asFine(b.Quantity, 6)), {}, words(b.Note, aside), w.place(b.At)}
		if rates.Key(b.Name) != name {
			name = rates.Key(b.Name)
			for i := range row {
				row[i].Style.Border |= grid.Over
			}
		}
		row[buildName-1].Kind, row[buildName-1].Text = grid.Text, b.Name
		n := p.next()
		if b.Part != rates.Task {
			row[buildWaste-1] = fraction(b.Waste)
			row[buildWaste-1].Style.Border = row[buildName-1].Style.Border
		}
		p.add(row...)
		w.builds[b.At] = buildUpCells{p.cell(buildEach, n), p.cell(buildWaste, n)}
	}
	w.fastenRules(p, rules)
	p.Print.Area = "$A$1:" + absolute(at(buildCell, p.next()-1))
}

// by is what a row of a build-up is measured by, as the yard wrote it.
func by(b rates.BuildUp) string {
	if b.Per == "" {
		return string(b.By)
	}
	return string(b.By) + " (" + string(b.Per) + ")"
}

// fastenRules lays out the rows of the fastening rules that are used.
func (w *working) fastenRules(p *page, used map[origin.Cell]bool) {
	if len(used) == 0 {
		return
	}
	p.gap()
	p.add(heads("Fastening rule", ">Plank over "+string(w.units.size), "Material", ">Plank to "+string(w.units.size), ">Each crossing", "", "<Source", "<Cell")...)
	size := func(l measure.Length) grid.Cell {
		if l == 0 {
			return grid.Cell{}
		}
		return figure(l.In(w.units.size, keptPlaces), "0.0##")
	}
	for _, f := range w.Book.Fastenings {
		if !used[f.At] {
			continue
		}
		n := p.add(words(f.Rule, wrapped), size(f.Over), words(f.Material, wrapped), size(f.To), typed(f.Each, asFine(f.Each, 3)), grid.Cell{}, words(f.Source, aside), w.place(f.At))
		w.rules[f.At] = p.cell(buildEach, n)
	}
}
