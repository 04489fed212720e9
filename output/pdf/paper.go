package pdf

import "futtock/estimate/job"

// paper is a size of sheet, and where the block of text on it ends. Every block
// begins at left and top, on a sheet that lies on its side at wideLeft and wideTop,
// whatever the paper; its margins are those of A4 on all.
type paper struct {
	across, high float64 // mm, as it stands

	right, bottom, width             float64
	wideRight, wideBottom, wideWidth float64
	footAt, wideFootAt               float64 // the rule over the running foot
}

// Where the block of text begins, in mm.
const (
	left     = 24.0
	top      = 32.0
	wideLeft = 15.0
	wideTop  = 23.0
)

// paperOf is what a job is printed on: Letter is 8.5 by 11 in, A4 210 by 297 mm.
func paperOf(p job.Paper) paper {
	out := paper{across: 210, high: 297}
	if p == job.Letter {
		out = paper{across: 215.9, high: 279.4}
	}
	out.right, out.bottom, out.footAt = out.across-20, out.high-25, out.high-17
	out.wideRight, out.wideBottom, out.wideFootAt = out.high-15, out.across-16, out.across-11
	out.width, out.wideWidth = out.right-left, out.wideRight-wideLeft
	return out
}
