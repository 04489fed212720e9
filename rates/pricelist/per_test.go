package pricelist

import "testing"

func TestWhatAPriceIsForIsReadAsMerchantsWriteIt(t *testing.T) {
	for text, want := range map[string]string{
		"m3": "per m3", "per m³": "per m3", "/ cu m": "per m3", "Cubic metre": "per m3", "per Cubic Ft": "per ft3", "ft^3": "per ft3", "cu. ft.": "per ft3",
		"Hoppus ft": "per hft", "h.ft": "per hft", "bf": "per bf", "super ft": "per bf", "100 super ft": "per 100 bf", "per 1,000 bd ft": "per 1000 bf", "MBF": "per 1000 bf",
		"standard": "per std", "each": "per nr", "EA": "per nr", "pcs": "per nr", "100": "per 100 nr", "per 100": "per 100 nr", "C": "per 100 nr", "doz": "per 12 nr",
		"2 dozen": "per 24 nr", "thousand": "per 1000 nr", "hundred super feet": "per 100 bf", "pack": "per pack", "Packs": "per pack", "box of 200": "per pack of 200",
		"pack 50": "per pack of 50", "drum of 25 l": "per pack of 25 l", "25 kg": "per 25 kg", "25kg": "per 25 kg", "m": "per m", "lin m": "per m", "hr": "per h", "week": "per wk",
		"1.5 m": "per 1.5 m",
	} {
		p, ok := ParsePer(text)
		if !ok || p.String() != want {
			t.Errorf("%q is %v, %s; want %s", text, ok, p, want)
		}
	}
	if p, ok := ParsePer("  "); !ok || !p.Own() {
		t.Errorf("a blank is %v, %s", ok, p)
	}
	for _, text := range []string{"bdl", "per", "/", "0", "0 m", "pack of 0", "box of some", "per 100 of them", "mm", "cm", "-5 m", "m4"} {
		if p, ok := ParsePer(text); ok {
			t.Errorf("%q is taken as %s", text, p)
		}
	}
}
