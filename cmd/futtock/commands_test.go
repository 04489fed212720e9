package main

import (
	"bytes"
	"errors"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/pflag"
)

// full is a place to write that has no room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestResultsThatCannotBePrintedAreAFailure(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.xlsx")
	if s := (world{Out: io.Discard, Err: io.Discard}).run([]string{"new", path}); s != done {
		t.Fatalf("new ended with status %d, want %d", s, done)
	}
	for _, args := range [][]string{
		{},
		{"help", "price"},
		{"check", path},
		{"check", "--json", path},
		{"new", filepath.Join(t.TempDir(), "other.xlsx")},
	} {
		var said bytes.Buffer
		if s := (world{Out: full{}, Err: &said}).run(args); s != couldNot {
			t.Errorf("futtock %q with no room for its results ended with status %d, want %d", args, s, couldNot)
		}
		if got, want := said.String(), "futtock: no room\n"; got != want {
			t.Errorf("futtock %q with no room for its results said %q, want %q", args, got, want)
		}
	}
}

// Every command has what the help says every command has, and every option says what
// it is for.
func TestEveryCommandTakesHelpAndJSON(t *testing.T) {
	for _, c := range commands() {
		set := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
		c.flags(set)
		if set.Lookup("json") == nil {
			t.Errorf("futtock %s has no --json", c.name)
		}
		set.VisitAll(func(f *pflag.Flag) {
			if f.Usage == "" {
				t.Errorf("futtock %s --%s says nothing of itself", c.name, f.Name)
			}
		})
		var said bytes.Buffer
		if s := (world{Out: &said, Err: io.Discard}).run([]string{c.name, "--help"}); s != done || !strings.Contains(said.String(), c.usage()) || !strings.Contains(said.String(), c.long) {
			t.Errorf("futtock %s --help ended with status %d and said %q", c.name, s, said.String())
		}
	}
}
