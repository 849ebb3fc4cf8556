package adjust_test

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// twoWalls is constructed: two walls read with one caliper, a third that only a
// sum tells of, and what is known without reading.
const twoWalls = `oddleg: 1
job: Two walls
kit:
  cal:  {kind: caliper, zero: 0.03 mm, repeat: 0.02 mm}
  pin:  {kind: pin, size: 6 mm, tolerance: 0.003 mm}
  true: {kind: block, size: 20 mm}
sizes:
  outer: {kind: distance}
  inner: {kind: distance}
  left:  {kind: distance, guess: 3 mm}
  right: {kind: distance, guess: 4 mm}
  fixed: {kind: length, known: 25 mm}
  lean:  {kind: angle, known: 30 deg, u: 0.1 deg}
plans:
  plate: {holes: [h1, h2], guess: {h2: [30, 0]}}
readings:
  - {id: a, by: outside, of: {size: outer}, with: cal, saw: [60.01, 59.99]}
  - {id: b, by: outside, of: {size: inner}, with: cal, saw: [40.01, 39.99]}
  - {id: c, by: formula, that: left + right, with: cal, saw: 7}
  - {id: d, by: over-plugs, of: {from: h1, to: h2, plug-1: pin, plug-2: pin}, with: cal, saw: 36}
`

func combined(t *testing.T, r *adjust.Result, text string, given map[string]float64) adjust.Combined {
	t.Helper()
	e, err := expr.Parse(text, expr.Env{Bare: unit.Millimetre, Lookup: func(name string) (expr.Symbol, bool) {
		if _, ok := given[name]; ok {
			return expr.Symbol{Dimension: unit.Length}, true
		}
		d, known := r.DimensionOf(name)
		return expr.Symbol{Dimension: d}, known
	}})
	if err != nil {
		t.Fatal(err)
	}
	return r.Combine(e, given)
}

// TestCombine works expressions out by hand from the error model: each wall has
// zero² + repeat²/2, and the zero drops out of a difference.
func TestCombine(t *testing.T) {
	job, err := jobfile.Read("walls.yaml", []byte(twoWalls))
	if err != nil {
		t.Fatal(err)
	}
	r := adjusted(t, job)
	const degree = math.Pi / 180
	piece := 0.003 / math.Sqrt(3)
	for _, c := range []struct {
		text       string
		given      map[string]float64
		value, u   float64
		determined bool
	}{
		{"outer", nil, 60, math.Sqrt(9e-4 + 2e-4), true},
		{"outer - inner", nil, 20, 0.02, true},
		{"outer + inner", nil, 100, math.Sqrt(36e-4 + 4e-4), true},
		{"(outer - inner)^2", nil, 400, 2 * 20 * 0.02, true},
		{"outer - inner - part.shoe", map[string]float64{"part.shoe": 19.5}, 0.5, 0.02, true},
		{"pin + true + fixed", nil, 51, piece, true},
		{"true + fixed", nil, 45, 0, true},
		{"2 * lean", nil, 60 * degree, 0.2 * degree, true},
		{"left + right", nil, 7, math.Sqrt(9e-4 + 4e-4), true},
		{"left", nil, 0, 0, false},
		{"left - right", nil, 0, 0, false},
	} {
		t.Run(c.text, func(t *testing.T) {
			got := combined(t, r, c.text, c.given)
			if got.Determined != c.determined {
				t.Fatalf("determined: %v", got.Determined)
			}
			if u := r.UOf(got); !c.determined {
				if !math.IsNaN(u) {
					t.Errorf("u = %g of what is not determined", u)
				}
				return
			}
			nearly(t, "value", got.Value, c.value)
			nearly(t, "u", r.UOf(got), c.u)
			square := 0.0
			for _, influence := range r.InfluenceOf(got) {
				square += influence * influence
			}
			nearly(t, "u by the influences", math.Sqrt(square), c.u)
		})
	}
}

func nearly(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Max(1, math.Abs(want))) {
		t.Errorf("%s = %.12g, by hand %.12g", what, got, want)
	}
}

func TestCombineKeepsDerivatives(t *testing.T) {
	job, err := jobfile.Read("walls.yaml", []byte(twoWalls))
	if err != nil {
		t.Fatal(err)
	}
	r := adjusted(t, job)
	c := combined(t, r, "outer * part.shoe", map[string]float64{"part.shoe": 19.5})
	nearly(t, "by outer", c.By["outer"], 19.5)
	nearly(t, "by the shoe", c.By["part.shoe"], 60)
	nearly(t, "by what was given", c.Given["part.shoe"], 60)
	if _, ok := c.Given["outer"]; ok {
		t.Error("outer was not given")
	}
	nearly(t, "covariance of the walls: their zero", r.CovarianceOf(r.Named("outer"), r.Named("inner")), 9e-4)
	if c := r.CovarianceOf(r.Named("outer"), r.Named("left")); !math.IsNaN(c) {
		t.Errorf("covariance with what is not determined: %g", c)
	}
}

// TestCoordinates: the first hole is the origin, the second lies on the x axis.
func TestCoordinates(t *testing.T) {
	job, err := jobfile.Read("walls.yaml", []byte(twoWalls))
	if err != nil {
		t.Fatal(err)
	}
	r := adjusted(t, job)
	nearly(t, "x of the first", r.Coordinate("h1", 0).Value, 0)
	nearly(t, "u of it", r.UOf(r.Coordinate("h1", 0)), 0)
	nearly(t, "x of the second", r.Coordinate("h2", 0).Value, 30)
	nearly(t, "y of the second", r.Coordinate("h2", 1).Value, 0)
	// zero² + repeat² + the pin, which lies in both holes: ½ of it each side.
	nearly(t, "u of it", r.UOf(r.Coordinate("h2", 0)), math.Sqrt(9e-4+4e-4+9e-6/3))
}
