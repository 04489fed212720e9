package sheets

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/fabric"
	"futtock/estimate/job"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the fabric sheet, of its sections and of its rows.
const (
	fabRef = iota + 1
	fabName
	fabTreatment
	fabNr
	fabLong
	fabRenewed
	fabSided
	fabMoulded
	fabBefore // volumes
	fabKept
	fabNew
	fabGone
	fabMembers // numbers
	fabWhole
	fabInPart
	fabNewNr
	fabGoneNr
	fabByNumber
	fabByVolume
)

// fabric lays out how much of the old ship stays: by section with a chart, and
// under it every row it is counted from. Sizes and numbers are those of the sheet
// of members; all but a whole length of which part is renewed is live.
func (w *working) fabric() {
	f := w.Fabric
	if !f.All.Any() {
		return
	}
	length, size, volume := " "+string(w.units.length), " "+string(w.units.size), " "+string(f.Unit)
	p := w.page(fabricSheet, "Old fabric kept", "Of the members in the schedule, by rows in the total. Retained, preserved, refastened, off and back: kept whole. Part: Length less Renewed length is kept. "+
		"Renewed: the old is taken to have had the finished sizes of the new. A graving piece counts by its volume alone. Members that are not entered are not known here. "+
		"Work on members that have rows of their own, such as hood ends refastened, is to leave Sided and Moulded blank: it is then of fastenings, and not counted.",
		9, 34, 13, 7, 9, 9, 8, 9, 10, 10, 10, 10, 9, 8, 8, 9, 9, 9, 9)
	names := func(first, second string) []grid.Cell {
		row := heads(first, second, "", "", "", "", "", "", ">Before"+volume, ">Kept"+volume, ">Renewed"+volume, ">Removed"+volume,
			">Members", ">Kept whole", ">Kept in part", ">Renewed", ">Removed", ">Kept whole, of all", ">Kept, by volume")
		return row
	}
	head := p.add(names("Section", "Title")...)
	top := p.next()
	for range f.Sections { // filled in once the rows are placed
		p.gap()
	}
	all := p.add()
	w.fabricAll = all
	p.gap()
	chart := p.next()
	for range chartRows + 1 {
		p.gap()
	}
	p.Print.Breaks = append(p.Print.Breaks, p.next())
	row := names("Ref", "Member")
	for col, name := range map[int]string{fabTreatment: "Treatment", fabNr: ">Nr", fabLong: ">Length" + length, fabRenewed: ">Of it renewed" + length, fabSided: ">Sided" + size, fabMoulded: ">Moulded" + size} {
		row[col-1] = heads(name)[0]
	}
	for _, col := range []int{fabByNumber, fabByVolume} {
		row[col-1].Text = ""
	}
	p.Print.Repeat = "$" + itoa(p.next()) + ":$" + itoa(p.next())
	p.add(row...)
	for n, s := range f.Sections {
		p.add(words(s.Section, band), words(s.Title, band))
		from := p.next()
		for _, r := range s.Rows {
			p.add(w.fabricRow(p, r)...)
		}
		to := p.next() - 1
		p.Rows[top+n-1].Cells = w.fabricSums(top+n, s.Count, plain, func(col int) string { return sumOf(col, from, to) })
		key, name := words(s.Section, jump), words(s.Title, jump)
		key.Link, name.Link = p.cell(fabRef, from), p.cell(fabRef, from)
		p.put(fabRef, top+n, key)
		p.put(fabName, top+n, name)
	}
	p.Rows[all-1].Cells = w.fabricSums(all, f.All, strong, func(col int) string { return sumOf(col, top, all-1) })
	p.put(fabName, all, words("All members named", strong))
	w.fabricApart(p)
	w.fabricChart(p, head, top, all-1, chart)
	p.Print.Area = "$A$1:" + absolute(at(fabByVolume, p.next()-1))
}

// fabricOf carries the shares of the old fabric to the summary.
func (w *working) fabricOf(row func(text, to string, c grid.Cell)) {
	from := w.pages[fabricSheet]
	if from == nil {
		return
	}
	line := func(text string, col int, share money.Percent, known bool) {
		if known {
			to := from.cell(col, w.fabricAll)
			row(text, to, live(to, share.Fraction(), "0.0%"))
		}
	}
	timber, sized := w.Fabric.All.ByVolume()
	line("Old fabric kept, by volume", fabByVolume, timber, sized)
	whole, numbered := w.Fabric.All.ByNumber()
	line("Old fabric kept whole, by number", fabByNumber, whole, numbered)
}

// fabricSums is the figures of a section or of all, each a formula of its column.
func (w *working) fabricSums(n int, c fabric.Count, s grid.Style, sum func(int) string) []grid.Cell {
	row := blanks(fabByVolume, s)
	put := func(col int, formula string, d decimal.Decimal, format string) {
		row[col-1] = withFormat(grid.Reckoned(formula, d, s), format)
	}
	for _, v := range []struct {
		col int
		d   decimal.Decimal
	}{{fabBefore, c.Before}, {fabKept, c.Kept}, {fabNew, c.Renewed}, {fabGone, c.Taken}} {
		put(v.col, w.fabricRounded(sum(v.col)), v.d, fixed(w.Fabric.Unit.Places()))
	}
	for _, v := range []struct{ col, n int }{{fabMembers, c.Members}, {fabWhole, c.Whole}, {fabInPart, c.InPart}, {fabNewNr, c.New}, {fabGoneNr, c.Gone}} {
		put(v.col, sum(v.col), decimal.New(int64(v.n), 0), countFormat)
	}
	shared := func(col, part, whole int, p money.Percent, known bool) {
		if known {
			put(col, "ROUND("+at(part, n)+"/"+at(whole, n)+",3)", p.Fraction(), "0.0%")
		}
	}
	whole, numbered := c.ByNumber()
	shared(fabByNumber, fabWhole, fabMembers, whole, numbered)
	timber, sized := c.ByVolume()
	shared(fabByVolume, fabKept, fabBefore, timber, sized)
	return row
}

