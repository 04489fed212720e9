// Package json writes a result for other programs: structures of its own with
// a schema number, money and quantities as strings, so that no reader takes
// them through binary fractions.
package json

import (
	"bytes"
	"encoding/json"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/cutting"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// Schema is the number of the form written here. It rises when a name changes
// its meaning or goes; new names may come without it.
const Schema = 1

// Priced is the answer of the price command: a job for every workbook.
type Priced struct {
	Schema int   `json:"schema"`
	Jobs   []Job `json:"jobs"`
}

// Written is the answer of a command that only writes files.
type Written struct {
	Schema   int       `json:"schema"`
	Files    []string  `json:"files"`
	Problems []Problem `json:"problems,omitempty"` // for which nothing was written
}

// Job is one priced workbook, or the problems that stopped it.
type Job struct {
	Workbook      string        `json:"workbook"`
	Vessel        string        `json:"vessel,omitempty"`
	Reference     string        `json:"reference,omitempty"`
	TenderDate    string        `json:"tender_date,omitempty"`
	Currency      string        `json:"currency,omitempty"`
	Problems      []Problem     `json:"problems"`
	Files         []string      `json:"files,omitempty"`
	Error         string        `json:"error,omitempty"`
	Form          *Form         `json:"form,omitempty"`
	Sections      []Section     `json:"sections,omitempty"`
	Preliminaries []Line        `json:"preliminaries,omitempty"`
	Sums          []SumLine     `json:"sums,omitempty"`
	Dayworks      []DayworkLine `json:"dayworks,omitempty"`
	Summary       *Summary      `json:"summary,omitempty"`
	Timber        []Timber      `json:"timber,omitempty"`
	Bound         *Bound        `json:"timber_bound,omitempty"`
	Order         []OrderLine   `json:"timber_order,omitempty"`
	Fabric        *Fabric       `json:"old_fabric,omitempty"`
	Hours         []Hours       `json:"hours,omitempty"`
	Programme     *Programme    `json:"programme,omitempty"`
	Contingency   *Contingency  `json:"contingency,omitempty"`
	Cash          []Month       `json:"cash,omitempty"`
	Orders        []Order       `json:"orders_ahead,omitempty"`
	Release       *Release      `json:"retention_release,omitempty"`
}

// Problem is one problem of a workbook, named without its folder.
type Problem struct {
	Severity string `json:"severity"`
	Code     string `json:"code"`
	Workbook string `json:"workbook,omitempty"`
	Sheet    string `json:"sheet,omitempty"`
	Cell     string `json:"cell,omitempty"`
	Text     string `json:"text"`
	Example  string `json:"example,omitempty"`
	Near     string `json:"did_you_mean,omitempty"`
	Cure     string `json:"cure"`
}

// Section is one section of the bill.
type Section struct {
	Section string       `json:"section"`
	Title   string       `json:"title"`
	Total   money.Amount `json:"total"`
	Lines   []Line       `json:"lines"`
}

// Line is one priced line.
type Line struct {
	Item        string       `json:"item"`
	Description string       `json:"description"`
	CarriedAs   string       `json:"carried_as,omitempty"`
	Quantity    string       `json:"quantity"`
	Unit        string       `json:"unit"`
	Rate        money.Amount `json:"rate"`
	Amount      money.Amount `json:"amount"`
	VAT         string       `json:"vat_code"`
	Remark      string       `json:"remark,omitempty"`
}

// SumLine is one provisional sum, prime cost sum or quotation.
type SumLine struct {
	Item        string       `json:"item"`
	Description string       `json:"description"`
	Kind        string       `json:"kind"`
	Amount      money.Amount `json:"amount"`
	Profit      money.Amount `json:"profit"`
	Attendance  money.Amount `json:"attendance"`
	Total       money.Amount `json:"total"`
	VAT         string       `json:"vat_code"`
}

// DayworkLine is one allowance for daywork.
type DayworkLine struct {
	Of    string       `json:"of"`
	Total money.Amount `json:"total"`
}

// Summary is the end of the bill.
type Summary struct {
	Items         money.Amount  `json:"a_measured_work"`
	Preliminaries money.Amount  `json:"b_preliminaries"`
	Sums          money.Amount  `json:"c_sums_and_dayworks"`
	Contingency   money.Amount  `json:"d_contingency"`
	Rises         money.Amount  `json:"e_price_rises"`
	Net           money.Amount  `json:"net"`
	VAT           []Tax         `json:"vat"`
	VATTotal      money.Amount  `json:"vat_total"`
	Total         money.Amount  `json:"total"`
	Otherwise     *money.Amount `json:"total_if_not_qualifying,omitempty"`
}

// Tax is one code of VAT.
type Tax struct {
	Code string        `json:"code"`
	Rate money.Percent `json:"rate_percent"`
	Net  money.Amount  `json:"net"`
	VAT  money.Amount  `json:"vat"`
}

// Timber is timber bought against timber in the ship, m3.
type Timber struct {
	Timber string       `json:"timber"`
	Net    string       `json:"net_m3"`
	Sawn   string       `json:"sawn_m3"`
	Bought string       `json:"bought_m3"`
	Cost   money.Amount `json:"cost"`
	Bound  Bound        `json:"bound"`
}

// Bound is what timber costs beside what no order of it could cost less than;
// where nothing is proven, least and gap are null.
type Bound struct {
	Cost  money.Amount   `json:"cost"`
	Least *money.Amount  `json:"least"`
	Gap   *money.Percent `json:"gap_percent"`
}

// OrderLine is one line of the timber order.
type OrderLine struct {
	Stock string       `json:"stock"`
	Form  string       `json:"form"`
	Buy   string       `json:"buy"`
	Unit  string       `json:"unit"`
	Cost  money.Amount `json:"cost"`
}

// Hours is the work of one trade.
type Hours struct {
	Trade string `json:"trade"`
	Hours string `json:"hours"`
}

// Programme is the time on site.
type Programme struct {
	Weeks    string   `json:"weeks"`
	Critical []string `json:"critical_path"`
	Stages   []Stage  `json:"stages"`
}

// Stage is one stage of the programme, in weeks from the start.
type Stage struct {
	Stage  string `json:"stage"`
	Start  string `json:"start_week"`
	Weeks  string `json:"weeks"`
	Finish string `json:"finish_week"`
	Float  string `json:"float"`
}

// Write is the document as bytes, indented, ending in a new line.
func Write(doc any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(doc); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// Problems is a list of problems as it is written.
func Problems(list problem.List) []Problem {
	out := make([]Problem, 0, len(list))
	for _, p := range list {
		out = append(out, Problem{Severity: p.Severity().String(), Code: string(p.Code), Workbook: p.At.Book, Sheet: p.At.Sheet, Cell: p.At.Address(),
			Text: p.Text, Example: p.Example, Near: p.Near, Cure: p.Code.Cure()})
	}
	return out
}

// Of is a priced job as it is written. A job with errors has nothing but its problems.
func Of(workbook string, r estimate.Result, problems problem.List) Job {
	j := Job{Workbook: workbook, Problems: Problems(problems), Vessel: r.Job.Vessel, Reference: r.Job.Reference, Currency: r.Job.Currency}
	if problems.HasErrors() {
		return j
	}
	j.TenderDate = r.Job.TenderDate.Format("2006-01-02")
	for _, s := range r.Bill.Sections {
		j.Sections = append(j.Sections, Section{s.Section, s.Title, s.Total, lines(s.Lines)})
	}
	j.Preliminaries = lines(r.Bill.Preliminaries)
	for _, s := range r.Bill.Sums {
		j.Sums = append(j.Sums, SumLine{s.Ref, s.Description, string(s.Kind), s.Amount, s.ProfitSum, s.Attendance, s.Total, s.VAT})
	}
	for _, d := range r.Bill.Dayworks {
		j.Dayworks = append(j.Dayworks, DayworkLine{d.Of, d.Total})
	}
	j.Summary = summary(r.Bill)
	j.Timber, j.Order = timber(r.Plan)
	if len(j.Timber) > 0 {
		all := boundOf(r.Plan.Bound)
		j.Bound = &all
	}
	for _, h := range r.HoursByTrade() {
		j.Hours = append(j.Hours, Hours{h.Trade, h.Hours.StringFixed(2)})
	}
	j.Fabric, j.Programme = fabricKept(r.Fabric), programme(r)
	j.Contingency, j.Cash, j.Orders, j.Release = contingency(r), months(r.Cash), orders(r.Cash), release(r.Cash)
	return j
}

func lines(in []bill.Line) []Line {
	out := make([]Line, 0, len(in))
	for _, n := range in {
		out = append(out, Line{n.Ref, n.Description, string(n.Carried), n.Quantity.StringFixed(n.Unit.Places()), string(n.Unit),
			n.Rate, n.Amount, n.VAT, n.Remark})
	}
	return out
}

func summary(b bill.Bill) *Summary {
	s := &Summary{Items: b.Items, Preliminaries: b.Prelims, Sums: b.SumsDayworks, Contingency: b.Held, Rises: b.Rises,
		Net: b.Net, VATTotal: b.VATTotal, Total: b.Total}
	for _, t := range b.VAT {
		s.VAT = append(s.VAT, Tax{t.Code, t.Rate, t.Net, t.VAT})
	}
	if b.Otherwise != nil {
		s.Otherwise = &b.Otherwise.Total
	}
	return s
}

func timber(p cutting.Plan) (all []Timber, order []OrderLine) {
	m3 := func(d decimal.Decimal) string { return d.StringFixed(3) }
	for _, s := range p.Species {
		all = append(all, Timber{s.Timber, m3(s.Net), m3(s.Sawn), m3(s.Bought), s.Cost, boundOf(s.Bound)})
	}
	for _, n := range p.Order {
		order = append(order, OrderLine{n.Stock.Stock, string(n.Stock.Form), n.Buy.String(), string(n.BuyUnit()), n.Cost})
	}
	return all, order
}

func boundOf(b cutting.Bound) Bound {
	out := Bound{Cost: b.Cost}
	if b.Least.Sign() > 0 || b.Cost.IsZero() {
		out.Least, out.Gap = &b.Least, &b.Gap
	}
	return out
}

func programme(r estimate.Result) *Programme {
	if len(r.Programme.Stages) == 0 {
		return nil
	}
	p := &Programme{Weeks: r.Programme.Weeks.String()}
	for _, s := range r.Programme.Stages {
		p.Stages = append(p.Stages, Stage{s.Stage.Stage, s.Earliest.String(), s.Weeks.String(), s.EarliestFinish.String(), s.Float.String()})
	}
	for _, s := range r.Programme.CriticalPath() {
		p.Critical = append(p.Critical, s.Stage.Stage)
	}
	return p
}
