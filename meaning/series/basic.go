package series

import (
	"math"

	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Basic is the profile of a thread at its basic sizes, before any tolerance:
// diameters in mm.
type Basic struct {
	Major      float64 // of the screw
	Effective  float64
	MinorScrew float64
	MinorNut   float64
	MajorNut   float64 // larger than the screw's only in power threads
	Source     string
}

// forms finds a form of thread by its name.
var forms = func() map[string]facts.ThreadForm {
	m := map[string]facts.ThreadForm{}
	for _, f := range facts.ThreadForms() {
		m[f.Form] = f
	}
	return m
}()

// basicSizes returns the basic profile of a thread: each diameter is the major
// one less so many pitches, by the thread's form. Power threads have a clearance
// besides; NPT figures are those at the station of the major diameter.
func basicSizes(t facts.Thread) Basic {
	f, known := forms[t.Form]
	if !known {
		panic("series: a thread has a form that the table of forms lacks")
	}
	c := clearance(t)
	b := Basic{
		Major:      t.Major,
		Effective:  t.Major - f.Effective*t.Pitch,
		MinorScrew: t.Major - f.MinorScrew*t.Pitch,
		MinorNut:   t.Major - f.MinorNut*t.Pitch,
		MajorNut:   t.Major + c,
		Source:     f.Source,
	}
	if c > 0 {
		b.MinorScrew, b.MinorNut = t.Major-t.Pitch-c, t.Major-t.Pitch
	}
	return b
}

// clearance returns how much deeper than the engagement a power thread is cut,
// on the diameter: 0.020 in for Acme of 10 tpi and coarser, else 0.010 in; for
// trapezoidal threads twice the clearance at the crest of ISO 2904, by pitch.
// The table of forms says where the figures were read.
func clearance(t facts.Thread) float64 {
	switch t.Form {
	case "Acme 29":
		if t.Pitch >= 2.54-exact {
			return 0.508
		}
		return 0.254
	case "ISO trapezoidal 30", "DIN 103 old":
		return 2 * crestClearance(t.Pitch)
	}
	return 0
}

func crestClearance(pitch float64) float64 {
	switch {
	case pitch < 2:
		return 0.15
	case pitch < 6:
		return 0.25
	case pitch < 14:
		return 0.5
	}
	return 1
}

// exact is how far two basic sizes in mm may differ and still be the same.
const exact = 1e-6

// same reports whether two threads are one thread under two names.
func same(a, b facts.Thread) bool {
	return a.Form == b.Form && a.Tapered == b.Tapered &&
		math.Abs(a.Major-b.Major) < sameMajor && math.Abs(a.Pitch-b.Pitch) < exact*a.Pitch
}

// sameMajor lets pipe sizes, which the standard gives in mm, meet their inches.
const sameMajor = 2e-3
