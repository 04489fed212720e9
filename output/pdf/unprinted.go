package pdf

import (
	"fmt"

	"futtock/estimate/job"
	"futtock/output/letters"
	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// Unprinted tells of the texts of a job and its price book that the tender or the
// timber order cannot print as they are, since the type lacks characters of them:
// one for each particular of the Job, and for every other sheet its first such
// row, with how many more there are. It fails only where the type cannot be read.
func Unprinted(j job.Job, b rates.Book) (problem.List, error) {
	t, err := letters.New()
	if err != nil {
		return nil, err
	}
	u := unprinted{letters: t, sheets: map[origin.Cell]int{}}
	for _, p := range []struct{ heading, text string }{
		{"Vessel", j.Vessel}, {"Description", j.Description}, {"Client", j.Client}, {"Yard", j.Yard},
		{"Tonnage basis", j.TonnageBasis}, {"Designed or adapted for", j.DesignedFor}, {"VAT evidence", j.VATEvidence},
	} {
		u.row(j.Cell(p.heading), j.Cell(p.heading), p.text)
	}
	for _, s := range j.Sections {
		u.sheet(s.At, s.Section, s.Title)
	}
	for _, m := range j.Members {
		u.sheet(m.At, m.Ref, m.BillItem, m.Member, m.Description, m.Side, m.Funding)
	}
	for _, i := range j.Items {
		u.sheet(i.At, i.Ref, i.BillItem, i.Description, i.Funding)
	}
	for _, p := range j.Preliminaries {
		u.sheet(p.At, p.Ref, p.Description, p.Funding)
	}
	for _, s := range j.Sums {
		u.sheet(s.At, s.Ref, s.Description, s.QuotedBy, s.Funding)
	}
	for _, s := range j.Stages {
		u.sheet(s.At, s.Stage)
	}
	for _, c := range j.Closures {
		u.sheet(c.At, c.Reason)
	}
	for _, r := range j.Risks {
		u.sheet(r.At, r.Ref, r.Description)
	}
	for _, c := range j.Clauses {
		u.sheet(c.At, c.Words)
	}
	for _, l := range b.Labour {
		u.sheet(l.At, l.Trade)
	}
	for _, t := range b.Timber {
		u.sheet(t.At, t.Timber, t.Botanical, t.Durability)
	}
	for _, s := range b.Stock {
		u.sheet(s.At, s.Stock, s.Supplier)
	}
	for _, v := range b.VAT {
		u.sheet(v.At, v.Code, v.Meaning)
	}
	return u.list(), nil
}

// unprinted is what was found so far.
type unprinted struct {
	letters *letters.Type
	found   []lost
	sheets  map[origin.Cell]int // place in found of what is told of a sheet
}

// lost is a text of which characters are lost, and how many rows of its sheet
// have such texts.
type lost struct {
	at    origin.Cell
	text  string
	first rune
	rows  int
}

// sheet looks at the texts of a row, which is told of with the others of its sheet.
func (u *unprinted) sheet(at origin.Cell, texts ...string) {
	u.row(at, origin.Cell{Book: at.Book, Sheet: at.Sheet}, texts...)
}

// row looks at the texts of a row, and tells of the first that loses anything.
func (u *unprinted) row(at, together origin.Cell, texts ...string) {
	for _, text := range texts {
		gone := u.letters.Lost(text)
		if len(gone) == 0 {
			continue
		}
		if n, told := u.sheets[together]; told {
			u.found[n].rows++
			return
		}
		u.sheets[together] = len(u.found)
		u.found = append(u.found, lost{at, text, gone[0], 1})
		return
	}
}

func (u *unprinted) list() problem.List {
	var out problem.List
	for _, l := range u.found {
		text := fmt.Sprintf("%q cannot be printed as it is: the type of the PDFs has no %q, which stands there as %s", brief(l.text), string(l.first), letters.Number(l.first))
		switch more := l.rows - 1; {
		case more == 1:
			text += "; the same goes for one more row of the sheet"
		case more > 1:
			text += fmt.Sprintf("; the same goes for %d more rows of the sheet", more)
		}
		out.Add(problem.Problem{Code: problem.LettersMissing, At: l.at, Text: text})
	}
	return out
}

// brief is as much of a text as tells which it is.
func brief(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
