package blunder_test

import (
	"context"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
)

// edited returns a job of testdata with some of its text replaced.
func edited(t *testing.T, file string, replace ...string) *adjust.Result {
	t.Helper()
	source, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	text := string(source)
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(text, replace[i]) {
			t.Fatalf("%s has no %q", file, replace[i])
		}
		text = strings.Replace(text, replace[i], replace[i+1], 1)
	}
	return adjusted(t, readJob(t, []byte(text)))
}

// TestOneSlip makes one slip and wants it explained first. All figures are
// constructed: what the value should have been is what stood there before.
func TestOneSlip(t *testing.T) {
	reading := func(id string) adjust.Source { return adjust.Source{Kind: adjust.FromReading, ID: id} }
	for _, c := range []struct {
		name, file string
		replace    []string
		kind       blunder.Kind
		text       string
		source     adjust.Source
		wouldBe    float64 // mm
	}{
		{
			"a turn too few", "ring.yaml",
			[]string{"saw: 72.04", "saw: 71.54"},
			blunder.ThimbleTurn, "one turn of the thimble", reading("c"), 72.04,
		},
		{
			"two turns too many", "ring.yaml",
			[]string{"saw: 13.47", "saw: 14.47"},
			blunder.ThimbleTurn, "two turns of the thimble", reading("m"), 13.47,
		},
		{
			"a turn of an inch micrometer", "block.yaml",
			[]string{"saw: 1.392}", "saw: 1.417}"},
			blunder.ThimbleTurn, "one turn of the thimble", reading("a"), 1.392 * 25.4,
		},
		{
			"a millimetre on the beam", "ring.yaml",
			[]string{"saw: 76.04", "saw: 75.04"},
			blunder.BeamDivision, "1 mm on the beam", reading("d"), 76.04,
		},
		{
			"a tenth on the beam", "block.yaml",
			[]string{"with: vern, saw: 2.547", "with: vern, saw: 2.647"},
			blunder.BeamDivision, "0.1 in on the beam", reading("e"), 2.547 * 25.4,
		},
		{
			"a vernier's small division", "block.yaml",
			[]string{"with: vern, saw: 2.547", "with: vern, saw: 2.572"},
			blunder.BeamDivision, "0.025 in on the beam", reading("e"), 2.547 * 25.4,
		},
		{
			"a 32nd", "block.yaml",
			[]string{"2 35/64", "2 33/64"},
			blunder.FractionDivision, "1/32 in miscounted", reading("f"), (2 + 35.0/64) * 25.4,
		},
		{
			"a pin added for taken away", "ring.yaml",
			[]string{"saw: 74.56", "saw: 89.56"},
			blunder.PieceAdded, "ball7 added instead of taken away", reading("j"), 74.56,
		},
		{
			"one pin of two", "ring.yaml",
			[]string{"saw: 72.04", "saw: 66.04"},
			blunder.PieceForgotten, "one of the two pin6 forgotten", reading("c"), 72.04,
		},
		{
			"both plugs", "plate.yaml",
			[]string{"saw: 44.68", "saw: 38.68"},
			blunder.PieceForgotten, "both plug6 forgotten", reading("f"), 44.68,
		},
		{
			"a whole plug for half", "plate.yaml",
			[]string{"saw: 22.52", "saw: 26.52"},
			blunder.PieceDoubled, "plug8 counted twice", reading("j"), 22.52,
		},
		{
			"a pin forgotten in a formula", "ring.yaml",
			[]string{"saw: 26.83", "saw: 32.83"},
			blunder.PieceForgotten, "pin6 forgotten", reading("s"), 26.83,
		},
		{
			"another pin", "ring.yaml",
			[]string{"saw: 72.04", "saw: 76.04"},
			blunder.OtherPiece, "pin8 in the place of pin6", reading("c"), 72.04,
		},
		{
			"the radius", "ring.yaml",
			[]string{"saw: 80.095", "saw: 40.05"},
			blunder.RadiusForDiameter, "the radius written for the diameter", reading("l"), 80.1,
		},
		{
			"inches", "ring.yaml",
			[]string{"saw: 76.04", "saw: 2.994"},
			blunder.InchForMM, "inches written as millimetres", reading("d"), 76.0476,
		},
		{
			"millimetres", "block.yaml",
			[]string{"with: vern, saw: 2.407", "with: vern, saw: 61.14"},
			blunder.MMForInch, "millimetres written as inches", reading("j"), 61.14,
		},
		{
			"two digits", "ring.yaml",
			[]string{"saw: 55.96", "saw: 55.69"},
			blunder.DigitsSwapped, "two digits swapped", reading("a"), 55.96,
		},
		{
			"two digits about the point", "ring.yaml",
			[]string{"saw: 13.47", "saw: 14.37"},
			blunder.DigitsSwapped, "two digits swapped", reading("m"), 13.47,
		},
		{
			"an instrument not zeroed", "ring.yaml",
			[]string{"saw: 19.36", "saw: 19.56", "saw: 25.36", "saw: 25.56"},
			blunder.NotZeroed, "tall not zeroed",
			adjust.Source{Kind: adjust.FromInstrument, ID: "tall"},
			0.2,
		},
		{
			"two readings", "ring.yaml",
			[]string{"saw: 32.83", "saw: 26.83", "floor - pin6, with: deep, saw: 26.83", "floor - pin6, with: deep, saw: 32.83"},
			blunder.SwappedReadings, "o and s entered under each other's name", reading("o"), 32.83,
		},
		{
			"a piece in the wrong units", "ring.yaml",
			[]string{"size: 6 mm", "size: 6 in"},
			blunder.MMForInch, "millimetres written as inches",
			adjust.Source{Kind: adjust.FromPiece, ID: "pin6"},
			6,
		},
		{
			"another piece all along", "ring.yaml",
			[]string{"size: 6 mm", "size: 7.5 mm", "size: 7 mm", "size: 6 mm"},
			blunder.OtherPiece, "pin7 in the place of pin6 all along",
			adjust.Source{Kind: adjust.FromPiece, ID: "pin6"},
			6,
		},
		{
			"the digits of a known size", "ring.yaml",
			[]string{"inner:  {kind: diameter, surface: outside}", "inner:  {kind: diameter, surface: outside, known: 60.40, within: 0.02}"},
			blunder.DigitsSwapped, "two digits swapped",
			adjust.Source{Kind: adjust.FromKnown, ID: "inner"},
			60.04,
		},
		{
			"a known size as a radius", "ring.yaml",
			[]string{"inner:  {kind: diameter, surface: outside}", "inner:  {kind: diameter, surface: outside, known: 30.02, u: 0.02}"},
			blunder.RadiusForDiameter, "the radius written for the diameter",
			adjust.Source{Kind: adjust.FromKnown, ID: "inner"},
			60.04,
		},
		{
			"the digits of a relation", "ring.yaml",
			[]string{"saw: 26.83}", "saw: 26.83}\nrelations:\n  - {that: floor - step, is: 19.63, within: 0.02}"},
			blunder.DigitsSwapped, "two digits swapped",
			adjust.Source{Kind: adjust.FromRelation},
			19.36,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			doubts := blunder.Explain(context.Background(), edited(t, c.file, c.replace...))
			if len(doubts) == 0 {
				t.Fatal("nothing is in doubt")
			}
			if len(doubts[0].Perhaps) == 0 {
				t.Fatalf("no explanation for %v", doubts[0].Suspects)
			}
			best := doubts[0].Perhaps[0]
			if best.Kind != c.kind || best.Text != c.text {
				t.Errorf("%s, %q; want %s, %q", best.Kind, best.Text, c.kind, c.text)
			}
			i := slices.IndexFunc(best.Corrected, func(k blunder.Correction) bool { return k.Source == c.source })
			if i < 0 {
				t.Fatalf("%v is not corrected but %+v", c.source, best.Corrected)
			}
			if got := best.Corrected[i].WouldBe[0]; math.Abs(got-c.wouldBe) > 0.02 {
				t.Errorf("would be %.4f, want %.4f", got, c.wouldBe)
			}
		})
	}
}

