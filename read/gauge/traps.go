package gauge

// Traps that hold for many methods.
const (
	trapFillet = "A fillet or a rolled burr of radius over half the piece holds it out of the corner: stone the " +
		"edge; " +
		"use the largest piece whose middle still stands below the lip."
	trapLobes = "Two-point readings do not see lobes: turn the piece in a 60° vee; " +
		"for three equal lobes the dial over the vee swings three times the radial lobing."
	trapUnworn = "Surfaces that have not worn tell what was meant: screw ends, under the gib, inside the nut's " +
		"run, under a washer."
	trapWarm  = "A warm piece reads long: let it cool; ΔL = α·L·(T - 20 °C)."
	trapRock  = "Rock the jaws over the pieces and take the greatest reading."
	trapEdges = "The pin stands on its two ends: they must be sharp and square."
)
