package solve

import (
	"cmp"
	"slices"
)

// shown is how many yields of a kind Worthiest answers with.
const shown = 3

// Known is the yields that a generator has handed out before.
type Known struct {
	// Yields are what each layout gives, by tag.
	Yields [][]Entry
	// Kind is the kind of stick a layout is of, by tag.
	Kind func(tag int) int
}

// Columns is every layout known that gives anything.
func (k Known) Columns() []Column {
	var out []Column
	for tag, gives := range k.Yields {
		if len(gives) > 0 {
			out = append(out, Column{Kind: k.Kind(tag), Gives: gives, Tag: tag})
		}
	}
	return out
}

// Worthiest is the tags of the layouts worth most, three of each of so many kinds at
// the most, the best first and of equals the one known first. No more of a piece
// counts than is wanted; what is worth nothing, or no more than floor[kind] where a
// floor is given, is left out.
func (k Known) Worthiest(kinds int, worth []int64, wanted []int, floor []int64, steps *Steps) [][]int {
	type worthy struct {
		tag   int
		worth int64
	}
	best := make([][]worthy, kinds)
	for tag, gives := range k.Yields {
		v := int64(0)
		for _, e := range gives {
			v += worth[e.Piece] * int64(min(e.Count, wanted[e.Piece]))
		}
		steps.Add(2 * len(gives))
		if v == 0 {
			continue
		}
		kind := k.Kind(tag)
		of := best[kind]
		if floor != nil && v <= floor[kind] || len(of) == shown && v <= of[shown-1].worth {
			continue
		}
		of = append(of, worthy{tag, v})
		slices.SortStableFunc(of, func(a, b worthy) int { return cmp.Compare(b.worth, a.worth) })
		best[kind] = of[:min(shown, len(of))]
	}
	out := make([][]int, kinds)
	for kind, of := range best {
		for _, w := range of {
			out[kind] = append(out[kind], w.tag)
		}
	}
	return out
}

// Entries is a yield as a column has it, from the number it gives of every piece: no
// more of a piece than is wanted, and nil where that is nothing.
func Entries(gives, wanted []int) []Entry {
	some := 0
	for i, n := range gives {
		if min(n, wanted[i]) > 0 {
			some++
		}
	}
	if some == 0 {
		return nil
	}
	out := make([]Entry, 0, some)
	for i, n := range gives {
		if n = min(n, wanted[i]); n > 0 {
			out = append(out, Entry{Piece: i, Count: n})
		}
	}
	return out
}
