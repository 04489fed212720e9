package templates

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"

	"futtock/rates/pricelist"
	"futtock/templates/grid"
)

// linesOf is a list of plain text as it is read: key, price, what it is for, day,
// cell of the price; then its problems.
func linesOf(t *testing.T, data []byte, f ListForm) (lines, found []string) {
	t.Helper()
	book, err := ListText("mill.csv", data, f)
	if err != nil {
		t.Fatal(err)
	}
	return listedLines(PriceList(book, f))
}

func listedLines[P fmt.Stringer](got []pricelist.Line, problems []P) (lines, found []string) {
	for _, l := range got {
		s := fmt.Sprintf("%s %s", l.Key, l.Price)
		if l.Percent {
			s += " %"
		}
		if !l.Per.Own() {
			s += " " + l.Per.String()
		}
		if !l.From.IsZero() {
			s += " " + l.From.Format(time.DateOnly)
		}
		if l.Supplier != "" {
			s += " of " + l.Supplier
		}
		lines = append(lines, s+" "+l.PriceAt.Address())
	}
	for _, p := range problems {
		found = append(found, p.String())
	}
	return lines, found
}

func TestListsAreReadAsSuppliersWriteThem(t *testing.T) {
	for _, c := range []struct {
		name, text string
		form       ListForm
		want       []string
	}{
		{"commas and points", "Key,Unit,Price\nOak,m3,\"1,540.00\"\nElm,m3,780\n", ListForm{}, []string{"Oak 1540 per m3 C2", "Elm 780 per m3 C3"}},
		{"semicolons and commas", "Key;Price;Unit\nOak;1.540,00;m3\nElm;780,5;m3\n", ListForm{}, []string{"Oak 1540 per m3 B2", "Elm 780.5 per m3 B3"}},
		{"tabs", "Key\tPrice\nOak\t1540.5\n", ListForm{}, []string{"Oak 1540.5 B2"}},
		{"strokes", "Key|Price\nOak, sawn|1540.50\n", ListForm{}, []string{"Oak, sawn 1540.5 B2"}},
		{"semicolons where prices have commas and keys too", "Article;Description;Net price\nA1;Oak, sawn, dry;12,50\nA2;Elm, wide;9,75\n", ListForm{}, []string{"A1 12.5 C2", "A2 9.75 C3"}},
		{"said by the first line", "sep=|\nKey|Price\nOak|15.5\n", ListForm{}, []string{"Oak 15.5 B3"}},
		{"words above, groups between, headings again", "The mill\nPrices of 2027\n\nKey,Price\nHardwood,\nOak,15.50\nKey,Price\nSoftwood,,\nLarch,9.50\n", ListForm{},
			[]string{"Oak 15.5 B6", "Larch 9.5 B9"}},
		{"line breaks of another system", "Key,Price\r\nOak,15.50\r\n", ListForm{}, []string{"Oak 15.5 B2"}},
		{"a line break in a cell counts", "Key,Price\n\"Oak\nplank\",15.50\nElm,9.50\n", ListForm{}, []string{"Oak plank 15.5 B2", "Elm 9.5 B4"}},
		{"quotes that do not fit", "Key,Price\nSpike 6\" long,1.28\n", ListForm{}, []string{`Spike 6" long 1.28 B2`}},
		{"a quote that is never closed", "Key,Price\n\"Spike,1.28\nNail,\"1,300.40\"\n", ListForm{}, []string{`"Spike 1.28 B2`, "Nail 1300.4 B3"}},
		{"the unit in the heading", "Key,Price £ per cu ft (ex VAT)\nOak,45.20\n", ListForm{Currency: "GBP"}, []string{"Oak 45.2 per ft3 B2"}},
		{"the unit in brackets", "Key,Price (m3)\nOak,1540\n", ListForm{}, []string{"Oak 1540 per m3 B2"}},
		{"the unit after a stroke", "Key,£/m3 price,Price/ft3\nOak,1540,45\n", ListForm{}, []string{"Oak 45 per ft3 C2"}},
		{"the unit of the whole list", "Key,Price\nOak,345\n", ListForm{Per: pricelist.Per{Number: decimal.New(100, 0), Unit: "bf"}}, []string{"Oak 345 per 100 bf B2"}},
		{"the unit of the line before both", "Key,Price per m3,Unit\nOak,345,ft3\nElm,780,\n", ListForm{}, []string{"Oak 345 per ft3 B2", "Elm 780 per m3 B3"}},
		{"the net price before the list price", "Key,List price,Net price\nOak,20.00,15.50\n", ListForm{}, []string{"Oak 15.5 C2"}},
		{"headings of its own", "Artikel;Preis;Einheit;Ab\nEiche;15,50;m;2027-01-01\n", ListForm{Key: "artikel", Price: "PREIS", Unit: "Einheit", From: "Ab"},
			[]string{"Eiche 15.5 per m 2027-01-01 B2"}},
		{"the column that has the yard's keys", "Code,Description,Price\n4711,Oak,15.50\n4712,Elm,9.50\n", ListForm{Known: func(k string) bool { return k == "Oak" }},
			[]string{"Oak 15.5 C2", "Elm 9.5 C3"}},
		{"signs, thin spaces, apostrophes, dashes for no pence", "Key;Price\nA;£ 1 540.00\nB;1'540.25\nC;12.-\nD;GBP 7.50\n", ListForm{Currency: "GBP"},
			[]string{"A 1540 B2", "B 1540.25 B3", "C 12 B4", "D 7.5 B5"}},
		{"thousands told by others", "Key;Price\nA;1,250\nB;1,250.50\n", ListForm{}, []string{"A 1250 B2", "B 1250.5 B3"}},
		{"three places told by others", "Key;Price\nA;1,250\nB;12,5\n", ListForm{}, []string{"A 1.25 B2", "B 12.5 B3"}},
		{"three places after a nought", "Key;Price\nA;0,125\nB;1,250\n", ListForm{}, []string{"A 0.125 B2", "B 1.25 B3"}},
		{"thousands twice", "Key;Price\nA;1.250.000\nB;12,50\n", ListForm{}, []string{"A 1250000 B2", "B 12.5 B3"}},
		{"a mark that is said", "Key;Price\nA;1,250\n", ListForm{Mark: Comma}, []string{"A 1.25 B2"}},
		{"tax", "Code,Rate %\nS,20 %\nR,5%\n", ListForm{}, []string{"S 20 % B2", "R 5 % B3"}},
		{"who sells it", "Key,Price,Supplier\nOak,15.50,The mill\n", ListForm{}, []string{"Oak 15.5 of The mill B2"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			lines, found := linesOf(t, []byte(c.text), c.form)
			if d := cmp.Diff(c.want, lines); d != "" || len(found) > 0 {
				t.Errorf("%s\n%v", d, found)
			}
		})
	}
}

