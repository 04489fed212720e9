package solve

import (
	"testing"

	"pgregory.net/rapid"
)

// obeys tells whether a set of pieces is one a rule allows.
func (r rule) obeys(set uint) bool {
	a, b := set>>r.a&1, set>>r.b&1
	if r.how == together {
		return a == b
	}
	return a+b < 2
}

func (c Column) set() uint {
	set := uint(0)
	for _, e := range c.Gives {
		set |= 1 << e.Piece
	}
	return set
}

// After any rules, what is kept obeys them all, and every part of what was listed that obeys them is still part of something kept: so no purchase
// that obeys them is lost, and no other is kept in.
func TestWhatIsCutByRulesHoldsJustWhatTheyAllow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const pieces = 6
		s := &solver{steps: &Steps{}}
		p := &pool{place: map[string]int{}}
		var all, now []int32
		for _, set := range rapid.SliceOfN(rapid.UintRange(1, 1<<pieces-1), 1, 8).Draw(t, "yields") {
			var c Column
			for i := 0; i < pieces; i++ {
				if set>>i&1 == 1 {
					c.Gives = append(c.Gives, Entry{i, 1})
				}
			}
			all = append(all, p.put(s, c))
		}
		now = all
		var rules []rule
		for n := rapid.IntRange(1, 3).Draw(t, "rules"); n > 0; n-- {
			a := rapid.IntRange(0, pieces-2).Draw(t, "a")
			r := rule{rapid.SampledFrom([]int{together, apart}).Draw(t, "how"), a, rapid.IntRange(a+1, pieces-1).Draw(t, "b")}
			rules = append(rules, r)
			var left []int32
			for _, j := range now {
				r.cut(s, p, j, func(k int32) { left = append(left, k) })
			}
			now = left
		}
		allowed := func(set uint) bool {
			for _, r := range rules {
				if !r.obeys(set) {
					return false
				}
			}
			return true
		}
		for _, j := range now {
			if !rules[len(rules)-1].obeys(p.columns[j].set()) {
				t.Fatalf("%v is kept by %v", p.columns[j], rules)
			}
		}
		for _, j := range all {
			whole := p.columns[j].set()
			for set := uint(1); set <= whole; set++ {
				if set&^whole != 0 || !allowed(set) {
					continue
				}
				held := false
				for _, k := range now {
					held = held || set&^p.columns[k].set() == 0
				}
				if !held {
					t.Fatalf("%b of %v obeys %v, but is part of nothing kept", set, p.columns[j], rules)
				}
			}
		}
	})
}
