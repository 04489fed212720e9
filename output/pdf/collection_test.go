package pdf

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/rates/money"
)

// However the lines of sections fall on pages: what stands at the foot of a page
// is the sum of the lines on it, a collection lists the pages of its section with
// those sums, and all stands within the page.
func TestEachPageIsCarriedToTheCollection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, err := newDocument(rapid.SampledFrom([]job.Paper{job.A4, job.Letter}).Draw(t, "paper"))
		if err != nil {
			t.Fatal(err)
		}
		d.turn()
		d.y += rapid.Float64Range(0, d.bottom-top-40).Draw(t, "begun at")
		table := d.table(column{head: "Item"}, column{head: "Text", share: 1}, column{head: "Q"}, column{head: "U"}, column{head: "R"}, column{head: "Amount", align: pointed}, column{head: "VAT"})
		table.collection = &collection{}
		amounts := map[string]money.Amount{} // by the name of the line
		for s := range rapid.IntRange(1, 4).Draw(t, "sections") {
			table.across(bandRow, fmt.Sprintf("S%d", s), "")
			var total money.Amount
			for i := range rapid.SampledFrom([]int{1, 2, 3, 12, 50, 160}).Draw(t, "lines of the section") {
				a := money.Pennies(rapid.Int64Range(-500, 99999).Draw(t, "amount"))
				name := fmt.Sprintf("L%d.%d", s, i)
				amounts[name], total = a, total.Add(a)
				deep := rapid.SampledFrom([]int{1, 1, 1, 1, 2, 3, 8, 70}).Draw(t, "deep")
				table.add(plainRow, words(name, ""), words(strings.TrimSpace(strings.Repeat("line\n", deep)), ""), cell{}, cell{}, cell{}, words(figures(a), ""), cell{})
				table.rows[len(table.rows)-1].amount = &a
			}
			table.carried("Carried to summary", "", total)
			table.rows[len(table.rows)-1].closes = &total
		}
		table.set() // which panics where pages do not come to the total

		listed, carried := map[string]money.Amount{}, map[int]money.Amount{}
		for n, p := range d.pages {
			var sum money.Amount
			asked := ""
			for _, m := range p.marks {
				if m.kind != writing {
					continue
				}
				if m.y > d.bottom+0.1 || m.y < top {
					t.Fatalf("%q stands at %.1f mm, off the page", m.text, m.y)
				}
				switch a, line := amounts[m.text]; {
				case line:
					sum = sum.Add(a)
				case m.text == "Carried to summary":
					sum = money.Amount{}
				case m.text == "Carried to collection", strings.HasPrefix(m.text, "Page "):
					asked = m.text
				case asked != "" && figure(m.text):
					got := money.MustAmount(strings.NewReplacer("−", "-", ",", "").Replace(m.text))
					if asked == "Carried to collection" {
						carried[n+1] = got
						if !got.Equal(sum) {
							t.Fatalf("page %d carries %s and its lines come to %s", n+1, got, sum)
						}
					} else {
						listed[asked] = got
						page, _ := strconv.Atoi(strings.TrimPrefix(asked, "Page "))
						if c, ok := carried[page]; ok && !c.Equal(got) {
							t.Fatalf("%s is listed with %s and carried %s", asked, got, c)
						}
					}
					asked = ""
				}
			}
		}
		for page := range carried {
			if _, ok := listed["Page "+strconv.Itoa(page)]; !ok {
				t.Fatalf("page %d is carried to a collection that does not list it", page)
			}
		}
	})
}
