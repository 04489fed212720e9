package sheets

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/templates/grid"
)

// Columns of the members: what was given, the drivers for all Nr of the row,
// and the new timber.
const (
	memRef = iota + 1
	memName
	memTreatment
	memNr
	memNew
	memSided
	memMoulded
	memSeams
	memToOld
	memLength
	memFace
	memGirth
	memVolume
	memSeam
	memFastening
	memJoint
	memJointToOld
	memWeight
	memDifficulty
	memAccess
	memPieces
	memThick
	memWide
	memLong
	memSawn
	memStock
)

// keptPlaces are more than a spreadsheet keeps of a size: 14' 7" is 14.58333333333333 ft
// there, so that three of them are 43.75 ft to its last digit.
const keptPlaces = 16

// memberCells says on which row of the sheet a row of the schedule stands.
type memberCells struct {
	row  takeoff.Row
	line int
}

// toMember is the Ref of a row of the schedule, that leads to where it is measured.
func (w *working) toMember(ref string) grid.Cell {
	c := words(ref, jump)
	c.Link = w.pages[memberSheet].cell(memRef, w.measured[ref].line)
	return c
}

func (w *working) rowOf(ref string) takeoff.Row {
	r, ok := w.rows[ref]
	if !ok {
		panic("sheets: row " + ref + " is priced and was not taken off")
	}
	return r
}

// members lays out the schedule as it was taken off: the drivers are formulas
// of the sizes beside them, the least sawn section and the pieces of a run are
// as takeoff found them.
func (w *working) members() {
	u := w.units
	p := w.page(memberSheet, "Members and other work, as taken off", "Drivers are for all of the row. Pieces, their sizes and the timber they are got from are as priced; "+
		"run again to choose anew. Difficulty and access may be changed here; a size is better changed in the yard's workbook, since the timber bought follows it only there.",
		7, 28, 10, 8, 7, 7, 8, 6, 6, 8, 8, 8, 9, 8, 7, 6, 6, 9, 6, 7, 7, 7, 7, 8, 9, 17)
	length, size := " "+string(u.length), " "+string(u.size)
	head := p.add(heads("Ref", "Member", "Treatment, or unit", ">Nr, or quantity", ">New"+length, ">Sided"+size, ">Moulded"+size, ">Seams", ">Joints to old", ">Length"+length,
		">Face "+string(u.area), ">Girth "+string(u.area), ">Volume "+string(u.volume), ">Seam"+length, ">Fasten- ings nr", ">Joints nr", ">To old nr", ">Weight kg",
		">Diffi- culty", ">Access", ">Pieces in one", ">Sawn thick"+size, ">Sawn wide"+size, ">Mean piece"+length, ">Sawn m3", "<Timber")...)
	p.repeat(head, head)
	p.Freeze.Cols = memName
	for col := memNr; col <= memToOld; col++ {
		p.Notes = append(p.Notes, grid.Note{Cell: at(col, head), Text: "Changed here, the quantities, the hours and the billed quantity follow, but not the pieces, the timber bought, the crossings of fastenings and the weeks: they stay as priced. Change it in the yard's workbook and run again."})
	}
	pieces := map[string]takeoff.Piece{}
	for _, piece := range w.Takeoff.Pieces {
		pieces[piece.Ref] = piece
	}
	all := w.bySection()
	items := false
	for _, s := range all {
		banded := false
		for _, r := range s.rows {
			if r.Member == nil {
				items = true
				continue
			}
			w.memberBand(p, s, &banded)
			piece, ok := pieces[r.Work.Ref]
			p.add(w.member(p, r, piece, ok)...)
		}
	}
	if items {
		p.gap()
		row := append(heads("Ref", "", "Unit", ">Quantity", "<Work without timber"), blanks(memStock-memNew, heading)...)
		row[memDifficulty-1], row[memAccess-1] = words("Diffi- culty", headRow), words("Access", headRow)
		p.merge(p.add(row...), memNew, memWeight)
	}
	for _, s := range all {
		banded := false
		for _, r := range s.rows {
			if i := r.Item; i != nil {
				w.memberBand(p, s, &banded)
				n := p.next()
				w.measured[i.Ref] = memberCells{r, n}
				row := append([]grid.Cell{words(i.Ref, plain), {}, words(string(i.Unit), plain), figure(i.Quantity, asFine(i.Quantity, 3)),
					words(i.Description, beside)}, make([]grid.Cell, memAccess-memNew)...)
				p.merge(n, memNew, memWeight) // the columns of timber are free
				row[memDifficulty-1], row[memAccess-1] = w.factors(r.Work)
				p.add(row...)
			}
		}
	}
	p.Print.Area = "$A$1:$Z$" + itoa(p.next()-1)
}

