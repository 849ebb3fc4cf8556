package draw_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"sync"
	"testing"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/testdata/parttest"
)

// randomPart returns the part of a seed.
func randomPart(seed uint64) *part.Model {
	return parttest.Model(rand.New(rand.NewPCG(seed, 7)))
}

// parts is how many random parts to draw: few in a short run.
func parts(all uint64) uint64 {
	if testing.Short() {
		return min(all, 20)
	}
	return all
}

func drawn(t *testing.T, m *part.Model, o draw.Options) *ink.Sheet {
	t.Helper()
	s, err := draw.Part(m, o)
	if err != nil {
		t.Fatalf("%s: %v", m.Kind, err)
	}
	return s
}

// manners are the ways a drawing can be wanted.
var manners = []draw.Options{
	{Job: "the lathe's cross slide", Date: "25 Nov 2026"},
	{ThirdAngle: true, Units: unit.Inch, Paper: ink.A3},
	{Dual: true, Paper: ink.A3},
	{Portrait: true},
}

// TestNothingOverlaps is the acceptance of the layout: random parts of all
// kinds, each manner of drawing.
func TestNothingOverlaps(t *testing.T) {
	for seed := range parts(500) {
		m := randomPart(seed)
		s := drawn(t, m, manners[0])
		for _, o := range draw.Overlaps(s) {
			t.Errorf("part %d (%s): %s", seed, m.Kind, o)
		}
		if seed%25 != 0 {
			continue
		}
		for _, o := range manners[1:] {
			for _, words := range draw.Overlaps(drawn(t, m, o)) {
				t.Errorf("part %d (%s), %+v: %s", seed, m.Kind, o, words)
			}
		}
	}
}

// TestEveryDimensionIsDrawnTrue holds what stands on the sheet against the
// model: each dimension once, and its ends as far apart as it says.
func TestEveryDimensionIsDrawnTrue(t *testing.T) {
	for seed := range parts(100) {
		m := randomPart(seed)
		s := drawn(t, m, draw.Options{})
		n := 0
		for _, mark := range s.Marks {
			if d, ok := mark.(ink.Dimension); ok {
				n++
				checkMeasure(t, s.Scale, d)
			}
		}
		if n != len(m.Dimensions) {
			t.Errorf("part %d: %d dimensions drawn, the part has %d", seed, n, len(m.Dimensions))
		}
	}
}

func checkMeasure(t *testing.T, scale float64, d ink.Dimension) {
	t.Helper()
	got := d.Measures
	switch d.Kind {
	case ink.Linear:
		got = math.Abs(d.B.Sub(d.A).Dot(geom.Polar(1, d.Direction))) / scale
	case ink.Diametral, ink.Radial:
		got = d.A.Distance(d.B) / scale
	case ink.Angular:
		a, b := d.A.Sub(d.Vertex), d.B.Sub(d.Vertex)
		got = math.Atan2(a.Cross(b), a.Dot(b)) * 180 / math.Pi
	}
	if math.Abs(got-d.Measures) > 1e-9*max(1, d.Measures) {
		t.Errorf("%q is drawn %.12g, it says %.12g", d.Words, got, d.Measures)
	}
}

// TestScale checks that the scale is of ISO 5455 (the series, from memory), that
// a forced one is kept, and that what does not fit says so.
func TestScale(t *testing.T) {
	series := map[float64]bool{20: true, 10: true, 5: true, 2: true, 1: true, 0.5: true, 0.2: true, 0.1: true, 0.05: true, 0.02: true, 0.01: true}
	for seed := range uint64(40) {
		if s := drawn(t, randomPart(seed), draw.Options{}); !series[s.Scale] {
			t.Errorf("part %d is drawn to a scale of %g", seed, s.Scale)
		}
	}
	m := washer(40, 20, 3)
	if s := drawn(t, m, draw.Options{Scale: 1}); s.Scale != 1 {
		t.Errorf("the scale was to be 1, it is %g", s.Scale)
	}
	for _, c := range []struct {
		options draw.Options
		want    string
	}{
		{draw.Options{Scale: 20}, "does not fit the paper at 20:1"},
		{draw.Options{Scale: -1}, "cannot have the scale -1"},
		{draw.Options{Scale: math.NaN()}, "cannot have the scale NaN"},
		{draw.Options{Paper: 9}, "no paper of the number 9"},
	} {
		if _, err := draw.Part(m, c.options); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: got %v, want words with %q", c.options, err, c.want)
		}
	}
	if _, err := draw.Part(&part.Model{Name: "none"}, draw.Options{}); err == nil {
		t.Error("a part without a shape is drawn")
	}
}

