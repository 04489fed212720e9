package problem

import (
	"slices"
	"sync"
)

// Code names one kind of problem. It is printed after the message, so that
// the cure can be looked up.
type Code string

// Facts is what is known of a code before it ever arises.
type Facts struct {
	Code     Code
	Severity Severity
	Meaning  string // what is wrong, in a whole sentence
	Example  string // a cell, or two, that raise it
	Cure     string // what to do about it, in a whole sentence
}

// Codes is every code there is, in the order of the work: reading the
// workbook, sense across sheets, takeoff, cutting, labour, programme, price, documents, quotes read back, quotes compared, issues reconciled, lists of prices.
func Codes() []Facts {
	return slices.Concat(reading(), sense(), takeoff(), cutting(), labour(), programme(), pricing(), documents(), offers(), quotes(), changes(), lists())
}

// byCode is every code by its name, made once: a workbook may have thousands of problems.
var byCode = sync.OnceValue(func() map[Code]Facts {
	out := make(map[Code]Facts)
	for _, f := range Codes() {
		out[f.Code] = f
	}
	return out
})

func (c Code) facts() Facts {
	f, ok := byCode()[c]
	if !ok {
		panic("problem: no such code as " + string(c))
	}
	return f
}

// Cure is what to do about a problem of this code, in a whole sentence.
func (c Code) Cure() string { return c.facts().Cure }
