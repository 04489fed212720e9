package problem

// The codes of labour, and those of build-ups that labour and pricing share.
const (
	UnlikeDimensions Code = "unlike-dimensions"
	DriverMissing    Code = "driver-missing"
	NormNotInForce   Code = "norm-not-in-force"
	LearningOdd      Code = "learning-odd"
	NormUnlike       Code = "norm-unlike"
)

func labour() []Facts {
	return []Facts{
		{UnlikeDimensions, Error,
			"The driver does not measure what the norm, material, plant or work is stated in, and no unit in brackets says how the two meet.",
			`Build-ups: Measured by "face area", Key "caulk seam", where Norms gives "caulk seam" the Unit "m"`,
			"Measure by a driver of the same kind, or give the driver a unit in brackets, such as seam (m), where Quantity is for one of that unit."},
		{DriverMissing, Error,
			"The build-up measures a row by something the row does not have.",
			`Items: Quantity 12, Unit "h", Build-up "paint", where Build-ups measures "paint" by "face area"`,
			"Give the row a unit or the sizes the driver is reckoned from, or another build-up."},
		{NormNotInForce, Error,
			"The task has norms, but every one of them begins after the tender date.",
			`Norms: Task "Take off plank", From 2026-09-01, where the Job's Tender date is 2026-05-01`,
			"Give the task a norm whose From is blank or not after the tender date."},
		{LearningOdd, Warning,
			"Learning % is the slope, what the second piece takes of the first; a slope under 50 % or over 100 % is likely the saving written instead.",
			`Norms: Learning % 15 %`,
			"Write the slope: 85 % where each doubling of the number saves 15 %; leave it blank where nothing is learnt."},
		{NormUnlike, Remark,
			"A norm lies outside the figures published for the like work.",
			`Norms: Task "Paint, one coat", Hours 0.5, Unit "m2"`,
			"Look whether hours and unit go together; let it stand where it is the yard's own experience."},
	}
}
