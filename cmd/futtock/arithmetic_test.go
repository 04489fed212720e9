package main

import (
	"fmt"
	"math/big"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

// The arithmetic above a case is worked again here, so that it is no mere tale
// beside the figures:
//
//   - what stands before "=" comes to what stands after it, to the places shown,
//     and a rounding after that ("386.25, up to 387", "12.375, a half, 12.38") is one of
//     what stands before it;
//   - every number with decimals is a cell of the case, or comes out of such an
//     equation, or is a size of a unit;
//   - every such number of the bill, the working and the rest is in the arithmetic.
func TestTheArithmeticOfEveryCaseHolds(t *testing.T) {
	for _, path := range glob(t, "cases/*.txtar", 21) {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) {
			faults, equations := arithmeticFaults(archive(t, path))
			for _, f := range faults {
				t.Error(f)
			}
			if equations < 12 {
				t.Errorf("only %d equations: the arithmetic is not shown", equations)
			}
		})
	}
}

// A wrong figure in the arithmetic of a case is found, wherever it stands.
func TestAWrongFigureInTheArithmeticIsFound(t *testing.T) {
	const right = "Six pieces of 2.5 m: 6 x 2.5 = 3 x 5 = 15.00 m; 15 x 7.75 = 116.25; 10 % of 116.25 = 11.625, a half, 11.63."
	sheets := "-- stock --\nLength\t2.5\n7.75\n-- bill --\nA 116.25\nB 11.63\n"
	for _, c := range []struct{ name, old, new, want string }{
		{"nothing is wrong", "", "", ""},
		{"a product", "15 x 7.75 = 116.25;", "15 x 7.75 = 116.26;", "15 x 7.75 = 116.26 comes to 116.25"},
		{"a rounding", "a half, 11.63", "a half, 11.62", "11.62 is not 11.625 rounded"},
		{"a link of a chain", "3 x 5 = 15.00", "3 x 6 = 15.00", "6 x 2.5 = 3 x 6 comes to 15"},
		{"a half that is none", "10 % of 116.25 = 11.625", "10 % of 116.26 = 11.626", "11.626 is no half"},
		{"a number from nowhere", "2.5 m:", "2.55 m:", "2.55 is no cell"},
		{"a figure of the bill that is not worked", "10 % of 116.25 = 11.625, a half, 11.63.", "", "11.63 of the bill is not in the arithmetic"},
		{"an equation of nothing", "6 x 2.5", "pieces", "there is nothing to reckon"},
	} {
		t.Run(c.name, func(t *testing.T) {
			faults, _ := arithmeticFaults(txtar.Parse([]byte(strings.Replace(right, c.old, c.new, 1) + "\n" + sheets)))
			found := slices.ContainsFunc(faults, func(f string) bool { return strings.Contains(f, c.want) })
			if c.want == "" && len(faults) > 0 || c.want != "" && !found {
				t.Errorf("faults %q; want %q", faults, c.want)
			}
		})
	}
}

// number is a figure as the cases write it, thousands parted by commas.
const number = `\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?`

var (
	numbers  = regexp.MustCompile(number)
	rounding = regexp.MustCompile(`^(, a half)?, (up to |down to )?(-?(?:` + number + `))`)
	lone     = regexp.MustCompile(`^-?(?:` + number + `)(?: (?:` + units + `))?$`)
)

// sizes are those of units, the days of a year and pi, which any case may use.
var sizes = []string{"0.3048", "25.4", "0.0254", "304.8", "0.028316846592", "0.09290304", "365.25", "3.14159265"}

// workedParts are the parts of a case that the arithmetic leads to.
var workedParts = []string{"bill", "working", "pieces", "costs", "programme"}

