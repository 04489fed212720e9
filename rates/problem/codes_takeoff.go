package problem

// The codes of takeoff: what keeps a row of the schedule from being measured,
// and the rules of joints and butts that a row or two of them break.
const (
	TimberMissing    Code = "timber-missing"
	SizeMissing      Code = "size-missing"
	RoundSizes       Code = "round-sizes"
	SweepDeep        Code = "sweep-deep"
	PlaningMissing   Code = "planing-missing"
	RenewedMissing   Code = "renewed-missing"
	RenewedLong      Code = "renewed-long"
	JointMissing     Code = "joint-missing"
	ScarphMissing    Code = "scarph-missing"
	StickMissing     Code = "stick-missing"
	PieceLong        Code = "piece-long"
	PieceShort       Code = "piece-short"
	FastenRange      Code = "fastening-range"
	FastenRuleless   Code = "fastening-missing"
	CrossingsUnknown Code = "crossings-unknown"
	DensityMissing   Code = "density-missing"
	ScarphShort      Code = "scarph-short"
	PlankShort       Code = "plank-short"
	RemnantShort     Code = "remnant-short"
	ButtsNear        Code = "butts-near"
	ButtsInBay       Code = "butts-in-bay"
	FabricTwice      Code = "fabric-twice"
)

func takeoff() []Facts {
	return []Facts{
		{TimberMissing, Error,
			"The row puts new timber in and says neither of what timber nor from which stock line.",
			`Members: Treatment "renew", Timber blank, Stock blank`,
			"Name a timber of the Timber sheet, or bind the row to a stock line."},
		{SizeMissing, Error,
			"A size is missing that the row cannot be measured without: new timber wants Length, Sided and Moulded (round and eight-sided work Sided alone), a fastening rule wants Moulded.",
			`Members: Treatment "renew", Sided 2", Moulded blank`,
			"Give the size; for planking Sided is the thickness and Moulded the width."},
		{RoundSizes, Error,
			"A round or eight-sided member has one size across, given as Sided; Moulded is given too and is another.",
			`Members: Shape "round", Sided 10", Moulded 9"`,
			"Leave Moulded blank; of a tapered spar give the mean diameter as Sided."},
		{SweepDeep, Error,
			"The sweep is more than half the length it is measured over, which would be more than half a circle.",
			`Members: Length 6', Sweep 4'`,
			"Give the greatest distance between the concave edge and the straight line between its ends, and as Length that line."},
		{PlaningMissing, Warning,
			"Faces are to be planed, and the timber does not say what planing takes off a face, so nothing is added for it.",
			`Members: Planed faces 2, Timber "oak", where Timber gives "oak" no Planing a face`,
			"Give the timber a Planing a face, or Planed faces 0."},
		{RenewedMissing, Error,
			"Part of the member is renewed and the row does not say how much.",
			`Members: Treatment "part", Renewed length blank`,
			"Give the length with no old wood left, between nibs or from the end, or choose renew."},
		{RenewedLong, Error,
			"More is renewed than there is of the member.",
			`Members: Treatment "part", Length 20', Renewed length 24'`,
			"Correct Length or Renewed length."},
		{JointMissing, Error,
			"The new length is joined to old work and the row does not say how.",
			`Members: Treatment "part", Joints 2, Joint blank`,
			"Give Joint as scarph or butt."},
		{ScarphMissing, Error,
			"New timber is scarphed and nothing says how long the scarph is.",
			`Members: Treatment "renew", Joint "scarph", Scarph (to one) blank`,
			"Give the length of the scarph to one of the size it is cut through, such as 6."},
		{StickMissing, Error,
			"No stick of the timber gives a piece of the run: none has the section, or none is longer than the scarph.",
			`Members: Joint "butt", Sided 2", Moulded 14", Timber "Oak", where the largest oak in Stock is 2 1/2" x 12"`,
			"Put a stock line that takes the piece in Stock, or bind the row to one that does."},
		{PieceLong, Error,
			"A piece is longer than Longest piece and may not be jointed, or Longest piece is no longer than the scarph.",
			`Members: Length 40', Longest piece 24', Joint blank`,
			"Give a Joint, so that the member is got in several pieces, or a greater Longest piece."},
		{PieceShort, Error,
			"The longest stick makes so many pieces of the run that each is shorter than Shortest piece.",
			`Members: Length 25', Joint "butt", Shortest piece 15', where the longest stick is 24'`,
			"Find longer stock, or give a shorter Shortest piece."},
		{FastenRange, Error,
			"The fastening rule has no row for a plank of this width.",
			`Members: Moulded 10", Fastening "Spikes", where the widest row of "Spikes" in Fastenings has Plank to 9"`,
			"Give the rule a row that takes the width; blank Plank to is without end."},
		{FastenRuleless, Warning,
			"The build-up is measured by fastening and the row names no fastening rule, so it comes to nothing.",
			`Members: Fastening blank, Build-up "plank", where Build-ups measures a task of "plank" by "fastening"`,
			"Name a rule of the Fastenings sheet, or choose another build-up."},
		{CrossingsUnknown, Error,
			"A fastening rule counts by crossings of plank and frame, and neither frames nor their spacing are given.",
			`Members: Fastening "spikes", From frame blank, Spacing blank, where Job's Spacing of frames is blank`,
			"Give From frame and To frame, or Spacing, or the Job's Spacing of frames."},
		{DensityMissing, Error,
			"The row is measured by weight, and the density of its timber is not known.",
			`Members: Timber "Oak", Build-up "Plank", where Build-ups measures a task of "Plank" by "weight" and Timber gives "Oak" no Density`,
			"Give the timber its Density in kg/m3."},
		{ScarphShort, Warning,
			"The scarph of a keel or hog is shorter than five times its moulded depth (Laws of Fiji, ship construction, s.5.7).",
			`Members: Member "keel", Length 60', Sided 12", Moulded 15", Joint "scarph", Scarph (to one) 4, Scarph through "moulded", where the longest stick is 40'`,
			"Lengthen the scarph, or leave it if the surveyor agrees."},
		{PlankShort, Warning,
			"A new plank is shorter than six frame spaces (US Army TB 55-1900-201-45/1, para 2-12).",
			`Members: Strake 5, From frame 10, To frame 14, Treatment "part", Length 40', Renewed length 8', Spacing 1' 9"`,
			"Renew more of the strake, or leave it if the surveyor agrees; five feet is the limit in special cases."},
		{RemnantShort, Warning,
			"What is left of the old plank is shorter than six frame spaces (US Army TB 55-1900-201-45/1, para 2-12).",
			`Members: Strake 5, From frame 10, To frame 21, Treatment "part", Length 24', Renewed length 20', Joint "butt", Joints 1, Spacing 1' 9"`,
			"Renew the whole plank, or leave it if the surveyor agrees."},
		{ButtsNear, Warning,
			"Butts of strakes that lie together are fewer than three frame spaces apart (US Army TB 55-1900-201-45/1, para 2-13).",
			`Members: Strake 5 with To frame 12, Strake 6 with To frame 14, both Treatment "part", Joint "butt", Joints 2, Side "port"`,
			"Shift one of the butts by moving From frame or To frame, or by lengths other than equal ones."},
		{ButtsInBay, Warning,
			"Butts stand in one bay of the frames with fewer than three solid strakes between them (US Army TB 55-1900-201-45/1, para 2-13).",
			`Members: Strake 5 and Strake 8, both To frame 12, Treatment "part", Joint "butt", Joints 2, Side "port"`,
			"Shift one of the butts by moving From frame or To frame, or by lengths other than equal ones."},
		{FabricTwice, Warning,
			"Two rows are of the same planking, by Side, Strake and frames, so that it counts twice in the old fabric kept.",
			`Members: Strake 5, frames 1 to 12, Treatment "renew", and Strake 5, frames 8 to 20, Treatment "refasten"`,
			"Let the frames of one row end where those of the other begin, or, of a row that only refastens, leave Sided and Moulded blank: it is then of fastenings and not counted."},
	}
}
