package json

import (
	"futtock/estimate"
	"futtock/output/explain"
	"futtock/rates/problem"
)

// Explained is the answer of the explain command: what the reference names, or
// the problems that stopped it.
type Explained struct {
	Schema     int             `json:"schema"`
	Workbook   string          `json:"workbook"`
	Vessel     string          `json:"vessel,omitempty"`
	Reference  string          `json:"reference,omitempty"`
	TenderDate string          `json:"tender_date,omitempty"`
	Problems   []Problem       `json:"problems"`
	Explained  []ExplainedLine `json:"explained,omitempty"`
}

// ExplainedLine is one figure with what it is made of. Money has the currency
// as its unit, a rate the currency and what it is for, such as GBP/ft.
type ExplainedLine struct {
	Label    string          `json:"label,omitempty"`
	Value    string          `json:"value,omitempty"`
	Unit     string          `json:"unit,omitempty"`
	How      string          `json:"how,omitempty"`
	At       string          `json:"at,omitempty"` // as yard.xlsx: Norms!D14
	Children []ExplainedLine `json:"children,omitempty"`
}

// Explain is some figures of a job as they are written. A job with errors has
// nothing but its problems.
func Explain(workbook string, r estimate.Result, problems problem.List, lines []explain.Line) Explained {
	doc := Explained{Schema: Schema, Workbook: workbook, Vessel: r.Job.Vessel, Reference: r.Job.Reference, Problems: Problems(problems)}
	if problems.HasErrors() {
		return doc
	}
	doc.TenderDate = r.Job.TenderDate.Format("2006-01-02")
	doc.Explained = explainedLines(lines)
	return doc
}

func explainedLines(lines []explain.Line) []ExplainedLine {
	var out []ExplainedLine
	for _, l := range lines {
		out = append(out, ExplainedLine{l.Label, l.Value, l.Unit, l.How, l.At.String(), explainedLines(l.Under)})
	}
	return out
}