func TestListsAreReadInEveryEncoding(t *testing.T) {
	const text = "Key,Price (£)\nChêne scié ½\",15.50\n"
	encode := func(name string, e interface{ Bytes([]byte) ([]byte, error) }) []byte {
		out, err := e.Bytes([]byte(text))
		if err != nil {
			t.Fatal(name, err)
		}
		return out
	}
	for name, data := range map[string][]byte{
		"UTF-8":                      []byte(text),
		"UTF-8 with a mark":          append([]byte("\ufeff"), text...),
		"Windows-1252":               encode("1252", charmap.Windows1252.NewEncoder()),
		"UTF-16 with a mark":         encode("16", unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder()),
		"UTF-16 the other way round": encode("16", unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder()),
	} {
		t.Run(name, func(t *testing.T) {
			lines, found := linesOf(t, data, ListForm{Currency: "GBP"})
			if d := cmp.Diff([]string{`Chêne scié ½" 15.5 B2`}, lines); d != "" || len(found) > 0 {
				t.Errorf("%s\n%v", d, found)
			}
		})
	}
}

func TestAFileThatIsNoTextIsRefused(t *testing.T) {
	if _, err := ListText("mill.xls", []byte{0xd0, 0xcf, 0x11, 0xe0, 0, 0}, ListForm{}); err == nil || !strings.Contains(err.Error(), "cannot read mill.xls: it is no plain text") {
		t.Errorf("the error is %v", err)
	}
}

