package explain

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// measurements is how each row was measured.
func (m maker) measurements(rows []takeoff.Row, costs []price.Cost) []Line {
	var out []Line
	for _, r := range rows {
		out = append(out, m.measured(r, m.driversUsed(r, costs), m.billUnit(r)))
	}
	return out
}

// measured is one row of the schedule: its sizes, its pieces and its drivers.
func (m maker) measured(r takeoff.Row, used []used, bill used) Line {
	out := words(r.Work.Ref, rowWords(r), r.Work.At)
	if i := r.Item; i != nil {
		if i.BuildUp != "" {
			out.Under = append(out.Under, words("Build-up", i.BuildUp, i.BuildUpAt))
		}
		out.Under = append(out.Under, m.hardship(i.Work)...)
		out.Under = append(out.Under, Line{Label: "Quantity", Value: i.Quantity.String(), Unit: string(i.Unit), How: "as the row has it", At: i.QuantityAt})
		return out
	}
	k := r.Member
	if k.BuildUp != "" {
		out.Under = append(out.Under, words("Build-up", k.BuildUp, k.BuildUpAt))
	}
	out.Under = append(out.Under, Line{Label: "Nr", Value: strconv.Itoa(k.Nr), Unit: string(measure.Nr), At: m.Job.Under(k.At, "Nr")})
	out.Under = append(out.Under, m.hardship(k.Work)...)
	if k.Length > 0 {
		out.Under = append(out.Under, Line{Label: "Length", Value: m.length(k.Length), At: k.LengthAt})
	}
	if k.Treatment == job.Part {
		out.Under = append(out.Under, Line{Label: "Renewed length", Value: m.length(k.Renewed), How: "all that follows reads this length", At: k.RenewedAt})
	}
	if k.Sided > 0 {
		out.Under = append(out.Under, Line{Label: sectionName(*k), Value: m.sectionSize(*k), At: k.SidedAt})
	}
	out.Under = append(out.Under, m.grown(r)...)
	out.Under = append(out.Under, m.pieces(r)...)
	drivers := words("Drivers", "what its tasks, materials and bill are measured by", origin.Cell{})
	for _, u := range withBill(r, used, bill) {
		q, _ := r.Amount(u.by)
		drivers.Under = append(drivers.Under, Line{Label: capital(string(u.by)), Value: q.In(u.unit, 6).String(), Unit: string(u.unit), How: m.driverWords(r, u.by)})
	}
	if len(drivers.Under) > 0 {
		out.Under = append(out.Under, drivers)
	}
	return out
}

// hardship is the factors of a row on its hours, where they are not one.
func (m maker) hardship(w job.Work) []Line {
	var out []Line
	one := decimal.New(1, 0)
	if !w.Difficulty.Equal(one) {
		out = append(out, Line{Label: "Difficulty", Value: w.Difficulty.String(), How: "multiplies all hours, as the row has it", At: m.Job.Under(w.At, "Difficulty")})
	}
	if !w.Access.Equal(one) {
		out = append(out, Line{Label: "Access", Value: w.Access.String(), How: "multiplies work aboard, as the row has it", At: m.Job.Under(w.At, "Access")})
	}
	return out
}

func sectionName(k job.Member) string {
	how := "finished"
	if k.AsSawn {
		how = "as sawn"
	}
	switch k.Shape {
	case job.Round:
		return "Diameter, " + how
	case job.Eight:
		return "Across flats, " + how
	}
	return "Sided x moulded, " + how
}

func (m maker) sectionSize(k job.Member) string {
	if k.Shape == job.Round || k.Shape == job.Eight || k.Moulded == 0 {
		return m.size(k.Sided)
	}
	return m.across(k.Sided, k.Moulded)
}

// grown is the steps from the section wanted to the section sawn, those that
// change it.
func (m maker) grown(r takeoff.Row) []Line {
	g, k := r.Growth, r.Member
	timber, _ := m.Book.TimberRow(m.timberOf(r))
	var out []Line
	step := func(label string, before, after takeoff.Section, how string, at origin.Cell) {
		if after != before {
			out = append(out, Line{Label: label, Value: m.across(after.Thickness, after.Width), How: how, At: at})
		}
	}
	step("with planing", g.Finished, g.Planed, fmt.Sprintf("%s a face, %s planed", m.size(timber.Planing), counted(k.PlanedFaces, "face")), m.Job.Under(timber.At, "Planing a face"))
	step("with drying", g.Planed, g.Green, fmt.Sprintf("sawn at %s, in use at %s moisture; shrinkage %s", timber.SawnAt, timber.InUse, larger(timber)), m.Job.Under(timber.At, "Sawn at MC %"))
	step("with the bevel", g.Green, g.Sawn, fmt.Sprintf("width + %s x tan %s degrees", m.size(g.Finished.Thickness), number(k.Bevel)), m.Job.Under(k.At, "Bevel"))
	return out
}

func larger(t rates.Timber) string {
	if t.Radial.Cmp(t.Tangential) > 0 {
		return t.Radial.String()
	}
	return t.Tangential.String()
}

// timberOf is the timber of the row's pieces.
func (m maker) timberOf(r takeoff.Row) string {
	for _, p := range m.Takeoff.Pieces {
		if p.Ref == r.Work.Ref {
			return p.Timber
		}
	}
	return r.Member.Timber
}

