package solve_test

import (
	"bufio"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"

	"futtock/estimate/cutting/solve"
	"futtock/estimate/cutting/solve/lengths"
)

// purchase is one instance of a file: a known least and greatest value of the optimum where the file tells (least -1 where not).
type purchase struct {
	name        string
	pieces      []lengths.Piece
	stock       []lengths.Stock
	least, most int64
}

// read takes one line in either form: "name L lb ub m  l1 d1 ..." or "name K  L1 c1 ... LK cK  m  l1 d1 ...", told apart by the number of words.
func read(t testing.TB, line string) purchase {
	words := strings.Fields(line)
	p := purchase{name: words[0], least: -1, most: -1}
	var n []int64
	for _, w := range words[1:] {
		v, err := strconv.ParseInt(w, 10, 64)
		if err != nil {
			t.Fatalf("%s: %v", words[0], err)
		}
		n = append(n, v)
	}
	rest := n
	switch {
	case len(n) > 3 && int64(len(n)) == 4+2*n[3]:
		p.stock = []lengths.Stock{{Length: n[0], Cost: 1, Most: -1}}
		p.least, p.most = n[1], n[2]
		rest = n[4:]
	case len(n) > 1 && n[0] > 0 && int64(len(n)) > 1+2*n[0] && int64(len(n)) == 2+2*n[0]+2*n[1+2*n[0]]:
		k := int(n[0])
		for i := 0; i < k; i++ {
			p.stock = append(p.stock, lengths.Stock{Length: n[1+2*i], Cost: n[2+2*i], Most: -1})
		}
		rest = n[2+2*k:]
	default:
		t.Fatalf("%s: neither form of instance", p.name)
	}
	at := map[int64]int{}
	for i := 0; i < len(rest); i += 2 {
		if j, ok := at[rest[i]]; ok {
			p.pieces[j].Wanted += int(rest[i+1])
			continue
		}
		at[rest[i]] = len(p.pieces)
		p.pieces = append(p.pieces, lengths.Piece{Length: rest[i], Wanted: int(rest[i+1])})
	}
	return p
}

func lines(t testing.TB, file string) []string {
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var r io.Reader = f
	if strings.HasSuffix(file, ".gz") {
		z, err := gzip.NewReader(f)
		if err != nil {
			t.Fatal(err)
		}
		r = z
	}
	var out []string
	sc := bufio.NewScanner(r)
	sc.Buffer(nil, 1<<24)
	for sc.Scan() {
		if s := strings.TrimSpace(sc.Text()); s != "" && s[0] != '#' {
			out = append(out, s)
		}
	}
	if err := sc.Err(); err != nil {
		t.Fatal(err)
	}
	return out
}

// optima reads the least and greatest known value of the optimum by name, from a file that need not be there.
func optima(t testing.TB, file string) map[string][2]int64 {
	known := map[string][2]int64{}
	if _, err := os.Stat(file); err != nil {
		return known
	}
	for _, line := range lines(t, file) {
		w := strings.Fields(line)
		if len(w) != 3 {
			t.Fatalf("%s: %q is not name, least, most", file, line)
		}
		least, err1 := strconv.ParseInt(w[1], 10, 64)
		most, err2 := strconv.ParseInt(w[2], 10, 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("%s: %q is not name, least, most", file, line)
		}
		known[w[0]] = [2]int64{least, most}
	}
	return known
}

// TestInstances solves every instance of every file in the folder FUTTOCK_INSTANCES, or of the small set of our own, and prints a row a file.
// A value below a known bound, a bound above a known value and a purchase that does not add up fail the test; so does, in our own set, an optimum
// not found and proven. FUTTOCK_EFFORT sets the steps an instance; otherwise several stock lengths get the usual effort
// and a single one the thorough effort. FUTTOCK_EACH prints a row an instance too.
func TestInstances(t *testing.T) {
	dir := os.Getenv("FUTTOCK_INSTANCES")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "testdata", "cuttingstock")
		t.Logf("FUTTOCK_INSTANCES is not set: only the small set of our own is solved")
	}
	var files []string
	for _, pattern := range []string{"*.txt", "*.txt.gz"} {
		found, _ := filepath.Glob(filepath.Join(dir, pattern))
		files = append(files, found...)
	}
	sort.Strings(files)
	if len(files) == 0 {
		t.Fatalf("no instance file in %s", dir)
	}
	t.Logf("%-22s %9s %7s %7s %6s %8s %8s %9s %9s %9s %9s %9s", "file", "instances", "proven", "optimum", "wrong", "gap %", "most %", "median ms", "95 % ms", "worst ms", "total s", "Mstep/s")
	for _, file := range files {
		runFile(t, file, os.Getenv("FUTTOCK_INSTANCES") == "")
	}
}

// runFile solves one file; all must be proven equal to the optimum where so asked.
func runFile(t *testing.T, file string, own bool) {
	var proven, optimum, wrong int
	var gap, most, total float64
	var took []float64
	var stepsDone int64
	known := optima(t, filepath.Join(filepath.Dir(file), "optima.tsv"))
	for _, line := range lines(t, file) {
		p := read(t, line)
		if v, ok := known[p.name]; ok {
			p.least, p.most = v[0], v[1]
		}
		effort := solve.Usual
		if len(p.stock) == 1 {
			effort = solve.Thorough
		}
		if v, err := strconv.ParseInt(os.Getenv("FUTTOCK_EFFORT"), 10, 64); err == nil {
			effort = solve.Effort(v)
		}
		begin := time.Now()
		g := lengths.New(p.pieces, p.stock)
		in := g.Instance()
		a := solve.Solve(in, g, effort)
		ms := time.Since(begin).Seconds() * 1000
		stepsDone += a.Steps
		took = append(took, ms)
		total += ms / 1000
		if err := recheck(p, a); err != nil {
			t.Errorf("%s: %v", p.name, err)
			wrong++
		} else if p.least >= 0 && (a.Cost < p.least || a.Bound > p.most || a.Proven && p.least == p.most && a.Cost != p.least) {
			t.Errorf("%s: cost %d, bound %d, but the optimum lies between %d and %d", p.name, a.Cost, a.Bound, p.least, p.most)
			wrong++
		}
		if a.Proven {
			proven++
		}
		if p.least >= 0 && a.Cost == p.least {
			optimum++
		}
		g1 := 0.0
		if a.Cost > 0 {
			g1 = 100 * float64(a.Cost-a.Bound) / float64(a.Cost)
		}
		gap += g1
		most = max(most, g1)
		if os.Getenv("FUTTOCK_EACH") != "" {
			t.Logf("  %-28s cost %8d bound %8d proven %-5v gap %.4f steps %9d ms %.1f", p.name, a.Cost, a.Bound, a.Proven, g1, a.Steps, ms)
		}
	}
	sort.Float64s(took)
	n := len(took)
	if own && optimum != n {
		t.Errorf("%s: %d of %d at the known optimum", file, optimum, n)
	}
	if own && proven != n {
		t.Errorf("%s: %d of %d proven", file, proven, n)
	}
	t.Logf("%-22s %9d %7d %7d %6d %8.4f %8.3f %9.2f %9.2f %9.2f %9.3f %9.0f", filepath.Base(file), n, proven, optimum, wrong, gap/float64(n), most,
		took[n/2], took[min(n-1, n*95/100)], took[n-1], total, float64(stepsDone)/total/1e6)
}
