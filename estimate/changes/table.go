package changes

// column is a field of a row: the heading it stands under, and the step in which
// it is taken over.
type column struct {
	heading string // blank where it only says more of another
	step    Kind
	more    more
}

// more is what a few columns need said of them.
type more struct {
	given string // field that says whether there is anything in the cell
	with  string // where this field differs, the row is another one: the column comes with the members
	no    string // word of a false
	yes   string // word of a true
	size  bool   // a length that is shown as sizes are
	also  string // field that says more of it, shown in brackets
}

// columns is every field of the job and of the price book, by type: which step it
// belongs to. A field that is in no step would leave a difference over, so a test
// holds this table against the types.
var columns = map[string]map[string]column{
	"Particulars": {
		"Vessel": {"Vessel", Rest, more{}}, "Description": {"Description", Rest, more{}}, "Client": {"Client", Rest, more{}}, "Yard": {"Yard", Rest, more{}},
		"ReturnTo": {"Return to", Rest, more{}}, "ReturnBy": {"Return by", Rest, more{}}, "Reference": {"Tender reference", Rest, more{}},
		"TenderDate": {"Tender date", Additions, more{}}, "ValidDays": {"Valid for (days)", Rest, more{}}, "Start": {"Start on site", Programme, more{}},
		"Currency":  {"Currency", Rest, more{}},
		"LengthsIn": {"Lengths in", Quantities, more{}}, "SizesIn": {"Sided and moulded in", Quantities, more{}}, "VolumesIn": {"Volumes in", Quantities, more{}},
		"LengthOverall": {"Length overall", Rest, more{}}, "Breadth": {"Breadth", Rest, more{}}, "Depth": {"Depth", Rest, more{}},
		"Tonnage": {"Gross tonnage", Rest, more{given: "TonnageGiven"}}, "TonnageGiven": {"", Rest, more{}}, "TonnageBasis": {"Tonnage basis", Rest, more{}},
		"DesignedFor": {"Designed or adapted for", Rest, more{}}, "VATEvidence": {"VAT evidence", Rest, more{}},
		"VATCode": {"VAT code", VAT, more{}}, "VATRounding": {"VAT rounding", VAT, more{}},
		"HoursAWeek": {"Hours a week", Programme, more{}}, "WorkingWeeks": {"Working weeks a year", Programme, more{}},
		"FrameSpacing":  {"Spacing of frames", Members, more{size: true}},
		"ContingencyBy": {"Contingency by", Additions, more{}}, "Contingency": {"Contingency %", Additions, more{}}, "ContingencyOn": {"Contingency on", Additions, more{}},
		"ContingencyShown": {"Contingency shown", Additions, more{}}, "Confidence": {"Confidence %", Additions, more{}},
		"TimberSearch": {"Timber search", TimberPlan, more{}}, "Together": {"Surprises together %", Additions, more{}}, "DrawNumber": {"Draw number", Additions, more{}}, "PriceRises": {"Price rises % a year", Additions, more{}},
		"Retention": {"Retention %", Rest, more{}}, "PaymentWeeks": {"Payment weeks", Rest, more{}}, "DefectsMonths": {"Defects period (months)", Rest, more{}},
		"PriceWaiting": {"Price waiting time", Programme, more{no: "no", yes: "yes"}}, "Paper": {"Paper", Rest, more{}},
	},
	"Section": {
		"Section": {"Section", Members, more{}}, "Title": {"Title", Members, more{}}, "Stage": {"Stage", Programme, more{}},
		"Contingency": {"Contingency %", Additions, more{given: "OwnRate"}}, "OwnRate": {"", Additions, more{}},
	},
	"Work": {
		"Ref": {"Ref", Members, more{}}, "Section": {"Section", Members, more{}}, "BuildUp": {"Build-up", Members, more{}}, "Hours": {"Hours", Members, more{}},
		"Trade": {"Trade", Members, more{}}, "Difficulty": {"Difficulty", Members, more{}}, "Access": {"Access", Members, more{}},
		"Carried": {"Carried as", Members, more{}}, "Chance": {"Chance %", Members, more{}}, "Least": {"Least %", Additions, more{}}, "Most": {"Most %", Additions, more{}},
		"Stage": {"Stage", Programme, more{}}, "VAT": {"VAT", VAT, more{}}, "Funding": {"Funding", Rest, more{}}, "BillItem": {"Bill item", Members, more{}},
		"BillQty": {"Bill quantity", Quantities, more{}}, "BillUnit": {"Bill unit", Quantities, more{}}, "Note": {"Note", Rest, more{}},
	},
	"Member": {
		"Member": {"Member", Members, more{}}, "Description": {"Description", Members, more{}}, "Side": {"Side", Members, more{}},
		"Nr": {"Nr", Quantities, more{}}, "Length": {"Length", Quantities, more{}},
		"Sided": {"Sided", Members, more{size: true}}, "Moulded": {"Moulded", Members, more{size: true}}, "AsSawn": {"Sizes are", Members, more{no: "finished", yes: "as sawn"}},
		"Shape": {"Shape", Members, more{}}, "Sweep": {"Sweep", Members, more{size: true}}, "Bevel": {"Bevel", Members, more{}}, "Timber": {"Timber", Members, more{}},
		"Stock": {"Stock", Members, more{}}, "Heart": {"Heart", Members, more{}}, "Sapwood": {"Sapwood", Members, more{no: "no", yes: "yes"}},
		"Treatment": {"Treatment", Members, more{}}, "Renewed": {"Renewed length", Quantities, more{with: "Treatment"}},
		"Joint": {"Joint", Members, more{}}, "Joints": {"Joints", Members, more{}}, "Scarph": {"Scarph (to one)", Members, more{}},
		"ThroughSided": {"Scarph through", Members, more{given: "ThroughGiven", no: "moulded", yes: "sided"}}, "ThroughGiven": {"", Members, more{}},
		"Shortest": {"Shortest piece", Members, more{}}, "Longest": {"Longest piece", Members, more{}}, "PlanedFaces": {"Planed faces", Members, more{}},
		"Seams": {"Seams", Members, more{}}, "Strake": {"Strake", Members, more{}}, "FromFrame": {"From frame", Members, more{given: "FramesGiven"}},
		"ToFrame": {"To frame", Members, more{given: "FramesGiven"}}, "FramesGiven": {"", Members, more{}}, "Spacing": {"Spacing", Members, more{size: true}},
		"Fastening": {"Fastening", Members, more{}}, "Condition": {"Condition", Rest, more{given: "CondGiven"}}, "CondGiven": {"", Rest, more{}},
		"Survey": {"Survey ref", Rest, more{}},
	},
	"Item": {
		"Description": {"Description", Members, more{}}, "Quantity": {"Quantity", Quantities, more{}}, "Unit": {"Unit", Quantities, more{}},
		"Cost": {"Cost", Members, more{}}, "CostKind": {"Cost kind", Members, more{}},
	},
	"BuildUp": {
		"Name": {"Build-up", Norms, more{}}, "Part": {"Kind", Norms, more{}}, "Item": {"Key", Norms, more{}}, "By": {"Measured by", Norms, more{also: "Per"}}, "Per": {"", Norms, more{}},
		"Quantity": {"Quantity", Norms, more{}}, "Waste": {"Waste %", Norms, more{}}, "Note": {"Note", Norms, more{}}, "ByPriceBk": {"", Norms, more{}},
	},
	"Norm": {
		"Task": {"Task", Norms, more{}}, "Description": {"Description", Norms, more{}}, "Trade": {"Trade", Norms, more{}}, "Hours": {"Hours", Norms, more{}},
		"Unit": {"Unit", Norms, more{}}, "SetUp": {"Set-up hours", Norms, more{}}, "Learning": {"Learning %", Norms, more{}}, "Place": {"Place", Norms, more{}},
		"Source": {"Source", Norms, more{}}, "From": {"From", Norms, more{}},
	},
	"Fastening": {
		"Rule": {"Rule", Norms, more{}}, "Over": {"Plank over", Norms, more{size: true}}, "To": {"Plank to", Norms, more{size: true}}, "Each": {"Each crossing", Norms, more{}},
		"Material": {"Material", Norms, more{}}, "Source": {"Source", Norms, more{}},
	},
	"Labour": {
		"Trade": {"Trade", Pay, more{}}, "Rate": {"Rate", Pay, more{}}, "Pay": {"Pay", Pay, more{}}, "Paid": {"Paid hours a year", Pay, more{}},
		"Worked": {"Worked hours a year", Pay, more{}}, "OnCosts": {"On-costs %", Pay, more{}}, "Other": {"Other costs an hour", Pay, more{}},
		"Men": {"Men", Pay, more{given: "MenGiven"}}, "MenGiven": {"", Pay, more{}}, "From": {"From", Pay, more{}},
	},
	"Timber": {
		"Timber": {"Timber", TimberPlan, more{}}, "Botanical": {"Botanical name", TimberPlan, more{}}, "Density": {"Density", TimberPlan, more{}},
		"Tangential": {"Tangential %", TimberPlan, more{}}, "Radial": {"Radial %", TimberPlan, more{}}, "SawnAt": {"Sawn at MC %", TimberPlan, more{given: "Dries"}},
		"InUse": {"In use MC %", TimberPlan, more{given: "Dries"}}, "Dries": {"", TimberPlan, more{}}, "Planing": {"Planing a face", TimberPlan, more{size: true}},
		"Kerf": {"Kerf", TimberPlan, more{size: true}}, "Durability": {"Durability class", TimberPlan, more{}}, "Source": {"Source", TimberPlan, more{}},
	},
	"Stock": {
		"Stock": {"Stock", TimberPlan, more{}}, "Timber": {"Timber", TimberPlan, more{}}, "Form": {"Form", TimberPlan, more{}},
		"Thickness": {"Thickness", TimberPlan, more{size: true}}, "Width": {"Width", TimberPlan, more{size: true}}, "Length": {"Length", TimberPlan, more{}},
		"TopDiameter": {"Top diameter", TimberPlan, more{size: true}}, "MidGirth": {"Mid girth", TimberPlan, more{size: true}}, "Taper": {"Taper", TimberPlan, more{size: true}},
		"Sapwood": {"Sapwood", TimberPlan, more{size: true}}, "Bark": {"Bark", TimberPlan, more{size: true}}, "Sweep": {"Sweep", TimberPlan, more{size: true}},
		"EndTrim": {"End trim", TimberPlan, more{size: true}}, "Loss": {"Loss %", TimberPlan, more{}}, "Yield": {"Yield %", TimberPlan, more{}},
		"Available": {"Available", TimberPlan, more{given: "Limited"}}, "Limited": {"", TimberPlan, more{}}, "ByOwner": {"Supplied by", TimberPlan, more{no: "yard", yes: "owner"}},
		"Price": {"Price", TimberCost, more{}}, "Unit": {"Unit", TimberCost, more{}}, "Measure": {"Measured by", TimberCost, more{}},
		"Sawing": {"Sawing charge", TimberCost, more{}}, "SawingUnit": {"Sawing unit", TimberCost, more{}}, "Delivery": {"Delivery", TimberCost, more{}},
		"Supplier": {"Supplier", TimberPlan, more{}}, "LeadWeeks": {"Lead weeks", TimberPlan, more{given: "LeadGiven"}}, "LeadGiven": {"", TimberPlan, more{}},
		"From": {"From", TimberCost, more{}},
	},
	"Material": {
		"Material": {"Material", Materials, more{}}, "Description": {"Description", Materials, more{}}, "Unit": {"Unit", Materials, more{}}, "Pack": {"Pack", Materials, more{}},
		"Price": {"Price", Materials, more{}}, "Supplier": {"Supplier", Materials, more{}}, "From": {"From", Materials, more{}},
	},
	"Plant": {
		"Plant": {"Plant", Plant, more{}}, "Description": {"Description", Plant, more{}}, "Fixed": {"Fixed", Plant, more{}}, "Weekly": {"A week", Plant, more{}},
		"Each": {"Each", Plant, more{}}, "Unit": {"Unit", Plant, more{}}, "From": {"From", Plant, more{}},
	},
	"Subcontract": {
		"Work": {"Work", Plant, more{}}, "Description": {"Description", Plant, more{}}, "Unit": {"Unit", Plant, more{}}, "Price": {"Price", Plant, more{}},
		"Least": {"Least charge", Plant, more{}}, "Supplier": {"Supplier", Plant, more{}}, "From": {"From", Plant, more{}},
	},
	"Sum": {
		"Ref": {"Ref", Sums, more{}}, "Section": {"Section", Sums, more{}}, "Description": {"Description", Sums, more{}}, "Kind": {"Kind", Sums, more{}},
		"Amount": {"Amount", Sums, more{}}, "Profit": {"Profit %", Sums, more{}}, "Attendance": {"Attendance", Sums, more{}}, "Stage": {"Stage", Sums, more{}},
		"LeadWeeks": {"Lead weeks", Sums, more{}}, "Deposit": {"Deposit %", Sums, more{}}, "VAT": {"VAT", VAT, more{}}, "Funding": {"Funding", Rest, more{}},
		"QuotedBy": {"Quoted by", Rest, more{}}, "QuotedOn": {"Quoted on", Rest, more{}}, "Note": {"Note", Rest, more{}},
	},
	"Daywork": {"Of": {"Trade or kind", Sums, more{}}, "Quantity": {"Hours or amount", Sums, more{}}, "Addition": {"Addition %", Sums, more{}}},
	"Addition": {
		"Kind": {"Kind", Additions, more{}}, "Overheads": {"Overheads %", Additions, more{}}, "Profit": {"Profit %", Additions, more{}},
	},
	"Risk": {
		"Ref": {"Ref", Additions, more{}}, "Description": {"Description", Additions, more{}}, "Section": {"Section", Additions, more{}}, "Chance": {"Chance %", Additions, more{}},
		"Least": {"Least", Additions, more{}}, "Likely": {"Likely", Additions, more{}}, "Most": {"Most", Additions, more{}}, "ExtraWeeks": {"Extra weeks", Additions, more{}},
		"Note": {"Note", Rest, more{}},
	},
	"Clause": {"Terms": {"Part", Rest, more{}}, "Words": {"Clause", Rest, more{}}, "InPlaceOf": {"In place of", Rest, more{}}},
	"Stage": {
		"Stage": {"Stage", Programme, more{}}, "After": {"After", Programme, more{}}, "Lag": {"Lag weeks", Programme, more{}}, "LeastWeeks": {"Least weeks", Programme, more{}},
		"Note": {"Note", Rest, more{}},
	},
	"Gang":    {"Stage": {"Stage", Programme, more{}}, "Trade": {"Trade", Programme, more{}}, "Men": {"Men", Programme, more{}}},
	"Closure": {"From": {"From", Programme, more{}}, "To": {"To", Programme, more{}}, "Reason": {"Reason", Rest, more{}}},
	"Preliminary": {
		"Ref": {"Ref", Programme, more{}}, "Description": {"Description", Programme, more{}}, "Kind": {"Kind", Programme, more{}}, "Plant": {"Plant", Programme, more{}},
		"Quantity": {"Quantity", Programme, more{}}, "Fixed": {"Fixed", Programme, more{given: "FixedGiven"}}, "FixedGiven": {"", Programme, more{}},
		"Weekly": {"A week", Programme, more{given: "WeeklyGiven"}}, "WeeklyGiven": {"", Programme, more{}},
		"FromStage": {"From stage", Programme, more{}}, "ToStage": {"To stage", Programme, more{}}, "Weeks": {"Weeks", Programme, more{given: "WeeksGiven"}},
		"WeeksGiven": {"", Programme, more{}}, "Charged": {"Charged by", Programme, more{}}, "Trade": {"Trade", Programme, more{}}, "HoursAWeek": {"Hours a week", Programme, more{}},
		"Share": {"% of", Programme, more{given: "ShareGiven"}}, "ShareGiven": {"", Programme, more{}}, "Of": {"Of", Programme, more{}},
		"VAT": {"VAT", VAT, more{}}, "Funding": {"Funding", Rest, more{}}, "Note": {"Note", Rest, more{}},
	},
	"VAT": {
		"Code": {"Code", VAT, more{}}, "Category": {"Category", VAT, more{}}, "Meaning": {"Meaning", VAT, more{}}, "Rate": {"Rate %", VAT, more{}},
		"Otherwise": {"Otherwise", VAT, more{}}, "From": {"From", VAT, more{}},
	},
	"PriceList": {
		"List": {"List", Rest, more{}}, "Sheet": {"Kind", Rest, more{}}, "Key": {"Key under", Rest, more{}}, "Price": {"Price under", Rest, more{}},
		"Unit": {"Unit under", Rest, more{}}, "From": {"From under", Rest, more{}}, "Supplier": {"Supplier under", Rest, more{}},
		"Per": {"Priced per", Rest, more{}}, "Mark": {"Decimal mark", Rest, more{}},
	},
}

