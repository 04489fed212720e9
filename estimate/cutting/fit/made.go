package fit

// Made is a stick laid out already.
type Made struct {
	Line   int
	Sap    bool // over its whole width
	Closed bool // nothing more goes in: its strips only say what it holds
	Strips [][]Lot
}

// Lot is pieces of one kind side by side in a strip.
type Lot struct {
	Kind, Deep int
	Turned     bool
}

// Better works over sticks laid out elsewhere, with what is had of each cube and
// what is short: the emptiest are broken up wherever their pieces can be had for
// less, as Sticks does with its own. The result is never dearer. A stick of the result
// that is as it was made tells which of them it is.
func Better(in Input, made []Made, cubed [][]int, short []int) Layout {
	b := newBench(&in)
	s := b.blank()
	for i, m := range made {
		s.sticks = append(s.sticks, b.made(m, i))
		s.used[m.Line]++
	}
	for c, byKind := range cubed {
		for k, n := range byKind {
			s.cubed[c][k] = n
			s.volume[c] += float64(n) * in.Kinds[k].Net
		}
	}
	copy(s.short, short)
	return b.layout(b.improve(s))
}

// made is a stick of a bench for one that was made.
func (b *bench) made(m Made, at int) *stick {
	out := &stick{line: m.Line, sap: m.Sap, closed: m.Closed, made: at + 1}
	for i, lots := range m.Strips {
		st := strip{}
		if i > 0 {
			st.across = out.used + b.in.Kerf
		}
		for k, l := range lots {
			r := run{kind: l.Kind, columns: 1, deep: l.Deep, count: l.Deep}
			for _, w := range b.ways[l.Kind][m.Line] {
				if w.turned == l.Turned {
					r.way = w
				}
			}
			if k > 0 {
				r.along = st.used + b.in.Kerf
			}
			st.width = max(st.width, r.way.width+int64(l.Deep-1)*r.way.pitch)
			st.used = r.along + b.in.Kinds[l.Kind].Length
			st.runs = append(st.runs, r)
		}
		out.strips = append(out.strips, st)
		out.used = st.across + st.width
	}
	return out
}
