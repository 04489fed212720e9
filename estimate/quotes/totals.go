package quotes

import (
	"fmt"
	"slices"

	"futtock/rates"
	"futtock/rates/money"
)

// stated is the total of a quote as it stands, in figures and in words.
type stated struct {
	figures Money
	words   Money
	unread  error // why the words could not be read
	known   bool  // either of them is
	governs money.Amount
}

// tendered reads the total as it stands; which of figures and words governs is
// found when the parts are known, see totals.
func (e *examination) tendered() stated {
	var t stated
	if n, ok := number(e.quote.Stated); ok {
		t.figures = Money{money.Round(n), true}
	}
	if fold(e.quote.Words) != "" {
		var n money.Amount
		if n, t.unread = readWords(e.quote.Words); t.unread == nil {
			t.words = Money{n, true}
		}
	}
	t.known = t.figures.Known || t.words.Known
	return t
}

// added is what the lines of a quote come to as they stand, by part and by
// section of the work.
type added struct {
	part    map[Part]money.Amount
	section map[string]money.Amount // of the work, by key
	title   map[string]string
	order   []string // keys of sections
}

// add adds up the lines as they stand, the lumps and what was put in.
func (e *examination) add() added {
	a := added{part: map[Part]money.Amount{}, section: map[string]money.Amount{}, title: map[string]string{}}
	know := func(key, title string) {
		if _, ok := a.title[key]; !ok {
			a.title[key] = title
			a.order = append(a.order, key)
		}
	}
	count := func(p Part, section string, m money.Amount) {
		a.part[p] = a.part[p].Add(m)
		if p == Work {
			key := rates.Key(section)
			know(key, section)
			a.section[key] = a.section[key].Add(m)
		}
	}
	for _, s := range e.sent.Sections {
		know(rates.Key(s.Section), s.Section)
	}
	for i := range e.cells {
		if l := &e.sent.Lines[i]; l.InTotal() {
			count(l.Part, l.Section, e.cells[i].AsTendered.Amount)
		}
	}
	for n, o := range e.extra {
		section := ""
		if at := e.puts[n].after; at >= 0 && at < len(e.sent.Lines) && e.sent.Lines[at].Part == o.Part {
			section = e.sent.Lines[at].Section
		} else if at+1 < len(e.sent.Lines) && e.sent.Lines[at+1].Part == o.Part {
			section = e.sent.Lines[at+1].Section // above the first line of its part
		}
		count(o.Part, section, o.asks())
	}
	for _, s := range e.sent.Sections {
		if m, ok := e.lumps[rates.Key(s.Section)]; ok {
			count(Work, s.Section, m)
		}
	}
	for _, p := range Parts() {
		if _, section := a.title[string(p)]; !section { // which may bear the name of a part
			a.part[p] = a.part[p].Add(e.lumps[string(p)])
		}
	}
	return a
}

// totals sets totals beside what they are of, each beside the next below it:
// sections beside their lines, parts beside sections, the whole beside the
// parts; and finds whether words or figures govern.
func (e *examination) totals() {
	a := e.add()
	stands := map[string]Total{}
	for _, t := range e.quote.Totals {
		stands[rates.Key(t.Of)] = t
	}
	lines := a.part[""] // of a letter, what is said to be of no part
	carried := lines
	for _, p := range Parts() {
		lines = lines.Add(a.part[p])
		below, of := a.part[p], "its lines"
		if p == Work && len(a.order) > 0 {
			of = "its sections"
			for _, key := range a.order {
				below = below.Sub(a.section[key]).Add(e.carried(stands[key], fmt.Sprintf("section %q", a.title[key]), "its lines", a.section[key]))
			}
		}
		carried = carried.Add(e.carried(stands[rates.Key(string(p))], string(p), of, below))
	}
	e.asTendered = lines
	switch {
	case e.total.figures.Known:
		e.asTendered = e.total.figures.Amount
	case e.total.words.Known:
		e.asTendered = e.total.words.Amount
	}
	e.total.governs = e.asTendered
	e.inFiguresAndWords(lines, carried)
	e.parted(lines, carried)
}

// carried sets one total beside what it is of, and returns what is carried up:
// the total as it stands, or what it is of where it cannot be read.
func (e *examination) carried(t Total, of, below string, comes money.Amount) money.Amount {
	if t.State == Missing {
		return comes
	}
	n, ok := number(t.Figure)
	f := Finding{Kind: SectionDiffers, At: t.At,
		Query: fmt.Sprintf("Please confirm that the total of %s is %s.", of, comes.Grouped())}
	if !ok {
		if !e.broken { // else it cannot be read because a line of it cannot
			f.Text = fmt.Sprintf("total of %s reads %q; %s come to %s", of, t.Text, below, comes.Grouped())
			e.whole(f)
		}
		return comes
	}
	total := money.Round(n)
	if t.State == Given && !e.quote.Lump {
		e.typedTotal(t.Figure, of, total, comes)
	}
	if !total.Equal(comes) {
		f.Worth = comes.Sub(total)
		f.Text = fmt.Sprintf("total of %s stands at %s; %s come to %s", of, total.Grouped(), below, comes.Grouped())
		e.whole(f)
	}
	return total
}