// factors are the difficulty and the access of a row. They may be changed where
// they bear on hours: access not where all of them are at the bench.
func (w *working) factors(work job.Work) (difficulty, access grid.Cell) {
	difficulty, access = figure(work.Difficulty, priceFormat), figure(work.Access, priceFormat)
	for _, l := range w.Hours.Lines {
		if l.Ref != work.Ref {
			continue
		}
		difficulty = typed(work.Difficulty, priceFormat)
		for _, t := range l.Tasks {
			if t.Norm.Place != rates.Bench {
				access = typed(work.Access, priceFormat)
			}
		}
	}
	return difficulty, access
}

// memberBand heads the rows of a section in a table of the schedule, before the
// first of them. The summary leads to the members of a section, or to its other
// work where it has none.
func (w *working) memberBand(p *page, s sectionRows, banded *bool) {
	if *banded {
		return
	}
	*banded = true
	n := p.add(append([]grid.Cell{words(s.section, band), words(s.title, band)}, blanks(memStock-memName, band)...)...)
	if k := rates.Key(s.section); w.membersOf[k] == "" {
		w.membersOf[k] = p.cell(memRef, n)
	}
	w.leadsBack(p, n, memName, s.section)
}

// member is one row of the schedule of members.
func (w *working) member(p *page, r takeoff.Row, piece takeoff.Piece, timber bool) []grid.Cell {
	m, n, u := r.Member, p.next(), w.units
	w.measured[m.Ref] = memberCells{r, n}
	row := make([]grid.Cell, memStock)
	row[memRef-1], row[memName-1], row[memTreatment-1] = words(m.Ref, plain), words(named(m), wrapped), words(string(m.Treatment), wrapped)
	row[memNr-1] = figure(decimal.New(int64(m.Nr), 0), countFormat)
	row[memNew-1] = figure(m.New().In(u.length, keptPlaces), fixed(3))
	if m.Sided > 0 {
		row[memSided-1] = figure(m.Sided.In(u.size, keptPlaces), "0.0##")
	}
	if m.Moulded > 0 && (m.Shape == job.Square || m.Shape == "") {
		row[memMoulded-1] = figure(m.Moulded.In(u.size, keptPlaces), "0.0##")
	}
	if !m.Seams.IsZero() {
		row[memSeams-1] = figure(m.Seams, asFine(m.Seams, 2))
	}
	if m.Joints > 0 {
		row[memToOld-1] = figure(decimal.New(int64(m.Joints), 0), countFormat)
	}
	for _, d := range w.drivers(r, n) {
		if q, ok := r.Amount(d.by); ok && !q.IsZero() && d.formula != "" {
			amount := q.In(d.unit, keptPlaces)
			row[d.col-1] = live(d.formula, amount, fixed(d.places))
		}
	}
	row[memDifficulty-1], row[memAccess-1] = w.factors(m.Work)
	if timber {
		row[memPieces-1] = chosen(decimal.New(int64(r.PiecesEach), 0), countFormat)
		row[memThick-1] = chosen(piece.Thickness.In(u.size, keptPlaces), "0.0##")
		row[memWide-1] = chosen(piece.Width.In(u.size, keptPlaces), "0.0##")
		row[memLong-1] = chosen(piece.Length.In(u.length, keptPlaces), "0.000")
		volume := at(memNr, n) + "*" + at(memPieces, n) + "*" + convert(at(memThick, n), u.size, measure.M) + "*" + convert(at(memWide, n), u.size, measure.M) +
			"*" + convert(at(memLong, n), u.length, measure.M)
		row[memSawn-1] = live("ROUND("+volume+",6)", piece.Sawn, volumeFormat)
		row[memStock-1] = words(cmp.Or(piece.Stock, piece.Timber), beside)
	}
	return row
}