// TestSlipsOfOtherKinds makes slips in readings that are no plain lengths. All
// figures are constructed.
func TestSlipsOfOtherKinds(t *testing.T) {
	const head = `
oddleg: 1
job: test
kit:
  jaws: {kind: caliper, resolution: 0.01 mm}
  nibs: {kind: caliper, resolution: 0.01 mm}
  arms: {kind: protractor, resolution: 0d 5m}
  bevel: {kind: protractor, resolution: 0d 5m}
  dro:  {kind: readout, resolution: 0.005 mm}
  tip:  {kind: stylus, size: 2 mm}
  g19:  {kind: plug, size: 19.9 mm}
  g20:  {kind: plug, size: 20.1 mm}
  gap:  {kind: plug, size: 20.08 mm}
`
	for _, c := range []struct {
		name, job string
		kind      blunder.Kind
		wouldBe   [2]float64
	}{
		{"minutes of an angle", `
sizes: {v: {kind: angle}}
readings:
  - {id: a, by: protractor, of: {angle: v}, with: arms, saw: 21d 05m}
  - {id: b, by: protractor, of: {angle: v}, with: bevel, saw: [12d 05m, 12d 05m]}
  - {id: c, by: protractor, of: {angle: v}, with: bevel, saw: 12d 05m}
`, blunder.DigitsSwapped, [2]float64{(12 + 5.0/60) * math.Pi / 180}},
		{"a touch", `
sizes: {d: {kind: diameter}}
places: {ring: {kind: circle, diameter: d}}
readings:
  - {id: a, by: touch, of: {circle: ring, stylus: tip, side: 1}, with: dro,
     saw: [[11, 0], [-11, 0], [0, 11], [0, -11], [7.778, 7.778], [-7.778, 7.778], [-7.787, -7.778]]}
  - {id: b, by: touch, of: {circle: ring, stylus: tip, side: 1}, with: dro, saw: [[9.526, 5.5], [9.562, -5.5]]}
`, blunder.DigitsSwapped, [2]float64{9.526, -5.5}},
		{"a plug gauge", `
sizes: {bore: {kind: diameter, surface: inside}}
readings:
  - {id: a, by: inside, of: {size: bore}, goes: gap, stops: g20}
  - {id: b, by: inside, of: {size: bore}, with: jaws, saw: [20.0, 20.01, 20.0]}
  - {id: c, by: inside, of: {size: bore}, with: nibs, saw: [20.0, 20.01, 20.0]}
`, blunder.OtherPiece, [2]float64{20}},
	} {
		t.Run(c.name, func(t *testing.T) {
			doubts := blunder.Explain(context.Background(), adjusted(t, readJob(t, []byte(head+c.job))))
			if len(doubts) == 0 || len(doubts[0].Perhaps) == 0 {
				t.Fatalf("no explanation: %+v", doubts)
			}
			best := doubts[0].Perhaps[0]
			if got := best.Corrected[0].WouldBe; best.Kind != c.kind || math.Hypot(got[0]-c.wouldBe[0], got[1]-c.wouldBe[1]) > 1e-9 {
				t.Errorf("%s, would be %v; want %s, %v", best.Kind, got, c.kind, c.wouldBe)
			}
		})
	}
}
