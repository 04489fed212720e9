package offer

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/quotes"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
)

func sameKey(a, b string) bool { return rates.Same(a, b) }

// Sent reads the bill that quotes are measured against: the priced bill, whose
// lines are given the ids that the form of the same job has, or a bill to be priced,
// blank or filled in by the client's own surveyor. Amounts are reckoned anew from
// quantity and rate, and one that stands there otherwise is put down.
//
// What the priced bill lacks is left blank, which is not compared: what a
// preliminary says and what it is measured by, and the fingerprint. Lettered lines
// of one preliminary (P1a, P1b) are one line P/P1.
func Sent(book grid.Workbook) (quotes.Sent, problem.List) {
	s := &sending{reader: read(book), out: quotes.Sent{Book: book.Name}}
	all := parts()
	all[0].marks = []string{bill.HeadItem, bill.HeadDescription, bill.HeadQuantity, bill.HeadUnit, bill.HeadRate, bill.HeadAmount}
	work, ok := s.find(all[0].outline)
	if !ok {
		s.say(problem.NotABill, s.at("", 0, 0),
			fmt.Sprintf("no sheet holds the headings of a bill, %s; the priced bill, or the bill to be priced as it was sent out, is wanted", quoted(all[0].marks)))
		return s.out, s.list()
	}
	s.particulars()
	if s.priced = !work.has(bill.HeadID); s.priced {
		all = pricedParts(all)
		s.used[work.page.Name] = false
		if work, ok = s.find(all[0].outline); !ok {
			panic("offer: the sheet of the work was found and is not there")
		}
	}
	for i, p := range all {
		t := work
		if i > 0 {
			if t, ok = s.find(p.outline); !ok || !s.priced && !t.has(bill.HeadID) {
				continue
			}
		}
		s.part(s.sheetOf(p, t, nil))
	}
	if len(s.out.Lines) == 0 && !s.found.HasErrors() {
		s.say(problem.NotABill, s.at(work.page.Name, 0, 0), "the bill holds no lines; a bill as it was sent out is wanted")
	}
	for _, l := range s.out.Lines {
		s.out.Priced = s.out.Priced || l.Priced && !l.Given
	}
	s.held()
	s.programme()
	return s.out, s.list()
}

// pricedParts are the same parts as the priced bill has them.
func pricedParts(all []part) []part {
	out := make([]part, len(all))
	for i, p := range all {
		n := part{Part: p.Part, prefix: p.prefix, text: p.text, total: p.total, quantity: p.quantity, unit: p.unit,
			outline: outline{name: p.name, marks: p.marks, not: p.not, others: []string{bill.HeadItem, bill.HeadRate, bill.HeadSum, p.total, p.quantity, bill.HeadStage}}}
		switch p.Part {
		case quotes.Work:
			n.standing = headRemark
			n.others = append(n.others, headRemark)
		case quotes.Preliminaries:
			n.quantity, n.unit = bill.HeadQuantity, bill.HeadUnit
			n.marks, n.not = []string{bill.HeadDescription, bill.HeadUnit, bill.HeadRate}, nil
			n.others = append(n.others, bill.HeadQuantity)
		case quotes.Sums:
			n.standing = p.standing
		}
		out[i] = n
	}
	return out
}

// headRemark is the heading of a priced bill under which a form has its own words.
const headRemark = "Remark"

// sending is a bill while it is read.
type sending struct {
	*reader
	out    quotes.Sent
	priced bool // the priced bill, not a form
}

// part takes the lines of a part.
func (s *sending) part(p sheet) {
	if len(s.out.Lines)+len(p.rows) > mostLines {
		s.say(problem.TooMuch, s.at(p.table.page.Name, 0, 0), fmt.Sprintf("the bill holds more than %d lines; a bill in parts is wanted", mostLines))
		return
	}
	var lines []quotes.Line
	if s.priced && p.Part == quotes.Preliminaries {
		lines = s.pricedPreliminaries(p)
	} else {
		for n, r := range p.rows {
			if l, ok := s.line(p.part, r, n); ok {
				lines = append(lines, l)
			}
		}
	}
	if p.Part == quotes.Work {
		s.out.Sections = p.sections
		place := map[string]int{}
		for i, sec := range p.sections {
			place[sec.Section] = i
		}
		// Options stand under the total of their section; among the lines a form's
		// fingerprint is of, they have the place of their Ref.
		slices.SortStableFunc(lines, func(a, b quotes.Line) int {
			if n := place[a.Section] - place[b.Section]; n != 0 {
				return n
			}
			return job.CompareRefs(a.Ref, b.Ref)
		})
	}
	seen := map[string]origin.Cell{}
	for _, l := range lines {
		if before, twice := seen[l.ID]; twice {
			s.say(problem.BillCell, l.At, fmt.Sprintf("the line %q stands in row %d already; every line of a bill is wanted once", l.ID, before.Row))
			continue
		}
		seen[l.ID] = l.At
		s.out.Lines = append(s.out.Lines, l)
	}
}

