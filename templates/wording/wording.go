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

// Basis says how a bill in a currency (ISO 4217) was measured, priced and
// rounded; taxDown is that VAT is rounded down.
func Basis(currency string, taxDown bool) []string {
	out := paragraphs(strings.ReplaceAll(basis, "{penny}", Penny(currency)))
	if taxDown {
		return append(out, "VAT is rounded down to the whole "+Penny(currency)+".")
	}
	return append(out, "VAT is rounded to the nearest "+Penny(currency)+".")
}

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
