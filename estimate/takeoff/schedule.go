package takeoff

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// schedule is the work in hand: the job, the price book turned about so that a
// row finds what it needs by key, and the problems found so far.
type schedule struct {
	job      *job.Job
	book     *rates.Book
	timber   map[string]rates.Timber      // by timber
	lines    map[string]rates.Stock       // in force, by stock line
	sticks   map[string][]rates.Stock     // in force, by timber
	rules    map[string][]rates.Fastening // by rule
	asked    map[string]map[rates.Driver]bool
	anyStick bool // others find and saw the timber: no stick limits a run
	problems problem.List
}

func newSchedule(j *job.Job, b *rates.Book) *schedule {
	s := &schedule{
		job: j, book: b,
		timber: map[string]rates.Timber{},
		lines:  map[string]rates.Stock{},
		sticks: map[string][]rates.Stock{},
		rules:  map[string][]rates.Fastening{},
		asked:  map[string]map[rates.Driver]bool{},
	}
	for _, t := range b.Timber {
		if _, seen := s.timber[rates.Key(t.Timber)]; !seen {
			s.timber[rates.Key(t.Timber)] = t
		}
	}
	for _, k := range b.StockInForce(j.TenderDate) {
		s.lines[rates.Key(k.Stock)] = k
		s.sticks[rates.Key(k.Timber)] = append(s.sticks[rates.Key(k.Timber)], k)
	}
	for _, f := range b.Fastenings {
		if k := rates.Key(f.Rule); s.rules[k] == nil {
			s.rules[k] = b.FastenersOf(f.Rule)
		}
	}
	return s
}

// member measures one row of the schedule of members.
func (s *schedule) member(m *job.Member) (Row, []Piece) {
	row := Row{Work: m.Work, Member: m, PiecesEach: 1}
	sound := s.sizes(m)
	var pieces []Piece
	if m.Treatment.TakesTimber() {
		row.ScarphLen = s.scarph(m)
		pieces = s.pieces(m, &row, sound)
	}
	s.fasten(m, &row)
	row.Amounts = s.amounts(m, row)
	s.keelScarph(m, row)
	if len(pieces) > 0 {
		pieces[0].Net = row.Amounts[rates.ByVolume]
	}
	return row, pieces
}

// sizes reports whether the row has the sizes that new timber wants, and says
// what is wrong with them.
func (s *schedule) sizes(m *job.Member) bool {
	if m.Shape != job.Square && m.Shape != "" && m.Moulded != 0 && m.Moulded != m.Sided {
		s.add(problem.RoundSizes, m, m.MouldedAt, "the Moulded of %s is not the Sided of %s; of %s work only Sided is wanted",
			s.size(m.Moulded), s.size(m.Sided), m.Shape)
		return false
	}
	if !m.Treatment.TakesTimber() {
		return true
	}
	sound := true
	missing := func(heading string, at origin.Cell) {
		s.add(problem.SizeMissing, m, at, "there is no %s; it is wanted for new timber", heading)
		sound = false
	}
	sided, moulded := across(m)
	if m.Length <= 0 {
		missing("Length", m.LengthAt)
	}
	if sided <= 0 {
		missing("Sided", m.SidedAt)
	}
	if moulded <= 0 && (m.Shape == job.Square || m.Shape == "") {
		missing("Moulded", m.MouldedAt)
	}
	if m.Treatment == job.Part && m.Renewed <= 0 {
		s.add(problem.RenewedMissing, m, m.RenewedAt, "part is renewed and there is no Renewed length; the length with no old wood left is wanted")
		sound = false
	}
	if m.Treatment == job.Part && m.Renewed > m.Length && m.Length > 0 {
		s.problems.Add(problem.Problem{Code: problem.RenewedLong, At: m.RenewedAt, With: m.LengthAt,
			Text: fmt.Sprintf("the Renewed length of %s is more than the Length of %s", s.length(m.Renewed), s.length(m.Length))})
		sound = false
	}
	if m.Treatment == job.Part && m.Joints > 0 && !m.Run() {
		s.add(problem.JointMissing, m, m.JointAt, "there are %d joints to old work and no Joint; scarph or butt is wanted", m.Joints)
	}
	return sound
}

// across is the sided and moulded sizes; round and eight-sided work is the same
// both ways.
func across(m *job.Member) (sided, moulded measure.Length) {
	if m.Shape == job.Round || m.Shape == job.Eight {
		return m.Sided, m.Sided
	}
	return m.Sided, m.Moulded
}

// scarph is the length of one scarph of new timber: so many to one of the
// dimension it is cut through, the smaller where the row does not say; nil
// where the joint is none or a butt.
func (s *schedule) scarph(m *job.Member) measure.Length {
	if m.Joint != job.Scarph {
		return 0
	}
	if m.Scarph.Sign() <= 0 {
		s.problems.Add(problem.Problem{Code: problem.ScarphMissing, At: m.JointAt, With: m.ScarphAt,
			Text: "the joint is a scarph and there is no Scarph (to one); its length to one of the size it is cut through is wanted"})
		return 0
	}
	sided, moulded := across(m)
	through := min(sided, moulded)
	if m.ThroughGiven {
		through = moulded
		if m.ThroughSided {
			through = sided
		}
	}
	nm := m.Scarph.Mul(decimal.New(int64(through), 0)).Ceil()
	return measure.Length(decimal.Min(nm, decimal.New(int64(measure.MaxLength), 0)).IntPart())
}

// timberOf is the timber of the row: as named, else that of the stock line it
// is bound to.
func (s *schedule) timberOf(m *job.Member) string {
	if m.Timber != "" || m.Stock == "" {
		return m.Timber
	}
	return s.lines[rates.Key(m.Stock)].Timber
}

// add puts a problem on the list, at the cell or, where the sheet has no such
// column, at the row's Ref.
func (s *schedule) add(code problem.Code, m *job.Member, at origin.Cell, format string, args ...any) {
	if at.IsZero() {
		at = m.At
	}
	s.problems.Add(problem.Problem{Code: code, At: at, Text: fmt.Sprintf(format, args...)})
}

// length and size print a length as the job writes lengths, and sizes.
func (s *schedule) length(l measure.Length) string { return l.Format(s.job.LengthsIn) }

func (s *schedule) size(l measure.Length) string {
	if s.job.SizesIn == "" {
		return l.Format(measure.Mm)
	}
	return l.Format(s.job.SizesIn)
}
