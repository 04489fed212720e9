package sheets

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// Estimate is the yard's private working: how every figure of the bill was
// reached, down to the prices and the cells they came from. It is a working
// model: what is arithmetic on other cells is a live formula that rounds where
// the reckoning rounds, so that a price changed in it moves the total. What was
// solved for (sticks, weeks, learning, sawn volumes) stays as it was priced. The
// result must be free of errors.
func Estimate(r estimate.Result) *grid.Book {
	w := newWorking(r)
	w.prices()
	w.buildUps()
	w.members()
	w.fabric()
	w.quantities()
	w.hours()
	w.timber()
	w.makeUp()
	w.hoursByItem()
	w.timberOrder()
	w.materialOrder()
	w.cutting()
	w.logs()
	w.reconciliation()
	w.programme()
	w.charges()
	w.sums()
	w.dayworks()
	w.contingency()
	w.risk()
	w.cashFlow()
	w.summary()

	book := &grid.Book{
		Title:    "Estimate, " + r.Job.Vessel,
		Subject:  "Tender " + r.Job.Reference + ", the yard's private working",
		Creator:  r.Job.Yard,
		Language: "en-GB",
		Stamp:    r.Job.TenderDate,
	}
	for _, p := range w.inOrder() {
		p.Print.Paper = paperOf(r.Job.Paper)
		p.Print.FitWidth, p.Print.OwnPaper, p.Print.Full = true, true, true // for the yard alone, and for the paper it is set up for
		p.Print.Header = "&L" + headerText(r.Job.Vessel) + "&CPrivate to the yard&R" + headerText(r.Job.Reference)
		p.Print.Footer = "&L" + headerText(r.Job.Yard) + "&R" + p.Name + ", page &P of &N"
		p.Close = true
		p.join()
		book.Sheets = append(book.Sheets, p.Sheet)
	}
	return book
}

const (
	makeUpSheet    = "Make-up"
	priceSheet     = "Prices used"
	buildUpSheet   = "Build-ups"
	memberSheet    = "Members"
	fabricSheet    = "Old fabric"
	hourSheet      = "Hours"
	matrixSheet    = "Hours by item"
	quantitySheet  = "Quantities"
	timberSheet    = "Timber bought"
	orderSheet     = "Timber order"
	logSheet       = "Logs"
	materialSheet  = "Materials order"
	cuttingSheet   = "Cutting"
	programmeSheet = "Programme"
	riskSheet      = "Risk"
	cashSheet      = "Cash"
	reconcileSheet = "Reconciliation"
)

// working is the estimate while it is laid out: its pages, and where each
// figure that others read came to stand.
type working struct {
	estimate.Result
	sign   string
	within bool // the contingency stands within the rates
	units  units
	vat    *ledger // analyses amounts by VAT code, as the bill does
	pages  map[string]*page
	rows   map[string]takeoff.Row // by Ref

	trades, materials, plants, fixed, weekly   cells // prices, by key
	subcontract, least, norms, setUps, density cells
	sticks, losses                             cells
	cubes                                      map[string]cubed
	builds                                     map[origin.Cell]buildUpCells // rows of build-ups
	rules                                      map[origin.Cell]string       // how many at each crossing, of rows of fastening rules
	overheads, profits, taxes                  cells
	measured                                   map[string]memberCells // of a row of the schedule, by Ref
	fastened                                   map[fastenKey]string   // number of fastenings of a rule row
	asked                                      map[costKey]string     // quantity of a cost line as rows of the schedule ask it
	quantityOf                                 map[costKey]string     // quantity of a cost line in the make-up
	ordered                                    []orderedCells         // by place in Plan.Order
	lines                                      map[lineKey]string     // hours of a row and trade
	stageHours                                 map[lineKey]string     // hours in the total of a stage and trade
	allHours                                   string
	shares                                     map[shareKey]string
	items                                      []itemRows        // by place in Priced.Items
	firstOf                                    map[string]string // first item of a section in the make-up
	membersOf                                  map[string]string // band of a section in the sheet of members
	reconciledOf                               map[string]string // band of a section in the reconciliation
	backs                                      []back            // what leads back to the summary
	blocks                                     []int             // first rows of the tables of prices
	reconciled                                 map[string]int    // row of an item in the total, by Ref
	sections                                   []sectionCells
	itemTotals                                 sectionCells
	idle                                       map[string][]string // idle hours of a trade, by stage
	prelims, sumTotal, sumProfit, dayTotal     string
	held, onSite                               string
	chargeRows                                 [2]int // first and last of the preliminaries
	yielded                                    yielded
	fabricAll                                  int // row of all sections in the sheet of old fabric
}

// cells are places of figures by the key they are looked up by.
type cells map[string]string

// of is the place of a key's figure. Everything priced was found in the price
// book, so a key without a place is a fault of ours.
func (c cells) of(what, key string) string {
	at, ok := c[rates.Key(key)]
	if !ok {
		panic(fmt.Sprintf("sheets: %s %q was priced and has no place in the working", what, key))
	}
	return at
}

func (c cells) set(key, at string) { c[rates.Key(key)] = at }

// units are what the working shows sizes in: those of the job, feet and inches
// or metres and millimetres.
type units struct{ length, size, area, volume measure.Unit }

// lineKey is a row of the schedule or a stage, with a trade.
type lineKey struct{ of, trade string }

