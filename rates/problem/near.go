package problem

import "strings"

// Nearest is the name on the list that s was most likely meant to be, or blank
// where none is near: at most one slip in three letters, counting a letter
// wrong, missing, added or two changed about. Of two names equally near it is
// the first. A single letter is near to nothing.
func Nearest(s string, names []string) string {
	a := []rune(strings.ToLower(strings.Join(strings.Fields(s), " ")))
	if len(a) < 2 {
		return ""
	}
	best, least := "", max(1, len(a)/3)+1
	for _, n := range names {
		b := []rune(strings.ToLower(strings.Join(strings.Fields(n), " ")))
		if more := len(b) - len(a); more >= least || -more >= least {
			continue // every letter more or fewer is a slip
		}
		if d := slips(a, b); d < least {
			best, least = n, d
		}
	}
	return best
}

// slips is the optimal string alignment distance.
func slips(a, b []rune) int {
	var before []int
	above := make([]int, len(b)+1)
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above = above, row
	}
	return above[len(b)]
}
