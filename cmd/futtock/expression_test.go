package main

import (
	"math"
	"math/big"
	"regexp"
	"strings"
	"testing"
)

// Expressions as the arithmetic of the cases writes them, with a pencil in mind:
//
//	(6 + 3 x 4.375) x 1.2      12 % of 2,974.72      9 1/4 + 2 x 1/8
//	root of (99.89 x 99.89 - 42 x 42)      sin, tan and arcsin (degrees)      log      10 ^ 0.3
//
// Units behind a number (ft, m2, h) are passed over: an equation is in one unit.
var tokens = regexp.MustCompile(`^(?:(` + number + `)|(root of|sin|tan|arcsin|log)\b|(of)\b|(x)\b|(` + units + `)\b|([-+/()%^]))`)

const units = `ft3|ft2|ft|in|mm|m3|m2|m|h|kg|lb|l|t`

// reckonedBefore is the value of the longest expression that a text ends with,
// and how it is written.
func reckonedBefore(text string) (*big.Rat, string, bool) {
	from := strings.LastIndexAny(text, ":;=?!")
	if i := strings.LastIndex(text, ". "); i > from {
		from = i
	}
	if i := strings.LastIndex(text, ", "); i > from {
		from = i
	}
	for i := from + 1; i < len(text); i++ {
		if i > 0 && text[i-1] != ' ' && text[i-1] != '(' || text[i] == ' ' {
			continue
		}
		if v, n, ok := reckonedAfter(text[i:]); ok && i+n == len(text) {
			return v, text[i:], true
		}
	}
	return nil, "", false
}

// reckonedAfter is the value of the longest expression that a text begins with,
// and its length.
func reckonedAfter(text string) (*big.Rat, int, bool) {
	p := &expression{text: text}
	v, ok := p.sum()
	return v, p.at, ok
}

// expression is a text while it is read. At stands behind what has been taken.
type expression struct {
	text string
	at   int
}

// next is the kind and the text of the token at hand, and where it ends.
func (p *expression) next() (kind int, text string, end int) {
	at := p.at
	for at < len(p.text) && p.text[at] == ' ' {
		at++
	}
	m := tokens.FindStringSubmatch(p.text[at:])
	if m == nil {
		return 0, "", at
	}
	for kind = 1; m[kind] == ""; kind++ {
	}
	return kind, m[kind], at + len(m[0])
}

const (
	aNumber = iota + 1
	aFunction
	anOf
	aTimes
	aUnit
	aSign
)

// take takes a sign or an x or of, if it is the next.
func (p *expression) take(want string) bool {
	if _, text, end := p.next(); text == want {
		p.at = end
		return true
	}
	return false
}

func (p *expression) sum() (*big.Rat, bool) {
	v, ok := p.product()
	for ok {
		back := p.at
		sign := ""
		for _, s := range []string{"+", "-"} {
			if sign == "" && p.take(s) {
				sign = s
			}
		}
		if sign == "" {
			return v, true
		}
		w, more := p.product()
		if !more {
			p.at = back
			return v, true
		}
		if sign == "-" {
			w.Neg(w)
		}
		v.Add(v, w)
	}
	return v, ok
}

func (p *expression) product() (*big.Rat, bool) {
	v, ok := p.factor()
	for ok {
		back := p.at
		over, times := false, p.take("x") || p.take("of")
		if !times {
			over = p.take("/")
		}
		if !times && !over {
			return v, true
		}
		w, more := p.factor()
		if !more || over && w.Sign() == 0 {
			p.at = back
			return v, true
		}
		if over {
			v.Quo(v, w)
		} else {
			v.Mul(v, w)
		}
	}
	return v, ok
}

// factor is a number, a function of a factor, or a sum in brackets, with the
// unit or the hundredth sign behind it.
func (p *expression) factor() (*big.Rat, bool) {
	back := p.at
	kind, text, end := p.next()
	var v *big.Rat
	ok := true
	switch {
	case kind == aNumber:
		p.at = end
		v = rat(text)
		if fraction := vulgar.FindString(p.text[p.at:]); fraction != "" && !strings.Contains(text, ".") {
			p.at += len(fraction)
			top, bottom, _ := strings.Cut(strings.TrimSpace(fraction), "/")
			v.Add(v, new(big.Rat).Quo(rat(top), rat(bottom)))
		}
	case kind == aFunction:
		p.at = end
		if v, ok = p.factor(); ok {
			v, ok = function(text, v)
		}
	case text == "-":
		p.at = end
		if v, ok = p.factor(); ok {
			v.Neg(v)
		}
	case text == "(":
		p.at = end
		if v, ok = p.sum(); ok {
			ok = p.take(")")
		}
	default:
		ok = false
	}
	if !ok {
		p.at = back
		return nil, false
	}
	if kind, text, end := p.next(); kind == aUnit {
		p.at = end
	} else if text == "%" {
		p.at = end
		v.Quo(v, big.NewRat(100, 1))
	} else if text == "^" {
		p.at = end
		w, more := p.factor()
		if !more {
			return nil, false
		}
		base, _ := v.Float64()
		exponent, _ := w.Float64()
		return finite(math.Pow(base, exponent))
	}
	return v, true
}

// vulgar is the fraction of a mixed number: the 1/4 of 9 1/4.
var vulgar = regexp.MustCompile(`^ [1-9]\d?/[1-9]\d?\b`)

// function is in degrees, to the precision of binary floating point.
func function(name string, of *big.Rat) (*big.Rat, bool) {
	x, _ := of.Float64()
	const degree = math.Pi / 180
	y := map[string]float64{
		"root of": math.Sqrt(x), "sin": math.Sin(x * degree), "tan": math.Tan(x * degree),
		"arcsin": math.Asin(x) / degree, "log": math.Log10(x),
	}[name]
	return finite(y)
}

func finite(y float64) (*big.Rat, bool) {
	r := new(big.Rat).SetFloat64(y)
	return r, r != nil
}

func TestExpressionsAreReckonedAsAPencilWould(t *testing.T) {
	for text, want := range map[string]string{
		"2 + 3 x 4":                          "14.00",
		"the crook is (6 + 3 x 4.375) x 1.2": "22.95",
		"12 % of 2,974.72":                   "356.97",
		"sided 9 + 2 x 1/8 in":               "9.25",
		"5 1/4 x 20 in":                      "105.00",
		"8 + 5 x tan 6":                      "8.53",
		"root of (10 x 10 - 6 x 6)":          "8.00",
		"2 x arcsin (1 / 2)":                 "60.00",
		"720 / 8 / 9 ft":                     "10.00",
		"-672.11 x 5 %":                      "-33.61",
		"8 ^ (1 / 3) + 10 ^ -1":              "2.10",
		"row 3 of 4, two at 5 x 6":           "30.00",
	} {
		got, _, ok := reckonedBefore(text)
		if !ok || got.FloatString(2) != want {
			t.Errorf("%q comes to %v, %v; want %s", text, got, ok, want)
		}
	}
}
