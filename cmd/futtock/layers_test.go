package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// layers is who may import whom, in rising order: a package may import those
// named beside it and the leaves. It is policy, and not to be edited to make a
// build pass. A line a package: name, then what it may import besides leaves;
// "…" stands for every package above it in the table.
const layers = `
rates/money
rates/origin
rates/measure
rates/problem        rates/origin
rates
rates/pricelist      rates
estimate/job         rates
estimate/takeoff     estimate/job rates
estimate/fabric      estimate/takeoff estimate/job rates
estimate/cutting/order   estimate/takeoff estimate/job rates
estimate/cutting/fit     estimate/cutting/order estimate/takeoff estimate/job rates
estimate/cutting/solve
estimate/cutting/solve/lengths estimate/cutting/solve
estimate/cutting/board   estimate/cutting/solve
estimate/cutting/crook   estimate/cutting/solve
estimate/cutting/log     estimate/cutting/solve
estimate/cutting/parcel
estimate/cutting/verify  estimate/cutting/order estimate/takeoff estimate/job rates
estimate/cutting     estimate/cutting/order estimate/cutting/fit estimate/cutting/board estimate/cutting/crook estimate/cutting/log estimate/cutting/parcel estimate/cutting/solve estimate/cutting/verify estimate/takeoff estimate/job rates
estimate/labour      estimate/takeoff estimate/job rates
estimate/programme   estimate/labour estimate/job rates
estimate/price       estimate/programme estimate/labour estimate/cutting estimate/takeoff estimate/job rates
estimate/risk        estimate/price estimate/programme estimate/labour estimate/job rates
estimate/bill        estimate/risk estimate/price estimate/programme estimate/job rates
estimate/quotes      estimate/bill estimate/job rates
estimate/cash        estimate/bill estimate/price estimate/programme estimate/job rates
estimate             …
estimate/changes     …
templates/grid
templates/wording
templates/demo
templates            estimate/job rates/pricelist rates templates/grid
templates/offer      templates estimate/quotes estimate/bill estimate/price estimate/job rates templates/grid templates/wording
templates/xlsx       templates/grid
output
output/letters
output/drawing       output/letters estimate/cutting/order estimate/takeoff estimate/job rates
output/picture       output/drawing output/letters
output/sheets        output/drawing output/picture output/letters estimate estimate/changes estimate/cash estimate/fabric estimate/quotes estimate/bill estimate/risk estimate/price estimate/programme estimate/labour estimate/cutting/order estimate/takeoff estimate/job rates templates/offer templates/grid templates/wording
output/explain       estimate estimate/cash estimate/fabric estimate/bill estimate/risk estimate/cutting/order estimate/job estimate/labour estimate/price estimate/programme estimate/takeoff rates
output/pdf           output/drawing output/letters estimate estimate/cash estimate/fabric estimate/quotes estimate/bill estimate/risk estimate/cutting/order estimate/takeoff estimate/job estimate/programme rates templates/wording
output/json          rates/pricelist estimate estimate/changes estimate/job estimate/cash estimate/fabric estimate/quotes estimate/bill estimate/risk estimate/cutting output/explain
output/text          rates/pricelist estimate estimate/changes estimate/cash estimate/quotes estimate/bill estimate/risk estimate/cutting estimate/job output/explain templates/wording
cmd/futtock          …
`

// leaves may be imported by every package that stands above them.
var leaves = []string{"rates/money", "rates/measure", "rates/origin", "rates/problem"}

// owners are the only packages that may import a library.
var owners = map[string]string{
	"github.com/xuri/excelize/v2": "templates/xlsx",
	"github.com/jung-kurt/gofpdf": "output/pdf",
	"github.com/spf13/pflag":      "cmd/futtock",
}

// floats may hold binary floating point: each turns it to decimal in one place.
var floats = []string{"estimate/takeoff", "estimate/cutting", "estimate/labour", "estimate/programme", "estimate/risk"}

// chance is the one package that draws random numbers, from a generator seeded
// by the job.
const chance = "estimate/risk"

// source is one package of the tree: its imports and files, tests left out.
type source struct {
	imports []string
	files   map[string]*ast.File
}

func sources(t *testing.T) map[string]*source {
	t.Helper()
	root := filepath.Join("..", "..")
	out := map[string]*source{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && path != root) {
			return filepath.SkipDir
		}
		if filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		p := filepath.ToSlash(rel)
		if out[p] == nil {
			out[p] = &source{files: map[string]*ast.File{}}
		}
		out[p].files[path] = f
		for _, i := range f.Imports {
			name, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			out[p].imports = append(out[p].imports, name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(out) < 10 {
		t.Fatalf("found only %d packages: the walk went wrong", len(out))
	}
	return out
}

// The package table is kept: no package imports what it may not, none stands
// outside the table, and no line of the table is without a package.
func TestPackagesImportOnlyWhatTheTableAllows(t *testing.T) {
	tree := sources(t)
	var above []string
	for line := range strings.Lines(layers) {
		words := strings.Fields(line)
		if len(words) == 0 {
			continue
		}
		name, may := words[0], words[1:]
		if slices.Contains(may, "…") {
			may = above
		}
		above = append(above, name)
		p := tree[name]
		if p == nil {
			t.Errorf("%s stands in the table and has no files", name)
			continue
		}
		for _, i := range p.imports {
			ours, ok := strings.CutPrefix(i, "futtock/")
			if ok && !slices.Contains(may, ours) && !(slices.Contains(leaves, ours) && slices.Contains(above, ours) && ours != name) {
				t.Errorf("%s imports %s, which the table does not allow", name, ours)
			}
			if owner, owned := owners[i]; owned && owner != name {
				t.Errorf("%s imports %s, which only %s may", name, i, owner)
			}
		}
		delete(tree, name)
	}
	for name := range tree {
		t.Errorf("%s stands in no line of the table", name)
	}
}

// Under rates/ and estimate/ there is no clock, file, environment or, but in the
// package of chance, chance, and no binary floating point but where the table of floats allows it.
func TestTheCoreAsksNothingOfTheWorld(t *testing.T) {
	for name, p := range sources(t) {
		if !strings.HasPrefix(name, "rates") && !strings.HasPrefix(name, "estimate") {
			continue
		}
		for _, i := range p.imports {
			if i == "os" || i == "io/fs" || strings.HasPrefix(i, "math/rand") && !(name == chance && i == "math/rand/v2") || strings.HasPrefix(i, "net") {
				t.Errorf("%s imports %s", name, i)
			}
		}
		for path, f := range p.files {
			ast.Inspect(f, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.SelectorExpr:
					if x, ok := n.X.(*ast.Ident); ok && x.Name == "time" && (n.Sel.Name == "Now" || n.Sel.Name == "Since") {
						t.Errorf("%s asks the clock", path)
					}
				case *ast.Ident:
					if (n.Name == "float64" || n.Name == "float32") && !slices.ContainsFunc(floats, func(s string) bool { return name == s || strings.HasPrefix(name, s+"/") }) {
						t.Errorf("%s uses %s, and money must not", path, n.Name)
					}
				}
				return true
			})
		}
	}
}
