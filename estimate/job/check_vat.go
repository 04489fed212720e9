package job

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/problem"
)

// Limits of a qualifying ship (Value Added Tax Act 1994, Schedule 8, Group 8,
// note A1): a gross tonnage of not less than 15 tons. Where it is not otherwise
// ascertained it is length x breadth x depth x 0.235 in metres (VAT Notice 744C).
var (
	leastTons  = decimal.New(15, 0)
	tonsACubic = decimal.New(235, -3)
)

// vat compares the codes the job uses with the particulars of the vessel.
// Where a zero rate has an Otherwise it is one that hangs on the vessel.
func (c *check) vat() {
	var zero []rates.VAT
	for _, code := range c.codes() {
		v, ok := c.book.Tax(code, c.job.TenderDate)
		if !ok || v.Otherwise == "" {
			continue
		}
		if qualifying(v) {
			zero = append(zero, v)
		}
		if _, in := c.book.Tax(v.Otherwise, c.job.TenderDate); !in && c.known(v.Otherwise) {
			c.found(problem.OtherwiseNotInForce, fmt.Sprintf("%q would otherwise bear %q, which has no rate on %s; a row that holds from that day or before is wanted",
				v.Code, v.Otherwise, c.job.TenderDate.Format("2006-01-02")), v.At)
		}
	}
	tons, ascertained := c.tons()
	if len(zero) > 0 {
		c.zeroRated(zero[0], tons, ascertained)
		return
	}
	offered := slices.ContainsFunc(c.book.VAT, func(v rates.VAT) bool {
		in, ok := c.book.Tax(v.Code, c.job.TenderDate)
		return ok && in.At == v.At && qualifying(v)
	})
	standard, ok := c.book.Tax(c.job.VATCode, c.job.TenderDate)
	if offered && ok && standard.Category == "S" && ascertained && tons.GreaterThanOrEqual(leastTons) &&
		c.job.DesignedFor != "" && !recreation(c.job.DesignedFor) {
		c.found(problem.VATMayQualify, fmt.Sprintf("the work bears %q; she is of %s tons gross and designed or adapted for %q, and may be a qualifying ship",
			c.job.VATCode, tons, c.job.DesignedFor), c.job.Cell("VAT code"))
	}
}

// zeroRated warns of what speaks against the zero rate, or is not recorded.
func (c *check) zeroRated(v rates.VAT, tons decimal.Decimal, ascertained bool) {
	if strings.TrimSpace(c.job.VATEvidence) == "" {
		c.found(problem.VATEvidenceMissing, fmt.Sprintf("work is zero-rated by %q, and VAT evidence is blank", v.Code),
			c.job.Cell("VAT evidence"))
	}
	switch {
	case !ascertained:
		c.found(problem.VATTonnageUnknown, fmt.Sprintf("work is zero-rated by %q; Gross tonnage is wanted, or Length overall, Breadth and Depth", v.Code),
			c.job.Cell("Gross tonnage"))
	case tons.LessThan(leastTons):
		c.found(problem.VATTonnage, fmt.Sprintf("work is zero-rated by %q, and she is of %q tons gross; not under 15 are asked", v.Code, tons),
			c.job.Cell("Gross tonnage"))
	}
	switch {
	case c.job.DesignedFor == "":
		c.found(problem.VATRecreation, fmt.Sprintf("work is zero-rated by %q, and Designed or adapted for is blank", v.Code),
			c.job.Cell("Designed or adapted for"))
	case recreation(c.job.DesignedFor):
		c.found(problem.VATRecreation, fmt.Sprintf("work is zero-rated by %q, and she is designed or adapted for %q", v.Code, c.job.DesignedFor),
			c.job.Cell("Designed or adapted for"))
	}
}

func qualifying(v rates.VAT) bool { return v.Category == "Z" && v.Otherwise != "" }

// tons is the gross tonnage as given, else by the dimensions to 0.01; it
// returns false where neither is to be had.
func (c *check) tons() (decimal.Decimal, bool) {
	j := c.job
	if j.TonnageGiven {
		return j.Tonnage, true
	}
	if j.LengthOverall == 0 || j.Breadth == 0 || j.Depth == 0 {
		return decimal.Decimal{}, false
	}
	return j.LengthOverall.Volume(j.Breadth, j.Depth).Base.Mul(tonsACubic).Truncate(2), true
}

// recreation reports a purpose that names recreation, and does not deny it.
func recreation(purpose string) bool {
	words := strings.FieldsFunc(strings.ToLower(purpose), func(r rune) bool { return r < 'a' || r > 'z' })
	names, denies := false, false
	for _, w := range words {
		switch w {
		case "recreation", "recreational", "pleasure", "leisure":
			names = true
		case "not", "no", "neither", "nor", "never", "non", "without":
			denies = true
		}
	}
	return names && !denies
}

// codes is every VAT code the job uses, each once, the Job's first.
func (c *check) codes() []string {
	used := []string{c.job.VATCode}
	add := func(code string) {
		if code != "" && !slices.ContainsFunc(used, func(u string) bool { return rates.Same(u, code) }) {
			used = append(used, code)
		}
	}
	for _, w := range c.job.Works() {
		add(w.VAT)
	}
	for _, p := range c.job.Preliminaries {
		add(p.VAT)
	}
	for _, s := range c.job.Sums {
		add(s.VAT)
	}
	return used
}

// known reports a code that stands in the VAT sheet, whenever it holds.
func (c *check) known(code string) bool {
	return slices.ContainsFunc(c.book.VAT, func(v rates.VAT) bool { return rates.Same(v.Code, code) })
}
