package main

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"
	"github.com/spf13/pflag"

	"futtock/output/json"
	"futtock/output/text"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/pricelist"
	"futtock/templates"
)

// asked is what the command line asks of the rates command.
type asked struct {
	yard, list string
	write      bool
	from, on   time.Time
	limit      money.Percent
	confirmed  []string
	columns    map[string]string // heading of the list, by what it is of
	kind       string
	per        pricelist.Per
	mark       string
	as         string
	jobs       []string
	json       bool
}

func ratesCommand() command {
	c := command{
		name:  "rates",
		args:  "YARD.xlsx LIST.(xlsx|csv)",
		short: "Bring prices up to date from a supplier's list",
		long: `Sets the lines of a price list against Stock, Materials, Plant, Subcontract, Labour
and VAT of a yard workbook or price book, by key, and shows the old price, the new
one and the change. A price for another unit is converted. A change of more than
the limit is held back until its key is confirmed; so is one that an older or later
row, or another supplier, makes doubtful. Nothing is written without --write.

With --write a new dated row goes under the last row of its sheet, or, where a key
has no dates or a row of that day, the price in its cell changes. All else in the
workbook stays as it is. What the workbook held is kept beside it, as YARD.xlsx.old.

The list may have its headings in any of its first rows. Known by themselves are
Key, Code, Article, Item, Description; Price, Net price, Rate, Pay; Unit, Per;
From, Valid from; Supplier, and the unit in a heading such as "Price per m3". Others
are named with --columns, or once and for all in the sheet Lists. Plain text may be
parted by semicolons, tabs, strokes or commas, in UTF-8 or Windows-1252.

  futtock rates yard.xlsx mill.csv --columns "Key=Article, Price=Net price, Unit=Per"
  futtock rates yard.xlsx mill.csv --from 2027-01-01 --write --jobs A.xlsx B.xlsx
  futtock rates yard.xlsx --stale 365

--jobs prices each job before and after: a job that is YARD.xlsx itself from its own
sheets, any other with YARD.xlsx as its price book, as with price --rates. A job is
priced on its tender date, which prices of a later day do not touch, or with --on as
if it were tendered on that day.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		var a asked
		set.BoolVar(&a.write, "write", false, "write the new prices into YARD.xlsx")
		from := set.String("from", "", "the `DATE` all prices of the list hold from, as 2027-01-01 (default: as the list says)")
		limit := set.String("limit", "25", "hold back what changes by more than `PERCENT`")
		set.StringArrayVar(&a.confirmed, "confirm", nil, "change the price of `KEY` though it is held back; may be repeated")
		columns := set.String("columns", "", "`HEADINGS` of the list, as \"Key=Article, Price=Net price, Unit=Per, From=Valid from, Supplier=Mill\"")
		set.StringVar(&a.kind, "kind", "", "the one `SHEET` that keys are looked up in: "+listed(pricelist.Sheets()))
		per := set.String("per", "", "what all prices are for, where the list does not say: a `UNIT`, \"100 super ft\", each, pack")
		set.StringVar(&a.mark, "decimal", "", "the `MARK` that parts the pence, comma or point (default: told from the column)")
		set.StringVar(&a.as, "as", "", "read the list by the row `LIST` of the sheet Lists (default: that which begins the file's name)")
		set.StringArrayVar(&a.jobs, "jobs", nil, "show what the prices do to open jobs, the workbooks `A.xlsx B.xlsx...`")
		on := set.String("on", "", "the `DATE` on which jobs are priced (default: their tender dates), or prices are old (default: today)")
		stale := set.Int("stale", 0, "list prices that are more than so many `DAYS` old; takes no list")
		set.BoolVar(&a.json, "json", false, "print the result as JSON")
		return func(w world, args []string) int {
			if set.Changed("jobs") && len(args) > 2 {
				a.jobs, args = append(a.jobs, args[2:]...), args[:2]
			}
			wrong := a.read(args, set.Changed("stale"), *from, *on, *limit, *columns, *per)
			switch {
			case wrong != "":
				return w.misuse(c, wrong)
			case set.Changed("stale") && *stale < 0:
				return w.misuse(c, "--stale takes a number of days")
			case set.Changed("stale"):
				return w.stale(a, *stale)
			}
			return w.rates(c, a)
		}
	}
	return c
}

// read takes in the arguments, and says what is wrong with them.
func (a *asked) read(args []string, stale bool, from, on, limit, columns, per string) string {
	switch {
	case len(args) == 0:
		return "which workbook, and which list?"
	case stale && (len(args) > 1 || a.write || len(a.jobs) > 0):
		return "--stale takes one workbook, and nothing is written"
	case !stale && len(args) < 2:
		return "which list for " + args[0] + "?"
	case len(args) > 2:
		return "one workbook and one list; jobs come after --jobs"
	}
	a.yard, a.list = args[0], slices.Concat(args, []string{""})[1]
	for _, d := range []struct {
		flag, text string
		to         *time.Time
	}{{"--from", from, &a.from}, {"--on", on, &a.on}} {
		if d.text == "" {
			continue
		}
		day, err := time.Parse(time.DateOnly, d.text)
		if err != nil {
			return fmt.Sprintf("%s %q is not a date such as 2027-01-01", d.flag, d.text)
		}
		*d.to = day
	}
	n, err := decimal.NewFromString(strings.TrimSpace(strings.TrimSuffix(limit, "%")))
	if err != nil || n.Sign() < 0 {
		return fmt.Sprintf("--limit %q is not a percentage", limit)
	}
	a.limit = money.NewPercent(n)
	var ok bool
	if a.per, ok = pricelist.ParsePer(per); !ok {
		return fmt.Sprintf("--per %q is not what a price may be for", per)
	}
	if a.mark != "" && a.mark != templates.Comma && a.mark != templates.Point {
		return fmt.Sprintf("--decimal %q is neither comma nor point", a.mark)
	}
	if a.kind != "" {
		i := slices.IndexFunc(pricelist.Sheets(), func(s pricelist.Sheet) bool { return rates.Same(string(s), a.kind) })
		if i < 0 {
			return fmt.Sprintf("--kind %q is none of %s", a.kind, listed(pricelist.Sheets()))
		}
		a.kind = string(pricelist.Sheets()[i])
	}
	a.columns, err = mapping(columns)
	if err != nil {
		return err.Error()
	}
	return ""
}

// mapping reads headings named on the command line, parted by commas, or by
// semicolons where a heading has a comma in it.
func mapping(text string) (map[string]string, error) {
	out := map[string]string{}
	by := ","
	if strings.Contains(text, ";") {
		by = ";"
	}
	for _, part := range strings.Split(text, by) {
		if strings.TrimSpace(part) == "" {
			continue
		}
		of, heading, ok := strings.Cut(part, "=")
		of, heading = rates.Key(of), strings.TrimSpace(heading)
		if !ok || heading == "" || !slices.Contains([]string{"key", "price", "unit", "from", "supplier"}, of) {
			return nil, fmt.Errorf("--columns: %q is not such as Key=Article; Key, Price, Unit, From and Supplier can be named", strings.TrimSpace(part))
		}
		if out[of] != "" {
			return nil, fmt.Errorf("--columns names %s twice", of)
		}
		out[of] = heading
	}
	return out, nil
}

func listed(sheets []pricelist.Sheet) string {
	var names []string
	for _, s := range sheets {
		names = append(names, string(s))
	}
	return strings.Join(names, ", ")
}

// form is how the list is to be read: by the command line, else by the row of the
// sheet Lists that is of it, else by what is usual.
func (a asked) form(b *rates.Book, currency string) (templates.ListForm, pricelist.Terms, error) {
	var l rates.PriceList
	name := rates.Key(filepath.Base(a.list))
	for _, r := range b.Lists {
		k := rates.Key(r.List)
		if a.as != "" && rates.Same(a.as, r.List) || a.as == "" && strings.HasPrefix(name, k) && len(k) > len(rates.Key(l.List)) {
			l = r
		}
	}
	if a.as != "" && l.List == "" {
		return templates.ListForm{}, pricelist.Terms{}, fmt.Errorf("the sheet Lists has no %q", a.as)
	}
	keys := map[string]bool{}
	for _, k := range pricelist.Keys(b) {
		keys[rates.Key(k)] = true
	}
	f := templates.ListForm{
		Key: cmp.Or(a.columns["key"], l.Key), Price: cmp.Or(a.columns["price"], l.Price), Unit: cmp.Or(a.columns["unit"], l.Unit),
		From: cmp.Or(a.columns["from"], l.From), Supplier: cmp.Or(a.columns["supplier"], l.Supplier),
		Per: a.per, Mark: cmp.Or(a.mark, l.Mark), Day: a.from, Currency: currency,
		Known: func(key string) bool { return keys[rates.Key(key)] },
	}
	if f.Per.Own() {
		f.Per, _ = pricelist.ParsePer(l.Per) // the sheet was read without errors
	}
	t := pricelist.Terms{Sheet: pricelist.Sheet(cmp.Or(a.kind, l.Sheet)), From: a.from, Limit: a.limit, Confirmed: a.confirmed}
	return f, t, nil
}

// stale lists old prices.
func (w world) stale(a asked, days int) int {
	u, err := openYard(a.yard)
	if err != nil {
		return w.fail(err)
	}
	day := a.on
	if day.IsZero() {
		now := time.Now()
		day = time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	}
	stopped := u.problems.HasErrors()
	old := pricelist.Stale(&u.prices, day, days)
	if a.json {
		if s := w.print(json.StalePrices(a.yard, day, days, old, u.problems)); s != done {
			return s
		}
	} else if stopped {
		text.Problems(w.Err, u.problems)
		fmt.Fprintf(w.Err, "futtock: %s: %s\n", a.yard, text.Count(u.problems))
	} else {
		text.Stale(w.Out, day, days, old)
	}
	if stopped {
		return problems
	}
	return done
}
