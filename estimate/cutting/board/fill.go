package board

import (
	"cmp"
	"slices"
)

// tried is how many ways, the best for their length first, are tried to fill a layout.
const tried = 12

// asked forgets how fill tried ways for the worths of before.
func (s *Saw) asked() {
	for i := range s.orders {
		s.orders[i] = s.orders[i][:0]
	}
}

// order is the ways of a group in the order in which fill tries them.
func (s *Saw) order(group int, worth []int64, wanted []int) []way {
	out := s.orders[group]
	if len(out) > 0 {
		return out
	}
	for _, w := range s.groups[group].ways {
		if w.deep == 1 && worth[w.piece] > 0 && wanted[w.piece] > 0 {
			out = append(out, w)
		}
	}
	slices.SortStableFunc(out, func(a, b way) int {
		return cmp.Compare(float64(worth[b.piece])/float64(b.length), float64(worth[a.piece])/float64(a.length))
	})
	s.orders[group] = out
	return out
}

// fill takes pieces that are not wanted out of a layout, and lays others where
// there is room: along its strips first, then in strips and layers of their own.
func (s *Saw) fill(l *Layout, group int, worth []int64, wanted []int) {
	gives := l.gives(s.counts)
	l.trim(gives, wanted)
	if l.Boxed {
		return
	}
	first := s.first
	copy(first, gives)
	left := tried
	for _, w := range s.order(group, worth, wanted) {
		if first[w.piece] >= wanted[w.piece] {
			continue
		}
		for gives[w.piece] < wanted[w.piece] && s.shop.lay(l, w) {
			gives[w.piece]++
		}
		if left--; left == 0 {
			return
		}
	}
}

// lay lays one more piece in a layout, where it goes in.
func (s Shop) lay(l *Layout, w way) bool {
	st := s.Sticks[l.Stick]
	wide := st.Clear
	if l.Sap {
		wide = st.Width
	}
	if w.through > st.Thickness || w.across > wide || w.length > st.Length {
		return false
	}
	r := Run{Piece: w.piece, Deep: 1, Turned: w.turned}
	spare := st.Thickness + s.Kerf
	for _, y := range l.Layers {
		t, _ := s.layer(y)
		spare -= t + s.Kerf
	}
	for i, y := range l.Layers {
		thick, across := s.layer(y)
		if w.through > thick+spare {
			continue
		}
		for k, strip := range y {
			_, a, long := s.extent(strip)
			if w.across <= a+wide-across && long+s.Kerf+w.length <= st.Length {
				y[k] = append(strip, r)
				return true
			}
		}
		if across+s.Kerf+w.across <= wide {
			l.Layers[i] = append(y, Strip{r})
			return true
		}
	}
	if w.through+s.Kerf <= spare {
		l.Layers = append(l.Layers, Layer{{r}})
		return true
	}
	return false
}
