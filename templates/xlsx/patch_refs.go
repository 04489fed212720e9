package xlsx

import (
	"slices"
	"strings"
)

// refs is what a formula reads.
type refs struct {
	areas  []ref
	names  []string   // in lower case
	tables []tableRef // columns of tables
	lost   string     // what in it cannot be traced, "" if nothing
}

// ref is a range on some sheets. What is not fixed with $ moves with the cell
// the formula is filled down to.
type ref struct {
	from, to                int // sheets, by index
	area                    span
	topMoves, leftMoves     bool
	bottomMoves, rightMoves bool
}

// tableRef is a reference to a table by its name; without a name it is to the
// table the formula stands in.
type tableRef struct{ table, within string }

// wanderers are the functions that read cells their arguments do not name.
var wanderers = []string{"INDIRECT", "OFFSET", "EVALUATE", "MULTIPLE.OPERATIONS", "CALL", "REGISTER.ID"}

// faults are the error values that may stand in a formula.
var faults = []string{"#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#GETTING_DATA", "#SPILL!", "#CALC!"}

// lexer goes through a formula as files have it (ECMA-376 part 1, 18.17) and
// gathers what it reads. It takes too much rather than too little: what a
// formula does with its references is not looked at.
type lexer struct {
	s      string
	at     int
	home   int                           // sheet the formula stands on
	sheets func(name string) (int, bool) // index of a sheet by name
	out    refs
}

// readsOf gathers what a formula on a sheet reads.
func readsOf(formula string, home int, sheets func(string) (int, bool)) *refs {
	l := &lexer{s: formula, home: home, sheets: sheets}
	for l.at < len(l.s) {
		switch c := l.s[l.at]; {
		case c == '"':
			l.quoted('"')
		case c == '\'':
			l.onSheets(l.quoted('\''))
		case c == '[':
			l.bracketed()
		case c == '#':
			l.fault()
		case c == ':':
			// Ranges between plain cells are taken whole below; any other may
			// run over cells that nothing in the formula names.
			l.lose("a range whose ends are reckoned")
			l.at++
		case inWord(c):
			l.word()
		default:
			l.at++
		}
	}
	return &l.out
}

func (l *lexer) lose(why string) {
	if l.out.lost == "" {
		l.out.lost = why
	}
}

// peek is the byte n places on, 0 past the end.
func (l *lexer) peek(n int) byte {
	if l.at+n < len(l.s) {
		return l.s[l.at+n]
	}
	return 0
}

// inWord reports a byte of names, references and numbers.
func inWord(c byte) bool {
	return c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c >= 0x80 || strings.IndexByte(`_.\?$`, c) >= 0
}

// take takes the word that begins here, "" if none does.
func (l *lexer) take() string {
	from := l.at
	for l.at < len(l.s) && inWord(l.s[l.at]) {
		l.at++
	}
	return l.s[from:l.at]
}

// quoted takes what stands between quotes; doubled ones stand for one.
func (l *lexer) quoted(quote byte) string {
	var text strings.Builder
	for l.at++; l.at < len(l.s); l.at++ {
		if l.s[l.at] == quote {
			if l.at++; l.peek(0) != quote {
				return text.String()
			}
		}
		text.WriteByte(l.s[l.at])
	}
	return text.String()
}

// fault takes an error value, or the sign for all the results of a formula.
func (l *lexer) fault() {
	for _, f := range faults {
		if strings.HasPrefix(strings.ToUpper(l.s[l.at:]), f) {
			l.at += len(f)
			return
		}
	}
	l.at++
}

// word takes a word and whatever it is the beginning of.
func (l *lexer) word() {
	word := l.take()
	switch l.peek(0) {
	case '(':
		l.function(word)
	case '!':
		l.onSheets(word)
	case '[':
		l.out.tables = append(l.out.tables, tableRef{strings.ToLower(word), l.brackets()})
	case ':':
		if _, known := l.sheets(word); known {
			back := l.at
			l.at++
			last := l.take()
			if l.peek(0) == '!' {
				l.onSheets(word + ":" + last)
				return
			}
			l.at = back
		}
		l.reference(word, l.home, l.home)
	default:
		rest := strings.TrimLeft(l.s[l.at:], " \r\n\t")
		if c, ok := cornerOf(word); ok && c.kind == cellCorner || !strings.HasPrefix(rest, "(") {
			l.reference(word, l.home, l.home)
			return
		}
		l.at = len(l.s) - len(rest)
		l.function(word)
	}
}

// function notes a function that reads what its arguments do not name.
func (l *lexer) function(word string) {
	name := strings.ToUpper(word)
	name = name[strings.LastIndexByte(name, '_')+1:] // _xlfn. and its like
	name = strings.TrimPrefix(strings.TrimPrefix(name, "XLFN."), "XLWS.")
	if slices.Contains(wanderers, name) {
		l.lose(name)
	}
}

