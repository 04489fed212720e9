package sheets

import (
	"futtock/estimate/quotes"
	"futtock/templates/grid"
)

// arithmetic lists what was found in the quotes, each with its cell and what it
// makes of the total.
func (l *comparing) arithmetic() {
	const (
		firm = iota + 1
		line
		where
		kind
		text
		worth
	)
	p := l.page(arithmeticSheet, "Arithmetic, and what else was found", say("arithmetic"), 30, 10, 24, 20, 86, 17)
	head := p.add(heads("Offer", "Line", "Cell", "Kind", "What was found", ">Worth "+l.sign)...)
	p.repeat(head, head)
	ref := l.refs()
	for i := range l.Offers {
		o := &l.Offers[i]
		if len(o.Findings) == 0 {
			p.add(words(l.numbered(i), wrapped), grid.Cell{}, grid.Cell{}, grid.Cell{}, words("Nothing amiss.", asCompare))
		}
		for _, f := range o.Findings {
			at := f.At
			at.Book = ""
			row := []grid.Cell{words(l.numbered(i), wrapped), words(asText(ref(f.ID)), plain), words(asText(at.String()), wrapped), words(string(f.Kind), plain), words(asText(capital(f.Text)), wrapped)}
			if !f.Worth.IsZero() {
				row = append(row, signed("", f.Worth, told))
			}
			p.add(row...)
		}
	}
	p.Filter = at(firm, head) + ":" + at(worth, p.next()-1)
	l.meanings(p, kind, text)
}

// refs gives the item of a line by its number for good, as it is printed.
func (l *comparing) refs() func(id string) string {
	known := map[string]string{}
	for n := range l.Sent.Lines {
		known[l.Sent.Lines[n].ID] = l.fixed[n][0].Text
	}
	return func(id string) string {
		if ref, ok := known[id]; ok {
			return ref
		}
		return id
	}
}

// meanings says what each kind found means, and what is to be done about it.
func (l *comparing) meanings(p *page, kind, text int) {
	found := map[quotes.FindingKind]bool{}
	for _, o := range l.Offers {
		for _, f := range o.Findings {
			found[f.Kind] = true
		}
	}
	if len(found) == 0 {
		return
	}
	p.gap()
	row := blanks(text, band)
	row[kind-1] = words("What these are", band)
	p.add(row...)
	for _, f := range quotes.Findings() {
		if found[f.Kind] {
			row := make([]grid.Cell, text)
			row[kind-1], row[text-1] = words(string(f.Kind), plain), words(f.Meaning+" "+f.Cure, wrapped)
			p.add(row...)
		}
	}
}

// queries lays out what is to be asked of each firm, ready to send, with room
// for its answer: a page for each firm, on which no other is named.
func (l *comparing) queries() {
	p := l.page(queriesSheet, "Queries", say("queries"), 6, 11, 74, 50)
	ref := l.refs()
	box := grid.Style{Border: grid.Box, Top: true, Wrap: true}
	for i := range l.Offers {
		o := &l.Offers[i]
		p.Print.Breaks = append(p.Print.Breaks, p.next())
		row := blanks(4, band)
		row[0] = words("To "+asText(o.Name), grid.Style{Font: grid.Font{Bold: true, Size: 13, Colour: ink}, Border: grid.Under})
		p.add(row...)
		n := p.add(words(asText(l.Sent.Vessel+", tender "+l.Sent.Reference), subtitle))
		p.merge(n, 1, 4)
		n = p.add(words(say("dear firm", "{client}", asText(l.Sent.Client)), wrapped))
		p.merge(n, 1, 4)
		p.add(heads("=No.", "Item", "What we ask", "<Your answer")...)
		number := 0
		ask := func(line, text string) {
			number++
			p.add(words(itoa(number), label), words(asText(line), grid.Style{Top: true, Indent: 1}), words(asText(text), wrapped), grid.Cell{Style: box})
			p.Rows[p.next()-2].Height = queryHeight(text)
		}
		if l.Low.Applies && l.Low.Low[i] {
			ask("", say("explain low"))
		}
		for _, f := range o.Findings {
			if f.Query != "" {
				ask(ref(f.ID), f.Query)
			}
		}
		if number == 0 {
			p.add(grid.Cell{}, grid.Cell{}, words("There is nothing to ask.", asCompare))
		}
		p.gap()
		p.add(grid.Cell{}, grid.Cell{}, words("Answered for the firm by, on", label), grid.Cell{Style: box})
		p.gap()
	}
	p.Print.Area = "$A$" + itoa(p.Print.Breaks[0]) + ":$D$" + itoa(p.next()-1)
	p.Print.Breaks = p.Print.Breaks[1:] // the first begins the area that is printed
}

// queryHeight leaves room for an answer of as many lines as the question.
func queryHeight(text string) float64 {
	const line, across = 13.5, 72
	return min(400, max(2, float64(len(text)/across+1))*line+3)
}
