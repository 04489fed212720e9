package output

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// folder is what a folder holds, by path below it.
func folder(t *testing.T, dir string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		if e.IsDir() {
			got[name+"/"] = ""
			return nil
		}
		b, err := os.ReadFile(path)
		got[name] = string(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// newSet is two files that replace old ones and two that do not, in mixed order.
var newSet = []File{
	{"bill.xlsx", []byte("new bill")}, {"estimate.xlsx", []byte("new estimate")},
	{"tender.pdf", []byte("new tender")}, {"timber.pdf", []byte("new timber")},
}

// oldFolder makes a folder with two of the set and a stranger in it.
func oldFolder(t *testing.T) (dir string, before, after map[string]string) {
	dir = t.TempDir()
	put(t, filepath.Join(dir, "estimate.xlsx"), "old estimate")
	put(t, filepath.Join(dir, "timber.pdf"), "old timber")
	put(t, filepath.Join(dir, "yard.xlsx"), "the yard's own")
	before = folder(t, dir)
	after = map[string]string{"./": "", "yard.xlsx": "the yard's own"}
	for _, f := range newSet {
		after[f.Name] = string(f.Data)
	}
	return dir, before, after
}

func TestFilesAreAllOldOrAllNewWhicheverOperationFails(t *testing.T) {
	dir, _, after := oldFolder(t)
	whole := &faultyDisk{}
	if err := save(whole, dir, newSet, []string{filepath.Join(dir, "yard.xlsx")}); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(after, folder(t, dir)); diff != "" {
		t.Fatalf("without a fault (-want +got):\n%s", diff)
	}
	kinds := map[string]bool{}
	undone, kept := 0, 0
	for at := 1; at <= whole.count; at++ {
		dir, before, after := oldFolder(t)
		d := &faultyDisk{failAt: at}
		err := save(d, dir, newSet, []string{filepath.Join(dir, "yard.xlsx")})
		want := after
		if err != nil {
			want = before
			undone++
			if !errors.Is(err, errFault) {
				t.Errorf("fault %d (%s): the error %q does not say what failed", at, d.log[at-1], err)
			}
		} else {
			kept++
		}
		if diff := cmp.Diff(want, folder(t, dir)); diff != "" {
			t.Errorf("fault %d (%s), error %v (-want +got):\n%s", at, d.log[at-1], err, diff)
		}
		kinds[d.log[at-1]] = true
	}
	for _, k := range []string{"stat", "lstat", "create", "write", "sync", "close", "rename", "syncdir", "remove"} {
		if !kinds[k] {
			t.Errorf("no fault was tried in the operation %q", k)
		}
	}
	// Only the removal of the two old files set aside can fail and be made good.
	if kept != 2 || undone != whole.count-2 {
		t.Errorf("%d faults undone and %d made good of %d", undone, kept, whole.count)
	}
}

func TestAFolderMadeForTheFilesGoesAgainWhicheverOperationFails(t *testing.T) {
	whole := &faultyDisk{}
	root := t.TempDir()
	if err := save(whole, filepath.Join(root, "tenders", "T-1"), newSet, nil); err != nil {
		t.Fatal(err)
	}
	if got := len(folder(t, root)); got != 3+len(newSet) {
		t.Fatalf("%d entries without a fault", got)
	}
	for at := 1; at <= whole.count; at++ {
		root := t.TempDir()
		d := &faultyDisk{failAt: at}
		if err := save(d, filepath.Join(root, "tenders", "T-1"), newSet, nil); err == nil {
			t.Errorf("fault %d (%s): no error", at, d.log[at-1])
		}
		if diff := cmp.Diff(map[string]string{"./": ""}, folder(t, root)); diff != "" {
			t.Errorf("fault %d (%s) (-want +got):\n%s", at, d.log[at-1], diff)
		}
	}
}

// A disk that fails for good cannot be put right; but the old files must still
// be there, under their own names or the names the error gives.
func TestOldFilesSurviveADiskThatFailsForGood(t *testing.T) {
	dir, _, _ := oldFolder(t)
	whole := &faultyDisk{}
	if err := save(whole, dir, newSet, nil); err != nil {
		t.Fatal(err)
	}
	for at := 1; at <= whole.count; at++ {
		dir, _, after := oldFolder(t)
		d := &faultyDisk{failAt: at, lasting: true}
		err := save(d, dir, newSet, nil)
		if err == nil {
			t.Errorf("fault %d (%s): no error", at, d.log[at-1])
			continue
		}
		got := folder(t, dir)
		if strings.Contains(err.Error(), "all files are saved") {
			for name, text := range after {
				if got[name] != text {
					t.Errorf("fault %d: %s holds %q", at, name, got[name])
				}
			}
			continue
		}
		for name, text := range map[string]string{"estimate.xlsx": "old estimate", "timber.pdf": "old timber"} {
			aside := "." + name + ".1.old"
			named := got[aside] == text && strings.Contains(err.Error(), aside)
			if got[name] != text && !named {
				t.Errorf("fault %d (%s): the old %s is gone or not named: %v", at, d.log[at-1], name, err)
			}
		}
	}
}

func TestNamesThatLeadElsewhereOrFallTogetherAreRefused(t *testing.T) {
	cases := map[string][]File{
		"a name with a slash":               {{Name: "a/b.xlsx"}},
		"a name with a backslash":           {{Name: `a\b.xlsx`}},
		"a name with a drive":               {{Name: "c:b.xlsx"}},
		"the folder above":                  {{Name: ".."}},
		"no name":                           {{Name: ""}},
		"two of one name":                   {{Name: "a.xlsx"}, {Name: "b.xlsx"}, {Name: "a.xlsx"}},
		"two of one name but for the cases": {{Name: "a.xlsx"}, {Name: "A.XLSX"}},
	}
	for name, files := range cases {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			if err := Save(dir, files); err == nil {
				t.Error("no error")
			}
			if got := folder(t, dir); len(got) != 1 {
				t.Errorf("left behind: %v", got)
			}
		})
	}
}

