package templates

import (
	"slices"

	"futtock/estimate/job"
)

// sections is the Sections sheet: the parts of the bill.
func sections() Sheet[job.Section] {
	type S = job.Section
	return outlined(Sheet[S]{
		Outline: Outline{
			Name: "Sections", Purpose: "the parts of the bill, in the order in which they are printed",
			Required: true, Once: []string{"Section"},
		},
		Columns: []Column[S]{
			{Heading{Name: "Section", Form: Key, Required: true, Names: true, Example: "4",
				Help: "Number or letter of the section, by which other sheets name it"},
				func(s *S, e Entry) { s.Section, s.At = e.Text, e.At }},
			{Heading{Name: "Title", Form: Words, Required: true, Example: "Planking",
				Help: "Heading printed in the bill"},
				func(s *S, e Entry) { s.Title = e.Text }},
			{Heading{Name: "Stage", Form: Key, Refers: to("Stages"), Example: "Planking",
				Help: "Stage of the programme in which the work of the section falls, unless its row names another"},
				func(s *S, e Entry) { s.Stage, s.StageAt = e.Text, e.At }},
			{Heading{Name: "Contingency %", Form: Percent, Least: "0", Most: "100", Example: "15 %",
				Help: "In place of the Job's rate; 0 % is no contingency on this section"},
				func(s *S, e Entry) { s.Contingency, s.OwnRate = e.Percent(), e.Given }},
		},
	})
}

// members is the Members sheet: the schedule of members.
func members() Sheet[job.Member] {
	work := func(m *job.Member) *job.Work { return &m.Work }
	return outlined(Sheet[job.Member]{
		Outline: Outline{
			Name: "Members", Purpose: "the timbers and planks to be renewed or worked on, one piece or one run a row",
			Refs: true,
		},
		Columns: slices.Concat(billed(work, "4.1"), piece(), timber(), treated(), got(), crossed(),
			effort(work, false), difficulty(work), condition(), carriage(work), billing(work), remarks(work)),
		Check: checkMember,
	})
}

// piece says what the member is and how large.
func piece() []Column[job.Member] {
	type M = job.Member
	return []Column[M]{
		{Heading{Name: "Member", Form: Words, Required: true, Example: "side plank",
			Help: "What the shipwright calls it"},
			func(m *M, e Entry) { m.Member = e.Text }},
		{Heading{Name: "Description", Form: Words, Example: "fourth strake, frames 8 to 34",
			Help: "More words for the bill"},
			func(m *M, e Entry) { m.Description = e.Text }},
		{Heading{Name: "Side", Form: Words, Example: "port",
			Help: "Only names the side: Nr alone multiplies"},
			func(m *M, e Entry) { m.Side = e.Text }},
		{Heading{Name: "Nr", Form: Whole, Required: true, Least: "1", Most: "9999", Example: "1",
			Help: "How many such pieces or runs"},
			func(m *M, e Entry) { m.Nr = e.Whole }},
		{Heading{Name: "Length", Form: Length, Required: true, Over: "0 m", Most: "5000 m", Example: "11.7",
			Help: "Of one piece or one run, finished; of a curved piece the chord of the hollow edge"},
			func(m *M, e Entry) { m.Length, m.LengthAt = e.Length, e.At }},
		{Heading{Name: "Sided", Form: Length, Scale: Small, Least: "1 mm", Most: "3 m", Example: "63",
			Help: "Thickness; of a round piece the diameter, of an eight-sided one across the flats"},
			func(m *M, e Entry) { m.Sided, m.SidedAt = e.Length, e.At }},
		{Heading{Name: "Moulded", Form: Length, Scale: Small, Least: "1 mm", Most: "3 m", Example: "225",
			Help: "Width of a plank, or the depth that takes the curve"},
			func(m *M, e Entry) { m.Moulded, m.MouldedAt = e.Length, e.At }},
		{Heading{Name: "Sizes are", Form: Choice, Choices: []string{"finished", "as sawn"}, Default: "finished", Example: "finished",
			Help: "Finished sizes grow by planing and drying to what is sawn; sizes as sawn stay as they are"},
			func(m *M, e Entry) { m.AsSawn = e.Text == "as sawn" }},
		{Heading{Name: "Shape", Form: Choice, Choices: words([]job.Shape{job.Square, job.Round, job.Eight}),
			Default: string(job.Square), Example: "square", Help: "Cross-section"},
			func(m *M, e Entry) { m.Shape = job.Shape(e.Text) }},
		{Heading{Name: "Sweep", Form: Length, Scale: Small, Least: "0 mm", Most: "10 m", Example: "120", Elsewhere: true,
			Help: "Depth of the hollow edge's curve over its own chord; nothing for a straight piece or one that is bent to its place"},
			func(m *M, e Entry) { m.Sweep = e.Length }},
		{Heading{Name: "Bevel", Form: Number, Unit: "degrees", Least: "0", Most: "60", Example: "5", Elsewhere: true,
			Help: "Greatest bevel; widens the sawn piece by the thickness times its tangent"},
			func(m *M, e Entry) { m.Bevel = e.Number }},
	}
}

