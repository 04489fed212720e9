package pdf

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/output/drawing"
	"futtock/rates"
)

// byNumber lists the sticks that are had by number and have nothing to draw:
// knees, spars, and what has no size.
func (t *timber) byNumber() {
	table := t.table(column{head: "Pattern"}, column{head: "Stock", share: 1}, column{head: "Sticks", align: flush}, column{head: "For", share: 1}, column{head: "Sawn size of the piece", share: 1})
	for _, l := range t.stock {
		if drawing.Drawn(l.Stock) {
			continue
		}
		for n, p := range l.Patterns {
			for i, c := range p.Cuts {
				piece := t.Plan.Pieces[c.Piece]
				number, count := "", ""
				if i == 0 {
					number, count = strconv.Itoa(l.number[n]), strconv.Itoa(p.Times)
				}
				says := t.stick(l.Stock)
				if l.Carried != job.Measured {
					says += "; may be wanted, " + outside(l.Carried)
				}
				table.add(plainRow, styled(number, cellBold, 1), words(l.Stock.Stock, says), styled(count, cellBold, 1), t.named(c.Ref), words(t.pieceSize(piece), t.swept(piece)))
			}
		}
	}
	if len(table.rows) == 0 {
		return
	}
	t.turn()
	t.begin("Knees, spars and sticks by number")
	t.say(body, t.standing("by number")...)
	table.set()
}

// byCube lists the pieces to be sawn of timber had by volume.
func (t *timber) byCube() {
	table := t.table(column{head: "Ref"}, column{head: "Member", share: 1}, column{head: "Pieces", align: flush}, column{head: "Thick × wide", align: flush}, column{head: "Length", align: flush})
	for _, l := range t.stock {
		if l.Stock.Form != rates.Cube {
			continue
		}
		head := l.Stock.Stock + ", " + l.Stock.Timber + ": " + quantity(l.Buy, l.Stock.Unit) + "\u00a0" + unit(l.Stock.Unit)
		if l.Carried != job.Measured {
			head += ", may be wanted (" + outside(l.Carried) + ")"
		}
		table.across(bandRow, head, l.Stock.Stock)
		for _, g := range l.Got {
			p := t.Plan.Pieces[g.Piece]
			table.add(plainRow, styled(g.Ref, cellBold, 1), words(t.member(g.Ref), t.swept(p)), styled(strconv.Itoa(g.Count), cellBold, 1), words(t.frame.Sizes(p.Thickness, p.Width), ""), words(t.frame.Length(p.Length), ""))
		}
	}
	if len(table.rows) == 0 {
		return
	}
	t.turnUpright()
	t.begin("Timber by volume")
	t.say(body, t.standing("by cube")...)
	table.set()
}

// turnUpright turns to a page that stands upright, where the last lies on its side.
func (t *timber) turnUpright() {
	if t.here().wide {
		t.turn()
	}
}

// list is the cutting list by member.
func (t *timber) list() {
	t.turnUpright()
	t.begin("Cutting list by member")
	t.say(body, t.standing("list")...)
	table := t.table(column{head: "Ref"}, column{head: "Member", share: 1}, column{head: "Pieces", align: flush}, column{head: "Thick × wide", align: flush}, column{head: "Length", align: flush}, column{head: "Stock: patterns", share: 1.15})
	for i, p := range t.Plan.Pieces {
		if p.Count <= 0 {
			continue
		}
		note := t.swept(p)
		if !p.Carried.InTotal() {
			note = strings.TrimPrefix(note+"; may be wanted ("+outside(p.Carried)+")", "; ")
		}
		member := t.member(p.Ref)
		if m := t.members[p.Ref]; m != nil && m.Side != "" {
			member += ", " + m.SideWords()
		}
		table.add(plainRow, styled(p.Ref, cellBold, 1), words(member, note), styled(strconv.Itoa(p.Count), cellBold, 1),
			words(t.frame.Sizes(p.Thickness, p.Width), ""), words(t.frame.Length(p.Length), ""), words(t.from(i), ""))
	}
	if len(table.rows) == 0 {
		t.say(body, "No timber is wanted.")
		return
	}
	table.set()
}

// from says which patterns a piece comes from, by stock line.
func (t *timber) from(piece int) string {
	list := slices.Clone(t.cuts[piece])
	slices.SortStableFunc(list, func(a, b source) int { return cmp.Or(cmp.Compare(a.line, b.line), cmp.Compare(a.pattern, b.pattern)) })
	var lines []string
	for i := 0; i < len(list); {
		line := list[i].line
		var parts []string
		for ; i < len(list) && list[i].line == line; i++ {
			if s := list[i]; s.pattern > 0 {
				parts = append(parts, strconv.Itoa(s.pattern)+"\u00a0("+strconv.Itoa(s.count)+")")
			} else {
				parts = append(parts, "by list ("+strconv.Itoa(s.count)+")")
			}
		}
		lines = append(lines, t.stock[line].Stock.Stock+": "+strings.Join(parts, ", "))
	}
	if len(lines) == 0 {
		return "not to be had"
	}
	return strings.Join(lines, "\n")
}

func (t *timber) member(ref string) string {
	if m := t.members[ref]; m != nil {
		return m.Member
	}
	return ""
}

func (t *timber) named(ref string) cell {
	return cell{paras: []para{{ref, cellBold}, {t.member(ref), cellText}}}
}

func (t *timber) pieceSize(p takeoff.Piece) string {
	return t.frame.Three(p.Thickness, p.Width, p.Length)
}

// swept says how a piece is curved or shaped, where it is.
func (t *timber) swept(p takeoff.Piece) string {
	var out []string
	if p.Curve != nil {
		out = append(out, "sweep "+t.frame.Size(p.Curve.Sweep)+" on "+t.frame.Length(p.Curve.Chord))
	}
	if p.Shape != "" && p.Shape != job.Square {
		out = append(out, "to be worked "+string(p.Shape))
	}
	if p.Heart != "" && p.Heart != job.AnyHeart {
		out = append(out, "heart "+string(p.Heart))
	}
	if p.Sapwood {
		out = append(out, "sapwood allowed")
	}
	return strings.Join(out, "; ")
}
