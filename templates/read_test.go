package templates

import (
	"slices"
	"strings"
	"testing"

	"futtock/rates/measure"
	"futtock/rates/problem"
)

// TestEveryCodeOfReadingIsRaisedByItselfAlone spoils the example job in one
// place at a time.
func TestEveryCodeOfReadingIsRaisedByItselfAlone(t *testing.T) {
	cases := []struct {
		code  problem.Code
		spoil func(y *yard)
		at    string
		text  string // part of it
	}{
		{problem.SheetMissing, func(y *yard) { y.without("Sections") }, "Sections", `the sheet "Sections" is not there; it is required`},
		{problem.SheetAbsent, func(y *yard) { y.without("Members") }, "Members", `the sheet "Members" is not there`},
		{problem.SheetTwice, func(y *yard) { y.tables = append(y.tables, Table{Sheet: "build  ups"}) }, "build  ups", "the first is read"},
		{problem.SheetNear, func(y *yard) { *y.table("Risks") = Table{Sheet: "Rishks"} }, "Rishks", `did you mean "Risks"`},
		{problem.SheetNear, func(y *yard) { *y.table("Risks") = Table{Sheet: "Old risks"} }, "Old risks", `did you mean "Risks"`},
		{problem.SheetMisnamed, func(y *yard) { y.table("Members").Sheet = "Members (2)" }, "Members (2)", `the headings of "Members", which is not there`},
		{problem.SheetMisnamed, func(y *yard) { y.table("Sums").Sheet = "PC" }, "PC", `the headings of "Sums", which is not there`},
		{problem.SheetHidden, func(y *yard) { y.table("Stock").Hidden = true }, "Stock", "hidden"},
		{problem.HeadingMissing, func(y *yard) { y.head("Members", "Treatment", "what is done") }, "Members!1", `the heading "Treatment" is not there`},
		{problem.HeadingTwice, func(y *yard) { y.head("Members", "Survey ref", "Length (ft)") }, "Members!AW1", `"Length" stands already in G1`},
		{problem.HeadingNear, func(y *yard) { y.head("Members", "Moulded", "Molded") }, "Members!I1", `did you mean "Moulded"`},
		{problem.HeadingNear, func(y *yard) { y.head("Members", "Difficulty", "Difficulty factor") }, "Members!AJ1", `did you mean "Difficulty"`},
		{problem.HeadingNear, func(y *yard) { y.head("Build-ups", "Waste %", "Waste") }, "Build-ups!F1", `did you mean "Waste %"`},
		{problem.HeadingUnit, func(y *yard) { y.head("Members", "Sided", "Sided (kg)") }, "Members!H1", `"kg" in the heading "Sided (kg)" is not a unit of length`},
		{problem.SizeUnit, func(y *yard) { y.head("Stock", "Thickness", "Thickness").also("Stock", "From", "2026-02-01") }, "Stock!D2", `"75" has no unit, nor has its heading`},
		{problem.UnitsDiffer, func(y *yard) { y.set("Job", "Lengths in", "ft") }, "Members!G1", `"Length (m)" names another measure than the Job's "Lengths in", which says ft`},
		{problem.RowHidden, func(y *yard) { y.table("Members").Rows[1].Hidden = true }, "Members!2", "1 hidden row is read like the others: 2"},
		{problem.Required, func(y *yard) { y.set("Members", "Nr", "") }, "Members!F2", `"Nr" is blank; a whole number is wanted, such as 1`},
		{problem.NeededBeside, func(y *yard) { y.set("Members", "To frame", "") }, "Members!AD2", `"To frame" is blank beside "From frame"`},
		{problem.NotCalculated, func(y *yard) { y.set("Members", "Nr", "=2*3") }, "Members!F2", "the formula =2*3 has no result"},
		{problem.CellFault, func(y *yard) { y.set("Items", "Quantity", "#REF!") }, "Items!D2", "the error #REF!; a number is wanted"},
		{problem.DateInCell, func(y *yard) { y.set("Members", "Length", "2026-03-06") }, "Members!G2", `"2026-03-06" is a date or a time to the spreadsheet; a length is wanted under "Length", such as 11.7 m`},
		{problem.NumberForm, func(y *yard) { y.set("Items", "Quantity", "about 12") }, "Items!D2", `"about 12" is not a number; a number is wanted`},
		{problem.WholeForm, func(y *yard) { y.set("Members", "Nr", "1.5") }, "Members!F2", `"1.5" is not a whole number`},
		{problem.LengthForm, func(y *yard) { y.set("Members", "Length", "6-3") }, "Members!G2", `"6-3" is ambiguous: feet and inches, or a range; a length is wanted`},
		{problem.PercentForm, func(y *yard) { y.set("Overheads and profit", "Profit %", "ten") }, "Overheads and profit!C2", `"ten" is not a percentage`},
		{problem.PercentDoubt, func(y *yard) { y.set("Overheads and profit", "Profit %", "0.12") }, "Overheads and profit!C2", `"0.12" is read as 0.12 %; was 12 % meant?`},
		{problem.MoneyForm, func(y *yard) { y.set("Materials", "Price", "on request") }, "Materials!E2", `"on request" is not a sum of money`},
		{problem.CurrencyOther, func(y *yard) { y.set("Materials", "Price", "€4.20") }, "Materials!E2", `"€4.20" is in €, and the Job is in GBP`},
		{problem.MoneyForm, func(y *yard) { y.set("Materials", "Price", "POA") }, "Materials!E2", `"POA" is not a sum of money`},
		{problem.MoneyForm, func(y *yard) { y.set("Materials", "Price", "12.50 +VAT") }, "Materials!E2", `"12.50 +VAT" is not a sum of money`},
		{problem.MoneyForm, func(y *yard) { y.set("Materials", "Price", "1.250,00") }, "Materials!E2", `"1.250,00" has a comma where no thousands are parted`},
		{problem.NumberForm, func(y *yard) { y.set("Items", "Quantity", "1 250") }, "Items!D2", `"1 250" has a space between its figures`},
		{problem.LengthForm, func(y *yard) { y.set("Members", "Sided", "4½") }, "Members!H2", `"4½" has a fraction, and may be inches where millimetres are wanted`},
		{problem.CurrencyOther, func(y *yard) { y.set("Materials", "Price", "EUR 12") }, "Materials!E2", `"EUR 12" is in EUR, and the Job is in GBP`},
		{problem.CurrencyForm, func(y *yard) { y.set("Job", "Currency", "pounds") }, "Job!B9", `"pounds" is not a currency`},
		{problem.DateForm, func(y *yard) { y.set("Job", "Tender date", "03/04/2026") }, "Job!B6", "may be read day first or month first"},
		{problem.YesNoForm, func(y *yard) { y.set("Members", "Sapwood", "some") }, "Members!Q2", `"some" is neither yes nor no`},
		{problem.ChoiceUnknown, func(y *yard) { y.set("Members", "Treatment", "renuw") }, "Members!R2", `did you mean "renew"`},
		{problem.UnitUnknown, func(y *yard) { y.set("Items", "Unit", "bucket") }, "Items!E2", `"bucket" is not a unit`},
		{problem.UnitUnknown, func(y *yard) { y.set("Stock", "Unit", "kg") }, "Stock!S2", "one of nr, m, ft"},
		{problem.UnitUnknown, func(y *yard) { y.set("Build-ups", "Measured by", "seam (furlong)") }, "Build-ups!D2", `"furlong" in "seam (furlong)" is not a unit`},
		{problem.ReferenceForm, func(y *yard) { y.set("Job", "Tender reference", "SW/2026 1") }, "Job!B5", "such as SW-2026-1"},
		{problem.KeyForm, func(y *yard) { y.also("Stages", "Stage", "Deck, forward") }, "Stages!A3", "such as Deck forward"},
		{problem.OutOfRange, func(y *yard) { y.set("Members", "Condition", "7") }, "Members!AL2", `"7" is too large; at most 5 is wanted under "Condition"`},
		{problem.OutOfRange, func(y *yard) { y.set("Members", "Length", "-2.4") }, "Members!G2", `"-2.4" is too small; more than 0 m is wanted under "Length"`},
		{problem.OutOfRange, func(y *yard) { y.set("Stock", "Loss %", "120%") }, "Stock!N2", `"120 %" is too large; at most 95 % is wanted under "Loss %"`},
		{problem.OutOfRange, func(y *yard) { y.set("Fastenings", "Plank to", "200") }, "Fastenings!C2", "no plank is within the row"},
		{problem.KeyTwice, func(y *yard) { y.set("Sums", "Ref", "p1") }, "Sums!A2", `the Ref "p1" stands already in Preliminaries!A2`},
		{problem.KeyTwice, func(y *yard) { y.also("Stock", "Stock", " oak  PLANK 75") }, "Stock!A3", `stands already in A2 with the same "From"`},
		{problem.KeyTwice, func(y *yard) { y.also("Gangs") }, "Gangs!A3", `with the same "Trade"`},
		{problem.KeyUnknown, func(y *yard) { y.set("Members", "Section", "9") }, "Members!B2", `"9" is not in the sheet "Sections"`},
		{problem.KeyUnknown, func(y *yard) { y.set("Stages", "After", "Framing") }, "Stages!B2", `"Framing" is not in the sheet "Stages"`},
		{problem.PriceKeyUnknown, func(y *yard) { y.set("Members", "Build-up", "Side plnk") }, "Members!AG2", `did you mean "Side plank"`},
		{problem.PriceKeyUnknown, func(y *yard) { y.set("Build-ups", "Kind", "material") }, "Build-ups!C2", `"Fit side plank" is not in the sheet "Materials"`},
		{problem.PriceKeyUnknown, func(y *yard) { y.set("Dayworks", "Trade or kind", "labourer") }, "Dayworks!A2", "nor is it one of materials, plant or subcontract"},
		{problem.PriceKeyUnknown, func(y *yard) { y.without("Fastenings") }, "Members!AF2", `"Plank to frame" is looked up in the sheet "Fastenings", which is not there`},
	}
	raised := map[problem.Code]bool{}
	for _, c := range cases {
		raised[c.code] = true
		t.Run(string(c.code)+" at "+c.at, func(t *testing.T) {
			y := newYard(t)
			c.spoil(y)
			_, _, found := y.read()
			if len(found) != 1 {
				t.Fatalf("%d problems, want 1: %v", len(found), found)
			}
			p := found[0]
			if p.Code != c.code || p.At.String() != "yard.xlsx: "+c.at || !strings.Contains(p.String(), c.text) {
				t.Errorf("got  %s\nwant %s at %s: ... %s", p, c.code, c.at, c.text)
			}
		})
	}
	for _, f := range problem.Codes() {
		if ours(f.Code) && !raised[f.Code] {
			t.Errorf("nothing raises %s", f.Code)
		}
	}
}

