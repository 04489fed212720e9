package job

import (
	"fmt"
	"strings"

	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// Terms is a part of the tender that is made of standing clauses.
type Terms string

// The parts. Those of timber and dock are in the basis of the tender; all else
// there says how the job is measured and priced, and follows from the workbook.
const (
	Exclusions  Terms = "exclusions"
	Assumptions Terms = "assumptions"
	OfTimber    Terms = "timber"
	OfDock      Terms = "dock"
	Cautions    Terms = "cautions" // may be added to and nothing else: they are there for people's safety
)

// TermsParts is every such part in the order of the Clauses sheet's list.
func TermsParts() []Terms { return []Terms{Exclusions, Assumptions, OfTimber, OfDock, Cautions} }

// Clause is what a part of the tender says otherwise for this job: words that
// are added to it, words in place of one of its standing clauses, or, without
// words of its own, a standing clause that is left out.
type Clause struct {
	At        origin.Cell
	Terms     Terms
	Words     string
	InPlaceOf string // the first words of a standing clause; blank of one that is added
	PlaceAt   origin.Cell
}

// takesPlace reports a row that stands in the place of a standing clause, case,
// spaces and a full stop after the first words aside.
func (c Clause) takesPlace(standing string) bool {
	return c.InPlaceOf != "" && strings.HasPrefix(rates.Key(standing), strings.TrimRight(rates.Key(c.InPlaceOf), ".… "))
}

// Standing is standing clauses of a part as they hold for the job: what takes the
// place of one stands there, in the order of the sheet, and what is left out is gone.
func (j *Job) Standing(part Terms, standing []string) []string {
	var out []string
	for _, text := range standing {
		stays := true
		for _, c := range j.Clauses {
			if c.Terms != part || !c.takesPlace(text) {
				continue
			}
			stays = false
			if c.Words != "" {
				out = append(out, c.Words)
			}
		}
		if stays {
			out = append(out, text)
		}
	}
	return out
}

// Added is the clauses that the job adds to a part, in the order of the sheet.
func (j *Job) Added(part Terms) []string {
	var out []string
	for _, c := range j.Clauses {
		if c.Terms == part && c.InPlaceOf == "" && c.Words != "" {
			out = append(out, c.Words)
		}
	}
	return out
}

// CheckClauses is what is wrong with first words under "In place of": each must
// begin one clause of all that may stand in its part, and no other.
func (j *Job) CheckClauses(standing func(part string) []string) problem.List {
	var found problem.List
	for _, c := range j.Clauses {
		if c.InPlaceOf == "" || c.Terms == "" || c.Terms == Cautions {
			continue
		}
		all := standing(string(c.Terms))
		var meant []string
		for _, text := range all {
			if c.takesPlace(text) {
				meant = append(meant, text)
			}
		}
		p := problem.Problem{At: c.PlaceAt}
		switch len(meant) {
		case 1:
			continue
		case 0:
			p.Code, p.Near = problem.ClauseUnknown, problem.Nearest(c.InPlaceOf, beginnings(all, len(strings.Fields(c.InPlaceOf))))
			p.Text = fmt.Sprintf("no standing clause of the part %q begins %q; the first words of one are wanted", c.Terms, c.InPlaceOf)
			if p.Near == "" {
				p.Text += ": " + quoted(beginnings(all, 4))
			}
		default:
			p.Code = problem.ClauseSeveral
			p.Text = fmt.Sprintf("%q begins %d standing clauses of the part %q; so many of the first words are wanted that they begin one alone: %s",
				c.InPlaceOf, len(meant), c.Terms, quoted(beginnings(meant, 4)))
		}
		found.Add(p)
	}
	return found
}

// beginnings is the first words of clauses, as many of each.
func beginnings(clauses []string, words int) []string {
	out := make([]string, len(clauses))
	for i, text := range clauses {
		all := strings.Fields(text)
		out[i] = strings.TrimRight(strings.Join(all[:min(words, len(all))], " "), ",;:.")
	}
	return out
}

// quoted is a list of words in quotes.
func quoted(list []string) string { return `"` + strings.Join(list, `", "`) + `"` }
