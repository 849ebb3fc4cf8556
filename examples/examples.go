// Package examples holds three invented jobs, as a user would write them: a
// worn index plunger, a planer's dovetail slide and a lost cover plate. The
// figures are made from sizes chosen by us and the error that each kit states.
package examples

import (
	_ "embed"
)

// Job is one example.
type Job struct {
	Name   string // of its file
	About  string // one line
	Source []byte
}

var (
	//go:embed index-plunger.yaml
	plunger []byte
	//go:embed dovetail-slide.yaml
	slide []byte
	//go:embed cover-plate.yaml
	plate []byte
)

// Jobs returns the examples. The first is the one to begin with.
func Jobs() []Job {
	return []Job{
		{"index-plunger.yaml", "taper over rollers, a socket by two balls, a thread by wires (inch machine)", plunger},
		{"dovetail-slide.yaml", "rollers at both ends of a slide and its gib, a gauge that goes and one that stops", slide},
		{"cover-plate.yaml", "hole centres by distances between plugs, and a bolt circle", plate},
	}
}