// ours reports a code of reading: they come first, up to the last of them.
func ours(c problem.Code) bool {
	list := problem.Codes()
	last := slices.IndexFunc(list, func(f problem.Facts) bool { return f.Code == problem.PriceKeyUnknown })
	return slices.ContainsFunc(list[:last+1], func(f problem.Facts) bool { return f.Code == c })
}

func TestAllProblemsComeInOneGoInTheOrderOfTheSheets(t *testing.T) {
	y := newYard(t).set("Materials", "Price", "dear").set("Members", "Nr", "two").set("Members", "Section", "9").
		set("Job", "Vessel", "").set("Sections", "Contingency %", "150%")
	_, _, found := y.read()
	var got []string
	for _, p := range found {
		got = append(got, p.At.Sheet+"!"+p.At.Address()+" "+string(p.Code))
	}
	want := []string{"Job!B1 required", "Sections!D2 out-of-range", "Members!B2 key-unknown", "Members!F2 whole-form", "Materials!E2 money-form"}
	if !slices.Equal(got, want) {
		t.Errorf("got  %v\nwant %v", got, want)
	}
}

func TestARowIsReadOnAfterABadCell(t *testing.T) {
	j, _, _ := newYard(t).set("Members", "Nr", "two").set("Members", "Length", "6-3").set("Members", "Difficulty", "hard").read()
	m := j.Members[0]
	if m.Nr != 1 || m.Length <= 0 || m.Difficulty.String() != "1" || m.BuildUp != "Side plank" {
		t.Errorf("Nr %d, length %s, difficulty %s, build-up %q", m.Nr, m.Length.Metres(), m.Difficulty, m.BuildUp)
	}
}

