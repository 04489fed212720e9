package problem

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

func TestEveryCodeIsUniqueAndWhole(t *testing.T) {
	codes := Codes()
	if len(codes) == 0 {
		t.Fatal("there are no codes")
	}
	form := regexp.MustCompile(`^[a-z]+(-[a-z0-9]+)*$`)
	seen := map[Code]bool{}
	for _, f := range codes {
		if seen[f.Code] {
			t.Errorf("%s is there twice", f.Code)
		}
		seen[f.Code] = true
		if !form.MatchString(string(f.Code)) {
			t.Errorf("%q is not words with hyphens", f.Code)
		}
		if f.Severity < Error || f.Severity > Remark {
			t.Errorf("%s has no severity", f.Code)
		}
		for name, text := range map[string]string{"meaning": f.Meaning, "cure": f.Cure} {
			if !sentence(text) {
				t.Errorf("%s: the %s is not a whole sentence: %q", f.Code, name, text)
			}
		}
		if strings.TrimSpace(f.Example) == "" {
			t.Errorf("%s has no example", f.Code)
		}
	}
}

// sentence reports a text that begins with a capital, a figure or a quoted
// heading, and ends with a full stop.
func sentence(s string) bool {
	return s != "" && s == strings.TrimSpace(s) && strings.HasSuffix(s, ".") && !regexp.MustCompile(`^[a-z]`).MatchString(s)
}

// Every constant of type Code has its facts, so that none can be raised that
// would panic when its severity is asked.
func TestEveryCodeConstantHasItsFacts(t *testing.T) {
	files, err := filepath.Glob("codes_*.go")
	if err != nil {
		t.Fatal(err)
	}
	known := map[Code]bool{}
	for _, f := range Codes() {
		known[f.Code] = true
	}
	declared := map[Code]bool{}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			v, ok := n.(*ast.ValueSpec)
			if !ok {
				return true
			}
			if id, ok := v.Type.(*ast.Ident); !ok || id.Name != "Code" {
				return true
			}
			for i := range v.Values {
				text, err := strconv.Unquote(v.Values[i].(*ast.BasicLit).Value)
				if err != nil {
					t.Fatalf("%s: %v", v.Names[i].Name, err)
				}
				declared[Code(text)] = true
				if !known[Code(text)] {
					t.Errorf("%s: %s has no facts", name, v.Names[i].Name)
				}
			}
			return true
		})
	}
	if len(declared) == 0 {
		t.Fatal("no code constant was found")
	}
	for code := range known {
		if !declared[code] {
			t.Errorf("%s has facts and no constant", code)
		}
	}
}
