package sheets_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

// reckonAnew makes LibreOffice reckon every formula when it opens a file.
const reckonAnew = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`

// recalculated is workbooks after LibreOffice has reckoned them, by name: each
// sheet as rows of text, figures as they are and not as they show.
func recalculated(t *testing.T, books map[string]*grid.Book) map[string]map[string][][]string {
	t.Helper()
	if testing.Short() {
		t.Skip("recalculated without -short")
	}
	program, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("no soffice here, and CI must recalculate: install libreoffice-calc")
		}
		t.Skip("no soffice here: install libreoffice-calc to recalculate what is written")
	}
	dir := t.TempDir()
	user := filepath.Join(dir, "profile", "user")
	if err := os.MkdirAll(user, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(user, "registrymodifications.xcu"), []byte(reckonAnew), 0o644); err != nil {
		t.Fatal(err)
	}
	args := []string{"-env:UserInstallation=file://" + filepath.ToSlash(filepath.Dir(user)), "--headless",
		"--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1", "--outdir", filepath.Join(dir, "out")}
	for name, b := range books {
		data, err := xlsx.Write(b)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, name+".xlsx")
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		args = append(args, path)
	}
	if said, err := exec.CommandContext(t.Context(), program, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	out := map[string]map[string][][]string{}
	for name, b := range books {
		out[name] = map[string][][]string{}
		for _, s := range b.Sheets {
			f, err := os.Open(filepath.Join(dir, "out", name+"-"+s.Name+".csv"))
			if err != nil {
				t.Fatal(err)
			}
			read := csv.NewReader(f)
			read.FieldsPerRecord = -1
			rows, err := read.ReadAll()
			f.Close()
			if err != nil {
				t.Fatal(err)
			}
			out[name][s.Name] = rows
		}
	}
	return out
}

// nowAt is what a cell holds after recalculation.
func nowAt(rows [][]string, row, col int) string {
	if row >= len(rows) || col >= len(rows[row]) {
		return ""
	}
	return rows[row][col]
}

func figureIn(text string) (decimal.Decimal, bool) {
	digits, hundredths := strings.CutSuffix(text, "%")
	d, err := decimal.NewFromString(digits)
	if hundredths {
		d = d.Shift(-2)
	}
	return d, err == nil
}

// agree checks every formula of a book against what it is reckoned to, and every
// text against the same text, and says how many formulas there were.
func agree(t *testing.T, name string, b *grid.Book, now map[string][][]string) int {
	t.Helper()
	formulas, wrong := 0, 0
	differ := func(format string, args ...any) {
		if wrong++; wrong <= 10 {
			t.Errorf(format, args...)
		}
	}
	for _, s := range b.Sheets {
		for i, r := range s.Rows {
			for k, c := range r.Cells {
				if c.Formula != "" {
					formulas++
				}
				is := nowAt(now[s.Name], i, k)
				switch {
				case c.Kind == grid.Text && is != c.Text:
					differ("%s: %s row %d column %d reads %q, and was %q by =%s", name, s.Name, i+1, k+1, is, c.Text, c.Formula)
				case c.Kind == grid.Number:
					if d, ok := figureIn(is); !ok || d.Sub(c.Number).Abs().GreaterThan(decimal.New(1, -6)) {
						differ("%s: %s row %d column %d comes to %q, and was %s by =%s", name, s.Name, i+1, k+1, is, c.Number, c.Formula)
					}
				}
			}
		}
	}
	return formulas
}

// fortyOffers are the three and more, so that a mean is of many.
func fortyOffers(s quotes.Sent) []quotes.Quote {
	all := threeOffers(s)
	for n := len(all); n < 40; n++ {
		all = append(all, priced(s, fmt.Sprintf("Yard %d of the Long Coast, Boatbuilders", n+1), int64(80+n)))
	}
	return all
}

// comparisons are of one offer, of two, three and forty, by each of the rules
// for errors and gaps, with and without a yardstick.
func comparisons(t *testing.T) map[string]quotes.Comparison {
	s := sentBill(95)
	three, usual, full := threeOffers(s), quotes.Usual(), clientsTerms()
	few, bare := sentBill(41), sentBill(45)
	bare.Priced, bare.Stages, bare.Weeks = false, nil, quotes.Stretch{}
	for i := range bare.Lines {
		bare.Lines[i].Rate, bare.Lines[i].Amount, bare.Lines[i].Priced = pounds("0"), pounds("0"), false
	}
	highest, mean := full, full
	highest.Gaps, highest.Low, highest.Errors = quotes.AtHighest, quotes.Spanish, quotes.TotalStands
	mean.Gaps, mean.Low, mean.Errors = quotes.AtMean, quotes.NoLow, quotes.ReportOnly
	out := map[string]quotes.Comparison{
		"one":     compared(t, s, three[:1], usual),
		"two":     compared(t, s, three[1:], usual),
		"three":   compared(t, s, three, full),
		"highest": compared(t, s, three, highest),
		"mean":    compared(t, s, three, mean),
		"forty":   compared(t, few, fortyOffers(few), full),
	}
	unpriced := mean
	unpriced.Figures = nil
	out["bare"] = compared(t, bare, threeOffers(sentBill(45)), unpriced)
	return out
}

func TestEveryFigureOfAComparisonRecalculatesToThePenny(t *testing.T) {
	books := map[string]*grid.Book{}
	for name, c := range comparisons(t) {
		books[name] = sheets.Comparison(c)
		if name == "mean" || name == "highest" {
			books["brief-"+name] = sheets.ComparisonInBrief(c)
		}
	}
	now := recalculated(t, books)
	for name, b := range books {
		if n := agree(t, name, b, now[name]); n < 500 {
			t.Errorf("%s: only %d formulas", name, n)
		}
	}
}

// cellBeside is the cell in a column of the first row of a sheet that has a text in another.
func cellBeside(t *testing.T, s *grid.Sheet, text string, col int) (row int, c *grid.Cell) {
	t.Helper()
	for i, r := range s.Rows {
		for _, cell := range r.Cells {
			if cell.Text == text && len(r.Cells) >= col {
				return i, &s.Rows[i].Cells[col-1]
			}
		}
	}
	t.Fatalf("%s has no row with %q", s.Name, text)
	return 0, nil
}

// The client types a figure for a qualification and the cost of a week: the
// workbook then comes to what a comparison by those terms comes to.
func TestAClientsFigureMovesLevelledTotalRankAndMarks(t *testing.T) {
	s := sentBill(95)
	quoted := threeOffers(s)
	was := compared(t, s, quoted, quotes.Usual())
	terms := quotes.Usual()
	terms.Week = pounds("1900")
	terms.Figures = []quotes.Priced{{Firm: "=2+3", Text: hostileCall, Amount: pounds("69000.55")}, {Firm: "Able & Daughters [Slip 2]", Text: "Owner to clear the hold.", Amount: pounds("-75")}}
	want := compared(t, s, quoted, terms)

	b := sheets.Comparison(was)
	figures := sheet(t, b, offer.FiguresSheet)
	enter := func(text, sum string) {
		_, c := cellBeside(t, figures, text, 5)
		if !c.Style.Open {
			t.Fatalf("the cell beside %q is not open", text)
		}
		c.Kind, c.Number = grid.Number, dec(sum)
	}
	enter(offer.AskWeek, "1900")
	enter(hostileCall, "69000.55")
	enter("Owner to clear the hold.", "-75")
	now := recalculated(t, map[string]*grid.Book{"typed": b})["typed"]["Summary"]
	moved := false
	for i, o := range want.Offers {
		row, _ := cellBeside(t, sheet(t, b, "Summary"), o.Name, 6)
		for _, f := range []struct {
			col  int
			want decimal.Decimal
		}{{5, o.Levelled.Decimal()}, {6, decimal.NewFromInt(int64(o.RankBefore))}, {7, decimal.NewFromInt(int64(o.RankAfter))}, {8, o.Marks}} {
			if got, ok := figureIn(nowAt(now, row, f.col)); !ok || !got.Equal(f.want) {
				t.Errorf("%s, column %d: %q, want %s", o.Name, f.col+1, nowAt(now, row, f.col), f.want)
			}
		}
		moved = moved || o.RankAfter != was.Offers[i].RankAfter
	}
	if !moved {
		t.Error("no rank moves, so that nothing is tried of it")
	}
	if !strings.Contains(fmt.Sprint(now), "Figures have been changed since") {
		t.Error("the summary does not say that figures were changed")
	}
}
