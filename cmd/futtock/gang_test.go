package main

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/estimate/programme"
	"futtock/output"
	"futtock/output/explain"
	"futtock/output/text"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/templates"
	"futtock/templates/xlsx"
)

// Planking is on the critical path of the demonstration, and its four
// shipwrights make it as long as it is. With a fifth the labourers do: the stage,
// the job and the slip rent are shorter for it, and the total is less.
func TestAFifthManShortensTheJobAndTheSlipRent(t *testing.T) {
	was := demonstration(t)
	now := modelled(t, func(j *job.Job, _ *rates.Book) {
		for i := range j.Gangs {
			if g := &j.Gangs[i]; g.Stage == "Planking" && g.Trade == "Shipwright" {
				g.Men = g.Men.Add(decimal.New(1, 0))
			}
		}
	})
	before, after := stageOf(t, was, "Planking"), stageOf(t, now, "Planking")
	if !before.Critical || !after.Critical {
		t.Fatal("planking is not on the critical path, so that nothing need follow")
	}
	for _, c := range []struct {
		name    string
		r       estimate.Result
		stage   programme.Stage
		men     string
		governs string
	}{
		{"with four", was, before, "4", "Shipwright"},
		{"with five", now, after, "5", "Labourer"},
	} {
		weeks, governs := longest(c.r, "Planking")
		if !c.stage.Working.Equal(weeks) || c.stage.Governs != governs || governs != c.governs {
			t.Errorf("%s shipwrights: %s weeks by %s, and by hand %s by %s", c.name, c.stage.Working, c.stage.Governs, weeks, governs)
		}
		said := explained(c.r, "Planking")
		for _, want := range []string{c.governs + " governs", fmt.Sprintf("h / (%s men x 37 h)", c.men), "none: critical"} {
			if !strings.Contains(said, want) {
				t.Errorf("%s shipwrights: explain does not say %q of the stage:\n%s", c.name, want, said)
			}
		}
	}

	// All that follows planking on the critical path ends so much sooner.
	sooner := before.EarliestFinish.Sub(after.EarliestFinish)
	if sooner.Sign() <= 0 {
		t.Fatalf("planking ends %s weeks sooner, and it should end sooner", sooner)
	}
	if got := was.Programme.Weeks.Sub(now.Programme.Weeks); !got.Equal(sooner) {
		t.Errorf("the job is %s weeks shorter, and planking ends %s sooner", got, sooner)
	}

	// Slip rent: 980.00 a week, no overheads, 6 % profit.
	rate := money.MustAmount("1038.80")
	for _, c := range []struct {
		name string
		r    estimate.Result
	}{{"with four", was}, {"with five", now}} {
		weeks := stageOf(t, c.r, "Painting").EarliestFinish.Sub(stageOf(t, c.r, "Docking").Earliest)
		for _, l := range c.r.Bill.Preliminaries {
			if l.Ref == "PR2" && (!l.Quantity.Equal(weeks) || !l.Rate.Equal(rate) || !l.Amount.Equal(rate.Times(weeks))) {
				t.Errorf("%s: slip rent is %s x %s = %s, and by hand %s x %s", c.name, l.Quantity, l.Rate, l.Amount, weeks, rate)
			}
		}
		want := fmt.Sprintf("%s weeks by the programme", weeks)
		if said := explained(c.r, "PR2"); !strings.Contains(said, want) || !strings.Contains(said, "To the finish of Painting") {
			t.Errorf("%s: explain does not say %q of the slip rent:\n%s", c.name, want, said)
		}
	}
	if !now.Bill.Items.Equal(was.Bill.Items) {
		t.Errorf("the measured work moved from %s to %s; men change the weeks, not the hours", was.Bill.Items, now.Bill.Items)
	}
	if now.Bill.Total.Cmp(was.Bill.Total) >= 0 {
		t.Errorf("the total was %s and is %s, and a shorter job costs less", was.Bill.Total, now.Bill.Total)
	}
}

func stageOf(t *testing.T, r estimate.Result, name string) programme.Stage {
	t.Helper()
	for _, s := range r.Programme.Stages {
		if s.Stage.Stage == name {
			return s
		}
	}
	t.Fatalf("there is no stage %q", name)
	return programme.Stage{}
}

// longest is the weeks of work of a stage and the trade that needs them, from
// the lines of hours and the sheet of gangs: hours / (men x 37 h) of each trade,
// the longest of them up to a tenth of a week. Closures are listed, so that a man works the whole
// 37 h of a week that is open.
func longest(r estimate.Result, stage string) (weeks decimal.Decimal, trade string) {
	for _, g := range r.Job.Gangs {
		if g.Stage != stage {
			continue
		}
		var hours decimal.Decimal
		for _, l := range r.Hours.Lines {
			if l.Stage == stage && l.Trade == g.Trade && l.Carried.InTotal() {
				hours = hours.Add(l.Hours)
			}
		}
		needs := hours.DivRound(g.Men.Mul(decimal.New(37, 0)), 12)
		if needs.GreaterThan(weeks) {
			weeks, trade = needs, g.Trade
		}
	}
	return weeks.RoundCeil(1), trade
}

func explained(r estimate.Result, ref string) string {
	var b bytes.Buffer
	text.Explained(&b, r, explain.Of(r, ref))
	return b.String()
}

// scriptDemonstration writes the workbook of the demonstration, with the text of
// one line of a sheet, its cells parted by bars, typed over by another.
func scriptDemonstration(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 && len(args) != 4 {
		ts.Fatalf("usage: demonstration FILE.xlsx [SHEET WAS IS]")
	}
	sheets, err := demoTables()
	ts.Check(err)
	if len(args) == 4 {
		typed := 0
		for _, s := range sheets {
			for n, row := range s.Rows {
				if s.Sheet == args[1] && strings.Join(row.Cells, " | ") == args[2] {
					s.Rows[n].Cells = strings.Split(args[3], " | ")
					typed++
				}
			}
		}
		if typed != 1 {
			ts.Fatalf("%d lines of %s are %q", typed, args[1], args[2])
		}
	}
	book, err := templates.Filled(sheets)
	ts.Check(err)
	data, err := xlsx.Write(book)
	ts.Check(err)
	ts.Check(output.Save(ts.MkAbs("."), []output.File{{Name: args[0], Data: data}}))
}