// pieces is the new timber of a row: how the run is parted, and what is sawn.
func (m maker) pieces(r takeoff.Row) []Line {
	k := r.Member
	var out []Line
	for _, p := range m.Takeoff.Pieces {
		if p.Ref != r.Work.Ref {
			continue
		}
		if r.ScarphLen > 0 {
			out = append(out, Line{Label: "Scarph", Value: m.length(r.ScarphLen), How: fmt.Sprintf("%s to one, %s", number(k.Scarph), through(*k)), At: k.ScarphAt})
		}
		if r.Along != k.New() && (k.Run() || k.Joints > 0) {
			out = append(out, Line{Label: "Run", Value: m.length(r.Along), How: m.runWords(r)})
		}
		if k.Run() {
			out = append(out, Line{Label: "Pieces in a run", Value: strconv.Itoa(r.PiecesEach), Unit: string(measure.Nr), How: m.fewestWords(*k), At: m.longestAt(*k)})
		}
		label := "Length of a piece"
		if p.Run != nil {
			label = "Mean length of a piece"
		}
		piece := Line{Label: label, Value: m.length(p.Length), How: m.pieceWords(r)}
		if p.Curve != nil {
			piece.How = joined("; ", piece.How, fmt.Sprintf("sweep %s over a chord of %s on the concave edge, ends square to it: chord x (r + width) / r, of r = chord squared / (8 x sweep) + sweep / 2",
				m.size(p.Curve.Sweep), m.length(p.Curve.Chord)))
			piece.At = m.Job.Under(k.At, "Sweep")
		}
		out = append(out, piece,
			Line{Label: "Least sawn section", Value: m.across(p.Thickness, p.Width)},
			Line{Label: "Pieces", Value: strconv.Itoa(p.Count), Unit: string(measure.Nr), How: fmt.Sprintf("%d nr x %d", k.Nr, r.PiecesEach)},
			Line{Label: "Sawn volume", Value: p.Sawn.String(), Unit: string(measure.M3), How: fmt.Sprintf("%d x sawn section x length of a piece", p.Count)})
		if lengths := m.lengths(p); lengths != "" {
			out = append(out, words("Lengths chosen", lengths, m.Job.Under(k.At, "Shortest piece")))
			out = append(out, m.laid(p.Ref)...)
		}
		if from := m.got(p.Ref, p.Carried); from != "" {
			out = append(out, words("Sawn from", from, origin.Cell{}))
		}
	}
	return out
}

// lengths is the lengths that cutting chose for the pieces of a run, the longest first;
// blank where they are equal.
func (m maker) lengths(p takeoff.Piece) string {
	var parts []string
	for _, o := range m.Plan.Pieces {
		if o.Ref == p.Ref && o.Of > 0 {
			part := fmt.Sprintf("%d of %s", o.Count, m.length(o.Length))
			if p.Run.Runs > 1 {
				part += fmt.Sprintf(" in run %d", o.Of)
			}
			parts = append(parts, part)
		}
	}
	if parts == nil {
		return ""
	}
	bounds := "none under " + m.length(p.Run.Shortest)
	if p.Run.Longest > 0 {
		bounds += " or over " + m.length(p.Run.Longest)
	}
	return strings.Join(parts, ", ") + " (" + bounds + "; the cheapest found)"
}

// laid is the order in which the pieces of a butted run keep its butts apart best.
func (m maker) laid(ref string) []Line {
	for _, l := range m.Laid {
		if l.Ref != ref {
			continue
		}
		var parts []string
		for _, one := range l.Long {
			parts = append(parts, m.length(one))
		}
		return []Line{words("Laid", fmt.Sprintf("from frame %d on: %s", l.From, strings.Join(parts, ", ")), origin.Cell{})}
	}
	return nil
}

// got is which sticks a row's pieces are sawn from.
func (m maker) got(ref string, c job.Carried) string {
	lines := m.Plan.Order
	if !c.InTotal() {
		lines = m.Plan.Maybe
	}
	var parts []string
	for _, l := range lines {
		n := 0
		for _, g := range l.Got {
			if g.Ref == ref {
				n += g.Count
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d from %s", n, l.Stock.Stock))
		}
	}
	return strings.Join(parts, ", ")
}

func through(k job.Member) string {
	switch {
	case k.ThroughGiven && k.ThroughSided:
		return "cut through the sided way"
	case k.ThroughGiven:
		return "cut through the moulded way"
	}
	return "cut through the smaller way"
}

// runWords is how a run is longer than its row says.
func (m maker) runWords(r takeoff.Row) string {
	how := m.length(r.Member.New())
	if r.Member.Sweep > 0 {
		how = "along the concave edge of " + how
	}
	if r.Member.Joints > 0 && r.ScarphLen > 0 {
		how += fmt.Sprintf(" + %d to old work x %s", r.Member.Joints, m.length(r.ScarphLen))
	}
	return how
}

func (m maker) fewestWords(k job.Member) string {
	how := "the fewest that the longest usable stick gives"
	if k.Longest > 0 {
		how += ", none over " + m.length(k.Longest)
	}
	return how
}

// longestAt is where the row says how long a piece may be; none where it does not.
func (m maker) longestAt(k job.Member) origin.Cell {
	if k.Longest == 0 {
		return origin.Cell{}
	}
	return m.Job.Under(k.At, "Longest piece")
}

// pieceWords is how the length of a piece comes of the run.
func (m maker) pieceWords(r takeoff.Row) string {
	run := m.length(r.Along)
	switch {
	case r.PiecesEach == 1:
		return ""
	case r.ScarphLen > 0:
		return fmt.Sprintf("(%s + %d x %s) / %d", run, r.PiecesEach-1, m.length(r.ScarphLen), r.PiecesEach)
	}
	return fmt.Sprintf("%s / %d", run, r.PiecesEach)
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
