package job_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// told is what the check says of a code, or blank.
func told(code problem.Code, set func(j *job.Job)) string {
	j, b := sound()
	set(j)
	for _, p := range job.Check(j, b) {
		if p.Code == code {
			return p.Text
		}
	}
	return ""
}

// TestTonnageAgreesWithThePublished drives the check with every published row on
// the tonnage of a qualifying ship.
func TestTonnageAgreesWithThePublished(t *testing.T) {
	checks := map[string]func(t *testing.T, expected string){
		// The least tonnage, by hundredths, at which a zero rate is not warned of.
		"R-VAT-05": func(t *testing.T, expected string) {
			for hundredths := int64(1400); ; hundredths++ {
				tons := decimal.New(hundredths, -2)
				if told(problem.VATTonnage, func(j *job.Job) { j.Tonnage = tons }) == "" {
					if ">= "+tons.String() != expected {
						t.Errorf("%s tons are enough; published %s", tons, expected)
					}
					return
				}
			}
		},
		// By the dimensions, cut to hundredths: nobody comes to 15 tons by rounding.
		"F-VAT-09": func(t *testing.T, expected string) {
			text := told(problem.VATMayQualify, func(j *job.Job) {
				j.VATCode, j.TonnageGiven, j.Tonnage = "S", false, decimal.Zero
				j.LengthOverall, j.Breadth, j.Depth = 16500*measure.Millimetre, 4600*measure.Millimetre, 2100*measure.Millimetre
			})
			if want := "of " + n(expected).Truncate(2).String() + " tons gross"; !strings.Contains(text, want) {
				t.Errorf("%q; want %q", text, want)
			}
		},
	}
	f, err := os.Open("../../testdata/published/vat.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		check, ok := checks[r[0]]
		if !ok {
			t.Errorf("%s is not checked", r[0])
			continue
		}
		t.Run(r[0], func(t *testing.T) { check(t, r[3]) })
		delete(checks, r[0])
	}
	if len(checks) > 0 {
		t.Errorf("%d checks have no published row", len(checks))
	}
}
