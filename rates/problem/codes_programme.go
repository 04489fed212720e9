package problem

// The codes of the programme.
const (
	StagesInCircle      Code = "stages-in-a-circle"
	OverlapTooLong      Code = "overlap-too-long"
	NoWorkingHours      Code = "no-working-hours"
	ClosuresNeedStart   Code = "closures-need-start"
	NobodyToDoIt        Code = "nobody-to-do-it"
	StageTooLong        Code = "stage-too-long"
	MoreMenThanYard     Code = "more-men-than-the-yard"
	GangWithoutWork     Code = "gang-without-work"
	HoursOutsideStages  Code = "hours-outside-stages"
	LagWithoutPrecursor Code = "lag-without-after"
)

func programme() []Facts {
	return []Facts{
		{StagesInCircle, Error,
			"Stages come after one another in a circle, so none of them can ever begin.",
			`Stages: Stage "Planking", After "Painting"; Stage "Painting", After "Planking"`,
			"Take one After of the circle away; where two stages run side by side use a Lag weeks below nil."},
		{OverlapTooLong, Warning,
			"The overlap is longer than the stage it overlaps, so this stage begins before the one it comes after.",
			`Stages: Stage "Painting", After "Planking", Lag weeks -9, where planking lasts 0.9 weeks`,
			"Shorten the overlap, or let the stage follow an earlier one."},
		{NoWorkingHours, Error,
			"Hours a week and Working weeks a year leave a man no hours to work, so nothing can be laid out.",
			`Job: Hours a week 0`,
			"Give the hours one man works in a week, such as 39."},
		{ClosuresNeedStart, Error,
			"Closures are listed, and without a date to start from they cannot be placed in the programme.",
			`Closures: From 2026-12-24, To 2027-01-03, where Start on site of Job is blank`,
			"Give Start on site, or leave Closures empty and let Working weeks a year stand for them."},
		{NobodyToDoIt, Error,
			"A stage holds hours of a trade and has no man of it.",
			`Items: Build-up "Paint" with hours of painters, in the Stage "Painting", where Gangs has no row of Stage "Painting" and Trade "Painter"`,
			"Give the stage a row in Gangs for that trade, or move the work to the stage where the men are."},
		{StageTooLong, Error,
			"The stage would last more than a hundred years.",
			`Stages: Least weeks 60000`,
			"Look at the hours, the men and the Least weeks: one of them is likely in the wrong unit."},
		{MoreMenThanYard, Warning,
			"Stages that run at once ask for more men of a trade than the yard has.",
			`Gangs: 4 shipwrights in "planking" and 3 in "deck", which run together, where Labour gives shipwright Men 5`,
			"Let one stage follow the other, make a gang smaller, or correct Men."},
		{GangWithoutWork, Remark,
			"A gang is kept in a stage that holds no hours of its trade, so all its time is kept and not priced.",
			`Gangs: Stage "Planking", Trade "Rigger", Men 2, where no row of that stage takes rigger hours`,
			"Take the gang out, or let it stand where the men are really kept."},
		{HoursOutsideStages, Remark,
			"Rows have hours and no stage, so their work takes no time in the programme.",
			`Items: Hours 16, Stage blank, where Sections gives the section no Stage either and the Stages sheet is filled in`,
			"Give the row or its section a Stage, or let it stand where the work is fitted in between."},
		{LagWithoutPrecursor, Warning,
			"A stage overlaps with nothing: its Lag is below nil and it comes after no other stage.",
			`Stages: Stage "Planking", After blank, Lag weeks -2`,
			"Give After, or leave Lag weeks blank; above nil it is counted from the start on site."},
	}
}
