package plan

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var allowances = StockPlan{Facing: 1.5, Skin: 2, Grip: 25, Kerf: 2, Pieces: 3, Spares: 1}

// TestTurnedStock: constructed. 32 mm round, 60 + 25 + 3 = 88 mm long, four
// pieces of it with 2 mm of kerf.
func TestTurnedStock(t *testing.T) {
	m := &part.Model{Density: 7850, Turned: &part.Turned{Length: 60, Segments: []part.Segment{
		{X1: 40, D0: 20, D1: 20}, {X0: 40, X1: 60, D0: 30, D1: 30},
	}}}
	s := SawStock(m, allowances)
	if s.Section != RoundBar || s.Width != 32 || s.Length != 88 || s.Bar != 360 || s.Spare != 90 {
		t.Errorf("%+v", s)
	}
	// 7850 kg/m³·π/4·32²·88 mm³, and of the part π/4·(20²·40 + 30²·20) mm³, by bc 1.07
	if !agrees(s.Mass, 0.5555743, 6) || !agrees(s.Finished, 0.2096228, 6) {
		t.Errorf("%.6f kg to saw, %.6f kg finished", s.Mass, s.Finished)
	}
}

// TestUsualAllowances as the documentation of the command has them: at least one is
// wanted.
func TestUsualAllowances(t *testing.T) {
	for pieces, want := range map[int]int{0: 1, 1: 1, 3: 3} {
		if got := UsualAllowances(pieces); got != (StockPlan{Facing: 1.5, Skin: 2, Grip: 25, Kerf: 2, Pieces: want, Spares: 1}) {
			t.Errorf("%d pieces: %+v", pieces, got)
		}
	}
}

// TestConicalStock: the larger end of a cone counts, at either end; over the corners
// a square of 20 mm is 20·√2.
func TestConicalStock(t *testing.T) {
	for _, c := range []struct {
		segment part.Segment
		width   float64
	}{
		{part.Segment{X1: 40, D0: 20, D1: 30}, 32},
		{part.Segment{X1: 40, D0: 30, D1: 20}, 32},
		{part.Segment{X1: 40, D0: 20, D1: 20, Form: part.Squared}, 20*math.Sqrt2 + 2},
	} {
		s := SawStock(&part.Model{Turned: &part.Turned{Length: 40, Segments: []part.Segment{c.segment}}}, allowances)
		if !agrees(s.Width, c.width, 12) {
			t.Errorf("%+v: %g", c.segment, s.Width)
		}
	}
}

// TestHexagonStock: over the corners 24 mm flats are 24·2/√3 mm.
func TestHexagonStock(t *testing.T) {
	hexagon := part.Segment{X1: 10, D0: 24, D1: 24, Form: part.Hexagonal}
	for shank, said := range map[float64]bool{16: true, 26: false} {
		m := &part.Model{Turned: &part.Turned{Length: 60, Segments: []part.Segment{hexagon, {X0: 10, X1: 60, D0: shank, D1: shank}}}}
		s := SawStock(m, allowances)
		if !agrees(s.Width, 24*2/math.Sqrt(3)+2, 12) || strings.Contains(unit.Join(s.Notes, " ").Shown(unit.View{}), "Hexagon bar of 24.0 mm") != said {
			t.Errorf("shank %g: %+v", shank, s)
		}
	}
}

// TestPrismStock: constructed. A plate, the same with a stem, one that leans by 45°,
// and a disc.
func TestPrismStock(t *testing.T) {
	plate := geom.Rectangle(geom.Point{}, geom.Point{X: 100, Y: 40})
	for name, c := range map[string]struct {
		prism                    part.Prism
		section                  BarSection
		width, thickness, length float64
	}{
		"plate": {part.Prism{Outline: plate, Height: 10}, FlatBar, 42, 12, 103},
		"stem":  {part.Prism{Outline: plate, Height: 10, Stem: &part.Stem{Turned: part.Turned{Length: 50}}}, FlatBar, 62, 42, 103},
		"leans": {part.Prism{Outline: plate, Height: 10, Lean: math.Pi / 4}, FlatBar, 52, 12, 103},
		"disc":  {part.Prism{Outline: geom.Circle(geom.Point{X: 7}, 20), Height: 3}, RoundBar, 42, 0, 31},
	} {
		s := SawStock(&part.Model{Prism: &c.prism}, allowances)
		if s.Section != c.section || !agrees(s.Width, c.width, 9) || math.Abs(s.Thickness-c.thickness) > 1e-9 || !agrees(s.Length, c.length, 9) {
			t.Errorf("%s: %+v", name, s)
		}
	}
}

func TestCautionsAreWhole(t *testing.T) {
	all := strings.Join(Cautions(), " ")
	for _, word := range []string{"key", "Guards", "by hand", "measure"} {
		if !strings.Contains(all, word) {
			t.Errorf("nothing is said of %q", word)
		}
	}
}

// agrees reports whether two figures agree to this many digits.
func agrees(got, want float64, digits int) bool {
	return math.Abs(got-want) <= 0.5*math.Pow10(-digits)*math.Abs(want)
}
