package problem

// The codes of pricing, the contingency and the casting of the bill.
const (
	LabourPrice     Code = "labour-price"
	MaterialPrice   Code = "material-price"
	PlantPrice      Code = "plant-price"
	WorkPrice       Code = "subcontract-price"
	FastenerUnit    Code = "fastening-unit"
	UnitsMixed      Code = "bill-units-mixed"
	UnitUnlike      Code = "bill-unit-unlike"
	CarriedMixed    Code = "bill-item-carried"
	ItemFree        Code = "item-free"
	AdditionsNone   Code = "additions-none"
	PrelimEmpty     Code = "preliminary-empty"
	PrelimTrade     Code = "preliminary-trade"
	PrelimShare     Code = "preliminary-share"
	ChargeFree      Code = "charge-free"
	ChargeUnread    Code = "charge-unread"
	PrelimRef       Code = "preliminary-ref"
	StagesTurned    Code = "stages-turned"
	WeeksUnknown    Code = "weeks-unknown"
	WeeksDiffer     Code = "weeks-differ"
	WaitingTime     Code = "waiting-time"
	VATPrice        Code = "vat-not-in-force"
	RisesStart      Code = "rises-start"
	ContingencyHome Code = "contingency-home"
	FundingShares   Code = "funding-shares"
)

