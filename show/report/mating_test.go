package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// shoes are answers made up to go through every sentence.
func shoes(units unit.Unit) []mating.Answer {
	found := &adjust.Result{Job: &trade.Job{Units: units}}
	shoe, groove := mating.Pairs()[0], &trade.Mate{ID: "shoe"}
	return []mating.Answer{{
		Found: found, Mate: groove, Pair: shoe, Gap: 0.0508, Chance: 0.998, Spread: [3]float64{0.0254, 0.0508, 0.0762}, Twist: math.Pi / 360,
		Faces:  []mating.Face{{Name: "outer face", Least: 0.0508, Most: 0.1016}},
		Bears:  []mating.Bearing{{Pressed: "outwards", On: mating.OnCorners, StandsOff: 0.0127, Chance: 0.8}, {Pressed: "inwards", On: mating.OnFace, Chance: 1}},
		Slides: []mating.Slide{{Way: "outwards", Far: 0.0508}, {Way: "along the groove", Far: math.Inf(1)}},
		Entry: &mating.Passage{Kind: mating.Entries()[1], Chance: 1, Attitudes: []mating.Attitude{
			{Name: "on end", Needs: []float64{10.16, 25.4}, Spare: 2.54}, {Name: "flat", Needs: []float64{25.4, 50.8}, Spare: -7.62},
		}},
		Warnings: []string{"the stem does not count"},
	}, {
		Found: found, Mate: &trade.Mate{ID: "tight", Say: "the other"}, Pair: shoe, Gap: -0.0254, Chance: 0,
		Entry: &mating.Passage{Kind: mating.Entries()[0], Attitudes: []mating.Attitude{{Name: "flat", Needs: []float64{25.4}, Spare: -1.27}}},
	}, {
		Found: found, Mate: &trade.Mate{ID: "open"}, Pair: shoe, Open: []string{"outer", "angle"},
	}}
}

// TestMates: what is said, in mm and in inches.
func TestMates(t *testing.T) {
	for units, want := range map[unit.Unit][]string{
		unit.Millimetre: {
			"How the shapes mate: shoe, sector shoe in a round groove", "It goes in: the smallest gap is 0.051 mm",
			"90 % between 0.025 mm and 0.076 mm, it fits in 99.8 % of cases", "outer face  0.051 mm      0.102 mm",
			"Pressed outwards it bears on its corners; the middle then stands off by 0.013 mm (this in 80 % of cases (8 in 10)).",
			"Pressed inwards it bears all along its face.", "slides 0.051 mm outwards, freely along the groove", "turns 0.500° each way before it binds",
			"It passes the slot, best on end: 2.540 mm to spare. It passes in as good as all cases.", "on end   10.160 mm by 25.400 mm  2.540 mm",
			"The stem does not count.", "tight, sector shoe in a round groove, the other", "It does not go in: it overlaps by 0.025 mm at the tightest place",
			"It does not pass the round hole: even flat it lacks 1.270 mm.", "outer and angle are not found yet",
		},
		unit.Inch: {"the smallest gap is 0.0020 in", "0.4000 in by 1.0000 in"},
	} {
		var b bytes.Buffer
		if err := Mates(&b, shoes(units), Style{}); err != nil {
			t.Fatal(err)
		}
		said := strings.Join(strings.Fields(b.String()), " ")
		for _, text := range want {
			if !strings.Contains(said, strings.Join(strings.Fields(text), " ")) {
				t.Errorf("%q is not said:\n%s", text, b.String())
			}
		}
	}
	var b bytes.Buffer
	if err := Mates(&b, nil, Style{}); err != nil || b.Len() > 0 {
		t.Errorf("of nothing: %q, %v", b.String(), err)
	}
}

// TestMatesJSON: figures as they are, in mm and degrees; null for what is not.
func TestMatesJSON(t *testing.T) {
	data, err := json.Marshal(matesJSON(shoes(unit.Inch)))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`"pair":"sector-shoe-in-groove","known":true,"goes_in":true,"p_goes_in":0.998,"gap":{"value":0.0508,"p05":0.0254,"p50":0.0508,"p95":0.0762}`,
		`"twist_deg":0.5`, `{"way":"along the groove","far":null}`, `"needs":[10.16,25.4],"spare":2.54`, `"known":false,"open":["outer","angle"],"goes_in":null`,
	} {
		if !strings.Contains(string(data), want) {
			t.Errorf("%s is not in %s", want, data)
		}
	}
}
