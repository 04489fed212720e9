//go:build !race

package xlsx

const raced = false
