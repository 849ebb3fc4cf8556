package gauge

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// TestRules has for each rule a set-up that breaks or strains it, and words
// that must be said of it. All figures are constructed.
func TestRules(t *testing.T) {
	no := math.NaN()
	for _, c := range []struct {
		id     string
		v      []float64
		broken bool
		says   string // "" where nothing is to be said
	}{
		{"inside", []float64{20, 0}, false, ""},
		{"inside", []float64{20, 0.1}, false, ""}, // low by 0.25 µm
		{"inside", []float64{20, 3}, false, "read 0.226 mm low"},
		{"inside", []float64{3, 3}, true, "a flat of 3.000 mm do not enter a bore of 3.000 mm"},
		{"wall-thickness", []float64{20, 20}, true, "not smaller"},
		{"pitches", []float64{2, 2.5}, true, "not 2.5"},
		{"over-two-pins", []float64{50, 6, no}, false, ""},
		{"over-two-pins", []float64{50, 6, 3.1}, false, ""},
		{"over-two-pins", []float64{50, 6, 3}, true, "touches the wall 3.000 mm up, but the wall is only 3.000 mm high"},
		{"over-one-pin", []float64{40, 50, 5, no}, true, "overhangs the wall by 5.000 mm: a pin of 5.000 mm"},
		{"over-one-pin", []float64{40, 40, 1, no}, false, ""},
		{"ball-near", []float64{100, 60, 20, no}, false, ""},
		{"ball-near", []float64{100, 60, 21, no}, true, "ball of 21.000 mm is too large: it has only 20.000 mm from where it stands"},
		{"ball-far", []float64{20, 10, 15, no}, true, "no room for the jaws"},
		{"between-two-balls", []float64{20, 10, no}, true, "would be 0.000 mm"},
		{"bridging-pin-near", []float64{100, 60, 6, 28, no}, false, "at its middle by 2.000 mm"}, // 28-96-100 triangle
		{"bridging-pin-near", []float64{100, 60, 20, 28, no}, true, "bridging pin of 20.000 mm is too large"},
		{"bridging-pin-near", []float64{100, 60, 6, 100, no}, true, "does not go into"},
		{"bridging-pin-far", []float64{100, 60, 6, 28, no}, false, "at its middle by 2.000 mm"},
		{"bridging-pin-far", []float64{100, 110, 6, 99.9, no}, false, "hangs on the pieces"},
		{"two-balls-stacked", []float64{40, 30, 20}, false, ""},
		{"two-balls-stacked", []float64{30, 30, 20}, true, "does not go into"},
		{"two-balls-stacked", []float64{50, 30, 20}, true, "side by side"},
		{"two-balls-stacked", []float64{39.5, 10, 30}, true, "upper ball would stand on the floor"},
		{"two-balls-stacked", []float64{39.5, 30, 10}, true, "lower ball would stand higher"},
		{"two-balls-stacked", []float64{31, 30, 30}, false, "changes only 0.0334 times as much as the bore"},
		{"ball-on-mouth", []float64{20, 25}, false, "a chamfer of 0.100 mm would let the ball down by 0.100 mm"},
		{"ball-on-mouth", []float64{6, 10}, false, "let the ball down by 0.077 mm"}, // 5 - √25 - 9.61 = 0.0770
		{"ball-on-mouth", []float64{20, 20}, true, "falls into"},
		{"ball-on-mouth", []float64{1, 25}, false, "counts 50 times in it"},
		{"rocking-rod", []float64{50, 50}, true, "does not go into"},
		{"rocking-rod", []float64{50, 35}, true, "below 35.355 mm the swing shrinks again"},
		{"rocking-rod", []float64{50, 40}, false, "1.71 times as much as the bore: a rod nearer"},
		{"rocking-rod", []float64{50, 48}, false, "6.32 times as much as the bore"},
		{"taper-over-rollers", []float64{12, 0.1, 6, 0, 3.3}, false, ""},
		{"taper-over-rollers", []float64{12, 0.1, 6, 0, 3.2}, true, "touch 3.300 mm above the plate, but the taper is only 3.200 mm high"},
		{"taper-over-rollers", []float64{12, -0.1, 6, 0, no}, false, "stands on its large end"},
		{"taper-over-rollers", []float64{12, 0.1, 6, -1, no}, true, "-1.000 mm high"},
		{"taper-ball-depth", []float64{20, 60 * degree, 41}, true, "20.500 mm across, but the mouth is only 20.000 mm"},
		{"taper-ball-depth", []float64{20, 0, 10}, true, "half angle is 0.000°"},
		{"countersink-ball", []float64{20, 60 * degree, 39}, false, ""},
		{"sine-bar", []float64{45 * degree, 100}, false, ""},
		{"sine-bar", []float64{50 * degree, 100}, false, "stands at 50.000°"},
		{"sine-bar", []float64{61 * degree, 100}, true, "must lie between 0.000° and 60.000°"},
		{"dovetail-over-rollers", []float64{100, 60 * degree, 12, 8}, true, "touches the flank 9.000 mm above the base, but the flank is only 8.000 mm high: use one under 10.667 mm"},
		{"dovetail-over-rollers", []float64{100, 60 * degree, 12, 9.001}, false, ""},
		{"dovetail-between-rollers", []float64{30, 60 * degree, 12, no}, true, "no room for the jaws"},
		{"vee-roller", []float64{14, 90 * degree, 20}, true, "where the vee is 14.142 mm wide"},
		{"chord-height", []float64{20, 40}, true, "feet 40.000 mm apart"},
		{"chord-height", []float64{200, 40}, false, "counts 198 times in it"},
		{"ball-feet-height", []float64{20, 36, 6, -1}, true, "a circle 34.000 mm across"},
		{"ball-feet-height", []float64{20, 36, 6, 2}, true, "side is 1 (convex) or -1 (concave), not 2"},
		{"three-rollers", []float64{30, 20, 40, 1}, true, "a circle 80.000 mm across"},
		{"three-rollers", []float64{175, 70, 60, 1}, true, "foul each other"},
		{"rollers-on-flat", []float64{100, 17.2}, false, ""},
		{"rollers-on-flat", []float64{100, 17.1}, false, "the jaws foul the work"},
		{"touch", []float64{2, 2, -1}, true, "does not go into a circle of 2.000 mm"},
		{"touch", []float64{no, 2, -1}, false, ""},
		{"over-plugs", []float64{8.9, 8, 10}, true, "their middles are only 8.900 mm apart"},
		{"between-plugs", []float64{9, 8, 10}, true, "would be 0.000 mm"},
		{"edge-to-plug-near", []float64{3, 6}, true, "reach over an edge"},
		{"bolt-circle-chord", []float64{100, 10, 5, 5}, true, "among 5"},
		{"bolt-circle-chord", []float64{100, 60, 5, 1}, true, "only 58.779 mm apart"},
		{"keyway-floor", []float64{50, 50}, true, "through the shaft"},
		{"keyway-floor-edge", []float64{50, 50, 5}, true, "a keyway 50.000 mm wide"},
		{"flat-on-round", []float64{30, 31}, true, "a flat 31.000 mm wide"},
		{"flat-on-round", []float64{30, 2}, false, "as much as the width"},
	} {
		remarksMust(t, c.id, c.v, c.broken, c.says)
	}
}

