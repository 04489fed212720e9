package explain_test

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/output/explain"
	"futtock/templates"
	"futtock/templates/demo"
)

// run prices a job kept as text; a fault in what is kept here is ours, and panics.
func run(tables []templates.Table, change func(*job.Job)) estimate.Result {
	j, b, problems := templates.Read(templates.TextBook("yard.xlsx", tables), nil)
	if change != nil {
		change(&j)
	}
	r := estimate.Run(j, b)
	if problems.Join(r.Problems); problems.HasErrors() {
		panic(fmt.Sprint(problems))
	}
	return r
}

func demoTables() []templates.Table {
	names, err := fs.Glob(demo.Files(), "*.tsv")
	if err != nil || len(names) == 0 {
		panic(fmt.Sprintf("%d sheets of the demonstration: %v", len(names), err))
	}
	var out []templates.Table
	for _, name := range names {
		text, err := fs.ReadFile(demo.Files(), name)
		if err != nil {
			panic(err)
		}
		out = append(out, templates.ParseTSV(name, string(text)))
	}
	return out
}

func caseTables(path string) []templates.Table {
	text, err := os.ReadFile(path)
	if err != nil {
		panic(err)
	}
	var out []templates.Table
	for _, f := range txtar.Parse(text).Files {
		if f.Name != "bill" && f.Name != "working" {
			out = append(out, templates.ParseTSV(f.Name, string(f.Data)))
		}
	}
	return out
}

const cases = "../../testdata/cases/"

// demonstration is priced once for all tests.
var demonstration = sync.OnceValue(func() estimate.Result { return run(demoTables(), nil) })

// jobs is the demonstration, once more with its contingency drawn and within the
// rates, and every case worked by hand.
var jobs = sync.OnceValue(func() map[string]estimate.Result {
	out := map[string]estimate.Result{
		"demonstration": demonstration(),
		"simulated":     simulated(),
		"within rates":  run(demoTables(), func(j *job.Job) { j.ContingencyShown = job.WithinRates }),
	}
	paths, err := filepath.Glob(cases + "*.txtar")
	if err != nil || len(paths) < 6 {
		panic(fmt.Sprintf("%d cases: %v", len(paths), err))
	}
	for _, path := range paths {
		out[filepath.Base(path)] = run(caseTables(path), nil)
	}
	return out
})

// each visits every line of everything a job can explain.
func each(t *testing.T, r estimate.Result, visit func(ref string, l explain.Line)) {
	t.Helper()
	for _, ref := range explain.Refs(r) {
		lines := explain.Of(r, ref)
		if len(lines) == 0 {
			t.Errorf("%q stands on the list and explains nothing", ref)
		}
		var walk func(l explain.Line)
		walk = func(l explain.Line) {
			visit(ref, l)
			for _, u := range l.Under {
				walk(u)
			}
		}
		for _, l := range lines {
			walk(l)
		}
	}
}

func figure(s string) decimal.Decimal {
	return decimal.RequireFromString(strings.ReplaceAll(s, ",", ""))
}

// Whatever is said to be added up is the sum of the figures printed under it.
func TestWhatIsAddedUpIsTheSumOfWhatStandsUnderIt(t *testing.T) {
	for name, r := range jobs() {
		t.Run(name, func(t *testing.T) {
			sums := 0
			each(t, r, func(ref string, l explain.Line) {
				if l.How != explain.Added {
					return
				}
				var all decimal.Decimal
				for _, u := range l.Under {
					if u.Value != "" {
						all = all.Add(figure(u.Value))
					}
				}
				if sums++; !all.Equal(figure(l.Value)) {
					t.Errorf("%s: %s is %s, and what stands under it %s", ref, l.Label, l.Value, all)
				}
			})
			if sums < 10 {
				t.Errorf("only %d sums were found", sums)
			}
		})
	}
}

const num = `(-?[\d,]+(?:\.\d+)?)`

