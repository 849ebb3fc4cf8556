package series

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Sheet is what one needs to cut and to gauge a thread.
type Sheet struct {
	Thread   facts.Thread
	Basic    Basic
	Limits   []Limit
	Tapping  []TappingDrill
	Wires    *Wires // nil where the table has none for the form
	Hexagons []facts.Hexagon
}

// ThreadSheet gathers what the tables have about a thread. Which limits, wires
// and hexagons there are depends on the family; a special has no limits.
func ThreadSheet(t facts.Thread) Sheet {
	return Sheet{
		Thread: t, Basic: basicSizes(t), Limits: threadLimits(t), Tapping: tappingDrills(t),
		Wires: measuringWires(t), Hexagons: hexagonsFor(t),
	}
}

// TappingDrill is a hole for a tap.
type TappingDrill struct {
	Of      string       // which engagement is 100 %
	Percent float64      // wanted
	Hole    float64      // for just that, mm
	Drill   *facts.Drill // nearest, nil where none is near: the hole is bored
	Gives   float64      // per cent that the drill leaves
	Source  string
}

// engagement returns how many per cent of thread a hole leaves: 100·(d -
// hole)/(c·P), where c·P is what 100 % takes from the diameter.
func engagement(major, pitch, coefficient, hole float64) float64 {
	return 100 * (major - hole) / (coefficient * pitch)
}

// tappingPercents are the engagements offered: 75 % is usual, less for hard or
// deep holes, more for thin sheet (common practice, no source).
var tappingPercents = []float64{65, 75, 85}

// tappingDrills returns the drills nearest to the holes for the usual
// engagements, by each meaning that 100 % has for this form of thread.
func tappingDrills(t facts.Thread) []TappingDrill {
	var list []TappingDrill
	for _, rule := range facts.TappingHoles() {
		form, of, _ := strings.Cut(rule.Form, " (")
		if !strings.Contains(form, formKey(t.Form)) || t.Tapered {
			continue
		}
		switch of = strings.TrimSuffix(of, ")"); {
		case of == "":
			of = "the whole depth of the form"
		case strings.HasPrefix(of, "minor diameter of the nut"):
			of = "a nut bored to d - P"
		}
		for _, percent := range tappingPercents {
			hole := TappingDrill{
				Of: strings.TrimPrefix(of, "per cent of "), Percent: percent,
				Hole: t.Major - rule.Coefficient*t.Pitch*percent/100, Source: rule.Source,
			}
			if d := nearestDrill(hole.Hole); math.Abs(d.Diameter-hole.Hole) < nearHole*hole.Hole {
				hole.Drill, hole.Gives = &d, engagement(t.Major, t.Pitch, rule.Coefficient, d.Diameter)
			}
			list = append(list, hole)
		}
	}
	return list
}

// formKey is the name by which the tables of wires and of tapping holes, which
// put forms of one profile together, have a form.
func formKey(form string) string {
	if form == "DIN 103 old" {
		return "ISO trapezoidal 30"
	}
	return form
}

// nearHole is how far a drill may be off the hole wanted, in parts of it.
const nearHole = 0.02

// nearestDrill returns the drill nearest to a hole; of two of the same size the
// one that the table has first.
func nearestDrill(hole float64) facts.Drill {
	var best facts.Drill
	for _, d := range facts.Drills() {
		if best.Diameter == 0 || math.Abs(d.Diameter-hole) < math.Abs(best.Diameter-hole)-exact {
			best = d
		}
	}
	return best
}

// Wires are the measuring wires for one thread, in mm.
type Wires struct {
	Best, Smallest, Largest float64
	Over                    float64     // reading over three best wires, the effective diameter being the basic one
	Advice                  []unit.Text // what to take care of, the lead angle among it
	Source                  string
}

// measuringWires returns the wires for a screw and the reading over the best of
// them, nil where the table has none for its form.
func measuringWires(t facts.Thread) *Wires {
	for _, w := range facts.ThreadWires() {
		if !strings.Contains(w.Form, formKey(t.Form)) {
			continue
		}
		over := gauge.ThreeWires()
		values := []float64{basicSizes(t).Effective, t.Pitch, t.Angle, w.Best * t.Pitch, t.Major}
		wires := &Wires{Best: w.Best * t.Pitch, Smallest: w.Smallest * t.Pitch, Largest: w.Largest * t.Pitch, Over: reading(over, values), Source: w.Source}
		for _, remark := range over.Valid(values) {
			wires.Advice = append(wires.Advice, remark.Text)
		}
		return wires
	}
	return nil
}

// reading returns what a method reads at these values.
func reading(m *gauge.Method, values []float64) float64 {
	args := make(gauge.Args, len(values))
	for i, x := range values {
		args[i] = grad.Const(x)
	}
	return m.Model(args).X
}

// hexagonFamilies says which hexagons belong to a family of threads.
var hexagonFamilies = map[string][]string{
	"BSW":      {"BSW and BSF (present hexagon)", "BSW old large hexagon"},
	"BSF":      {"BSW and BSF (present hexagon)"},
	"BA":       {"BA"},
	"M-coarse": {"ISO metric", "DIN metric (old)"},
	"M-fine":   {"ISO metric", "DIN metric (old)"},
	"UNC":      {"Unified"},
	"UNF":      {"Unified"},
}

// hexagonsFor returns the hexagons of bolts and nuts with this thread, present
// and old. An old Whitworth hexagon is one size larger than the present one.
func hexagonsFor(t facts.Thread) []facts.Hexagon {
	size := hexagonSize(t)
	var list []facts.Hexagon
	for _, family := range hexagonFamilies[t.Family] {
		for _, h := range facts.Hexagons() {
			if h.Family == family && h.Thread == size {
				list = append(list, h)
			}
		}
	}
	return list
}

// hexagonSize is a thread's size as the table of hexagons has it.
func hexagonSize(t facts.Thread) string {
	switch t.Family {
	case "BA":
		return t.Designation
	case "M-coarse", "M-fine":
		return fmt.Sprintf("M%g", t.Major)
	}
	fraction, _ := unit.NearestFraction(t.Major, 64)
	return strings.TrimSuffix(fraction.String(), " in")
}