// arithmeticFaults is what does not hold in the arithmetic of a case, and the
// number of its equations.
func arithmeticFaults(a *txtar.Archive) (faults []string, equations int) {
	text := strings.Join(strings.Fields(string(a.Comment)), " ")
	known := map[string]bool{}
	learn := func(s string) {
		for _, n := range numbers.FindAllString(s, -1) {
			known[plain(n)] = true
		}
	}
	learn(strings.Join(sizes, " "))
	for _, f := range a.Files {
		if !slices.Contains(workedParts, f.Name) {
			learn(string(f.Data))
		}
	}
	before, after, more := strings.Cut(text, " = ")
	for more {
		equations++
		comesTo, fault := equation(before, after)
		learn(comesTo)
		if fault != "" {
			faults = append(faults, fault)
		}
		var next string
		next, after, more = strings.Cut(after, " = ")
		before += " = " + next
	}
	written := map[string]bool{}
	for _, n := range numbers.FindAllString(text, -1) {
		written[plain(n)] = true
		if strings.Contains(n, ".") && !known[plain(n)] {
			faults = append(faults, n+" is no cell of the case, and no equation comes to it")
		}
	}
	for _, f := range a.Files {
		for _, n := range numbers.FindAllString(string(f.Data), -1) {
			if p := plain(n); slices.Contains(workedParts, f.Name) && strings.Contains(n, ".") && p != "0" && !written[p] {
				faults = append(faults, n+" of the "+f.Name+" is not in the arithmetic")
			}
		}
	}
	return faults, equations
}

// equation is what the expression before a sign comes to, as the text after it
// has it, with its rounding; and what is wrong with either.
func equation(before, after string) (comesTo, fault string) {
	left, shown, ok := reckonedBefore(before)
	if !ok {
		return "", fmt.Sprintf("there is nothing to reckon before = %.30s", after)
	}
	right, length, ok := reckonedAfter(after)
	if !ok {
		return "", fmt.Sprintf("there is nothing after %s =", shown)
	}
	written := after[:length]
	switch {
	case !agree(left, right, written):
		return "", fmt.Sprintf("%s = %s comes to %s", shown, written, left.FloatString(8))
	case !lone.MatchString(written):
		return "", "" // a link of a chain: what it comes to is still to come
	}
	n := numbers.FindString(written)
	m := rounding.FindStringSubmatch(after[length:])
	if m == nil || m[2] == "" && !(strings.Contains(m[3], ".") && places(m[3]) < places(n)) {
		return n, "" // the next thing the text speaks of
	}
	if want := rounded(left, places(m[3]), m[2]); want.Cmp(rat(m[3])) != 0 {
		return n, fmt.Sprintf("%s is not %s rounded", m[3], written)
	}
	ends := new(big.Rat).Add(rat(m[3]), rounded(left, places(m[3]), "down to ")) // a half lies midway between them
	if m[1] != "" && ends.Cmp(new(big.Rat).Add(left, left)) != 0 {
		return n, written + " is no half"
	}
	return n + " " + m[3], ""
}

// plain is a number by its value alone: 1,250.00 is 1250, 0.80 is 0.8.
func plain(n string) string {
	n = strings.ReplaceAll(n, ",", "")
	if strings.Contains(n, ".") {
		n = strings.TrimRight(strings.TrimRight(n, "0"), ".")
	}
	return n
}

func rat(n string) *big.Rat {
	r, ok := new(big.Rat).SetString(strings.ReplaceAll(n, ",", ""))
	if !ok {
		panic("no number: " + n)
	}
	return r
}

func places(n string) int {
	_, frac, _ := strings.Cut(n, ".")
	return len(frac)
}

// rounded is a figure at so many places, halves away from nil, or up, or down.
func rounded(r *big.Rat, places int, way string) *big.Rat {
	scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
	x := new(big.Rat).Abs(new(big.Rat).Mul(r, scale))
	switch way {
	case "up to ":
		// Functions are reckoned to twelve places; what lies beyond them is noise.
		x.Add(x, big.NewRat(1, 1)).Sub(x, big.NewRat(1, 1e9))
	case "":
		x.Add(x, big.NewRat(1, 2))
	}
	n := new(big.Int).Quo(x.Num(), x.Denom())
	x.SetInt(n)
	if r.Sign() < 0 {
		x.Neg(x)
	}
	return x.Quo(x, scale)
}

// agree reports that a figure comes to what is written, to the places that are
// written; two expressions, to a millionth.
func agree(left, right *big.Rat, written string) bool {
	off := new(big.Rat).Sub(left, right)
	off.Abs(off)
	most := new(big.Rat).Quo(new(big.Rat).Abs(left), big.NewRat(1e6, 1))
	if lone.MatchString(written) {
		most.SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places(numbers.FindString(written)))), nil))
		most.Quo(most, big.NewRat(2, 1))
	}
	return off.Cmp(most) <= 0
}
