package problem

// The codes of sense across the sheets.
const (
	TreatmentWithoutWork    Code = "treatment-without-work"
	HoursWithoutTrade       Code = "hours-without-trade"
	TradeWithoutHours       Code = "trade-without-hours"
	ChanceNotAtRisk         Code = "chance-not-at-risk"
	RiskWithoutChance       Code = "risk-without-chance"
	RangeOrder              Code = "range-order"
	DepositWithoutOrder     Code = "deposit-without-order"
	DefectsWithoutRetention Code = "defects-without-retention"
	BillItemDiffers         Code = "bill-item-differs"
	BillQuantityTwice       Code = "bill-quantity-twice"
	BillQuantityWithoutUnit Code = "bill-quantity-without-unit"
	FinerThanUnit           Code = "finer-than-unit"
	CostWithoutKind         Code = "cost-without-kind"
	StockOfOtherTimber      Code = "stock-of-other-timber"
	OwnerStockPriced        Code = "owner-stock-priced"
	LabourRateTwice         Code = "labour-rate-twice"
	LeastWeeksNegative      Code = "least-weeks-negative"
	ClosureBackwards        Code = "closure-backwards"
	ClosureLong             Code = "closure-long"
	BuildUpNear             Code = "build-up-near"
	OtherwiseNotInForce     Code = "otherwise-not-in-force"
	VATCategory             Code = "vat-category"
	VATEvidenceMissing      Code = "vat-evidence-missing"
	VATTonnage              Code = "vat-tonnage"
	VATTonnageUnknown       Code = "vat-tonnage-unknown"
	VATRecreation           Code = "vat-recreation"
	VATMayQualify           Code = "vat-may-qualify"
	ConditionAndTreatment   Code = "condition-and-treatment"
	SeamsTwice              Code = "seams-twice"
	NoTakingOff             Code = "no-taking-off"
	NotSeen                 Code = "not-seen"
	OldPrice                Code = "old-price"
	DescriptionLong         Code = "description-long"
)

func sense() []Facts { return append(senseOfRows(), senseOfBook()...) }

