package output

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

func (d *faultyDisk) Follow(p string) (string, error) {
	if err := d.step("follow"); err != nil {
		return "", err
	}
	return d.osDisk.Follow(p)
}

func (d *faultyDisk) Read(p string) ([]byte, error) {
	if err := d.step("read"); err != nil {
		return nil, err
	}
	return d.osDisk.Read(p)
}

func (d *faultyDisk) Chmod(p string, mode fs.FileMode) error {
	if err := d.step("chmod"); err != nil {
		return err
	}
	return d.osDisk.Chmod(p, mode)
}

var oldYard, newYard = []byte(strings.Repeat("old yard ", 1000)), []byte(strings.Repeat("new yard ", 1100))

// yard is a folder with a yard's workbook in it.
func yard(t *testing.T) (dir, path string) {
	dir = t.TempDir()
	path = filepath.Join(dir, "yard.xlsx")
	put(t, path, string(oldYard))
	return dir, path
}

func TestAFileIsReplacedAndKeptBesideIt(t *testing.T) {
	dir, path := yard(t)
	for n, want := range []string{"yard.xlsx.old", "yard.xlsx.old2", "yard.xlsx.old3"} {
		was, data := oldYard, newYard
		if n%2 == 1 {
			was, data = data, was
		}
		backup, err := Replace(path, was, data)
		if err != nil {
			t.Fatal(err)
		}
		if backup != filepath.Join(dir, want) {
			t.Errorf("the backup is %s", backup)
		}
	}
	want := map[string]string{"./": "", "yard.xlsx": string(newYard), "yard.xlsx.old": string(oldYard), "yard.xlsx.old2": string(newYard), "yard.xlsx.old3": string(oldYard)}
	if diff := cmp.Diff(want, folder(t, dir)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// One fault undoes all, but in the last step of all, when the new file is in
// its place; a disk that fails for good is a process that is killed there.
func TestTheFileIsOldOrNewWhicheverOperationFails(t *testing.T) {
	_, path := yard(t)
	whole := &faultyDisk{}
	if _, err := replace(whole, path, oldYard, newYard); err != nil {
		t.Fatal(err)
	}
	kinds := map[string]bool{}
	for at := 1; at <= whole.count; at++ {
		for _, lasting := range []bool{false, true} {
			dir, path := yard(t)
			d := &faultyDisk{failAt: at, lasting: lasting}
			_, err := replace(d, path, oldYard, newYard)
			if !errors.Is(err, errFault) {
				t.Errorf("fault %d (%s): error %v", at, d.log[at-1], err)
			}
			kinds[d.log[at-1]] = true
			got := folder(t, dir)
			want := map[string]string{"./": "", "yard.xlsx": string(oldYard)}
			if at == whole.count {
				want = map[string]string{"./": "", "yard.xlsx": string(newYard), "yard.xlsx.old": string(oldYard)}
			}
			if lasting { // what lies beside it cannot be removed any more
				for name := range got {
					if strings.HasPrefix(name, ".yard.xlsx.") || name == "yard.xlsx.old" && got[name] == string(oldYard) {
						delete(got, name)
					}
				}
				delete(want, "yard.xlsx.old")
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("fault %d (%s), lasting %v (-want +got):\n%s", at, d.log[at-1], lasting, diff)
			}
		}
	}
	for _, k := range []string{"follow", "stat", "lstat", "read", "create", "write", "sync", "close", "chmod", "rename", "syncdir"} {
		if !kinds[k] {
			t.Errorf("no fault was tried in the operation %q", k)
		}
	}
}

// killed names the file that a child process replaces over and over.
const killed = "FUTTOCK_TEST_REPLACED"

func TestAFileIsOldOrNewWheneverTheProcessIsKilled(t *testing.T) {
	if path := os.Getenv(killed); path != "" {
		for was, data := oldYard, newYard; ; was, data = data, was {
			fmt.Println("replacing")
			if _, err := Replace(path, was, data); err != nil {
				t.Fatal(err)
			}
		}
	}
	rounds := 40
	if testing.Short() {
		rounds = 8
	}
	for n := range rounds {
		dir, path := yard(t)
		child := exec.Command(os.Args[0], "-test.run=^"+t.Name()+"$")
		child.Env = append(os.Environ(), killed+"="+path)
		out, err := child.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := child.Start(); err != nil {
			t.Fatal(err)
		}
		said := bufio.NewReader(out)
		done := n % 3
		for range done + 1 {
			if line, err := said.ReadString('\n'); line != "replacing\n" {
				t.Fatalf("the child says %q, %v", line, err)
			}
		}
		time.Sleep(time.Duration(n) * 97 * time.Microsecond) // at another moment each time
		if err := child.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		if err := child.Wait(); err == nil {
			t.Fatal("the child was not killed")
		}
		backups := 0
		got := folder(t, dir)
		for name, text := range got {
			if name == "./" || strings.HasPrefix(name, ".yard.xlsx.") {
				continue
			}
			if text != string(oldYard) && text != string(newYard) {
				t.Errorf("%s is neither old nor new: %d bytes", name, len(text))
			}
			if name != "yard.xlsx" {
				backups++
			}
		}
		if got["yard.xlsx"] == "" || backups < done {
			t.Errorf("%d bytes and %d backups after %d times", len(got["yard.xlsx"]), backups, done)
		}
	}
}

func TestAFileThatMustNotBeReplacedIsLeftAlone(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(t *testing.T, dir, path string)
		cause error
		want  string
	}{
		"open in one program":     {func(t *testing.T, dir, _ string) { put(t, filepath.Join(dir, "~$yard.xlsx"), "") }, ErrHeld, "~$yard.xlsx if no program has it open"},
		"open in another program": {func(t *testing.T, dir, _ string) { put(t, filepath.Join(dir, ".~lock.yard.xlsx#"), "a") }, ErrHeld, ".~lock.yard.xlsx# if no program has it open"},
		"changed":                 {func(t *testing.T, _, path string) { put(t, path, "saved by hand") }, ErrChanged, "has changed since it was read; nothing is written, run it again"},
		"gone":                    {func(t *testing.T, _, path string) { os.Remove(path) }, os.ErrNotExist, "cannot find"},
		"read-only":               {func(t *testing.T, _, path string) { os.Chmod(path, 0o444) }, ErrReadOnly, "is marked read-only"},
		"a folder":                {func(t *testing.T, _, path string) { os.Remove(path); os.Mkdir(path, 0o755) }, nil, "is not an ordinary file"},
	} {
		t.Run(name, func(t *testing.T) {
			dir, path := yard(t)
			c.spoil(t, dir, path)
			before := folder(t, dir)
			_, err := Replace(path, oldYard, newYard)
			if err == nil || c.cause != nil && !errors.Is(err, c.cause) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v", err)
			}
			if diff := cmp.Diff(before, folder(t, dir)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// lateDisk is a disk on which something happens just before the backup gets
// its name.
type lateDisk struct {
	osDisk
	happen func()
}

func (d *lateDisk) Rename(from, to string) error {
	if strings.HasSuffix(to, ".old") {
		d.happen()
	}
	return d.osDisk.Rename(from, to)
}

func TestAFileOpenedOrChangedMeanwhileIsLeftAlone(t *testing.T) {
	for name, c := range map[string]struct {
		happen func(t *testing.T, dir, path string)
		cause  error
	}{
		"opened":  {func(t *testing.T, dir, _ string) { put(t, filepath.Join(dir, ".~lock.yard.xlsx#"), "a") }, ErrHeld},
		"changed": {func(t *testing.T, _, path string) { put(t, path, "saved by hand") }, ErrChanged},
	} {
		t.Run(name, func(t *testing.T) {
			dir, path := yard(t)
			_, err := replace(&lateDisk{happen: func() { c.happen(t, dir, path) }}, path, oldYard, newYard)
			if !errors.Is(err, c.cause) {
				t.Errorf("error %v", err)
			}
			if got := folder(t, dir); got["yard.xlsx"] == string(newYard) || len(got) > 3 || got["yard.xlsx.old"] != "" {
				t.Errorf("left: %v", got)
			}
		})
	}
}

func TestALinkIsFollowedAndTheRightsStay(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows keeps no such modes")
	}
	dir, path := yard(t)
	if err := os.Chmod(path, 0o660); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(t.TempDir(), "book.xlsx")
	if err := os.Symlink(path, link); err != nil {
		t.Skipf("no links here: %v", err)
	}
	backup, err := Replace(link, oldYard, newYard)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []string{path, backup} {
		info, err := os.Lstat(p)
		if err != nil || info.Mode() != 0o660 {
			t.Errorf("%s: %v, %v", p, info.Mode(), err)
		}
	}
	if to, err := os.Readlink(link); err != nil || to != path || filepath.Dir(backup) != dir {
		t.Errorf("the link leads to %s, the backup is %s: %v", to, backup, err)
	}
	if got, err := os.ReadFile(link); err != nil || !bytes.Equal(got, newYard) {
		t.Errorf("through the link: %d bytes, %v", len(got), err)
	}
	put(t, filepath.Join(filepath.Dir(link), "~$book.xlsx"), "")
	if _, err := Replace(link, newYard, oldYard); !errors.Is(err, ErrHeld) {
		t.Errorf("held under the link's name: %v", err)
	}
}
