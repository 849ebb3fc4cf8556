package part_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/testdata/parttest"
)

// random calls f with models of each kind.
func random(t *testing.T, each int, f func(t *testing.T, m *part.Model)) {
	t.Helper()
	for _, kind := range trade.PartKinds() {
		t.Run(string(kind), func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, 2))
			for range each {
				job := parttest.Job(r, kind)
				m, err := part.Build(job, nil, nil)
				if err != nil {
					t.Fatalf("refused: %v\n%+v", err, job.Part.Shape)
				}
				f(t, m)
			}
		})
	}
}

// between returns how far apart a dimension's points are, as it measures; NaN
// for a leader.
func between(d part.Dimension) float64 {
	across := d.B.Sub(d.A)
	switch {
	case d.Kind == part.Across:
		return math.Abs(across.X)
	case d.Kind == part.Up:
		return math.Abs(across.Y)
	case d.Kind == part.Diameter && (d.View == part.Plan || d.View == part.End):
		return 2 * across.Length()
	case d.Kind == part.Angle:
		turn := d.B.Sub(d.Vertex).Angle() - d.A.Sub(d.Vertex).Angle()
		if turn < 0 {
			turn += 2 * math.Pi
		}
		return turn
	case d.Kind == part.Leader:
		return math.NaN()
	}
	return across.Length()
}

// TestDimensionsMeasureWhatTheySay holds the dimensions of parts at random
// against their geometry.
func TestDimensionsMeasureWhatTheySay(t *testing.T) { random(t, 200, checkDimensions) }

// checkDimensions fails unless every dimension measures what it says, and for
// any that is there twice.
func checkDimensions(t *testing.T, m *part.Model) {
	t.Helper()
	type place struct {
		view part.View
		kind part.DimensionKind
		a, b geom.Point
	}
	seen := map[place]bool{}
	for _, d := range m.Dimensions {
		if got := between(d); !(math.Abs(got-d.Measure.Value) <= 1e-9*max(1, d.Measure.Value)) && d.Kind != part.Leader {
			t.Errorf("%+v measures %v", d, got)
		}
		if p := (place{d.View, d.Kind, d.A, d.B}); seen[p] {
			t.Errorf("%+v is there twice", d)
		} else {
			seen[p] = true
		}
	}
	if len(m.Dimensions) < 2 {
		t.Errorf("only %d dimensions", len(m.Dimensions))
	}
}

// TestProfiles checks that profiles are closed, do not cross themselves, and
// give by Pappus' theorem the volume of what has no flats and cross holes.
func TestProfiles(t *testing.T) {
	random(t, 200, func(t *testing.T, m *part.Model) {
		if m.Turned == nil {
			return
		}
		p := m.Turned.Profile()
		if !p.Closed() {
			t.Fatalf("not closed: %v", p)
		}
		for i, e := range p {
			if next := p[(i+1)%len(p)]; e.To != next.From {
				t.Errorf("edge %d ends at %v and the next begins at %v", i, e.To, next.From)
			}
		}
		if x, crosses := p.CrossesItself(); crosses {
			t.Fatalf("crosses itself: %v", x)
		}
		body := *m.Turned
		body.Flats, body.Cross = nil, nil
		for _, s := range body.Segments {
			if s.Form == part.Hexagonal || s.Form == part.Squared {
				return
			}
		}
		if want := 2 * math.Pi * p.Centroid().Y * p.Area(); !(math.Abs(body.Volume()-want) <= 1e-9*want) {
			t.Errorf("volume %v, by Pappus' theorem %v", body.Volume(), want)
		}
	})
}
