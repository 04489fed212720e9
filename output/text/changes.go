package text

import (
	"fmt"
	"io"

	"futtock/estimate/changes"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// How many changes and how many moved lines of one step the terminal shows; the
// workbook has them all.
const (
	changesShown = 12
	movedShown   = 5
)

// Changed writes two issues of a job reconciled: the bridge, then what is changed in
// each step and which lines it moves most.
func Changed(w io.Writer, b changes.Bridge) {
	fmt.Fprintf(w, "%s, tender %s: %s of %s to %s of %s; money in %s\n\n", b.New.Vessel, b.New.Reference,
		b.Old.Book, b.Old.TenderDate.Format("2 January 2006"), b.New.Book, b.New.TenderDate.Format("2 January 2006"), b.New.Currency)
	line := func(name string, net, worth, total string) {
		fmt.Fprintf(w, "  %-30s %15s %15s %16s\n", name, net, worth, total)
	}
	line("", "before VAT", "with VAT", "total with VAT")
	line("Old issue", b.Old.Net.Grouped(), "", b.Old.Total.Grouped())
	for _, s := range b.Shown() {
		switch {
		case s.Cannot != "":
			line(s.Kind.Title(), "", "with the next", s.After.Grouped())
		case s.Net.IsZero() && s.Worth.IsZero():
			line(s.Kind.Title(), "-", "-", s.After.Grouped())
		default:
			line(s.Kind.Title(), signed(s.Net), signed(s.Worth), s.After.Grouped())
		}
	}
	line("", "---------------", "---------------", "----------------")
	line("New issue", b.New.Net.Grouped(), signed(b.Difference()), b.New.Total.Grouped())
	if !b.Old.Weeks.Equal(b.New.Weeks) {
		fmt.Fprintf(w, "\n  Time on site %s weeks, was %s\n", b.New.Weeks.StringFixed(1), b.Old.Weeks.StringFixed(1))
	}
	told := 0
	for _, s := range b.Shown() {
		told += len(s.Changes)
		step(w, s)
	}
	if told == 0 {
		fmt.Fprint(w, "\n  Nothing is changed\n")
	}
}

// step writes what is changed in a step and what it moves.
func step(w io.Writer, s changes.Step) {
	if len(s.Changes)+len(s.Lines) == 0 {
		return
	}
	fmt.Fprintf(w, "\n  %s%s\n", s.Kind.Title(), worth(s.Worth))
	if s.Cannot != "" {
		fmt.Fprintf(w, "    cannot be priced before what follows: %s\n", s.Cannot)
	}
	for i, c := range s.Changes {
		if i == changesShown && len(s.Changes) > changesShown+1 {
			fmt.Fprintf(w, "    and %d more, in the workbook\n", len(s.Changes)-changesShown)
			break
		}
		fmt.Fprintf(w, "    %s\n", change(c))
	}
	for i, l := range s.Lines {
		if i == movedShown && len(s.Lines) > movedShown+1 {
			rest := money.Amount{}
			for _, l := range s.Lines[i:] {
				rest = rest.Add(l.Moved)
			}
			fmt.Fprintf(w, "      %-8s %-42s %15s\n", "", fmt.Sprintf("and %d more lines", len(s.Lines)-movedShown), signed(rest))
			break
		}
		ref := l.Ref
		if l.Part == changes.Tax || l.Part == changes.Dayworks {
			ref = ""
		}
		fmt.Fprintf(w, "      %-8s %s %15s\n", ref, fitted(l.Words(), 42), signed(l.Moved))
	}
}

// change is one change in a line.
func change(c changes.Change) string {
	of := c.Sheet
	if c.Key != "" {
		of += " " + c.Key
	}
	switch {
	case c.PutIn():
		return fmt.Sprintf("%s put in%s  %s", of, quotedWords(c.Now), c.NowAt)
	case c.TakenOut():
		return fmt.Sprintf("%s taken out%s  %s", of, quotedWords(c.Was), c.WasAt)
	}
	return fmt.Sprintf("%s, %s: %s, was %s  %s", of, c.Column, orBlank(c.Now), orBlank(c.Was), cellsOf(c.NowAt, c.WasAt))
}

func quotedWords(s string) string {
	if s == "" {
		return ""
	}
	return ", " + short(s, 50)
}

func orBlank(s string) string {
	if s == "" {
		return "blank"
	}
	return short(s, 40)
}

// cellsOf is the new cell and the old, which is told by its workbook alone where it is the same.
func cellsOf(now, was origin.Cell) string {
	if now.Sheet == was.Sheet && now.Row == was.Row && now.Col == was.Col && now.Book != was.Book {
		return fmt.Sprintf("%s, as in %s", now, was.Book)
	}
	return fmt.Sprintf("%s, was %s", now, was)
}