// timber says of what the member is made.
func timber() []Column[job.Member] {
	type M = job.Member
	return []Column[M]{
		{Heading{Name: "Timber", Form: Key, Refers: to("Timber"), Example: "Oak",
			Help: "What it is made of"},
			func(m *M, e Entry) { m.Timber, m.TimberAt = e.Text, e.At }},
		{Heading{Name: "Stock", Form: Key, Refers: to("Stock"), Example: "Oak plank 75", Elsewhere: true,
			Help: "Binds the row to one line of stock; the owner's stock serves only such rows"},
			func(m *M, e Entry) { m.Stock, m.StockAt = e.Text, e.At }},
		{Heading{Name: "Heart", Form: Choice, Choices: words([]job.Heart{job.AnyHeart, job.Boxed, job.Free}),
			Default: string(job.AnyHeart), Example: "free",
			Help: "Boxed has the heart of the tree within the piece, free is clear of it"},
			func(m *M, e Entry) { m.Heart = job.Heart(e.Text) }},
		{Heading{Name: "Sapwood", Form: YesNo, Default: "no", Example: "no",
			Help: "Whether sapwood may be left on"},
			func(m *M, e Entry) { m.Sapwood = e.Yes }},
	}
}

// treated says what is done to it.
func treated() []Column[job.Member] {
	type M = job.Member
	return []Column[M]{
		{Heading{Name: "Treatment", Form: Choice, Required: true, Choices: words(job.Treatments()), Example: "renew",
			Help: "What is done to it; part needs Renewed length, and a graving piece has the sizes of the piece let in"},
			func(m *M, e Entry) { m.Treatment, m.TreatmentAt = job.Treatment(e.Text), e.At }},
		{Heading{Name: "Renewed length", Form: Length, Over: "0 m", Most: "5000 m", Example: "3.2", Elsewhere: true,
			Help: "Of treatment part: the length with no old wood left in it; drivers, fastenings, seams and bill read this in place of Length"},
			func(m *M, e Entry) { m.Renewed, m.RenewedAt = e.Length, e.At }},
	}
}

