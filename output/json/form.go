package json

import (
	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/problem"
)

// Form is a bill for others to price.
type Form struct {
	Fingerprint   string        `json:"fingerprint"`
	Sections      []FormSection `json:"sections"`
	Preliminaries []FormLine    `json:"preliminaries,omitempty"`
	Sums          []FormLine    `json:"sums,omitempty"`
	Dayworks      []FormLine    `json:"dayworks,omitempty"`
}

// FormSection is one section of a form.
type FormSection struct {
	Section string     `json:"section"`
	Title   string     `json:"title"`
	Lines   []FormLine `json:"lines"`
}

// FormLine is one line to be priced; without a quantity where that is for
// others to say.
type FormLine struct {
	Line        string `json:"line"`
	Item        string `json:"item,omitempty"`
	Description string `json:"description"`
	CarriedAs   string `json:"carried_as"`
	Quantity    string `json:"quantity,omitempty"`
	Unit        string `json:"unit"`
	Marked      string `json:"marked,omitempty"`
	Stage       string `json:"stage,omitempty"`
	Mark        string `json:"mark"`
}

// OfForm is a bill for others to price as it is written. With errors it has nothing but
// its problems.
func OfForm(workbook string, f estimate.Form, problems problem.List) Job {
	j := Job{Workbook: workbook, Problems: Problems(problems), Vessel: f.Job.Vessel, Reference: f.Job.Reference, Currency: f.Job.Currency}
	if problems.HasErrors() {
		return j
	}
	j.TenderDate = f.Job.TenderDate.Format("2006-01-02")
	j.Form = &Form{Fingerprint: f.Bill.Fingerprint, Preliminaries: formLines(f.Bill.Preliminaries),
		Sums: formLines(f.Bill.Sums), Dayworks: formLines(f.Bill.Dayworks)}
	for _, s := range f.Bill.Sections {
		j.Form.Sections = append(j.Form.Sections, FormSection{s.Section, s.Title, formLines(s.Lines)})
	}
	return j
}

func formLines(in []bill.FormLine) []FormLine {
	out := make([]FormLine, 0, len(in))
	for _, n := range in {
		l := FormLine{Line: n.ID, Item: n.Ref, Description: n.Description, CarriedAs: string(n.Carried),
			Unit: string(n.Unit), Marked: n.Standing, Stage: n.Stage, Mark: n.Mark}
		if !n.Open && n.Carried != job.RateOnly {
			l.Quantity = n.Quantity.StringFixed(n.Unit.Places())
		}
		out = append(out, l)
	}
	return out
}
