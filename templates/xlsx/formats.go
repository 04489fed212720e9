package xlsx

import (
	"encoding/xml"
	"strconv"
)

// numberFormats reads the number format code behind each style number of the
// cells; "" is General.
func numberFormats(pack *bundle, part string, kept *budget) ([]string, error) {
	if part == "" {
		return nil, nil
	}
	custom := make(map[int]string)
	var ids []int
	within := "" // the list the walk is in
	err := walk(pack, part, func(w *walker, t xml.StartElement) error {
		switch {
		case w.depth == 1 && (!isMain(t.Name.Space) || t.Name.Local != "styleSheet"):
			return damaged("its part %q does not hold styles", clip(part))
		case !isMain(t.Name.Space):
		case w.depth == 2:
			within = t.Name.Local
		case w.depth == 3 && within == "numFmts" && t.Name.Local == "numFmt":
			id, err := strconv.Atoi(attr(t, "numFmtId"))
			if err != nil {
				return damaged("its part %q has a number format without a number", clip(part))
			}
			custom[id] = attr(t, "formatCode")
			return kept.keep(100 + len(custom[id]))
		case w.depth == 3 && within == "cellXfs" && t.Name.Local == "xf":
			id := 0
			if s := attr(t, "numFmtId"); s != "" {
				var err error
				if id, err = strconv.Atoi(s); err != nil {
					return damaged("its part %q has a style with the number format %q", clip(part), clip(s))
				}
			}
			ids = append(ids, id)
			return kept.keep(50)
		}
		return nil
	})
	formats := make([]string, len(ids))
	for i, id := range ids {
		code, ok := custom[id]
		if !ok {
			code = builtin(id)
		}
		if code != "General" {
			formats[i] = code
		}
	}
	return formats, err
}

// builtin is the code of a number format that files name only by number
// (ECMA-376 part 1, 18.8.30). The numbers 27 to 36 and 50 to 58 are dates
// whose code depends on the language; they are given one code that shows they
// are dates.
func builtin(id int) string {
	switch {
	case id >= 27 && id <= 36, id >= 50 && id <= 58:
		return "yyyy/m/d"
	}
	switch id {
	case 1:
		return "0"
	case 2:
		return "0.00"
	case 3:
		return "#,##0"
	case 4:
		return "#,##0.00"
	case 5:
		return `"$"#,##0_);("$"#,##0)`
	case 6:
		return `"$"#,##0_);[Red]("$"#,##0)`
	case 7:
		return `"$"#,##0.00_);("$"#,##0.00)`
	case 8:
		return `"$"#,##0.00_);[Red]("$"#,##0.00)`
	case 9:
		return "0%"
	case 10:
		return "0.00%"
	case 11:
		return "0.00E+00"
	case 12:
		return "# ?/?"
	case 13:
		return "# ??/??"
	case 14:
		return "mm-dd-yy"
	case 15:
		return "d-mmm-yy"
	case 16:
		return "d-mmm"
	case 17:
		return "mmm-yy"
	case 18:
		return "h:mm AM/PM"
	case 19:
		return "h:mm:ss AM/PM"
	case 20:
		return "h:mm"
	case 21:
		return "h:mm:ss"
	case 22:
		return "m/d/yy h:mm"
	case 37:
		return "#,##0_);(#,##0)"
	case 38:
		return "#,##0_);[Red](#,##0)"
	case 39:
		return "#,##0.00_);(#,##0.00)"
	case 40:
		return "#,##0.00_);[Red](#,##0.00)"
	case 41:
		return `_(* #,##0_);_(* \(#,##0\);_(* "-"_);_(@_)`
	case 42:
		return `_("$"* #,##0_);_("$"* \(#,##0\);_("$"* "-"_);_(@_)`
	case 43:
		return `_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)`
	case 44:
		return `_("$"* #,##0.00_);_("$"* \(#,##0.00\);_("$"* "-"??_);_(@_)`
	case 45:
		return "mm:ss"
	case 46:
		return "[h]:mm:ss"
	case 47:
		return "mmss.0"
	case 48:
		return "##0.0E+0"
	case 49:
		return "@"
	}
	return ""
}
