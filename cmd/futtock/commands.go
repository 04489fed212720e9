package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"
)

// Exit statuses, as the help states them.
const (
	done     = 0
	couldNot = 1 // disk, broken file
	misused  = 2 // wrong command line
	problems = 3 // the workbook has problems
)

// world is where a run speaks: results to Out, messages to Err.
type world struct {
	Out, Err io.Writer
}

// command is one of the tool's commands. Its options are declared in flags,
// which returns the work to be done once they are read.
type command struct {
	name  string
	args  string
	short string
	long  string
	flags func(*pflag.FlagSet) work
}

// work does a command's work on its arguments and returns the exit status.
type work func(w world, args []string) int

// commands is the table of commands, in the order of the help.
func commands() []command {
	return []command{newCommand(), demoCommand(), checkCommand(), priceCommand(), explainCommand(), compareCommand(), ratesCommand(), changesCommand()}
}

// results passes on what a run prints, and keeps the first error in doing so.
type results struct {
	to  io.Writer
	err error
}

func (r *results) Write(p []byte) (int, error) {
	n, err := r.to.Write(p)
	if r.err == nil {
		r.err = err
	}
	return n, err
}

// run does what the command line says. Results that could not be printed, as
// into a file on a full disk, are a failure like any other.
func (w world) run(args []string) int {
	out := &results{to: w.Out}
	status := world{Out: out, Err: w.Err}.obey(args)
	if out.err != nil {
		return w.fail(out.err)
	}
	return status
}

// obey reads the command line and does what it says.
func (w world) obey(args []string) int {
	if len(args) == 0 || args[0] == "-h" || args[0] == "--help" || args[0] == "help" && len(args) == 1 {
		fmt.Fprint(w.Out, overview())
		return done
	}
	if args[0] == "help" {
		args = []string{args[1], "--help"}
	}
	for _, c := range commands() {
		if c.name == args[0] {
			return w.do(c, args[1:])
		}
	}
	fmt.Fprintf(w.Err, "futtock: there is no command %q; run futtock --help for the list\n", args[0])
	return misused
}

func (w world) do(c command, args []string) int {
	set := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.SortFlags = false
	perform := c.flags(set)
	if err := set.Parse(args); errors.Is(err, pflag.ErrHelp) {
		fmt.Fprint(w.Out, c.help(set))
		return done
	} else if err != nil {
		return w.misuse(c, err.Error())
	}
	return perform(w, set.Args())
}

// misuse says what is wrong with the command line.
func (w world) misuse(c command, text string) int {
	fmt.Fprintf(w.Err, "futtock %s: %s\nusage: %s\n", c.name, text, c.usage())
	return misused
}

// fail says that the world would not have it: a disk, a broken file.
func (w world) fail(err error) int {
	fmt.Fprintf(w.Err, "futtock: %v\n", plainly(err))
	return couldNot
}

func (c command) usage() string { return strings.TrimSpace("futtock " + c.name + " " + c.args) }

// helpWidth is the columns that a line of the help may take.
const helpWidth = 88

func (c command) help(set *pflag.FlagSet) string {
	text := fmt.Sprintf("%s\n\n  %s\n\n%s\n", c.short, c.usage(), c.long)
	if set.HasFlags() {
		text += "\nOptions\n" + set.FlagUsagesWrapped(helpWidth)
	}
	return text
}

// overview is the help of the whole tool.
func overview() string {
	var b strings.Builder
	b.WriteString("futtock prices the refit of a traditional wooden vessel from the yard's own workbook.\n\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "  %-50s %s\n", c.usage(), c.short)
	}
	b.WriteString(`
Every command takes --help, and --json to print its result for other programs.

Exit status: 0 done, 1 could not (disk, broken file), 2 wrong command line,
3 the workbook has problems, or quotes cannot be levelled.
`)
	return b.String()
}
