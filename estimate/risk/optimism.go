package risk

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strings"
	"sync"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// Bias is how far public works of one class came out above what was foretold
// at their outset: the bounds between which the surplus lay, of cost and of
// time. Source: Mott MacDonald, Review of Large Public Procurement in the UK (HM
// Treasury 2002), Table 2.
//
// It is shown beside a contingency for comparison, and is none: optimism bias
// is reckoned on a figure that has no contingency and on a project at its outset.
// No class fits a wooden ship; non-standard buildings is the nearest by nature.
type Bias struct {
	ID                           string
	Class                        string
	DurationUpper, DurationLower money.Percent
	CapitalUpper, CapitalLower   money.Percent
	Source, Where                string
}

// Compared is what one class of bias would add to the price before any
// contingency, to the penny, and how long the weeks of the programme would
// become, to a tenth.
type Compared struct {
	Bias                   Bias
	CapitalLower           money.Amount
	CapitalUpper           money.Amount
	WeeksLower, WeeksUpper decimal.Decimal
}

//go:embed optimism.csv
var optimism string

// Biases is the published bounds, in the order of their table.
var Biases = sync.OnceValue(func() []Bias {
	rows, err := csv.NewReader(strings.NewReader(optimism)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("risk: optimism.csv: %v", err))
	}
	percent := func(s string) money.Percent { return money.NewPercent(decimal.RequireFromString(s)) }
	var out []Bias
	for _, r := range rows[1:] {
		out = append(out, Bias{ID: r[0], Class: r[1], DurationUpper: percent(r[2]), DurationLower: percent(r[3]),
			CapitalUpper: percent(r[4]), CapitalLower: percent(r[5]), Source: r[6], Where: r[7]})
	}
	return out
})

func compare(base money.Amount, weeks decimal.Decimal) []Compared {
	longer := func(p money.Percent) decimal.Decimal { return weeks.Mul(decimal.New(1, 0).Add(p.Fraction())).Round(1) }
	var out []Compared
	for _, b := range Biases() {
		out = append(out, Compared{Bias: b, CapitalLower: base.Percent(b.CapitalLower), CapitalUpper: base.Percent(b.CapitalUpper),
			WeeksLower: longer(b.DurationLower), WeeksUpper: longer(b.DurationUpper)})
	}
	return out
}
