// Package labour turns the schedule into hours. In go the rows as takeoff
// measured them, their build-ups and the norms in force on the tender date;
// out come, for every row and trade,
//
//	(set-up + norm x amount x learning) x difficulty x access
//
// summed over the tasks and rounded once to a hundredth of an hour. Difficulty
// multiplies all hours, access only work that is not on the bench; the hours a
// row gives itself are work aboard. Set-up stands once a row for each task, and
// not at all where there is nothing of the task to do.
//
// Six frames at a norm of 12 h each with 2 h of set-up and a learning slope of
// 85 %: on the average one takes (1 + 0.85 + 0.77292 + 0.7225 + 0.68567 +
// 0.65698) / 6 = 0.7813 of the first, so they take 2 + 12 x 6 x 0.7813 =
// 58.2536 h, and with an access of 1.2 aboard 69.90 h.
package labour

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/problem"
)

// Hours is the work of a job. Lines stand by Ref, then by trade in the order
// of the Labour sheet.
type Hours struct {
	Lines []Line
}

// Line is the hours of one trade on one row.
type Line struct {
	Ref     string
	Trade   string // as the Labour sheet spells it
	Stage   string // the row's, else its section's
	Carried job.Carried
	Hours   decimal.Decimal // to 0.01
	Tasks   []Task
}

// Task is one task of a row, before the rounding of the line it belongs to:
// Hours = (SetUp + Norm.Hours x Taken.Amount x Learning) x Difficulty x Access.
// For the hours given in the row itself Norm, BuildUp and Taken are zero and
// Given holds what was typed.
type Task struct {
	Norm       rates.Norm
	BuildUp    rates.BuildUp
	Taken      takeoff.Taken   // in the norm's unit
	SetUp      decimal.Decimal // the norm's; nil where an earlier row of the build-up bore it
	Learning   decimal.Decimal // multiplier to 0.0001; 1 where there is none
	Given      decimal.Decimal // hours of the row itself
	Difficulty decimal.Decimal
	Access     decimal.Decimal // 1 on the bench
	Hours      decimal.Decimal // exact
}

// Places is where each trade stands in the Labour sheet, by its key; a trade
// that is not there has none.
func Places(b *rates.Book) map[string]int {
	places := map[string]int{}
	for _, l := range b.Labour {
		if k := rates.Key(l.Trade); !has(places, k) {
			places[k] = len(places)
		}
	}
	return places
}

// Compare orders trades as the Labour sheet has them, those not in it last and
// by name.
func Compare(places map[string]int, a, b string) int {
	x, y := rates.Key(a), rates.Key(b)
	i, j := len(places), len(places)
	if has(places, x) {
		i = places[x]
	}
	if has(places, y) {
		j = places[y]
	}
	return cmp.Or(cmp.Compare(i, j), strings.Compare(x, y))
}

func has(places map[string]int, key string) bool {
	_, ok := places[key]
	return ok
}

// Reckon is the hours of every row that takes any, whatever it is carried as.
//
// A task without a norm in force, or measured by what the row does not have,
// is a problem and left out. Build-ups and tasks that stand nowhere in the
// workbook are found when it is read, and passed over here; that a trade has
// no rate is a matter of price.
func Reckon(j *job.Job, b *rates.Book, t takeoff.Takeoff) (Hours, problem.List) {
	r := reckoning{
		job: j, book: b, places: Places(b),
		buildUps: map[string][]rates.BuildUp{}, norms: map[string]rates.Norm{}, names: map[string]string{},
		compared: map[string]bool{},
	}
	for _, l := range b.Labour {
		if k := rates.Key(l.Trade); r.names[k] == "" {
			r.names[k] = l.Trade
		}
	}
	var h Hours
	for _, row := range t.Rows {
		h.Lines = append(h.Lines, r.row(row)...)
	}
	slices.SortStableFunc(h.Lines, func(x, y Line) int {
		return cmp.Or(job.CompareRefs(x.Ref, y.Ref), Compare(r.places, x.Trade, y.Trade))
	})
	return h, r.problems
}

// reckoning holds what is looked up once for many rows.
type reckoning struct {
	job      *job.Job
	book     *rates.Book
	places   map[string]int
	names    map[string]string // of trades, by key, as Labour spells them
	buildUps map[string][]rates.BuildUp
	norms    map[string]rates.Norm // a zero Norm where none is in force
	compared map[string]bool       // norms with what is published, by key
	problems problem.List
}

