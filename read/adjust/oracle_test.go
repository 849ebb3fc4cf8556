package adjust_test

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// The independent solver's words, in mm, degrees and plain numbers.
type (
	request struct {
		File  string         `json:"file"`
		Start map[string]any `json:"start"`
	}
	answer struct {
		Sizes     map[string]found
		Extents   map[string]struct{ Least, Most float64 }
		Places    map[string][2]found
		Kit       map[string]found
		Chi2      float64
		Dof       int
		Readings  []tested
		KitTests  []tested `json:"kit_tests"`
		Known     []tested
		Relations []tested
	}
	found struct {
		Value, Zero, U float64
		Determined     bool
	}
	tested struct {
		ID         any
		Index      int
		Predicted  *float64
		Residual   float64
		Sigma      float64 // 0: set aside
		Redundancy float64
		Normalised *float64 // nil: nothing checks it
		Catchable  *float64
	}
)

// natural returns a value of ours in mm, degrees or as a plain number.
func natural(x float64, d unit.Dimension) float64 {
	if d == unit.Angle {
		return x * 180 / math.Pi
	}
	return x
}

// jobFiles returns every job there is to be agreed on.
func jobFiles(t *testing.T) []string {
	t.Helper()
	var files []string
	for _, pattern := range []string{"../../testdata/jobs/*.yaml", "../../examples/*.yaml"} {
		list, err := filepath.Glob(pattern)
		if err != nil || len(list) == 0 {
			t.Fatalf("%s: no jobs there", pattern)
		}
		files = append(files, list...)
	}
	return files
}

func readJob(t *testing.T, file string) *trade.Job {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobfile.Read(file, data)
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	return job
}

