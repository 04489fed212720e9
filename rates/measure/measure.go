// Package measure holds lengths, the quantities reckoned from them, the closed
// list of units that prices, norms and bills are stated in, and the rules by
// which round timber is measured.
//
// What comes in is text from a cell, or numbers with a unit; what goes out is
// a Length or a Quantity. A Length is a whole number of nanometres, so that a
// sixty-fourth of an inch (396,875 nm) and a millimetre are both exact. Areas,
// volumes and masses are decimals in m2, m3 and kg, exact until the stop where
// they are rounded, halves away from zero. Nothing here passes through binary
// floating point.
//
// One figure worked: a plank of 24' 6" by 9" by 2 1/2" is
// 24.5 x 0.75 x 0.208333 = 3.828125 ft3, billed as 3.83 ft3, or 46 board feet.
package measure

import "github.com/shopspring/decimal"

// Pi is the ratio of girth to diameter, to thirty places.
func Pi() decimal.Decimal { return decimal.RequireFromString("3.141592653589793238462643383280") }
