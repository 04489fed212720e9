package templates

import "futtock/estimate/job"

// stages is the Stages sheet: the parts of the programme.
func stages() Sheet[job.Stage] {
	type S = job.Stage
	return outlined(Sheet[S]{
		Outline: Outline{
			Name: "Stages", Purpose: "the parts of the programme and their order",
			Once: []string{"Stage"},
		},
		Columns: []Column[S]{
			{Heading{Name: "Stage", Form: Key, Required: true, Names: true, Example: "Planking",
				Help: "Name by which other sheets call it; no comma and no semicolon in it"},
				func(s *S, e Entry) { s.Stage, s.At = e.Text, e.At }},
			{Heading{Name: "After", Form: Keys, Refers: to("Stages"), Example: "Docking, Framing", Elsewhere: true,
				Help: "Stages that end before this one begins, parted by commas"},
				func(s *S, e Entry) { s.After, s.AfterAt = e.Keys, e.At }},
			{Heading{Name: "Lag weeks", Form: Number, Least: "-520", Most: "520", Default: "0", Example: "-2", Elsewhere: true,
				Help: "Weeks between them; less than nil is an overlap"},
				func(s *S, e Entry) { s.Lag = e.Number }},
			{Heading{Name: "Least weeks", Form: Number, Default: "0", Example: "3",
				Help: "It takes no less, however few its hours"},
				func(s *S, e Entry) { s.LeastWeeks, s.LeastAt = e.Number, e.At }},
			{noted(), func(s *S, e Entry) { s.Note = e.Text }},
		},
		Check: checkStage,
	})
}

// gangs is the Gangs sheet: how many men a stage has.
func gangs() Sheet[job.Gang] {
	type G = job.Gang
	return outlined(Sheet[G]{
		Outline: Outline{
			Name: "Gangs", Purpose: "how many men of a trade each stage has",
			Once: []string{"Stage", "Trade"},
		},
		Columns: []Column[G]{
			{Heading{Name: "Stage", Form: Key, Required: true, Refers: to("Stages"), Example: "Planking",
				Help: "Stage of the programme"},
				func(g *G, e Entry) { g.Stage, g.StageAt, g.At = e.Text, e.At, e.At }},
			{Heading{Name: "Trade", Form: Key, Required: true, Refers: to("Labour"), Example: "Shipwright",
				Help: "Trade of the men"},
				func(g *G, e Entry) { g.Trade, g.TradeAt = e.Text, e.At }},
			{Heading{Name: "Men", Form: Number, Required: true, Over: "0", Most: "1000", Example: "3",
				Help: "Kept on the stage from its start to its end; half a man is half his time"},
				func(g *G, e Entry) { g.Men = e.Number }},
		},
	})
}

// closures is the Closures sheet: when the yard does not work.
func closures() Sheet[job.Closure] {
	type C = job.Closure
	return outlined(Sheet[C]{
		Outline: Outline{Name: "Closures", Purpose: "when the yard does not work, first and last day of each"},
		Columns: []Column[C]{
			{Heading{Name: "From", Form: Day, Required: true, Example: "2026-08-03",
				Help: "First day closed"},
				func(c *C, e Entry) { c.From, c.At = e.Day, e.At }},
			{Heading{Name: "To", Form: Day, Required: true, Example: "2026-08-14",
				Help: "Last day closed"},
				func(c *C, e Entry) { c.To = e.Day }},
			{Heading{Name: "Reason", Form: Words, Example: "summer holiday",
				Help: "For the programme"},
				func(c *C, e Entry) { c.Reason = e.Text }},
		},
	})
}