// remarksMust asks that the set-up is broken or not, and that words are said.
func remarksMust(t *testing.T, id string, v []float64, broken bool, says string) {
	t.Helper()
	m, ok := Find(id)
	if !ok {
		t.Fatalf("no method %s", id)
	}
	var list []Remark
	if m.Valid != nil {
		list = m.Valid(v)
	}
	if says == "" && len(list) > 0 {
		t.Errorf("%s %v: nothing was to be said, got %+v", id, v, list)
	}
	for _, r := range list {
		if r.Broken == broken && strings.Contains(r.Text.Shown(unit.View{}), says) {
			return
		}
	}
	if says != "" {
		t.Errorf("%s %v: want %q, broken %v; got %+v", id, v, says, broken, list)
	}
}

// TestThreadRules has threads of 2 mm pitch; best wires 1.155 mm (60°).
func TestThreadRules(t *testing.T) {
	no := math.NaN()
	for _, c := range []struct {
		id     string
		v      []float64
		broken bool
		says   string
	}{
		{"three-wires", []float64{12.701, 2, 60 * degree, 1.155, no}, false, "add 0.002 mm to the reading expected"},
		{"three-wires", []float64{48.7, 2, 60 * degree, 1.155, no}, false, ""},
		{"three-wires", []float64{48.7, 2, 60 * degree, 1.4, no}, false, "the best wire for this thread is 1.155 mm"},
		// facts: 1.010363 P and 0.505181 P
		{"three-wires", []float64{48.7, 2, 60 * degree, 2.03, no}, true, "the largest for this thread is 2.021 mm"},
		{"three-wires", []float64{48.7, 2, 60 * degree, 1.0, no}, false, "the best wire"},
		{"three-wires", []float64{48.7, 2, 60 * degree, 0.93, no}, true, "the smallest that stands proud is 0.932 mm"},
		{"three-wires", []float64{48.7, 2, 60 * degree, 0.93, 49.5}, false, "the best wire"}, // worn crests
		{"three-wires", []float64{48.7, 2, 60 * degree, 1.155, 50.5}, true, "below the crests at 50.500 mm"},
		{"three-wires", []float64{48.7, 2, 60 * degree, 1.8, 49.5}, true, "above the crests at 49.500 mm"},
		{"three-wires", []float64{48.7, 2, 60 * degree, 0.5, 48}, true, "sits on the root"},
		// no form has 40°: a sharp vee, 1/cos 20° = 1.064178 P
		{"three-wires", []float64{48.7, 2, 40 * degree, 2.12, no}, false, "the best wire"},
		{"three-wires", []float64{48.7, 2, 40 * degree, 2.13, no}, true, "the largest for this thread is 2.128 mm"},
		{"three-wires", []float64{48.7, 2, 55 * degree, 1.71, no}, true, "the largest for this thread is 1.705 mm"},
		// a nut's crests at a quarter of the sharp height: 0.75/cos 30° = 0.866 P
		{"thread-ball-tips", []float64{48.7, 2, 60 * degree, 1.73}, false, ""},
		{"thread-ball-tips", []float64{48.7, 2, 60 * degree, 1.74}, true, "the largest for this thread is 1.732 mm"},
		{"thread-ball-tips", []float64{48.7, 2, 60 * degree, 0.28}, true, "sits on the root"},
		{"thread-ball-tips", []float64{1, 2, 60 * degree, 1.4}, true, "between their middles"},
		{"thread-between-balls", []float64{48.7, 2, 60 * degree, 0.8}, true, "the smallest that stands proud is 0.866 mm"},
		{"thread-between-balls", []float64{48.7, 2, 60 * degree, 0.9}, false, ""},
		{"thread-between-balls", []float64{2, 2, 60 * degree, 1.3}, true, "no room for the jaws"},
	} {
		remarksMust(t, c.id, c.v, c.broken, c.says)
	}
}

