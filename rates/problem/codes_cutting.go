package problem

// The codes of cutting: stock that is wanting, too small or too little, and
// stock that cannot be reckoned with.
const (
	StockNone     Code = "stock-none"
	StockTooSmall Code = "stock-too-small"
	StockShort    Code = "stock-short"
	StockUnusable Code = "stock-unusable"
	HeartNotHad   Code = "heart-not-had"
)

func cutting() []Facts {
	return []Facts{
		{StockNone, Error,
			"No stock line gives the row its timber on the tender date: the Stock sheet has none of it that serves such a row, or every line begins later.",
			`Members: Treatment "renew", Timber "larch", Stock blank, where Stock has no line of "larch"`,
			"Put a stock line of the timber in Stock whose From is blank or not after the tender date; knees, spars and the owner's timber serve only rows that name them in Stock, logs also straight square pieces, crooks also pieces with a Sweep."},
		{StockTooSmall, Error,
			"No stick is big enough for the piece, once ends are trimmed, bark and sapwood are off and what planing, drying, bevel and sweep ask is added to it.",
			`Members: Length 20', Sided 2", Moulded 14", Timber "Oak", where the widest "Oak" in Stock is 12"`,
			"Put bigger stock in Stock, or have the piece in several with a Joint; the message names the nearest stick there is."},
		{StockShort, Error,
			"There is stock of the right size, but Available is less than what is wanted of it.",
			`Members: Nr 4, Stock "oak crook", where Stock gives "oak crook" Available 3`,
			"Raise Available if there is more to be had, name other stock, or add a stock line."},
		{StockUnusable, Error,
			"The stock line cannot be reckoned with: its price does not suit its measures, or nothing is left of a stick once it is trimmed.",
			`Stock: Form "plank", Unit "hft"`,
			"Price it by a unit that suits its form, and give the dimensions that unit is reckoned from; the message says which is wrong."},
		{HeartNotHad, Error,
			"The heart is to be boxed in the piece, which a plank, flitch, crook or knee does not give.",
			`Members: Heart "boxed", Timber "oak", where every stock line of "oak" is a plank`,
			"Put a baulk, a log or timber by the cube in Stock, bind the row to a spar, or leave Heart blank."},
	}
}
