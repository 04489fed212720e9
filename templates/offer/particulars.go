package offer

import (
	"fmt"
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/money"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// particulars reads whose bill it is, from the cover or the summary.
func (s *sending) particulars() {
	said := answers{}
	for _, name := range []string{bill.FormCover, bill.FormSummary} {
		if p, ok := s.named(name); ok {
			s.answer(p, said)
			if p.Paper == grid.Letter {
				s.out.Paper = job.Letter
			}
		}
	}
	o := &s.out
	o.Client, _ = s.textOf(said, "Client")
	o.Reference, _ = s.textOf(said, bill.SaidReference, "Tender reference")
	o.Currency, _ = s.textOf(said, bill.SaidCurrency)
	o.Fingerprint, _ = s.textOf(said, bill.SaidFingerprint)
	o.Vessel, _ = s.textOf(said, "Vessel")
	if day, ok := s.dayOf(said, "Dated", "Tender date"); ok {
		o.Tendered = day
	}
	vessel, ref := s.titled()
	if o.Reference == "" {
		o.Reference = ref
	}
	if o.Vessel == "" {
		o.Vessel = vessel
	}
	if o.Currency == "" {
		o.Currency = s.currency()
	}
	if !templates.IsReference(o.Reference) {
		s.say(problem.NotABill, s.at("", 0, 0), fmt.Sprintf("no tender reference of letters, digits, dot and hyphen stands in the bill, but %q; a bill as it was sent out is wanted", clipped(o.Reference)))
	}
}

// titled is the vessel and the tender reference as the first lines of any sheet
// say them.
func (r *reader) titled() (vessel, reference string) {
	for _, p := range r.book.Sheets {
		for _, l := range p.Rows {
			if l.Row > 4 || len(l.Cells) == 0 {
				break
			}
			text := single(l.Cells[0].Raw)
			i := strings.LastIndex(text, ", tender ")
			if i < 0 {
				continue
			}
			if reference == "" {
				reference = strings.TrimSpace(text[i+len(", tender "):])
			}
			if first := text[:i]; vessel == "" && !strings.Contains(strings.ToLower(first), "bill of quantities") {
				vessel = first
			}
		}
	}
	return vessel, reference
}

// currency is that of the signs in the headings of money.
func (s *sending) currency() string {
	for _, p := range s.book.Sheets {
		for _, l := range p.Rows {
			for _, d := range l.Cells {
				text := single(d.Raw)
				i := strings.LastIndexByte(text, ' ')
				if d.Kind != grid.Text || i < 0 || !contains([]string{bill.HeadRate, bill.HeadAmount, bill.HeadTotal}, text[:i]) {
					continue
				}
				if code, ok := wording.CurrencyOf(text[i+1:]); ok {
					return code
				}
			}
		}
	}
	return ""
}

// held reads what the client holds: contingency and price rises, from the
// summary of the priced bill.
func (s *sending) held() {
	p, ok := s.named(bill.FormSummary)
	if !ok || !s.priced {
		return
	}
	for _, l := range p.Rows {
		if len(l.Cells) < 3 {
			continue
		}
		key, text, last := single(l.Cells[0].Raw), single(l.Cells[1].Raw), l.Cells[len(l.Cells)-1]
		if key == "D" && text == "Contingency" || key == "E" && strings.HasPrefix(text, "Price rises") {
			f := s.figure(last, s.at(p.Name, l.Row, last.Col))
			if s.number(f, "sum of money") {
				s.out.Contingency, s.out.HasHeld = s.out.Contingency.Add(money.Round(f.Value)), true
			}
		}
	}
}
