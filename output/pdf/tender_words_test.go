package pdf_test

import (
	"strings"
	"testing"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/rates/money"
	"futtock/templates/wording"
)

// What the yard is to do with the standing text is between the program and the
// yard: the client's copy says nothing of checking, striking out or initials.
func TestTheTenderSaysNothingToTheYard(t *testing.T) {
	text := strings.ToLower(single(words(t, tender(t, demonstration(t)))))
	for _, not := range append(wording.BeforeSending(), "standing text", "initial", "strike out", "for the yard to", "to be checked by the yard") {
		if strings.Contains(text, strings.ToLower(not)) {
			t.Errorf("the client reads %q", not)
		}
	}
}

func TestTheTenderPrintsTheClausesOfTheJob(t *testing.T) {
	r := demonstration(t)
	r.Job.Clauses = []job.Clause{
		{Terms: job.Exclusions, Words: "Fees {of all} kinds.", InPlaceOf: "naval architecture"},
		{Terms: job.Exclusions, InPlaceOf: "Survey for asbestos"},
		{Terms: job.Assumptions, Words: "Ice holds off."},
		{Terms: job.OfDock, Words: "She comes under tow.", InPlaceOf: "She comes to the yard afloat"},
		{Terms: job.Cautions, Words: "The slip is tidal."},
	}
	text := single(words(t, tender(t, r)))
	for _, gone := range []string{"Naval architecture", "other dangerous substances", "She comes to the yard afloat"} {
		if strings.Contains(text, gone) {
			t.Errorf("%q is still printed", gone)
		}
	}
	from := 0
	for _, next := range []string{"She comes under tow.", "Members and systems", "Fees {of all} kinds.", "Hull, war and voyage", "Payment is", "Ice holds off.", "defers to local law", "The slip is tidal."} {
		at := strings.Index(text[from:], next)
		if at < 0 {
			t.Fatalf("%q is not printed in its place", next)
		}
		from += at
	}
}

// A table that ends in a total is added up by whoever reads it.
func TestTheContingencyAmongWhatIsProvisionalCasts(t *testing.T) {
	r := demonstration(t)
	c := r.Bill.Contingency
	if len(c.Parts) == 0 || len(c.Risks) == 0 {
		t.Fatal("the demonstration should have percentages and risks")
	}
	var shares money.Amount
	for _, p := range c.Parts {
		shares = shares.Add(p.Amount)
	}
	text := single(words(t, tender(t, r)))
	all := shares
	for _, k := range c.Risks {
		all = all.Add(k.Held)
	}
	if !all.Equal(r.Bill.Held) {
		t.Errorf("the rows come to %s and the contingency is %s", all, r.Bill.Held)
	}
	if want := "Percentages of what is priced " + shares.Grouped() + " as set out in the bill"; !strings.Contains(text, want) {
		t.Errorf("the text has no %q", want)
	}
}

func TestAContingencyWithinTheRatesIsNotSpokenOf(t *testing.T) {
	r := demonstration(t)
	if !strings.Contains(strings.ToLower(words(t, tender(t, r))), "contingency") {
		t.Fatal("the demonstration has no contingency to hide")
	}
	r.Job.ContingencyShown = job.WithinRates
	r = estimate.Run(r.Job, r.Book)
	text := strings.ToLower(words(t, tender(t, r)))
	if strings.Contains(text, "contingency") {
		t.Error("the client's tender speaks of a contingency")
	}
	if strings.Contains(text, "a, b and d") || !strings.Contains(text, "on a and b") {
		t.Error("prices rise on a D that the summary does not have")
	}
}