// sheet is how the rows of a sheet are told apart and taken over.
type sheet struct {
	name   string
	keys   []string // fields that name a row
	named  int      // how many of them name what other sheets call by; the rest tell its rows apart
	words  []string // fields that say in words what a row is, the first that has any
	enters Kind     // step in which a row is put in
	leaves Kind     // step in which a row is taken out
}

// called is a sheet whose rows others name: what is new in it comes with the members, and
// what is gone stays until nothing can name it.
func called(name string, named int, words []string, keys ...string) sheet {
	return sheet{name: name, keys: keys, named: named, words: words, enters: Members, leaves: Rest}
}

// within is a sheet that is taken over in one step.
func within(name string, step Kind, words []string, keys ...string) sheet {
	return sheet{name: name, keys: keys, words: words, enters: step, leaves: step}
}

// sheetsOf is every sheet of rows, by the type of its row.
var sheetsOf = map[string]sheet{
	"Section":     called("Sections", 1, []string{"Title"}, "Section"),
	"Member":      within("Members", Members, []string{"Description", "Member"}, "Ref"),
	"Item":        within("Items", Members, []string{"Description"}, "Ref"),
	"BuildUp":     called("Build-ups", 1, nil, "Name", "Part", "Item"),
	"Norm":        called("Norms", 1, []string{"Description"}, "Task"),
	"Labour":      called("Labour", 1, nil, "Trade"),
	"Timber":      called("Timber", 1, nil, "Timber"),
	"Stock":       called("Stock", 1, nil, "Stock"),
	"Material":    called("Materials", 1, []string{"Description"}, "Material"),
	"Plant":       called("Plant", 1, []string{"Description"}, "Plant"),
	"Subcontract": called("Subcontract", 1, []string{"Description"}, "Work"),
	"VAT":         called("VAT", 1, []string{"Meaning"}, "Code"),
	"Fastening":   called("Fastenings", 1, nil, "Rule", "Material"),
	"Preliminary": within("Preliminaries", Programme, []string{"Description"}, "Ref"),
	"Sum":         within("Sums", Sums, []string{"Description"}, "Ref"),
	"Daywork":     within("Dayworks", Sums, nil, "Of"),
	"Stage":       within("Stages", Programme, nil, "Stage"),
	"Gang":        within("Gangs", Programme, nil, "Stage", "Trade"),
	"Closure":     within("Closures", Programme, []string{"Reason"}, "From"),
	"Risk":        within("Risks", Additions, []string{"Description"}, "Ref"),
	"Clause":      within("Clauses", Rest, []string{"Words"}, "Terms", "InPlaceOf"),
	"PriceList":   within("Lists", Rest, nil, "List"),
	"Addition":    within("Overheads and profit", Additions, nil, "Kind"),
}