func TestWhatIsWrongWithAListIsToldAtItsCell(t *testing.T) {
	for _, c := range []struct {
		name, text string
		form       ListForm
		lines      int
		want       []string
	}{
		{"no headings", "Artikel;Preis\nEiche;15,50\n", ListForm{}, 0, []string{"mill.csv: List: error: no row of the first 50 has headings"}},
		{"nothing at all", "", ListForm{}, 0, []string{"mill.csv: List: error: no row of the first 50 has headings"}},
		{"two prices", "Key,Price,Price\nOak,1,2\n", ListForm{}, 1, []string{`mill.csv: List!C1: error: "Price" and "Price" may both be the price`}},
		{"a named heading that is not there", "Key,Price\nOak,1\n", ListForm{Unit: "Per"}, 1, []string{`mill.csv: List!1: error: the list has no heading "Per"`}},
		{"a mark that nothing tells", "Key;Price\nA;1,250\nB;3,400\n", ListForm{}, 0, []string{`mill.csv: List!B2: error: "1,250" may be thousands or have three places`}},
		{"both marks", "Key;Price\nA;12,50\nB;13.75\n", ListForm{}, 0, []string{`mill.csv: List!B3: error: "13.75" has its pence after a point, and "12,50" in B2 after a comma`}},
		{"no price", "Key,Price\nA,POA\nB,2.50\n", ListForm{}, 1, []string{`mill.csv: List!B2: warning: "POA" is not a price; a price of "A" is wanted`}},
		{"below nil", "Key,Price\nA,-2.50\n", ListForm{}, 0, []string{`mill.csv: List!B2: warning: "-2.50" is not a price`}},
		{"a price of nothing that is named", "Key,Price\n,2.50\n", ListForm{}, 0, []string{`mill.csv: List!B2: warning: "2.50" stands beside no key`}},
		{"another currency", "Key,Price\nA,€ 2.50\n", ListForm{Currency: "GBP"}, 0, []string{`mill.csv: List!B2: warning: "€ 2.50" is in €, and the yard's prices are in GBP`}},
		{"another currency in the heading", "Key,Price EUR\nA,2.50\n", ListForm{Currency: "GBP"}, 0, []string{`mill.csv: List!B2: warning: "2.50" is in EUR`}},
		{"a unit nobody knows", "Key,Price,Unit\nA,2.50,bdl\n", ListForm{}, 0, []string{`mill.csv: List!C2: warning: "bdl" is not what a price may be for`}},
		{"a day of two readings", "Key,Price,From\nA,2.50,03/04/2026\n", ListForm{}, 0, []string{`mill.csv: List!C2: warning: "03/04/2026" may be read day first or month first`}},
		{"a day that gives way", "Key,Price,From\nA,2.50,03/04/2026\n", ListForm{Day: time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)}, 1, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			lines, found := linesOf(t, []byte(c.text), c.form)
			for i, f := range found {
				if i >= len(c.want) || !strings.HasPrefix(f, c.want[i]) {
					t.Errorf("found %s", f)
				}
			}
			if len(lines) != c.lines || len(found) != len(c.want) {
				t.Errorf("%d lines and %d problems: %v", len(lines), len(found), found)
			}
		})
	}
}

