// Package changes reconciles two issues of a job: what the new one says otherwise, and
// what each of it is worth.
//
// Two jobs come in, each with its price book; a bridge goes out, from the total
// of the old to the total of the new, in steps of one fixed order. From the old issue on, parts of the new one
// are taken over step by step, and after each step the job is priced by the stages
// of estimate.Run. What a step is worth is the total after it less the total before it, so that
// the steps add up to the difference by themselves; after the last the job is the
// new issue, and what it comes to is held against that issue priced by itself.
// Which column of the workbook belongs to which step stands in table.go, once.
//
// The timber is planned anew in one step alone. Down to that, the purchase of the old
// issue is held: the sticks and their sawing stay, and rows that are new or of
// another quantity bear its cost by sawn volume (cutting.Held says how). So a
// board more is worth what such boards cost, and what a better or a worse purchase
// makes of all of them together is told by itself.
//
// What a row names that the old issue does not have (a build-up, a norm, a trade, a
// material, a section) comes with the rows, at the prices of the new issue. What
// is gone stays until nothing can name it. A step that cannot be priced before a later one is
// taken over, as where a norm's unit and the material it is measured with change
// together, is told of together with the next.
//
// Worked: 120 m at 0.25 h and 40.00 an hour are 1,200.00; 150 m at 42.00 are 1,575.00. Quantities
// are worth 30 x 0.25 x 40.00 = 300.00, pay 150 x 0.25 x 2.00 = 75.00, in all 375.00.
package changes

import (
	"fmt"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/risk"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// Input is one issue of a job: what was read, and its price book.
type Input struct {
	Job  job.Job
	Book rates.Book
}

// Bridge is two issues reconciled.
type Bridge struct {
	Old, New Issue
	Steps    []Step // all of them, in their order
}

// Issue is one issue as it is priced by itself.
type Issue struct {
	Book       string // base name of the workbook
	Vessel     string
	Reference  string
	TenderDate time.Time
	Currency   string
	Yard       string
	Paper      job.Paper
	Weeks      decimal.Decimal
	Net, Total money.Amount
}

// Difference is what the new issue comes to beyond the old, with VAT.
func (b Bridge) Difference() money.Amount { return b.New.Total.Sub(b.Old.Total) }

// Shown is the steps that documents show: all but the last, and that where it has anything.
func (b Bridge) Shown() []Step {
	if len(b.Steps[Rest].Changes) > 0 || !b.Steps[Rest].Worth.IsZero() {
		return b.Steps
	}
	return b.Steps[:Rest]
}

// Step is what one step is worth.
type Step struct {
	Kind    Kind
	Net     money.Amount // before VAT
	Worth   money.Amount // on the total with VAT
	After   money.Amount // the total with VAT once it is taken over
	Changes []Change     // by sheet
	Lines   []Line       // whose amounts it moves, the largest move first; they come to Worth
	// Cannot says why the step cannot be priced by itself; it is worth nothing then, and the
	// next that can be is worth both. Blank of a step that can.
	Cannot string
}

// Listed is what the new issue says otherwise, with the step each change belongs to; nothing is
// priced.
func Listed(old, new Input) []Change {
	return pair{Input{old.Job, inForce(&old.Job, &old.Book)}, Input{new.Job, inForce(&new.Job, &new.Book)}}.list()
}

// Reconcile goes from the total of an old issue to that of a new one. Both are priced and
// hold no error. The problems are those of the two together: there is no bridge between
// issues in different money, and those of different vessels or references are warned of.
func Reconcile(old, new estimate.Result) (Bridge, problem.List) {
	found := unlike(old.Job, new.Job)
	if found.HasErrors() {
		return Bridge{}, found
	}
	p := pair{
		Input{old.Job, inForce(&old.Job, &old.Book)},
		Input{new.Job, inForce(&new.Job, &new.Book)},
	}
	out := Bridge{Old: issue(old), New: issue(new)}
	listed := p.list()
	b := bridge{pair: p, held: cutting.Hold(old.Plan, old.Takeoff), plan: new.Plan}
	last := old.Bill
	cannot := ""
	for _, k := range Kinds() {
		s := Step{Kind: k, After: last.Total}
		for _, c := range listed {
			if c.Step == k {
				s.Changes = append(s.Changes, c)
			}
		}
		// In a step of which nothing is listed nothing is taken over, but in the three in which
		// rows that others name come and go, and timber is planned.
		if len(s.Changes) > 0 || len(listed) > 0 && (k == Members || k == TimberPlan || k == Rest) {
			next, problems := b.priced(k)
			if s.Cannot = stopped(problems); s.Cannot == "" {
				s.Net, s.Worth, s.After = next.Net.Sub(last.Net), next.Total.Sub(last.Total), next.Total
				s.Lines = moved(last, next)
				last = next
			}
			cannot = s.Cannot
		}
		out.Steps = append(out.Steps, s)
	}
	if cannot != "" || !last.Total.Equal(new.Bill.Total) || !last.Net.Equal(new.Bill.Net) {
		panic(fmt.Sprintf("changes: taken over step by step %s comes to %s, net %s, and priced by itself to %s, net %s; %s",
			new.Job.Book, last.Total, last.Net, new.Bill.Total, new.Bill.Net, cannot))
	}
	return out, found
}

func issue(r estimate.Result) Issue {
	return Issue{Book: r.Job.Book, Vessel: r.Job.Vessel, Reference: r.Job.Reference, TenderDate: r.Job.TenderDate, Currency: r.Job.Currency, Paper: r.Job.Paper,
		Yard: r.Job.Yard, Weeks: r.Programme.Weeks, Net: r.Bill.Net, Total: r.Bill.Total}
}

// unlike is what makes two issues doubtful as issues of one job.
func unlike(old, new job.Job) problem.List {
	var found problem.List
	at := func(heading string, code problem.Code, was, now string) {
		if !rates.Same(was, now) {
			found.Add(problem.Problem{Code: code, At: new.Cell(heading), With: old.Cell(heading),
				Text: fmt.Sprintf("%q is %q in the old issue; two issues of one job are wanted", now, was)})
		}
	}
	at("Currency", problem.IssueCurrency, old.Currency, new.Currency)
	at("Vessel", problem.IssueUnlike, old.Vessel, new.Vessel)
	at("Tender reference", problem.IssueUnlike, old.Reference, new.Reference)
	return found
}

// bridge is two issues while one is taken over from the other.
type bridge struct {
	pair
	held cutting.Held
	plan cutting.Plan // of the new issue, from the step on in which timber is planned anew
}

// priced is the bill after a step, by the stages of estimate.Run.
func (b *bridge) priced(k Kind) (bill.Bill, problem.List) {
	in := b.at(k)
	j, book := &in.Job, &in.Book
	var problems problem.List
	measured, found := takeoff.Measure(j, book)
	problems.Join(found)
	plan := b.plan
	if k < TimberPlan {
		plan, b.held, found = b.held.Bear(j, book, measured)
		problems.Join(found)
	}
	hours, found := labour.Reckon(j, book, measured)
	problems.Join(found)
	laid, found := programme.Lay(j, book, hours)
	problems.Join(found)
	priced, found := price.Price(j, book, measured, plan, hours, laid)
	problems.Join(found)
	held := risk.Hold(j, book, hours, laid, priced)
	cast, found := bill.Cast(j, book, priced, held, laid)
	problems.Join(found)
	return cast, problems
}

// stopped is the first error of a list; blank where there is none.
func stopped(list problem.List) string {
	for _, p := range list {
		if p.Severity() == problem.Error {
			return p.Text
		}
	}
	return ""
}
