package series

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Limit is a pair of limits of size of one diameter of a thread.
type Limit struct {
	Class  string // "6g", "medium" ...
	Of     string // "screw, major" ...
	Inside bool   // of the nut
	Low    float64
	High   float64
	Source string
}

// threadLimits returns the limits of size of a thread, in mm, by the classes
// that the tables have: 6g and 6H of ISO metric threads, 2A and 2B of Unified
// ones, medium and free of Whitworth threads (BSW and BSF), close and normal of
// BA. Other families have none. Limits by formula are not rounded.
func threadLimits(t facts.Thread) []Limit {
	b := basicSizes(t)
	switch t.Family {
	case "M-coarse", "M-fine":
		return isoLimits(t, b)
	case "UNC", "UNF", "UNEF":
		return unifiedLimits(t, b)
	case "BSW", "BSF":
		return whitworthLimits(t, b)
	case "BA":
		return associationLimits(t, b)
	}
	return nil
}

// What the limits are of.
const (
	screwMajor     = "screw, major"
	screwEffective = "screw, effective"
	screwMinor     = "screw, minor"
	nutEffective   = "nut, effective"
	nutMinor       = "nut, minor"
)

// below returns the limits of a screw's diameter: its upper one an allowance
// under the basic size, its lower one a tolerance under that.
func below(class, of string, basic, allowance, tolerance float64, source string) Limit {
	return Limit{Class: class, Of: of, Low: basic - allowance - tolerance, High: basic - allowance, Source: source}
}

// above returns the limits of a nut's diameter.
func above(class, of string, basic, tolerance float64, source string) Limit {
	return Limit{Class: class, Of: of, Inside: true, Low: basic, High: basic + tolerance, Source: source}
}

// isoLimits reads the tables of ISO 965-1. The smallest nuts have no grade 6:
// the finest grade that they have is taken, and named.
func isoLimits(t facts.Thread, b Basic) []Limit {
	var list []Limit
	g, given := isoFigure(facts.ISOThreadDeviations(), "external", "g", t)
	if !given {
		return nil
	}
	if major, ok := isoFigure(facts.ISOCrestTolerances(), "external major dia", "6", t); ok {
		list = append(list, below("6g", screwMajor, b.Major, -g.Value, major.Value, major.Source))
	}
	if effective, ok := isoFigure(facts.ISOPitchDiameterTolerances(), "external", "6", t); ok {
		list = append(list, below("6g", screwEffective, b.Effective, -g.Value, effective.Value, effective.Source))
	}
	for _, grade := range []string{"6", "5", "4"} {
		effective, ok := isoFigure(facts.ISOPitchDiameterTolerances(), "internal", grade, t)
		minor, both := isoFigure(facts.ISOCrestTolerances(), "internal minor dia", grade, t)
		if ok && both {
			return append(list, above(grade+"H", nutEffective, b.Effective, effective.Value, effective.Source),
				above(grade+"H", nutMinor, b.MinorNut, minor.Value, minor.Source))
		}
	}
	return list
}

func isoFigure(table []facts.ISOThread, element, class string, t facts.Thread) (facts.ISOThread, bool) {
	i := slices.IndexFunc(table, func(row facts.ISOThread) bool {
		return row.Element == element && row.Class == class && math.Abs(row.Pitch-t.Pitch) < exact &&
			(row.To == 0 || row.Over < t.Major && t.Major <= row.To)
	})
	if i < 0 {
		return facts.ISOThread{}, false
	}
	return table[i], true
}

// rule returns the source of a rule of the table of tolerances, of several the
// one whose conditions begin so. The formulas of this file are those that the
// rows have in words.
func rule(system, class, element, quantity, conditions string) string {
	for _, r := range facts.ThreadTolerances() {
		if r.System == system && slices.Contains(strings.Fields(r.Class), class) && r.Element == element &&
			r.Quantity == quantity && strings.HasPrefix(r.Conditions, conditions) {
			return r.Source
		}
	}
	panic("series: a rule for thread tolerances is not in the table")
}

