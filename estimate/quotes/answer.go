package quotes

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
)

// number is the number in a cell; one that stands there as text ("£1,250.00") is read too.
func number(f Figure) (decimal.Decimal, bool) {
	if f.Is() {
		return f.Value, true
	}
	if f.State != Words || !typed.MatchString(f.Text) {
		return decimal.Decimal{}, false
	}
	d, err := decimal.NewFromString(signs.Replace(f.Text))
	return d, err == nil
}

var (
	typed = regexp.MustCompile(`^\s*[£$€]?\s*-?(\d+|\d{1,3}(,\d{3})+)(\.\d+)?\s*$`)
	signs = strings.NewReplacer("£", "", "$", "", "€", "", ",", "", " ", "", "\t", "", "\n", "", "\r", "", "\u00a0", "")
)

// wordOf is which of the words in place of a rate a text is meant for, or blank.
func wordOf(text string) string {
	key := strings.TrimSuffix(rates.Key(text), ".")
	switch key {
	case bill.Included, "incl", "inc", "inclusive", "in rates", "in the rates":
		return bill.Included
	case bill.Excluded, "excl", "exc", "not included", "not incl":
		return bill.Excluded
	case bill.ByOwner, "owner", "by the owner", "client", "by client", "by the client":
		return bill.ByOwner
	}
	for _, start := range []string{"in item ", "included in ", "incl in ", "incl. in "} {
		if strings.HasPrefix(key, start) {
			return bill.Included
		}
	}
	return ""
}

// meant is the answer that a word in place of a rate is.
func meant(word string) Answer {
	switch word {
	case bill.Included:
		return WithinOthers
	case bill.Excluded:
		return LeftOff
	case bill.ByOwner:
		return ForOwner
	}
	panic(fmt.Sprintf("%q is no word in place of a rate", word))
}

// answer finds how the firm answered a line, and tells of what is unclear in it.
func (e *examination) answer(i int) {
	l, c := &e.sent.Lines[i], &e.cells[i]
	o := c.Offered
	choice := wordOf(o.Choice)
	if choice == "" && rates.Key(o.Choice) != "" {
		e.ofLine(i, Finding{Kind: RateInWords, Text: fmt.Sprintf("%q is none of the words in place of a rate", o.Choice),
			Query: fmt.Sprintf("Please say what is meant by %q of %s.", o.Choice, item(l))})
	}
	word := choice
	told := false // that its price cannot be read
	for _, f := range asked(l, o, e.quote.Lump) {
		if f.State == Words || f.State == Faulty {
			word = e.inWords(i, f, word)
			told = true
		}
		if n, ok := number(f); ok && n.Sign() < 0 && !(l.Priced && l.Rate.Sign() < 0) {
			e.ofLine(i, Finding{Kind: RateNegative, At: f.At, Text: fmt.Sprintf("%s is below nil", n),
				Query: fmt.Sprintf("Please confirm that the price of %s for %s is meant as a credit.", n, item(l))})
		}
	}
	told = e.timeUnsaid(i) || told
	var some, asks bool // a price stands there; one that is not nil
	for _, f := range prices(l, o, e.quote.Lump) {
		n, ok := number(f)
		some, asks = some || ok, asks || ok && !n.IsZero()
	}
	amount, _ := number(o.Amount)
	asks = asks || !amount.IsZero()
	switch {
	case l.bears() && !e.quote.Lump:
		c.State = Answered
		e.ofOwnMoney(i, word, some)
	case asks:
		c.State = Answered
		if choice != "" {
			e.both(i, choice)
		}
	case word != "":
		c.State = meant(word)
		e.leftOff(i)
	case some:
		c.State = Answered
		e.ofLine(i, Finding{Kind: RateNil, Text: "the rate is nil and nothing is said",
			Query: fmt.Sprintf("Please confirm that %s is at no charge, or say which other rates its cost is in.", item(l))})
	case e.within(l):
		c.State = WithinLump
	default:
		c.State = Silent
		if !told {
			e.unpriced(i)
		}
	}
	// The nought that a form reckons of a line nobody filled in is no amount.
	if n, ok := number(o.Amount); ok && c.State == Answered && l.Carried != job.RateOnly {
		c.AsTendered = Money{money.Round(n), true}
	}
}

