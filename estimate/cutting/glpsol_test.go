package cutting

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// yield is how many of each piece a stick gives.
type yield []int

func (y yield) plus(z yield, want yield) yield {
	out := slices.Clone(y)
	for i := range out {
		out[i] = min(want[i], out[i]+z[i])
	}
	return out
}

// greatest leaves out yields that another has all of.
func greatest(in []yield) []yield {
	var out []yield
	for i, y := range in {
		beaten := slices.ContainsFunc(out, func(o yield) bool { return slices.Equal(o, y) })
		for k, o := range in {
			if beaten || i == k || slices.Equal(o, y) {
				continue
			}
			beaten = true
			for n := range o {
				beaten = beaten && o[n] >= y[n]
			}
		}
		if !beaten {
			out = append(out, y)
		}
	}
	return out
}

// lie is a way pieces lie in a strip, in whole nanometres.
type lie struct {
	piece, deep             int
	through, across, length measure.Length
	flat                    bool
}

// trial is a small job with every yield of its sticks found by trying them all.
type trial struct {
	pieces []takeoff.Piece
	stock  []rates.Stock
	kerf   measure.Length
	want   yield
}

func (j trial) lies() []lie {
	var out []lie
	for i, p := range j.pieces {
		for deep := 1; deep <= p.Count; deep++ {
			n := measure.Length(deep)
			if p.Curve != nil {
				out = append(out, lie{i, deep, p.Thickness, p.Curve.NestedWidth(p.Width, j.kerf, deep), p.Length, true})
				continue
			}
			out = append(out, lie{i, deep, p.Thickness, n*(p.Width+j.kerf) - j.kerf, p.Length, true})
			out = append(out, lie{i, deep, p.Width, n*(p.Thickness+j.kerf) - j.kerf, p.Length, false})
		}
	}
	return out
}

// strips is every yield of a strip.
func (j trial) strips(thick, wide, long measure.Length) []yield {
	out := []yield{make(yield, len(j.pieces))}
	var grow func(y yield, from int, left measure.Length)
	lies := j.lies()
	grow = func(y yield, from int, left measure.Length) {
		for i := from; i < len(lies); i++ {
			l := lies[i]
			if l.through > thick || l.across > wide || l.length > left {
				continue
			}
			next := make(yield, len(y))
			next[l.piece] = l.deep
			next = y.plus(next, j.want)
			if slices.Equal(next, y) {
				continue
			}
			out = append(out, next)
			grow(next, i, left-l.length-j.kerf)
		}
	}
	grow(out[0], 0, long)
	return greatest(out)
}

// layer is every yield of a layer.
func (j trial) layer(thick, wide, long measure.Length) []yield {
	var widths []measure.Length
	for _, l := range j.lies() {
		if l.through <= thick && l.across <= wide && !slices.Contains(widths, l.across) {
			widths = append(widths, l.across)
		}
	}
	strips := map[measure.Length][]yield{}
	for _, w := range widths {
		strips[w] = j.strips(thick, w, long)
	}
	out := []yield{make(yield, len(j.pieces))}
	var grow func(y yield, from int, left measure.Length)
	grow = func(y yield, from int, left measure.Length) {
		for i := from; i < len(widths); i++ {
			if widths[i] > left {
				continue
			}
			for _, s := range strips[widths[i]] {
				if next := y.plus(s, j.want); !slices.Equal(next, y) {
					out = append(out, next)
					grow(next, i, left-widths[i]-j.kerf)
				}
			}
		}
	}
	grow(out[0], 0, wide)
	return greatest(out)
}

// stick is every yield of a stick: of one layer, or of several, each as thick as
// a piece lies in it.
func (j trial) stick(s rates.Stock) []yield {
	thick, wide, long := takeoff.Clear(s, true)
	if s.Form == rates.Crook {
		var out []yield
		for i, p := range j.pieces {
			if p.Curve != nil && p.From(s) {
				y := make(yield, len(j.pieces))
				y[i] = 1
				out = append(out, y)
			}
		}
		return out
	}
	out := j.layer(thick, wide, long)
	layers := map[measure.Length][]yield{}
	var through []measure.Length
	for _, l := range j.lies() {
		if layers[l.through] == nil && l.through <= thick {
			layers[l.through] = j.layer(l.through, wide, long)
			through = append(through, l.through)
		}
	}
	var grow func(y yield, from int, left measure.Length)
	grow = func(y yield, from int, left measure.Length) {
		for i := from; i < len(through); i++ {
			t := through[i]
			if t > left {
				continue
			}
			for _, s := range layers[t] {
				if next := y.plus(s, j.want); !slices.Equal(next, y) {
					out = append(out, next)
					grow(next, i, left-t-j.kerf)
				}
			}
		}
	}
	grow(make(yield, len(j.pieces)), 0, thick)
	return greatest(out)
}