// fabricRounded is a formula at the places of the job's unit of volume.
func (w *working) fabricRounded(formula string) string {
	return "ROUND(" + formula + "," + itoa(int(w.Fabric.Unit.Places())) + ")"
}

// fabricRow is one row of members: its sizes from the sheet of members, what they
// come to, and where it is counted.
func (w *working) fabricRow(p *page, r fabric.Row) []grid.Cell {
	m, n, u := r.Member, p.next(), w.units
	members, line := w.pages[memberSheet], w.measured[r.Member.Ref].line
	row := make([]grid.Cell, fabByVolume)
	row[fabRef-1], row[fabName-1], row[fabTreatment-1] = w.toMember(m.Ref), words(named(m), wrapped), words(string(m.Treatment), wrapped)
	nr := decimal.New(int64(m.Nr), 0)
	row[fabNr-1] = live(members.cell(memNr, line), nr, countFormat)
	if m.Treatment == job.Part {
		row[fabLong-1] = figure(m.Length.In(u.length, keptPlaces), fixed(3))
		row[fabRenewed-1] = live(members.cell(memNew, line), m.Renewed.In(u.length, keptPlaces), fixed(3))
	} else if m.Length > 0 {
		row[fabLong-1] = live(members.cell(memNew, line), m.Length.In(u.length, keptPlaces), fixed(3))
	}
	square := m.Shape == job.Square || m.Shape == ""
	if m.Sided > 0 {
		row[fabSided-1] = live(members.cell(memSided, line), m.Sided.In(u.size, keptPlaces), "0.0##")
	}
	if m.Moulded > 0 && square {
		row[fabMoulded-1] = live(members.cell(memMoulded, line), m.Moulded.In(u.size, keptPlaces), "0.0##")
	}
	for _, c := range []struct{ col, n int }{{fabWhole, r.Whole}, {fabInPart, r.InPart}, {fabNewNr, r.New}, {fabGoneNr, r.Gone}} {
		if c.n > 0 {
			row[c.col-1] = live(at(fabNr, n), nr, countFormat)
			row[fabMembers-1] = live(at(c.col, n), nr, countFormat)
		}
	}
	if !r.Sized {
		row[fabBefore-1] = words("not sized", withAlign(remark, grid.Right))
		return row
	}
	section := convert(at(fabSided, n), u.size, u.length) + "*" + convert(at(fabMoulded, n), u.size, u.length)
	switch m.Shape {
	case job.Round:
		section = "0.785398163397448*(" + convert(at(fabSided, n), u.size, u.length) + ")^2"
	case job.Eight:
		section = "2*(2^0.5-1)*(" + convert(at(fabSided, n), u.size, u.length) + ")^2"
	}
	volume := func(long int) string {
		// The inner rounding takes off the noise of binary fractions, so that a half is not dropped.
		return w.fabricRounded("ROUND(" + convert(at(fabNr, n)+"*"+at(long, n)+"*"+section, u.volume, w.Fabric.Unit) + ",9)")
	}
	places := fixed(w.Fabric.Unit.Places())
	row[fabBefore-1] = live(volume(fabLong), r.Before, places)
	switch {
	case r.InPart > 0:
		row[fabNew-1] = live(volume(fabRenewed), r.Renewed, places)
	case m.Treatment == job.Remove:
		row[fabGone-1] = live(at(fabBefore, n), r.Taken, places)
	case !r.Renewed.IsZero():
		row[fabNew-1] = live(at(fabBefore, n), r.Renewed, places)
	}
	row[fabKept-1] = live(w.fabricRounded(at(fabBefore, n)+"-"+at(fabNew, n)+"-"+at(fabGone, n)), r.Kept, places)
	return row
}

func withAlign(s grid.Style, a grid.Align) grid.Style {
	s.Align, s.Wrap = a, false
	return s
}

// fabricApart names the rows that are of fastenings, and not counted.
func (w *working) fabricApart(p *page) {
	if len(w.Fabric.Fastenings) == 0 {
		return
	}
	p.add(words("", band), words("Of fastenings alone: not counted", band))
	for _, r := range w.Fabric.Fastenings {
		p.add(w.toMember(r.Member.Ref), words(named(r.Member), wrapped), words(string(r.Member.Treatment), wrapped),
			live(w.pages[memberSheet].cell(memNr, w.measured[r.Member.Ref].line), decimal.New(int64(r.Member.Nr), 0), countFormat))
	}
}

// fabricChart is the volumes of the sections: dark what is kept.
func (w *working) fabricChart(p *page, head, first, last, top int) {
	if last == first || !w.Fabric.All.Before.IsPositive() {
		return // one bar shows nothing
	}
	down := func(col int) string {
		return quoted(p.Name) + "!" + absolute(at(col, first)) + ":" + absolute(at(col, last))
	}
	series := func(col int) grid.Series {
		return grid.Series{Name: quoted(p.Name) + "!" + absolute(at(col, head)), Values: down(col)}
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Stacked, FromNil: true, Title: "Timber of the members named, by section: dark is kept", Alt: "A bar for every section, its volume kept, renewed and removed",
		Of: down(fabName), InTitle: string(w.Fabric.Unit), Series: []grid.Series{series(fabKept), series(fabNew), series(fabGone)},
		Range: at(fabRef, top) + ":" + at(fabByVolume, top+chartRows-1),
	})
}
