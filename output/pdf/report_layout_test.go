package pdf

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/rates/money"
)

// Whatever came back, and by whatever terms: no writing of the report stands on
// other writing or beyond the edges of the page, and no page ends with a heading.
func TestTheReportKeepsToItsPages(t *testing.T) {
	s := Smack()
	rapid.Check(t, func(t *rapid.T) {
		name := func() string {
			return rapid.SampledFrom([]string{"Yard", "A", "Верфь Маяк 船", "نور 🚢", strings.Repeat("Longname", 9), "The Amalgamated Traditional Shipbuilding, Sparmaking and Slipway Company of the Northern Estuaries Limited"}).Draw(t, "name")
		}
		sent := s
		sent.Vessel, sent.Client = name(), name()
		sent.Paper = rapid.SampledFrom([]job.Paper{job.A4, job.Letter}).Draw(t, "paper")
		if rapid.Bool().Draw(t, "great") {
			sent.Contingency = money.MustAmount("123456789.01")
		}
		var all []quotes.Quote
		for range rapid.SampledFrom([]int{0, 1, 2, 3, 3, 5, 9}).Draw(t, "quotes") {
			q := Three(sent)[rapid.IntRange(0, 2).Draw(t, "quote")]
			if rapid.IntRange(0, 2).Draw(t, "form") == 0 {
				q = FormOf(sent, "", rapid.SampledFrom([]string{"0.3", "1", "14"}).Draw(t, "factor"))
			}
			q.Firm, q.Book, q.Signed = name(), name()+".xlsx", name()
			for n := range rapid.IntRange(0, 2).Draw(t, "qualifications") {
				q.Qualifications = append(q.Qualifications, quotes.Qualification{Number: n + 1, Text: strings.Repeat("not as described ", rapid.SampledFrom([]int{1, 9, 150}).Draw(t, "long"))})
			}
			all = append(all, q)
		}
		terms := quotes.Usual()
		terms.Errors = rapid.SampledFrom(quotes.ErrorRules()).Draw(t, "errors")
		terms.Low = rapid.SampledFrom(quotes.LowRules()).Draw(t, "low")
		if rapid.Bool().Draw(t, "weeks") {
			terms.Week = money.MustAmount("420.00")
		}
		c, problems := quotes.Compare(sent, all, terms)
		if problems.HasErrors() {
			t.Fatal(problems)
		}
		d, err := laidOut(c)
		if err != nil {
			t.Fatal(err)
		}
		for n, p := range d.pages {
			apart(t, d, n, p)
			within(t, d, n, p)
		}
	})
}

// within checks that writing keeps to the block of text, but for heads and
// feet, and that the lowest of it is no heading.
func within(t *rapid.T, d *document, n int, p *page) {
	lowest := mark{}
	for _, m := range p.marks {
		if m.kind != writing {
			continue
		}
		if end := m.x + d.letters.width(m.text, m.style); m.x < left-0.1 || end > d.right+0.2 {
			t.Fatalf("page %d: %q stands from %.1f to %.1f mm", n+1, m.text, m.x, end)
		}
		if m.style == running {
			continue
		}
		if m.y > d.bottom+0.2 {
			t.Fatalf("page %d: %q stands at %.1f mm, below the block", n+1, m.text, m.y)
		}
		if m.y > lowest.y {
			lowest = m
		}
	}
	if lowest.style == heading || lowest.style == part {
		t.Fatalf("page %d ends with the heading %q", n+1, lowest.text)
	}
}
