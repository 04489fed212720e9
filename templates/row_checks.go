package templates

import (
	"fmt"
	"regexp"
	"strings"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/problem"
)

// The checks of single rows that no column can make by itself. What rows and
// sheets say of one another is checked by package job.

var (
	referenceForm = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9.-]*$`)
	currencyForm  = regexp.MustCompile(`^[A-Z]{3}$`)
)

// checkParticulars checks what file names and money signs are made of.
func checkParticulars(p *job.Particulars, l *Line) {
	if p.Reference != "" && !referenceForm.MatchString(p.Reference) {
		l.Say("Tender reference", problem.ReferenceForm,
			fmt.Sprintf("%q cannot begin the name of a file; letters, digits, dot and hyphen are wanted", p.Reference),
			suggested(p.Reference))
	}
	if !currencyForm.MatchString(p.Currency) {
		l.Say("Currency", problem.CurrencyForm,
			fmt.Sprintf("%q is not a currency; three capital letters are wanted", p.Currency), "GBP")
	}
}

// suggested is a reference with a hyphen for each run of letters it may not hold.
func suggested(reference string) string {
	parts := strings.FieldsFunc(reference, func(r rune) bool {
		return !referenceForm.MatchString(string(r)) && r != '.' && r != '-'
	})
	if s := strings.TrimLeft(strings.Join(parts, "-"), ".-"); s != "" {
		return s
	}
	return "SW-2026-1"
}

// checkMember checks that frames come in pairs.
func checkMember(_ *job.Member, l *Line) {
	from, to := l.Given("From frame"), l.Given("To frame")
	switch {
	case !l.Sound("From frame") || !l.Sound("To frame"):
	case from && !to:
		l.Say("To frame", problem.NeededBeside, `"To frame" is blank beside "From frame"; the last frame crossed is wanted`, "34")
	case to && !from:
		l.Say("From frame", problem.NeededBeside, `"From frame" is blank beside "To frame"; the first frame crossed is wanted`, "8")
	}
}

// checkPlant checks that a charge for each says for each of what.
func checkPlant(_ *rates.Plant, l *Line) {
	if l.Given("Each") && !l.Given("Unit") && l.Sound("Unit") {
		l.Say("Unit", problem.NeededBeside, `"Unit" is blank beside "Each"; what the charge is for one of is wanted`, "lift")
	}
}

// checkClause checks that a row says something, and leaves the cautions as they are.
func checkClause(c *job.Clause, l *Line) {
	switch {
	case !l.Sound("Clause") || !l.Sound("In place of"):
	case c.Words == "" && c.InPlaceOf == "":
		l.Say("Clause", problem.ClauseEmpty, `"Clause" and "In place of" are both blank, so that the row changes nothing; one of them is wanted`, "")
	case c.Terms == job.Cautions && c.InPlaceOf != "":
		l.Say("In place of", problem.ClauseStanding,
			fmt.Sprintf("%q is under \"In place of\" in a row of the cautions, which may be added to, and neither replaced nor left out; a blank cell is wanted", c.InPlaceOf), "")
	}
}

// checkFastening checks that a range of widths is not empty.
func checkFastening(f *rates.Fastening, l *Line) {
	if l.Given("Plank to") && l.Sound("Plank over") && f.To <= f.Over {
		l.Say("Plank to", problem.OutOfRange, `"Plank to" is not more than "Plank over", so no plank is within the row; more is wanted`, "")
	}
}

// checkStage checks that the name can stand in a list of names.
func checkStage(s *job.Stage, l *Line) {
	if strings.ContainsAny(s.Stage, ",;") {
		l.Say("Stage", problem.KeyForm,
			fmt.Sprintf("%q has a comma or semicolon, which parts the names under \"After\"; a name without is wanted", s.Stage),
			strings.Join(strings.FieldsFunc(s.Stage, func(r rune) bool { return strings.ContainsRune(",; ", r) }), " "))
	}
}
