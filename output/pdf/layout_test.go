package pdf

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"futtock/estimate/job"
)

func fresh(t testing.TB) *document {
	t.Helper()
	d, err := newDocument(job.A4)
	if err != nil {
		t.Fatal(err)
	}
	d.turn()
	return d
}

func TestTextIsMadeFitToPrint(t *testing.T) {
	for _, c := range []struct {
		name, text, want string
		replaced         bool
	}{
		{"what the type has stays", "½\u00a0in × 3″ – Øster Ŵern £ € Яхта", "½\u00a0in × 3″ – Øster Ŵern £ € Яхта", false},
		{"new lines of all kinds", "a\r\nb\rc\nd\u2028e", "a\nb\nc\nd\ne", false},
		{"a tab", "a\tb", "a b", false},
		{"a fraction the type lacks", "2⅓", "21/3", false},
		{"a hyphen that does not break", "P‑12", "P-12", false},
		{"a tick", "✓", "[tick]", false},
		{"an accent apart from its letter", "o\u0308", "ö", false},
		{"a wide letter", "Ａ１", "A1", false},
		{"a ligature", "ﬃ", "ffi", false},
		{"marks that print nothing", "a\u200bb\ufeffc\u00add\ufe0f", "abcd", false},
		{"a control character", "a\x00b", "a[U+0000]b", true},
		{"a picture", "🚢", "[U+1F6A2]", true},
		{"a script the type lacks", "船", "[U+8239]", true},
		{"bytes that are no text", "a\xffb", "a\ufffdb", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := fresh(t)
			if got := d.clean(c.text); got != c.want || d.replaced != c.replaced {
				t.Errorf("%q is printed as %q, replaced %v; want %q, %v", c.text, got, d.replaced, c.want, c.replaced)
			}
			if again := d.clean(c.want); again != c.want {
				t.Errorf("cleaned again it is %q", again)
			}
		})
	}
}

func TestAnyTextIsPrintable(t *testing.T) {
	d := fresh(t)
	rapid.Check(t, func(t *rapid.T) {
		s := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")) + string(rapid.SliceOf(rapid.Rune()).Draw(t, "runes"))
		if got := d.clean(s); !d.letters.Printable(got) {
			t.Fatalf("%q is made %q, which cannot be printed", s, got)
		}
	})
}

func TestLinesKeepEveryLetterAndTheirWidth(t *testing.T) {
	d := fresh(t)
	word := rapid.StringMatching(`[a-z/,\x{00a0}-]{1,60}`)
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(word, 0, 30).Draw(t, "words"), " ")
		w := rapid.Float64Range(8, 160).Draw(t, "width")
		lines := d.lines(text, cellText, w)
		for _, l := range lines {
			if got := d.letters.width(l, cellText); got > w+1e-9 {
				t.Fatalf("the line %q is %.2f mm wide, in %.2f", l, got, w)
			}
		}
		if got, want := strings.Join(lines, ""), strings.ReplaceAll(text, " ", ""); strings.ReplaceAll(got, " ", "") != want {
			t.Fatalf("lines are %q of %q", lines, text)
		}
	})
}

func TestANoBreakSpaceIsNotBroken(t *testing.T) {
	d := fresh(t)
	w := d.letters.width("14\u00a0May ", cellText)
	if got, want := d.lines("the 14\u00a0May", cellText, w), []string{"the", "14\u00a0May"}; !slices.Equal(got, want) {
		t.Errorf("broken as %q, want %q", got, want)
	}
}

func TestFiguresAreAllOfOneWidth(t *testing.T) {
	d := fresh(t)
	for f := range faces {
		want := d.letters.Advance('0', f)
		for _, r := range "123456789" {
			if got := d.letters.Advance(r, f); got != want {
				t.Errorf("cut %d: %c is %v wide, 0 is %v", f, r, got, want)
			}
		}
	}
}