// row is the lines of one row, in the order in which their trades first come.
func (r *reckoning) row(row takeoff.Row) []Line {
	w := row.Work
	var lines []Line
	put := func(trade string, t Task) {
		at := slices.IndexFunc(lines, func(l Line) bool { return rates.Same(l.Trade, trade) })
		if at < 0 {
			if known := r.names[rates.Key(trade)]; known != "" {
				trade = known
			}
			at = len(lines)
			lines = append(lines, Line{Ref: w.Ref, Trade: trade, Stage: r.job.StageOf(w), Carried: w.Carried})
		}
		lines[at].Tasks = append(lines[at].Tasks, t)
	}
	setUp := map[string]bool{}
	for _, u := range r.buildUp(w.BuildUp) {
		if u.Part != rates.Task {
			continue
		}
		norm, ok := r.norm(u)
		if !ok {
			continue
		}
		taken, bad := row.Take(u, norm.Unit)
		if bad != nil {
			r.problems.Add(*bad)
			continue
		}
		if taken.Amount.IsZero() {
			continue
		}
		r.compare(norm, u.By)
		put(norm.Trade, task(row, u, norm, taken, !setUp[rates.Key(norm.Task)]))
		setUp[rates.Key(norm.Task)] = true
	}
	if !w.Hours.IsZero() && w.Trade != "" {
		put(w.Trade, Task{
			Learning: one, Given: w.Hours, Difficulty: w.Difficulty, Access: w.Access,
			Hours: w.Hours.Mul(w.Difficulty).Mul(w.Access),
		})
	}
	for i := range lines {
		var sum decimal.Decimal
		for _, t := range lines[i].Tasks {
			sum = sum.Add(t.Hours)
		}
		lines[i].Hours = sum.Round(2)
	}
	return lines
}

var one = decimal.New(1, 0)

// task is the hours of one task of a row; bears says that the set-up falls here.
func task(row takeoff.Row, u rates.BuildUp, norm rates.Norm, taken takeoff.Taken, bears bool) Task {
	t := Task{
		Norm: norm, BuildUp: u, Taken: taken,
		Learning: Learning(norm.Learning, series(row, u, taken)), Difficulty: row.Work.Difficulty, Access: row.Work.Access,
	}
	if bears {
		t.SetUp = norm.SetUp
	}
	if norm.Place == rates.Bench {
		t.Access = one
	}
	t.Hours = norm.Hours.Mul(taken.Amount).Mul(t.Learning).Add(t.SetUp).Mul(t.Difficulty).Mul(t.Access)
	return t
}

// series is how many times a task is done in a row, one after another: the
// amount itself where it is measured by nr, else the members of the row. An
// item is one.
func series(row takeoff.Row, u rates.BuildUp, taken takeoff.Taken) decimal.Decimal {
	switch {
	case u.By == rates.ByNr:
		return taken.Amount
	case row.Member != nil:
		return decimal.New(int64(row.Member.Nr), 0)
	}
	return one
}

func (r *reckoning) buildUp(name string) []rates.BuildUp {
	if name == "" {
		return nil
	}
	k := rates.Key(name)
	rows, ok := r.buildUps[k]
	if !ok {
		rows = r.book.BuildUp(name)
		r.buildUps[k] = rows
	}
	return rows
}

// norm is the norm of a build-up's task on the tender date.
func (r *reckoning) norm(u rates.BuildUp) (rates.Norm, bool) {
	k := rates.Key(u.Item)
	norm, looked := r.norms[k]
	if !looked {
		norm, _ = r.book.Norm(u.Item, r.job.TenderDate)
		r.norms[k] = norm
		r.slope(norm)
	}
	if norm.Task != "" {
		return norm, true
	}
	if slices.ContainsFunc(r.book.Norms, func(n rates.Norm) bool { return rates.Same(n.Task, u.Item) }) {
		r.problems.Add(problem.Problem{
			Code: problem.NormNotInForce,
			At:   u.ItemAt,
			With: r.job.Cell("Tender date"),
			Text: fmt.Sprintf("no norm of %q is in force on the tender date, %s; a row that holds from that day or before is wanted", u.Item, r.job.TenderDate.Format("2006-01-02")),
		})
	}
	return rates.Norm{}, false
}

func (r *reckoning) slope(n rates.Norm) {
	s := n.Learning.Decimal()
	if s.IsZero() || (s.GreaterThanOrEqual(decimal.New(50, 0)) && s.LessThanOrEqual(decimal.New(100, 0))) {
		return
	}
	r.problems.Add(problem.Problem{
		Code:    problem.LearningOdd,
		At:      n.At,
		Text:    fmt.Sprintf("%q learns by %q; the slope is wanted, what the second piece takes of the first", n.Task, n.Learning),
		Example: "85 %",
	})
}