func named(m *job.Member) string {
	if m.Side != "" {
		return m.Member + ", " + m.Side
	}
	return m.Member
}

// driver is one driver of a member as a formula of its sizes.
type driver struct {
	by      rates.Driver
	col     int
	unit    measure.Unit
	places  int32
	formula string // "" where another sheet gives it
}

// drivers are the drivers of a member on a row of the sheet, all but what
// fastenings the rules give, which stand where they are counted.
func (w *working) drivers(r takeoff.Row, n int) []driver {
	u, m := w.units, r.Member
	sided, moulded := convert(at(memSided, n), u.size, u.length), convert(at(memMoulded, n), u.size, u.length)
	length, volume := at(memLength, n), at(memVolume, n)
	girth := "2*(" + at(memSided, n) + "+" + at(memMoulded, n) + ")"
	section := sided + "*" + moulded
	switch m.Shape {
	case job.Round:
		moulded, girth, section = sided, "3.14159265358979*"+at(memSided, n), "0.785398163397448*("+sided+")^2"
	case job.Eight:
		moulded, girth, section = sided, "8*(2^0.5-1)*"+at(memSided, n), "2*(2^0.5-1)*("+sided+")^2"
	}
	weight := ""
	if has(w.density, w.timberOf(r)) {
		weight = convert(volume, u.volume, measure.M3) + "*" + w.density.of("timber", w.timberOf(r))
	}
	return []driver{
		{rates.ByLength, memLength, u.length, 3, at(memNr, n) + "*" + at(memNew, n)},
		{rates.ByFace, memFace, u.area, 2, length + "*" + moulded},
		{rates.ByGirth, memGirth, u.area, 2, length + "*" + convert(girth, u.size, u.length)},
		{rates.ByVolume, memVolume, u.volume, 4, length + "*" + section},
		{rates.BySeam, memSeam, u.length, 3, length + "*" + at(memSeams, n)},
		{rates.ByFastening, memFastening, measure.Nr, 0, ""},
		{rates.ByJoint, memJoint, measure.Nr, 0, at(memNr, n) + "*(" + at(memPieces, n) + "-1)"},
		{rates.ByJointToOld, memJointToOld, measure.Nr, 0, at(memNr, n) + "*" + at(memToOld, n)},
		{rates.ByWeight, memWeight, measure.Kg, 1, weight},
	}
}

// timberOf is the timber of a row: as named, else that of its stock line.
func (w *working) timberOf(r takeoff.Row) string {
	if r.Member.Timber != "" || r.Member.Stock == "" {
		return r.Member.Timber
	}
	s, _ := w.Book.StockRow(r.Member.Stock, w.Job.TenderDate)
	return s.Timber
}

// taken is the driver of a build-up row as it is taken, to 0.000001 in the unit
// asked: a formula of the row's driver in the sheet of members.
func (w *working) taken(ref string, by rates.Driver, t takeoff.Taken) grid.Cell {
	fine := fixed(3)
	switch t.Unit.Dimension() {
	case measure.Count:
		fine = countFormat
	case measure.VolumeMeasure:
		fine = fixed(6)
	}
	if by == rates.ByItem {
		return figure(t.Driver, countFormat)
	}
	m := w.measured[ref]
	col, unit := w.driverCell(m, by)
	if unit.Dimension() != t.Unit.Dimension() {
		panic(fmt.Sprintf("sheets: row %s was taken by %s in %s, which stands in %s", ref, by, t.Unit, unit))
	}
	return live("ROUND("+convert(w.pages[memberSheet].cell(col, m.line), unit, t.Unit)+",6)", t.Driver, fine)
}

// driverCell is the column of the sheet of members that a driver of a row stands
// in, and its unit there; of work without timber every driver is its quantity.
func (w *working) driverCell(c memberCells, by rates.Driver) (int, measure.Unit) {
	if i := c.row.Item; i != nil {
		return memNr, i.Unit
	}
	if by == rates.ByOldVolume {
		by = rates.ByVolume
	}
	for _, d := range w.drivers(c.row, c.line) {
		if d.by == by {
			return d.col, d.unit
		}
	}
	return memNr, measure.Nr
}
