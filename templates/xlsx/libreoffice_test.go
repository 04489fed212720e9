package xlsx

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"futtock/templates/grid"
)

// recalculate tells LibreOffice to reckon every formula anew on loading.
const recalculate = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`

// through sends a file through LibreOffice, which reckons every formula anew, and gives
// what it makes of it.
func through(t *testing.T, data []byte) []byte {
	t.Helper()
	return converted(t, recalculate, map[string][]byte{"in.xlsx": data})["in.xlsx"]
}

// converted sends files through LibreOffice, in a profile of its own with nothing set
// but what settings say, and gives the workbooks it makes of them, by name.
func converted(t *testing.T, settings string, files map[string][]byte) map[string][]byte {
	t.Helper()
	soffice, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("LibreOffice (soffice) is not installed, and CI must have it")
		}
		t.Skip("LibreOffice (soffice) is not installed")
	}
	dir := t.TempDir()
	put := func(name string, data []byte) string {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	if settings != "" {
		put("profile/user/registrymodifications.xcu", []byte(settings))
	}
	out := filepath.Join(dir, "out")
	args := []string{"-env:UserInstallation=file://" + filepath.ToSlash(filepath.Join(dir, "profile")), "--headless", "--convert-to", "xlsx", "--outdir", out}
	for name, data := range files {
		args = append(args, put(name, data))
	}
	said, err := exec.Command(soffice, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	made := make(map[string][]byte)
	for name := range files {
		made[name], err = os.ReadFile(filepath.Join(out, strings.TrimSuffix(name, filepath.Ext(name))+".xlsx"))
		if err != nil {
			t.Fatalf("nothing came of it: %v\n%s", err, said)
		}
	}
	return made
}

func TestLibreOfficeReadsWhatIsWrittenAndReckonsTheSame(t *testing.T) {
	book := sampleBook()
	// One stored result is wrong on purpose: it proves that the formulas are
	// reckoned anew, and not just carried through.
	bill := book.Sheets[0]
	bill.Rows[7].Cells[5].Number = dec("999")
	back, err := Read("back.xlsx", through(t, written(t, book)))
	if err != nil {
		t.Fatal(err)
	}
	bill.Rows[7].Cells[5].Number = dec("3878.13")
	if len(back.Sheets) != len(book.Sheets) {
		t.Fatalf("%d sheets", len(back.Sheets))
	}
	compared := 0
	for i, s := range book.Sheets {
		if back.Sheets[i].Name != s.Name {
			t.Errorf("sheet %d is named %q", i+1, back.Sheets[i].Name)
		}
		lines := make(map[int]grid.Line)
		for _, l := range back.Sheets[i].Rows {
			lines[l.Row] = l
		}
		for r, row := range s.Rows {
			for c, cell := range row.Cells {
				want, got := expected(cell), lines[r+1].Cell(c+1)
				if want.IsBlank() {
					continue
				}
				compared++
				if want.Kind == grid.Bool {
					got.Formula = want.Formula // LibreOffice writes a bare truth value as =TRUE()
				}
				if got.Kind != want.Kind || got.IsFormula() != want.IsFormula() || !got.Value.Equal(want.Value) ||
					want.Kind != grid.Number && got.Raw != want.Raw {
					t.Errorf("cell %s of %q: %s, want %s", cellName(c+1, r+1), s.Name, show(got), show(want))
				}
				if strings.HasPrefix(want.Format, "0") && got.Format != want.Format {
					t.Errorf("cell %s of %q has the format %q, want %q", cellName(c+1, r+1), s.Name, got.Format, want.Format)
				}
			}
		}
	}
	if compared < 30 {
		t.Errorf("only %d cells were compared", compared)
	}
}