// onSheets takes the reference behind a sheet's name, or behind the names of
// the first and last of several.
func (l *lexer) onSheets(name string) {
	if l.peek(0) != '!' {
		return // a text in quotes of the wrong kind: no reference
	}
	l.at++
	if book, sheet, ok := strings.Cut(strings.TrimPrefix(name, "["), "]"); ok && strings.HasPrefix(name, "[") {
		if book != "0" {
			l.reference(l.take(), -1, -1)
			return
		}
		name = sheet
	}
	first, last, several := strings.Cut(name, ":") // no sheet's name has a colon
	if !several {
		last = first
	}
	from, ok := l.sheets(first)
	to, ok2 := l.sheets(last)
	switch {
	case name == "":
		from, to = l.home, l.home
	case !ok || !ok2:
		from, to = -1, -1
	}
	if l.peek(0) == '#' {
		l.fault()
		return
	}
	l.reference(l.take(), min(from, to), max(from, to))
}

// bracketed takes what begins with a bracket: a reference into another
// workbook, or one to the table the formula stands in.
func (l *lexer) bracketed() {
	within := l.brackets()
	if strings.Trim(within, "0123456789") != "" || within == "" || l.peek(0) != '!' && !inWord(l.peek(0)) {
		l.out.tables = append(l.out.tables, tableRef{"", within})
		return
	}
	name := l.take()
	if l.peek(0) == ':' {
		l.at++
		name += ":" + l.take()
	}
	l.onSheets("[" + within + "]" + name)
}

// brackets takes all from a bracket to the one that closes it.
func (l *lexer) brackets() string {
	from, depth := l.at+1, 0
	for ; l.at < len(l.s); l.at++ {
		switch l.s[l.at] {
		case '\'':
			l.at++ // the sign behind it is part of a name
		case '[':
			depth++
		case ']':
			if depth--; depth == 0 {
				l.at++
				return l.s[from : l.at-1]
			}
		}
	}
	l.at = len(l.s)
	l.lose("a bracket that is not closed")
	return ""
}

// reference keeps the cell, range or name that the word begins. Sheets of -1
// are none of this workbook.
func (l *lexer) reference(word string, from, to int) {
	a, ok := cornerOf(word)
	if !ok {
		l.name(word, from)
		return
	}
	b, both := a, false
	if l.peek(0) == ':' {
		back := l.at
		l.at++
		if c, ok := cornerOf(l.take()); ok && c.kind == a.kind && strings.IndexByte("([!", l.peek(0)) < 0 {
			b, both = c, true
		} else {
			l.at = back
		}
	}
	if a.kind != cellCorner && !both {
		if a.kind == columnCorner {
			l.name(word, from)
		}
		return // a number
	}
	if from < 0 {
		return
	}
	if a.row > b.row {
		a.row, b.row, a.rowMoves, b.rowMoves = b.row, a.row, b.rowMoves, a.rowMoves
	}
	if a.col > b.col {
		a.col, b.col, a.colMoves, b.colMoves = b.col, a.col, b.colMoves, a.colMoves
	}
	r := ref{
		from: from, to: to, area: span{a.row, a.col, b.row, b.col},
		topMoves: a.rowMoves, leftMoves: a.colMoves, bottomMoves: b.rowMoves, rightMoves: b.colMoves,
	}
	switch a.kind {
	case columnCorner:
		r.area.top, r.area.bottom, r.topMoves, r.bottomMoves = 1, lastRow, false, false
	case lineCorner:
		r.area.left, r.area.right, r.leftMoves, r.rightMoves = 1, lastColumn, false, false
	}
	l.out.areas = append(l.out.areas, r)
}

// name keeps a name. Those a formula gives to its own parts stand for what it
// says itself, and numbers and truth values for nothing.
func (l *lexer) name(word string, sheet int) {
	name := strings.ToLower(word)
	switch {
	case sheet < 0 || name == "" || name == "true" || name == "false":
	case name[0] >= '0' && name[0] <= '9' || name[0] == '.' || strings.HasPrefix(name, "_xlpm."):
	default:
		l.out.names = append(l.out.names, name)
	}
}

// corner is one end of a range.
type corner struct {
	kind               cornerKind
	row, col           int
	rowMoves, colMoves bool
}

type cornerKind uint8

const (
	cellCorner cornerKind = iota
	columnCorner
	lineCorner
)

// cornerOf reads a cell such as $B$7, a column such as $B or a row such as 7.
func cornerOf(word string) (corner, bool) {
	c := corner{rowMoves: true, colMoves: true}
	rest, letters, figures := word, 0, 0
	if strings.HasPrefix(rest, "$") && len(rest) > 1 && isLetter(rest[1]) {
		rest, c.colMoves = rest[1:], false
	}
	for ; letters < len(rest) && letters < 4 && isLetter(rest[letters]); letters++ {
		c.col = c.col*26 + int(rest[letters]&^0x20-'A') + 1
	}
	rest = rest[letters:]
	if strings.HasPrefix(rest, "$") {
		rest, c.rowMoves = rest[1:], false
	}
	for ; figures < len(rest) && figures < 8 && rest[figures] >= '0' && rest[figures] <= '9'; figures++ {
		c.row = c.row*10 + int(rest[figures]-'0')
	}
	if rest[figures:] != "" || c.col > lastColumn || c.row > lastRow || figures > 0 && c.row == 0 || figures == 0 && !c.rowMoves {
		return corner{}, false
	}
	switch {
	case letters > 0 && figures > 0:
	case letters > 0:
		c.kind = columnCorner
	case figures > 0:
		c.kind = lineCorner
	default:
		return corner{}, false
	}
	return c, true
}

func isLetter(b byte) bool { return b|0x20 >= 'a' && b|0x20 <= 'z' }
