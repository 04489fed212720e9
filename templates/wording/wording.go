// Package wording holds what the documents say in words: how a bill was
// measured and priced, and the cautions that go with work on an old ship.
// Each text is a file, one paragraph a line.
package wording

import (
	_ "embed"
	"strings"
)

//go:embed basis.txt
var basis string

//go:embed cautions.txt
var cautions string

// Basis says how the bill was measured, priced and rounded.
func Basis() []string { return paragraphs(basis) }

// Cautions are the usual ones; each defers to local law and licensed practice.
func Cautions() []string { return paragraphs(cautions) }

func paragraphs(text string) []string {
	var out []string
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" {
			out = append(out, line)
		}
	}
	return out
}
