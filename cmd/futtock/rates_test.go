package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/pricelist"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// run is what the tool says to a command line, and how it ends.
func run(args ...string) (out, said string, status int) {
	var o, e bytes.Buffer
	status = world{Out: &o, Err: &e}.run(args)
	return o.String(), e.String(), status
}

// millPrices is a list of every sheet of the demonstration: timber by the cubic foot,
// each, and by true measure for logs sold by the Hoppus foot; packs, hundredweights;
// pay, a rate, plant of three sorts and a tax.
const millPrices = `The mill and the chandler, 2027;;;
Article;Per;Price;Valid from
oak plank 57;cu ft;45,20;2027-01-01
oak hanging knee;each;172,00;2027-01-01
oak butt log;m3;510,00;2027-01-01
elm by the cube;100 super ft;195,00;2027-01-01
Spike 150;100;128,00;2027-01-01
Boat screw 60;pack;52,00;2027-01-01
Oakum;cwt;700,00;2027-01-01
Shipwright;h;24,60;2027-01-01
Engineer;h;47,00;2027-01-01
Crane lift;lift;121,00;2027-01-01
Telehandler;wk;295,00;2027-01-01
Telehandler;once;190,00;2027-01-01
Blast and zinc prime;m2;91,00;2027-01-01
S;;21;2027-01-01
no such thing;m;1,00;2027-01-01
`

// wanted is the prices in force of the demonstration after that, worked by hand:
// 45.20 / 0.0283168 = 1,596.22 a cubic metre. The butt log has 510.00 a cubic metre of
// true measure: the girth of 1490 mm under 12 mm of bark is 1490 - 2 pi x 12 = 1,414.602,
// the quarter of it 353.65, and a Hoppus foot 4/pi cubic feet or 0.0360541 m3 of a
// stick measured by its mid girth: 510 x 0.0360541 = 18.39. By the board foot of
// 0.00235974 m3, 1.95 is 826.36 a cubic metre.
var wanted = map[string]string{
	"oak plank 57": "1596.22", "oak hanging knee": "172", "oak butt log": "18.39", "elm by the cube": "826.36",
	"Spike 150": "1.28", "Boat screw 60": "0.26", "Oakum": "13.78", "Shipwright": "24.6", "Engineer": "47",
	"Crane lift": "121", "Telehandler": "295 190", "Blast and zinc prime": "91", "S": "21",
}

// inForce is those prices in a workbook on a day.
func inForce(t *testing.T, b rates.Book, day time.Time) map[string]string {
	t.Helper()
	out := map[string]string{}
	put := func(key string, ok bool, prices ...decimal.Decimal) {
		if !ok {
			t.Errorf("%s has no price", key)
		}
		var s []string
		for _, p := range prices {
			s = append(s, p.String())
		}
		out[key] = strings.Join(s, " ")
	}
	for _, k := range []string{"oak plank 57", "oak hanging knee", "oak butt log", "elm by the cube"} {
		s, ok := b.StockRow(k, day)
		put(k, ok, s.Price.Decimal())
	}
	for _, k := range []string{"Spike 150", "Boat screw 60", "Oakum"} {
		m, ok := b.Material(k, day)
		put(k, ok, m.Price.Decimal())
	}
	s, ok := b.Trade("Shipwright", day)
	put("Shipwright", ok, s.Pay.Decimal())
	e, ok := b.Trade("Engineer", day)
	put("Engineer", ok, e.Rate.Decimal())
	c, ok := b.PlantRow("Crane lift", day)
	put("Crane lift", ok, c.Each.Decimal())
	h, ok := b.PlantRow("Telehandler", day)
	put("Telehandler", ok, h.Weekly.Decimal(), h.Fixed.Decimal())
	z, ok := b.Work("Blast and zinc prime", day)
	put("Blast and zinc prime", ok, z.Price.Decimal())
	v, ok := b.Tax("S", day)
	put("S", ok, v.Rate.Decimal())
	return out
}

func newYear() time.Time { return time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC) }

// putIn puts the list into the workbook with the command, and gives the bytes of
// the workbook before and after.
func putIn(t *testing.T, path string) (was, is []byte) {
	t.Helper()
	was, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	list := filepath.Join(filepath.Dir(path), "mill.csv")
	if err := os.WriteFile(list, []byte(millPrices), 0o644); err != nil {
		t.Fatal(err)
	}
	out, said, status := run("rates", path, list, "--confirm", "oak butt log", "--write")
	if status != done || !strings.Contains(out, "14 up, 0 down, 0 the same, 0 held back, 1 not matched") {
		t.Fatalf("ended with %d\n%s%s", status, out, said)
	}
	if is, err = os.ReadFile(path); err != nil {
		t.Fatal(err)
	}
	if kept, err := os.ReadFile(path + ".old"); err != nil || !bytes.Equal(kept, was) {
		t.Errorf("the backup is not what the workbook held: %v", err)
	}
	return was, is
}

