package pdf

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
)

// The library writes the head of the file, its catalogue, without the language
// of the text, which a reading voice asks for, and without saying that a window
// is to bear the title rather than the name of the file. Both are added as PDF
// has files changed: the old bytes stay, and a new catalogue, a list of where it
// stands and a trailer that leads back to the old one follow them (ISO 32000-1,
// 7.5.6).
const told = "/Lang (en-GB)\n/ViewerPreferences <</DisplayDocTitle true>>\n"

var (
	trailer = regexp.MustCompile(`trailer\n<<\n/Size (\d+)\n/Root (\d+) 0 R\n/Info (\d+) 0 R\n>>\nstartxref\n(\d+)\n%%EOF\s*$`)
	endObj  = []byte("\n>>\nendobj")
)

// catalogued is a file of the library's with what is told in its catalogue. A
// file whose end is not as the library writes it is an error.
func catalogued(file []byte) ([]byte, error) {
	end := trailer.FindSubmatch(file)
	if end == nil {
		return nil, fmt.Errorf("the end of the file is not that of a PDF")
	}
	size, root, info, before := end[1], end[2], end[3], end[4]
	head := append([]byte("\n"), root...)
	head = append(head, " 0 obj\n<<\n"...)
	at := bytes.LastIndex(file, head)
	if at < 0 {
		return nil, fmt.Errorf("the file has no catalogue")
	}
	rest := file[at+len(head):]
	stop := bytes.Index(rest, endObj)
	if stop < 0 {
		return nil, fmt.Errorf("the catalogue of the file has no end")
	}

	var out bytes.Buffer
	out.Write(bytes.TrimRight(file, "\n"))
	out.WriteByte('\n')
	object := out.Len()
	fmt.Fprintf(&out, "%s 0 obj\n<<\n%s%s\n>>\nendobj\n", root, told, rest[:stop])
	list := out.Len()
	number, err := strconv.Atoi(string(root))
	if err != nil {
		return nil, fmt.Errorf("the catalogue of the file: %w", err)
	}
	fmt.Fprintf(&out, "xref\n%d 1\n%010d 00000 n \n", number, object)
	fmt.Fprintf(&out, "trailer\n<<\n/Size %s\n/Root %s 0 R\n/Info %s 0 R\n/Prev %s\n>>\nstartxref\n%d\n%%%%EOF\n", size, root, info, before, list)
	return out.Bytes(), nil
}