// washer is a ring: outside, inside, thickness.
func washer(outside, inside, thickness float64) *part.Model {
	x := geom.Point{X: thickness}
	r, q := geom.Point{Y: outside / 2}, geom.Point{Y: inside / 2}
	return &part.Model{
		Name: "washer", Kind: "washer", Quantity: 1,
		Turned: &part.Turned{
			Segments: []part.Segment{{X1: thickness, D0: outside, D1: outside}},
			Bores:    []part.Segment{{X1: thickness, D0: inside, D1: inside}},
			Length:   thickness,
		},
		Dimensions: []part.Dimension{
			{View: part.Side, Kind: part.Across, A: r, B: r.Add(x), Measure: part.Measure{Value: thickness}},
			{View: part.Side, Kind: part.Diameter, A: r, B: r.Times(-1), Measure: part.Measure{Value: outside}},
			{View: part.Side, Kind: part.Diameter, A: q, B: q.Times(-1), Measure: part.Measure{Value: inside}, Inside: true},
		},
	}
}

// TestAngleOfProjection checks on which side of the view from the front the one
// from above stands: below it in first angle projection, above in third
// (ISO 5456-2).
func TestAngleOfProjection(t *testing.T) {
	m := block()
	for third, above := range map[bool]bool{false: false, true: true} {
		s := drawn(t, m, draw.Options{ThirdAngle: third})
		var edge, plan float64
		for _, mark := range s.Marks {
			if d, ok := mark.(ink.Dimension); ok && d.Words == "10" {
				edge = d.A.Y
			} else if ok && d.Words == "80" {
				plan = d.A.Y
			}
		}
		if (plan > edge) != above {
			t.Errorf("third angle %t: the plan stands at %.1f, the view from the front at %.1f", third, plan, edge)
		}
	}
}

// block is a plate of 80 × 50 × 10 with a counterbored hole in its middle.
func block() *part.Model {
	high := geom.Point{X: 80, Y: 50}
	return &part.Model{
		Name: "block", Kind: "plate", Quantity: 1,
		Prism: &part.Prism{
			Outline: geom.Rectangle(geom.Point{}, high), Height: 10,
			Holes: []part.Hole{{At: high.Times(0.5), Diameter: 9, Depth: 10, Through: true, CounterboreD: 15, CounterboreH: 6}},
		},
		Dimensions: []part.Dimension{
			{View: part.Plan, Kind: part.Across, B: geom.Point{X: 80}, Measure: part.Measure{Value: 80}},
			{View: part.Plan, Kind: part.Up, A: geom.Point{X: 80}, B: high, Measure: part.Measure{Value: 50}},
			{View: part.Edge, Kind: part.Up, B: geom.Point{Y: 10}, Measure: part.Measure{Value: 10}},
		},
	}
}

// TestSameTwice draws parts again and at once: the sheets are the same to the
// last mark.
func TestSameTwice(t *testing.T) {
	const parts = 8
	var once, again [parts]*ink.Sheet
	var wait sync.WaitGroup
	for i := range parts {
		m := randomPart(uint64(i))
		once[i] = drawn(t, m, draw.Options{})
		wait.Go(func() { again[i], _ = draw.Part(m, draw.Options{}) })
	}
	wait.Wait()
	for i := range parts {
		if !reflect.DeepEqual(once[i], again[i]) {
			t.Errorf("part %d is drawn otherwise the second time", i)
		}
	}
}

// TestLongWordsFit puts far too much into every field of the title block.
func TestLongWordsFit(t *testing.T) {
	m := washer(40, 20, 3)
	long := strings.Repeat("Überlänge ⌀ of a name ", 12)
	m.Name, m.Material, m.Revision, m.Notes = long, long, long, []string{long, "short"}
	for range 30 {
		m.Measures = append(m.Measures, part.Measure{Name: long, Value: 12.5, Low: 12.4, High: 12.7, Why: long, From: part.Measured, U: 0.01})
	}
	s := drawn(t, m, draw.Options{Job: long, Drawn: long, Date: long})
	for _, o := range draw.Overlaps(s) {
		t.Error(o)
	}
}

func BenchmarkPart(b *testing.B) {
	models := make([]*part.Model, 50)
	for i := range models {
		models[i] = randomPart(uint64(i))
	}
	for i := 0; b.Loop(); i++ {
		if _, err := draw.Part(models[i%len(models)], draw.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// TestTemplates draws templates of random parts: 1:1, with nothing over anything
// else, or with words that it is too large.
func TestTemplates(t *testing.T) {
	n := 0
	for seed := range uint64(60) {
		m := randomPart(seed)
		s, err := draw.Template(m, draw.Options{Job: "cross slide"})
		if err != nil {
			if !strings.Contains(err.Error(), "does not fit the paper at 1:1") {
				t.Errorf("part %d: %v", seed, err)
			}
			continue
		}
		n++
		if s.Scale != 1 {
			t.Errorf("part %d: a template at %g", seed, s.Scale)
		}
		for _, o := range draw.Overlaps(s) {
			t.Errorf("part %d (%s): %s", seed, m.Kind, o)
		}
	}
	if n < 40 {
		t.Errorf("only %d of 60 parts have a template", n)
	}
}