// typedTotal tells of a total that was typed over the formula of the form.
func (e *examination) typedTotal(f Figure, of string, total, comes money.Amount) {
	if total.Equal(comes) {
		e.typed = append(e.typed, placed{0, Finding{Kind: FormulaReplaced, At: f.At, Text: fmt.Sprintf("total of %s is typed over its formula; it agrees", of)}})
		return
	}
	e.whole(Finding{Kind: FormulaReplaced, At: f.At, Text: fmt.Sprintf("total of %s is typed over its formula: %s, where the form reckons %s", of, total.Grouped(), comes.Grouped())})
}

// inFiguresAndWords finds which governs where the total in words is not the
// one in figures: the words, unless they carry an error of arithmetic, that is
// where there are parts and the words agree with no sum of them.
func (e *examination) inFiguresAndWords(sums ...money.Amount) {
	t, q := &e.total, e.quote
	f := Finding{Kind: WordsDiffer, At: q.Stated.At, Query: "Please confirm the total of your offer, in words and in figures."}
	if t.unread != nil {
		f.Text = fmt.Sprintf("total in words, %q, could not be read: %v", q.Words, t.unread)
		e.whole(f)
		return
	}
	if !t.words.Known || !t.figures.Known || t.words.Amount.Equal(t.figures.Amount) {
		return
	}
	govern, why := "the figures govern", "the words agree with no sum of the parts"
	switch {
	case e.forTheRest():
		t.governs = t.words.Amount
		govern, why = "the words govern", "the parts are not the whole"
	case slices.ContainsFunc(sums, t.words.Amount.Equal):
		t.governs = t.words.Amount
		govern, why = "the words govern", "they agree with a sum of the parts"
	}
	if e.rule == ReportOnly {
		govern = "by the usual rule " + govern
	}
	f.Worth = t.governs.Sub(t.figures.Amount)
	f.Query = fmt.Sprintf("Please confirm whether your total is %s, as it stands in words, or %s, as in figures.", t.words.Amount.Grouped(), t.figures.Amount.Grouped())
	f.Text = fmt.Sprintf("total in words comes to %s, in figures to %s; %s, since %s", t.words.Amount.Grouped(), t.figures.Amount.Grouped(), govern, why)
	e.whole(f)
}

// parted sets the total beside its parts.
func (e *examination) parted(lines, carried money.Amount) {
	q, t := e.quote, &e.total
	f := Finding{Kind: TotalDiffers, At: q.Stated.At, Query: fmt.Sprintf("Please confirm that your offer comes to %s.", carried.Grouped())}
	if !t.figures.Known {
		if !t.known && (!q.Lump || q.Stated.State != Missing) {
			f.Text = fmt.Sprintf("there is no total; the parts come to %s", carried.Grouped())
			if q.Stated.State != Missing {
				f.Text = fmt.Sprintf("total reads %q; what can be read of the parts comes to %s", q.Stated.Text, carried.Grouped())
			}
			e.whole(f)
		}
		return
	}
	if whole := q.reckoned(); whole.State == Given && !q.Lump {
		e.typedTotal(whole, "the offer", money.Round(whole.Value), carried)
	}
	if t.figures.Amount.Equal(lines) || t.figures.Amount.Equal(carried) {
		return
	}
	if e.forTheRest() {
		if left := t.governs.Sub(lines); !lines.IsZero() {
			f.Text = fmt.Sprintf("total stands at %s; what is priced apart comes to %s, and the %s left is taken for the %s that nothing is said of",
				t.figures.Amount.Grouped(), lines.Grouped(), left.Grouped(), count(e.unsaid, "line", "lines"))
			f.Query = fmt.Sprintf("Please confirm that %s of your total is for what you have not priced apart.", left.Grouped())
			e.whole(f)
		}
		return
	}
	f.Worth = carried.Sub(t.figures.Amount)
	f.Text = fmt.Sprintf("total stands at %s; its parts come to %s", t.figures.Amount.Grouped(), carried.Grouped())
	switch e.rule {
	case RateGoverns:
		f.Text += "; the parts govern"
	case TotalStands:
		f.Text += "; the total stands"
	}
	if q.Lump {
		f.Query = fmt.Sprintf("Please say whether your total of %s or the sum of its parts, %s, is meant, and whether the total is of the whole bill.", t.figures.Amount.Grouped(), carried.Grouped())
	}
	e.whole(f)
}
