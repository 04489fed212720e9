package cutting

import (
	"fmt"
	"strings"
	"testing"

	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// Logs are shown in boards of what they may be sawn into, the thickest first: a row bound to one log says
// nothing of another, and what is bound to none says nothing of the owner's.
func TestLogsAreShownInBoardsOfWhatTheyServe(t *testing.T) {
	log := rates.Stock{Stock: "log", Timber: "oak", Form: rates.Log, TopDiameter: 600 * mm, Length: 4 * m, Price: price("150"), Unit: measure.Nr}
	other, owners := log, log
	other.Stock, owners.Stock, owners.ByOwner, owners.Price = "other", "owners", true, price("0")
	bound := func(p takeoff.Piece, to string) takeoff.Piece {
		p.Stock = to
		return p
	}
	plan, problems := Cut(oakJob(), book(log, other, owners), pieces(
		straight("1", 1, 50*mm, 140*mm, 2*m), straight("2", 1, 25*mm, 140*mm, 2*m),
		bound(straight("3", 1, 75*mm, 140*mm, 2*m), "log"), bound(straight("4", 1, 60*mm, 140*mm, 2*m), "owners"),
		straight("5", 1, 201*mm, 201*mm, 2*m))) // three of which do not go into the top
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var got []string
	for _, b := range plan.Boards {
		got = append(got, fmt.Sprintf("%s %d", b.Stock.Stock, b.Thickness/mm))
	}
	if want := "log 75, log 50, log 25, other 50, other 25, owners 60"; strings.Join(got, ", ") != want {
		t.Errorf("boards of %q, want %q", got, want)
	}
}
