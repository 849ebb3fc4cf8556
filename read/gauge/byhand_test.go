package gauge

import (
	"math"
	"testing"
)

// no stands where an optional role is left out.
var no = math.NaN()

// byHand are readings worked out with pencil and paper from round figures.
var byHand = []struct {
	id   string
	v    []float64
	want float64
}{
	{"outside", []float64{20}, 20},
	{"inside", []float64{25, 7}, 24}, // 7-24-25
	{"depth", []float64{-3}, -3},
	{"protractor", []float64{1}, 1},
	{"wall-thickness", []float64{30, 20}, 5},
	{"pitches", []float64{1.5, 10}, 15},
	{"runout", []float64{0.05}, 0.1},
	{"lost-motion", []float64{0.2}, 0.2},
	{"over-two-pins", []float64{50, 6, no}, 62},
	{"over-one-pin", []float64{40, 50, 6, no}, 51},
	{"ball-near", []float64{100, 60, 12, no}, 8},
	{"ball-far", []float64{60, 50, 8, no}, 47},
	{"between-two-balls", []float64{60, 10, no}, 40},
	{"bridging-pin-near", []float64{100, 60, 6, 28, no}, 12}, // 28-96-100
	{"bridging-pin-far", []float64{100, 60, 6, 28, no}, 72},
	{"ball-on-mouth", []float64{20, 25}, 20}, // 15-20-25
	{"rocking-rod", []float64{50, 40}, 48},   // 2·40·0.6
	{"taper-over-rollers", []float64{12, 0, 6, 20, no}, 24},
	{"countersink-ball", []float64{30, math.Pi / 4, 10 * math.Sqrt2}, 5*math.Sqrt2 - 5},
	{"dovetail-between-rollers", []float64{50, math.Pi / 2, 10, no}, 30},
	{"vee-roller", []float64{30, 60 * degree, 10}, 15 - 15*math.Sqrt(3)},
	{"thread-bore", []float64{8.5}, 8.5},
	{"over-crests", []float64{10}, 10},
	{"root", []float64{8.2}, 8.2},
	{"chord-height", []float64{25, 14}, 1},            // 7-24-25
	{"ball-feet-height", []float64{22, 14, 6, 1}, 1},  // 7-24-25
	{"ball-feet-height", []float64{28, 14, 6, -1}, 1}, // 7-24-25
	{"over-plugs", []float64{50, 8, 10}, 59},
	{"between-plugs", []float64{50, 8, 10}, 41},
	{"edge-to-plug-far", []float64{20, 6}, 23},
	{"edge-to-plug-near", []float64{20, 6}, 17},
	{"bolt-circle-chord", []float64{100, 10, 6, 1}, 60},
	{"keyway-floor", []float64{50, 6.5}, 43.5},
	{"hex-corners", []float64{10 * math.Sqrt(3)}, 20},
	{"gear-tips", []float64{2.5, 0.1, 30, 1}, 80.5},
	{"gear-tip-to-bore", []float64{2.5, 0.1, 31, 20, 1}, 31.5},
	{"three-rollers", []float64{22, 6, 7, 1}, 1},               // 7-24-25
	{"three-rollers", []float64{28, 6, 7, -1}, 1},              // 7-24-25
	{"rollers-on-flat", []float64{50, 8}, 48},                  // 2·sqrt(400) + 8
	{"sine-bar", []float64{30 * degree, 120}, 60},              // sin 30° is a half
	{"keyway-floor-edge", []float64{50, 14, 6}, 43},            // 7-24-25
	{"flat-on-round", []float64{50, 30}, 45},                   // 3-4-5
	{"gear-span", []float64{2, 0.4, 24, 0, 3, 1}, 5 * math.Pi}, // straight flanks; the table of spans has the others
}

// TestByHand has the readings of the table; the odd gear is from the worked
// example of the gear technology handbook, as recomputed beside it (from
// memory).
func TestByHand(t *testing.T) {
	for _, c := range byHand {
		m, _ := Find(c.id)
		if got := model(m.Model).at(c.v); math.Abs(got-c.want) > 1e-14*100 {
			t.Errorf("%s %v = %.15g, want %.15g", c.id, c.v, got, c.want)
		}
	}
	m, _ := Find("gear-over-pins")
	printed(t, figure{Name: "21 teeth", Value: "23.33212"}, model(m.Model).at([]float64{1, 0, 21, 20 * degree, 1.728, 1}))
}

// TestEveryModelIsHeldAgainstAnother: each is worked out by hand, or drawn out
// by pieces that are moved until they touch.
func TestEveryModelIsHeldAgainstAnother(t *testing.T) {
	held := map[string]bool{}
	for _, c := range byHand {
		held[c.id] = true
	}
	for id := range drawnOut {
		held[id] = true
	}
	for _, m := range Methods() {
		if m.Model != nil && !held[m.ID] {
			t.Errorf("%s has no reading worked out by hand (byHand) or drawn out (drawnOut)", m.ID)
		}
		delete(held, m.ID)
	}
	for id := range held {
		t.Errorf("there is no method %s", id)
	}
}

func TestRoleByEitherName(t *testing.T) {
	m, _ := Find("touch")
	if m.Role("circle") != 0 || m.Role("line") != 0 || m.Role("") != -1 || m.Role("bore") != -1 {
		t.Error("the place touched is found by the wrong name")
	}
}
