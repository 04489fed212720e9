package main

import (
	"os"
	"testing"

	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/rates"
	"futtock/templates/xlsx"
)

func TestZZ(t *testing.T) {
	d, err := xlsx.Write(sheets.Estimate(modelled(t, nil)))
	if err != nil {
		t.Fatal(err)
	}
	os.WriteFile("/tmp/wm/est.xlsx", d, 0o644)
	d, err = xlsx.Write(sheets.Estimate(modelled(t, func(j *job.Job, b *rates.Book) { j.ContingencyShown = job.WithinRates; j.PriceWaiting = true })))
	os.WriteFile("/tmp/wm/within.xlsx", d, 0o644)
}
