//go:build unix

package xlsx

import (
	"errors"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// TestAPipeIsRefusedAndNotWaitedFor fails, rather than waits, where a pipe that
// nobody writes to is opened.
func TestAPipeIsRefusedAndNotWaitedFor(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.xlsx")
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Skipf("no pipe can be made here: %v", err)
	}
	refused := make(chan error, 2)
	go func() {
		_, opened := Open(path)
		refused <- opened
		_, loaded := Load(path)
		refused <- loaded
	}()
	for range 2 {
		select {
		case err := <-refused:
			if !errors.Is(err, ErrNotWorkbook) {
				t.Errorf("Open or Load of a pipe = %v, want %v", err, ErrNotWorkbook)
			}
		case <-time.After(5 * time.Second):
			t.Fatal("a pipe is waited for until somebody writes to it")
		}
	}
}
