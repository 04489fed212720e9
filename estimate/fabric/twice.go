package fabric

import (
	"fmt"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/problem"
)

// leastCommon is how many frames rows of one strake have in common where they
// are of the same planking: planks that end on one frame share that alone.
const leastCommon = 2

// twice warns of planking that two rows count: of one side and strake, with
// frames in common. It is said of each row once, with the first that it meets.
func twice(f Fabric) problem.List {
	var found problem.List
	on := map[string][]*job.Member{} // by side and strake
	for _, s := range f.Sections {
		for _, r := range s.Rows {
			m := r.Member
			if r.Members == 0 || m.Strake == "" || !m.FramesGiven {
				continue
			}
			k := rates.Key(m.Side) + "/" + rates.Key(m.Strake)
			for _, other := range on[k] {
				if from, to := common(m, other); to-from+1 >= leastCommon {
					found.Add(problem.Problem{Code: problem.FabricTwice, At: m.FrameAt,
						Text: fmt.Sprintf("%q and %q are both of strake %q from frame %d to %d, which counts twice in the old fabric kept", other.Ref, m.Ref, m.Strake, from, to)})
					break
				}
			}
			on[k] = append(on[k], m)
		}
	}
	return found
}

// common is the frames that two members lie on, the last before the first where
// there are none.
func common(a, b *job.Member) (from, to int) {
	return max(min(a.FromFrame, a.ToFrame), min(b.FromFrame, b.ToFrame)), min(max(a.FromFrame, a.ToFrame), max(b.FromFrame, b.ToFrame))
}
