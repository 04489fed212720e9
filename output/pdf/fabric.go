package pdf

import (
	"fmt"
	"strconv"
	"strings"

	"futtock/estimate/fabric"
	"futtock/rates/money"
)

// oldFabric is the share of the old ship that is kept, by number of members and
// by volume, with a bar of each for every section.
func (t *tender) oldFabric() {
	f := t.Fabric
	if !f.All.Any() {
		return
	}
	t.begin("Old fabric kept")
	t.clause(t.keptInAll())
	t.clause(text("fabric")...)
	in := "\u00a0" + unit(f.Unit)
	columns := []column{{head: ""}, {head: "Section", share: 1}, {head: "Members", align: flush}, {head: "Kept whole", align: flush}, {head: "Kept in part", align: flush}, {head: "Not kept", align: flush}, {head: "Whole, by number", align: flush}}
	table := t.table(append(columns, column{head: "Before" + in, align: pointed}, column{head: "Kept" + in, align: pointed},
		column{head: "By number, by volume", wide: 22}, column{head: "Kept, by volume", align: flush})...)
	line := func(kind rowKind, s style, code, title string, c fabric.Count) {
		cells := []cell{styled(code, s, 1), styled(title, s, 1)}
		for _, n := range []int{c.Members, c.Whole, c.InPart, c.Lost()} {
			cells = append(cells, styled(strconv.Itoa(n), s, 1))
		}
		whole, timber := "", ""
		var bars []bar
		if p, ok := c.ByNumber(); ok {
			whole = tenth(p)
			bars = append(bars, bar{1, p.Fraction().InexactFloat64(), float64(c.InPart) / float64(c.Members)})
		}
		if p, ok := c.ByVolume(); ok {
			timber = tenth(p)
			bars = append(bars, bar{1, p.Fraction().InexactFloat64(), 0})
		}
		table.add(kind, append(cells, styled(whole, s, 1), styled(quantity(c.Before, f.Unit), s, 1), styled(quantity(c.Kept, f.Unit), s, 1), barred(bars...), styled(timber, s, 1))...)
	}
	for _, s := range f.Sections {
		line(plainRow, cellText, s.Section, s.Title, s.Count)
	}
	line(totalRow, cellBold, "", "All members named", f.All)
	table.below = keyDeep + 3
	table.set()
	t.fabricKey()
	t.named("fabric not sized", f.NotSized)
	t.named("fabric fastenings", f.Fastenings)
}

// keptInAll is what a reader in haste wants to know.
func (t *tender) keptInAll() string {
	all := t.Fabric.All
	if all.Members == 0 {
		return "No member is named in the schedule of work that would be counted by number."
	}
	if all.Whole+all.InPart == 0 {
		return fmt.Sprintf("Of %s named in the schedule of work none is kept.", members(all.Members))
	}
	said := fmt.Sprintf("Of %s named in the schedule of work, %d are kept whole and %d in part", members(all.Members), all.Whole, all.InPart)
	if p, ok := all.ByNumber(); ok {
		said += ": " + tenth(p) + " by number are kept whole"
	}
	if p, ok := all.ByVolume(); ok {
		said += ", and " + tenth(p) + " of their timber by volume is kept"
	}
	return said + "."
}

func members(n int) string {
	if n == 1 {
		return "one member"
	}
	return strconv.Itoa(n) + "\u00a0members"
}

// tenth is a share to its one place.
func tenth(p money.Percent) string { return p.Decimal().StringFixed(1) + "\u00a0%" }

// named lists rows by their Ref and what they are.
func (t *tender) named(part string, rows []fabric.Row) {
	if len(rows) == 0 {
		return
	}
	var names []string
	for _, r := range rows {
		names = append(names, r.Member.Ref+" "+r.Member.Member)
	}
	t.say(aside, text(part, "{rows}", strings.Join(names, "; "))...)
}

// fabricKey says what the bars mean.
func (t *tender) fabricKey() {
	small := cellNote.of(regular)
	x := left
	for _, k := range []struct {
		text string
		fill colour
	}{{"kept, above by number and below by volume", slate}, {"members kept in part", grey}, {"renewed or removed", pale}} {
		t.put(mark{kind: tint, x: x, y: t.y, w: 9, h: barHigh, style: style{colour: k.fill}})
		t.put(mark{kind: frame, x: x, y: t.y, w: 9, h: barHigh, style: style{size: 0.15, colour: slate}})
		t.write(x+10.5, t.y+barHigh-0.2, k.text, small)
		x += 10.5 + t.letters.width(k.text, small) + 8
	}
	t.y += keyDeep
}

// keyDeep is the height of the key of bars, in mm.
const keyDeep = barHigh + 4
