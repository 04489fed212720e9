// Package demo holds the demonstration job as text, one file a sheet, named
// after the sheet in lower case with hyphens: members.tsv, build-ups.tsv. The
// first line of a file is the heading row; cells are parted by tabs, and a
// blank cell is nothing at all.
//
// Vessel, trust, yard, suppliers and prices are invented: a Baltic galeas of
// 1903, refitted to carry cargo and train seafarers. What comes in is nothing;
// what goes out is the files, which package templates turns into the yard
// workbook.
//
// Under quotes stands one file for each of three invented firms that price the
// bill: a row says what it does, on which line or question, with what, and why. The
// first says by what they answer, form or letter. On a form prices follow from the
// yard's own by level, varies and rounds, or from a rate; every row below those
// that asks for neither is a fault or an answer planted on purpose, and says
// whether it is honest.
//
// Refs begin with the key of their section (FR3, PL12), and timbers and stock
// are named as a bill reads them in mid-sentence.
//
// One worked figure, to be found again in the price: a shipwright is paid
// 23.80 for 2,028 h a year with 21.5 % on-costs and works 1,702 h of them,
// beside 5.40 an hour of other costs, so that his hour costs
// 23.80 x 2,028 x 1.215 / 1,702 + 5.40 = 39.86.
package demo

import (
	"embed"
	"io/fs"
)

//go:embed *.tsv quotes/*.tsv
var files embed.FS

// Files is the text of every sheet, by file name at the root, and of every firm's
// quote, by file name under quotes.
func Files() fs.FS { return files }