func TestAFileReadIsNeverWrittenOver(t *testing.T) {
	for _, how := range []string{"by its own path", "by a path with dots", "through a link", "through a hard link"} {
		t.Run(how, func(t *testing.T) {
			dir := t.TempDir()
			yard := filepath.Join(dir, "yard.xlsx")
			put(t, yard, "the yard's own")
			target, input := "yard.xlsx", yard
			switch how {
			case "by a path with dots":
				input = filepath.Join(dir, "..", filepath.Base(dir), ".", "yard.xlsx")
			case "through a link":
				target = "link.xlsx"
				if err := os.Symlink(yard, filepath.Join(dir, target)); err != nil {
					t.Skipf("no links here: %v", err)
				}
			case "through a hard link":
				target = "link.xlsx"
				if err := os.Link(yard, filepath.Join(dir, target)); err != nil {
					t.Skipf("no hard links here: %v", err)
				}
			}
			before := folder(t, dir)
			err := Save(dir, []File{{"bill.xlsx", []byte("new")}, {target, []byte("new")}}, filepath.Join(dir, "gone.xlsx"), input)
			if err == nil || !strings.Contains(err.Error(), target) {
				t.Errorf("error %v", err)
			}
			if diff := cmp.Diff(before, folder(t, dir)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestAFolderInTheWayIsAnError(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "bill.xlsx"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := Save(dir, newSet); err == nil {
		t.Error("no error")
	}
	if diff := cmp.Diff(map[string]string{"./": "", "bill.xlsx/": ""}, folder(t, dir)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestLeftoversOfARunCutOffAreNotInTheWay(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "bill.xlsx"), "old")
	put(t, filepath.Join(dir, ".bill.xlsx.1.new"), "half")
	put(t, filepath.Join(dir, ".bill.xlsx.1.old"), "older")
	if err := Save(dir, []File{{"bill.xlsx", []byte("new")}}); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"./": "", "bill.xlsx": "new", ".bill.xlsx.1.new": "half", ".bill.xlsx.1.old": "older"}
	if diff := cmp.Diff(want, folder(t, dir)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestSavedFilesCanBeReadByOthersAndAreNoPrograms(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows keeps no such modes")
	}
	dir := t.TempDir()
	if err := Save(dir, newSet); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(filepath.Join(dir, "bill.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	// The machine's own mask may take rights away, never add any.
	if mode := info.Mode().Perm(); mode&^0o644 != 0 || mode&0o600 != 0o600 {
		t.Errorf("mode %o", mode)
	}
}

func TestAFolderWhereAFileStandsIsRefusedPlainly(t *testing.T) {
	file := filepath.Join(t.TempDir(), "out")
	if err := os.WriteFile(file, []byte("kept"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{file, filepath.Join(file, "deeper")} {
		err := Save(dir, []File{{Name: "bill.xlsx", Data: []byte("new")}})
		if err == nil || !strings.HasSuffix(err.Error(), "is there already") || strings.Contains(err.Error(), "stat ") {
			t.Errorf("%v", err)
		}
	}
}
