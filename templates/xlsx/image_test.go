package xlsx

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"

	"futtock/templates/grid"
)

func dots(t *testing.T, wide, high int) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, image.NewGray(image.Rect(0, 0, wide, high))); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// hung is the book of charts with two pictures on its first sheet, and a sheet with
// pictures alone.
func hung(t *testing.T) *grid.Book {
	book := drawn()
	s := book.Sheets[0]
	s.Images = []grid.Image{
		{Cell: "B42", PNG: dots(t, 300, 20), Wide: 100, High: 12.5, Alt: "a <plank>"},
		{Cell: "A44", PNG: dots(t, 30, 200), Wide: 10, High: 80},
	}
	book.Sheets = append(book.Sheets, &grid.Sheet{Name: "Alone", Images: []grid.Image{{Cell: "A1", PNG: dots(t, 30, 20), Wide: 30, High: 20}}})
	return book
}

// A picture has its size and stands on its cell, beside charts that lie over theirs.
func TestAPictureHasItsSizeWhateverItsCells(t *testing.T) {
	data := written(t, hung(t))
	xml := partOf(t, data, "xl/drawings/drawing1.xml")
	for _, want := range []string{ // 36,000 to the millimetre; cells are counted from 0
		"<xdr:oneCellAnchor><xdr:from><xdr:col>1</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>41</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:ext cx=\"3600000\" cy=\"450000\">",
		`<xdr:row>43</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:ext cx="360000" cy="2880000">`,
		`<a:ext cx="360000" cy="2880000">`,
		"a &lt;plank&gt;",
		"<xdr:to><xdr:col>6</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>40</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to>",
	} {
		if strings.Count(xml, want) != 1 {
			t.Errorf("no %s in\n%s", want, xml)
		}
	}
	if xml := partOf(t, data, "xl/drawings/drawing3.xml"); !strings.Contains(xml, `cx="1080000" cy="720000"`) {
		t.Errorf("the picture that stands alone has lost its size:\n%s", xml)
	}
}

func TestPicturesAreWrittenAlike(t *testing.T) {
	first := written(t, hung(t))
	for range 10 {
		if !bytes.Equal(first, written(t, hung(t))) {
			t.Fatal("other bytes the next time")
		}
	}
}

func TestAPictureThatCannotBeShownIsRefused(t *testing.T) {
	for name, spoil := range map[string]func(*grid.Image){
		"no cell":   func(i *grid.Image) { i.Cell = "5B" },
		"no size":   func(i *grid.Image) { i.High = 0 },
		"too large": func(i *grid.Image) { i.Wide = 5000 },
		"no PNG":    func(i *grid.Image) { i.PNG = []byte("GIF89a") },
	} {
		book := hung(t)
		spoil(&book.Sheets[0].Images[0])
		if _, err := Write(book); err == nil {
			t.Errorf("%s: it was written", name)
		}
	}
}
