package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"futtock/estimate"
	"futtock/output/sheets"
	"futtock/rates/problem"
	"futtock/templates"
)

var (
	ticked   = regexp.MustCompile("`([^`]+)`")
	aPath    = regexp.MustCompile(`^[\w.*-]+(/[\w.*-]+)*/?$`)
	fileEnds = regexp.MustCompile(`\.(go|txt|tsv|csv|txtar|md)$`)
	aName    = regexp.MustCompile(`^[A-Za-z_]\w*(\.[A-Za-z_]\w*)?$`)
	aCode    = regexp.MustCompile(`^[a-z]+(-[a-z]+)+$`)
	blank    = regexp.MustCompile(`<\w+>`)
)

// passages are those of DEVELOPERS.md: a row of a table, an item of a list, or a
// paragraph.
func passages(t *testing.T) []string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	apart := true
	for line := range strings.Lines(string(data)) {
		if apart || strings.HasPrefix(line, "|") || strings.HasPrefix(line, "- ") {
			out = append(out, "")
		}
		out[len(out)-1] += line
		apart = strings.TrimSpace(line) == ""
	}
	return out
}

// Files and folders that DEVELOPERS.md names are there, and what it names beside them
// stands in them. A file without its folder is one of a folder named before it in the
// same passage; parts of a workbook's file, which end in .xml, are none of ours.
func TestWhatDevelopersMdNamesIsThere(t *testing.T) {
	root := filepath.Join("..", "..")
	files, names := 0, 0
	for _, passage := range passages(t) {
		var folders, found []string
		var words []string
		for _, m := range ticked.FindAllStringSubmatch(passage, -1) {
			word := blank.ReplaceAllString(m[1], "*")
			if !aPath.MatchString(word) || strings.HasSuffix(word, ".xml") || !strings.Contains(word, "/") && !fileEnds.MatchString(word) {
				words = append(words, word)
				continue
			}
			files++
			var hits []string
			for _, folder := range append([]string{root}, folders...) {
				more, err := filepath.Glob(filepath.Join(folder, filepath.FromSlash(word)))
				if err != nil {
					t.Fatal(err)
				}
				if hits = append(hits, more...); len(hits) > 0 {
					break
				}
			}
			if len(hits) == 0 {
				t.Errorf("there is no %s, of which DEVELOPERS.md says: %s", word, passage)
			}
			for _, hit := range hits {
				if info, err := os.Stat(hit); err == nil && info.IsDir() {
					folders = append(folders, hit)
					inside, err := filepath.Glob(filepath.Join(hit, "*"))
					if err != nil {
						t.Fatal(err)
					}
					found = append(found, inside...)
					continue
				}
				folders, found = append(folders, filepath.Dir(hit)), append(found, hit)
			}
		}
		if len(found) == 0 {
			continue
		}
		text := ""
		for _, path := range found {
			text += filepath.Base(path) + "\n"
			if data, err := os.ReadFile(path); err == nil { // a folder among them has its name alone
				text += string(data)
			}
		}
		for _, word := range words {
			if !aName.MatchString(word) {
				continue
			}
			names++
			last := word[strings.LastIndex(word, ".")+1:]
			if !regexp.MustCompile(`\b` + last + `\b`).MatchString(text) {
				t.Errorf("%q stands in none of the files named beside it in DEVELOPERS.md: %s", word, passage)
			}
		}
	}
	if files < 150 || names < 40 {
		t.Errorf("%d files and %d names are looked for, and there should be more", files, names)
	}
}

// Codes, and names with the package or the type they belong to, are there wherever they
// stand in DEVELOPERS.md.
func TestCodesAndFullNamesInDevelopersMdAreThere(t *testing.T) {
	tree := sources(t)
	there := func(of, name string) bool {
		named := regexp.MustCompile(`\b` + name + `\b`)
		holds := regexp.MustCompile(`(?m)^type ` + of + ` `)
		for folder, src := range tree {
			for path := range src.files {
				text, err := os.ReadFile(path)
				if err != nil {
					t.Fatal(err)
				}
				if (folder == of || strings.HasSuffix(folder, "/"+of) || holds.Match(text)) && named.Match(text) {
					return true
				}
			}
		}
		return false
	}
	seen := 0
	for _, passage := range passages(t) {
		for _, m := range ticked.FindAllStringSubmatch(passage, -1) {
			of, name, full := strings.Cut(m[1], ".")
			switch {
			case aCode.MatchString(m[1]):
				seen++
				if !slices.ContainsFunc(problem.Codes(), func(f problem.Facts) bool { return string(f.Code) == m[1] }) {
					t.Errorf("there is no code %s, of which DEVELOPERS.md says: %s", m[1], passage)
				}
			case full && aName.MatchString(m[1]) && !fileEnds.MatchString(m[1]):
				seen++
				if !there(of, name) {
					t.Errorf("there is no %s, of which DEVELOPERS.md says: %s", m[1], passage)
				}
			}
		}
	}
	if seen < 6 {
		t.Errorf("%d codes and full names are looked for, and there should be more", seen)
	}
}

// The frame that DEVELOPERS.md follows comes out with the formula shown at its end.
func TestTheFrameInDevelopersMdEndsAsShown(t *testing.T) {
	walk := ""
	for _, p := range passages(t) {
		if strings.HasPrefix(p, "|") && strings.Contains(p, "`ROUND(") {
			walk += p
		}
	}
	a := archive(t, filepath.Join("..", "..", "testdata", "cases", "frames-six-inch.txtar"))
	j, b, _ := templates.Read(templates.TextBook("case.xlsx", tables(a, "bill", "working")), nil)
	for _, s := range sheets.Bill(estimate.Run(j, b)).Sheets {
		for _, r := range s.Rows {
			if s.Name != "Bill" || len(r.Cells) < 6 || r.Cells[0].Text != "F1" {
				continue
			}
			if f := r.Cells[5].Formula; f == "" || !strings.Contains(walk, "`"+f+"`") {
				t.Errorf("the amount is reckoned by %q; DEVELOPERS.md says: %q", f, walk)
			}
			return
		}
	}
	t.Error("the bill has no line F1")
}
