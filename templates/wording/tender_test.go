package wording_test

import (
	"slices"
	"testing"

	"futtock/templates/wording"
)

func TestTheStandingTextIsFilledInOnce(t *testing.T) {
	got := wording.Tender("offer valid", "{until}", "1 May 2026, {days} o'clock", "{days}", "30")
	want := []string{"This offer stands open for acceptance until 1 May 2026, {days} o'clock, 30 days from its date, and lapses then unless we extend it in writing."}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if n := len(wording.Tender("timber")); n != 2 {
		t.Errorf("the part on timber has %d paragraphs, want 2", n)
	}
}

func TestAFaultInTheStandingTextIsNotPrinted(t *testing.T) {
	for name, say := range map[string]func(){
		"a part that is not there": func() { wording.Tender("offer valid for ever") },
		"a brace nobody fills":     func() { wording.Tender("offer valid", "{until}", "1 May 2026") },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s is let pass", name)
				}
			}()
			say()
		}()
	}
}