// timeUnsaid tells of a rate for time without a time.
func (e *examination) timeUnsaid(i int) bool {
	l, o := &e.sent.Lines[i], e.cells[i].Offered
	rate, _ := number(o.Rate)
	if rate.IsZero() || l.Part != Preliminaries || timed(l, o) {
		return false
	}
	e.ofLine(i, Finding{Kind: LineUnpriced, Text: fmt.Sprintf("a rate of %s and no time for it to run", money.NewPrice(rate)),
		Query: fmt.Sprintf("Please say for how long %s runs.", item(l))})
	return true
}

// inWords tells of text in a cell for money, and returns the word it is read
// as: the one that was chosen already, before what the cell says.
func (e *examination) inWords(i int, f Figure, word string) string {
	l := &e.sent.Lines[i]
	if f.State == Faulty {
		e.ofLine(i, Finding{Kind: RateInWords, At: f.At, Text: fmt.Sprintf("%q stands where a price should be", f.Text),
			Query: fmt.Sprintf("Please give the rate of %s, which cannot be read.", item(l))})
		return word
	}
	said := wordOf(f.Text)
	text := fmt.Sprintf("%q stands where a price should be", f.Text)
	query := fmt.Sprintf("Please say what is meant by %q of %s, and give a rate if one is meant.", f.Text, item(l))
	if n, ok := number(f); ok {
		text += fmt.Sprintf(", read as %s", n)
		query = fmt.Sprintf("Please confirm that %s is what you ask for %s.", n, item(l))
	} else if said != "" {
		text += fmt.Sprintf(", read as %q", said)
		query = fmt.Sprintf("Please confirm that by %q of %s you mean %q.", f.Text, item(l), said)
	}
	e.ofLine(i, Finding{Kind: RateInWords, At: f.At, Text: text, Query: query})
	if word != "" {
		return word
	}
	return said
}

// both tells of money and a word that says there is none: the money counts.
func (e *examination) both(i int, word string) {
	l := &e.sent.Lines[i]
	e.ofLine(i, Finding{Kind: RateAndWord, Text: fmt.Sprintf("there is a price and the word %q; the price counts", word),
		Query: fmt.Sprintf("Please say whether %s is %q or is at the price given.", item(l), word)})
}

// ofOwnMoney judges what is said of a line that bears the bill's own money: a
// provisional sum, or a sum of daywork, to which an addition is asked.
func (e *examination) ofOwnMoney(i int, word string, some bool) {
	l := &e.sent.Lines[i]
	switch {
	case word != "" && word != bill.Included && l.addition():
		e.both(i, word)
	case l.addition() && !some && word == "":
		e.unpriced(i)
	}
}

// leftOff tells of a line that is excluded or for the owner to do.
func (e *examination) leftOff(i int) {
	l := &e.sent.Lines[i]
	switch e.cells[i].State {
	case LeftOff:
		e.ofLine(i, Finding{Kind: LineExcluded, Text: fmt.Sprintf("%q is excluded", l.says()),
			Query: fmt.Sprintf("Please give a price for %s, or confirm that it is no part of your offer.", item(l))})
	case ForOwner:
		e.ofLine(i, Finding{Kind: LineByOwner, Text: fmt.Sprintf("%q is left to the owner", l.says()),
			Query: fmt.Sprintf("Please say what the owner would have to do or supply for %s, and by when.", item(l))})
	}
}

// unpriced tells of a line with neither a price nor a word.
func (e *examination) unpriced(i int) {
	l := &e.sent.Lines[i]
	f := Finding{Kind: LineUnpriced, Text: fmt.Sprintf("%q has neither a price nor a word", l.says()),
		Query: fmt.Sprintf("Please give a price for %s, or say whether it is included elsewhere, excluded or left to the owner.", item(l))}
	switch {
	case l.Carried == job.RateOnly:
		f.Kind = RateOnlyUnpriced
		f.Text = fmt.Sprintf("no rate is given for %q", l.says())
		f.Query = fmt.Sprintf("Please give a rate for %s, at which work may be ordered.", item(l))
	case l.addition():
		f.Kind = DayworkUnpriced
		f.Text = fmt.Sprintf("no addition is given to the %s of %q; it counts without", money.Round(l.Quantity).Grouped(), l.says())
		f.Query = fmt.Sprintf("Please say what you add to the cost of %s in dayworks.", item(l))
	case l.Part == Dayworks:
		f.Kind = DayworkUnpriced
		f.Text = fmt.Sprintf("no rate is given for the %s h of %q", l.Quantity, l.says())
		f.Query = fmt.Sprintf("Please give your rate for an hour of %s in dayworks.", item(l))
	}
	e.ofLine(i, f)
}
