package sheets

import (
	"futtock/estimate/job"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// notes lays out how the bill is to be read, and the cautions.
func (l *ledger) notes() {
	p := newPage(notesSheet, 5, 105)
	l.top(p, "Notes and cautions", 2)
	say := func(head string, paragraphs []string) {
		p.add(words(head, band), grid.Cell{Style: band})
		for i, text := range paragraphs {
			told := wrapped
			told.Indent = 1
			p.add(words(itoa(i+1), label), words(text, told))
		}
		p.gap()
	}
	say("Basis", append(wording.Basis(l.Job.Currency, l.Job.VATRounding == job.Down), l.particularNotes()...))
	say("Cautions", append(wording.Cautions(), l.Job.Added(job.Cautions)...))
	p.Print.Area = "$A$1:$B$" + itoa(p.next()-1)
	l.keep(p)
}

// particularNotes are those that hang on the job.
func (l *ledger) particularNotes() []string {
	var out []string
	if l.Job.VATEvidence != "" {
		out = append(out, "Evidence held for the rate of VAT: "+l.Job.VATEvidence+".")
	}
	switch {
	case l.Bill.Otherwise == nil:
	case l.Job.Currency == "GBP":
		out = append(out, "Where a line is zero-rated because the vessel is taken to be a qualifying ship, the summary also shows the total if she did not qualify. "+
			"The yard gives no opinion: the owner's adviser judges it on tonnage, design and evidence.")
	default:
		out = append(out, "Where a line is relieved of tax on account of the vessel, the summary also shows the total if she did not qualify. "+
			"The yard gives no opinion: the owner's adviser judges it by the law of the place.")
	}
	if l.Job.ContingencyShown == job.ClientSum && l.held != "" {
		out = append(out, "The contingency is a client's sum.")
	}
	if l.ownerTimber() {
		out = append(out, "Lines marked timber by owner are priced without the timber, which the owner gives free at the yard.")
	}
	return out
}

func (l *ledger) ownerTimber() bool {
	for _, i := range l.Priced.Items {
		if i.OwnerTimber {
			return true
		}
	}
	return false
}
