package main

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"futtock/estimate"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/templates"
)

// tables are the sheets of a job kept as text: each file of the archive is one
// sheet, tab-separated, named after it.
func tables(a *txtar.Archive, leave ...string) []templates.Table {
	var out []templates.Table
next:
	for _, f := range a.Files {
		for _, l := range leave {
			if f.Name == l {
				continue next
			}
		}
		out = append(out, templates.ParseTSV(f.Name, string(f.Data)))
	}
	return out
}

func archive(t testing.TB, path string) *txtar.Archive {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return txtar.Parse(data)
}

func part(t *testing.T, a *txtar.Archive, name string) string {
	t.Helper()
	for _, f := range a.Files {
		if f.Name == name {
			return string(f.Data)
		}
	}
	t.Fatalf("the archive has no part %q", name)
	return ""
}

func glob(t *testing.T, pattern string, least int) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join("..", "..", "testdata", filepath.FromSlash(pattern)))
	if err != nil {
		t.Fatal(err)
	}
	if len(paths) < least {
		t.Fatalf("%d files match %s, and there should be %d or more", len(paths), pattern, least)
	}
	return paths
}

// Each case is a small whole job worked by hand, with its arithmetic above it,
// its bill and the working that leads to it. The hand is the standard: these
// parts are never rewritten from what the program says.
func TestWholeJobsComeOutAsWorkedByHand(t *testing.T) {
	for _, path := range glob(t, "cases/*.txtar", 21) {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) {
			a := archive(t, path)
			j, b, problems := templates.Read(templates.TextBook("case.xlsx", tables(a, "bill", "working", "pieces", "costs", "programme")), nil)
			r := estimate.Run(j, b)
			problems.Join(r.Problems)
			if problems.HasErrors() {
				for _, p := range problems {
					t.Log(p)
				}
				t.FailNow()
			}
			if d := cmp.Diff(part(t, a, "bill"), billText(r)); d != "" {
				t.Errorf("the bill (-by hand +by futtock):\n%s", d)
			}
			if d := cmp.Diff(part(t, a, "working"), workingText(r)); d != "" {
				t.Errorf("the working (-by hand +by futtock):\n%s", d)
			}
			for _, p := range []struct {
				name string
				text func(estimate.Result) string
			}{{"pieces", piecesText}, {"costs", costsText}, {"programme", programmeText}} {
				if !slices.ContainsFunc(a.Files, func(f txtar.File) bool { return f.Name == p.name }) {
					continue
				}
				if d := cmp.Diff(part(t, a, p.name), p.text(r)); d != "" {
					t.Errorf("the %s (-by hand +by futtock):\n%s", p.name, d)
				}
			}
		})
	}
}

// The caulking is worked with the published consumption of cotton: 210 ft of
// strand to the pound, and three strands in the seam.
func TestTheCaulkingIsWorkedWithThePublishedCotton(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", "consumables.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := slices.IndexFunc(rows, func(r []string) bool { return r[0] == "Caulking cotton, 3 strands" })
	if at < 0 || rows[at][1] != "lb" || rows[at][3] != "ft of seam" {
		t.Fatalf("no pounds of cotton a foot of seam in %v", rows)
	}
	buildUp := part(t, archive(t, filepath.Join("..", "..", "testdata", "cases", "caulking-by-the-foot.txtar")), "build-ups")
	if want := "\tCotton\tseam (ft)\t" + rows[at][2] + "\t"; !strings.Contains(buildUp, want) {
		t.Errorf("the build-up has not %q:\n%s", want, buildUp)
	}
}

// billText is a bill as the cases write it. Lines carried otherwise than
// measured say so; preliminaries, sums, dayworks, the rise and the other reading
// of VAT stand only where there are any.
func billText(r estimate.Result) string {
	var b strings.Builder
	differ := map[string]string{}
	for _, i := range r.Priced.Items {
		differ[i.Ref] = i.Difference.String()
	}
	for _, n := range r.Bill.Reconciled { // with the share of a contingency within the rates
		differ[n.Ref] = n.Difference.String()
	}
	for _, s := range r.Bill.Sections {
		for _, n := range s.Lines {
			fmt.Fprintf(&b, "%s | %s %s | %s | %s | %s", n.Ref, n.Quantity.StringFixed(n.Unit.Places()), n.Unit, n.Rate, n.Amount, differ[n.Ref])
			if n.Remark != "" {
				fmt.Fprintf(&b, " | %s", n.Remark)
			}
			b.WriteString("\n")
		}
	}
	for _, n := range r.Bill.Preliminaries {
		fmt.Fprintf(&b, "%s | %s %s | %s | %s\n", n.Ref, n.Quantity.StringFixed(n.Unit.Places()), n.Unit, n.Rate, n.Amount)
	}
	for _, n := range r.Bill.Sums {
		fmt.Fprintf(&b, "%s | %s + %s + %s | %s\n", n.Ref, n.Amount, n.ProfitSum, n.Attendance, n.Total)
	}
	for _, n := range r.Bill.Dayworks {
		if n.Hours {
			fmt.Fprintf(&b, "daywork %s | %s h | %s | %s\n", n.Of, n.Quantity.StringFixed(2), n.Rate, n.Total)
		} else {
			fmt.Fprintf(&b, "daywork %s | %s + %s | %s\n", n.Of, n.Sum, n.Total.Sub(n.Sum), n.Total)
		}
	}
	fmt.Fprintf(&b, "A %s\nB %s\nC %s\nD %s\n", r.Bill.Items, r.Bill.Prelims, r.Bill.SumsDayworks, r.Bill.Held)
	if !r.Bill.Rises.IsZero() {
		fmt.Fprintf(&b, "%s days, times %s\n", r.Bill.RiseDays, r.Bill.RiseFactor)
	}
	fmt.Fprintf(&b, "E %s\nnet %s\n", r.Bill.Rises, r.Bill.Net)
	for _, v := range r.Bill.VAT {
		fmt.Fprintf(&b, "VAT %s %s\n", v.Code, v.VAT)
	}
	fmt.Fprintf(&b, "total %s\n", r.Bill.Total)
	if o := r.Bill.Otherwise; o != nil {
		for _, v := range o.VAT {
			fmt.Fprintf(&b, "otherwise VAT %s %s\n", v.Code, v.VAT)
		}
		fmt.Fprintf(&b, "otherwise total %s\n", o.Total)
	}
	return b.String()
}

