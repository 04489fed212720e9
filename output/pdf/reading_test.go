package pdf

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/rates/money"
)

// However long the rows, no line of writing is set over another: a row that goes
// over leaves room for what stands at the foot of its page.
func TestNoWritingStandsOnOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, err := newDocument(rapid.SampledFrom([]job.Paper{job.A4, job.Letter}).Draw(t, "paper"))
		if err != nil {
			t.Fatal(err)
		}
		d.turn()
		d.y += rapid.Float64Range(0, d.bottom-top-40).Draw(t, "begun at")
		table := d.table(column{head: "Item"}, column{head: "Text", share: 1}, column{head: "Q"}, column{head: "U"}, column{head: "R"}, column{head: "Amount", align: pointed}, column{head: "VAT"})
		table.collection = &collection{}
		for s := range rapid.IntRange(1, 3).Draw(t, "sections") {
			table.across(bandRow, fmt.Sprintf("S%d", s), "")
			var total money.Amount
			for i := range rapid.SampledFrom([]int{1, 2, 12, 50}).Draw(t, "lines of the section") {
				a := money.Pennies(rapid.Int64Range(1, 99999).Draw(t, "amount"))
				total = total.Add(a)
				deep := rapid.SampledFrom([]int{1, 1, 2, 8, 30, 70, 130}).Draw(t, "deep")
				table.add(plainRow, words(fmt.Sprint(i), ""), words(strings.TrimSpace(strings.Repeat("line\n", deep)), ""), cell{}, cell{}, cell{}, words(figures(a), ""), cell{})
				table.rows[len(table.rows)-1].amount = &a
			}
			table.carried("Carried to summary", "", total)
			table.rows[len(table.rows)-1].closes = &total
		}
		table.set()
		for n, p := range d.pages {
			apart(t, d, n, p)
		}
	})
}

// apart checks that what is written on a page with its baselines at one height
// stands beside one another, and else a line apart.
func apart(t *rapid.T, d *document, n int, p *page) {
	var all []mark
	for _, m := range p.marks {
		if m.kind == writing {
			all = append(all, m)
		}
	}
	for i, a := range all {
		for _, b := range all[:i] {
			if a.x+0.01 < b.x+d.letters.width(b.text, b.style) && b.x+0.01 < a.x+d.letters.width(a.text, a.style) && max(a.y-b.y, b.y-a.y) < 2 {
				t.Fatalf("page %d: %q at %.1f, %.1f mm stands on %q at %.1f, %.1f mm", n+1, a.text, a.x, a.y, b.text, b.x, b.y)
			}
		}
	}
}

func TestAReferenceIsTheNumberOfItsPage(t *testing.T) {
	d := fresh(t)
	table := d.table(column{head: "What", share: 1}, column{head: "Page", wide: 12, align: flush})
	table.add(plainRow, words("the total", ""), onPage("total"))
	table.set()
	d.turn()
	d.turn()
	far := d.table(column{head: "What", share: 1})
	far.add(plainRow, words("line", ""))
	far.add(totalRow, words("total", ""))
	far.rows[1].place = "total"
	far.set()
	d.refer()
	var said, leads bool
	for _, m := range d.pages[0].marks {
		said = said || m.kind == writing && m.text == "3" && m.x+d.letters.width("3", m.style) > d.right-2*gutter
		leads = leads || m.kind == link && m.to == 3
	}
	if !said || !leads {
		t.Errorf("the page of the total is printed at its right edge: %v; it leads there: %v", said, leads)
	}

	table.add(plainRow, words("nothing", ""), onPage("nowhere"))
	lost := d.table(table.columns...)
	lost.rows = table.rows
	lost.set()
	defer func() {
		if recover() == nil {
			t.Error("a reference that leads nowhere is let pass")
		}
	}()
	d.refer()
}

// A table that goes over says what it is on its next page, with or without bands.
func TestATableThatGoesOverSaysWhatItIs(t *testing.T) {
	d := fresh(t)
	table := d.table(column{head: "Item"}, column{head: "Text", share: 1})
	table.band = "Preliminaries"
	for i := range 60 {
		table.add(plainRow, words(fmt.Sprint(i), ""), words("line", ""))
	}
	table.set()
	if len(d.pages) < 2 {
		t.Fatal("sixty rows do not go over")
	}
	for n, p := range d.pages {
		said := false
		for _, m := range p.marks {
			said = said || m.text == "Preliminaries (continued)"
		}
		if said != (n > 0) {
			t.Errorf("page %d says that it goes on: %v", n+1, said)
		}
	}
}

// A heading is never the last thing on a page, whatever table stands under it.
func TestAHeadingStaysWithItsTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, err := newDocument(rapid.SampledFrom([]job.Paper{job.A4, job.Letter}).Draw(t, "paper"))
		if err != nil {
			t.Fatal(err)
		}
		d.turn()
		d.y += rapid.Float64Range(0, d.bottom-top-5).Draw(t, "begun at")
		table := d.table(column{head: "HEAD"}, column{head: "Text", share: 1})
		for range rapid.IntRange(1, 12).Draw(t, "rows") {
			table.add(plainRow, words("row", ""), words(strings.TrimSpace(strings.Repeat("line\n", rapid.IntRange(1, 4).Draw(t, "lines"))), ""))
		}
		d.headed("A heading", table, rapid.SliceOfN(rapid.Just(strings.Repeat("reason and more ", 12)), 0, 3).Draw(t, "reasons")...)
		for n, p := range d.pages {
			heading, row := false, false
			for _, m := range p.marks {
				heading = heading || m.text == "A heading"
				row = row || m.text == "row"
			}
			if heading && !row {
				t.Fatalf("the heading stands on page %d and no row of its table", n+1)
			}
		}
	})
}

