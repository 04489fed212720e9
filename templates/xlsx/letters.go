package xlsx

// letterWidth is how wide a letter of the ordinary face is, in thousandths of
// its size. The figures are those of the Helvetica metrics, which Arial and
// Liberation Sans keep (Adobe font metrics of Helvetica and Helvetica-Bold,
// which see). Letters outside the table are taken as a figure wide, those of
// the wide scripts as a full square.
func letterWidth(r rune, bold bool) float64 {
	switch {
	case r >= ' ' && r <= '~':
		if bold {
			return boldWidths[r-' ']
		}
		return plainWidths[r-' ']
	case r == '\u00A0':
		return 278
	case r >= '\u0300' && r <= '\u036F': // an accent stands on the letter before it
		return 0
	case r == '½' || r == '¼' || r == '¾':
		return 834
	case r == '—' || r == '…' || r == '‰' || r == '™':
		return 1000
	case r >= '\u1100' && r <= '\u115F', r >= '\u2E80' && r <= '\uA4CF', r >= '\uAC00' && r <= '\uD7A3',
		r >= '\uF900' && r <= '\uFAFF', r >= '\uFE30' && r <= '\uFE4F', r >= '\uFF00' && r <= '\uFF60', r >= 0x10000:
		return 1000
	case r >= 'À' && r <= 'Þ', r >= '\u0400' && r <= '\u042F':
		return 722
	}
	return 611
}

var plainWidths = [...]float64{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, // space to /
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, // 0 to ?
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, // @ to O
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, // P to _
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, // ` to o
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584, // p to ~
}

var boldWidths = [...]float64{
	278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, // space to /
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, // 0 to ?
	975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778, // @ to O
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556, // P to _
	333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611, // ` to o
	611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584, // p to ~
}
