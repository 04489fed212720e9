package takeoff

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// pi and the root of two, to 25 places.
var (
	pi    = decimal.RequireFromString("3.1415926535897932384626434")
	root2 = decimal.RequireFromString("1.4142135623730950488016887")
	two   = decimal.New(2, 0)
)

// amounts is every driver of a member that its sizes allow, for all Nr of it,
// exact. Those of new timber are always there: where a size is missing the
// problem has been told and they are nil.
func (s *schedule) amounts(m *job.Member, row Row) map[rates.Driver]measure.Quantity {
	nr := decimal.New(int64(m.Nr), 0)
	length := m.New().Quantity().Times(nr)
	amounts := map[rates.Driver]measure.Quantity{
		rates.ByItem:       measure.Of(decimal.New(1, 0), measure.One),
		rates.ByNr:         measure.Of(nr, measure.Nr),
		rates.ByLength:     length,
		rates.BySeam:       length.Times(m.Seams),
		rates.ByJoint:      measure.Of(nr.Mul(decimal.New(int64(row.PiecesEach-1), 0)), measure.Nr),
		rates.ByJointToOld: measure.Of(nr.Mul(decimal.New(int64(m.Joints), 0)), measure.Nr),
		rates.ByFastening:  measure.Of(fastened(row), measure.Nr),
	}
	fresh := m.Treatment.TakesTimber()
	sided, moulded := across(m)
	if moulded > 0 || fresh {
		amounts[rates.ByFace] = area(length, moulded.Metres())
	}
	if (sided > 0 && moulded > 0) || fresh {
		amounts[rates.ByGirth] = area(length, girth(m.Shape, sided, moulded))
		volume, _ := Volume(m, m.New())
		amounts[rates.ByVolume] = volume
		amounts[rates.ByOldVolume] = volume
		name := s.timberOf(m)
		timber, known := s.timber[rates.Key(name)]
		density, weighed := timber.Density, s.asks(m, rates.ByWeight)
		if density.Sign() <= 0 && weighed && (known || name == "") { // an unknown key is told where keys are checked
			s.add(problem.DensityMissing, m, m.TimberAt, "timber %q has no Density, and build-up %q is measured by weight; kilograms a cubic metre are wanted",
				name, m.BuildUp)
		}
		if density.Sign() > 0 || weighed {
			amounts[rates.ByWeight] = measure.Quantity{Base: volume.Base.Mul(density), Dim: measure.Mass}
		}
	}
	return amounts
}

// Volume is the finished volume of all Nr of a member over so much of its length,
// exact; false, and nil, where it has no length or section.
func Volume(m *job.Member, along measure.Length) (measure.Quantity, bool) {
	sided, moulded := across(m)
	if along <= 0 || sided <= 0 || moulded <= 0 {
		return measure.Quantity{Dim: measure.VolumeMeasure}, false
	}
	base := along.Metres().Mul(decimal.New(int64(m.Nr), 0)).Mul(section(m.Shape, sided, moulded))
	return measure.Quantity{Base: base, Dim: measure.VolumeMeasure}, true
}

func area(length measure.Quantity, width decimal.Decimal) measure.Quantity {
	return measure.Quantity{Base: length.Base.Mul(width), Dim: measure.AreaMeasure}
}

// girth is the measure round a section, in metres: pi d of round work,
// 8 (root2 - 1) d of eight-sided work d across the flats, else 2 (sided + moulded).
func girth(shape job.Shape, sided, moulded measure.Length) decimal.Decimal {
	d := sided.Metres()
	switch shape {
	case job.Round:
		return pi.Mul(d)
	case job.Eight:
		return root2.Sub(decimal.New(1, 0)).Mul(decimal.New(8, 0)).Mul(d)
	}
	return d.Add(moulded.Metres()).Mul(two)
}

// section is the area of a section, in m2: pi/4 d2 of round work, 2 (root2 - 1) d2
// of eight-sided work, else sided x moulded.
func section(shape job.Shape, sided, moulded measure.Length) decimal.Decimal {
	d := sided.Metres()
	switch shape {
	case job.Round:
		return pi.Mul(d).Mul(d).Mul(decimal.New(25, -2))
	case job.Eight:
		return root2.Sub(decimal.New(1, 0)).Mul(two).Mul(d).Mul(d)
	}
	return d.Mul(moulded.Metres())
}

// asks reports whether the row's build-up is anywhere measured by the driver.
func (s *schedule) asks(m *job.Member, d rates.Driver) bool {
	if m.BuildUp == "" {
		return false
	}
	key := rates.Key(m.BuildUp)
	drivers, known := s.asked[key]
	if !known {
		drivers = map[rates.Driver]bool{}
		for _, u := range s.book.BuildUp(m.BuildUp) {
			drivers[u.By] = true
		}
		s.asked[key] = drivers
	}
	return drivers[d]
}

// item measures a row of work without timber: every driver of the dimension of
// its Unit reads its Quantity. What no driver measures, such as hours, days,
// litres or lifts, is counted: nr reads it in its own unit.
func item(i *job.Item) Row {
	row := Row{Work: i.Work, Item: i, PiecesEach: 1}
	row.Amounts = map[rates.Driver]measure.Quantity{rates.ByItem: measure.Of(decimal.New(1, 0), measure.One)}
	if i.Unit == "" { // reading has told that the unit is missing
		return row
	}
	quantity := measure.Of(i.Quantity, i.Unit)
	counted := true
	for _, d := range rates.Drivers() {
		if d != rates.ByItem && d.Dimension() == quantity.Dim {
			row.Amounts[d] = quantity
			counted = false
		}
	}
	if counted {
		row.Amounts[rates.ByNr] = quantity
	}
	return row
}