// rules is how the words beside a figure are reckoned again, and how many of
// each kind the demonstration has at the least.
var rules = []struct {
	name  string
	how   *regexp.Regexp
	least int
	again func(n []decimal.Decimal) decimal.Decimal
	off   string // how far a figure may be from its own product; blank is not at all
}{
	{"quantity x rate", regexp.MustCompile(`^` + num + ` [a-z0-9]+ x ` + num + `(?:, to the penny)?$`), 300,
		func(n []decimal.Decimal) decimal.Decimal { return n[0].Mul(n[1]).Round(2) }, ""},
	{"overheads", regexp.MustCompile(`^` + num + ` % of ` + num + `(?:, for [a-z]+)?$`), 100,
		func(n []decimal.Decimal) decimal.Decimal { return n[0].Mul(n[1]).Shift(-2).Round(2) }, ""},
	{"profit", regexp.MustCompile(`^` + num + ` % of \(` + num + ` \+ ` + num + `\)$`), 100,
		func(n []decimal.Decimal) decimal.Decimal { return n[0].Mul(n[1].Add(n[2])).Shift(-2).Round(2) }, ""},
	{"rate", regexp.MustCompile(`^` + num + ` / ` + num + `, to the penny$`), 80,
		func(n []decimal.Decimal) decimal.Decimal { return n[0].DivRound(n[1], 2) }, ""},
	{"rate with its share", regexp.MustCompile(`^\(` + num + ` \+ ` + num + `\) / ` + num + `, to the penny$`), 0,
		func(n []decimal.Decimal) decimal.Decimal { return n[0].Add(n[1]).DivRound(n[2], 2) }, ""},
	{"an hour from pay", regexp.MustCompile(`^pay ` + num + ` x ` + num + ` h paid x \(1 \+ ` + num + ` % on-costs\) / ` + num + ` h worked \+ ` + num + ` other`), 80,
		func(n []decimal.Decimal) decimal.Decimal {
			return n[0].Mul(n[1]).Mul(n[2].Shift(-2).Add(decimal.New(1, 0))).DivRound(n[3], 12).Add(n[4]).Round(2)
		}, ""},
	{"the chance held", regexp.MustCompile(`^(?:may be wanted: )?chance ` + num + ` % of ` + num + `$`), 10,
		func(n []decimal.Decimal) decimal.Decimal { return n[0].Mul(n[1]).Shift(-2).Round(2) }, ""},
	// Running totals move a share by a penny, and a measure to six places a stick.
	{"a share by volume", regexp.MustCompile(`^` + num + ` x ` + num + ` / ` + num + ` m3: its part of what is sawn`), 200,
		func(n []decimal.Decimal) decimal.Decimal { return n[0].Mul(n[1]).DivRound(n[2], 12).Round(2) }, "0.01"},
	{"a stick", regexp.MustCompile(`^\(` + num + ` \+ ` + num + ` delivery\) x ` + num + ` [a-z0-9]+$`), 100,
		func(n []decimal.Decimal) decimal.Decimal { return n[0].Add(n[1]).Mul(n[2]).Round(2) }, "0.01"},
	{"a stick with its sawing", regexp.MustCompile(`^\(` + num + ` \+ ` + num + ` delivery\) x ` + num + ` [a-z0-9]+ \+ ` + num + ` sawing x ` + num + ` [a-z0-9]+$`), 5,
		func(n []decimal.Decimal) decimal.Decimal {
			return n[0].Add(n[1]).Mul(n[2]).Add(n[3].Mul(n[4])).Round(2)
		}, "0.01"},
	{"sticks x price", regexp.MustCompile(`^` + num + ` x ` + num + `$`), 30,
		func(n []decimal.Decimal) decimal.Decimal { return n[0].Mul(n[1]).Round(2) }, ""},
}