func TestGearRules(t *testing.T) {
	for _, c := range []struct {
		id     string
		v      []float64
		broken bool
		says   string
	}{
		{"gear-span", []float64{3, 0, 24, 20 * degree, 3, 1}, false, ""},
		{"gear-span", []float64{3, 0, 24, 20 * degree, 5, 1}, true, "outside the tips at 78.000 mm: span fewer teeth"},
		{"gear-span", []float64{3, 0, 24.5, 20 * degree, 3, 1}, true, "not 24.5"},
		{"gear-tips", []float64{2, 0, 30, 1}, false, ""},
		// 33·(1 + cos(180°/31))
		{"gear-tips", []float64{2, 0, 31, 1}, false, "jaws across them read about 65.831 mm, not the tip diameter 66.000 mm"},
		{"gear-tip-to-bore", []float64{2, 0, 31, 66, 1}, true, "not inside the tips at 66.000 mm"},
		{"gear-over-pins", []float64{1, 0, 20, 20 * degree, 1.7, 1}, false, ""},
		{"gear-over-pins", []float64{1, 0, 20, 20 * degree, 1, 1}, true, "inside the base circle of 18.794 mm"},
		{"gear-over-pins", []float64{1, 0, 20, 20 * degree, 4, 1}, true, "outside the tips at 22.000 mm"},
		{"gear-over-pins", []float64{1, 0, 20, 20 * degree, 1.5, 1}, true, "below the tips at 22.000 mm"},
	} {
		remarksMust(t, c.id, c.v, c.broken, c.says)
	}
}

func TestRemarksInInches(t *testing.T) {
	m, _ := Find("over-one-pin")
	list := m.Valid([]float64{25.4, 50.8, 12.7, math.NaN()})
	if len(list) != 1 || !strings.Contains(list[0].Text.Shown(unit.View{In: unit.Inch}), "by 0.5000 in: a pin of 0.5000 in") {
		t.Errorf("got %+v", list)
	}
}

// TestNoReadingWithoutAReason tries set-ups far off the examples: where the
// model has no value, a broken rule must say why.
func TestNoReadingWithoutAReason(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 5))
	for _, m := range Methods() {
		for range 2000 {
			v := make([]float64, len(m.Roles))
			for i, r := range m.Roles {
				switch r.Kind {
				case HalfAngle:
					v[i] = random.Float64() * math.Pi / 2
				case PlainAngle, IncludedAngle:
					v[i] = random.Float64() * math.Pi
				case Count, Side:
					v[i] = m.Example[i]
				default:
					v[i] = m.Example[i] * math.Pow(10, 2*random.Float64()-1)
				}
			}
			if m.Model != nil && math.IsNaN(model(m.Model).at(v)) && !isBroken(m, v) {
				t.Errorf("%s at %v has no reading and breaks no rule", m.ID, v)
				break
			}
		}
	}
}
