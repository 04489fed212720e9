package changes

// Kind is one step of the bridge.
type Kind int

// The steps, in the fixed order in which the new issue is taken over.
const (
	Members    Kind = iota // rows put in, taken out, or of another size, timber or treatment
	Quantities             // number, length and quantity of rows that stay
	Norms                  // build-ups, norms, fastening rules
	Pay                    // what an hour costs
	TimberCost             // prices of timber, the purchase held
	TimberPlan             // timber planned anew
	Materials
	Plant // plant and subcontracted work
	Sums  // sums and dayworks
	Additions
	Programme
	VAT
	Rest // what moves no total
)

// Kinds is the steps in their order.
func Kinds() []Kind {
	return []Kind{Members, Quantities, Norms, Pay, TimberCost, TimberPlan, Materials, Plant, Sums, Additions, Programme, VAT, Rest}
}

// Title is the step as documents call it.
func (k Kind) Title() string {
	return [...]string{
		"Members and items", "Quantities", "Build-ups and norms", "Pay", "Timber prices", "Timber planned anew", "Materials", "Plant and subcontract",
		"Sums and dayworks", "Additions and contingency", "Programme and preliminaries", "Value added tax", "What moves no price",
	}[k]
}

// Means says what of the workbook is taken over in the step.
func (k Kind) Means() string {
	return [...]string{
		"rows of Members and Items put in, taken out or changed in anything but quantity, stage, range and VAT; what they name that the old issue has not comes with them, at its new price",
		"number, length, renewed length, quantity and billed quantity of rows that stay",
		"Build-ups, Norms and Fastenings",
		"Labour",
		"prices, units of sale, sawing and delivery of Stock, the sticks bought and their sawing held as they were",
		"sizes and numbers of Stock, Timber, and how far the cheapest is searched for; all timber is planned anew, once",
		"Materials",
		"Plant and Subcontract",
		"Sums and Dayworks",
		"Overheads and profit, contingency, ranges, Risks, price rises, the tender date",
		"Stages, Gangs, Closures, stages of rows and sections, hours and weeks worked, Preliminaries",
		"VAT, and codes of VAT wherever they stand",
		"names, words, notes, Clauses, funding, payment and particulars of the vessel",
	}[k]
}

// Name is the step as programs read it.
func (k Kind) Name() string {
	return [...]string{"members", "quantities", "norms", "pay", "timber_prices", "timber_plan", "materials", "plant_and_subcontract",
		"sums_and_dayworks", "additions", "programme", "vat", "no_price"}[k]
}