func TestAColumnIsRangedByThePoint(t *testing.T) {
	d := fresh(t)
	table := d.table(column{head: "What", share: 1}, column{head: "How many", align: pointed})
	figures := []string{"1", "−12.5", "1,234.567", "0.05", "12,345,678.90"}
	for _, f := range figures {
		table.add(plainRow, words("x", ""), words(f, ""))
	}
	table.set()
	at := map[string]float64{}
	for _, m := range d.here().marks {
		if m.kind == writing && slices.Contains(figures, m.text) {
			before, _ := parted(m.text)
			at[m.text] = m.x + d.letters.width(before, m.style)
		}
	}
	for _, f := range figures {
		if math.Abs(at[f]-at["1"]) > 1e-6 {
			t.Errorf("the point of %s is at %.3f mm, of 1 at %.3f", f, at[f], at["1"])
		}
	}
}

// However rows fall on pages: each is printed once and in order, within the
// page; no head or band is the last thing on a page, and no total the first.
func TestTablesBreakWell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, err := newDocument(rapid.SampledFrom([]job.Paper{job.A4, job.Letter}).Draw(t, "paper"))
		if err != nil {
			t.Fatal(err)
		}
		d.turn()
		d.y += rapid.Float64Range(0, d.bottom-top-5).Draw(t, "begun at")
		table := d.table(column{head: "HEAD"}, column{head: "Text", share: 1}, column{head: "Amount", align: pointed})
		var want []string
		n := rapid.IntRange(1, 90).Draw(t, "rows")
		last := bandRow
		for i := range n {
			kind := rapid.SampledFrom([]rowKind{plainRow, plainRow, plainRow, plainRow, bandRow, totalRow}).Draw(t, "kind")
			if kind == totalRow && last != plainRow || kind == bandRow && (last == bandRow || i == n-1) {
				kind = plainRow
			}
			last = kind
			tag := fmt.Sprintf("%c%d", "pbntg"[kind], i)
			want = append(want, tag)
			switch lines := rapid.SampledFrom([]int{1, 1, 1, 2, 5, 12, 25, 90}).Draw(t, "lines"); kind {
			case bandRow:
				table.across(bandRow, tag, "part "+tag)
			case totalRow:
				table.add(totalRow, styled(tag, cellBold, 1), styled("total", cellBold, 1), styled("1.00", cellBold, 1))
			default:
				table.add(kind, words(tag, ""), words(strings.TrimSpace(strings.Repeat("line\n", lines)), ""), words("2.00", ""))
			}
		}
		table.set()

		var got []string
		for _, p := range d.pages {
			var tags []string
			for _, m := range p.marks {
				if m.kind != writing {
					continue
				}
				if m.y > d.bottom || m.y < top {
					t.Fatalf("%q stands at %.1f mm, off the page", m.text, m.y)
				}
				if i := strings.IndexAny(m.text[:1], "pbt"); i == 0 && m.text != "total" || m.text == "HEAD" || m.text == "cont." {
					tags = append(tags, m.text)
				}
			}
			heads := 0
			for i, tag := range tags {
				lastOne := i == len(tags)-1
				switch {
				case tag == "HEAD":
					heads++
					if lastOne {
						t.Fatalf("a head ends its page: %q", tags)
					}
				case strings.HasSuffix(tag, "(continued)"), tag == "cont.":
					if i != 1 && tag != "cont." {
						t.Fatalf("a band is continued within the page: %q", tags)
					}
				default:
					got = append(got, tag)
					if tag[0] == 'b' && lastOne {
						t.Fatalf("a band ends its page: %q", tags)
					}
					if tag[0] == 't' && (i == 0 || tags[i-1] == "HEAD" || strings.HasSuffix(tags[i-1], "(continued)")) {
						t.Fatalf("a total begins its page: %q", tags)
					}
				}
			}
			if len(tags) > 0 && heads != 1 {
				t.Fatalf("a page has %d heads: %q", heads, tags)
			}
		}
		if !slices.Equal(got, want) {
			t.Fatalf("rows printed are %q, want %q", got, want)
		}
	})
}

func TestAFaultOfTheLibraryIsAnError(t *testing.T) {
	d := fresh(t)
	d.put(mark{kind: writing, x: 30, y: 30, text: "\U0001F6A2", style: body})
	if data, err := d.paint(); err == nil || data != nil {
		t.Errorf("painting what the library cannot gave %d bytes and %v", len(data), err)
	}
}