func pricing() []Facts {
	return []Facts{
		{LabourPrice, Error,
			"The trade has no rate on the tender date: every row of it begins later, or its pay and hours come to nothing.",
			`Labour: Trade "rigger", Rate 41.50, From 2026-09-01, where the Job's Tender date is 2026-05-01`,
			"Give the trade a row whose From is blank or not after the tender date, with a Rate, or with Pay, Paid hours a year and Worked hours a year."},
		{MaterialPrice, Error,
			"The material has no price on the tender date: every row of it begins later.",
			`Materials: Material "Oil paint", Price 12.00, From 2026-09-01, where the Job's Tender date is 2026-05-01`,
			"Give the material a row whose From is blank or not after the tender date."},
		{PlantPrice, Error,
			"The plant has no price on the tender date, or none of the sort that is asked: a build-up needs its Each.",
			`Build-ups: Kind "plant", Key "steam box", where Plant gives "steam box" an A week of 60 and no Each`,
			"Give the plant a row in force on the tender date with Each and its Unit, or charge it by the week in Preliminaries."},
		{WorkPrice, Error,
			"The subcontracted work has no price on the tender date: every row of it begins later.",
			`Subcontract: Work "shot blasting", Price 14.00, From 2026-09-01, where the Job's Tender date is 2026-05-01`,
			"Give the work a row whose From is blank or not after the tender date."},
		{FastenerUnit, Error,
			"The material of a fastening rule is not sold by number, so the fastenings cannot be priced.",
			`Fastenings: Material "Spike 6 in", where Materials sells "Spike 6 in" by the Unit "kg"`,
			"Price the fastening by nr or pair in Materials, for instance the price of a kilogram divided by the number in one."},
		{UnitsMixed, Error,
			"Rows of one bill item are in several units and no Bill unit says in which the line is billed.",
			`Items: two rows with Bill item "5.A", one with Quantity 12, Unit "m", the other with Quantity 3, Unit "nr"`,
			"Give a Bill unit on the first row of the bill item, such as item, or bill the rows apart."},
		{UnitUnlike, Error,
			"A row cannot be measured in the unit its line is billed in.",
			`Items: Quantity 12, Unit "m", Bill unit "m2"`,
			"Give a Bill unit the row can be measured in, or give the Bill quantity as well."},
		{CarriedMixed, Error,
			"Rows of one bill item are carried differently, so the line would be both in the total and out of it, or held at two chances.",
			`Members: two rows with Bill item "4.A", one with Carried as blank, the other with Carried as "option"`,
			"Carry all rows of a bill item alike, or bill them apart."},
		{ItemFree, Warning,
			"The line comes to nothing: no hours, material, plant or work is charged to it.",
			`Items: Build-up "sundries", where Build-ups gives "sundries" nothing but a material at a Price of 0.00`,
			"Give the row a build-up that takes hours or money, or hours of its own; leave it out if it is truly free."},
		{AdditionsNone, Remark,
			"A kind of cost bears no overheads and no profit, because Overheads and profit has no row for it.",
			`Overheads and profit: no row with Kind "plant", where a build-up takes plant`,
			"Give the kind a row, with 0 % where nothing is to be added."},
		{PrelimEmpty, Error,
			"The preliminary has nothing to charge.",
			`Preliminaries: Description "site cabin", with Plant, Fixed, A week, Hours a week and % of all blank`,
			"Give it a Fixed or A week sum, a Plant that has one, a Trade with Hours a week, or % of and Of."},
		{PrelimTrade, Error,
			"Supervision is asked by hours, and no trade says at what rate.",
			`Preliminaries: % of 8 %, Of "hours", Trade blank`,
			"Give the Trade, such as foreman."},
		{PrelimShare, Error,
			"A percentage is asked, and not of what.",
			`Preliminaries: % of 2 %, Of blank`,
			`Give Of: "hours" for a share of all hours at the rate of the Trade, "items" for a share of the measured work.`},
		{ChargeFree, Warning,
			"A preliminary or a sum comes to nothing: no weeks, a percentage of nil, or an amount that is less than half a penny.",
			`Preliminaries: % of 0 %, Of "items"`,
			"Give the weeks, the percentage or the sum; leave the row out if it is truly free."},
		{ChargeUnread, Warning,
			"A preliminary says something that none of its charges reads, such as Weeks beside a sum that is charged once.",
			`Preliminaries: Fixed 165, Weeks 40, A week blank`,
			"Put the sum under A week if it runs with time, give the Hours a week or % of that is wanting, or clear the cell."},
		{PrelimRef, Error,
			"A preliminary that makes several lines would give one of them the Ref of another row.",
			`Preliminaries: Ref "P1" with both Fixed 200 and A week 50, making P1a and P1b, beside another row with Ref "P1a"`,
			"Give one of the rows another Ref."},
		{StagesTurned, Error,
			"The charge would end before it begins: To stage finishes no later than From stage starts.",
			`Preliminaries: From stage "Painting", To stage "Planking", where Stages has Painting After Planking`,
			"Turn the two stages about, or give the Weeks."},
		{WeeksUnknown, Error,
			"The charge runs with time, but there is no programme to give the weeks.",
			`Preliminaries: A week 85, Weeks blank, where the Stages sheet is empty`,
			"Give the Weeks, or fill in Stages and Gangs."},
		{WeeksDiffer, Remark,
			"The weeks given for a charge are not those of the programme; the weeks given govern.",
			`Preliminaries: Weeks 12, where the programme makes it 1`,
			"Leave Weeks blank to follow the programme, or let the difference stand."},
		{WaitingTime, Remark,
			"The programme keeps men for longer than the hours priced, and nothing pays for that time.",
			`Job: Price waiting time "no", where Gangs keeps a painter for the 4 h of a tenth of a week and 3.10 of his hours are priced`,
			"Put Price waiting time to yes for a line in the preliminaries, or keep fewer men; let it stand where they have other work."},
		{VATPrice, Error,
			"The VAT code has no rate on the tender date: every row of it begins later.",
			`VAT: Code "S", Rate 20 %, From 2026-09-01, where the Job's Tender date is 2026-05-01`,
			"Give the code a row whose From is blank or not after the tender date."},
		{RisesStart, Error,
			"Price rises are asked, and there is no start on site to reckon them to.",
			`Job: Price rises % a year 4 %, Start on site blank`,
			"Give Start on site, or leave Price rises % a year blank."},
		{ContingencyHome, Error,
			"The contingency is to stand within the rates, and there is no measured work to carry it.",
			`Job: Contingency shown "within rates", where every row of Items is carried as risk`,
			`Show the contingency as a client's sum.`},
		{FundingShares, Warning,
			"A Funding shares the cost among several funds, and the shares cannot be read or do not make up the whole.",
			`Items: Funding "grant 60 %, own funds 30 %"`,
			"Give each fund its percentage, parted by commas, so that they make up 100 %."},
	}
}
