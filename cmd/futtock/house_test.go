package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// mostLines is how many lines a file of code may have: what is longer is about two things.
const mostLines = 350

// Files are of a size to be read in one go, packages are named by what they are about and
// say so, and what others may use says what it means. Nothing happens before main does.
func TestTheHouseIsKept(t *testing.T) {
	said := map[string]bool{}
	err := filepath.WalkDir(filepath.Join("..", ".."), func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && d.Name() == "testdata" {
			return filepath.SkipDir
		}
		if filepath.Ext(path) != ".go" {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if n := bytes.Count(text, []byte("\n")); n > mostLines {
			t.Errorf("%s has %d lines, and %d is the most", path, n, mostLines)
		}
		if strings.HasSuffix(path, "_test.go") {
			return nil
		}
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, path, text, parser.ParseComments)
		if err != nil {
			return err
		}
		folder := filepath.Dir(path)
		if f.Doc != nil && said[folder] {
			t.Errorf("%s: a second comment of its package", path)
		}
		said[folder] = said[folder] || f.Doc != nil
		if slices.Contains([]string{"util", "utils", "common", "helpers", "types", "models"}, f.Name.Name) {
			t.Errorf("%s: package %s says nothing of what it is about", path, f.Name.Name)
		}
		for _, c := range f.Comments {
			if strings.Contains(c.Text(), "TODO") || strings.Contains(c.Text(), "FIXME") {
				t.Errorf("%s: left to be done", set.Position(c.Pos()))
			}
		}
		for _, what := range speechless(f) {
			t.Errorf("%s says nothing of itself", set.Position(what.Pos()))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for folder := range sources(t) {
		if !said[filepath.Join("..", "..", folder)] {
			t.Errorf("package %s has no comment", folder)
		}
	}
}

// speechless is what a file exports without a comment, and every func init.
func speechless(f *ast.File) []ast.Node {
	var out []ast.Node
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && d.Name.Name == "init" || d.Doc == nil && d.Name.IsExported() && (d.Recv == nil || exportedType(d.Recv.List[0].Type)) {
				out = append(out, d)
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				switch s := s.(type) {
				case *ast.TypeSpec:
					if s.Name.IsExported() && d.Doc == nil && s.Doc == nil {
						out = append(out, s)
					}
				case *ast.ValueSpec:
					if d.Doc == nil && s.Doc == nil && s.Comment == nil && slices.ContainsFunc(s.Names, func(n *ast.Ident) bool { return n.IsExported() }) {
						out = append(out, s)
					}
				}
			}
		}
	}
	return out
}

// exportedType reports a receiver whose type others see.
func exportedType(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.StarExpr:
		return exportedType(e.X)
	case *ast.IndexExpr:
		return exportedType(e.X)
	case *ast.Ident:
		return e.IsExported()
	}
	return false
}
