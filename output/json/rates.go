package json

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/rates/money"
	"futtock/rates/pricelist"
	"futtock/rates/problem"
)

// Rates is the answer of the rates command to a list.
type Rates struct {
	Schema   int        `json:"schema"`
	Workbook string     `json:"workbook"`
	List     string     `json:"list"`
	Lines    []ListLine `json:"lines"`
	Problems []Problem  `json:"problems"`
	Jobs     []Affected `json:"jobs,omitempty"`
	Written  bool       `json:"written"`
	Backup   string     `json:"backup,omitempty"`
}

// ListLine is what one line of a list does.
type ListLine struct {
	ListCell  string `json:"list_cell"`
	ListKey   string `json:"list_key"`
	ListPrice string `json:"list_price"`
	State     string `json:"state"`
	Why       string `json:"why,omitempty"`
	Nearest   string `json:"nearest_key,omitempty"`
	Sheet     string `json:"sheet,omitempty"`
	Cell      string `json:"row_of,omitempty"`
	Key       string `json:"key,omitempty"`
	Column    string `json:"column,omitempty"`
	Old       string `json:"old,omitempty"`
	Since     string `json:"old_from,omitempty"`
	New       string `json:"new,omitempty"`
	Unit      string `json:"unit,omitempty"`
	How       string `json:"converted,omitempty"`
	Change    string `json:"change_percent,omitempty"`
	From      string `json:"from,omitempty"`
}

// Affected is a job before and after new prices.
type Affected struct {
	Workbook    string        `json:"workbook"`
	Reference   string        `json:"reference,omitempty"`
	PricedOn    string        `json:"priced_on,omitempty"`
	Currency    string        `json:"currency,omitempty"`
	CostBefore  *money.Amount `json:"cost_before,omitempty"`
	CostAfter   *money.Amount `json:"cost_after,omitempty"`
	NetBefore   *money.Amount `json:"net_before,omitempty"`
	NetAfter    *money.Amount `json:"net_after,omitempty"`
	TotalBefore *money.Amount `json:"total_before,omitempty"`
	TotalAfter  *money.Amount `json:"total_after,omitempty"`
	Problems    []Problem     `json:"problems,omitempty"`
	Error       string        `json:"error,omitempty"`
}

// Stale is the answer of the rates command to the question for old prices.
type Stale struct {
	Schema   int        `json:"schema"`
	Workbook string     `json:"workbook"`
	On       string     `json:"on"`
	Days     int        `json:"more_than_days"`
	Prices   []OldPrice `json:"prices"`
	Problems []Problem  `json:"problems"`
}

// OldPrice is one old price; of one without a day the age is null.
type OldPrice struct {
	Sheet string `json:"sheet"`
	Cell  string `json:"cell"`
	Key   string `json:"key"`
	Price string `json:"price,omitempty"`
	Unit  string `json:"unit,omitempty"`
	From  string `json:"from,omitempty"`
	Days  *int   `json:"days"`
}

// RatesOf is the lines of a list set against a workbook.
func RatesOf(workbook, list string, moves []pricelist.Move, found problem.List) Rates {
	doc := Rates{Schema: Schema, Workbook: workbook, List: list, Lines: []ListLine{}, Problems: Problems(found)}
	for _, m := range moves {
		l := ListLine{
			ListCell: m.Line.At.Address(), ListKey: m.Line.Key, ListPrice: m.Line.Price.String(),
			State: string(m.State), Why: m.Why, Nearest: m.Near, Sheet: string(m.Sheet), Key: m.Key, Column: m.Column,
			Cell: m.Row.Address(), Unit: string(m.Unit), How: m.How, Since: dayOf(m.Since), From: dayOf(m.From),
		}
		if m.Column != "" && m.State != pricelist.Unlike {
			l.New = plainPrice(m.New)
			if !m.Fresh {
				l.Old = plainPrice(m.Old)
				if !m.Old.IsZero() {
					l.Change = m.Change.Decimal().StringFixed(1)
				}
			}
		}
		doc.Lines = append(doc.Lines, l)
	}
	return doc
}

// AffectedOf is a job before and after.
func AffectedOf(workbook string, before estimate.Result, e estimate.Effect) Affected {
	return Affected{
		Workbook: workbook, Reference: before.Job.Reference, PricedOn: dayOf(before.Job.TenderDate), Currency: before.Job.Currency,
		CostBefore: &e.CostBefore, CostAfter: &e.CostAfter, NetBefore: &e.NetBefore, NetAfter: &e.NetAfter,
		TotalBefore: &e.TotalBefore, TotalAfter: &e.TotalAfter,
	}
}

// StalePrices is what is old on a day.
func StalePrices(workbook string, day time.Time, days int, old []pricelist.Old, found problem.List) Stale {
	doc := Stale{Schema: Schema, Workbook: workbook, On: dayOf(day), Days: days, Prices: []OldPrice{}, Problems: Problems(found)}
	for _, o := range old {
		p := OldPrice{Sheet: string(o.Sheet), Cell: o.At.Address(), Key: o.Key, Unit: string(o.Unit), From: dayOf(o.From)}
		if o.Column != "" {
			p.Price = plainPrice(o.Price)
		}
		if !o.From.IsZero() {
			p.Days = &o.Days
		}
		doc.Prices = append(doc.Prices, p)
	}
	return doc
}

func dayOf(day time.Time) string {
	if day.IsZero() {
		return ""
	}
	return day.Format(time.DateOnly)
}

func plainPrice(d decimal.Decimal) string { return money.NewPrice(d).String() }
