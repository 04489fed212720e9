package templates

import "testing"

func TestANameInOtherWordsIsKnownByTheWordsItShares(t *testing.T) {
	names := []string{"Waste %", "Price rises % a year", "Difficulty", "Price", "% of", "Carried as"}
	for said, want := range map[string]string{
		"Difficulty factor":     "Difficulty",
		"Waste":                 "Waste %",
		"Price rises":           "Price rises % a year",
		"Price rises, a year":   "Price rises % a year",
		"List price":            "Price",
		"Carried":               "Carried as",
		"Number of photographs": "",
		"Priced by":             "",
		"What the difficulty of the place may come to": "",
		"": "",
	} {
		if got := akin(said, names); got != want {
			t.Errorf("%q is akin to %q, want %q", said, got, want)
		}
	}
}
