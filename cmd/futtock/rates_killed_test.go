package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"futtock/templates"
	"futtock/templates/xlsx"
)

// Killed at any moment, the command leaves the old workbook or the new one, whole,
// and with the new one the old beside it.
func TestACommandThatIsKilledLeavesAWholeWorkbook(t *testing.T) {
	if testing.Short() {
		t.Skip("the command is run a dozen times")
	}
	dir := t.TempDir()
	program := filepath.Join(dir, "futtock")
	self, err := os.Executable()
	if err == nil {
		err = os.Symlink(self, program)
	}
	if err != nil && os.Getenv("CI") == "" {
		t.Skipf("no link to this program: %v", err)
	} else if err != nil {
		t.Fatal(err)
	}
	path, list := filepath.Join(dir, "yard.xlsx"), filepath.Join(dir, "mill.csv")
	was, err := xlsx.Write(templates.Plain(tables(archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt")))))
	if err == nil {
		err = os.WriteFile(path, was, 0o644)
	}
	if err == nil {
		err = os.WriteFile(list, []byte("Key,Price\nOil paint,12.80\n"), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	command := func() *exec.Cmd { return exec.Command(program, "rates", path, list, "--write") }
	begun := time.Now()
	if out, err := command().CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	takes := time.Since(begun)
	is, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	const times = 12
	for i := range times {
		left, err := filepath.Glob(filepath.Join(dir, "*yard.xlsx*"))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range left {
			if err := os.Remove(p); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(path, was, 0o644); err != nil {
			t.Fatal(err)
		}
		c := command()
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		// More of them towards the end, where it writes.
		time.Sleep(takes * time.Duration(times+2*i) / (3 * times))
		if err := c.Process.Kill(); err != nil && err != os.ErrProcessDone {
			t.Fatal(err)
		}
		_ = c.Wait() // killed, or done before
		now, err := os.ReadFile(path)
		kept, none := os.ReadFile(path + ".old")
		switch {
		case err != nil:
			t.Errorf("the workbook is gone: %v", err)
		case bytes.Equal(now, is):
			if none != nil || !bytes.Equal(kept, was) {
				t.Errorf("the workbook is new and the old is not beside it: %v", none)
			}
		case !bytes.Equal(now, was):
			t.Errorf("the workbook is neither the old nor the new, of %d bytes", len(now))
		}
	}
}
