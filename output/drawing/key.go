package drawing

import (
	"fmt"
	"math"
	"strconv"

	"futtock/estimate/cutting/order"
	"futtock/estimate/takeoff"
	"futtock/rates/measure"
)

// entry is a line of the key: like pieces of one row of the schedule, or like
// off-cuts.
type entry struct {
	name  string // the Ref; of off-cuts "keep"
	size  string // as it stands in the drawing
	text  string // what more the key says
	count int    // in one stick
}

// key is what comes out of a stick, and what stands in the drawing for each of it.
type key struct {
	entries  []entry
	piece    []int // entry of each cut
	offcut   []int // entry of each off-cut
	several  map[string]bool
	lastName map[string]int
}

// alike is what pieces of one entry have in common.
type alike struct {
	ref                      string
	thickness, width, length measure.Length
	curve                    takeoff.Curve
}

// keyOf gathers the pieces and off-cuts of a pattern, in the order of its cuts.
func (f Frame) keyOf(p order.Pattern) key {
	k := key{several: map[string]bool{}, lastName: map[string]int{}}
	seen := map[alike]int{}
	add := func(a alike, e entry) int {
		i, ok := seen[a]
		if !ok {
			i = len(k.entries)
			seen[a] = i
			if _, other := k.lastName[e.name]; other {
				k.several[e.name] = true
			}
			k.lastName[e.name] = i
			k.entries = append(k.entries, e)
		}
		k.entries[i].count++
		return i
	}
	for _, c := range p.Cuts {
		// A piece is named by its own sizes, however it lies in the stick.
		own := f.Pieces[c.Piece]
		a := alike{ref: c.Ref, thickness: own.Thickness, width: own.Width, length: c.Length}
		e := entry{name: f.clean(c.Ref), text: f.clean(f.Member[c.Ref]), size: f.Three(own.Thickness, own.Width, c.Length)}
		if c.Curve != nil {
			a.curve = *c.Curve
			curve := "sweep " + f.Size(c.Curve.Sweep) + " on " + f.Length(c.Curve.Chord)
			if e.text != "" {
				curve += ", "
			}
			e.text = curve + e.text
		}
		k.piece = append(k.piece, add(a, e))
	}
	for _, o := range p.Offcuts {
		a := alike{thickness: o.Thickness, width: o.Width, length: o.Length}
		k.offcut = append(k.offcut, add(a, entry{name: "keep", size: f.Three(o.Thickness, o.Width, o.Length), text: "off-cut"}))
	}
	return k
}

// number is what stands in the drawing for an entry that has no room for more.
func (k key) number(i int) string { return strconv.Itoa(i + 1) }

// short is what stands for an entry that has room for its name alone: the name,
// but where entries share it the number.
func (k key) short(i int) string {
	if name := k.entries[i].name; !k.several[name] {
		return name
	}
	return k.number(i)
}

// drawKey sets the key in as many columns as there is room for, in parts no deeper
// than the frame.
func (f Frame) drawKey(k key, room float64) []Drawing {
	const gap = 6.0
	numbers := 3 + f.wide(k.number(len(k.entries)), false, plainSize)
	widest := 0.0
	texts := make([]string, len(k.entries))
	for i, e := range k.entries {
		texts[i] = e.size
		if e.text != "" {
			texts[i] += ", " + e.text
		}
		if e.count > 1 {
			texts[i] = fmt.Sprintf("%d of %s", e.count, texts[i])
		}
		widest = math.Max(widest, numbers+f.wide(e.name, true, plainSize)+1.6+f.wide(texts[i], false, plainSize))
	}
	columns := min(max(1, int(room/(widest+gap))), 4, len(k.entries))
	if len(k.entries) > 2 {
		columns = max(2, columns)
	}
	pitch := f.Width / float64(columns)
	var out []Drawing
	most := columns * max(1, int((f.Height-2.5)/lineDeep)) // entries in one part
	for from := 0; from < len(k.entries); from += most {
		n := min(most, len(k.entries)-from)
		rows := (n + columns - 1) / columns
		d := Drawing{Width: room, Height: float64(rows)*lineDeep + 2.5}
		for j := range n {
			i, e := from+j, k.entries[from+j]
			x, y := float64(j/rows)*pitch, float64(j%rows)*lineDeep+2.8
			d.put(tell(x+numbers-1.5, y, k.number(i), plainSize, false, Right), tell(x+numbers, y, e.name, plainSize, true, Left))
			left := pitch - numbers - f.wide(e.name, true, plainSize) - 1.6
			d.put(tell(x+pitch-left, y, f.cutShort(texts[i], left), plainSize, false, Left))
		}
		out = append(out, d)
	}
	return out
}

// cutShort is text on one line of so much room; what it cuts, a member's long
// name, stands in full in the cutting list.
func (f Frame) cutShort(text string, room float64) string {
	if f.wide(text, false, plainSize) <= room {
		return text
	}
	r := []rune(text)
	for len(r) > 0 && f.wide(string(r)+"…", false, plainSize) > room {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// Legend shows what each kind of outline and shade means.
func (f Frame) Legend() Drawing {
	d := Drawing{Width: f.Width}
	const wide, deep, pitch = 16.0, 6.0, 9.0
	for i, l := range []struct {
		shapes []Shape
		text   string
	}{
		{[]Shape{{Path: oblong(0, 0, wide, deep), Fill: White, Line: edge}, centred(wide/2, deep/2, "FR1", smallSize, true)}, "a piece to be sawn, with its reference; where that has no room, its number in the key below the drawing"},
		{append([]Shape{{Path: oblong(0, 0, wide, deep), Fill: White, Line: fine}}, hatch(0, 0, wide, deep, 1.8)...), "an off-cut to be kept, with its size"},
		{[]Shape{{Path: oblong(0, 0, wide, deep), Fill: Waste, Line: edge}}, "what is left of the stick and not kept"},
		{[]Shape{{Path: oblong(0, 0, wide, deep), Fill: Sapwood, Line: fine}}, "sapwood, out to the bark: no part of a piece unless the schedule allows it"},
		{[]Shape{{Path: oblong(0, 0, wide, deep), Fill: Bark, Line: fine}}, "bark"},
		{[]Shape{stroke(0, deep/2, wide, deep/2, sawn)}, "a saw cut right through, an end trim, or the inner edge of the sapwood"},
		{[]Shape{stroke(wide/2-2, deep/2, wide/2+2, deep/2, fine), stroke(wide/2, deep/2-2, wide/2, deep/2+2, fine)}, "the pith of a log"},
	} {
		d.over(Drawing{Shapes: l.shapes}, 0, float64(i)*pitch)
		d.put(tell(wide+4, float64(i)*pitch+deep/2+capital/2, l.text, 9, false, Left))
		d.Height = float64(i)*pitch + deep
	}
	d.Width = f.Width
	return d
}
