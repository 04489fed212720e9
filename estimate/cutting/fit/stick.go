package fit

import "slices"

// stick is a stick being filled. A stick once filled is not changed: fill
// makes a new one, so that layouts can share those they have in common.
type stick struct {
	line   int
	sap    bool  // laid out over its whole width: only pieces that allow sapwood
	used   int64 // of the width
	strips []strip
	closed bool // nothing more goes in
	made   int  // the number, from 1, of the stick that was made so
}

// strip is a ripping of the whole length.
type strip struct {
	across, width int64
	used          int64 // of the length
	runs          []run
}

// run is like pieces following each other along a strip in columns, each
// column deep pieces across.
type run struct {
	kind    int
	way     way
	along   int64
	columns int
	deep    int
	count   int
}

// way is how a piece may lie in a stick: what it takes of the width, and what
// the next like it takes more.
type way struct {
	width, pitch int64
	turned       bool
}

// deep is how many pieces lie across a strip of the width.
func (w way) deep(width int64) int {
	if w.width > width {
		return 0
	}
	return 1 + int((width-w.width)/w.pitch)
}

// capacity is the room across the stick.
func (b *bench) capacity(s *stick) int64 {
	if s.sap {
		return b.in.Lines[s.line].Width
	}
	return b.in.Lines[s.line].Clear
}

// fill puts up to want pieces of a kind into a stick and says how many it
// took. Columns not yet full come first, then the narrowest strip that takes the
// piece, then a new strip.
func (b *bench) fill(s *stick, kind, want int) (*stick, int) {
	b.looked++
	q := &b.in.Kinds[kind]
	if s.closed || !q.Lines[s.line] || (s.sap && !q.Sapwood) || len(b.ways[kind][s.line]) == 0 {
		return s, 0
	}
	out, placed := s, 0
	own := func() {
		if out == s {
			out = s.clone()
		}
	}
	for i := range s.strips {
		for j, r := range s.strips[i].runs {
			if n := min(want-placed, r.columns*r.deep-r.count); r.kind == kind && n > 0 {
				own()
				out.strips[i].runs[j].count += n
				placed += n
			}
		}
	}
	for placed < want {
		at, w := b.strip(out, kind)
		if at < 0 {
			break
		}
		own()
		placed += b.lay(&out.strips[at], out.line, kind, w, want-placed)
	}
	for placed < want {
		st, w, ok := b.rip(out, kind, want-placed)
		if !ok {
			break
		}
		own()
		placed += b.lay(&st, out.line, kind, w, want-placed)
		out.strips = append(out.strips, st)
		out.used = st.across + st.width
	}
	return out, placed
}

// strip is the strip with least width to spare that has room for one of the
// kind, and the way it lies there; -1 where there is none.
func (b *bench) strip(s *stick, kind int) (int, way) {
	best, least := -1, int64(0)
	var how way
	for i := range s.strips {
		if b.room(&s.strips[i], s.line, kind) == 0 {
			continue
		}
		for _, w := range b.ways[kind][s.line] {
			over := s.strips[i].width - b.across(s, kind, w)
			if over >= 0 && (best < 0 || over < least) {
				best, least, how = i, over, w
			}
		}
	}
	return best, how
}

// across is the width of stick one of the kind needs: all of it for a piece
// with the heart boxed in.
func (b *bench) across(s *stick, kind int, w way) int64 {
	if b.in.Kinds[kind].Boxed {
		return max(w.width, b.capacity(s))
	}
	return w.width
}

// room is how many lengths of the kind the rest of a strip gives.
func (b *bench) room(st *strip, line, kind int) int {
	start := st.used
	if len(st.runs) > 0 {
		start += b.in.Kerf
	}
	rest := b.in.Lines[line].Length - start + b.in.Kerf
	return int(max(0, rest/(b.in.Kinds[kind].Length+b.in.Kerf)))
}

// rip opens a new strip for the kind, wide enough for as many curves nested
// as are wanted and go in.
func (b *bench) rip(s *stick, kind, want int) (strip, way, bool) {
	start := s.used
	if len(s.strips) > 0 {
		start += b.in.Kerf
	}
	rest := b.capacity(s) - start
	st := strip{across: start}
	lengths := b.room(&st, s.line, kind)
	if lengths == 0 {
		return strip{}, way{}, false
	}
	for _, w := range b.ways[kind][s.line] {
		st.width = b.across(s, kind, w)
		if st.width > rest {
			continue
		}
		if q := b.in.Kinds[kind]; q.Pitch > 0 && !q.Boxed {
			deep := min(w.deep(rest), (want+lengths-1)/lengths)
			st.width = w.width + int64(deep-1)*w.pitch
		}
		return st, w, true
	}
	return strip{}, way{}, false
}

// lay puts columns of a kind at the end of a strip, as many as are wanted and go in.
func (b *bench) lay(st *strip, line, kind int, w way, want int) int {
	deep := w.deep(st.width)
	if b.in.Kinds[kind].Boxed {
		deep = 1
	}
	columns := min(b.room(st, line, kind), (want+deep-1)/deep)
	n := min(want, columns*deep)
	along := st.used
	if len(st.runs) > 0 {
		along += b.in.Kerf
	}
	length := b.in.Kinds[kind].Length
	st.runs = append(st.runs, run{kind: kind, way: w, along: along, columns: columns, deep: deep, count: n})
	st.used = along + int64(columns)*(length+b.in.Kerf) - b.in.Kerf
	return n
}

func (s *stick) clone() *stick {
	c := *s
	c.made = 0
	c.strips = slices.Clone(s.strips)
	for i := range c.strips {
		c.strips[i].runs = slices.Clone(c.strips[i].runs)
	}
	return &c
}

// content is how many of each kind the stick holds, in the order they went in.
func (s *stick) content() []lot {
	var lots []lot
	for _, st := range s.strips {
	next:
		for _, r := range st.runs {
			for i := range lots {
				if lots[i].kind == r.kind {
					lots[i].count += r.count
					continue next
				}
			}
			lots = append(lots, lot{r.kind, r.count})
		}
	}
	return lots
}

// lot is a number of pieces of one kind.
type lot struct{ kind, count int }

// places is where every piece of the stick lies.
func (b *bench) places(s *stick) []Place {
	line := b.in.Lines[s.line]
	edge := int64(0)
	if !s.sap {
		edge = (line.Width - line.Clear) / 2
	}
	var out []Place
	for _, st := range s.strips {
		for _, r := range st.runs {
			q := b.in.Kinds[r.kind]
			for i := range r.count {
				p := Place{Kind: r.kind, Turned: r.way.turned,
					Along:  r.along + int64(i/r.deep)*(q.Length+b.in.Kerf),
					Across: edge + st.across + int64(i%r.deep)*r.way.pitch}
				if q.Boxed {
					p.Across = (line.Width - r.way.width) / 2
				}
				out = append(out, p)
			}
		}
	}
	return out
}