// pricesOf is the price book of a workbook without errors.
func pricesOf(t *testing.T, path string) rates.Book {
	t.Helper()
	u, err := openYard(path)
	if err != nil || u.problems.HasErrors() {
		t.Fatal(err, u.problems)
	}
	return u.prices
}

// The next price reads what was written, and nothing else has changed: every row
// that was there is there, and the prices of the day before are the old ones.
func TestPricesOfAListAreInForceOnceTheyAreWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.xlsx")
	if err := writeDemo(path); err != nil {
		t.Fatal(err)
	}
	before := pricesOf(t, path)
	putIn(t, path)
	after := pricesOf(t, path)
	if d := cmp.Diff(wanted, inForce(t, after, newYear())); d != "" {
		t.Errorf("in force (-want +got):\n%s", d)
	}
	eve := newYear().AddDate(0, 0, -1)
	if d := cmp.Diff(inForce(t, before, eve), inForce(t, after, eve)); d != "" {
		t.Errorf("on the day before (-was +is):\n%s", d)
	}
	if a, b := len(before.Stock)+4, len(after.Stock); a != b {
		t.Errorf("%d rows of stock, and %d are wanted", b, a)
	}
	out, _, status := run("rates", path, filepath.Join(filepath.Dir(path), "mill.csv"), "--write")
	if status != done || !strings.Contains(out, "0 up, 0 down, 14 the same") || !strings.Contains(out, "no price changes") {
		t.Errorf("a second time it ended with %d\n%s", status, out)
	}
}

// A workbook that another program has saved, with all that it put in, differs
// after the command in the sheets of the prices alone, part by part, and these hold
// every cell they held; the job is then priced at the new prices.
func TestAWorkbookOfAnotherProgramDiffersOnlyInItsPrices(t *testing.T) {
	spreadsheet(t)
	dir := t.TempDir()
	own := filepath.Join(dir, "yard.xlsx")
	if err := writeDemo(own); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(converted(t, "xlsx", []string{own}), "yard.xlsx")
	was, is := putIn(t, path)
	old, now := partsOf(t, was), partsOf(t, is)
	changed := 0
	for name := range now {
		if old[name] == now[name] {
			continue
		}
		if changed++; !strings.HasPrefix(name, "xl/worksheets/sheet") {
			t.Errorf("the part %s has changed", name)
		}
	}
	if changed != len(pricelist.Sheets()) || len(old) != len(now) {
		t.Errorf("%d parts have changed, and there are %d of %d", changed, len(now), len(old))
	}
	before, err := xlsx.Read("yard.xlsx", was)
	if err != nil {
		t.Fatal(err)
	}
	after, err := xlsx.Read("yard.xlsx", is)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range before.Sheets {
		kept := after.Sheets[i]
		if added := len(kept.Rows) - len(p.Rows); added < 0 || added > 4 {
			t.Errorf("%s had %d rows and has %d", p.Name, len(p.Rows), len(kept.Rows))
		}
		at := map[int]grid.Line{}
		for _, l := range kept.Rows {
			at[l.Row] = l
		}
		for _, l := range p.Rows {
			if d := cmp.Diff(l, at[l.Row]); d != "" {
				t.Errorf("%s, row %d: %s", p.Name, l.Row, d)
			}
		}
	}
	if d := cmp.Diff(wanted, inForce(t, pricesOf(t, path), newYear())); d != "" {
		t.Errorf("in force (-want +got):\n%s", d)
	}
	p := priceOn(path, after, nil, nil, newYear())
	if p.err != nil || p.problems.HasErrors() {
		t.Errorf("it is not priced: %v %v", p.err, p.problems)
	}
}

