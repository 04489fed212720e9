package pdf_test

import (
	"encoding/xml"
	"fmt"
	"strings"
	"testing"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/output/pdf"
	"futtock/rates/measure"
)

// Every page of a document is of the paper the job is printed on, standing or on
// its side, and every word lies on it. In points, Letter is 8.5 x 72 by 11 x 72.
func TestEveryPageIsOfThePaperOfTheJob(t *testing.T) {
	const edge = 12 // points that most printers leave white
	demo := demonstration(t)
	feet := pdf.Handmade(measure.Ft, measure.In)
	for _, c := range []struct {
		on         job.Paper
		wide, high float64
	}{{"", 595.28, 841.89}, {job.Letter, 612, 792}} {
		tenderOf, timberOf := demo, feet
		tenderOf.Job.Paper, timberOf.Job.Paper = c.on, c.on
		for name, made := range map[string]func(estimate.Result) ([]byte, error){"tender": pdf.Tender, "timber": pdf.Timber} {
			r, lying := tenderOf, 0
			if name == "timber" {
				r = timberOf
			}
			data, err := made(r)
			if err != nil {
				t.Fatal(err)
			}
			read(t, data, "qpdf", "--check", "FILE")
			for n, p := range pagesOf(t, data) {
				wide, high := c.wide, c.high
				if p.Wide > p.High {
					wide, high = c.high, c.wide
					lying++
				}
				if got, want := fmt.Sprintf("%.1f x %.1f", p.Wide, p.High), fmt.Sprintf("%.1f x %.1f", wide, high); got != want {
					t.Errorf("page %d of the %s on %q is %s points, want %s", n+1, name, c.on, got, want)
				}
				for _, w := range p.Words {
					if w.X0 < edge || w.X1 > p.Wide-edge || w.Y0 < edge || w.Y1 > p.High-edge {
						t.Errorf("page %d of the %s on %q: %q stands where a printer does not print", n+1, name, c.on, w.Text)
					}
				}
			}
			if (lying > 0) != (name == "timber") {
				t.Errorf("%d pages of the %s lie on their side", lying, name)
			}
		}
	}
}

type printedPage struct {
	Wide  float64 `xml:"width,attr"`
	High  float64 `xml:"height,attr"`
	Words []struct {
		X0   float64 `xml:"xMin,attr"`
		X1   float64 `xml:"xMax,attr"`
		Y0   float64 `xml:"yMin,attr"`
		Y1   float64 `xml:"yMax,attr"`
		Text string  `xml:",chardata"`
	} `xml:"word"`
}

// pagesOf is the pages of a PDF with their words as a reader finds them.
func pagesOf(t *testing.T, data []byte) []printedPage {
	t.Helper()
	var doc struct {
		Pages []printedPage `xml:"body>doc>page"`
	}
	text := strings.ToValidUTF8(read(t, data, "pdftotext", "-bbox", "FILE", "-"), "?")
	if err := xml.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	if len(doc.Pages) == 0 {
		t.Fatal("the document has no pages")
	}
	return doc.Pages
}
