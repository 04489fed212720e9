package text

import (
	"fmt"
	"io"
	"regexp"
	"strings"

	"futtock/estimate"
	"futtock/output/explain"
	"futtock/rates/money"

	"github.com/shopspring/decimal"
)

// Columns of an explanation: what a figure is, the figure itself, its unit,
// and how it comes about with the cell it was typed in.
const (
	labelEnd  = 40 // the figure ends figureEnd letters in, at least one after the label
	figureEnd = 54
	unitEnd   = 62
	pageWidth = 100
)

// Explained writes what makes up some figures of a job, each as a tree of lines
// read from the rate to the cells. Money is in the currency of the job, which
// stands at the head; a unit of money for one of something is its "/ft".
func Explained(w io.Writer, r estimate.Result, lines []explain.Line) {
	e := explained{w: w, currency: r.Job.Currency}
	fmt.Fprintf(w, "%s, tender %s, %s; money in %s\n", r.Job.Vessel, r.Job.Reference, r.Job.TenderDate.Format("2 January 2006"), r.Job.Currency)
	for _, l := range lines {
		fmt.Fprintf(w, "\n%s\n", l.Label)
		for _, t := range wrap(joinedWords(l.How), pageWidth-2) {
			fmt.Fprintf(w, "  %s\n", t)
		}
		if !l.At.IsZero() {
			fmt.Fprintf(w, "  %s\n", l.At)
		}
		fmt.Fprintln(w)
		e.lines(l.Under, 0)
	}
}

type explained struct {
	w        io.Writer
	currency string
}

func joinedWords(s string) string { return strings.Join(strings.Fields(s), " ") }

// lines writes lines and all that is under them, each level two letters further in.
func (e explained) lines(lines []explain.Line, depth int) {
	for i, l := range lines {
		if depth == 0 && i > 0 && len(l.Under) > 0 {
			fmt.Fprintln(e.w)
		}
		e.line(l, depth)
		e.lines(l.Under, depth+1)
	}
}

// line writes one line. Its label and its words run on under themselves where
// they are too long for their columns; the figure stands beside the last of the label.
func (e explained) line(l explain.Line, depth int) {
	indent := strings.Repeat("  ", depth)
	unit := e.unit(l.Unit)
	figure := parted(l.Value)
	from := unitEnd
	if figure == "" {
		from = labelEnd
	}
	label := wrap(l.Label, max(12, labelEnd-2*depth-1))
	if figure == "" && l.How == "" && l.At.IsZero() {
		label = wrap(l.Label, pageWidth-2*depth)
	}
	how := wrapWith(l.How, l.At.String(), pageWidth-from)
	last := len(label) - 1
	for i, t := range label[:max(0, last)] {
		if i == 0 {
			fmt.Fprintf(e.w, "%s%s\n", indent, t)
			continue
		}
		fmt.Fprintf(e.w, "%s  %s\n", indent, t)
	}
	first := indent
	if last > 0 {
		first += "  "
	}
	if last >= 0 {
		first += label[last]
	}
	if figure != "" {
		first = fill(first, figureEnd-letters(figure)-1) + " " + figure
		first = strings.TrimRight(fill(first, figureEnd+1)+unit, " ")
	}
	if len(how) > 0 {
		first = fill(first, from-1) + " " + how[0]
		how = how[1:]
	}
	fmt.Fprintln(e.w, first)
	for _, t := range how {
		fmt.Fprintf(e.w, "%s%s\n", strings.Repeat(" ", from), t)
	}
}

// unit is a unit as the column shows it: money needs none, and money for one
// of a unit is "/ft".
func (e explained) unit(u string) string {
	if u == e.currency {
		return ""
	}
	if of, ok := strings.CutPrefix(u, e.currency+"/"); ok {
		return "/" + of
	}
	return u
}

// parted is a figure with its thousands parted; words stay as they are.
func parted(s string) string {
	if !plainFigure.MatchString(s) {
		return s
	}
	_, after, _ := strings.Cut(s, ".")
	return money.Group(decimal.RequireFromString(s), int32(len(after)))
}

var plainFigure = regexp.MustCompile(`^-?\d+(\.\d+)?$`)

// glue is where a line does not break: between a figure and its unit.
var glue = regexp.MustCompile(`(\d) (%|[a-z]{1,2}[23]?\b)`)

// wrap breaks a text between words into lines of so many letters; a longer
// word stays whole.
func wrap(s string, n int) []string {
	var out []string
	line := ""
	for _, word := range strings.Split(glue.ReplaceAllString(s, "$1\u00a0$2"), " ") {
		word = strings.ReplaceAll(word, "\u00a0", " ")
		switch {
		case line == "":
			line = word
		case letters(line)+1+letters(word) <= n:
			line += " " + word
		default:
			out = append(out, line)
			line = word
		}
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// wrapWith is wrap with a cell after the words, never broken: beside them where
// there is room, else on a line of its own.
func wrapWith(s, cell string, n int) []string {
	out := wrap(s, n)
	if cell == "" {
		return out
	}
	if last := len(out) - 1; last >= 0 && letters(out[last])+2+letters(cell) <= n {
		out[last] += "  " + cell
		return out
	}
	return append(out, cell)
}
