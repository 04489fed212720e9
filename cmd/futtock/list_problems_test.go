package main

import (
	"archive/zip"
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/shopspring/decimal"

	"futtock/rates/money"
	"futtock/rates/pricelist"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/xlsx"
)

// raisedByList is every problem of setting the price list that a has against the
// base workbook with its sheets replaced.
func raisedByList(t *testing.T, base, a *txtar.Archive) problem.List {
	t.Helper()
	list, from := "", time.Time{}
	for _, f := range a.Files {
		switch f.Name {
		case listPart + "list.csv":
			list = string(f.Data)
		case listPart + "from":
			var err error
			if from, err = time.Parse(time.DateOnly, strings.TrimSpace(string(f.Data))); err != nil {
				t.Fatal(err)
			}
		}
	}
	if list == "" {
		return nil
	}
	sheets, _ := replacedBy(base, a, "")
	data, err := xlsx.Write(templates.Plain(tables(sheets)))
	if err != nil {
		t.Fatal(err)
	}
	u, err := readYard("yard.xlsx", withMembers(t, data, a))
	if err != nil {
		t.Fatal(err)
	}
	form := templates.ListForm{Currency: u.currency, Day: from}
	book, err := templates.ListText("list.csv", []byte(list), form)
	if err != nil {
		t.Fatal(err)
	}
	if err := u.match(book, form, pricelist.Terms{From: from, Limit: money.NewPercent(decimal.New(25, 0))}); err != nil {
		t.Fatal(err)
	}
	return u.problems
}

// withMembers is a workbook with those parts of a in its file that are to be.
func withMembers(t *testing.T, data []byte, a *txtar.Archive) []byte {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	for _, f := range in.File {
		if err := out.Copy(f); err != nil {
			t.Fatal(err)
		}
	}
	for _, f := range a.Files {
		name, ok := strings.CutPrefix(f.Name, memberPart)
		if !ok {
			continue
		}
		w, err := out.Create(name)
		if err == nil {
			_, err = w.Write(f.Data)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
