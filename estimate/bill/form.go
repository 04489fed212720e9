package bill

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/measure"
)

// Form is the bill as others are to price it: every line with what it says and
// nobody may change, and nothing of what it costs.
type Form struct {
	Sections      []FormSection
	Preliminaries []FormLine
	Sums          []FormLine
	Dayworks      []FormLine
	OwnersTimber  bool   // some line is priced without its timber
	Fingerprint   string // of all lines in this order, see Fingerprint
}

// FormSection is one section of the form.
type FormSection struct {
	Section string
	Title   string
	Lines   []FormLine
}

// FormLine is one line to be priced. What is given as money, a provisional sum
// or an allowance for daywork, has it for a Quantity of the unit sum.
type FormLine struct {
	Fixed
	Ref     string // as printed
	Carried job.Carried
	Open    bool // its Quantity is for others to say
	Stage   string
	Mark    string // of Fixed
}

// Fixed is what whoever prices a line has no leave to change.
type Fixed struct {
	ID          string // for good: the same in every issue of the bill
	Description string
	Unit        measure.Unit
	Quantity    decimal.Decimal // nil where Standing leaves it to others, and of a rate-only line
	Standing    string          // the remark of a line of work, the kind of a sum, TimeGiven or TimeOpen
}

// What the ID of a line begins with: which part of the bill it is of. What
// follows is its Ref; dayworks, which have none, are numbered.
const (
	OfWork          = "B/"
	OfPreliminaries = "P/"
	OfSums          = "S/"
	OfDayworks      = "D/"
)

// What may be said of a line in place of a rate.
const (
	Included = "included" // its cost is in the rates of other lines
	Excluded = "excluded"
	ByOwner  = "by owner"
)

// What may be said of value added tax in all rates of a form.
const (
	LeftOut = "left out"
	AddedIn = "added in"
)

// FormName is the defined name of a workbook that holds the fingerprint of its form.
const FormName = "Form_fingerprint"

// What a preliminary says of the time it runs for.
const (
	TimeGiven = "time as given"
	TimeOpen  = "time open"
)

// Mark is the fingerprint of one line, eight figures and letters that come out
// otherwise when anything of it is changed. Quantities are compared by what they
// are, not by how they are written, and line ends by any program's custom are one.
func (f Fixed) Mark() string { return hash(f.parts())[:8] }

func (f Fixed) parts() []string {
	return []string{f.ID, f.Description, string(f.Unit), f.Quantity.String(), f.Standing}
}

// Fingerprint is that of a whole form, sixteen figures and letters in fours: it
// comes out otherwise when a line is changed, put in, taken out or moved, and for
// another tender reference.
func Fingerprint(reference string, lines []Fixed) string {
	all := []string{reference}
	for _, l := range lines {
		all = append(all, l.parts()...)
	}
	h := hash(all)
	return h[:4] + "-" + h[4:8] + "-" + h[8:12] + "-" + h[12:16]
}

var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// hash is the SHA-256 of texts, each with its length before it so that no two
// lists of them run together alike, in hexadecimal.
func hash(texts []string) string {
	h := sha256.New()
	for _, t := range texts {
		if strings.Contains(t, "\r") {
			t = lineEnds.Replace(t)
		}
		fmt.Fprintf(h, "%d:%s", len(t), t)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// Open is the form of a bill that is not priced. Rows carried as risk are no
// lines of it, as in the priced bill, and no contingency is asked: that is the
// client's to hold. A quotation has no amount: it is for others to get their own.
func Open(j *job.Job, p price.Priced) Form {
	var f Form
	var all []Fixed
	keep := func(to *[]FormLine, l FormLine) {
		l.Mark = l.Fixed.Mark()
		*to = append(*to, l)
		all = append(all, l.Fixed)
	}
	place := sectionPlaces(j)
	for _, s := range j.Sections {
		f.Sections = append(f.Sections, FormSection{Section: s.Section, Title: s.Title})
	}
	for _, i := range p.Items {
		if i.Carried == job.AtRisk {
			continue
		}
		l := FormLine{Ref: i.Ref, Carried: i.Carried, Stage: j.StageOf(i.Rows[0]),
			Fixed: Fixed{ID: OfWork + i.Ref, Description: i.Description, Unit: i.Unit, Quantity: i.Quantity, Standing: remark(i)}}
		if i.Carried == job.RateOnly {
			l.Quantity = decimal.Decimal{}
		}
		f.OwnersTimber = f.OwnersTimber || i.OwnerTimber
		keep(&f.Sections[place[rates.Key(i.Section)]].Lines, l)
	}
	for _, r := range p.Preliminaries {
		l := FormLine{Ref: r.Ref, Carried: job.Measured, Open: !r.Row.WeeksGiven, Stage: between(r.Row.FromStage, r.Row.ToStage),
			Fixed: Fixed{ID: OfPreliminaries + r.Ref, Description: r.Row.Description, Unit: r.Unit, Quantity: r.Quantity, Standing: TimeGiven}}
		if l.Open {
			l.Standing = TimeOpen
		}
		if n := r.Row.Quantity; !n.IsZero() && !n.Equal(decimal.New(1, 0)) {
			l.Description += ", " + n.String() + " nr"
		}
		keep(&f.Preliminaries, l)
	}
	for _, s := range p.Sums {
		l := FormLine{Ref: s.Row.Ref, Carried: job.Measured, Stage: s.Row.Stage,
			Fixed: Fixed{ID: OfSums + s.Row.Ref, Description: s.Row.Description, Unit: measure.Sums, Quantity: s.Amount.Decimal(), Standing: string(s.Row.Kind)}}
		if l.Open = s.Row.Kind == job.Quotation; l.Open {
			l.Quantity = decimal.Decimal{}
		}
		keep(&f.Sums, l)
	}
	for n, d := range p.Dayworks {
		l := FormLine{Carried: job.Measured, Fixed: Fixed{ID: fmt.Sprint(OfDayworks, n+1), Description: d.Row.Of, Unit: measure.Sums, Quantity: d.Cost.Decimal()}}
		if d.Trade {
			l.Unit, l.Quantity = measure.Hour, d.Row.Quantity
		}
		keep(&f.Dayworks, l)
	}
	f.Fingerprint = Fingerprint(j.Reference, all)
	return f
}

// between is the stages a charge runs from and to, as a form says it.
func between(from, to string) string {
	switch {
	case from == to:
		return from
	case from == "":
		return "to " + to
	case to == "":
		return "from " + from
	}
	return from + " to " + to
}
