//go:build race

package xlsx

// raced tells that the race detector is in, which multiplies the memory taken.
const raced = true
