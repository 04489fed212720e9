package board

// pad is what tables write on: what a question leaves on it stands until the next that is asked
// of tables on the same pad.
type pad struct {
	nodes  []node
	passes []pass
	taken  []bool  // by pass and cell: the row was bettered there by one more of its way
	before []int32 // by pass of windows and cell: where what comes before begins, below nil where nothing was bettered
}

// pads is the pads of a shop, handed out to its tables in turn.
type pads struct{ all []*pad }

// at is the n-th pad.
func (p *pads) at(n int) *pad {
	for len(p.all) <= n {
		p.all = append(p.all, &pad{})
	}
	return p.all[n]
}

// pass is one round of letting a way into the row of strips. What it bettered is all that need be
// kept of it: the best strip of a length is read back from the last pass to the first.
type pass struct {
	sort  passing
	part  int32 // of a strip
	along int32 // units of the part
	first int32 // place of its cells, from those of along on
}

// passing is how a pass goes through the row.
type passing uint8

const (
	bottom  passing = iota // begins the row anew
	rising                 // a way may be let in again after itself
	once                   // a way is let in once more
	windows                // one part of any length
)

// reached is the best strip of a length after a pass; that after the first pass holds nothing.
type reached struct{ pass, cell int32 }

// reach is the best strip so long as things stand.
func (t *tables) reach(cell int) reached {
	return reached{int32(len(t.pad.passes) - 1), int32(cell)}
}

// begin begins a row of strips anew.
func (t *tables) begin(long int) {
	clear(t.rows[:long+1])
	t.pad.passes = append(t.pad.passes, pass{})
}

// room is the marks of a new pass over n cells.
func (p *pad) room(sort passing, part int32, along, n int) []bool {
	first := len(p.taken)
	p.passes = append(p.passes, pass{sort, part, int32(along), int32(first)})
	if cap(p.taken)-first < n {
		more := make([]bool, first, 2*first+max(n, 1<<12))
		copy(more, p.taken)
		p.taken = more
	}
	p.taken = p.taken[:first+n]
	return p.taken[first:]
}

// again lets a part in as often as it goes in. What takes it may take it again.
func (t *tables) again(part int32, along, long int, worth int64) {
	taken := t.pad.room(rising, part, along, long+1-along)
	from := t.rows[:len(taken)]
	to := t.rows[along : along+len(taken)]
	for i := range taken {
		v := from[i] + worth
		was := to[i]
		taken[i] = v > was
		to[i] = max(v, was)
	}
}

// more lets a part in once more, and reports whether that betters anything.
func (t *tables) more(part int32, along, long int, worth int64) bool {
	taken := t.pad.room(once, part, along, long+1-along)
	from := t.rows[:len(taken)]
	to := t.rows[along : along+len(taken)]
	better := false
	for i := len(taken) - 1; i >= 0; i-- {
		v := from[i] + worth
		was := to[i]
		taken[i] = v > was
		better = better || v > was
		to[i] = max(v, was)
	}
	return better
}

// parts hands over the parts of a strip, the last first.
func (t *tables) parts(at reached, do func(part int32)) {
	for p := t.pad; ; {
		switch y := p.passes[at.pass]; {
		case y.sort == bottom:
			return
		case at.cell < y.along:
			at.pass--
		case y.sort == windows:
			if before := p.before[y.first+at.cell-y.along]; before >= 0 {
				do(t.length(y.part, int(at.cell-before)))
				at.cell = before
			}
			at.pass--
		case p.taken[y.first+at.cell-y.along]:
			do(y.part)
			if at.cell -= y.along; y.sort == once {
				at.pass--
			}
		default:
			at.pass--
		}
	}
}
