package main

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"futtock/estimate"
	"futtock/estimate/changes"
	"futtock/templates"
)

// stepsOf are the steps that are worth something or cannot be priced, with their worth, of the
// job beside the problems and of it with sheets replaced.
func stepsOf(t *testing.T, old, new string) (steps []string, told []changes.Change) {
	t.Helper()
	base := archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt"))
	priced := func(name, replaced string) estimate.Result {
		sheets, _ := replacedBy(base, txtar.Parse([]byte(replaced)), "")
		j, b, found := templates.Read(templates.TextBook(name, tables(sheets)), nil)
		r := estimate.Run(j, b)
		found.Join(r.Problems)
		if found.HasErrors() {
			t.Fatal(found)
		}
		return r
	}
	for _, s := range bridged(t, priced("old.xlsx", old), priced("new.xlsx", new)).Steps {
		told = append(told, s.Changes...)
		switch {
		case s.Cannot != "":
			steps = append(steps, s.Kind.Name()+": "+s.Cannot)
		case !s.Worth.IsZero():
			steps = append(steps, s.Kind.Name()+" "+s.Worth.String())
		}
	}
	return steps, told
}

const (
	jobSheet = `-- job --
Vessel	Speedwell
Client	The trustees of the Speedwell
Yard	The Creek yard
Tender reference	SK-2026-4
Tender date	2026-05-01
Start on site	2026-06-01
Lengths in	ft
Sided and moulded in	in
VAT code	S
Hours a week	40
Working weeks a year	52
Spacing of frames	1' 9"
Contingency %	10 %
`
	itemSheet = `-- items --
Ref	Section	Description	Quantity	Unit	Build-up	Stage
5.1	5	two coats of paint on the new planking	6.2	m2	Paint	
`
	buildUpSheet = `-- build-ups --
Build-up	Kind	Key	Measured by	Quantity
Plank	task	Fit plank	length	1
Plank	task	Take off plank	old volume	1
Paint	task	Paint two coats	face area	1
Paint	material	Oil paint	face area (m2)	0.25
`
	normSheet = `-- norms --
Task	Trade	Hours	Unit
Fit plank	Shipwright	2.4	m
Take off plank	Shipwright	20	m3
Paint two coats	Painter	0.5	m2
`
	labourSheet = `-- labour --
Trade	Rate	From
Shipwright	42.00	
Painter	36.00	
`
	gangSheet = `-- gangs --
Stage	Trade	Men
Planking	Shipwright	2
Painting	Painter	1
`
)

// A new row brings with it the build-up, task, trade and gang that the old issue lacks, so that it
// is priced with the members: 3 h at 50.00 with 12 and 8 % are 181.44. Of the section 10 % is held, 15.71 of
// 157.11 and 33.86 (33.855) of 338.55: 18.15 more. VAT of 20 % on 199.59 more is 39.92 (39.918) more.
func TestANewRowBringsWhatItNames(t *testing.T) {
	old := jobSheet + itemSheet + buildUpSheet + normSheet + labourSheet + gangSheet
	new := jobSheet + itemSheet + "5.2	5	search of the sea bed	3	h	Search	\n" + buildUpSheet + "Search	task	Dive	item	3\n" + normSheet + "Dive	Diver	1	item\n" +
		labourSheet + "Diver	50.00	\n" + gangSheet + "Painting	Diver	1\n"
	steps, told := stepsOf(t, old, new)
	if d := cmp.Diff([]string{"members 239.51"}, steps); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	var in []string
	for _, c := range told {
		in = append(in, c.Sheet+" "+c.Key+" "+c.NowAt.String())
		if !c.PutIn() {
			t.Errorf("told as %+v", c)
		}
	}
	slices.Sort(in)
	want := []string{"Build-ups Search, task, Dive new.xlsx: Build-ups!A6", "Gangs Painting, Diver new.xlsx: Gangs!A4", "Items 5.2 new.xlsx: Items!A3",
		"Labour Diver new.xlsx: Labour!A4", "Norms Dive new.xlsx: Norms!A5"}
	if d := cmp.Diff(want, in); d != "" {
		t.Errorf("put in (-want +got):\n%s", d)
	}
}

// An item that is measured by the metre in the place of the square metre cannot be priced
// by the old norms: its quantity is told of with the norms.
func TestAStepThatCannotBePricedIsToldOfWithTheNext(t *testing.T) {
	old := jobSheet + itemSheet + buildUpSheet + normSheet
	new := jobSheet + strings.Replace(itemSheet, "6.2	m2", "6.2	m", 1) +
		strings.NewReplacer("Paint two coats	face area", "Paint two coats	length", "face area (m2)	0.25", "length (m)	0.5").Replace(buildUpSheet) +
		strings.Replace(normSheet, "0.5	m2", "0.75	m", 1)
	steps, told := stepsOf(t, old, new)
	if len(steps) != 2 || !strings.HasPrefix(steps[0], "quantities: ") || !strings.HasPrefix(steps[1], "norms ") {
		t.Errorf("the steps are %q", steps)
	}
	for _, c := range told {
		if c.Sheet == "Build-ups" && c.Column == "Measured by" && (c.Was == "" || c.Now != "length" && c.Now != "length (m)") {
			t.Errorf("%q was %q", c.Now, c.Was)
		}
	}
}

// A later tender date brings the pay in force on it: the step is that of the pay, and the two cells
// are those of the two rows.
func TestALaterDateBringsThePayInForceOnIt(t *testing.T) {
	labour := labourSheet + "Shipwright	44.00	2026-06-01\n"
	dated := strings.Replace(jobSheet, "2026-05-01", "2026-06-01", 1)
	dated = strings.Replace(dated, "Start on site	2026-06-01", "Start on site	2026-07-01", 1)
	earlier := strings.Replace(jobSheet, "Start on site	2026-06-01", "Start on site	2026-07-01", 1)
	steps, told := stepsOf(t, earlier+labour, dated+labour)
	if len(steps) != 1 || !strings.HasPrefix(steps[0], "pay ") {
		t.Errorf("the steps are %q", steps)
	}
	i := slices.IndexFunc(told, func(c changes.Change) bool { return c.Step == changes.Pay })
	if i < 0 || told[i].Was != "42.00" || told[i].Now != "44.00" || told[i].WasAt.String() != "old.xlsx: Labour!B2" || told[i].NowAt.String() != "new.xlsx: Labour!B4" {
		t.Errorf("told as %+v", told)
	}
}
