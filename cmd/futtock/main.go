// Futtock prices the refit of a traditional wooden vessel from the yard's own
// workbook. Run it without arguments for what it can do.
package main

import "os"

func main() {
	os.Exit(world{Out: os.Stdout, Err: os.Stderr}.run(os.Args[1:]))
}
