package price_test

import (
	"testing"
	"time"

	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// later is a day after the tender date.
var later = day.AddDate(0, 0, 1)

func TestEveryProblemStandsAtItsCell(t *testing.T) {
	key, at := cell("Build-ups", 9), cell("Preliminaries", 7)
	for _, c := range []struct {
		name   string
		change func(j *job.Job, b *rates.Book, r *takeoff.Row)
		code   problem.Code
		at     origin.Cell
	}{
		{"nothing wrong", func(*job.Job, *rates.Book, *takeoff.Row) {}, "", origin.Cell{}},
		{"a trade whose rate begins later", func(_ *job.Job, b *rates.Book, _ *takeoff.Row) { b.Labour[0].From = later }, problem.LabourPrice, cell("Members", 2)},
		{"a trade that costs nothing", func(_ *job.Job, b *rates.Book, _ *takeoff.Row) { b.Labour[0].Rate = quoted("0") }, problem.LabourPrice, cell("Labour", 2)},
		{"a material that begins later", func(_ *job.Job, b *rates.Book, _ *takeoff.Row) { b.Materials[0].From = later }, problem.MaterialPrice, key},
		{"plant that begins later", func(_ *job.Job, b *rates.Book, _ *takeoff.Row) { b.Plant[0].From = later }, problem.PlantPrice, key},
		{"plant without a price for each", func(_ *job.Job, b *rates.Book, _ *takeoff.Row) { b.Plant[0].Each = quoted("0") }, problem.PlantPrice, key},
		{"work that begins later", func(_ *job.Job, b *rates.Book, _ *takeoff.Row) { b.Subcontract[0].From = later }, problem.WorkPrice, key},
		{"a material measured by what it is not sold by", func(_ *job.Job, b *rates.Book, _ *takeoff.Row) { b.BuildUps[0].Per = "" }, problem.UnlikeDimensions, cell("Build-ups", 10)},
		{"a fastening that begins later", func(_ *job.Job, b *rates.Book, _ *takeoff.Row) { b.Materials[1].From = later }, problem.MaterialPrice, cell("Fastenings", 3)},
		{"a fastening sold by weight", func(_ *job.Job, b *rates.Book, _ *takeoff.Row) { b.Materials[1].Unit = measure.Kg }, problem.FastenerUnit, cell("Fastenings", 3)},
		{"a kind without overheads and profit", func(j *job.Job, _ *rates.Book, _ *takeoff.Row) { j.Additions = j.Additions[1:] }, problem.AdditionsNone, origin.Cell{Book: "yard.xlsx", Sheet: "Overheads and profit"}},
		{"a preliminary with nothing to charge", prelim(job.Preliminary{}), problem.PrelimEmpty, at},
		{"a preliminary of plant that has only a price for each", prelim(job.Preliminary{Plant: "steam box"}), problem.PrelimEmpty, at},
		{"plant of a preliminary that begins later", func(j *job.Job, b *rates.Book, r *takeoff.Row) {
			b.Plant[1].From = later
			prelim(job.Preliminary{Plant: "crane", PlantAt: cell("Preliminaries", 8), Fixed: quoted("1")})(j, b, r)
		}, problem.PlantPrice, cell("Preliminaries", 8)},
		{"hours a week of nobody", prelim(job.Preliminary{HoursAWeek: dec("10")}), problem.PrelimTrade, at},
		{"a share of hours at no rate", prelim(job.Preliminary{Share: percent("8"), ShareGiven: true, Of: job.OfHours, ShareAt: cell("Preliminaries", 8)}), problem.PrelimTrade, cell("Preliminaries", 8)},
		{"a share of nothing stated", prelim(job.Preliminary{Share: percent("8"), ShareGiven: true, ShareAt: cell("Preliminaries", 8)}), problem.PrelimShare, cell("Preliminaries", 8)},
		{"stages turned about", prelim(job.Preliminary{Weekly: quoted("1"), FromStage: "caulking", ToStage: "shoring", ToAt: cell("Preliminaries", 8)}), problem.StagesTurned, cell("Preliminaries", 8)},
		{"two lines of which one has another row's Ref", func(j *job.Job, b *rates.Book, r *takeoff.Row) {
			prelim(job.Preliminary{Fixed: quoted("1"), Weekly: quoted("1")})(j, b, r)
			j.Preliminaries = append(j.Preliminaries, job.Preliminary{Ref: "p1B", Fixed: quoted("1")})
		}, problem.PrelimRef, at},
		{"a trade of daywork that begins later", func(j *job.Job, b *rates.Book, _ *takeoff.Row) {
			b.Labour[1].From = later
			j.Dayworks = []job.Daywork{{At: at, Of: "foreman", Quantity: dec("1")}}
		}, problem.LabourPrice, at},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard()
			j.Stages = []job.Stage{{Stage: "shoring"}}
			for i := range b.BuildUps {
				b.BuildUps[i].ItemAt, b.BuildUps[i].DriverAt = key, cell("Build-ups", 10)
			}
			r := member("1")
			r.Work.BuildUp = "plank"
			r.Fastenings = []takeoff.Fastened{{Rule: rates.Fastening{MaterialAt: cell("Fastenings", 3)}, Number: dec("74"), Material: "7 in spike"}}
			c.change(j, b, &r)
			h := labour.Hours{Lines: []labour.Line{{Ref: "1", Trade: "shipwright", Hours: dec("1")}}}
			_, found := price.Price(j, b, takeoff.Takeoff{Rows: []takeoff.Row{r}}, cutting.Plan{}, h, laid())
			if c.code == "" {
				if len(found) > 0 {
					t.Errorf("problems: %v", found)
				}
				return
			}
			if len(found) != 1 || found[0].Code != c.code || found[0].At != c.at {
				t.Errorf("found %v; want %s at %s alone", found, c.code, c.at)
			}
		})
	}
}