// got says how it may be got: in which pieces, joined and planed how.
func got() []Column[job.Member] {
	type M = job.Member
	return []Column[M]{
		{Heading{Name: "Joint", Form: Choice, Choices: words([]job.Joint{job.NoJoint, job.Scarph, job.Butt}),
			Default: string(job.NoJoint), Example: "butt",
			Help: "How pieces of a run too long for one stick are joined; none keeps it in one piece"},
			func(m *M, e Entry) { m.Joint, m.JointAt = job.Joint(e.Text), e.At }},
		{Heading{Name: "Joints", Form: Whole, Least: "0", Most: "9", Default: "0", Example: "2", Elsewhere: true,
			Help: "Joints to old work: 1 at one end, 2 where it is let in between"},
			func(m *M, e Entry) { m.Joints = e.Whole }},
		{Heading{Name: "Scarph (to one)", Form: Number, Over: "0", Most: "30", Example: "8", Elsewhere: true,
			Help: "Length of a scarph to one of the size it is cut through"},
			func(m *M, e Entry) { m.Scarph, m.ScarphAt = e.Number, e.At }},
		{Heading{Name: "Scarph through", Form: Choice, Choices: []string{"sided", "moulded"}, Example: "sided", Elsewhere: true,
			Help: "The size a scarph is cut through; the smaller where blank"},
			func(m *M, e Entry) { m.ThroughSided, m.ThroughGiven = e.Text == "sided", e.Given }},
		{Heading{Name: "Shortest piece", Form: Length, Over: "0 m", Most: "150 m", Example: "2.7",
			Help: "No piece of a run is shorter; with it the lengths of the pieces are chosen so that the timber is cheapest, without it they are equal"},
			func(m *M, e Entry) { m.Shortest = e.Length }},
		{Heading{Name: "Longest piece", Form: Length, Over: "0 m", Most: "150 m", Example: "6",
			Help: "No piece of a run is longer, however long the stock"},
			func(m *M, e Entry) { m.Longest = e.Length }},
		{Heading{Name: "Planed faces", Form: Whole, Least: "0", Most: "4", Default: "0", Example: "2",
			Help: "The first two thin the sided way, the next two the moulded"},
			func(m *M, e Entry) { m.PlanedFaces = e.Whole }},
	}
}

// crossed says where it lies and what it is fastened to.
func crossed() []Column[job.Member] {
	type M = job.Member
	return []Column[M]{
		{Heading{Name: "Seams", Form: Number, Least: "0", Most: "99", Default: "0", Example: "1",
			Help: "Long seams charged to this strake; a seam between two strakes belongs to the lower"},
			func(m *M, e Entry) { m.Seams = e.Number }},
		{Heading{Name: "Strake", Form: Words, Example: "4",
			Help: "With the frames, lets the shift of butts be checked"},
			func(m *M, e Entry) { m.Strake = e.Text }},
		{Heading{Name: "From frame", Form: Whole, Least: "-99", Most: "999", Example: "8",
			Help: "First frame crossed"},
			func(m *M, e Entry) { m.FromFrame, m.FramesGiven, m.FrameAt = e.Whole, e.Given, e.At }},
		{Heading{Name: "To frame", Form: Whole, Least: "-99", Most: "999", Example: "34",
			Help: "Last frame crossed"},
			func(m *M, e Entry) { m.ToFrame, m.FramesGiven = e.Whole, e.Given && m.FramesGiven }},
		{Heading{Name: "Spacing", Form: Length, Scale: Small, Least: "50 mm", Most: "3 m", Example: "450", Elsewhere: true,
			Help: "Of the frames or beams crossed, in place of the Job's"},
			func(m *M, e Entry) { m.Spacing = e.Length }},
		{Heading{Name: "Fastening", Form: Key, Refers: to("Fastenings"), Example: "Plank to frame",
			Help: "Rule by which fastenings are counted"},
			func(m *M, e Entry) { m.Fastening, m.FasteningAt = e.Text, e.At }},
	}
}

// condition is what the survey found.
func condition() []Column[job.Member] {
	type M = job.Member
	return []Column[M]{
		{Heading{Name: "Condition", Form: Whole, Least: "0", Most: "5", Example: "5",
			Help: "0 not seen, 1 sound, 2 surface defect, 3 local decay, 4 renew part, 5 renew whole"},
			func(m *M, e Entry) { m.Condition, m.CondGiven = e.Whole, e.Given }},
	}
}

// remarks end a member's row.
func remarks(work func(*job.Member) *job.Work) []Column[job.Member] {
	return append([]Column[job.Member]{
		{Heading{Name: "Survey ref", Form: Words, Example: "page 14, photograph 31",
			Help: "Where the survey speaks of it"},
			func(m *job.Member, e Entry) { m.Survey = e.Text }},
	}, note(work)...)
}
