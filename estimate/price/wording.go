package price

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates/measure"
)

// wording is the description of a bill line. The words of the Description
// column stand alone where the first row has any; an item always has. Else the
// line is worded from the schedule as a bill reads, sizes in the Job's units:
//
//	Renew covering board, port side, oak 9 x 3 in in scarphed lengths, 24' 6" long
//
// Of several members of one line the first is worded, without what the others
// do not share.
func wording(j *job.Job, rows []takeoff.Row, unit measure.Unit) string {
	first := rows[0]
	switch {
	case first.Item != nil:
		return first.Item.Description
	case first.Member.Description != "":
		return first.Member.Description
	}
	said := phrases(j, *first.Member, unit)
	for _, r := range rows[1:] {
		if r.Member != nil {
			said.keep(phrases(j, *r.Member, unit))
		}
	}
	return said.String()
}

// saying is the parts of a wording, parted by commas; the words of each part
// are parted by spaces. What has nothing to say is blank.
type saying [][]string

// keep drops the words another does not share, but for what is done.
func (s saying) keep(other saying) {
	for i := 1; i < len(s); i++ {
		for w := range s[i] {
			if s[i][w] != other[i][w] {
				s[i][w] = ""
			}
		}
	}
}

func (s saying) String() string {
	blank := func(s string) bool { return s == "" }
	var parts []string
	for _, words := range s {
		parts = append(parts, strings.Join(slices.DeleteFunc(slices.Clone(words), blank), " "))
	}
	return strings.Join(slices.DeleteFunc(parts, blank), ", ")
}

// phrases is the wording of one member, each part in its own place.
func phrases(j *job.Job, m job.Member, unit measure.Unit) saying {
	counted, long := "", ""
	switch unit.Dimension() {
	case measure.Item, measure.Sum:
		if m.Nr > 1 {
			counted = fmt.Sprintf("%d nr", m.Nr)
		}
		long = lengthEach(j, m)
	case measure.Count:
		long = lengthEach(j, m)
	}
	timber, run := stuff(m)
	return saying{{deed(m)}, {m.SideWords()}, {counted}, {timber, size(j, m), run}, {shaped(m)}, {long}, {jointsToOld(m)}}
}

// deed is what is done, and to what.
func deed(m job.Member) string {
	name := lowered(m.Member)
	switch m.Treatment {
	case job.Part:
		return "Renew part of " + name
	case job.Graving:
		return "Let graving piece into " + name
	case job.OffAndBack:
		return "Take off and refit " + name
	case "":
		return m.Member
	}
	r, n := utf8.DecodeRuneInString(string(m.Treatment))
	return string(unicode.ToUpper(r)) + string(m.Treatment)[n:] + " " + name
}

// lowered puts the first letter small, except where the first word has another
// capital or a figure in it, as P&S has.
func lowered(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	word, _, _ := strings.Cut(s[n:], " ")
	if strings.ContainsFunc(word, func(r rune) bool { return unicode.IsUpper(r) || unicode.IsDigit(r) }) {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// stuff is the timber, where new timber goes in, and of a run how its lengths
// are joined.
func stuff(m job.Member) (timber, run string) {
	if !m.Treatment.TakesTimber() {
		return "", ""
	}
	switch m.Joint {
	case job.Scarph:
		run = "in scarphed lengths"
	case job.Butt:
		run = "in butted lengths"
	}
	return m.Timber, run
}

// size is the section as a bill has it, the moulded way first: 9 x 3 in.
func size(j *job.Job, m job.Member) string {
	unit := j.SizesIn
	if unit == "" {
		unit = measure.Mm
	}
	text := ""
	switch {
	case m.Shape == job.Round && m.Sided > 0:
		text = number(m.Sided, unit) + " " + string(unit) + " diameter"
	case m.Shape == job.Eight && m.Sided > 0:
		text = number(m.Sided, unit) + " " + string(unit) + " across flats, eight-sided"
	case m.Sided > 0 && m.Moulded > 0:
		text = number(m.Moulded, unit) + " x " + number(m.Sided, unit) + " " + string(unit)
	case m.Sided > 0 || m.Moulded > 0:
		text = number(max(m.Sided, m.Moulded), unit) + " " + string(unit)
	default:
		return ""
	}
	if m.AsSawn {
		text += " as sawn"
	}
	return text
}

// number is a length in a unit without the unit's name: 4 1/2, 225, 0.075.
func number(l measure.Length, unit measure.Unit) string {
	switch unit {
	case measure.In:
		return strings.TrimSuffix(l.Format(measure.In), `"`)
	case measure.Mm:
		return l.In(measure.Mm, 1).String()
	}
	return l.In(unit, 3).String()
}

// shaped is what the sawyer and the shipwright must know of the shape and heart.
func shaped(m job.Member) string {
	if !m.Treatment.TakesTimber() {
		return ""
	}
	var words []string
	if m.Sweep > 0 {
		words = append(words, "sawn to shape")
	}
	switch m.Heart {
	case job.Boxed:
		words = append(words, "heart boxed")
	case job.Free:
		words = append(words, "free of heart")
	}
	return strings.Join(words, ", ")
}

func lengthEach(j *job.Job, m job.Member) string {
	if m.New() <= 0 {
		return ""
	}
	unit := j.LengthsIn
	if unit == "" {
		unit = measure.M
	}
	text := m.New().Format(unit) + " long"
	if m.Nr > 1 {
		return "each " + text
	}
	return text
}

// jointsToOld is how a piece meets the old work.
func jointsToOld(m job.Member) string {
	if m.Joints <= 0 || !m.Treatment.TakesTimber() {
		return ""
	}
	name := "joint"
	switch m.Joint {
	case job.Scarph:
		name = "scarph"
	case job.Butt:
		name = "butt"
	}
	if m.Joints > 1 {
		name += "s"
	}
	return fmt.Sprintf("%d %s to old work", m.Joints, name)
}