func senseOfRows() []Facts {
	return []Facts{
		{TreatmentWithoutWork, Error,
			"The member is to be worked on, and nothing says what the work is; only one that is retained may be without.",
			`Members: Treatment "renew", Build-up blank, Hours blank`,
			"Give the row a Build-up, or Hours and a Trade; a member that is only recorded is carried as Treatment retain."},
		{HoursWithoutTrade, Error,
			"The row has hours, and nobody to work them.",
			`Items: Build-up "paint", Hours 12, Trade blank`,
			"Give the Trade of those hours."},
		{TradeWithoutHours, Warning,
			"The row names a trade and gives no hours; the Trade is that of Hours and nothing else.",
			`Items: Hours blank, Trade "shipwright"`,
			"Give the Hours, or leave Trade blank: the trades of a build-up are those of its norms."},
		{ChanceNotAtRisk, Error,
			"The row has a chance of occurring and is carried as if it were certain.",
			`Members: Carried as "measured", Chance % 30 %`,
			"Carry the row as risk, or leave Chance % blank."},
		{RiskWithoutChance, Error,
			"The row is carried as a risk and does not say how likely it is, so the contingency cannot be reckoned.",
			`Members: Carried as "risk", Chance % blank`,
			"Give a Chance % above nil."},
		{RangeOrder, Warning,
			"A range does not rise: the least must not be above what is expected, nor the most below it. A simulated contingency takes it as ending at what is expected.",
			`Risks: Least 5000, Likely 4000, Most 9000; or Members: Least % 110 %`,
			"Put the three in rising order; what is expected of a row of the schedule is 100 %."},
		{DepositWithoutOrder, Error,
			"A deposit is asked on a provisional sum. It stands for the yard's own work, so that nothing is ordered and nobody is paid ahead.",
			`Sums: Kind "provisional defined", Deposit % 30 %`,
			"Leave Deposit % blank, or make the row a quotation or prime cost if somebody else supplies it."},
		{DefectsWithoutRetention, Warning,
			"The Job has a Defects period, at whose end the second half of the retention is released, and nothing is kept back.",
			`Job: Defects period (months) 12, Retention % blank`,
			"Give the Retention %, or leave the Defects period blank."},
		{BillItemDiffers, Error,
			"Rows of one bill item differ in what the line can have only one of: its Section, its VAT or its Funding.",
			`Members: two rows with Bill item "4.A", one with Section "4", the other with Section "5"`,
			"Make the rows alike in that column, or bill them apart."},
		{BillQuantityTwice, Warning,
			"More than one row of a bill item gives what is billed; that of the first row stands and the other is not read.",
			`Members: two rows with Bill item "4.A", one with Bill quantity 24.4, the other with Bill quantity 29.9`,
			"Give Bill quantity and Bill unit once, in the first row of the bill item."},
		{BillQuantityWithoutUnit, Error,
			"A Bill quantity has no Bill unit.",
			`Members: Bill quantity 12, Bill unit blank`,
			"Give the Bill unit, such as m."},
		{FinerThanUnit, Error,
			"A quantity is typed finer than its unit is billed in, and what somebody typed is never rounded.",
			`Items: Quantity 12.345, Unit "m2"`,
			"Round the quantity yourself, or use a smaller unit."},
		{CostWithoutKind, Error,
			"A Cost has no kind, so the overheads and profit on it are not known.",
			`Items: Cost 250.00, Cost kind blank`,
			"Give the Cost kind, such as subcontract."},
		{LeastWeeksNegative, Error,
			"A stage cannot last less than no time.",
			`Stages: Least weeks -2`,
			"Give Least weeks of nil or more; an overlap is a Lag weeks below nil."},
		{ClosureBackwards, Error,
			"The closure ends before it begins.",
			`Closures: From 2026-12-24, To 2026-01-03`,
			"Turn the dates about, or correct the year."},
		{ClosureLong, Warning,
			"The yard is to be closed for more than a quarter of a year, and all that while the dock is paid for.",
			`Closures: From 2026-12-24, To 2027-12-25`,
			"Correct the year, or let it stand where the yard does close for so long."},
		{BuildUpNear, Warning,
			"A build-up is used by no row, and its name is nearly that of one in use: a row of that build-up is likely misspelt, and its work is left out of the price.",
			`Build-ups: Build-up "Side plnk", where rows use "Side plank"`,
			"Give the row the name of the build-up it belongs to, or let it stand where it is a build-up of its own."},
		{ConditionAndTreatment, Remark,
			"Condition and treatment pull apart: renew whole (5) is retained, or sound (1) is renewed.",
			`Members: Condition 5, Treatment "retain"`,
			"Let it stand if it is meant, and say why in Note; the survey and the schedule should agree."},
		{SeamsTwice, Remark,
			"Seams of one section are charged in Members and in Items both, so some may be paid for twice.",
			`Members: Section "4", Seams 1, Build-up "Plank", and Items: Section "4", Build-up "Caulk", where Build-ups measures a task of each by seam`,
			"Charge the seams of new strakes in Members, where Seams is of each strake, and only those of old work in Items."},
		{NoTakingOff, Remark,
			"A build-up renews members and has nothing measured by old volume, and no row removes the old ones: taking off may have been forgotten.",
			`Members: Treatment "renew", Build-up "Plank", where Build-ups has no row of "Plank" with Measured by "old volume"`,
			"Give the build-up a task measured by old volume, or a row with Treatment remove for the same Member; let it stand where another task holds it."},
		{NotSeen, Remark,
			"A member could not be seen at the survey, and is priced as if nothing could come of that: it has no range and is not carried as a risk.",
			`Members: Condition 0, Carried as "measured", Least % and Most % blank`,
			"Give it a Least % and a Most %, or carry it as provisional with a range, or as a risk with its Chance %."},
	}
}

