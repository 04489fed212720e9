package takeoff

import (
	"cmp"
	"fmt"
	"slices"
	"sort"

	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// butt is one end-to-end joint of a strake. Its place is in half frame spaces,
// so that 21 is the bay between frames 10 and 11, and 20 is on frame 10.
type butt struct {
	place   int
	plank   *plank
	perhaps bool // the row does not say at which of its ends the joint is
}

func (b butt) String() string {
	if b.place%2 == 0 {
		return fmt.Sprintf("on frame %d", b.place/2)
	}
	return fmt.Sprintf("between frames %d and %d", (b.place-1)/2, (b.place+1)/2)
}

// butts warns of butts too near each other. A plank crosses both its end
// frames, so that its butts stand in the bays beyond them (on a butt block, as
// the rule wants it); where two planks of a strake share an end frame, their
// butt is on it. Every two rows are told of once, at the nearest of their butts.
func (s *schedule) butts(planks []plank) {
	ends := endsOf(planks)
	byStrake := map[strake][]butt{}
	var strakes []strake
	for _, chosen := range []bool{false, true} { // what may be laid in any order comes after what may not
		for i := range planks {
			p := &planks[i]
			if _, seen := byStrake[p.strake]; !seen && !chosen {
				strakes = append(strakes, p.strake)
				byStrake[p.strake] = nil
			}
			if chosen == (p.laid == nil) {
				continue
			}
			if chosen {
				ends.lay(p, byStrake)
			}
			byStrake[p.strake] = append(byStrake[p.strake], ends.butts(p)...)
		}
	}
	for _, k := range strakes {
		slices.SortStableFunc(byStrake[k], func(a, b butt) int {
			return cmp.Or(cmp.Compare(a.place, b.place), cmp.Compare(sureness(a), sureness(b)))
		})
		// The end of one plank and the beginning of the next are one butt.
		byStrake[k] = slices.CompactFunc(byStrake[k], func(a, b butt) bool { return a.place == b.place })
	}
	for _, k := range strakes {
		for off := 1; off <= leastBetween; off++ {
			s.nearButts(byStrake[k], byStrake[strake{k.belt, k.number + off}], off, reach(off))
		}
	}
}

// reach is the half spaces that are too few between butts of strakes so many apart.
func reach(off int) int {
	if off > 1 {
		return 1 // one bay
	}
	return 2*leastShift - 1
}

// orders is how many orders of a run's pieces are tried.
const orders = 5_040

// lay puts the pieces of a run in the order, of those tried, in which the fewest of its
// butts are too near the butts known; the first of equals, the longest pieces first to begin with.
func (e ends) lay(p *plank, known map[strake][]butt) {
	p.laid = slices.Clone(p.laid)
	clashes := func() int {
		n := 0
		for _, b := range e.butts(p) {
			for off := 1; off <= leastBetween; off++ {
				for _, k := range []int{p.strake.number - off, p.strake.number + off} {
					for _, o := range known[strake{p.strake.belt, k}] {
						if apart(b, o) <= reach(off) {
							n++
						}
					}
				}
			}
		}
		return n
	}
	best, least := slices.Clone(p.laid), clashes()
	for range orders {
		if least == 0 || !next(p.laid) {
			break
		}
		if n := clashes(); n < least {
			best, least = slices.Clone(p.laid), n
		}
	}
	p.laid = best
}

// next turns an order of lengths into the next, the longest first in the first of them; false
// after the last.
func next(l []measure.Length) bool {
	i := len(l) - 2
	for i >= 0 && l[i] <= l[i+1] {
		i--
	}
	if i < 0 {
		return false
	}
	k := len(l) - 1
	for l[k] >= l[i] {
		k--
	}
	l[i], l[k] = l[k], l[i]
	slices.Reverse(l[i+1:])
	return true
}

// nearButts warns of butts of two strakes, so many apart, within reach of each other.
func (s *schedule) nearButts(here, there []butt, off, reach int) {
	type rows struct{ here, there *job.Member }
	type pair struct{ here, there butt }
	var found []pair
	place := map[rows]int{}
	for _, a := range here {
		from := sort.Search(len(there), func(i int) bool { return there[i].place >= a.place-reach })
		for _, b := range there[from:] {
			if b.place > a.place+reach {
				break
			}
			key := rows{a.plank.m, b.plank.m}
			i, seen := place[key]
			switch {
			case !seen:
				place[key] = len(found)
				found = append(found, pair{a, b})
			case apart(a, b) < apart(found[i].here, found[i].there):
				found[i] = pair{a, b}
			}
		}
	}
	for _, f := range found {
		s.tellButts(f.here, f.there, off)
	}
}

// sureness puts butts that are surely there before those that may be.
func sureness(b butt) int {
	if b.perhaps {
		return 1
	}
	return 0
}

func apart(a, b butt) int { return max(a.place-b.place, b.place-a.place) }

func (s *schedule) tellButts(a, b butt, off int) {
	m := b.plank.m
	where := fmt.Sprintf("butts of strakes %q (%s) %s and %q (%s) %s", a.plank.m.Strake, a.plank.m.Ref, a, m.Strake, m.Ref, b)
	unsure := ""
	for _, x := range []butt{a, b} {
		if x.perhaps {
			unsure = fmt.Sprintf(", if the joint of %s to old work is there", x.plank.m.Ref)
		}
	}
	if off == 1 {
		s.add(problem.ButtsNear, m, m.FrameAt, "%s are under %d frame spaces apart%s (%s)", where, leastShift, unsure, buttRule)
		return
	}
	s.add(problem.ButtsInBay, m, m.FrameAt, "%s stand in one bay with %d strakes between them, where %d are wanted%s (%s)",
		where, off-1, leastBetween, unsure, buttRule)
}

// ends is where planks of a strake begin and where they end, by frame;
// scarphed ends are none.
type ends struct{ begin, end map[end]bool }

type end struct {
	strake strake
	frame  int
}

func endsOf(planks []plank) ends {
	e := ends{map[end]bool{}, map[end]bool{}}
	for _, p := range planks {
		if p.m.Joint == job.Scarph {
			continue
		}
		e.begin[end{p.strake, p.first}] = true
		e.end[end{p.strake, p.last}] = true
	}
	return e
}

// butts is the butts of one plank: between its own pieces, where it meets
// another new plank of its strake, and where it meets old work. Scarphed work
// has none. Of a butted run whose lengths were not chosen the pieces are taken as equal. Each
// butt stands in the bay where it falls. One joint to old work is at the end that does not meet new
// work; if that does not settle it, it may be at either.
func (e ends) butts(p *plank) []butt {
	if p.m.Joint == job.Scarph {
		return nil
	}
	from, meetsFrom := 2*p.first-1, e.end[end{p.strake, p.first - 1}]
	if p.last > p.first && e.end[end{p.strake, p.first}] {
		from, meetsFrom = 2*p.first, true
	}
	to, meetsTo := 2*p.last+1, e.begin[end{p.strake, p.last + 1}]
	if p.last > p.first && e.begin[end{p.strake, p.last}] {
		to, meetsTo = 2*p.last, true
	}
	var found []butt
	old := 0
	if p.m.Joint == job.Butt {
		old = p.m.Joints
	}
	unsettled := old == 1 && meetsFrom == meetsTo
	if meetsFrom || old > 0 {
		found = append(found, butt{place: from, plank: p, perhaps: unsettled && !meetsFrom})
	}
	if meetsTo || old > 0 {
		found = append(found, butt{place: to, plank: p, perhaps: unsettled && !meetsTo})
	}
	spaces := p.last - p.first + 1
	for i, before := 1, 0; p.m.Joint == job.Butt && i < p.number; i++ {
		bay := (2*i*spaces + p.number) / (2 * p.number) // the nearest whole space from the end
		if p.laid != nil {
			var upTo, all measure.Length
			for n, l := range p.laid {
				if all += l; n < i {
					upTo += l
				}
			}
			bay = int((2*upTo*measure.Length(spaces) + all) / (2 * all))
		}
		if bay > before && bay < spaces {
			found = append(found, butt{place: 2*(p.first+bay) - 1, plank: p})
			before = bay
		}
	}
	return found
}
