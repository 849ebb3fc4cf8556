package inspect_test

import (
	"strings"
	"testing"
)

// key, constructed: a key and both its keyways, read by one caliper whose zero is the
// worst of it.
const key = `oddleg: 1
job: Key
kit:
  jaws: {kind: caliper, resolution: 0.001 mm, zero: 0.020 mm, repeat: 0.001 mm}
  rod:  {kind: depth-micrometer, resolution: 0.001 mm}
sizes:
  shaft: {kind: width, surface: inside, guess: 10}
  hub:   {kind: width, surface: inside, guess: 10}
  sunk:  {kind: depth, guess: 5}
  above: {kind: depth, guess: 5}
readings:
  - {id: a, by: inside, of: {size: shaft}, with: jaws, saw: [10.040, 10.040, 10.040]}
  - {id: b, by: inside, of: {size: hub}, with: jaws, saw: [10.050, 10.050, 10.050]}
  - {id: c, by: depth, of: {size: sunk}, with: rod, saw: 5.1}
  - {id: d, by: depth, of: {size: above}, with: rod, saw: 3.3}
part:
  kind: key
  holds: 0.01 mm
  sizes:
    width:  {kind: width, goes-in: shaft, clearance: 0.00..0.04 mm}
    height: {kind: height, is: 8, within: 0.02}
    length: {kind: length, is: 40, within: 0.2}
  mates:
    fit: {pair: key-in-keyway, of: {width: part.width, height: part.height, shaft-width: shaft, shaft-depth: sunk, hub-width: hub, hub-depth: above}}
  shape: {width: width, height: height, length: length}
`

// TestMatesShareZeros: the gap at the sides, by hand 0.010 with a standard deviation
// of √2·0.001·√(1 + 1/12)/√3/2 where one caliper has read both, and of some 0.010 where
// another has read the key.
func TestMatesShareZeros(t *testing.T) {
	check := "checks: [{id: k, by: outside, of: {size: part.width}, with: jaws, saw: [10.020, 10.020, 10.020]}]"
	wide := func(source, check string) float64 {
		mates := checked(t, source, check).Pieces[0].Mates
		if len(mates) != 1 || !mates[0].Known() {
			t.Fatalf("answered %+v", mates)
		}
		near(t, "gap", mates[0].Gap, 0.010, 1e-3)
		return mates[0].Spread[2] - mates[0].Spread[0]
	}
	shared := wide(key, check)
	apart := wide(strings.Replace(key, "  rod:", "  other: {kind: caliper, resolution: 0.001 mm, zero: 0.020 mm, repeat: 0.001 mm}\n  rod:", 1),
		strings.Replace(check, "with: jaws", "with: other", 1))
	near(t, "90 % of the gap by one caliper", shared, 2*1.645*0.00042, 0.15)
	if !(apart > 20*shared) {
		t.Errorf("the gap is spread over %g by one caliper and %g by two", shared, apart)
	}
}
