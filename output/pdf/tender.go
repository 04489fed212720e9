package pdf

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/wording"
)

// Tender is the tender as it goes to the client: the offer, what it stands on,
// the programme and the priced bill. There is nothing in it of how a rate is
// made up, of hours, or of margins. The same result makes the same bytes. It
// fails only where the library does.
func Tender(r estimate.Result) ([]byte, error) {
	d, err := newDocument(r.Job.Paper)
	if err != nil {
		return nil, err
	}
	t := &tender{document: d, Result: r, sign: wording.Sign(r.Job.Currency)}
	d.title = d.short("Tender for the refit of "+r.Job.Vessel, longTitle)
	d.author = d.short(r.Job.Yard, longTitle)
	d.subject = d.short("Tender "+r.Job.Reference+" to "+r.Job.Client, longTitle)
	d.vessel, d.foot = r.Job.Vessel, r.Job.Yard
	d.middle = "Tender " + r.Job.Reference + ", " + day(r.Job.TenderDate)
	d.stamp = r.Job.TenderDate

	t.cover()
	t.form()
	t.summary()
	t.basis()
	t.terms()
	t.provisional()
	t.programme()
	t.payments()
	t.oldFabric()
	t.bill()
	t.relief()
	t.cautions()
	t.signed()
	t.listContents()
	d.refer()
	d.running()
	return d.paint()
}

// tender is the document and what it is made of.
type tender struct {
	*document
	estimate.Result
	sign string
}

// text is a part of the standing text of the tender.
func text(part string, pairs ...string) []string { return wording.Tender(part, pairs...) }

// sum is money in figures with the sign of its currency.
func (t *tender) sum(a money.Amount) string { return wording.Sum(a, t.Job.Currency) }

// inWords is money in words.
func (t *tender) inWords(a money.Amount) string { return wording.InWords(a, t.Job.Currency) }

// figures is money as the tables have it: no sign, thousands grouped, a real minus.
func figures(a money.Amount) string { return minus(a.Grouped()) }

func minus(s string) string { return strings.Replace(s, "-", "−", 1) }

// quantity is as many places as the unit is billed to.
func quantity(q decimal.Decimal, u measure.Unit) string { return minus(money.Group(q, u.Places())) }

// unit is a unit as print has it: m² for m2.
func unit(u measure.Unit) string {
	return strings.NewReplacer("m2", "m²", "m3", "m³", "ft2", "ft²", "ft3", "ft³").Replace(string(u))
}

// percent keeps its sign on the line.
func percent(p money.Percent) string { return minus(p.Decimal().String()) + "\u00a0%" }

// alike is how the percentages of a column are written, each with as many places
// as the finest has.
func alike[T any](rows []T, of func(T) money.Percent) func(money.Percent) string {
	most := int32(0)
	for _, r := range rows {
		_, after, _ := strings.Cut(of(r).Decimal().String(), ".")
		most = max(most, int32(len(after)))
	}
	return func(p money.Percent) string { return minus(p.Decimal().StringFixed(most)) + "\u00a0%" }
}

// capital is text with its first letter a capital.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// day is a date as letters have it: 14 September 2026.
func day(d time.Time) string { return d.Format("2\u00a0January\u00a02006") }

// until is the last day on which the offer may be accepted, "" where the
// tender does not say.
func (t *tender) until() string {
	last, limited := t.Job.Until()
	if !limited {
		return ""
	}
	return day(last)
}

// ownerTimber is the lines that are priced without their timber, and are on the bill.
func (t *tender) ownerTimber() map[string]bool {
	out := map[string]bool{}
	for _, i := range t.Priced.Items {
		if i.OwnerTimber {
			out[i.Ref] = true
		}
	}
	return out
}

// billLines is every line of measured work for which is says so.
func (t *tender) billLines(is func(bill.Line) bool) []bill.Line {
	var out []bill.Line
	for _, s := range t.Bill.Sections {
		for _, l := range s.Lines {
			if is(l) {
				out = append(out, l)
			}
		}
	}
	return out
}