// heldText is what the contingency is made of, where that is more than one
// percentage on one section.
func heldText(r estimate.Result) string {
	var b strings.Builder
	c := r.Contingency
	if len(c.Sections) > 1 || !c.Preliminaries.Amount.IsZero() || len(c.Rows) > 0 {
		for _, s := range c.Sections {
			fmt.Fprintf(&b, "held on %s %s of %s\n", s.Section, s.Amount, s.On)
		}
		if p := c.Preliminaries; !p.Amount.IsZero() {
			fmt.Fprintf(&b, "held on preliminaries %s of %s\n", p.Amount, p.On)
		}
		for _, n := range c.Rows {
			fmt.Fprintf(&b, "held for %s %s of %s\n", n.Ref, n.Held, n.Amount)
		}
	}
	return b.String()
}

// workingText is hours, timber and the timber order as the cases write them;
// timber that may be wanted and the parts of the contingency only where there
// are any.
func workingText(r estimate.Result) string {
	var b strings.Builder
	for _, h := range r.Hours.Lines {
		fmt.Fprintf(&b, "%s %s %s h\n", h.Ref, h.Trade, h.Hours.StringFixed(2))
	}
	for _, i := range r.Priced.Items {
		for _, c := range i.Costs {
			if c.Kind == rates.OfTimber {
				fmt.Fprintf(&b, "%s timber %s %s\n", c.Ref, c.Name, c.Cost)
			}
		}
	}
	for _, n := range r.Plan.Order {
		fmt.Fprintf(&b, "buy %s %s\n", n.Buy.StringFixed(n.BuyUnit().Places()), n.Stock.Stock)
	}
	for _, n := range r.Plan.Maybe {
		fmt.Fprintf(&b, "may want %s %s (%s)\n", n.Buy.StringFixed(n.BuyUnit().Places()), n.Stock.Stock, n.Carried)
	}
	b.WriteString(heldText(r))
	for _, n := range r.Bill.Reconciled {
		if !n.Share.IsZero() {
			fmt.Fprintf(&b, "%s bears %s of the contingency\n", n.Ref, n.Share)
		}
	}
	return b.String()
}

// piecesText is the new timber as it is sawn: the number, thickness x width x
// length, and of a curved piece the sweep it has of its own.
func piecesText(r estimate.Result) string {
	var b strings.Builder
	mm := func(l measure.Length) string { return l.In(measure.Mm, 3).StringFixed(3) }
	for _, p := range r.Takeoff.Pieces {
		fmt.Fprintf(&b, "%s %d of %s x %s x %s mm", p.Ref, p.Count, mm(p.Thickness), mm(p.Width), mm(p.Length))
		if p.Curve != nil {
			fmt.Fprintf(&b, ", sweep %s", mm(p.Curve.Sweep))
		}
		b.WriteString("\n")
	}
	return b.String()
}

// costsText is what is bought beside labour and timber, line by line.
func costsText(r estimate.Result) string {
	var b strings.Builder
	for _, i := range r.Priced.Items {
		for _, c := range i.Costs {
			if c.Kind == rates.OfLabour || c.Kind == rates.OfTimber {
				continue
			}
			fmt.Fprintf(&b, "%s %s %s %s %s\n", c.Ref, c.Name, c.Quantity.StringFixed(3), c.Unit, c.Cost)
		}
	}
	return b.String()
}

// programmeText is the stages with their earliest weeks and the trade that
// makes each as long as it is.
func programmeText(r estimate.Result) string {
	var b strings.Builder
	for _, s := range r.Programme.Stages {
		governs := s.Governs
		if governs == "" {
			governs = "least weeks"
		}
		fmt.Fprintf(&b, "%s %s to %s %s\n", s.Stage.Stage, s.Earliest.StringFixed(1), s.EarliestFinish.StringFixed(1), governs)
	}
	fmt.Fprintf(&b, "in all %s weeks\n", r.Programme.Weeks.StringFixed(1))
	return b.String()
}
