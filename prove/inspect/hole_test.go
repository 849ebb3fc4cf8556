package inspect_test

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/prove/inspect"
)

// plate, constructed: three holes 3, 4 and 5 times 10 apart, read exactly, and a cover
// for them whose holes may be 0.1 off in x and in y.
const plate = `oddleg: 1
job: Cover
kit:
  cal: {kind: caliper, resolution: 0.001 mm, mpe: 0.003 mm}
  rod: {kind: plug, size: 6 mm}
  pin: {kind: plug, size: 6.54 mm}
sizes:
  bolt: {kind: diameter, surface: outside}
plans:
  holes: {holes: [h1, h2, h3], guess: {h3: [0, 30]}}
readings:
  - {id: a, by: over-plugs, of: {from: h1, to: h2, plug-1: rod, plug-2: rod}, with: cal, saw: 46}
  - {id: b, by: over-plugs, of: {from: h1, to: h3, plug-1: rod, plug-2: rod}, with: cal, saw: 36}
  - {id: c, by: over-plugs, of: {from: h2, to: h3, plug-1: rod, plug-2: rod}, with: cal, saw: 56}
  - {id: d, by: outside, of: {size: bolt}, with: cal, saw: 6}
part:
  kind: plate
  holds: 0.05 mm
  sizes:
    hole: {kind: diameter, goes-over: bolt, clearance: 0.5..0.7 mm}
  mates:
    bolts: {pair: bolts-in-holes, of: {plan: holes, hole: part.hole, bolt: bolt, off: 0.1 mm}}
  shape:
    thickness: 8
    rectangle: {length: 70, width: 60, centred: yes}
    holes: [{plan: holes, diameter: hole}]
`

// TestHoleDistances: the limits by hand, ±0.2 along x and ±0.28 at 3 in 4.
func TestHoleDistances(t *testing.T) {
	r := checked(t, plate, "checks:",
		"  - {id: k, by: over-plugs, of: {from: part.h2, to: part.h1, plug-1: pin, plug-2: pin}, with: cal, saw: 46.65}",
		"  - {id: l, by: over-plugs, of: {from: part.h2, to: part.h3, plug-1: pin, plug-2: pin}, with: cal, saw: 56.85}")
	for id, want := range map[string]inspect.Limits{
		"h1 to h2": {Low: 39.8, High: 40.2}, "h1 to h3": {Low: 29.8, High: 30.2}, "h2 to h3": {Low: 49.72, High: 50.28},
	} {
		s := stepOf(t, r, id)
		if math.Abs(s.Limits.Low-want.Low) > 1e-6 || math.Abs(s.Limits.High-want.High) > 1e-6 {
			t.Errorf("%s lies between %v, want %v", id, s.Limits, want)
		}
		if s.Reading == nil || s.Reading.By != "over-plugs" {
			t.Fatalf("%s is read by %+v", id, s.Reading)
		}
		near(t, "over the plugs", s.Shows, s.Made.Target+6.54, 1e-5)
	}
	if v := verdictOn(t, r, 1, "h1 to h2"); v.Says != inspect.Conforming || math.Abs(v.Value-40.11) > 1e-6 {
		t.Errorf("%g is %s", v.Value, v.Says)
	}
	if v := verdictOn(t, r, 1, "h2 to h3"); v.Says != inspect.NotConforming || math.Abs(v.Value-50.31) > 1e-6 {
		t.Errorf("%g is %s", v.Value, v.Says)
	}
}
