package labour

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

func like(name, description, hours string, unit measure.Unit) rates.Norm {
	return rates.Norm{Task: name, Description: description, Hours: decimal.RequireFromString(hours), Unit: unit}
}

func TestANormIsLikeWhatIsPublishedByItsDriverUnitAndWords(t *testing.T) {
	for _, c := range []struct {
		name        string
		norm        rates.Norm
		by          rates.Driver
		least, most string // blank where nothing like it is published
	}{
		{"caulking by the metre of seam", like("Caulk hull seam", "", "0.7", measure.M), rates.BySeam, "0.1988", "1.9127"},
		{"the word in the description", like("Deck, third pass", "Caulking, one thread", "0.7", measure.Ft), rates.BySeam, "0.1988", "1.9127"},
		{"caulking by the metre of plank", like("Caulk hull seam", "", "0.7", measure.M), rates.ByLength, "", ""},
		{"caulking by number", like("Caulk hood end", "", "0.7", measure.Nr), rates.BySeam, "", ""},
		{"hose test of seams", like("Hose test", "mark weeps of seams", "0.03", measure.M), rates.BySeam, "", ""},
		{"frames by volume", like("Make frame", "", "50", measure.M3), rates.ByVolume, "2.5427", "160"},
		{"frames by old volume", like("Take out frame timber", "", "18", measure.M3), rates.ByOldVolume, "", ""},
		{"taking down by old volume", like("Take down ceiling", "", "18", measure.M3), rates.ByOldVolume, "3.475", "10.7215"},
		{"one coat of paint", like("Paint, one coat", "", "0.12", measure.M2), rates.ByFace, "0.0718", "0.1495"},
		{"two coats of paint", like("Paint two coats", "", "0.24", measure.M2), rates.ByFace, "", ""},
		{"one figure by itself", like("Hew keel", "", "0.24", measure.M2), rates.ByFace, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			least, most, ok := Bounds(c.norm, c.by)
			if ok != (c.least != "") {
				t.Fatalf("like something published: %v", ok)
			}
			if ok && (least.Least.String() != c.least || most.Most.String() != c.most) {
				t.Errorf("from %s to %s; want %s to %s", least.Least, most.Most, c.least, c.most)
			}
		})
	}
}

// Every row says where it comes from, and that its hours for one unit of the
// source are those for one of ours: a thousand board feet are 2.359737 m3.
func TestEveryPublishedRowHasItsSourceAndItsSum(t *testing.T) {
	size := map[string]string{
		"ft of seam": "0.3048", "MBF": "2.359737216", "m3 raw oak": "1", "100 lin ft": "30.48", "m2 of hewn face": "1", "each": "1",
		"100 sq yd": "83.612736", "80 sq yd": "66.8901888", "150 sq ft": "13.935456", "90 sq ft": "8.3612736",
		"100 sq ft": "9.290304", "160 sq ft": "14.8644864", "230 sq ft": "21.3676992",
	}
	if len(norms()) < 30 {
		t.Fatalf("only %d rows", len(norms()))
	}
	for _, p := range norms() {
		if p.Source == "" || strings.HasPrefix(p.Source, "same") || p.WhereInSource == "" || strings.HasPrefix(p.Task, "same") {
			t.Errorf("%s: no source of its own", p.Task)
		}
		one, ok := size[p.Of]
		if !ok {
			t.Errorf("%s: of %q", p.Task, p.Of)
			continue
		}
		low, high, both := strings.Cut(p.Hours, "-")
		if !both {
			high = low
		}
		for _, f := range []struct {
			source string
			ours   decimal.Decimal
		}{{low, p.Least}, {high, p.Most}} {
			if want := decimal.RequireFromString(f.source).DivRound(decimal.RequireFromString(one), 4); !f.ours.Equal(want) {
				t.Errorf("%s: %s h for %s are %s for one %s; want %s", p.Task, f.source, p.Of, f.ours, p.Unit, want)
			}
		}
	}
}

// A norm beyond what is published is remarked on once, in its own unit, and
// used as it stands: 0.7 h a foot is over 0.583, 10 ft take 7 h.
func TestANormBeyondThePublishedIsRemarkedAndUsed(t *testing.T) {
	b := &rates.Book{
		BuildUps: []rates.BuildUp{{Name: "Seam", Part: rates.Task, Item: "Caulk", By: rates.BySeam, Quantity: decimal.New(1, 0)}},
		Norms:    []rates.Norm{like("Caulk", "", "0.7", measure.Ft)},
	}
	b.Norms[0].Trade = "caulker"
	var rows []takeoff.Row
	for _, ref := range []string{"1", "2"} {
		w := job.Work{Ref: ref, BuildUp: "Seam", Difficulty: one, Access: one}
		rows = append(rows, takeoff.Row{Work: w, Amounts: map[rates.Driver]measure.Quantity{rates.BySeam: measure.Of(decimal.New(10, 0), measure.Ft)}})
	}
	h, found := Reckon(&job.Job{}, b, takeoff.Takeoff{Rows: rows})
	if len(found) != 1 || found[0].Code != problem.NormUnlike || found[0].Severity() != problem.Remark {
		t.Fatalf("found %v", found)
	}
	for _, want := range []string{`"0.7" h for one "ft"`, "0.061 to 0.583 h", "J. A. Wheeler"} {
		if !strings.Contains(found[0].Text, want) {
			t.Errorf("%s\nsays nothing of %s", found[0].Text, want)
		}
	}
	if len(h.Lines) != 2 || h.Lines[0].Hours.String() != "7" {
		t.Errorf("lines %+v", h.Lines)
	}
}

// Overtime and apprentices are trades of their own, with hours and rates of
// their own beside the journeyman's.
func TestOvertimeAndApprenticesAreTradesOfTheirOwn(t *testing.T) {
	b := &rates.Book{
		Labour: []rates.Labour{{Trade: "shipwright"}, {Trade: "shipwright, overtime"}, {Trade: "apprentice"}},
		BuildUps: []rates.BuildUp{
			{Name: "Plank", Part: rates.Task, Item: "Hang", By: rates.ByNr, Quantity: decimal.New(1, 0)},
			{Name: "Plank", Part: rates.Task, Item: "Hang late", By: rates.ByNr, Quantity: decimal.New(5, -1)},
			{Name: "Plank", Part: rates.Task, Item: "Carry", By: rates.ByNr, Quantity: decimal.New(1, 0)},
		},
		Norms: []rates.Norm{like("Hang", "", "3", measure.Nr), like("Hang late", "", "3", measure.Nr), like("Carry", "", "1.25", measure.Nr)},
	}
	for n, trade := range []string{"shipwright", "shipwright, overtime", "apprentice"} {
		b.Norms[n].Trade = trade
	}
	w := job.Work{Ref: "1", BuildUp: "Plank", Difficulty: one, Access: one}
	h, found := Reckon(&job.Job{}, b, takeoff.Takeoff{Rows: []takeoff.Row{{Work: w, Amounts: map[rates.Driver]measure.Quantity{rates.ByNr: measure.Of(decimal.New(4, 0), measure.Nr)}}}})
	if len(found) != 0 {
		t.Fatalf("found %v", found)
	}
	var got []string
	for _, l := range h.Lines {
		got = append(got, l.Trade+" "+l.Hours.String())
	}
	if want := "shipwright 12; shipwright, overtime 6; apprentice 5"; strings.Join(got, "; ") != want {
		t.Errorf("%v; want %s", got, want)
	}
}