func prelim(row job.Preliminary) func(*job.Job, *rates.Book, *takeoff.Row) {
	return func(j *job.Job, _ *rates.Book, _ *takeoff.Row) {
		row.At, row.Ref = cell("Preliminaries", 7), "P1"
		j.Preliminaries = []job.Preliminary{row}
	}
}

func TestATimeChargeWithoutAProgrammeAsksForWeeks(t *testing.T) {
	j, b := yard()
	j.Preliminaries = []job.Preliminary{{Ref: "P1", Weekly: quoted("85")}}
	_, found := price.Price(j, b, takeoff.Takeoff{}, cutting.Plan{}, labour.Hours{}, programme.Programme{})
	equal(t, "problems", codes(found), []problem.Code{problem.WeeksUnknown})

	j.Preliminaries[0].Weeks, j.Preliminaries[0].WeeksGiven = dec("12"), true
	_, found = price.Price(j, b, takeoff.Takeoff{}, cutting.Plan{}, labour.Hours{}, programme.Programme{})
	equal(t, "problems with the weeks given", codes(found), []problem.Code(nil))
}

func TestRowsOfOneBillItemAreCarriedAlike(t *testing.T) {
	for _, c := range []struct {
		name          string
		first, second job.Work
		want          []problem.Code
	}{
		{"measured said and unsaid", job.Work{}, job.Work{Carried: job.Measured}, nil},
		{"measured beside an option", job.Work{}, job.Work{Carried: job.Option}, []problem.Code{problem.CarriedMixed}},
		{"two risks of one chance", job.Work{Carried: job.AtRisk, Chance: percent("30")}, job.Work{Carried: job.AtRisk, Chance: percent("30.0")}, nil},
		{"two risks of two chances", job.Work{Carried: job.AtRisk, Chance: percent("30")}, job.Work{Carried: job.AtRisk, Chance: percent("40")}, []problem.Code{problem.CarriedMixed}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard()
			x, y := works("1", "1", measure.M), works("2", "1", measure.M)
			x.Carried, x.Chance, y.Carried, y.Chance = c.first.Carried, c.first.Chance, c.second.Carried, c.second.Chance
			_, found := only(t, j, b, []takeoff.Row{item(x), item(y)}, cutting.Plan{}, labour.Hours{})
			equal(t, "problems", codes(found), c.want)
		})
	}
}

// A price that began before the tender date and one that begins after it: the
// first holds.
func TestThePriceInForceOnTheTenderDateHolds(t *testing.T) {
	j, b := yard()
	old, next := b.Labour[0], b.Labour[0]
	old.From, old.Rate = time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC), quoted("40")
	next.From, next.Rate = later, quoted("50")
	b.Labour = append(b.Labour, old, next)
	h := labour.Hours{Lines: []labour.Line{{Ref: "1", Trade: "shipwright", Hours: dec("1")}}}
	got, _ := only(t, j, b, []takeoff.Row{member("1")}, cutting.Plan{}, h)
	equal(t, "rate of the hour", got.Costs[0].Rate.String(), "40.00")
}
