package labour

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// Published is what a published source says that a task takes: from Least to
// Most hours for one Unit, as reckoned from the Hours of the source. These are no
// norms of anybody's yard: a norm beyond all that is published of the like work
// is remarked on, and used as it stands.
//
// A norm is of the like work where the build-up measures it by one of the
// drivers By, its unit measures what Unit does, and its Task and Description
// hold all words of one of the phrases Like, each as the beginning of a word:
// "caulk" stands in "Caulking, one thread". Rows of the same By and Like are
// taken together. One figure by itself bounds nothing, and a row without Like
// has nothing like it in the schedule of a refit; both are there to be read.
type Published struct {
	Like                  []string
	By                    []rates.Driver
	Task                  string
	Hours, Of             string // as the source has them, such as 40-60 for MBF
	Unit                  measure.Unit
	Least, Most           decimal.Decimal // h for one Unit, to 0.0001
	Conditions            string
	Source, WhereInSource string
	group                 string
}

//go:embed published.csv
var table string

// norms is all that is published, in the order of its table.
var norms = sync.OnceValue(func() []Published {
	rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("labour: published.csv: %v", err))
	}
	var out []Published
	for _, r := range rows[1:] {
		unit, ok := measure.ParseUnit(r[5])
		if !ok {
			panic("labour: published.csv: no unit " + r[5])
		}
		p := Published{
			Like: phrases(r[0]), Task: r[2], Hours: r[3], Of: r[4], Unit: unit,
			Least: decimal.RequireFromString(r[6]), Most: decimal.RequireFromString(r[7]),
			Conditions: r[8], Source: r[9], WhereInSource: r[10], group: r[0] + "|" + r[1],
		}
		for _, d := range phrases(r[1]) {
			p.By = append(p.By, rates.Driver(d))
		}
		out = append(out, p)
	}
	return out
})

func phrases(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, "; ")
}

// Bounds is the least and the most published of the work a norm is like, and
// the rows that say so; false where nothing like it is published, or one figure
// only.
func Bounds(n rates.Norm, by rates.Driver) (least, most Published, ok bool) {
	group := ""
	for _, p := range norms() {
		switch {
		case group == "" && p.like(n, by):
			group, least, most = p.group, p, p
		case p.group == group && group != "":
			if p.Least.LessThan(least.Least) {
				least = p
			}
			if p.Most.GreaterThan(most.Most) {
				most = p
			}
		}
	}
	return least, most, group != "" && least.Least.LessThan(most.Most)
}

func (p Published) like(n rates.Norm, by rates.Driver) bool {
	if !slices.Contains(p.By, by) || n.Unit.Dimension() != p.Unit.Dimension() {
		return false
	}
	words := strings.FieldsFunc(rates.Key(n.Task+" "+n.Description), func(r rune) bool { return !unicode.IsLetter(r) })
	return slices.ContainsFunc(p.Like, func(phrase string) bool {
		for _, w := range strings.Fields(phrase) {
			if !slices.ContainsFunc(words, func(s string) bool { return strings.HasPrefix(s, w) }) {
				return false
			}
		}
		return true
	})
}

// compare remarks on a norm beyond what is published of the like, once a norm.
func (r *reckoning) compare(n rates.Norm, by rates.Driver) {
	k := rates.Key(n.Task)
	if r.compared[k] {
		return
	}
	least, most, ok := Bounds(n, by)
	if !ok {
		return
	}
	r.compared[k] = true
	in := func(d decimal.Decimal) decimal.Decimal {
		return d.Mul(n.Unit.Size()).Div(most.Unit.Size())
	}
	side, nearest := "most", most
	switch {
	case n.Hours.LessThan(in(least.Least)):
		side, nearest = "least", least
	case !n.Hours.GreaterThan(in(most.Most)):
		return
	}
	r.problems.Add(problem.Problem{
		Code: problem.NormUnlike,
		At:   n.At,
		Text: fmt.Sprintf("%q takes %q h for one %q; of the like %s to %s h are published, the %s of %q (%s, %s)",
			n.Task, n.Hours, n.Unit, in(least.Least).Round(3), in(most.Most).Round(3), side, nearest.Task, nearest.Source, nearest.WhereInSource),
	})
}
