package pdf_test

import (
	"strings"
	"testing"

	"futtock/estimate/job"
)

// The note on value added tax names the law of the United Kingdom, and the tonnage by its factor, only
// where both are of account: 27.1 x 6.72 x 2.94 x 0.235 = 125.82 where no tonnage is given.
func TestTheNoteOnTaxSaysWhatHoldsOfTheVessel(t *testing.T) {
	const factor, act, elsewhere, judge = "125.82, by length x breadth x depth x 0.235", "Value Added Tax Act 1994", "her use and the law of the place", "for the owner and the owner's adviser to judge"
	for _, c := range []struct {
		name      string
		change    func(*job.Job)
		has, lack []string
	}{
		{"a certificate", func(*job.Job) {}, []string{"98.6, by certificate of registry", act, judge, "1,639,905.00", "on the ground that she is a qualifying ship"}, []string{factor, elsewhere}},
		{"dimensions alone", func(j *job.Job) { j.TonnageGiven = false }, []string{factor, act, judge}, []string{"98.6"}},
		{"another country", func(j *job.Job) { j.TonnageGiven, j.Currency = false, "NOK" }, []string{elsewhere, judge, "1,639,905.00", "Should that ground be found not to hold"}, []string{factor, act, "she is a qualifying ship"}},
		{"no evidence", func(j *job.Job) { j.VATEvidence = "" }, []string{"No evidence is recorded"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := demonstration(t)
			c.change(&r.Job)
			text := single(words(t, tender(t, r)))
			for _, want := range c.has {
				if !strings.Contains(text, want) {
					t.Errorf("the text has no %q", want)
				}
			}
			for _, not := range c.lack {
				if strings.Contains(text, not) {
					t.Errorf("the text has %q", not)
				}
			}
		})
	}
}

// A sum is said to hold what is put to it, and no more: of 7,400.00 profit and attendance, of
// 2,345.67 profit alone, of 1,500.00 nothing.
func TestASumSaysWhatIsPutToIt(t *testing.T) {
	text := single(words(t, tender(t, worked(t, "../../testdata/cases/windlass-drive-prime-cost.txtar"))))
	for _, want := range []string{"£7,400.00 with profit and attendance", "£2,345.67 with profit S3"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
}
