//go:build race

package proof

// raced has the program built with the race detector too.
const raced = true
