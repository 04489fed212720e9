package xlsx

import (
	"archive/zip"
	"bufio"
	"compress/flate"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// most is the memory a process may take up reading any file whatever.
const most = 512 << 20

// bomb writes a sound workbook but for one part, which is written piece by
// piece so that this process needs no memory for it.
func bomb(t *testing.T, path, part string, write func(w io.Writer)) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z := zip.NewWriter(f)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestSpeed) })
	parts := plainParts("")
	delete(parts, part)
	for name, text := range parts {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		io.WriteString(w, text)
	}
	w, err := z.Create(part)
	if err != nil {
		t.Fatal(err)
	}
	b := bufio.NewWriterSize(w, 1<<20)
	write(b)
	b.Flush()
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
}

// repeated writes a text n times between two others.
func repeated(head, text, tail string, n int) func(io.Writer) {
	many := strings.Repeat(text, 1000)
	return func(w io.Writer) {
		io.WriteString(w, head)
		for range n / 1000 {
			io.WriteString(w, many)
		}
		io.WriteString(w, tail)
	}
}

// The process that reads is another one, so that what it took up at its peak
// can be asked of the system.
func TestNoFileMakesTheReaderTakeUpMoreThanHalfAGigabyte(t *testing.T) {
	if path := os.Getenv("FUTTOCK_READ"); path != "" {
		book, err := Open(path)
		fmt.Printf("rows %d error %v\n", func() (n int) {
			for _, s := range book.Sheets {
				n += len(s.Rows)
			}
			return n
		}(), err)
		return
	}
	if testing.Short() {
		t.Skip("writes and reads files of some hundred megabytes")
	}
	if raced {
		t.Skip("the race detector takes up memory of its own")
	}
	const sheet, strs, styles = "xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "xl/styles.xml"
	open, shut, _ := strings.Cut(sheetXML("@"), "@")
	sst := `<sst xmlns="` + nsMain + `">`
	cases := []struct {
		name, part string
		write      func(io.Writer)
		cause      error // nil for a file that is read
	}{
		{"a gigabyte of nothing", "xl/media/image1.png", repeated("", strings.Repeat("\x00", 1024), "", 1<<20), ErrTooBig},
		{"all the numbers that are let through", sheet, func(w io.Writer) {
			io.WriteString(w, open)
			for row := 1; row <= 70_000; row++ {
				fmt.Fprintf(w, "<row>%s</row>", strings.Repeat("<c><v>1234567.891</v></c>", 20))
			}
			io.WriteString(w, shut)
		}, nil},
		{"more numbers than are let through", sheet, repeated(open, "<row>"+strings.Repeat("<c><v>1234567.891</v></c>", 20)+"</row>", shut, 200_000), ErrTooBig},
		{"a number in every row", sheet, repeated(open, "<row><c><v>1</v></c></row>", shut, 1_048_000), nil},
		{"formulas without end", sheet, repeated(open, "<row>"+strings.Repeat("<c><f>A1</f></c>", 50)+"</row>", shut, 100_000), ErrTooBig},
		{"texts without end", strs, repeated(sst, "<si><t>a</t></si>", "</sst>", 7_000_000), ErrTooBig},
		{"long texts without end", strs, repeated(sst, "<si><t>"+strings.Repeat("a", 30_000)+"</t></si>", "</sst>", 8_000), ErrTooBig},
		{"one text without end", strs, repeated(sst+"<si><t>", strings.Repeat("a", 1000), "</t></si></sst>", 120_000), ErrTooBig},
		{"one text of comments without end", strs, repeated(sst+"<si><t><!--", strings.Repeat("<>", 500), "--></t></si></sst>", 120_000), ErrTooBig},
		{"one tag without end", sheet, repeated(open+"<row", " a=''", ">"+shut, 20_000_000), ErrTooBig},
		{"nesting without end", sheet, repeated(open, "<a>", shut, 40_000_000), ErrDamaged},
		{"styles without end", styles, repeated(`<styleSheet xmlns="`+nsMain+`"><cellXfs>`, "<xf/>", "</cellXfs></styleSheet>", 20_000_000), ErrTooBig},
		{"sheets without end", "xl/workbook.xml", repeated(`<workbook xmlns="`+nsMain+`" xmlns:r="`+nsRel+`"><sheets>`, `<sheet name="Members" r:id="rId1"/>`, "</sheets></workbook>", 3_000_000), ErrDamaged},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(t.TempDir(), "yard.xlsx")
			bomb(t, path, c.part, c.write)
			cmd := exec.Command(os.Args[0], "-test.run", "^TestNoFileMakesTheReaderTakeUpMoreThanHalfAGigabyte$", "-test.v")
			cmd.Env = append(os.Environ(), "FUTTOCK_READ="+path)
			out, err := cmd.CombinedOutput()
			if err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage)
			if !ok {
				t.Fatal("the system does not say what the process took up")
			}
			peak := usage.Maxrss << 10
			t.Logf("peak %d MiB in %v: %s", peak>>20, cmd.ProcessState.UserTime()+cmd.ProcessState.SystemTime(), said(string(out)))
			if peak > most {
				t.Errorf("it took up %d MiB", peak>>20)
			}
			want := "error <nil>"
			if c.cause != nil {
				want = "error yard.xlsx " + c.cause.Error()
			}
			if !strings.Contains(string(out), want) {
				t.Errorf("it said %s", said(string(out)))
			}
		})
	}
}

// said is the line of the reading process that tells what came of it.
func said(out string) string {
	for line := range strings.Lines(out) {
		if strings.HasPrefix(line, "rows ") {
			return strings.TrimSpace(line)
		}
	}
	return out
}
