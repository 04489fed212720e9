package templates

import (
	"slices"
	"strings"
	"testing"

	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/templates/grid"
)

// blankReader reads single cells for a job in metres and pounds.
func blankReader() *reader {
	return &reader{reading: &reading{terms: &job.Particulars{LengthsIn: measure.M, SizesIn: measure.Mm, Currency: "GBP"}}}
}

// eachHeading calls f for every heading of every sheet.
func eachHeading(f func(o Outline, h Heading)) {
	for _, o := range Sheets() {
		for _, h := range o.Headings {
			f(o, h)
		}
	}
}

func TestEveryExampleReadsThroughItsOwnColumn(t *testing.T) {
	eachHeading(func(o Outline, h Heading) {
		if h.Example == "" {
			t.Errorf("%s: %s has no example", o.Name, h.Name)
		}
		r := blankReader()
		d := datum(typed(h.Form, h.Example), 1)
		e := r.entry(h, &place{unit: h.Scale.unit()}, d, r.at(o.Name, 1, 1))
		if len(r.found) > 0 || !e.Given {
			t.Errorf("%s: the example %q of %s: %v", o.Name, h.Example, h.Name, r.found)
		}
	})
}

func TestEveryDefaultReadsAndIsWithinItsBounds(t *testing.T) {
	eachHeading(func(o Outline, h Heading) {
		if h.Default == "" {
			return
		}
		r := blankReader()
		e := r.standing(h, h.Default)
		if w := r.inRange(h, e, grid.Datum{}); w != nil {
			t.Errorf("%s: the default %q of %s: %s", o.Name, h.Default, h.Name, w.text)
		}
	})
}

func TestEveryHeadingIsFoundByItsOwnTitleAndNoOther(t *testing.T) {
	eachHeading(func(o Outline, h Heading) {
		for _, text := range []string{h.Name, h.Title(), strings.ToUpper(h.Title()), "  " + h.Name + "* "} {
			i, _ := o.heading(text)
			if i < 0 || o.Headings[i].Name != h.Name {
				t.Errorf("%s: %q is not found as %q", o.Name, text, h.Name)
			}
		}
	})
}

func TestEveryColumnWithAUnitSaysSoInTheEmptyWorkbook(t *testing.T) {
	eachHeading(func(o Outline, h Heading) {
		_, bracket := bracketed(h.Title())
		if want := h.Form == Length || h.Unit != ""; want && bracket == "" {
			t.Errorf("%s: %q names no unit", o.Name, h.Title())
		}
	})
}

func TestEveryReferenceNamesASheetThatHasKeys(t *testing.T) {
	eachHeading(func(o Outline, h Heading) {
		for _, ref := range h.Refers {
			to, ok := outline(ref.Sheet)
			if !ok {
				t.Errorf("%s: %s refers to %q, which is no sheet", o.Name, h.Name, ref.Sheet)
				continue
			}
			if _, ok := to.keyHeading(); !ok {
				t.Errorf("%s: %s refers to %q, which has no key", o.Name, h.Name, ref.Sheet)
			}
			if ref.If == "" {
				continue
			}
			i, _ := o.heading(ref.If)
			if i < 0 || !slices.Contains(o.Headings[i].Choices, ref.Is) {
				t.Errorf("%s: %s hangs on %q being %q, which it cannot be", o.Name, h.Name, ref.If, ref.Is)
			}
		}
	})
}

func TestEverySheetOnceNamesHeadingsItHas(t *testing.T) {
	for _, o := range Sheets() {
		for _, name := range o.Once {
			if i, _ := o.heading(name); i < 0 || o.Headings[i].Name != name {
				t.Errorf("%s: %q is none of its headings", o.Name, name)
			}
		}
		if o.Refs && o.Headings[0].Name != "Ref" {
			t.Errorf("%s: the first heading is %q, not Ref", o.Name, o.Headings[0].Name)
		}
	}
}

func TestHelpIsAPhraseThatTheGuideCanEndWithAStop(t *testing.T) {
	eachHeading(func(o Outline, h Heading) {
		if h.Help == "" || strings.HasSuffix(h.Help, ".") || upper(h.Help) != h.Help {
			t.Errorf("%s: the help of %s: %q", o.Name, h.Name, h.Help)
		}
	})
	for _, o := range Sheets() {
		if o.Purpose == "" || strings.HasSuffix(o.Purpose, ".") || upper(o.Purpose) == o.Purpose {
			t.Errorf("%s: the purpose %q", o.Name, o.Purpose)
		}
	}
}

func TestChoicesDoNotFoldTogether(t *testing.T) {
	eachHeading(func(o Outline, h Heading) {
		for i, a := range h.Choices {
			for _, b := range h.Choices[:i] {
				if alike(a, b) {
					t.Errorf("%s: %s cannot tell %q from %q", o.Name, h.Name, a, b)
				}
			}
		}
	})
}