// What the merchant pays for scrap comes back as a cost less than nil.
func TestACostBelowNilIsACredit(t *testing.T) {
	j, _, found := newYard(t).set("Items", "Cost", "-640.10").set("Items", "Cost kind", "materials").read()
	if c := j.Items[0].Cost.Amount().String(); len(found) != 0 || c != "-640.10" {
		t.Errorf("cost %s, problems %v", c, found)
	}
}

func TestASheetOfAnotherSortIsSaidOnceAndNotRead(t *testing.T) {
	y := newYard(t)
	*y.table("Preliminaries") = ParseTSV("Preliminaries", "Description\tQuantity\tRate\ncrane\t1\t350")
	j, _, found := y.read()
	if len(found) != 1 || found[0].Code != problem.HeadingMissing || len(j.Preliminaries) != 0 {
		t.Errorf("%d rows, problems %v", len(j.Preliminaries), found)
	}
}

func TestAnotherCopyOfASheetThatIsThereIsLeftAlone(t *testing.T) {
	y := newYard(t)
	members := *y.table("Members")
	members.Sheet = "Members (2)"
	y.tables = append([]Table{members}, y.tables...)
	if j, _ := y.clean(); len(j.Members) != 1 {
		t.Errorf("%d members", len(j.Members))
	}
}

func TestAHeadingMayHaveItsUnitInSquareBrackets(t *testing.T) {
	y := newYard(t).head("Members", "Longest piece", "Longest piece [mm]").set("Members", "Longest piece", "6200")
	if j, _ := y.clean(); j.Members[0].Longest != 6200*measure.Millimetre {
		t.Errorf("the longest piece is %s m", j.Members[0].Longest.Metres())
	}
}

func TestANameIsNotAskedForWhereTheRowThatMayBearItLostItsOwn(t *testing.T) {
	for _, sheet := range []string{"Timber", "Sections", "Labour"} {
		y := newYard(t)
		o, _ := outline(sheet)
		_, _, found := y.set(sheet, o.Headings[0].Name, "#N/A").read()
		if len(found) != 1 || found[0].Code != problem.CellFault {
			t.Errorf("%s: found %v, want the refused cell alone", sheet, found)
		}
	}
}