// While a spreadsheet program holds the workbook nothing is written.
func TestAWorkbookHeldByAnotherProgramIsLeftAlone(t *testing.T) {
	dir := t.TempDir()
	path, list := filepath.Join(dir, "yard.xlsx"), filepath.Join(dir, "mill.csv")
	if err := writeDemo(path); err != nil {
		t.Fatal(err)
	}
	was, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{list: millPrices, filepath.Join(dir, ".~lock.yard.xlsx#"): ","} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	_, said, status := run("rates", path, list, "--write")
	now, err := os.ReadFile(path)
	if status != couldNot || !strings.Contains(said, "is open in another program") || err != nil || !bytes.Equal(was, now) {
		t.Errorf("ended with %d: %s%v", status, said, err)
	}
	if left, err := filepath.Glob(filepath.Join(dir, "yard.xlsx?*")); len(left) > 0 || err != nil {
		t.Errorf("left beside it: %v %v", left, err)
	}
}

// Whatever prices come in, the workbook read again has exactly these in force on
// their days, and all others as they were.
func TestWhatIsWrittenIsExactlyTheMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(t, "materials")
		dated := rapid.Bool().Draw(t, "dated")
		rows := "Material\tSupplier\tUnit\tPack\tPrice"
		if dated {
			rows = "Our remark\tFrom\t" + rows
		}
		rows = "Materials of the yard\n\n" + rows + "\n"
		money2 := rapid.Custom(func(t *rapid.T) decimal.Decimal {
			return decimal.New(rapid.Int64Range(1, 99999).Draw(t, "pennies"), -2)
		})
		for i := range n {
			for year := range rapid.IntRange(1, 3).Draw(t, "years") {
				if dated {
					rows += fmt.Sprintf("mine\t%d-02-01\t", 2024+year)
				}
				rows += fmt.Sprintf("M %d\tthe smith\tnr\t%d\t%s\n", i, rapid.IntRange(1, 200).Draw(t, "pack"), money2.Draw(t, "price"))
				if !dated {
					break
				}
			}
		}
		data, err := xlsx.Write(templates.Plain([]templates.Table{templates.ParseTSV("materials", rows)}))
		if err != nil {
			t.Fatal(err)
		}
		u, err := readYard("yard.xlsx", data)
		if err != nil || u.problems.HasErrors() {
			t.Fatal(err, u.problems)
		}
		day := time.Date(rapid.IntRange(2023, 2028).Draw(t, "year"), 2, 1, 0, 0, 0, 0, time.UTC)
		list := "Key;Per;Price\n"
		for i := range n {
			if rapid.Bool().Draw(t, "listed") {
				list += fmt.Sprintf("m  %d;%s;%s\n", i, rapid.SampledFrom([]string{"", "each", "100", "pack", "doz", "pair"}).Draw(t, "per"), money2.Draw(t, "new"))
			}
		}
		form := templates.ListForm{Mark: templates.Point}
		book, err := templates.ListText("list.csv", []byte(list), form)
		if err != nil {
			t.Fatal(err)
		}
		terms := pricelist.Terms{From: day, Limit: money.NewPercent(decimal.New(25, 0))}
		for i := range n {
			terms.Confirmed = append(terms.Confirmed, fmt.Sprintf("M %d", i))
		}
		if err := u.match(book, form, terms); err != nil || u.problems.HasErrors() {
			t.Fatal(err, u.problems)
		}
		is, writes := u.prices, 0
		if u.patched != nil {
			is, _, _ = templates.ReadPrices(*u.patched)
		}
		for _, m := range u.moves {
			if !m.Writes() {
				continue
			}
			writes++
			if got, ok := is.Material(m.Key, day); !ok || !got.Price.Decimal().Equal(m.New) || got.Supplier != "the smith" || got.Unit != "nr" {
				t.Errorf("%s is %v on %s, and should be at %s", m.Key, got, day, m.New)
			}
		}
		if (writes > 0) != (u.patched != nil) {
			t.Errorf("%d moves, and a workbook with new prices is there: %v", writes, u.patched != nil)
		}
		for _, on := range []int{2022, 2023, 2024, 2025, 2026, 2027, 2028, 2029} {
			on := time.Date(on, 3, 1, 0, 0, 0, 0, time.UTC)
			for i := range n {
				key := fmt.Sprintf("M %d", i)
				was, had := u.prices.Material(key, on)
				now, has := is.Material(key, on)
				if has && now.From.Equal(day) || !dated && slices.ContainsFunc(u.moves, func(m pricelist.Move) bool { return m.Writes() && m.Key == key }) {
					continue
				}
				if had != has || !was.Price.Equal(now.Price) || !was.Pack.Equal(now.Pack) {
					t.Errorf("%s was %v on %s and is %v", key, was, on, now)
				}
			}
		}
	})
}
