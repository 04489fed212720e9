package wording

import (
	_ "embed"
	"fmt"
	"strings"
)

//go:embed tender.txt
var tender string

// Tender is one named part of the tender's standing text, one paragraph a
// line, with what stands in braces filled in: pairs are the names, in their
// braces, each with its value. What a value holds is not filled in again. A
// part that is not in the text, or a brace nobody fills, is a fault of ours.
func Tender(part string, pairs ...string) []string {
	_, rest, ok := strings.Cut("\n"+tender, "\n["+part+"]\n")
	if !ok {
		panic(fmt.Sprintf("wording: the tender has no part %q", part))
	}
	if end := strings.Index(rest, "\n["); end >= 0 {
		rest = rest[:end]
	}
	out := paragraphs(rest)
	if len(out) == 0 {
		panic(fmt.Sprintf("wording: the part %q of the tender is empty", part))
	}
	for i := 0; i < len(pairs); i += 2 {
		rest = strings.ReplaceAll(rest, pairs[i], "")
	}
	if strings.ContainsAny(rest, "{}") {
		panic(fmt.Sprintf("wording: the part %q of the tender has a brace that is not filled", part))
	}
	fill := strings.NewReplacer(pairs...)
	for i := range out {
		out[i] = fill.Replace(out[i])
	}
	return out
}
