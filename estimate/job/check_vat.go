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
// A code that has an Otherwise hangs on the vessel. What the law of the United Kingdom asks
// of her is looked at where the job is in its currency; elsewhere the law is another.
func (c *check) vat() {
	c.categories()
	var relieved []rates.VAT
	for _, code := range c.codes() {
		v, ok := c.book.Tax(code, c.job.TenderDate)
		if !ok || v.Otherwise == "" {
			continue
		}
		relieved = append(relieved, v)
		if _, in := c.book.Tax(v.Otherwise, c.job.TenderDate); !in && c.known(v.Otherwise) {
			c.found(problem.OtherwiseNotInForce, fmt.Sprintf("%q would otherwise bear %q, which has no rate on %s; a row that holds from that day or before is wanted",
				v.Code, v.Otherwise, c.job.TenderDate.Format("2006-01-02")), v.At)
		}
	}
	if len(relieved) > 0 && strings.TrimSpace(c.job.VATEvidence) == "" {
		c.found(problem.VATEvidenceMissing, fmt.Sprintf("work is %s by %q, and VAT evidence is blank", reliefWords(relieved[0]), relieved[0].Code),
			c.job.Cell("VAT evidence"))
	}
	if c.job.Currency != "GBP" {
		return
	}
	if i := slices.IndexFunc(relieved, qualifying); i >= 0 {
		c.zeroRated(relieved[i])
		return
	}
	tons, _, ascertained := c.job.Tons()
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

// reliefWords is how a code that hangs on the vessel relieves the work.
func reliefWords(v rates.VAT) string {
	if v.Category == "Z" {
		return "zero-rated"
	}
	return "relieved of tax"
}

// categories finds codes whose category says another thing than their rate. By EN 16931
// (BR-Z-5 and its like) no category but S bears tax.
func (c *check) categories() {
	for _, v := range c.book.VAT {
		switch {
		case v.Category != "S" && !v.Rate.IsZero():
			c.found(problem.VATCategory, fmt.Sprintf("%q is of category %q, which bears no tax, and has a rate of %s; category S is wanted, or 0 %%", v.Code, v.Category, v.Rate), v.At)
		case v.Category == "S" && v.Rate.IsZero():
			c.found(problem.VATCategory, fmt.Sprintf("%q is of category S and has a rate of 0 %%; its rate is wanted, or one of Z, E, AE, O and G", v.Code), v.At)
		}
	}
}

// zeroRated warns of what speaks against a zero rate as on a qualifying ship, or is not recorded.
func (c *check) zeroRated(v rates.VAT) {
	tons, reckoned, ascertained := c.job.Tons()
	how := ""
	if reckoned {
		how = ", by length x breadth x depth x 0.235"
	}
	switch {
	case !ascertained:
		c.found(problem.VATTonnageUnknown, fmt.Sprintf("work is zero-rated by %q; Gross tonnage is wanted, or Length overall, Breadth and Depth", v.Code),
			c.job.Cell("Gross tonnage"))
	case tons.LessThan(leastTons):
		c.found(problem.VATTonnage, fmt.Sprintf("work is zero-rated by %q, and she is of %q tons gross%s; not under 15 are asked", v.Code, tons, how),
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

// Tons is the gross tonnage as given, else reckoned by the dimensions for value added tax in
// the United Kingdom, down to 0.01; ok is false where neither is to be had.
func (j *Job) Tons() (tons decimal.Decimal, reckoned, ok bool) {
	if j.TonnageGiven {
		return j.Tonnage, false, true
	}
	if j.LengthOverall == 0 || j.Breadth == 0 || j.Depth == 0 {
		return decimal.Decimal{}, false, false
	}
	return j.LengthOverall.Volume(j.Breadth, j.Depth).Base.Mul(tonsACubic).Truncate(2), true, true
}

// recreation reports a purpose that names recreation, and does not deny it.
func recreation(purpose string) bool {
	words := strings.FieldsFunc(strings.ToLower(purpose), func(r rune) bool { return r < 'a' || r > 'z' })
	names, denies := false, false
	for _, w := range words {
		switch w {
		case "recreation", "recreational", "pleasure", "leisure", "yacht", "yachts", "yachting":
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