// A list that is a workbook has numbers, dates and formulas, and may have several
// sheets; those that cannot be seen are not read.
func TestAListMayBeAWorkbook(t *testing.T) {
	n := func(col int, s, format string) grid.Datum {
		return grid.Datum{Col: col, Kind: grid.Number, Raw: s, Value: decimal.RequireFromString(s), Format: format}
	}
	text := func(col int, s string) grid.Datum { return grid.Datum{Col: col, Kind: grid.Text, Raw: s} }
	head := grid.Line{Row: 3, Cells: []grid.Datum{text(1, "Key"), text(2, "Price"), text(3, "Per"), text(4, "Valid from")}}
	book := grid.Workbook{Name: "mill.xlsx", Sheets: []grid.Page{
		{Name: "Cover", Rows: []grid.Line{{Row: 1, Cells: []grid.Datum{text(1, "The mill")}}}},
		{Name: "Prices", Rows: []grid.Line{
			{Row: 1, Cells: []grid.Datum{text(1, "Prices")}}, head,
			{Row: 4, Cells: []grid.Datum{text(1, "Oak"), n(2, "1540", `"£"#,##0.00`), text(3, "m3"), n(4, "46388", "dd/mm/yyyy")}},
			{Row: 5, Cells: []grid.Datum{text(1, "Elm"), {Col: 2, Kind: grid.Number, Value: decimal.New(780, 0), Raw: "780", Formula: "A1*2"}, n(3, "100", "")}},
			{Row: 6, Cells: []grid.Datum{text(1, "S"), n(2, "0.2", "0%")}},
			{Row: 7, Cells: []grid.Datum{text(1, "Ash"), {Col: 2, Kind: grid.Blank, Formula: "A1*2"}}},
			{Row: 8, Cells: []grid.Datum{text(1, "Fir"), n(2, "46388", "yyyy-mm-dd")}},
			{Row: 9, Cells: []grid.Datum{text(1, "Yew"), n(2, "12", `[$€-407] #,##0.00`)}},
			{Row: 10, Cells: []grid.Datum{text(1, "Box"), {Col: 2, Kind: grid.Fault, Raw: "#N/A"}}},
		}},
		{Name: "Old", Hidden: true, Rows: []grid.Line{head, {Row: 4, Cells: []grid.Datum{text(1, "Oak"), n(2, "1", "")}}}},
	}}
	lines, found := listedLines(PriceList(book, ListForm{Currency: "GBP"}))
	if d := cmp.Diff([]string{"Oak 1540 per m3 2027-01-01 B4", "Elm 780 per 100 nr B5", "S 20 % B6"}, lines); d != "" {
		t.Error(d)
	}
	var cells []string
	for _, f := range found {
		cells = append(cells, f[strings.Index(f, "!")+1:strings.Index(f, ": warning")])
	}
	if d := cmp.Diff([]string{"B7", "B8", "B9", "B10"}, cells); d != "" {
		t.Errorf("%s\n%v", d, found)
	}
}

// However a list is written, the same prices are read of it.
func TestThePricesOfAListDoNotHangOnHowItIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		by := rapid.SampledFrom([]string{";", "\t", "|", ","}).Draw(t, "delimiter")
		comma := rapid.Bool().Draw(t, "comma")
		parts := rapid.SampledFrom([]string{"", " ", "\u00a0", "'", "group"}).Draw(t, "thousands")
		prices := rapid.SliceOfN(rapid.Int64Range(1, 99_999_999), 1, 20).Draw(t, "pennies")
		text := "A list\nKey" + by + "Price\n"
		var want []string
		for i, p := range prices {
			d := decimal.New(p, -2)
			want = append(want, fmt.Sprintf("K%d %s B%d", i, d, i+3))
			s := strings.ReplaceAll(groupedPrice(d), ",", "T")
			if comma {
				s = strings.ReplaceAll(s, ".", ",")
			}
			part := parts
			if part == "group" {
				part = map[bool]string{true: ".", false: ","}[comma]
			}
			text += fmt.Sprintf("K%d%s\"%s\"\n", i, by, strings.ReplaceAll(s, "T", part))
		}
		book, err := ListText("a.csv", []byte(text), ListForm{})
		if err != nil {
			t.Fatal(err)
		}
		got, found := listedLines(PriceList(book, ListForm{}))
		if !slices.Equal(got, want) {
			t.Errorf("%s\n%v", cmp.Diff(want, got), found)
		}
	})
}

// groupedPrice is a price with its thousands parted by commas.
func groupedPrice(d decimal.Decimal) string {
	s := d.StringFixed(2)
	whole, pence, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	return whole + "." + pence
}

func FuzzListText(f *testing.F) {
	f.Add([]byte("Key;Price\nOak;1.540,00\n"))
	f.Add([]byte("sep=\"\nKey,Price\n"))
	f.Add([]byte("\xff\xfeK\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		book, err := ListText("a.csv", data, ListForm{Currency: "GBP"})
		if err != nil {
			return
		}
		lines, _ := PriceList(book, ListForm{Currency: "GBP"})
		for _, l := range lines {
			if l.Key == "" || l.Price.Sign() < 0 {
				t.Errorf("a line of %q at %s", l.Key, l.Price)
			}
		}
	})
}