// line is a row as a line of the bill.
func (s *sending) line(p part, r row, n int) (quotes.Line, bool) {
	l := quotes.Line{Fixed: r.Fixed, Part: p.Part, Ref: r.ref, Wording: r.Description, Section: r.section, Carried: job.Measured, Stage: r.stage, At: r.At}
	if l.ID == "" {
		if !s.priced {
			s.say(problem.BillCell, l.At, fmt.Sprintf("%q has no id and is no line of the bill; a bill as it was sent out is wanted", clipped(single(r.Description))))
			return l, false
		}
		if l.ID = p.prefix + r.ref; p.Part == quotes.Dayworks {
			l.ID = fmt.Sprint(p.prefix, n+1)
		}
	}
	if _, known := measure.ParseUnit(string(l.Unit)); !known {
		s.say(problem.BillCell, l.At, fmt.Sprintf("%q is not a unit that a bill is measured in", l.Unit))
		return l, false
	}
	switch p.Part {
	case quotes.Work:
		if l.Carried = bill.CarriedOf(l.Standing); l.Carried == job.RateOnly {
			l.Fixed.Quantity = decimal.Decimal{}
		} else if !s.number(r.Quantity, "quantity") {
			return l, false
		}
		if l.Priced = s.money(r.Rate, "rate"); l.Priced {
			l.Rate = money.Round(r.Rate.Value)
			if l.Carried != job.RateOnly {
				l.Amount = l.Rate.Times(l.Quantity)
			}
		}
	case quotes.Preliminaries:
		once, rate := s.money(r.Once, "sum"), s.money(r.Rate, "rate")
		if l.Priced = once || rate; once {
			l.Amount = money.Round(r.Once.Value)
		}
		if rate && r.Time.Is() {
			l.Rate = money.Round(r.Rate.Value)
			l.Amount = l.Amount.Add(money.Round(r.Rate.Value.Mul(r.Time.Value)))
		}
	case quotes.Sums:
		l.Given = !alike(l.Standing, string(job.Quotation))
		if l.Priced = s.money(r.Quantity, "sum"); l.Priced {
			l.Amount = s.sumOf(r)
		}
	case quotes.Dayworks:
		if !s.number(r.Quantity, "allowance") {
			return l, false
		}
		if s.money(r.Rate, "rate") && l.Unit == measure.Hour {
			l.Priced, l.Rate = true, money.Round(r.Rate.Value)
			l.Amount = l.Rate.Times(l.Quantity)
		}
		if l.Unit == measure.Sums && (s.priced || r.Addition.Is()) {
			l.Priced, l.Amount = true, money.Round(l.Quantity)
			if s.priced {
				l.Amount = s.as(r.Amount)
			} else {
				l.Amount = l.Amount.Add(money.Round(l.Quantity.Mul(r.Addition.Value)))
			}
		}
	}
	if l.Priced && r.Amount.Is() && !money.Round(r.Amount.Value).Equal(l.Amount) {
		s.say(problem.BillCast, r.Amount.At, fmt.Sprintf("%q comes to %s and stands as %s; it is compared at %s", l.ID, l.Amount.Grouped(), money.Round(r.Amount.Value).Grouped(), l.Amount.Grouped()))
	}
	return l, true
}

// sumOf is a sum with its profit and attendance: of the priced bill, where
// profit stands as a share and as money, as it stands.
func (s *sending) sumOf(r row) money.Amount {
	if s.priced {
		return s.as(r.Amount)
	}
	a := money.Round(r.Quantity.Value).Add(money.Round(r.Quantity.Value.Mul(r.Profit.Value)))
	return a.Add(money.Round(r.Attendance.Value))
}

func (s *sending) as(f quotes.Figure) money.Amount {
	s.number(f, "total")
	return money.Round(f.Value)
}

// number reports a figure, and puts down what is none.
func (s *sending) number(f quotes.Figure, what string) bool {
	if f.Is() {
		return true
	}
	s.say(problem.BillCell, f.At, fmt.Sprintf("%q is no %s; a number is wanted", clipped(f.Text), what))
	return false
}

// money reports a figure that is there, and puts down what is neither one nor blank.
func (s *sending) money(f quotes.Figure, what string) bool {
	return f.State != quotes.Missing && s.number(f, what)
}

// bases are the words that close what a lettered line of a preliminary says.
var bases = []price.Basis{price.Fixed, price.Timed, price.Supervision, price.Percentage}

// pricedPreliminaries are those of the priced bill. The lettered lines of one
// are put together: their Ref ends in a letter, and what they say in a basis. Time
// kept and not priced is the yard's own and on no form.
func (s *sending) pricedPreliminaries(p sheet) []quotes.Line {
	var out []quotes.Line
	together := map[string]int{}
	for _, r := range p.rows {
		if sameKey(strings.TrimRight(r.ref, "*"), price.WaitingRef) {
			s.say(problem.BillOnly, r.At, fmt.Sprintf("%q is of the yard's own programme and on no form; it is not compared", single(r.Description)))
			continue
		}
		l := quotes.Line{Part: p.Part, Ref: r.ref, Wording: r.Description, Carried: job.Measured, Stage: r.stage, At: r.At}
		if !s.number(r.Rate, "rate") || !s.number(r.Quantity, "quantity") {
			continue
		}
		l.Priced, l.Rate = true, money.Round(r.Rate.Value)
		l.Amount = l.Rate.Times(r.Quantity.Value)
		said, lettered := letteredOf(r)
		if lettered {
			l.Ref, l.Wording, l.Rate = r.ref[:len(r.ref)-1], said, money.Amount{}
		}
		l.ID = p.prefix + l.Ref
		if i, more := together[l.ID]; more && lettered {
			out[i].Amount = out[i].Amount.Add(l.Amount)
			continue
		}
		together[l.ID] = len(out)
		out = append(out, l)
	}
	return out
}

// letteredOf is what a lettered line says without its basis.
func letteredOf(r row) (string, bool) {
	if n := len(r.ref); n < 2 || r.ref[n-1] < 'a' || r.ref[n-1] > 'z' {
		return "", false
	}
	for _, b := range bases {
		if said, ok := strings.CutSuffix(r.Description, ", "+b.Words()); ok {
			return said, true
		}
	}
	return "", false
}

func single(s string) string { return templates.Single(s) }
