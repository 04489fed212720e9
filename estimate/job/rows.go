package job

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// Preliminary is a charge on the job as a whole: fixed, by the week, for
// supervision, or a percentage.
type Preliminary struct {
	At          origin.Cell
	Ref         string
	Description string
	Kind        rates.Kind // preliminaries where blank
	Plant       string
	PlantAt     origin.Cell
	Quantity    decimal.Decimal // of the plant or charge; 1 where blank
	Fixed       money.Price
	FixedGiven  bool // a nil that is given stands in place of the plant's, too
	Weekly      money.Price
	WeeklyGiven bool
	FromStage   string
	FromAt      origin.Cell
	ToStage     string
	ToAt        origin.Cell
	Weeks       decimal.Decimal // where given, governs
	WeeksGiven  bool
	WeeksAt     origin.Cell
	Charged     Charged
	Trade       string
	TradeAt     origin.Cell
	HoursAWeek  decimal.Decimal
	Share       money.Percent
	ShareGiven  bool
	Of          Of
	ShareAt     origin.Cell
	VAT         string
	Funding     string
	Note        string
}

// Charged is the step in which a weekly charge runs.
type Charged string

// The steps: by the week to a tenth, by whole weeks, by four weeks, or by the day.
const (
	ByWeek      Charged = "week"
	ByWholeWeek Charged = "whole week"
	ByFourWeeks Charged = "four weeks"
	ByDay       Charged = "day"
)

// Of is what a percentage preliminary is taken on.
type Of string

// The bases of a percentage preliminary.
const (
	OfHours Of = "hours"
	OfItems Of = "items"
)

// SumKind is the kind of a sum that stands for work not yet measured.
type SumKind string

// The kinds of sum.
const (
	Defined   SumKind = "provisional defined"
	Undefined SumKind = "provisional undefined"
	PrimeCost SumKind = "prime cost"
	Quotation SumKind = "quotation"
)

// Ordered reports a kind that somebody else supplies, and so may ask a deposit on.
func (k SumKind) Ordered() bool { return k == PrimeCost || k == Quotation }

// SumKinds is the closed list in its printed order.
func SumKinds() []SumKind { return []SumKind{Defined, Undefined, PrimeCost, Quotation} }

// Sum is a sum of money that stands for work or goods.
type Sum struct {
	At          origin.Cell
	Ref         string
	Section     string
	SectionAt   origin.Cell
	Description string
	Kind        SumKind
	Amount      money.Price
	Profit      money.Percent
	Attendance  money.Price
	Stage       string
	StageAt     origin.Cell
	LeadWeeks   decimal.Decimal
	Deposit     money.Percent // of Amount, paid when it is ordered
	DepositAt   origin.Cell
	VAT         string
	Funding     string
	QuotedBy    string
	QuotedOn    time.Time
	Note        string
}

// Daywork is an allowance for work that can only be paid by time and cost: so
// many hours of a trade at its rate, or a sum of one kind of cost, each with
// an addition.
type Daywork struct {
	At       origin.Cell
	Of       string          // a trade of the Labour sheet, or materials, plant, subcontract
	Quantity decimal.Decimal // hours of a trade, or money
	Addition money.Percent
}

// Stage is a part of the programme.
type Stage struct {
	At         origin.Cell
	Stage      string
	After      []string // stages that end before this one begins
	AfterAt    origin.Cell
	Lag        decimal.Decimal // weeks; below nil is an overlap
	LeastWeeks decimal.Decimal
	LeastAt    origin.Cell
	Note       string
}

// Gang is how many men of a trade a stage has.
type Gang struct {
	At      origin.Cell
	Stage   string
	StageAt origin.Cell
	Trade   string
	TradeAt origin.Cell
	Men     decimal.Decimal
}

// Closure is a time when the yard does not work, both days included.
type Closure struct {
	At       origin.Cell
	From, To time.Time
	Reason   string
}

// Risk is a row of the risk register, in money at selling price.
type Risk struct {
	At                  origin.Cell
	Ref                 string
	Description         string
	Section             string
	SectionAt           origin.Cell
	Chance              money.Percent
	Least, Likely, Most money.Price
	ExtraWeeks          decimal.Decimal
	Note                string
}

// Addition is the overheads and profit on a kind of cost; nil of both where
// the yard adds none.
func (j *Job) Addition(k rates.Kind) rates.Addition {
	for _, a := range j.Additions {
		if a.Kind == k {
			return a
		}
	}
	return rates.Addition{Kind: k}
}

// Section is the section of a key.
func (j *Job) Section(key string) (Section, bool) {
	for _, s := range j.Sections {
		if rates.Same(s.Section, key) {
			return s, true
		}
	}
	return Section{}, false
}

// StageOf is the stage a line of work falls in: its own, else its section's,
// else blank.
func (j *Job) StageOf(w Work) string {
	if w.Stage != "" {
		return w.Stage
	}
	s, _ := j.Section(w.Section)
	return s.Stage
}

// SideWords is the side of a member as a bill has it: port side, both sides. What
// is neither port, starboard nor both stays as it was typed.
func (m Member) SideWords() string {
	switch k := rates.Key(m.Side); k {
	case "port", "starboard":
		return k + " side"
	case "both":
		return "both sides"
	}
	return m.Side
}

// Works is the common part of every row of Members and Items, members first,
// in the order of the workbook.
func (j *Job) Works() []Work {
	out := make([]Work, 0, len(j.Members)+len(j.Items))
	for _, m := range j.Members {
		out = append(out, m.Work)
	}
	for _, i := range j.Items {
		out = append(out, i.Work)
	}
	return out
}