func adjusted(t *testing.T, job *trade.Job) *adjust.Result {
	t.Helper()
	result, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// near returns start values three standard uncertainties off our solution, so
// that the other solver need not search but has its own way to go.
func near(r *adjust.Result) map[string]any {
	start := map[string]any{}
	for _, s := range r.Sizes {
		start[s.ID] = natural(s.Value+3*s.U, s.Dimension)
		if !s.Determined {
			start[s.ID] = 10.0
		}
	}
	for _, p := range r.Places {
		first := natural(p.At[0]+3*p.U[0], placeDimension(p))
		start[p.ID] = [2]float64{first, p.At[1] - 3*p.U[1]}
	}
	return start
}

// placeDimension is that of a place's first coordinate.
func placeDimension(p adjust.Place) unit.Dimension {
	if p.Line {
		return unit.Angle
	}
	return unit.Length
}

// TestIndependentSolver compares the adjustment of every job with that of
// testdata/oracle/adjust.py, which was written from the descriptions alone and
// solves with scipy.optimize.least_squares.
func TestIndependentSolver(t *testing.T) {
	program := oracle.Python(t, "scipy", "yaml")
	files := jobFiles(t)
	results := make([]*adjust.Result, len(files))
	requests := make([]request, len(files))
	for i, file := range files {
		results[i] = adjusted(t, readJob(t, file))
		requests[i] = request{File: file, Start: near(results[i])}
	}
	for i, want := range oracle.Answers[answer](t, program, requests, oracle.Script(t, "adjust.py")) {
		t.Run(strings.TrimSuffix(filepath.Base(files[i]), ".yaml"), func(t *testing.T) {
			c := comparison{T: t, got: results[i], want: want}
			c.whole()
			c.sizes()
			c.kit()
			c.places()
			c.readings()
			c.ties()
		})
	}
}

// comparison sets our result beside the other's.
type comparison struct {
	*testing.T
	got  *adjust.Result
	want answer
}

// within reports a figure that differs by more than allowed. Not-a-number differs.
func (c comparison) within(allowed, got, want float64, what ...string) {
	c.Helper()
	if !(math.Abs(got-want) <= allowed) {
		c.Errorf("%s: %.12g, the independent solver has %.12g: %.2g apart, %.2g allowed",
			strings.Join(what, " "), got, want, math.Abs(got-want), allowed)
	}
}

// estimate compares a value to 1e-6 of its standard uncertainty (or twelve
// digits where it is exact) and the uncertainty to six digits.
func (c comparison) estimate(what string, value, u float64, want, wantU float64) {
	c.Helper()
	c.within(1e-6*wantU+1e-12*math.Abs(want), value, want, what)
	c.within(1e-6*wantU, u, wantU, what, "u")
}

func (c comparison) whole() {
	c.within(1e-6*c.want.Chi2+1e-9, c.got.Chi2, c.want.Chi2, "chi2")
	if c.got.Dof != c.want.Dof {
		c.Errorf("dof %d, the independent solver has %d", c.got.Dof, c.want.Dof)
	}
}

func (c comparison) sizes() {
	known := c.want.Known
	for _, s := range c.got.Sizes {
		want := c.want.Sizes[s.ID]
		if s.Determined != want.Determined {
			c.Errorf("%s: determined %v, the independent solver says %v", s.ID, s.Determined, want.Determined)
		}
		if s.Determined {
			c.estimate(s.ID, natural(s.Value, s.Dimension), natural(s.U, s.Dimension), want.Value, want.U)
		}
		if s.Known != nil && len(known) > 0 {
			c.test(s.ID+" known", *s.Known, known[0], s.Dimension)
			known = known[1:]
		}
		extent, ok := c.want.Extents[s.ID]
		if (s.Extent != nil) != ok {
			c.Errorf("%s: least and most %v, the independent solver has %v", s.ID, s.Extent != nil, ok)
		} else if ok {
			c.within(1e-6*want.U, s.Extent.Least, extent.Least, s.ID, "least")
			c.within(1e-6*want.U, s.Extent.Most, extent.Most, s.ID, "most")
		}
	}
	if len(known) > 0 {
		c.Errorf("%d known sizes were not compared", len(known))
	}
}

func (c comparison) kit() {
	tests := map[any]tested{}
	for _, test := range c.want.KitTests {
		tests[test.ID] = test
	}
	for _, z := range c.got.Instruments {
		want := c.want.Kit[z.ID]
		c.estimate(z.ID, natural(z.Value, z.Dimension), natural(z.U, z.Dimension), want.Zero, want.U)
		if test, ok := tests[z.ID]; ok {
			c.test(z.ID, z.Test, test, z.Dimension)
		}
	}
	for _, p := range c.got.Pieces {
		want := c.want.Kit[p.ID]
		c.estimate(p.ID, p.Value, p.U, want.Value, want.U)
		if test, ok := tests[p.ID]; ok {
			c.test(p.ID, p.Test, test, unit.Length)
		}
	}
}

func (c comparison) places() {
	for _, p := range c.got.Places {
		want := c.want.Places[p.ID]
		first := placeDimension(p)
		c.estimate(p.ID+" first", natural(p.At[0], first), natural(p.U[0], first), want[0].Value, want[0].U)
		c.estimate(p.ID+" second", p.At[1], p.U[1], want[1].Value, want[1].U)
	}
}

func (c comparison) readings() {
	type value struct {
		id    string
		index int
	}
	want := map[value]tested{}
	for _, test := range c.want.Readings {
		want[value{test.ID.(string), test.Index}] = test
	}
	if len(want) != len(c.got.Readings) {
		c.Errorf("%d values, the independent solver has %d", len(c.got.Readings), len(want))
	}
	for _, v := range c.got.Readings {
		test := want[value{v.ID, v.Index}]
		if v.SetAside != (test.Sigma == 0) {
			c.Errorf("%s: set aside %v, the independent solver says otherwise", v.ID, v.SetAside)
		}
		if !v.SetAside {
			c.test(v.ID, v.Test, test, v.Dimension)
		}
		switch {
		case test.Predicted != nil:
			c.within(1e-9*math.Abs(*test.Predicted)+1e-6*test.Sigma, natural(v.Predicted[0], v.Dimension), *test.Predicted, v.ID, "predicted")
		case v.Pair: // the nearest point is as far off as the residual says
			off := math.Hypot(v.Saw[0]-v.Predicted[0], v.Saw[1]-v.Predicted[1])
			c.within(1e-6*test.Sigma, off, math.Abs(test.Residual), v.ID, "distance to the path")
		}
	}
}

func (c comparison) ties() {
	if len(c.got.Relations) != len(c.want.Relations) {
		c.Fatalf("%d inexact relations, the independent solver has %d", len(c.got.Relations), len(c.want.Relations))
	}
	for i, tie := range c.got.Relations {
		want := c.want.Relations[i]
		if float64(tie.Index) != want.ID {
			c.Errorf("relation %d, the independent solver has %v", tie.Index, want.ID)
		}
		c.within(1e-6, tie.Redundancy, want.Redundancy, "relation redundancy")
		if want.Normalised != nil {
			c.within(1e-5, tie.Normalised, *want.Normalised, "relation normalised")
		}
	}
}

// test compares how an observation stands: its residual to 1e-6 of its own
// standard deviation, its redundancy and normalised residual to 1e-5, the
// smallest blunder that would be caught to five digits.
func (c comparison) test(what string, got adjust.Test, want tested, d unit.Dimension) {
	c.Helper()
	c.within(1e-6*want.Sigma, natural(got.Residual, d), want.Residual, what, "residual")
	c.within(1e-5, got.Redundancy, want.Redundancy, what, "redundancy")
	if want.Normalised != nil {
		c.within(1e-5, got.Normalised, *want.Normalised, what, "normalised")
		c.within(1e-5**want.Catchable, natural(got.SmallestCatchable, d), *want.Catchable, what, "smallest catchable")
	}
}

// TestCatalogueIsCovered sees to it that the comparison reaches every method.
func TestCatalogueIsCovered(t *testing.T) {
	used := map[string]bool{}
	for _, file := range jobFiles(t) {
		for _, reading := range readJob(t, file).Readings {
			used[reading.By] = true
		}
	}
	for _, method := range gauge.Methods() {
		if !used[method.ID] {
			t.Errorf("no job in testdata/jobs reads by %s", method.ID)
		}
	}
}

// TestFirstExample compares the first example of the job file's description
// with the figures printed there, to half a unit of their last digit. Source of
// all of them: an independent adjustment, in the description of the job file.
func TestFirstExample(t *testing.T) {
	r := adjusted(t, readJob(t, "../../testdata/jobs/first-example.yaml"))
	nose, taper, mic, roll6 := r.Size("nose"), r.Size("taper"), r.Instruments[0], r.Pieces[0]
	b := r.Readings[slices.IndexFunc(r.Readings, func(v adjust.Value) bool { return v.ID == "b" && v.Index == 0 })]
	degrees := func(x float64) float64 { return natural(x, unit.Angle) }
	figures := []struct {
		what      string
		got, want float64
		digits    int
	}{
		{"chi2", r.Chi2, 6.1279, 4},
		{"dof", float64(r.Dof), 7, 0},
		{"chi2_p", r.P, 0.5249, 4},
		{"nose", nose.Value, 12.695405, 6},
		{"nose u", nose.U, 0.005546, 6},
		{"nose low", nose.Low(), 12.684535, 6},
		{"nose high", nose.High(), 12.706274, 6},
		{"taper", degrees(taper.Value), 5.006595, 6},
		{"taper u", degrees(taper.U), 0.008074, 6},
		{"taper low", degrees(taper.Low()), 4.990770, 6},
		{"taper high", degrees(taper.High()), 5.022420, 6},
		{"b predicted", b.Predicted[0], 25.244931, 6},
		{"b residual", b.Residual, -0.004931, 6},
		{"b normalised", b.Normalised, -1.3810, 4},
		{"b redundancy", b.Redundancy, 0.50998, 5},
		{"b smallest catchable", b.SmallestCatchable, 0.028931, 6},
		{"mic zero", mic.Value, 0.00068, 5},
		{"mic u", mic.U, 0.00344, 5},
		{"roll6", roll6.Value, 6.000114, 6},
		{"roll6 u", roll6.U, 0.001095, 6},
	}
	for _, f := range figures {
		if half := 0.5 * math.Pow10(-f.digits); !(math.Abs(f.got-f.want) <= half) {
			t.Errorf("%s = %.*f, want %.*f", f.what, f.digits+2, f.got, f.digits, f.want)
		}
	}
}
