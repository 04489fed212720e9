package xlsx

import (
	"bytes"
	"errors"
	"fmt"
	"image/png"
	"math"
	"regexp"

	"github.com/xuri/excelize/v2"

	"futtock/templates/grid"
)

// emu is how many of the format's units of length a millimetre is.
const emu = 36000

// largestImage is the most a picture is wide or high, mm: more than any sheet of
// paper, and well within what spreadsheet programs draw.
const largestImage = 2000

// images puts the pictures of the sheet over their cells. Their sizes are set when
// the file is packed, as the library knows no widths and heights while the sheet
// is a stream.
func (w *sheetWriter) images() error {
	for _, i := range w.sheet.Images {
		err := w.file.AddPictureFromBytes(w.sheet.Name, i.Cell, &excelize.Picture{
			Extension: ".png", File: i.PNG, Format: &excelize.GraphicOptions{AltText: i.Alt, Positioning: "oneCell"},
		})
		if err != nil {
			return fmt.Errorf("picture on cell %s: %w", i.Cell, err)
		}
	}
	return nil
}

// sized finds one picture: where it begins, and both places that hold its size.
var sized = regexp.MustCompile(`(?s)(<xdr:oneCellAnchor>.*?)<xdr:ext [^>]*>(.*?)<a:ext [^>]*>(.*?</xdr:oneCellAnchor>)`)

// drawings puts right the part of the nth sheet that has charts or pictures: charts
// reach to the corners of their cells, pictures have their size whatever cells
// they lie over. The library lists each kind in the order of the sheet.
func (p patches) drawings(nth int, s *grid.Sheet) {
	p[fmt.Sprintf("xl/drawings/drawing%d.xml", nth)] = func(part []byte) []byte {
		chart, image := 0, 0
		part = covers.ReplaceAllFunc(part, func(found []byte) []byte {
			chart++
			return append(bytes.Clone(covers.FindSubmatch(found)[1]), reach(s.Charts[chart-1])...)
		})
		return sized.ReplaceAllFunc(part, func(found []byte) []byte {
			image++
			i, m := s.Images[image-1], sized.FindSubmatch(found)
			size := fmt.Sprintf(`cx="%d" cy="%d"`, int(math.Round(i.Wide*emu)), int(math.Round(i.High*emu)))
			return fmt.Appendf(nil, "%s<xdr:ext %s>%s<a:ext %s>%s", m[1], size, m[2], size, m[3])
		})
	}
}

// checkImage refuses a picture that could not be shown.
func checkImage(i grid.Image) error {
	if _, _, ok := parseCell(i.Cell); !ok {
		return fmt.Errorf("%q is not a cell to lay it on", i.Cell)
	}
	if !(i.Wide > 0 && i.High > 0 && i.Wide <= largestImage && i.High <= largestImage) {
		return fmt.Errorf("%g x %g mm is no size for it", i.Wide, i.High)
	}
	if _, err := png.DecodeConfig(bytes.NewReader(i.PNG)); err != nil {
		return errors.New("it is no PNG")
	}
	return checkText(i.Alt)
}
