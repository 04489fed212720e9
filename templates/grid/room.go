package grid

// What a spreadsheet program has room for.
const (
	MostRows    = 1_048_576 // in a sheet
	MostColumns = 16_384
	MostText    = 32_767 // characters in a cell, those beyond the first plane counting twice
	MostFormula = 8_192  // characters in a formula
	MostLinks   = 65_529 // that lead from a sheet
)
