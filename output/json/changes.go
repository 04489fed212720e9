package json

import (
	"futtock/estimate/changes"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// Changed is the answer of the changes command: two issues of a job reconciled, or the
// problems that stopped it.
type Changed struct {
	Schema     int           `json:"schema"`
	Old        Issue         `json:"old"`
	New        Issue         `json:"new"`
	Problems   []Problem     `json:"problems"` // of the two together
	Files      []string      `json:"files,omitempty"`
	Difference *money.Amount `json:"difference,omitempty"`
	Steps      []Step        `json:"steps,omitempty"`
}

// Issue is one issue of a job.
type Issue struct {
	Workbook   string        `json:"workbook"`
	Problems   []Problem     `json:"problems"`
	Vessel     string        `json:"vessel,omitempty"`
	Reference  string        `json:"reference,omitempty"`
	TenderDate string        `json:"tender_date,omitempty"`
	Currency   string        `json:"currency,omitempty"`
	Weeks      string        `json:"weeks,omitempty"`
	Net        *money.Amount `json:"net,omitempty"`
	Total      *money.Amount `json:"total,omitempty"`
}

// Step is one step from the old total to the new. Net is before VAT; one that cannot be
// priced before the next is worth nothing and says why.
type Step struct {
	Step    string       `json:"step"`
	Title   string       `json:"title"`
	Net     money.Amount `json:"net"`
	Worth   money.Amount `json:"worth"`
	After   money.Amount `json:"total_after"`
	Cannot  string       `json:"cannot_be_priced_alone,omitempty"`
	Changes []Change     `json:"changes"`
	Lines   []MovedLine  `json:"lines_moved"`
}

// Change is a cell that says otherwise, or a row put in or taken out, which has no column.
type Change struct {
	Change string `json:"change"` // changed, put in, taken out
	Sheet  string `json:"sheet"`
	Row    string `json:"row,omitempty"`
	Column string `json:"column,omitempty"`
	Was    string `json:"was"`
	Now    string `json:"now"`
	WasAt  string `json:"was_at,omitempty"` // as yard.xlsx: Norms!D14
	NowAt  string `json:"now_at,omitempty"`
}

// MovedLine is a line of the bill whose amount a step moves.
type MovedLine struct {
	Part        string       `json:"part"`
	Item        string       `json:"item,omitempty"`
	Description string       `json:"description,omitempty"`
	Was         money.Amount `json:"was"`
	Now         money.Amount `json:"now"`
	Moved       money.Amount `json:"moved"`
}

// Stopped is two workbooks that could not be reconciled, each with its problems.
func Stopped(old, new string, ofOld, ofNew, together problem.List) Changed {
	return Changed{Schema: Schema, Old: Issue{Workbook: old, Problems: Problems(ofOld)}, New: Issue{Workbook: new, Problems: Problems(ofNew)}, Problems: Problems(together)}
}

// Reconciled is a bridge as it is written, with what Stopped has.
func Reconciled(doc Changed, b changes.Bridge) Changed {
	fill := func(to *Issue, i changes.Issue) {
		to.Vessel, to.Reference, to.Currency = i.Vessel, i.Reference, i.Currency
		to.TenderDate, to.Weeks, to.Net, to.Total = i.TenderDate.Format("2006-01-02"), i.Weeks.String(), &i.Net, &i.Total
	}
	fill(&doc.Old, b.Old)
	fill(&doc.New, b.New)
	difference := b.Difference()
	doc.Difference = &difference
	for _, s := range b.Steps {
		step := Step{Step: s.Kind.Name(), Title: s.Kind.Title(), Net: s.Net, Worth: s.Worth, After: s.After, Cannot: s.Cannot, Changes: []Change{}, Lines: []MovedLine{}}
		for _, c := range s.Changes {
			step.Changes = append(step.Changes, Change{changed(c), c.Sheet, c.Key, c.Column, c.Was, c.Now, cell(c.WasAt), cell(c.NowAt)})
		}
		for _, l := range s.Lines {
			step.Lines = append(step.Lines, MovedLine{string(l.Part), l.Ref, l.Description, l.Was, l.Now, l.Moved})
		}
		doc.Steps = append(doc.Steps, step)
	}
	return doc
}

func changed(c changes.Change) string {
	switch {
	case c.PutIn():
		return "put in"
	case c.TakenOut():
		return "taken out"
	}
	return "changed"
}

func cell(c origin.Cell) string {
	if c.IsZero() {
		return ""
	}
	return c.String()
}
