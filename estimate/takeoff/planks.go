package takeoff

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// The rules of joints, butts and plank lengths, as warnings name them.
const (
	plankRule  = "US Army TB 55-1900-201-45/1, para 2-12"
	buttRule   = "US Army TB 55-1900-201-45/1, para 2-13"
	scarphRule = "Laws of Fiji, ship construction, s.5.7"
)

// The figures of those rules.
const (
	leastSpaces  = 6 // frame spaces of a new plank, and of what is left of an old one
	leastShift   = 3 // frame spaces between butts of strakes that lie together
	leastBetween = 3 // solid strakes between butts in one bay
	leastScarph  = 5 // times the moulded depth of a keel or hog
)

// plank is new timber in a numbered strake between known frames.
type plank struct {
	m           *job.Member
	strake      strake
	number      int              // of pieces
	first, last int              // frames
	laid        []measure.Length // its pieces from the first frame on, where their lengths were chosen; else they are equal
}

// strake is one line of planks: strakes lie together whose belts are the same
// and whose numbers follow each other.
type strake struct {
	belt   string // side, and what Strake says beside the number
	number int
}

// asPlank is the row as a plank, if it is new planking with strake and frames.
func asPlank(row Row) (plank, bool) {
	m := row.Member
	if !m.FramesGiven || m.New() <= 0 || (m.Treatment != job.Renew && m.Treatment != job.Part) {
		return plank{}, false
	}
	at := strings.IndexAny(m.Strake, "0123456789")
	if at < 0 {
		return plank{}, false
	}
	digits := m.Strake[at:]
	if end := strings.IndexFunc(digits, func(r rune) bool { return r < '0' || r > '9' }); end >= 0 {
		digits = digits[:end]
	}
	n, err := strconv.Atoi(digits)
	if err != nil {
		return plank{}, false
	}
	p := plank{m: m, number: row.PiecesEach}
	p.strake = strake{rates.Key(m.Side) + "/" + rates.Key(m.Strake[:at]+" "+m.Strake[at+len(digits):]), n}
	p.first, p.last = frames(m)
	return p, true
}

// frames is the member's end frames, the lower number first.
func frames(m *job.Member) (first, last int) {
	return min(m.FromFrame, m.ToFrame), max(m.FromFrame, m.ToFrame)
}

// Laid is a butted run whose lengths were chosen, as its pieces are best laid.
type Laid struct {
	Ref  string
	From int // frame
	Long []measure.Length
}

// Planking checks the rules of plank lengths and butts once the lengths of runs are
// settled: pieces are those that are cut. A run whose lengths were chosen is taken as laid in the
// order that brings the fewest of its butts near others; of runs alike the first stands for all.
func Planking(j *job.Job, b *rates.Book, t Takeoff, pieces []Piece) ([]Laid, problem.List) {
	s := newSchedule(j, b)
	long := map[string][]measure.Length{}
	for _, p := range pieces {
		for range p.Count {
			if p.Of == 1 {
				long[p.Ref] = append(long[p.Ref], p.Length)
			}
		}
	}
	var planks []plank
	for _, row := range t.Rows {
		if row.Member == nil {
			continue
		}
		if p, ok := asPlank(row); ok {
			if l := long[row.Work.Ref]; len(l) == p.number && p.m.Joint == job.Butt {
				p.laid = l
			}
			planks = append(planks, p)
		}
	}
	s.planks(planks)
	var laid []Laid
	for _, p := range planks {
		if p.laid != nil {
			laid = append(laid, Laid{p.m.Ref, p.first, p.laid})
		}
	}
	slices.SortFunc(laid, func(a, b Laid) int { return job.CompareRefs(a.Ref, b.Ref) })
	return laid, s.problems
}

// planks checks the rules of plank lengths and butts.
func (s *schedule) planks(planks []plank) {
	slices.SortStableFunc(planks, func(a, b plank) int {
		return cmp.Or(strings.Compare(a.strake.belt, b.strake.belt), cmp.Compare(a.strake.number, b.strake.number),
			cmp.Compare(a.first, b.first), job.CompareRefs(a.m.Ref, b.m.Ref))
	})
	for _, p := range planks {
		s.plankLength(p)
		s.remnant(p)
	}
	s.butts(planks)
}

// plankLength warns of a plank under six frame spaces: one piece of a butted
// run, or the whole of a scarphed one, which is one plank when it is made up.
// Where the spacing is not known the frames it crosses are counted, as its butts
// stand half a space beyond the first and the last.
func (s *schedule) plankLength(p plank) {
	number := 1
	if p.m.Joint == job.Butt {
		number = p.number
	}
	spacing := s.spacing(p.m)
	var found string
	switch {
	case len(p.laid) > 0 && spacing > 0:
		least := slices.Min(p.laid)
		if least >= leastSpaces*spacing {
			return
		}
		found = fmt.Sprintf("%s, under %d frame spaces of %s", s.length(least), leastSpaces, s.length(spacing))
	case spacing > 0 && p.m.New() < leastSpaces*spacing*measure.Length(number):
		found = fmt.Sprintf("%s, under %d frame spaces of %s", s.length(p.m.New()/measure.Length(number)), leastSpaces, s.length(spacing))
	case spacing <= 0 && p.last-p.first+1 < leastSpaces*number:
		found = fmt.Sprintf("under %d frame spaces, frames %d to %d in %d", leastSpaces, p.first, p.last, number)
	default:
		return
	}
	s.add(problem.PlankShort, p.m, p.m.FrameAt, "a new plank of strake %q is %s (%s)", p.m.Strake, found, plankRule)
}

// remnant warns of an old plank of which less than six frame spaces is left:
// beyond the one joint, or in all on both sides too little for two such pieces.
func (s *schedule) remnant(p plank) {
	spacing := s.spacing(p.m)
	left := p.m.Length - p.m.New()
	if p.m.Treatment != job.Part || spacing <= 0 || left <= 0 {
		return
	}
	sides := measure.Length(max(1, min(2, p.m.Joints)))
	if left >= sides*leastSpaces*spacing {
		return
	}
	where := "at one end"
	if sides == 2 {
		where = "in all at both ends"
	}
	s.add(problem.RemnantShort, p.m, p.m.RenewedAt, "of strake %q %s is left %s, too little for %d frame spaces of %s each (%s)",
		p.m.Strake, s.length(left), where, leastSpaces, s.length(spacing), plankRule)
}

// keelScarph warns of a scarph of keel or hog under five times the moulded depth.
func (s *schedule) keelScarph(m *job.Member, row Row) {
	words := strings.Fields(rates.Key(m.Member))
	backbone := slices.Contains(words, "keel") || slices.Contains(words, "hog")
	aside := slices.Contains(words, "bilge") || slices.Contains(words, "false")
	if !backbone || aside || row.ScarphLen == 0 || (row.PiecesEach == 1 && m.Joints == 0) {
		return
	}
	_, moulded := across(m)
	if row.ScarphLen < leastScarph*moulded {
		s.add(problem.ScarphShort, m, m.JointAt, "the scarph is %s, under %d times the moulded depth of %s (%s)",
			s.length(row.ScarphLen), leastScarph, s.size(moulded), scarphRule)
	}
}