func newWorking(r estimate.Result) *working {
	w := &working{
		Result: r, sign: wording.Sign(r.Job.Currency), within: r.Job.ContingencyShown == job.WithinRates,
		units: units{measure.M, measure.Mm, measure.M2, measure.M3},
		vat:   &ledger{Result: r, analysis: map[string][]string{}},
		pages: map[string]*page{}, rows: map[string]takeoff.Row{},
		trades: cells{}, materials: cells{}, plants: cells{}, fixed: cells{}, weekly: cells{},
		subcontract: cells{}, least: cells{}, norms: cells{}, setUps: cells{}, density: cells{},
		sticks: cells{}, losses: cells{}, cubes: map[string]cubed{}, builds: map[origin.Cell]buildUpCells{}, rules: map[origin.Cell]string{}, overheads: cells{}, profits: cells{}, taxes: cells{},
		measured: map[string]memberCells{}, fastened: map[fastenKey]string{}, asked: map[costKey]string{}, quantityOf: map[costKey]string{},
		lines: map[lineKey]string{}, stageHours: map[lineKey]string{}, shares: map[shareKey]string{},
		firstOf: map[string]string{}, membersOf: map[string]string{}, reconciledOf: map[string]string{}, reconciled: map[string]int{}, idle: map[string][]string{},
	}
	if u := r.Job.LengthsIn; u == measure.Ft || u == measure.In {
		w.units.length, w.units.area, w.units.volume = measure.Ft, measure.Ft2, measure.Ft3
	}
	if u := r.Job.SizesIn; u == measure.Ft || u == measure.In {
		w.units.size = measure.In
	}
	if len(r.Bill.VAT) > 1 {
		for _, t := range r.Bill.VAT {
			w.vat.codes = append(w.vat.codes, t.Code)
		}
	}
	for _, row := range r.Takeoff.Rows {
		w.rows[row.Work.Ref] = row
	}
	return w
}

// inOrder is the pages that were laid out, in the order of the workbook.
func (w *working) inOrder() []*page {
	var out []*page
	for _, name := range []string{summarySheet, makeUpSheet, priceSheet, buildUpSheet, memberSheet, fabricSheet, hourSheet, matrixSheet, quantitySheet, timberSheet,
		orderSheet, materialSheet, cuttingSheet, logSheet, programmeSheet, prelimSheet, sumSheet, daySheet, heldSheet, riskSheet, cashSheet, reconcileSheet} {
		if p := w.pages[name]; p != nil {
			out = append(out, p)
		}
	}
	return out
}

// page begins a sheet of the working with its title and what there is to know
// of it.
func (w *working) page(name, text, note string, widths ...float64) *page {
	p := newPage(name, widths...)
	p.Print.Landscape = !upright(widths)
	p.add(words(text, title))
	p.add(words(w.Job.Vessel+", tender "+w.Job.Reference+": the yard's private working, not for the client", subtitle))
	if note != "" {
		n := p.add(words(note, remark))
		p.merge(n, 1, len(widths))
	}
	p.gap()
	w.pages[name] = p
	return p
}

// convert is a formula for a figure in one unit, put into another of the same
// dimension.
func convert(cell string, from, to measure.Unit) string {
	if from == to || from.Size().Equal(to.Size()) {
		return cell
	}
	if in := to.Size().DivRound(from.Size(), 12); in.IsInteger() {
		return cell + "/" + in.String()
	}
	formula := cell + "*" + from.Size().String()
	if !to.Size().Equal(decimal.New(1, 0)) {
		formula += "/" + to.Size().String()
	}
	return formula
}

// place is a cell of the yard's workbook as the working names it, with the
// workbook where it is not the job's own.
func (w *working) place(at origin.Cell) grid.Cell {
	if at.Book == w.Job.Book {
		at.Book = ""
	}
	s := aside
	s.Wrap = false
	return words(at.String(), s)
}

// in is the cell of a row under a heading of its sheet; the row's own where the
// sheet has no such column.
func (w *working) in(row origin.Cell, heading string) origin.Cell {
	if col, known := w.Job.Columns[job.Heading{Book: row.Book, Sheet: row.Sheet, Heading: heading}]; known {
		return row.In(col)
	}
	return row
}

// rounded is quantity times rate as a cost line rounds it.
func rounded(quantity, rate string) string { return "ROUND(" + quantity + "*" + rate + ",2)" }

// costed are the cells of a cost with the overheads and profit of its kind,
// from the column its cost stands in to the column of the sum.
func (w *working) costed(row, col int, cost string, k price.Kind) []grid.Cell {
	return []grid.Cell{
		sumBy(cost, k.Cost, plain),
		live(w.overheads.of("kind", string(k.Kind)), k.OverheadsPercent.Fraction(), percentFormat(k.OverheadsPercent)),
		sumBy(rounded(at(col, row), at(col+1, row)), k.Overheads, plain),
		live(w.profits.of("kind", string(k.Kind)), k.ProfitPercent.Fraction(), percentFormat(k.ProfitPercent)),
		sumBy("ROUND(("+at(col, row)+"+"+at(col+2, row)+")*"+at(col+3, row)+",2)", k.Profit, plain),
	}
}

// percentFormat shows a percentage to a tenth at least, so that one typed over
// it shows too.
func percentFormat(p money.Percent) string {
	if f := percentStyle(plain, p).Format; f != "0%" {
		return f
	}
	return "0.0%"
}
