package board

// front is what a size is worth at best: states of rising size and rising worth,
// from nothing on. It is the table over the width of a layer or the thickness of
// a stick, exact, with only the sizes at which the worth rises.
type front []state

// state is a sum of parts with their cuts, what they are worth, and the last of them.
type state struct {
	size, worth int64
	end         int32 // node
}

// at is the state that a size holds.
func (f front) at(size int64) state {
	low, high := 0, len(f)
	for low < high {
		if mid := int(uint(low+high) / 2); f[mid].size > size {
			high = mid
		} else {
			low = mid + 1
		}
	}
	if low == 0 {
		return state{}
	}
	return f[low-1]
}

// with lets a part in, as often as it goes into the limit, where it is worth more
// than what the front already gives for its size; false leaves the front as it was.
// The result takes the place of room.
func (f front) with(t *tables, size, worth, limit int64, part int32, room front) (front, bool) {
	if size > limit || worth <= f.at(size).worth {
		return f, false
	}
	out := room[:0]
	best := int64(-1)
	for i, k := 0, 0; ; {
		old := i < len(f)
		again := k < len(out) && out[k].size+size <= limit
		switch {
		case !old && !again:
			return out, true
		case again && (!old || out[k].size+size < f[i].size || out[k].size+size == f[i].size && out[k].worth+worth > f[i].worth):
			if v := out[k].worth + worth; v > best {
				best = v
				out = append(out, state{out[k].size + size, v, t.add(part, out[k].end)})
			}
			k++
		default:
			if f[i].worth > best {
				best = f[i].worth
				out = append(out, f[i])
			}
			i++
		}
	}
}
