package templates

import (
	"fmt"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates/origin"
	"futtock/rates/pricelist"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// ListForm is how a list is to be read. A blank heading is found by its usual names.
type ListForm struct {
	Key, Price, Unit, From, Supplier string
	Per                              pricelist.Per         // where no column or heading says so
	Mark                             string                // Comma or Point, as parts the pence; blank is told from the column
	Day                              time.Time             // what the days of the list give way to; zero is none
	Currency                         string                // of the yard's prices; blank is any
	Known                            func(key string) bool // a key of the workbook, by which the column of keys is told from others
}

// PriceList reads a supplier's list: of every sheet that can be seen and has a row
// with headings for the key and the price among its first rows, the lines under
// it. What is no line, such as the title of a group, has no price and is passed
// over. A price that cannot be read leaves out its line.
func PriceList(w grid.Workbook, f ListForm) ([]pricelist.Line, problem.List) {
	r := &listReader{reader: reader{reading: newReading(&job.Particulars{}), book: w}, form: f}
	r.terms.Currency = f.Currency
	var lines []pricelist.Line
	headed := false
	for _, p := range w.Sheets {
		if p.Hidden {
			continue
		}
		if head, ok := r.headings(p); ok {
			headed = true
			lines = append(lines, r.lines(p, head)...)
		}
	}
	if !headed && len(w.Sheets) > 0 {
		r.unheaded(w.Sheets[0])
	}
	return lines, r.found.Sorted(nil)
}

// listReader reads one list.
type listReader struct {
	reader
	form ListForm
}

// listHead is the headings of a list: the columns that may hold the key, and one
// each of the others, nil where there is none.
type listHead struct {
	row                        int
	keys                       []grid.Datum
	price, unit, from, sellers grid.Datum
	per                        pricelist.Per // what the heading of the price says it is for
	gives                      pricelist.Gives
}

// Usual names of headings, the likeliest first.
var (
	keyNames = []string{"key", "code", "article", "article no", "article number", "article code", "item code", "item no", "item",
		"product code", "part no", "stock", "material", "plant", "work", "trade", "product", "name", "description", "article description"}
	priceNames = []string{"net price", "price", "unit price", "net", "new price", "price each", "rate %", "rate", "pay", "cost", "list price"}
	unitNames  = []string{"unit", "per", "price per", "price unit", "unit of measure", "sold by", "uom"}
	fromNames  = []string{"from", "valid from", "effective from", "prices from", "as from", "effective"}
	sellNames  = []string{"supplier", "merchant", "sold from"}
)

// headings is the row of headings of a sheet: the first with one for the key and
// one for the price.
func (r *listReader) headings(p grid.Page) (listHead, bool) {
	for _, l := range p.Rows {
		if l.Row > headingRows {
			break
		}
		h := listHead{row: l.Row, keys: r.columns(l, r.form.Key, keyNames)}
		prices := r.columns(l, r.form.Price, priceNames)
		if len(h.keys) == 0 || len(prices) == 0 {
			continue
		}
		h.price = prices[0]
		base, per := priceHeading(h.price.Raw)
		h.per = per
		switch base {
		case "pay":
			h.gives = pricelist.GivesPay
		case "rate":
			h.gives = pricelist.GivesRate
		}
		if len(prices) > 1 && twin(prices[0], prices[1]) {
			r.say(problem.ListColumns, r.at(p.Name, l.Row, prices[1].Col), fmt.Sprintf("%q and %q may both be the price; name one with --columns", single(prices[0].Raw), single(prices[1].Raw)), "")
			return h, true
		}
		for _, c := range []struct {
			to    *grid.Datum
			named string
			names []string
		}{{&h.unit, r.form.Unit, unitNames}, {&h.from, r.form.From, fromNames}, {&h.sellers, r.form.Supplier, sellNames}} {
			found := r.columns(l, c.named, c.names)
			switch {
			case len(found) > 0:
				*c.to = found[0]
			case c.named != "":
				r.say(problem.ListColumns, r.at(p.Name, l.Row, 0), fmt.Sprintf("the list has no heading %q beside those of its key and price", c.named), "")
			}
		}
		return h, true
	}
	return listHead{}, false
}

// twin reports two headings of one name, whatever they say the price is for.
func twin(a, b grid.Datum) bool {
	x, _ := priceHeading(a.Raw)
	y, _ := priceHeading(b.Raw)
	return x == y
}

// columns are the cells of a row that are headings of a sort, the likeliest first:
// that which was named, or those with usual names.
func (r *listReader) columns(l grid.Line, named string, names []string) []grid.Datum {
	if named != "" {
		names = []string{named}
	}
	var out []grid.Datum
	for _, n := range names {
		for _, d := range l.Cells {
			if d.Kind != grid.Text {
				continue
			}
			base, _ := priceHeading(d.Raw)
			if alike(starless(d.Raw), n) || named == "" && base == n {
				out = append(out, d)
			}
		}
	}
	return out
}

// priceHeading parts what is priced from what it is for: "Price £ per m3, ex VAT" is
// "price" and one cubic metre.
func priceHeading(text string) (string, pricelist.Per) {
	s := fold(starless(text))
	for _, words := range []string{"ex vat", "excl vat", "excl. vat", "excluding vat", "before vat", "net of vat", "gbp", "eur", "usd", "£", "€", "$"} {
		s = strings.ReplaceAll(s, words, " ")
	}
	s = strings.NewReplacer("( ", "(", " )", ")").Replace(strings.Join(strings.Fields(s), " "))
	s = strings.TrimRight(strings.ReplaceAll(s, "()", ""), " ,")
	base, of, ok := strings.Cut(s, " per ")
	if !ok {
		base, of, ok = strings.Cut(s, "/")
	}
	if !ok {
		if base, of = bracketed(s); of == "" {
			return s, pricelist.Per{}
		}
	}
	per, known := pricelist.ParsePer(strings.Trim(of, " ()"))
	if !known {
		return s, pricelist.Per{}
	}
	return strings.Trim(base, " (,"), per
}

// unheaded says which headings were looked for, at the sheet that has none.
func (r *listReader) unheaded(p grid.Page) {
	names := []string{r.form.Key, r.form.Price}
	if names[0] == "" {
		names[0] = "Key"
	}
	if names[1] == "" {
		names[1] = "Price"
	}
	r.say(problem.ListHeadings, r.at(p.Name, 0, 0), fmt.Sprintf("no row of the first %d has headings for the key and the price, such as %s", headingRows, both(names)), "")
}

// lines are the lines under the headings.
func (r *listReader) lines(p grid.Page, h listHead) []pricelist.Line {
	var rows []grid.Line
	for _, l := range p.Rows {
		d := l.Cell(h.price.Col)
		if l.Row > h.row && (!nothing(d) || d.IsFormula()) && !alike(d.Raw, h.price.Raw) {
			rows = append(rows, l)
		}
	}
	key := r.keyColumn(rows, h)
	mark, ok := r.mark(p, rows, h)
	if !ok {
		return nil
	}
	var out []pricelist.Line
	for _, l := range rows {
		if n, ok := r.line(p.Name, l, h, key, mark); ok {
			out = append(out, n)
		}
	}
	return out
}

// keyColumn is the column that holds most keys of the workbook; of several alike
// the likeliest by its heading.
func (r *listReader) keyColumn(rows []grid.Line, h listHead) int {
	best, most := h.keys[0].Col, 0
	if r.form.Known == nil {
		return best
	}
	for _, k := range h.keys {
		n := 0
		for _, l := range rows {
			if r.form.Known(shown(l.Cell(k.Col), r.book.Date1904)) {
				n++
			}
		}
		if n > most {
			best, most = k.Col, n
		}
	}
	return best
}

// line is one line of the list; false where it is left out.
func (r *listReader) line(sheet string, l grid.Line, h listHead, key int, mark string) (pricelist.Line, bool) {
	at := func(col int) origin.Cell { return r.at(sheet, l.Row, col) }
	n := pricelist.Line{At: at(key), PriceAt: at(h.price.Col), UnitAt: at(h.price.Col), Of: h.gives, Per: h.per}
	n.Key = shown(l.Cell(key), r.book.Date1904)
	price := l.Cell(h.price.Col)
	if n.Key == "" {
		r.say(problem.ListPrice, n.PriceAt, fmt.Sprintf("%q stands beside no key", shown(price, r.book.Date1904)), "")
		return n, false
	}
	value, percent, why := r.priceIn(price, h, mark)
	if why != "" {
		r.say(problem.ListPrice, n.PriceAt, fmt.Sprintf("%s; a price of %q is wanted", why, n.Key), "")
		return n, false
	}
	n.Price, n.Percent = value, percent
	if n.Per.Own() {
		n.Per = r.form.Per
	}
	if d := l.Cell(h.unit.Col); h.unit.Col > 0 && !nothing(d) {
		text := shown(d, r.book.Date1904)
		per, ok := pricelist.ParsePer(text)
		n.UnitAt = at(h.unit.Col)
		switch {
		case text == "%":
			n.Percent = true
		case !ok:
			r.say(problem.ListUnit, n.UnitAt, fmt.Sprintf("%q is not what a price may be for; a unit, so many of one, each or a pack is wanted", text), "100 super ft")
			return n, false
		default:
			n.Per = per
		}
	}
	if d := l.Cell(h.from.Col); h.from.Col > 0 && !nothing(d) && r.form.Day.IsZero() {
		day, err := dayOf(d, r.book.Date1904)
		if err != nil {
			r.say(problem.ListDay, at(h.from.Col), fmt.Sprintf("%s; a date is wanted under %q", err, single(h.from.Raw)), "2027-01-01")
			return n, false
		}
		n.From = day
	}
	if h.sellers.Col > 0 {
		n.Supplier = shown(l.Cell(h.sellers.Col), r.book.Date1904)
	}
	return n, true
}

// priceIn is the price in a cell, whether it is shown as a percentage, and why there
// is none.
func (r *listReader) priceIn(d grid.Datum, h listHead, mark string) (decimal.Decimal, bool, string) {
	found := shown(d, r.book.Date1904)
	said := ""
	switch {
	case d.Kind == grid.Fault:
		return d.Value, false, fmt.Sprintf("the spreadsheet shows the error %s", found)
	case d.IsFormula() && d.Kind == grid.Blank:
		return d.Value, false, fmt.Sprintf("the formula =%s has no result stored with it", single(d.Formula))
	case isDate(d):
		return d.Value, false, fmt.Sprintf("%q is a date to the spreadsheet", found)
	case d.Kind == grid.Number:
		said = lookOf(d.Format).said
	default:
		said = found
	}
	other := foreign(said, r.form.Currency)
	if other == "" {
		other = foreignHeading(h.price.Raw, r.form.Currency)
	}
	if other != "" {
		return d.Value, false, fmt.Sprintf("%q is in %s, and the yard's prices are in %s", found, other, r.form.Currency)
	}
	value, percent := d.Value, false
	if d.Kind == grid.Number {
		if percent = lookOf(d.Format).percent; percent {
			value = value.Shift(2)
		}
	} else {
		var ok bool
		if value, percent, ok = priceText(found, r.form.Currency, mark); !ok {
			return value, false, fmt.Sprintf("%q is not a price", found)
		}
	}
	if value.Sign() < 0 || value.NumDigits() > mostDigits {
		return value, false, fmt.Sprintf("%q is not a price", found)
	}
	return value, percent, ""
}

// mostDigits is how many a price may have: as many as a spreadsheet keeps.
const mostDigits = 15
