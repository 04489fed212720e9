package takeoff

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// Taken is how much of one norm, material, plant or work a row of the schedule
// takes by one row of its build-up.
type Taken struct {
	Driver decimal.Decimal // the driver of the row in Unit, to 0.000001
	Unit   measure.Unit    // what Driver is stated in
	Amount decimal.Decimal // Build-up Quantity x Driver, in the key's own unit, exact
}

// Take is what row r takes by the build-up row u of a key stated in unit key.
// The driver is taken, to 0.000001, in the unit in brackets after Measured by
// where there is one; Quantity is then so much of the key for each of that
// unit. Without brackets it is taken in the key's own unit, which must be of
// the same dimension; but what is counted, and the row itself, need not agree:
// 0.2 kg by fastening is 0.2 kg for each. A seam of 12.5 m at 0.35 kg a metre,
// Measured by "seam (m)", takes 4.375 kg.
//
// Where the amount cannot be had the problem is returned: driver-missing at
// the row's Build-up, unlike-dimensions at the build-up's Measured by.
func (r Row) Take(u rates.BuildUp, key measure.Unit) (Taken, *problem.Problem) {
	q, ok := r.Amount(u.By)
	if !ok {
		return Taken{}, &problem.Problem{
			Code: problem.DriverMissing,
			At:   r.Work.BuildUpAt,
			Text: fmt.Sprintf("build-up %q measures %q by %s, which row %q does not have; a row that has it is wanted, or another build-up", u.Name, u.Item, u.By, r.Work.Ref),
		}
	}
	if q.Dim == measure.None { // a sum to which nothing was added
		q.Dim = u.By.Dimension()
	}
	unit := statedIn(u.Per, key, q.Dim)
	if unit == "" {
		return Taken{}, &problem.Problem{
			Code: problem.UnlikeDimensions,
			At:   u.DriverAt,
			Text: unlike(u, key),
		}
	}
	driver := q.In(unit, 6)
	return Taken{Driver: driver, Unit: unit, Amount: u.Quantity.Mul(driver)}, nil
}

// statedIn is the unit a driver of dimension dim is taken in, or none.
func statedIn(per, key measure.Unit, dim measure.Dimension) measure.Unit {
	switch {
	case per != "":
		if per.Dimension() == dim {
			return per
		}
	case key.Dimension() == dim:
		return key
	case dim == measure.Count:
		return measure.Nr
	case dim == measure.Item:
		return measure.One
	}
	return ""
}

func unlike(u rates.BuildUp, key measure.Unit) string {
	if u.Per != "" {
		return fmt.Sprintf("%q cannot be measured in %s", u.By, u.Per)
	}
	return fmt.Sprintf("%q cannot be measured in %s, the unit of %q; a driver that can is wanted, or one with its own unit in brackets",
		u.By, key, u.Item)
}
