package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"futtock/estimate"
	"futtock/output/sheets"
	"futtock/templates/grid"
)

// names are of scripts the type of the PDF has and lacks, with marks written
// before and after, a picture, a right-to-left word, and a new line's stand-in.
var names = []string{"Łódź", "Ŵŷő", "Θάλασσα", "Мачта", "船の肋骨", "نخلة", "планка 🚢", "e\u0301tambot", "a & b <c>", `"keel"`, "-first", "'quoted", "½ plank"}

// largeJob has so many items, every hundredth of them of a long description.
func largeJob(t *testing.T, items int) estimate.Result {
	t.Helper()
	var b strings.Builder
	b.WriteString("Ref\tSection\tDescription\tQuantity\tUnit\tBuild-up\tNote\n")
	for n := range items {
		says := fmt.Sprintf("%s, coat %d", names[n%len(names)], n)
		if n%100 == 0 {
			says += strings.Repeat(fmt.Sprintf(" rubbed down and left to dry, dried%d;", n), 250)
		}
		fmt.Fprintf(&b, "5.%d\t5\t%s\t%d.5\tm2\tPaint\tfor the owner 🚢 %d\n", n+1, says, n%40+1, n)
	}
	return clean(t, txtar.File{Name: "items", Data: []byte(b.String())})
}

// Three thousand items, long descriptions, names of any script and a picture in
// every note: the documents are written, hold every word, and are the same again.
func TestALargeJobOfOddNamesLosesNothing(t *testing.T) {
	count := 3000
	if testing.Short() {
		count = 600
	}
	r := largeJob(t, count)
	files, err := documents(r)
	if err != nil {
		t.Fatal(err)
	}
	held := map[string]bool{}
	for _, s := range sheets.Bill(r).Sheets {
		for _, row := range s.Rows {
			for _, c := range row.Cells {
				held[c.Text] = true
			}
		}
	}
	dir := t.TempDir()
	for _, f := range files {
		if strings.HasSuffix(f.Name, "-tender.pdf") {
			if err := os.WriteFile(filepath.Join(dir, "t.pdf"), f.Data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	out, err := exec.Command("pdftotext", "-raw", filepath.Join(dir, "t.pdf"), "-").Output()
	if err != nil && os.Getenv("CI") == "" {
		t.Skipf("the tender was not looked at: pdftotext: %v", err)
	} else if err != nil {
		t.Fatal(err)
	}
	printed := strings.Join(strings.Fields(string(out)), " ")
	for n, i := range r.Job.Items {
		if !held[i.Description] {
			t.Fatalf("the bill does not hold the description of %s: %.60q", i.Ref, i.Description)
		}
		if want := fmt.Sprintf("coat %d", n); !strings.Contains(printed, want) {
			t.Fatalf("the tender does not print %q of %s", want, i.Ref)
		}
		if n%100 == 0 && strings.Count(printed, fmt.Sprintf("dried%d;", n)) != 250 {
			t.Errorf("the tender prints %d of the 250 parts of %s", strings.Count(printed, fmt.Sprintf("dried%d;", n)), i.Ref)
		}
	}
	for _, want := range []string{"[U+8239]", "[U+1F6A2]", "Θάλασσα", "Мачта", "½ plank"} {
		if !strings.Contains(printed, want) {
			t.Errorf("the tender does not print %q", want)
		}
	}
	if testing.Short() {
		return
	}
	again, err := documents(largeJob(t, count))
	if err != nil {
		t.Fatal(err)
	}
	for n, f := range files {
		if !bytes.Equal(f.Data, again[n].Data) {
			t.Errorf("%s is not the same again", f.Name)
		}
	}
}

// A bill item of a thousand rows has no formula too long for a cell: it adds up
// rows that stand together, of the schedule and of its hours, and an independent
// spreadsheet program comes to the same.
func TestABillItemOfAThousandRowsHasRoom(t *testing.T) {
	spreadsheet(t)
	const rows = 1000
	var members, items strings.Builder
	members.WriteString("Ref\tSection\tMember\tNr\tLength\tSided\tMoulded\tTimber\tTreatment\tFastening\tBuild-up\tBill item\tBill unit\n")
	items.WriteString("Ref\tSection\tDescription\tQuantity\tUnit\tBuild-up\tBill item\n")
	for n := range rows {
		fmt.Fprintf(&members, "4.%d\t4\tside plank\t1\t7' %d\"\t2\"\t10\"\tOak\trenew\tSpikes\tPlank\t4.0\tm\n", n+1, n%12)
		fmt.Fprintf(&items, "5.%d\t5\tcoat of paint\t%d.1\tm2\tPaint\t5.0\n", n+1, n%9+1)
	}
	r := clean(t, txtar.File{Name: "members", Data: []byte(members.String())}, txtar.File{Name: "items", Data: []byte(items.String())})
	if len(r.Priced.Items) != 2 || len(r.Priced.Items[0].Rows) != rows {
		t.Fatalf("%d items, and there should be two of %d rows", len(r.Priced.Items), rows)
	}
	// Of every twelve planks 12 x 7 ft and 0 to 11 in, 89.5 ft: 83 times, and
	// four more of 28.5 ft: 7,457 ft are 2,272.8936 m.
	if got := r.Priced.Items[0].Quantity.String(); got != "2272.89" {
		t.Errorf("%s m of planks are billed, and they come to 2272.89", got)
	}
	// 1.1 to 9.1 m2 are 45.9: 111 times, and one more of 1.1.
	if got := r.Priced.Items[1].Quantity.String(); got != "5096" {
		t.Errorf("%s m2 of paint are billed, and they come to 5096", got)
	}
	if _, err := documents(r); err != nil {
		t.Fatal(err)
	}
	was, now := recalculatedAll(t, map[string]*grid.Book{"estimate": sheets.Estimate(r)})
	n, differ := compareFormulas(was["estimate"], now["estimate"])
	if n < 20*rows || len(differ) > 0 {
		t.Errorf("of %d formulas these differ: %v", n, differ)
	}
}

// Where a sheet would overflow nothing at all is written, and the job has an error.
func TestNothingIsWrittenOfAnOverflow(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("side plank ", 2978))
	r := clean(t, txtar.File{Name: "members", Data: []byte("Ref\tSection\tMember\tSide\tNr\tLength\tSided\tMoulded\tTimber\tTreatment\tFastening\tBuild-up\n" +
		"4.1\t4\t" + long + "\tport\t4\t20'\t2\"\t10\"\tOak\trenew\tSpikes\tPlank\n")})
	p, dir := priced{path: "yard.xlsx", result: r}, t.TempDir()
	p.write(dir, nil)
	written, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	if p.status() != problems || p.err != nil || len(p.files)+len(written) > 0 {
		t.Errorf("status %d, error %v, files %v and %v", p.status(), p.err, p.files, written)
	}
}
