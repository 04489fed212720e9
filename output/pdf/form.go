package pdf

import (
	"slices"
	"strconv"
)

// form is the form of tender: the offer, its time and validity, and room for
// its acceptance.
func (t *tender) form() {
	t.turn()
	t.begin("Form of tender")
	t.facts([]fact{
		{"To", t.Job.Client},
		{"From", t.Job.Yard},
		{"Vessel", t.Job.Vessel},
		{"Tender", t.Job.Reference + ", " + day(t.Job.TenderDate)},
	}, body)
	t.y += 3
	t.clause(text("offer", "{yard}", t.Job.Yard, "{vessel}", t.Job.Vessel,
		"{net}", t.sum(t.Bill.Net), "{net words}", t.inWords(t.Bill.Net),
		"{total}", t.sum(t.Bill.Total), "{total words}", t.inWords(t.Bill.Total))...)
	if o := t.Bill.Otherwise; o != nil {
		ground := "offer otherwise"
		if t.Job.Currency != "GBP" {
			ground = "offer otherwise elsewhere"
		}
		t.clause(text(ground, "{otherwise}", t.sum(o.Total), "{otherwise words}", t.inWords(o.Total))...)
	}
	t.clause(t.time()...)
	if until := t.until(); until != "" {
		t.clause(text("offer valid", "{until}", until, "{days}", strconv.Itoa(t.Job.ValidDays))...)
	} else {
		t.clause(text("offer valid open")...)
	}
	if t.adjusted() {
		t.clause(text("offer adjusted")...)
	}
	t.clause(text("offer any")...)

	parties := []fact{{"Signed for the yard, with authority", t.Job.Yard}, {"Accepted for the client, with authority", t.Job.Client}}
	names := []string{"Sum accepted", "Options taken up, by item", "Start on site", "Form of contract"}
	if len(t.options()) == 0 {
		names = slices.Delete(names, 1, 2)
	}
	// Whoever signs sees what for: all of it stands on one page, and on that of the
	// offer where closer lines make it fit.
	deep := func(s spacing) float64 {
		_, _, block := t.signing(parties, s)
		return 16 + float64(len(names))*s.blank + 4 + block
	}
	lines := roomy
	if deep(roomy) > t.room() && deep(tight) <= t.room() {
		lines = tight
	}
	t.need(deep(lines))
	t.head("Acceptance")
	t.say(body, text("acceptance")...)
	for _, name := range names {
		t.blank(left, t.width, name)
		t.y += lines.blank
	}
	t.y += 4
	t.signatures(lines, parties...)
}

// time says when the work begins and how long it takes, as far as that is known.
func (t *tender) time() []string {
	switch weeks, start := !t.Programme.Weeks.IsZero(), !t.Job.Start.IsZero(); {
	case weeks && start && !t.Programme.Finish.IsZero():
		return text("offer time", "{weeks}", t.weeks(), "{start}", day(t.Job.Start), "{finish}", day(t.Programme.Finish))
	case weeks:
		return text("offer time undated", "{weeks}", t.weeks())
	case start:
		return text("offer start", "{start}", day(t.Job.Start))
	}
	return text("offer time open")
}

// weeks is the time on site.
func (t *tender) weeks() string { return t.Programme.Weeks.StringFixed(1) }

// adjusted reports that something in the sum is not yet settled.
func (t *tender) adjusted() bool {
	return len(t.Bill.Sums)+len(t.Bill.Dayworks) > 0 || !t.Bill.Held.IsZero() || len(t.provisionalLines()) > 0
}

// signed is the last part: what marks these pages as those agreed upon.
func (t *tender) signed() {
	parties := []fact{{"Signed for the yard", t.Job.Yard}, {"Signed for the client", t.Job.Client}}
	_, _, deep := t.signing(parties, roomy)
	t.need(deep + 68)
	t.begin("Validity and signature")
	t.clause(text("signed")...)
	if until := t.until(); until != "" {
		t.clause(text("signed until", "{until}", until)...)
	}
	if t.replaced {
		t.clause(text("characters")...)
	}
	t.y += 8
	t.signatures(roomy, parties...)
}