func senseOfBook() []Facts {
	return []Facts{
		{StockOfOtherTimber, Error,
			"The row is bound to a stock line of another timber than its own.",
			`Members: Timber "Oak", Stock "Larch 3 in", where Stock has "Larch 3 in" of Timber "Larch"`,
			"Correct the Timber or the Stock of the row."},
		{OwnerStockPriced, Warning,
			"Timber supplied by the owner has a price; it bears handling and sawing only, and the price is not read.",
			`Stock: Supplied by "owner", Price 1800.00`,
			"Put the price at nil and the handling in Delivery, or let the yard supply it."},
		{LabourRateTwice, Warning,
			"A trade has a Rate and the pay it might be reckoned from; the Rate stands and the pay is not read.",
			`Labour: Trade "Shipwright", Rate 42.00, Pay 19.50`,
			"Leave Rate blank to have it reckoned, or leave the pay blank."},
		{OtherwiseNotInForce, Error,
			"The code a line would bear if the vessel did not qualify has no rate on the tender date, so the total cannot be shown both ways.",
			`VAT: Code "Z", Category "Z", Otherwise "S", where every row of "S" has a From after the Job's Tender date`,
			"Give that code a row whose From is blank or not after the tender date."},
		{VATCategory, Warning,
			"The category of a VAT code says another thing than its rate: S alone bears tax, and Z, E, AE, O and G none (EN 16931).",
			`VAT: Code "R", Category "Z", Rate % 5 %`,
			"Correct the Category or the Rate %; the tax is reckoned by the rate as it stands."},
		{VATEvidenceMissing, Warning,
			"Work is zero-rated as on a qualifying ship, or relieved of tax otherwise on account of the vessel, and no evidence is recorded.",
			`Job: VAT code "Z", VAT evidence blank, where VAT gives "Z" the Category "Z" and an Otherwise`,
			"Record what the zero rate rests on, such as the certificate of registry and the owner's undertaking; whether it is enough is for the owner's adviser."},
		{VATTonnage, Warning,
			"Work is zero-rated as on a qualifying ship, and she is under 15 tons gross (VATA 1994, Schedule 8, Group 8).",
			`Job: VAT code "Z", Gross tonnage 12`,
			"Correct the tonnage, or use the code the work would bear otherwise; the judgement is for the owner's adviser."},
		{VATTonnageUnknown, Warning,
			"Work is zero-rated as on a qualifying ship, and neither Gross tonnage nor the three dimensions it may be reckoned from are given.",
			`Job: VAT code "Z", Gross tonnage blank, Depth blank`,
			"Give the tonnage of her certificate and its basis; without one give Length overall, Breadth and Depth."},
		{VATRecreation, Warning,
			"Work is zero-rated as on a qualifying ship, and what she was designed or adapted for is recreation, or is not stated (VATA 1994, Schedule 8, Group 8).",
			`Job: VAT code "Z", Designed or adapted for "recreation"`,
			"State what she was designed for and has been adapted to, such as cargo; the judgement is for the owner's adviser."},
		{VATMayQualify, Remark,
			"By her particulars she may be a qualifying ship, and no work is zero-rated.",
			`Job: VAT code "S", Gross tonnage 60, Designed or adapted for "cargo", where VAT has a code of Category "Z" with an Otherwise`,
			"Ask the owner's adviser whether the work may be zero-rated, and on what evidence."},
		{OldPrice, Remark,
			"A price the job uses is more than a year old on the tender date.",
			`Materials: Material "Oil paint", From 2024-03-01, where the Job's Tender date is 2026-05-01`,
			"Ask for the price anew and give it a row with its own From, or let it stand."},
		{DescriptionLong, Warning,
			"A description is longer than a row of a workbook can show when it is printed. Its cell holds all of it, and the tender prints all of it.",
			`Items: Description of 1,600 characters`,
			"Shorten it, or part the row, where the bill is to be read in print."},
	}
}
