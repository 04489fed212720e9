package wording

import (
	_ "embed"
	"fmt"
	"strings"
)

//go:embed tender.txt
var tender string

//go:embed timber.txt
var timber string

// Tender is one named part of the tender's standing text, see section.
func Tender(part string, pairs ...string) []string { return section("tender", tender, part, pairs) }

// Standing is every clause that may stand in a part of the tender whose clauses a
// job can change, by the name of the part.
func Standing(part string) []string {
	switch part {
	case "cautions":
		return Cautions()
	case "timber":
		return append(Tender("timber"), Tender("timber owner")...)
	}
	return Tender(part)
}

// BeforeSending is what the yard is told to do before the tender goes out. It
// is for the yard's eyes, and stands in no document of the client's.
func BeforeSending() []string { return Tender("before sending") }

// Timber is one named part of what the timber order says in words, see section.
func Timber(part string, pairs ...string) []string {
	return section("timber order", timber, part, pairs)
}

//go:embed form.txt
var form string

// Form is one named part of what a bill to be priced by others says in words,
// see section.
func Form(part string, pairs ...string) []string { return section("form", form, part, pairs) }

//go:embed letter.txt
var letter string

// Letter is one named part of what the form for a firm's letter says in words,
// see section.
func Letter(part string, pairs ...string) []string { return section("letter", letter, part, pairs) }

//go:embed report.txt
var report string

// Report is one named part of the standing text of the tender report, see section.
func Report(part string, pairs ...string) []string { return section("report", report, part, pairs) }

//go:embed comparison.txt
var comparison string

// Comparison is one named part of what a comparison of quotes says in words, see
// section.
func Comparison(part string, pairs ...string) []string {
	return section("comparison", comparison, part, pairs)
}

// section is one named part of a document's standing text, one paragraph a
// line, with what stands in braces filled in: pairs are the names, in their
// braces, each with its value. What a value holds is not filled in again. A
// part that is not in the text, or a brace nobody fills, is a fault of ours.
func section(document, text, part string, pairs []string) []string {
	_, rest, ok := strings.Cut("\n"+text, "\n["+part+"]\n")
	if !ok {
		panic(fmt.Sprintf("wording: the %s has no part %q", document, part))
	}
	if end := strings.Index(rest, "\n["); end >= 0 {
		rest = rest[:end]
	}
	out := paragraphs(rest)
	if len(out) == 0 {
		panic(fmt.Sprintf("wording: the part %q of the %s is empty", part, document))
	}
	for i := 0; i < len(pairs); i += 2 {
		rest = strings.ReplaceAll(rest, pairs[i], "")
	}
	if strings.ContainsAny(rest, "{}") {
		panic(fmt.Sprintf("wording: the part %q of the %s has a brace that is not filled", part, document))
	}
	fill := strings.NewReplacer(pairs...)
	for i := range out {
		out[i] = fill.Replace(out[i])
	}
	return out
}