func TestAPDFSaysItsLanguageAndShowsItsTitle(t *testing.T) {
	d := fresh(t)
	d.write(left, top, "text", body)
	data, err := d.paint()
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.LastIndex(data, []byte("startxref\n"))
	var list int
	if _, err := fmt.Sscanf(string(data[at:]), "startxref\n%d", &list); err != nil || !bytes.HasPrefix(data[list:], []byte("xref\n")) {
		t.Fatalf("the end of the file leads to byte %d, where no list begins: %v", list, err)
	}
	entry := regexp.MustCompile(`^xref\n(\d+) 1\n(\d{10}) 00000 n \n`).FindSubmatch(data[list:])
	if entry == nil {
		t.Fatalf("the list is %.60q", data[list:])
	}
	object, err := strconv.Atoi(string(entry[2]))
	if err != nil {
		t.Fatal(err)
	}
	want := string(entry[1]) + " 0 obj\n<<\n/Lang (en-GB)\n/ViewerPreferences <</DisplayDocTitle true>>\n/Type /Catalog\n"
	if !bytes.HasPrefix(data[object:], []byte(want)) {
		t.Errorf("the list leads to %.90q, want %q", data[object:], want)
	}
	if got, err := catalogued([]byte("%PDF-1.3\nno end")); err == nil {
		t.Errorf("a file without an end is made %q", got)
	}
}

// Two bars of 20 mm under one another: the upper a quarter dark and a tenth half
// dark, the lower three quarters dark; neither touches the other or its row.
func TestTwoBarsStandUnderOneAnother(t *testing.T) {
	d := fresh(t)
	table := d.table(column{head: "What", share: 1}, column{head: "Bars", wide: 20 + 2*gutter})
	table.add(plainRow, words("section", ""), barred(bar{1, 0.25, 0.1}, bar{1, 0.75, 0}))
	table.set()
	type found struct{ from, w float64 }
	shades := map[colour][]found{}
	var frames []mark
	for _, m := range d.here().marks {
		switch m.kind {
		case tint:
			shades[m.style.colour] = append(shades[m.style.colour], found{m.x - table.x[1] - gutter, m.w})
		case frame:
			frames = append(frames, m)
		}
	}
	want := map[colour][]found{pale: {{0, 20}, {0, 20}}, slate: {{0, 5}, {0, 15}}, grey: {{5, 2}}}
	near := cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-6 })
	if diff := cmp.Diff(want, shades, near, cmp.AllowUnexported(found{}, colour{})); diff != "" {
		t.Errorf("the bars (-want +got):\n%s", diff)
	}
	if len(frames) != 2 || frames[0].y+frames[0].h >= frames[1].y || frames[0].y < top || frames[1].y+frames[1].h > d.y {
		t.Errorf("the bars stand at %+v, in a table from %.1f to %.1f mm", frames, top, d.y)
	}
}

// A key that stands under a table has its room on the page of the last rows.
func TestWhatStandsUnderATableStaysWithIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, err := newDocument(rapid.SampledFrom([]job.Paper{job.A4, job.Letter}).Draw(t, "paper"))
		if err != nil {
			t.Fatal(err)
		}
		d.turn()
		d.y += rapid.Float64Range(0, d.bottom-top-5).Draw(t, "begun at")
		table := d.table(column{head: "HEAD"}, column{head: "Text", share: 1})
		for range rapid.IntRange(1, 70).Draw(t, "rows") {
			table.add(plainRow, words("row", ""), words(strings.TrimSpace(strings.Repeat("line\n", rapid.IntRange(1, 4).Draw(t, "lines"))), ""))
		}
		table.add(totalRow, words("total", ""), words("of all", ""))
		table.below = 12
		table.set()
		if d.room() < table.below-3.1 { // set leaves 3 mm under the table
			t.Fatalf("%.1f mm are left under the table, and %.1f were asked for", d.room(), table.below)
		}
	})
}

// The heading of a part is never alone on a page: it goes over with what is to
// stand under it, and the contents and the outline go with it.
func TestTheHeadingOfAPartIsNotLeftBehind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, err := newDocument(rapid.SampledFrom([]job.Paper{job.A4, job.Letter}).Draw(t, "paper"))
		if err != nil {
			t.Fatal(err)
		}
		d.part = "Before"
		d.turn()
		d.say(body, "text before")
		d.y += rapid.Float64Range(0, d.bottom-top-5).Draw(t, "begun at")
		d.begin("A part")
		table := d.table(column{head: "HEAD"}, column{head: "Text", share: 1})
		for range rapid.IntRange(1, 12).Draw(t, "rows") {
			table.add(plainRow, words("row", ""), words(strings.TrimSpace(strings.Repeat("line\n", rapid.IntRange(1, 9).Draw(t, "lines"))), ""))
		}
		d.headed("A heading", table, rapid.SliceOfN(rapid.Just(strings.Repeat("reason and more ", 12)), 0, 6).Draw(t, "reasons")...)
		for n, p := range d.pages {
			part, row := 0, false
			for _, m := range p.marks {
				if m.text == "A part" {
					part++
				}
				row = row || m.text == "row" || m.text == "reason" || strings.HasPrefix(m.text, "reason")
				if m.y > d.bottom+0.1 {
					t.Fatalf("page %d: %q stands at %.1f mm", n+1, m.text, m.y)
				}
			}
			outlined := len(p.bookmarks) > 0
			if part > 1 || (part == 1) != outlined || part == 1 && (!row || d.contents[0].page != n+1) {
				t.Fatalf("page %d has the heading %d times, rows %v, in the outline %v; the contents say page %d", n+1, part, row, outlined, d.contents[0].page)
			}
		}
	})
}
