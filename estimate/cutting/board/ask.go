package board

// ask fills the tables for the worths given; unless it is free, a strip holds no more of one way
// than are wanted. It returns the cells it filled. A piece whose length may be chosen is worth
// what the shortest is; stretch lets the longer in.
func (t *tables) ask(worth []int64, wanted []int, force bool) int {
	cells := 0
	for i, w := range t.ways {
		t.worth[i] = 0
		if wanted[w.piece] >= w.deep {
			t.worth[i] = worth[w.piece] * int64(w.deep)
		}
		if t.runs[i].chosen {
			t.worth[i] = t.priced(i, worth)
		}
	}
	t.pad.nodes, t.pad.passes = append(t.pad.nodes[:0], node{}), append(t.pad.passes[:0], pass{})
	t.pad.taken, t.pad.before = t.pad.taken[:0], t.pad.before[:0]
	t.forced = t.forced[:0]
	for l := range t.levels {
		cells += t.strips(l, wanted, force)
	}
	for b := range t.bays {
		cells += t.thickness(&t.bays[b]) + t.boxedIn(&t.bays[b], worth, wanted)
	}
	return cells
}

// strips fills the tables of one level: strips by rising width, each let into the
// layers of every length where it is better than all narrower ones.
func (t *tables) strips(at int, wanted []int, force bool) int {
	l := &t.levels[at]
	cells, long := 0, 0
	for i := range l.slots {
		s := &l.slots[i]
		s.best, s.strips, s.front = 0, s.strips[:0], append(s.front[:0], state{})
		long = max(long, s.long)
	}
	t.begin(long)
	cells += long
	for i := 0; i < len(l.ways); {
		across, from := t.ways[l.ways[i]].across, i
		for ; i < len(l.ways) && t.ways[l.ways[i]].across == across; i++ {
			cells += t.lengthen(l.ways[i], long, wanted)
		}
		for k := range l.slots {
			s := &l.slots[k]
			if across+t.shop.Kerf > s.wide {
				continue
			}
			if v := t.rows[s.long]; v > s.best {
				s.best = v
				cells += t.rip(s, strip{across + t.shop.Kerf, v, t.reach(s.long)})
			}
			if !force {
				continue
			}
			for _, w := range l.ways[from:i] {
				if rest := s.long - t.along[w]; t.worth[w] > 0 && rest >= 0 && t.ways[w].deep == 1 {
					t.forced = append(t.forced, forced{place{at, k}, w, t.reach(rest), t.rows[rest] + t.worth[w]})
				}
			}
		}
	}
	return cells
}

// lengthen lets one more way into the strips, as often as it goes in and is wanted.
func (t *tables) lengthen(w int32, long int, wanted []int) int {
	worth, along := t.worth[w], t.along[w]
	if t.runs[w].chosen {
		return t.stretch(w, long)
	}
	if worth <= 0 || along > long {
		return 0
	}
	most := wanted[t.ways[w].piece] / t.ways[w].deep
	if t.free && t.rows[along] >= worth {
		return 1 // whatever holds it holds what is worth as much instead
	}
	if t.free || most >= long/along {
		t.again(w, along, long, worth)
		return long + 1 - along
	}
	for n := 0; n < most && t.more(w, along, long, worth); n++ {
	}
	return most * (long - along)
}

// add is the node of a part after those before it.
func (t *tables) add(part, before int32) int32 {
	t.pad.nodes = append(t.pad.nodes, node{part, before})
	return int32(len(t.pad.nodes) - 1)
}

// rip lets strips of a width into the layers.
func (t *tables) rip(s *slot, st strip) int {
	n := int32(len(s.strips))
	s.strips = append(s.strips, st)
	out, better := s.front.with(t, st.across, st.worth, s.wide, n, t.room)
	if better {
		t.room, s.front = s.front, out
	}
	return len(out)
}

// thickness fills the table of a bay's layers; its best is of one layer or several.
func (t *tables) thickness(b *tabled) int {
	b.best = t.slot(b.single).front.at(b.wide).worth
	b.front = append(b.front[:0], state{})
	cells := 0
	for i := range b.layers {
		y := &b.layers[i]
		y.worth = t.slot(y.place).front.at(b.wide).worth
		out, better := b.front.with(t, y.through, y.worth, b.thick, int32(i), t.room)
		if better {
			t.room, b.front = b.front, out
		}
		cells += len(out)
	}
	b.best = max(b.best, b.front.at(b.thick).worth)
	return cells
}

func (t *tables) slot(at place) *slot { return &t.levels[at.level].slots[at.slot] }

// boxedIn fills the strip of a bay's whole section with pieces that have the
// heart boxed in, each alone across the stick, and with what lies between them
// along it.
func (t *tables) boxedIn(b *tabled, worth []int64, wanted []int) int {
	b.middle, b.end = 0, reached{}
	st := t.shop.Sticks[b.stick]
	long := t.long(b.bay)
	cells := 0
	for _, w := range t.boxed {
		if worth[w.piece] == 0 || wanted[w.piece] == 0 || w.through > st.Thickness || w.across > b.width || w.along > long {
			continue
		}
		if cells == 0 {
			cells += t.whole(b, long, wanted)
		}
		most := min(wanted[w.piece], long/w.along)
		for n := 0; n < most && t.more(-1-w.at, w.along, long, worth[w.piece]); n++ {
		}
		cells += most * long
	}
	if cells > 0 {
		b.middle, b.end = t.rows[long], t.reach(long)
		b.best = max(b.best, b.middle)
	}
	return cells
}

// whole fills the strip of a bay's whole section with all that goes in.
func (t *tables) whole(b *tabled, long int, wanted []int) int {
	t.begin(long)
	cells := long
	for i, w := range t.ways {
		if w.through <= t.shop.Sticks[b.stick].Thickness && w.across <= b.width {
			cells += t.lengthen(int32(i), long, wanted)
		}
	}
	return cells
}