// unifiedLimits has classes 2A and 2B of ASME B1.1. The length of engagement is
// the diameter for coarse and fine threads, nine pitches for extra-fine ones.
func unifiedLimits(t facts.Thread, b Basic) []Limit {
	d, p := t.Major/inch, t.Pitch/inch
	engagement := d
	if t.Family == "UNEF" {
		engagement = 9 * p
	}
	pitchDiameter := 0.0015*math.Cbrt(d) + 0.0015*math.Sqrt(engagement) + 0.015*math.Cbrt(p*p)
	allowance := 0.3 * pitchDiameter
	bore := "D 0.25 in and over"
	if d < quarter {
		bore = "D below 0.25 in"
	}
	const system = "Unified"
	return []Limit{
		below("2A", screwMajor, b.Major, inch*allowance, inch*0.060*math.Cbrt(p*p), rule(system, "2A", "external", "major diameter tolerance", "")),
		below("2A", screwEffective, b.Effective, inch*allowance, inch*pitchDiameter, rule(system, "2A", "external", "pitch diameter tolerance", "")),
		above("2B", nutEffective, b.Effective, inch*1.3*pitchDiameter, rule(system, "2B", "internal", "pitch diameter tolerance", "")),
		above("2B", nutMinor, b.MinorNut, inch*unifiedBore(d, p), rule(system, "2B", "internal", "minor diameter tolerance", bore)),
	}
}

// quarter is a quarter of an inch, less what rounding may do.
const quarter = 0.25 - exact

// unifiedBore is the tolerance of the minor diameter of a 2B nut, in inches.
func unifiedBore(d, p float64) float64 {
	const fourPerInch = 0.25
	plain := 0.25*p - 0.4*p*p
	switch {
	case d >= quarter && p > fourPerInch+exact:
		return 0.15 * p
	case d >= quarter:
		return plain
	}
	return max(plain, min(0.394*p, 0.05*math.Cbrt(p*p)+0.03*p/d-0.002))
}

// whitworthLimits has the medium and free classes of BS 84, with the engagement
// as long as the diameter; the nuts are the medium and the normal class.
func whitworthLimits(t facts.Thread, b Basic) []Limit {
	d, p := t.Major/inch, t.Pitch/inch
	base := 0.002*math.Cbrt(d) + 0.003*math.Sqrt(d) + 0.005*math.Sqrt(p)
	const system = "Whitworth"
	// What is below the basic size by the base alone is from memory: that the
	// length in it is the diameter.
	source := rule(system, "medium", "external", "effective diameter tolerance", "") + "; that the length of engagement is the diameter: from memory"
	var list []Limit
	for _, c := range []struct {
		class, nut string
		times      float64
	}{{"medium", "medium", 1}, {"free", "normal", 1.5}} {
		root := math.Sqrt(p)
		list = append(list,
			below(c.class, screwMajor, b.Major, 0, inch*(c.times*base+0.01*root), source),
			below(c.class, screwEffective, b.Effective, 0, inch*c.times*base, source),
			below(c.class, screwMinor, b.MinorScrew, 0, inch*(c.times*base+0.02*root), source),
			above(c.nut, nutEffective, b.Effective, inch*c.times*base, source),
		)
	}
	return append(list, above("all", nutMinor, b.MinorNut, inch*whitworthBore(p), rule(system, "all", "internal", "minor diameter tolerance", "")))
}

// whitworthBore is the tolerance of the minor diameter of a nut, in inches.
func whitworthBore(p float64) float64 {
	switch n := math.Round(1 / p); {
	case n >= 26:
		return 0.2*p + 0.004
	case n >= 22:
		return 0.2*p + 0.005
	}
	return 0.2*p + 0.007
}

// smallestClose lies below the smallest BA screw with a close class; from 11 BA down
// the major diameter has a wider tolerance and there is no allowance.
const smallestClose = 1.6 // mm: between 10 BA and 11 BA

// associationLimits has the classes of BS 93.
func associationLimits(t facts.Thread, b Basic) []Limit {
	p := t.Pitch
	const system = "BA"
	source := func(class, element, quantity string) string {
		return rule(system, class, element, quantity+" tolerance", "")
	}
	major, allowance := 0.25*p, 0.0
	var list []Limit
	if t.Major > smallestClose {
		major, allowance = 0.20*p, 0.025
		list = append(list,
			below("close", screwMajor, b.Major, 0, 0.15*p, source("close", "external", "major diameter")),
			below("close", screwEffective, b.Effective, 0, 0.08*p+0.02, source("close", "external", "effective diameter")),
			below("close", screwMinor, b.MinorScrew, 0, 0.16*p+0.04, source("close", "external", "minor diameter")),
		)
	}
	return append(list,
		below("normal", screwMajor, b.Major, allowance, major, source("normal", "external", "major diameter")),
		below("normal", screwEffective, b.Effective, allowance, 0.10*p+0.025, source("normal", "external", "effective diameter")),
		below("normal", screwMinor, b.MinorScrew, allowance, 0.20*p+0.05, source("normal", "external", "minor diameter")),
		above("all", nutEffective, b.Effective, 0.12*p+0.03, source("all", "internal", "effective diameter")),
		above("all", nutMinor, b.MinorNut, 0.375*p, source("all", "internal", "minor diameter")),
	)
}
