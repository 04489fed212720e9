// Package estimate prices a refit: what the yard told us of a job and its
// price book go in, the finished bill and all its workings come out. Run is the
// whole order of work; every stage is a plain function from finished inputs to a
// new result and a list of problems.
package estimate

import (
	"futtock/estimate/bill"
	"futtock/estimate/cash"
	"futtock/estimate/cutting"
	"futtock/estimate/fabric"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/risk"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/problem"
)

// Result is everything known of a job once it is priced. While Problems holds
// an error the rest may be incomplete, and no document is made of it.
type Result struct {
	Job         job.Job
	Book        rates.Book
	Takeoff     takeoff.Takeoff
	Fabric      fabric.Fabric
	Plan        cutting.Plan
	Laid        []takeoff.Laid // butted runs with lengths chosen, as best laid
	Hours       labour.Hours
	Programme   programme.Programme
	Priced      price.Priced
	Contingency risk.Contingency
	Bill        bill.Bill
	Cash        cash.Cash
	Problems    problem.List
}

// Run prices a job from its price book: the whole order of work. What does not
// make sense and what each stage found is gathered in Problems; a stage goes on
// with what it can, so that as much as may be is found at once. The job and the
// book are not changed, and the same two give the same result on every run.
func Run(j job.Job, b rates.Book) Result {
	r := Result{Job: j, Book: b, Problems: job.Check(&j, &b)}

	var found [9]problem.List
	r.Takeoff, found[0] = takeoff.Measure(&j, &b)
	r.Fabric, found[1] = fabric.Reckon(&j, r.Takeoff)
	r.Plan, found[2] = cutting.Cut(&j, &b, r.Takeoff)
	r.Laid, found[3] = takeoff.Planking(&j, &b, r.Takeoff, r.Plan.Pieces)
	r.Hours, found[4] = labour.Reckon(&j, &b, r.Takeoff)
	r.Programme, found[5] = programme.Lay(&j, &b, r.Hours)
	r.Priced, found[6] = price.Price(&j, &b, r.Takeoff, r.Plan, r.Hours, r.Programme)
	r.Contingency = risk.Hold(&j, &b, r.Hours, r.Programme, r.Priced)
	r.Bill, found[7] = bill.Cast(&j, &b, r.Priced, r.Contingency, r.Programme)
	r.Cash, found[8] = cash.Lay(&j, r.Programme, r.Priced, r.Bill)

	for _, f := range found {
		r.Problems.Join(f)
	}
	return r
}
