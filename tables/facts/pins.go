package facts

import (
	_ "embed"
	"math"
	"slices"
	"sync"

	"codeberg.org/oddleg/oddleg/num/unit"
)

//go:embed pin_sets.csv
var pinSets string

// PinSet is one customary boxed set of pin gauges. Sizes are in thousandths of
// an inch.
type PinSet struct {
	Name     string
	From, To int
	Step     int
	Source   string
}

// Sizes returns the sizes of the pins in the set, in thousandths of an inch.
func (s PinSet) Sizes() []int {
	var list []int
	for size := s.From; size <= s.To; size += s.Step {
		list = append(list, size)
	}
	return list
}

var readPinSets = sync.OnceValue(func() []PinSet {
	var list []PinSet
	for _, r := range rows(pinSets) {
		list = append(list, PinSet{
			Name: r["set"], From: r.thou("from_in"), To: r.thou("to_in"), Step: r.thou("step_in"), Source: r["source"],
		})
	}
	return list
})

// thou returns a cell in inches as a whole number of thousandths.
func (r row) thou(column string) int { return int(math.Round(1000 * r.number(column))) }

// PinSets returns the sets of the table, the smallest pins first.
func PinSets() []PinSet { return slices.Clone(readPinSets()) }

//go:embed pin_gauges.csv
var pinGauges string

// PinClass is how closely pin gauges of one class are made, over one range of
// diameters: Over < d <= To. Lengths are in mm.
type PinClass struct {
	Over, To  float64
	Class     string  // "XXX" to "ZZ", finest to coarsest
	Tolerance float64 // all of it on one side of the nominal, or half on each
	Direction string  // which
	Source    string
}

var readPinClasses = sync.OnceValue(func() []PinClass {
	var list []PinClass
	for _, r := range rows(pinGauges) {
		list = append(list, PinClass{
			Over: unit.MillimetresPerInch * r.number("over_in"), To: unit.MillimetresPerInch * r.number("to_in"), Class: r["class"],
			Tolerance: r.number("tolerance_microinch") * 25.4e-6, Direction: r["direction"], Source: r["source"],
		})
	}
	return list
})

// PinClasses returns the classes of pin gauge of the table.
func PinClasses() []PinClass { return slices.Clone(readPinClasses()) }
