package measure

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"sync"

	"github.com/shopspring/decimal"
)

// The log scales say how many board feet a log will saw. All three read the
// diameter at the top under bark to the nearest whole inch, a half upward, and
// the length down to the whole foot, as a scaler does: what is over is trim.

// Doyle is the board feet of the log by the Doyle rule,
//
//	(D - 4)2 L / 16
//
// rounded half up, for tops of 6 to 36 inches. Source: Briggs, Forest Products
// Measurements and Conversion Factors (1994), appendix 3.
func (g Log) Doyle() (Quantity, error) {
	in, ft, err := g.scaled()
	if err != nil {
		return Quantity{}, err
	}
	if in < 6 || in > 36 || ft < 4 {
		return Quantity{}, outside("doyle", in, ft, "tops of 6 to 36 inches and lengths from 4 feet")
	}
	return boardFeet((2*(in-4)*(in-4)*ft + 16) / 32), nil
}

// International is the board feet of the log by the International 1/4-inch
// rule: the printed table for tops of 6 to 30 inches and lengths of 6 to 16
// feet by even feet, and beyond it, to 60 inches and 40 feet, the rule the table was
// made by. That takes the log in sections of 4 feet, each of
//
//	0.905 (0.22 D2 - 0.71 D)
//
// with D half an inch more for each section from the top, a short section at
// the butt in proportion, and the sum to the nearest 5. In three cells the
// table stands one step above the rule, and there the table holds. Source:
// Briggs (1994), appendix 3 table 1.
func (g Log) International() (Quantity, error) {
	in, ft, err := g.scaled()
	if err != nil {
		return Quantity{}, err
	}
	if bf, ok := international()[scaleCell{in, ft}]; ok {
		return boardFeet(bf), nil
	}
	if in < 6 || in > 60 || ft < 4 || ft > 40 {
		return Quantity{}, outside("international", in, ft, "tops of 6 to 60 inches and lengths of 4 to 40 feet")
	}
	return boardFeet(bySections(in, ft)), nil
}

// Scribner is the board feet of the log by the Scribner scale in its decimal
// (C) form, which is a table and no formula: tops of 6 to 40 inches, lengths of
// 6 to 20 feet by even feet, an odd foot being dropped. Outside the table it is
// refused. Sources: Wengert, Log Volume (2001), and the factors and exceptions
// of the United States Forest Service's volume library; the row says which.
func (g Log) Scribner() (Quantity, error) {
	in, ft, err := g.scaled()
	if err != nil {
		return Quantity{}, err
	}
	bf, ok := scribner()[scaleCell{in, ft - ft%2}]
	if !ok {
		return Quantity{}, outside("scribner", in, ft, "the table, tops of 6 to 40 inches and lengths of 6 to 20 feet")
	}
	return boardFeet(bf), nil
}

// scaled is the top in whole inches and the length in whole feet.
func (g Log) scaled() (in, ft int64, err error) {
	if err := g.sound(); err != nil {
		return 0, 0, err
	}
	top, err := g.top()
	if err != nil {
		return 0, 0, err
	}
	return top.DivRound(In.Size(), 0).IntPart(), int64(g.Length / Foot), nil
}

func boardFeet(n int64) Quantity { return Of(decimal.New(n, 0), BF) }

func outside(rule string, in, ft int64, holds string) error {
	return fmt.Errorf("a top of %d inches and a length of %d feet lie outside the %s scale, which holds for %s", in, ft, rule, holds)
}

// bySections is the International 1/4-inch rule in whole numbers. With h the
// diameter in half inches, 0.22 D2 - 0.71 D is (22 h2 - 142 h) / 400.
func bySections(in, ft int64) int64 {
	section := func(h int64) int64 { return 22*h*h - 142*h }
	var sum int64 // in quarters of a section
	for i := range ft / 4 {
		sum += 4 * section(2*in+i)
	}
	sum += (ft % 4) * section(2*in+ft/4)
	const fives = 5 * 4 * 400 * 1000
	return 5 * ((2*905*sum + fives) / (2 * fives))
}

type scaleCell struct{ in, ft int64 }

//go:embed log_international.csv log_scribner.csv
var scales embed.FS

var (
	international = sync.OnceValue(func() map[scaleCell]int64 { return scale("log_international.csv") })
	scribner      = sync.OnceValue(func() map[scaleCell]int64 { return scale("log_scribner.csv") })
)

// scale reads one of our own tables. A fault in it is ours, and panics.
func scale(name string) map[scaleCell]int64 {
	f, err := scales.Open(name)
	if err != nil {
		panic(fmt.Sprintf("measure: %s: %v", name, err))
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("measure: %s: %v", name, err))
	}
	table := map[scaleCell]int64{}
	for i, r := range rows[1:] {
		var n [3]int64
		for j := range n {
			if n[j], err = strconv.ParseInt(r[j], 10, 64); err != nil {
				panic(fmt.Sprintf("measure: %s: row %d: %v", name, i+2, err))
			}
		}
		cell := scaleCell{n[0], n[1]}
		if _, twice := table[cell]; twice {
			panic(fmt.Sprintf("measure: %s: row %d: a second figure for %d inches and %d feet", name, i+2, cell.in, cell.ft))
		}
		table[cell] = n[2]
	}
	return table
}