// A pencil comes to the same figures as the words beside them say.
func TestTheWordsBesideAFigureComeToIt(t *testing.T) {
	for name, r := range jobs() {
		t.Run(name, func(t *testing.T) {
			found := make([]int, len(rules))
			each(t, r, func(ref string, l explain.Line) {
				if l.Unit != r.Job.Currency && !strings.HasPrefix(l.Unit, r.Job.Currency+"/") {
					return
				}
				for i, rule := range rules {
					m := rule.how.FindStringSubmatch(l.How)
					if m == nil {
						continue
					}
					found[i]++
					var n []decimal.Decimal
					for _, s := range m[1:] {
						n = append(n, figure(s))
					}
					again := rule.again(n)
					if off := again.Sub(figure(l.Value)).Abs(); rule.off == "" && !off.IsZero() || rule.off != "" && off.GreaterThan(figure(rule.off)) {
						t.Errorf("%s: %s is %s, and %q comes to %s", ref, l.Label, l.Value, l.How, again)
					}
				}
			})
			for i, rule := range rules {
				if name == "demonstration" && found[i] < rule.least {
					t.Errorf("%s was found %d times, and %d are wanted", rule.name, found[i], rule.least)
				}
			}
			if name == "within rates" && found[4] < 80 {
				t.Errorf("%d rates carry a share of the contingency", found[4])
			}
		})
	}
}

var taskWords = regexp.MustCompile(`^\(?(?:` + num + ` h set-up \+ )?` + num + ` h x ` + num + ` [a-z0-9]+(?: of [a-z ]+?)?(?: x ` + num + ` learning)?\)?(?: x ` + num + ` difficulty)?(?: x ` + num + ` access)?(?:; .*)?$`)

// The tasks of a row add up to its hours, and each is what its words say, to
// the sixth place.
func TestHoursAreWhatTheirTasksSay(t *testing.T) {
	r := demonstration()
	tasks, or := 0, func(s, other string) decimal.Decimal {
		if s == "" {
			s = other
		}
		return figure(s)
	}
	each(t, r, func(ref string, l explain.Line) {
		if l.How != "tasks added up" {
			return
		}
		var all decimal.Decimal
		for _, task := range l.Under {
			all = all.Add(figure(task.Value))
			m := taskWords.FindStringSubmatch(task.How)
			if m == nil {
				if task.Label != "Hours given in the row" {
					t.Errorf("%s: %q cannot be read", ref, task.How)
				}
				continue
			}
			tasks++
			again := or(m[2], "").Mul(or(m[3], "")).Mul(or(m[4], "1")).Add(or(m[1], "0")).Mul(or(m[5], "1")).Mul(or(m[6], "1"))
			if !again.Round(6).Equal(figure(task.Value)) {
				t.Errorf("%s: %s is %s, and %q comes to %s", ref, task.Label, task.Value, task.How, again)
			}
		}
		if !all.Round(2).Equal(figure(l.Value)) {
			t.Errorf("%s: %s has %s h, and its tasks %s", ref, l.Label, l.Value, all)
		}
	})
	if tasks < 300 {
		t.Errorf("only %d tasks were found", tasks)
	}
}

// Every price, norm and stick used names its cell.
func TestPricesAndNormsNameTheirCells(t *testing.T) {
	r := demonstration()
	for _, ref := range explain.Refs(r) {
		for _, root := range explain.Of(r, ref) {
			for _, group := range root.Under {
				if !slices.Contains([]string{"Prices used", "Norms used", "Sticks bought", "Measured"}, group.Label) {
					continue
				}
				for _, l := range group.Under {
					if l.At.Book != "yard.xlsx" || l.At.Address() == "" {
						t.Errorf("%s: %s of %q names the cell %q", ref, l.Label, group.Label, l.At)
					}
				}
			}
		}
	}
}

func TestTheSameIsExplainedTheSameTwice(t *testing.T) {
	first, second := demonstration(), run(demoTables(), nil)
	for _, ref := range explain.Refs(first) {
		if d := cmp.Diff(explain.Of(first, ref), explain.Of(second, ref)); d != "" {
			t.Errorf("%s (-first +second):\n%s", ref, d)
		}
	}
}
