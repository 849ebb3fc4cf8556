package adjust

import (
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// TestSetUpsThatCannotBeTrusted has one job for each way in which a set-up goes
// wrong by itself. All figures are constructed; the figures in the words follow
// from the geometry beside them.
func TestSetUpsThatCannotBeTrusted(t *testing.T) {
	const head = `
oddleg: 1
job: test
kit:
  mic:   {kind: micrometer, resolution: 0.01 mm}
  jaws:  {kind: caliper, resolution: 0.01 mm}
  deep:  {kind: depth-micrometer, resolution: 0.01 mm}
  rule:  {kind: rule, resolution: 0.5 mm}
  pin4:  {kind: pin, size: 4 mm}
  ball21: {kind: ball, size: 21 mm}
  ball30: {kind: ball, size: 30 mm}
  roller20: {kind: roller, size: 20 mm}
  wire: {kind: wire, size: 2.03 mm}
  rod: {kind: rod, size: 40 mm}
`
	for _, c := range []struct{ name, job, reading, says string }{
		{"a ball too large for the slot", `
sizes: {outer: {kind: diameter}, spigot: {kind: diameter}}
readings:
  - {id: o, by: inside, of: {size: outer}, with: jaws, saw: 100}
  - {id: s, by: outside, of: {size: spigot}, with: mic, saw: 60}
  - {id: r, by: ball-near, of: {wall: outer, across: spigot, ball: ball21}, with: jaws, saw: 0.02}
`, "r", "the ball of 21.000 mm is too large: it has only 20."},
		{"a pin that bridges a hollow", `
sizes: {outer: {kind: diameter, guess: 100}}
readings:
  - {id: r, by: bridging-pin-near, of: {wall: outer, across: 60, pin: pin4, length: 28}, with: jaws, saw: 14}
`, "r", "clear of the wall at its middle by 2.000 mm"}, // 50 - √(100² - 28²)/2
		{"contact past the crest end of the flank", `
sizes: {effective: {kind: diameter}}
readings:
  - {id: r, by: three-wires, of: {effective: effective, pitch: 2 mm, angle: 60 deg, wire: wire}, with: mic, saw: 53}
`, "r", "beyond its straight: the largest for this thread is 2.021 mm"}, // 1.010363 P
		{"contact above a vee", `
sizes: {vee: {kind: width}}
readings:
  - {id: v, by: outside, of: {size: vee}, with: jaws, saw: 14}
  - {id: r, by: vee-roller, of: {width: vee, angle: 90 deg, roller: roller20}, with: deep, saw: 17.14}
`, "r", "where the vee is 14.142 mm wide"}, // 20·cos 45°
		{"a mouth's edge touched before the taper", `
sizes: {mouth: {kind: diameter}, taper: {kind: half-angle, known: 10 deg, within: 0.1 deg}}
readings:
  - {id: m, by: inside, of: {size: mouth}, with: jaws, saw: 29}
  - {id: r, by: countersink-ball, of: {mouth: mouth, half-angle: taper, ball: ball30}, with: deep, saw: 19.15}
`, "r", "it sits on the edge"},
		{"a rod too short to swing", `
sizes: {bore: {kind: diameter}}
readings:
  - {id: b, by: inside, of: {size: bore}, with: jaws, saw: 57}
  - {id: r, by: rocking-rod, of: {bore: bore, rod: rod}, with: rule, saw: 57}
`, "r", "below 40.305 mm the swing shrinks again"}, // 57/√2
		{"a rod too short to be fine", `
sizes: {bore: {kind: diameter}}
readings:
  - {id: r, by: rocking-rod, of: {bore: bore, rod: rod}, with: rule, saw: 48}
`, "r", "the swing changes only 1.71 times as much as the bore"}, // 30-40-50 triangle: 2·0.8³/0.6
		{"a square root near zero", `
sizes: {bore: {kind: diameter, guess: 31}}
readings:
  - {id: r, by: two-balls-stacked, of: {bore: bore, lower: ball30, upper: ball30}, with: deep, saw: 59.98}
`, "r", "times as much as the bore: an error in the reading counts"},
		{"a flat arc", `
sizes: {arc: {kind: radius}}
readings:
  - {id: r, by: chord-height, of: {radius: arc, chord: 40}, with: deep, saw: 2.00}
`, "r", "an error in the reading counts 49.5 times in it"}, // radius 101 = (20² + 2²)/(2·2), 1 - 101/99
	} {
		t.Run(c.name, func(t *testing.T) {
			r := mustAdjust(t, mustRead(t, []byte(head+c.job)))
			for _, w := range r.Warnings {
				if w.Reading == c.reading && strings.Contains(w.Text.Shown(unit.View{}), c.says) {
					return
				}
			}
			t.Errorf("want of %s: %q; got %+v", c.reading, c.says, r.Warnings)
		})
	}
}
