package main

import (
	"strings"
	"testing"

	"futtock/estimate/cutting"
	"futtock/estimate/takeoff"
	"futtock/templates"
)

// The demonstration's timber, all species: what it costs to plan, what it costs to
// buy, and how far that is from what no purchase can cost less than.
func BenchmarkDemonstrationTimber(b *testing.B) {
	tables, err := demoTables()
	if err != nil {
		b.Fatal(err)
	}
	j, book, _ := templates.Read(templates.TextBook("yard.xlsx", tables), nil)
	taken, _ := takeoff.Measure(&j, &book)
	var plan cutting.Plan
	for b.Loop() {
		plan, _ = cutting.Cut(&j, &book, taken)
	}
	b.ReportMetric(plan.Bound.Cost.Decimal().InexactFloat64(), "cost")
	b.ReportMetric(plan.Bound.Least.Decimal().InexactFloat64(), "least")
	for _, s := range plan.Species {
		b.ReportMetric(s.Bound.Gap.Decimal().InexactFloat64(), strings.ReplaceAll(s.Timber, " ", "-")+"_gap_%")
	}
}
