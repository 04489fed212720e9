package templates

import (
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite generated text")

const (
	guideBegins = "<!-- guide begins -->\n"
	guideEnds   = "<!-- guide ends -->\n"
)

func TestTheGuideInTheReadmeIsThatOfTheSheetsDeclared(t *testing.T) {
	const path = "../README.md"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), guideBegins)
	old, after, ok2 := strings.Cut(rest, guideEnds)
	if !ok || !ok2 {
		t.Fatalf("README.md has no %q and %q around the guide", strings.TrimSpace(guideBegins), strings.TrimSpace(guideEnds))
	}
	want := "\n" + Guide() + "\n"
	if old == want {
		return
	}
	if !*update {
		t.Fatalf("the guide in README.md is stale; run go test ./templates -update\n%s", cmp.Diff(old, want))
	}
	if err := os.WriteFile(path, []byte(before+guideBegins+want+guideEnds+after), 0o644); err != nil {
		t.Fatal(err)
	}
}
