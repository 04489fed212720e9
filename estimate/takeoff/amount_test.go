package takeoff_test

import (
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

func TestTakeGivesTheAmountInTheUnitOfTheKey(t *testing.T) {
	d := decimal.RequireFromString
	row := takeoff.Row{
		Work: job.Work{Ref: "4.1", BuildUpAt: origin.Cell{Sheet: "Members", Row: 2, Col: 9}},
		Amounts: map[rates.Driver]measure.Quantity{
			rates.ByNr:        measure.Of(d("6"), measure.Nr),
			rates.ByItem:      measure.Of(d("1"), measure.One),
			rates.ByLength:    measure.Of(d("10"), measure.M),
			rates.BySeam:      measure.Of(d("12.5"), measure.M),
			rates.ByVolume:    measure.Of(d("0.5"), measure.M3),
			rates.ByFastening: measure.Of(d("120"), measure.Nr),
			rates.ByWeight:    {},
		},
	}
	for _, c := range []struct {
		name           string
		by             rates.Driver
		per, key       measure.Unit
		quantity       string
		driver, amount string
		unit           measure.Unit
		fault          problem.Code
	}{
		{name: "a length in the key's own unit", by: rates.ByLength, key: measure.M, quantity: "2", driver: "10", amount: "20", unit: measure.M},
		{name: "a length in the key's feet, to the sixth place", by: rates.ByLength, key: measure.Ft, quantity: "1", driver: "32.808399", amount: "32.808399", unit: measure.Ft},
		{name: "a seam at so many kilograms a metre", by: rates.BySeam, per: measure.M, key: measure.Kg, quantity: "0.35", driver: "12.5", amount: "4.375", unit: measure.M},
		{name: "so many kilograms for each fastening", by: rates.ByFastening, key: measure.Kg, quantity: "0.2", driver: "120", amount: "24", unit: measure.Nr},
		{name: "a number in pairs where the key is stated in pairs", by: rates.ByNr, key: measure.Pair, quantity: "1", driver: "3", amount: "3", unit: measure.Pair},
		{name: "hours for the row", by: rates.ByItem, key: measure.Hour, quantity: "4", driver: "1", amount: "4", unit: measure.One},
		{name: "a volume in cubic feet", by: rates.ByVolume, key: measure.Ft3, quantity: "1", driver: "17.657333", amount: "17.657333", unit: measure.Ft3},
		{name: "nothing of a weight to which nothing was added", by: rates.ByWeight, key: measure.Kg, quantity: "1", driver: "0", amount: "0", unit: measure.Kg},
		{name: "no amount of a length for a key stated in area", by: rates.ByLength, key: measure.M2, quantity: "1", fault: problem.UnlikeDimensions},
		{name: "no amount where the unit in brackets does not measure the driver", by: rates.BySeam, per: measure.M2, key: measure.Kg, quantity: "1", fault: problem.UnlikeDimensions},
		{name: "no amount of a driver the row does not have", by: rates.ByFace, key: measure.M2, quantity: "1", fault: problem.DriverMissing},
	} {
		t.Run(c.name, func(t *testing.T) {
			u := rates.BuildUp{
				Name: "renew plank", Item: "task", By: c.by, Per: c.per, Quantity: d(c.quantity),
				DriverAt: origin.Cell{Sheet: "Build-ups", Row: 2, Col: 4},
			}
			got, bad := row.Take(u, c.key)
			if c.fault != "" {
				at := u.DriverAt
				if c.fault == problem.DriverMissing {
					at = row.Work.BuildUpAt
				}
				if bad == nil || bad.Code != c.fault || bad.At != at {
					t.Fatalf("problem %v; want %s at %s", bad, c.fault, at)
				}
				return
			}
			if bad != nil {
				t.Fatal(bad)
			}
			if !got.Driver.Equal(d(c.driver)) || !got.Amount.Equal(d(c.amount)) || got.Unit != c.unit {
				t.Errorf("driver %s %s, amount %s; want %s %s, %s", got.Driver, got.Unit, got.Amount, c.driver, c.unit, c.amount)
			}
		})
	}
}
