package cash

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// share is a fund and its part, in any measure.
type share struct {
	fund string
	part decimal.Decimal
}

var (
	hundred = decimal.New(100, 0)
	shared  = regexp.MustCompile(`^(.*\S)\s+(\d+(?:\.\d+)?)\s*%$`)
)

// parse reads a Funding: the name of one fund, or several with their shares,
// such as "grant 60 %, own funds 40 %", parted by commas or semicolons. What the
// shares leave over is of no fund; more than the whole is taken in proportion.
// What is amiss comes back in words.
func parse(text string) (shares []share, wrong string) {
	text = strings.TrimSpace(text)
	if !strings.Contains(text, "%") {
		return []share{{text, hundred}}, ""
	}
	left := hundred
	for _, p := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		m := shared.FindStringSubmatch(strings.TrimSpace(p))
		if m == nil {
			return []share{{"", hundred}}, fmt.Sprintf("%q shares the cost, and %q is no fund with its share; names and percentages are wanted", text, strings.TrimSpace(p))
		}
		part := decimal.RequireFromString(m[2])
		shares, left = append(shares, share{m[1], part}), left.Sub(part)
	}
	switch {
	case left.Equal(hundred):
		return []share{{"", hundred}}, fmt.Sprintf("%q gives no fund a share; percentages that make up 100 %% are wanted", text)
	case left.Sign() > 0:
		wrong = fmt.Sprintf("the shares of %q come to %s %%, and the rest is of no fund; 100 %% is wanted", text, hundred.Sub(left))
		shares = append(shares, share{"", left})
	case left.Sign() < 0:
		wrong = fmt.Sprintf("the shares of %q come to %s %%, and are taken in proportion; 100 %% is wanted", text, hundred.Sub(left))
	}
	return shares, wrong
}

// funding is the shares of a Funding, each fund spelt as it was first.
func (l *layout) funding(text string, at origin.Cell) []share {
	if s, done := l.read[text]; done {
		return s
	}
	s, wrong := parse(text)
	if wrong != "" {
		l.problems.Add(problem.Problem{Code: problem.FundingShares, At: at, Text: wrong})
	}
	for n := range s {
		k := rates.Key(s[n].fund)
		if _, known := l.funds[k]; !known && k != "" {
			l.funds[k] = s[n].fund
		}
		s[n].fund = l.funds[k]
	}
	l.read[text] = s
	return s
}

// pool is how what names no fund is shared: as all that does, work of no fund
// included.
func (l *layout) pool() {
	for _, f := range l.order() {
		var of decimal.Decimal
		for _, g := range l.grains {
			if g.fund == f {
				of = of.Add(g.amount.Decimal())
			}
		}
		if of.Sign() > 0 {
			l.pooled = append(l.pooled, share{f, of})
		}
	}
	if len(l.pooled) == 0 {
		l.pooled = []share{{"", hundred}}
	}
}

// order is the funds so far, in the order in which the bill names them, and
// last what is of none.
func (l *layout) order() []string {
	var list []string
	for _, g := range l.grains {
		if g.fund != "" && !slices.Contains(list, g.fund) {
			list = append(list, g.fund)
		}
	}
	return append(list, "")
}

// drawn is what every fund is drawn for.
func (l *layout) drawn(months int) []Fund {
	var list []Fund
	for _, name := range l.order() {
		f := Fund{Fund: name, Months: make([]money.Amount, months)}
		for _, g := range l.grains {
			if g.fund != name {
				continue
			}
			f.Months[g.month] = f.Months[g.month].Add(g.amount)
			f.Total = f.Total.Add(g.amount)
			if g.named {
				f.Named = f.Named.Add(g.amount)
			} else {
				f.Shared = f.Shared.Add(g.amount)
			}
		}
		if !nothing(f.Months) {
			list = append(list, f)
		}
	}
	return list
}