// least asks glpsol for the least cost in pennies; each stick at its price, each
// piece by the cube at the pennies given, below nil where there is none.
func (j trial) least(t *testing.T, cubed []int64) int64 {
	t.Helper()
	var costs, names []string
	cover := make([][]string, len(j.pieces))
	var limits []string
	add := func(cost int64, y yield) string {
		x := fmt.Sprintf("x%d", len(names))
		names = append(names, x)
		costs = append(costs, fmt.Sprintf("%d %s", cost, x))
		for i, n := range y {
			if n > 0 {
				cover[i] = append(cover[i], fmt.Sprintf("%d %s", n, x))
			}
		}
		return x
	}
	for _, s := range j.stock {
		if s.Form == rates.Cube {
			continue
		}
		each, _, err := s.StickPrice()
		if err != nil {
			t.Fatal(err)
		}
		var of []string
		pennies := each.Decimal().Shift(2).IntPart()
		if s.Loss.IsZero() {
			for _, y := range j.stick(s) {
				of = append(of, add(pennies, y))
			}
		} else if all := j.stick(s); len(all) > 0 {
			// Whole sticks bought, of which the share kept is no less than what is sawn.
			bought := add(pennies, nil)
			for _, y := range all {
				of = append(of, add(0, y))
			}
			keeps := hundred.Sub(s.Loss.Decimal())
			limits = append(limits, fmt.Sprintf("%s %s - 100 %s >= 0", keeps, bought, strings.Join(of, " - 100 ")))
			of = []string{bought}
		}
		if s.Limited && len(of) > 0 {
			limits = append(limits, strings.Join(of, " + ")+fmt.Sprintf(" <= %d", s.Available))
		}
	}
	for i, cost := range cubed {
		if cost >= 0 {
			y := make(yield, len(j.pieces))
			y[i] = 1
			add(cost, y)
		}
	}
	var text strings.Builder
	text.WriteString("Minimize\n obj: " + strings.Join(costs, "\n + ") + "\nSubject To\n")
	for i, c := range cover {
		fmt.Fprintf(&text, " %s >= %d\n", strings.Join(c, "\n + "), j.want[i])
	}
	for _, l := range limits {
		text.WriteString(" " + l + "\n")
	}
	text.WriteString("General\n " + strings.Join(names, "\n ") + "\nEnd\n")
	return glpsol(t, text.String())
}

// glpsol solves a model in the LP format, whose objective must come to a whole number.
func glpsol(t *testing.T, text string) int64 {
	t.Helper()
	program, err := exec.LookPath("glpsol")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("no glpsol here, and CI must solve: install glpk-utils")
		}
		t.Skip("no glpsol here: install glpk-utils to solve small jobs independently")
	}
	dir := t.TempDir()
	model, answer := filepath.Join(dir, "model.lp"), filepath.Join(dir, "answer.txt")
	if err := os.WriteFile(model, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(program, "--lp", model, "-o", answer).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	said, err := os.ReadFile(answer)
	if err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`Status: +INTEGER OPTIMAL[\s\S]*Objective: +obj = (\d+)`).FindSubmatch(said)
	if found == nil {
		t.Fatalf("glpsol found no least cost:\n%s\n%s", text, said)
	}
	var cost int64
	fmt.Sscan(string(found[1]), &cost)
	return cost
}

// smallJob is a job small enough that every yield can be tried: whole millimetres, no Loss.
func smallJob(seed uint64) trial {
	draw := rand.New(rand.NewPCG(seed, 5))
	j := trial{kerf: 3 * mm}
	sizes := [][2]measure.Length{{50, 140}, {50, 100}, {25, 140}, {75, 60}}
	for i := range 2 + draw.IntN(3) {
		n := 1 + draw.IntN(4)
		size := sizes[draw.IntN(len(sizes))]
		long := measure.Length(5+draw.IntN(20)) * 100 * mm
		j.pieces = append(j.pieces, straight(fmt.Sprint(i+1), n, size[0]*mm, size[1]*mm, long))
		j.want = append(j.want, n)
	}
	for i, size := range [][3]measure.Length{{55, 150, 3100}, {80, 150, 2600}, {55, 300, 2700}, {110, 160, 3100}} {
		if i > 0 && draw.IntN(3) == 0 {
			continue
		}
		pennies := int64(size[0]*size[1]*size[2])/10000 + int64(draw.IntN(700))
		s := plank(fmt.Sprintf("line %d", i), size[0]*mm, size[1]*mm, size[2]*mm, fmt.Sprintf("%d.%02d", pennies/100, pennies%100))
		if i > 0 && draw.IntN(4) == 0 {
			s.Limited, s.Available = true, 1
		}
		j.stock = append(j.stock, s)
	}
	// Something that takes the piece 75 thick.
	j.stock = append(j.stock, plank("thick", 80*mm, 90*mm, 2700*mm, "31.07"))
	return j
}

// Cost and bound are both what an independent solver finds over all yields.
func TestSmallJobsAreProvenAgainstAnIndependentSolver(t *testing.T) {
	for seed := range uint64(60) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			j := smallJob(seed)
			want := j.least(t, nil)
			plan, problems := Cut(oakJob(), book(j.stock...), pieces(j.pieces...))
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			cost, least := plan.Bound.Cost.Decimal().Shift(2).IntPart(), plan.Bound.Least.Decimal().Shift(2).IntPart()
			if cost != want || least != want {
				t.Errorf("costs %d, not under %d; glpsol has %d", cost, least, want)
			}
		})
	}
}
