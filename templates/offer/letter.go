package offer

import (
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// letterSections is the table of sums by section, by which a letter is known.
func letterSections() outline {
	return outline{name: LetterSections, marks: []string{HeadSection, HeadSaidFor}, others: []string{HeadTitle, HeadByItem, HeadWord, HeadSays, HeadKey}}
}

// letterItems is the table of sums by item.
func letterItems() outline {
	return outline{name: LetterItems, marks: []string{bill.HeadDescription, HeadSaidFor},
		others: []string{bill.HeadItem, bill.HeadQuantity, bill.HeadUnit, HeadWord, HeadSays, bill.HeadID, bill.HeadMark}}
}

// letter reads what was typed from a letter: the sums by section and part, what
// the letter puts in, and the sums by item. Rows of which nothing is said are left out.
func (q *quoting) letter(t table) {
	q.out.Lump = true
	q.sections(t)
	items, ok := q.find(letterItems())
	if !ok {
		if page, there := q.named(LetterItems); there {
			q.say(problem.QuoteHeading, q.at(page.Name, 0, 0), "the headings of the sums by item are not there, so that none of them can be read")
			q.take(page)
		}
		return
	}
	rows := items.rows()
	for _, l := range rows {
		o := q.typed(items, l)
		o.ID, o.Mark = items.text(l, bill.HeadID, q.book.Date1904), items.text(l, bill.HeadMark, q.book.Date1904)
		o.Description = q.asTyped(items.cell(l, bill.HeadDescription))
		i, known := q.byID[o.ID]
		switch {
		case known:
			line := q.sent.Lines[i]
			o.Fixed, o.Part = line.Fixed, line.Part
			q.outOfBill(items, l, &o)
		case o.ID == "" && o.Amount.State != quotes.Given && o.Amount.State != quotes.Words:
			continue // a heading among the items, or what they come to
		case o.ID == "":
			o.Part, o.Section = quotes.Work, quotes.NotInBill
		default:
			o.Part = quotes.Work
		}
		if o.Amount.State == quotes.Missing && o.Choice == "" && o.Remark == "" {
			continue
		}
		if q.full(o.At) {
			return
		}
		q.out.Lines = append(q.out.Lines, o)
	}
	q.besides(items, rows)
}

// outOfBill keeps what the row itself says of the line, where it says it.
func (q *quoting) outOfBill(t table, l grid.Line, o *quotes.Offered) {
	if text := q.asTyped(t.cell(l, bill.HeadDescription)); text != "" && o.Description != "" {
		o.Description = text
	}
	o.Quantity = q.figureIn(t, l, bill.HeadQuantity)
}

// sections reads the sums by section. A word for a section without a sum is a
// word for each of its lines; one beside a sum is kept in the remark.
func (q *quoting) sections(t table) {
	rows := t.rows()
	for _, l := range rows {
		o := q.typed(t, l)
		key := t.text(l, HeadKey, q.book.Date1904)
		typed := o.Amount.State == quotes.Given || o.Amount.State == quotes.Words || o.Amount.State == quotes.Faulty || o.Amount.State == quotes.Reckoned && key != ""
		section, isSection := strings.CutPrefix(key, OfSection)
		part, isPart := strings.CutPrefix(key, OfPart)
		var of func(quotes.Line) bool
		switch {
		case isSection:
			o.Part, o.Section = quotes.Work, keyIn(section, q.sent.Sections)
			of = func(l quotes.Line) bool { return l.Part == quotes.Work && sameKey(l.Section, section) }
		case isPart:
			o.Part = quotes.Part(part)
			of = func(l quotes.Line) bool { return string(l.Part) == part }
		default:
			o.Part, o.Section = quotes.Work, quotes.NotInBill
			if o.Description = t.text(l, HeadTitle, q.book.Date1904); o.Description == "" {
				o.Description = t.text(l, HeadSection, q.book.Date1904)
			}
			if key == "" && o.Amount.State == quotes.Reckoned || key == "" && !typed || o.Description == "" && !typed && o.Remark == "" {
				continue
			}
		}
		if q.full(o.At) {
			return
		}
		if of != nil && o.Choice != "" && !typed {
			q.wordFor(o, of)
			continue
		}
		if of != nil && !typed && o.Remark == "" {
			continue
		}
		q.out.Lines = append(q.out.Lines, o)
	}
	q.besides(t, rows)
}

// wordFor gives each line of a section or part the word that stands for all of it.
func (q *quoting) wordFor(o quotes.Offered, of func(quotes.Line) bool) {
	for _, l := range q.sent.Lines {
		if of(l) {
			one := o
			one.Fixed, one.Section = l.Fixed, ""
			q.out.Lines = append(q.out.Lines, one)
		}
	}
}

// typed is what was typed of a letter in a row.
func (q *quoting) typed(t table, l grid.Line) quotes.Offered {
	return quotes.Offered{
		Amount: q.figureIn(t, l, HeadSaidFor), Choice: choiceOf(t.text(l, HeadWord, q.book.Date1904)),
		Remark: q.long(t.cell(l, HeadSays)), At: q.at(t.page.Name, l.Row, 0),
	}
}

// full reports a quote that holds as many lines as are read, and puts it down.
func (q *quoting) full(at origin.Cell) bool {
	if len(q.out.Lines) < mostLines {
		return false
	}
	q.say(problem.TooMuch, at, "there are more lines than any bill has; the form as it was made is wanted")
	return true
}
