// Package rates is the price book: what things cost and how long they take.
//
// What comes in is rows as the yard wrote them, each with the cell it came
// from and, where prices move, the day it holds from. What goes out is the row
// in force on a day, and the two prices that a row makes by itself: the all-in
// hour of a trade and the price of one stick of timber. Nothing of any job is
// priced here.
//
// One figure worked: pay of 16.50 for 2,080 h paid, with on-costs of 22 % and
// 1,710 h worked, and 1.35 of other costs an hour, is
// 16.50 x 2080 x 1.22 / 1710 + 1.35 = 25.84 an hour.
package rates

import (
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// Book is all price tables of one job. Every table holds the rows in the order
// of the workbook, history included; a job's own rows come before those of a
// price book kept apart.
type Book struct {
	BuildUps     []BuildUp
	Norms        []Norm
	Labour       []Labour
	Timber       []Timber
	Stock        []Stock
	Materials    []Material
	Plant        []Plant
	Subcontract  []Subcontract
	VAT          []VAT
	Fastenings   []Fastening
	Lists        []PriceList
	BookProvided bool // some rows came from a price book kept apart
}

// Key is a key as it is compared: spaces folded, case aside, and the curled
// quotes and long hyphens that spreadsheets put in while one types made plain.
func Key(s string) string {
	if isKey(s) {
		return s
	}
	return strings.ToLower(strings.Join(strings.Fields(plain.Replace(s)), " "))
}

// isKey reports that text is a key as it stands, as most is that is compared: of
// one byte a letter, none of them a capital, and spaces single and within.
func isKey(s string) bool {
	blank := true // at the beginning, or after a space
	for i := range len(s) {
		c := s[i]
		if c >= 0x80 || 'A' <= c && c <= 'Z' || '\t' <= c && c <= '\r' || c == ' ' && blank {
			return false
		}
		blank = c == ' '
	}
	return s == "" || !blank
}

// plain writes quotes, marks of feet and inches, and hyphens of any shape as
// the keyboard has them.
var plain = strings.NewReplacer(
	"‘", "'", "’", "'", "′", "'", "“", `"`, "”", `"`, "″", `"`,
	"‐", "-", "‑", "-", "–", "-", "−", "-",
)

// Same reports whether two keys name the same thing.
func Same(a, b string) bool { return a == b || Key(a) == Key(b) }

// dated is a row that holds from a day. A zero day is from the beginning.
type dated interface {
	key() string
	from() time.Time
	at() origin.Cell
}

// inForce is the row of a key whose day is the latest not after the given day;
// of two with the same day the first stands. A job's own row goes before every
// row of a price book kept apart, however new that is. It returns false where
// there is none.
func inForce[T dated](rows []T, key string, day time.Time) (T, bool) {
	var best T
	found := false
	for _, r := range rows {
		if !Same(r.key(), key) || r.from().After(day) {
			continue
		}
		if !found || r.at().Book == best.at().Book && r.from().After(best.from()) {
			best, found = r, true
		}
	}
	return best, found
}

// each is the row in force of every key, in the order in which keys first appear.
func each[T dated](rows []T, day time.Time) []T {
	var out []T
	seen := map[string]bool{}
	for _, r := range rows {
		k := Key(r.key())
		if seen[k] {
			continue
		}
		seen[k] = true
		if in, ok := inForce(rows, r.key(), day); ok {
			out = append(out, in)
		}
	}
	return out
}

// Driver is what a norm, material, plant or subcontracted work is measured by.
type Driver string

// The drivers. Each is reckoned by takeoff for every row of the schedule.
const (
	ByNr         Driver = "nr"
	ByLength     Driver = "length"
	ByFace       Driver = "face area"
	ByGirth      Driver = "girth area"
	ByVolume     Driver = "volume"
	BySeam       Driver = "seam"
	ByFastening  Driver = "fastening"
	ByJoint      Driver = "joint"
	ByJointToOld Driver = "joint to old work"
	ByWeight     Driver = "weight"
	ByOldVolume  Driver = "old volume"
	ByItem       Driver = "item"
)

// Drivers is the closed list in its printed order.
func Drivers() []Driver {
	return []Driver{ByNr, ByLength, ByFace, ByGirth, ByVolume, BySeam, ByFastening,
		ByJoint, ByJointToOld, ByWeight, ByOldVolume, ByItem}
}

// Dimension is what the driver measures.
func (d Driver) Dimension() measure.Dimension {
	switch d {
	case ByLength, BySeam:
		return measure.LinearMeasure
	case ByFace, ByGirth:
		return measure.AreaMeasure
	case ByVolume, ByOldVolume:
		return measure.VolumeMeasure
	case ByWeight:
		return measure.Mass
	case ByItem:
		return measure.Item
	}
	return measure.Count
}

// Kind is the kind of a cost, and what overheads and profit are added by.
type Kind string

// The kinds of cost.
const (
	OfLabour        Kind = "labour"
	OfTimber        Kind = "timber"
	OfMaterials     Kind = "materials"
	OfPlant         Kind = "plant"
	OfSubcontract   Kind = "subcontract"
	OfPreliminaries Kind = "preliminaries"
)

// Kinds is the closed list in its printed order.
func Kinds() []Kind {
	return []Kind{OfLabour, OfTimber, OfMaterials, OfPlant, OfSubcontract, OfPreliminaries}
}

// BuildUp is one row of a build-up: the tasks, materials, plant and
// subcontracted work that one line of the schedule takes.
type BuildUp struct {
	At        origin.Cell
	Name      string
	Part      Part
	Item      string // key of the norm, material, plant or work
	By        Driver
	Per       measure.Unit // what Quantity is for one of; blank takes the unit of the key
	Quantity  decimal.Decimal
	Waste     money.Percent // added to net
	Note      string
	ItemAt    origin.Cell // the cell of the key
	DriverAt  origin.Cell // the cell of Measured by
	ByPriceBk bool        // from the price book kept apart
}

// Part is the table a row of a build-up draws on.
type Part string

// The parts a build-up is made of.
const (
	Task         Part = "task"
	MaterialPart Part = "material"
	PlantPart    Part = "plant"
	WorkPart     Part = "subcontract"
)

// Parts is the closed list in its printed order.
func Parts() []Part { return []Part{Task, MaterialPart, PlantPart, WorkPart} }

// BuildUp is the rows of a build-up in the order of the workbook; none means
// that there is no such build-up. Rows of the job's own workbook hide those of
// the price book under the same name.
func (b *Book) BuildUp(name string) []BuildUp {
	var own, other []BuildUp
	for _, r := range b.BuildUps {
		if !Same(r.Name, name) {
			continue
		}
		if r.ByPriceBk {
			other = append(other, r)
		} else {
			own = append(own, r)
		}
	}
	if len(own) > 0 {
		return own
	}
	return other
}
