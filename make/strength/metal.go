package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Shear strengths are these parts of tensile ones: 1/√3 by von Mises for what
// holds at least; 0.6, which Alexander and other books use, for what may hold at
// most. Grey iron shears at a higher load than either (from memory).
const (
	shearRatio     = 0.5773502691896258
	shearRatioMost = 0.6
)

// metal is what a piece is made of. Stresses are in MPa, NaN where the tables do
// not say.
type metal struct {
	name      string
	family    string
	tensile   float64 // least
	most      float64 // greatest tensile strength
	yield     float64 // least
	e         float64
	expansion float64 // 1/K
	proof     float64 // of a nut of a property class: stress on the screw's area that it holds; else NaN
	sources   []string
}

// of returns the metal of a material of the tables in a ruling section of this
// many mm. A section that nobody stated is tried first and then left open, which
// gives the weakest that the table has.
func (c *checker) of(pos trade.Pos, material string, section float64, stated bool) (metal, bool) {
	stock, err := facts.FindMaterial(material)
	if err != nil {
		return metal{}, c.fault(pos, "%v", err)
	}
	s, err := stock.Strength(section)
	if err != nil && !stated {
		s, err = stock.Strength(0)
	}
	switch {
	case err != nil:
		return metal{}, c.fault(pos, "%v", err)
	case math.IsNaN(s.TensileMin):
		return metal{}, c.fault(pos, "the tables have no tensile strength of %s: name the nearest material of which they have", material)
	}
	for _, doubt := range s.Doubts {
		c.note(material + ": " + doubt)
	}
	return metal{
		name: material, family: stock.Family, tensile: s.TensileMin, most: s.TensileMax, yield: s.Yield, e: s.E(), expansion: s.CTE,
		proof: math.NaN(), sources: []string{fmt.Sprintf("%s: %s (%s)", material, s.Source, s.Provenance)},
	}, true
}

// ofClass returns the metal of a bolt or nut of a property class.
func (c *checker) ofClass(pos trade.Pos, class string, nut bool, major float64) (metal, bool) {
	var known []string
	for _, b := range facts.BoltClasses() {
		switch {
		case b.Nut != nut:
		case b.Class == class && b.Over < major && major <= b.To:
			m := metal{
				name: "class " + class, family: "steel", tensile: b.Tensile, most: math.NaN(), yield: b.Yield,
				e: math.NaN(), expansion: math.NaN(), proof: math.NaN(), sources: []string{"class " + class + ": " + b.Source},
			}
			if nut {
				m.proof = b.Proof
			}
			return m, true
		case !slices.Contains(known, b.Class):
			known = append(known, b.Class)
		}
	}
	what := "bolt"
	if nut {
		what = "nut"
	}
	return metal{}, c.fault(pos, "there is no property class %q of a %s of %g mm; the classes are %s, some not for every diameter up to 39 mm",
		class, what, major, strings.Join(known, ", "))
}

// member returns the metal of one side of a screwed joint: of its class, its
// material, or the part's where the thread is one of the part.
func (c *checker) member(m trade.Member, name string, nut bool, section float64, major float64) (metal, bool) {
	material := m.Material
	if material == "" && m.PartSize != "" {
		material = c.job.Part.Material
	}
	switch {
	case m.Grade != "":
		return c.ofClass(m.Pos, m.Grade, nut, major)
	case material == "":
		return metal{}, c.fault(m.Pos, "say what the %s is made of: material: 080M40 R, or grade: 8.8 of a bolt, grade: 8 of a nut", name)
	case m.Section.Given():
		return c.of(m.Pos, material, m.Section.Inside(), true)
	}
	return c.of(m.Pos, material, section, false)
}

// bearing returns the stress at which a piece is crushed: its yield, or where it
// has none, as grey iron, its tensile strength.
func (m metal) bearing() float64 {
	if math.IsNaN(m.yield) {
		return m.tensile
	}
	return m.yield
}

// poisson has Poisson's ratio by family: what handbooks give, from memory. An
// error of 0.03 changes the pressure of a press fit by about 1 %.
var poisson = map[string]float64{
	"steel": 0.29, "stainless": 0.29, "cast iron": 0.26, "bronze": 0.34, "brass": 0.34, "aluminium": 0.33,
}
