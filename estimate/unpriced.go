package estimate

import (
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/problem"
)

// Form is a bill for others to price, with the job it is of. While Problems
// holds an error no document is made of it.
type Form struct {
	Job      job.Job
	Bill     bill.Form
	Problems problem.List
}

// Unpriced makes the bill for others to price: Run's way as far as the quantities, with
// no stock, hours or prices asked. Of the price book it takes what quantities
// and remarks hang on, where it is there: densities, for lines billed by weight,
// and which timber is the owner's.
func Unpriced(j job.Job, b rates.Book) Form {
	f := Form{Job: j, Problems: job.CheckUnpriced(&j)}
	measured, found := takeoff.Unpriced(&j, &b)
	f.Problems.Join(found)
	lines, found := price.Unpriced(&j, &b, measured)
	f.Problems.Join(found)
	f.Bill = bill.Open(&j, lines)
	return f
}
