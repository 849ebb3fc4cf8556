package gauge

import (
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// digits is how nearly a sketch measures what it should, as a part of it.
const digits = 1e-9

// TestSketchesAreToScale proves at random set-ups that what a sketch shows is
// what the model says: the reading's span, drawn by construction, is as long as
// the model computes, and the spans of roles are what stands in them.
func TestSketchesAreToScale(t *testing.T) {
	eachModel(t, func(t *testing.T, m *Method, valid [][]float64) {
		for _, v := range append(valid, m.Example) {
			s, ok := m.Draw(v)
			if !ok {
				t.Fatalf("no sketch at %v", v)
			}
			if !slices.ContainsFunc(s.Spans, func(span Span) bool { return span.Role == ReadingRole }) {
				t.Fatal("the sketch does not show the reading")
			}
			for _, span := range s.Spans {
				want, what := math.Abs(model(m.Model).at(v)), "the reading"
				if span.Role != ReadingRole {
					want, what = math.Abs(v[span.Role]), m.Roles[span.Role].Name
				}
				if got := span.Measures(); !(math.Abs(got-want) <= digits*math.Max(want, extent(s)*1e-3)) {
					t.Fatalf("at %v: %s measures %v in the sketch, is %v", v, what, got, want)
				}
			}
		}
	})
}

// extent is about how large a sketch is.
func extent(s Sketch) float64 {
	most := 0.0
	for _, shape := range s.Shapes {
		for _, e := range shape.Path {
			most = max(most, math.Abs(e.From.X), math.Abs(e.From.Y))
		}
	}
	return most
}

// TestPiecesTouchTheWork proves that every ball, pin, wire and roller touches
// an edge of the work. (A round on the same axis may overhang it.)
func TestPiecesTouchTheWork(t *testing.T) {
	eachModel(t, func(t *testing.T, m *Method, valid [][]float64) {
		if strings.HasPrefix(m.ID, "gear-") {
			t.Skip("flanks of gears are drawn as chords")
		}
		for _, v := range append(valid[:20], m.Example) {
			s, _ := m.Draw(v)
			for i, shape := range s.Shapes {
				if shape.Kind != PieceShape || len(shape.Path) != 1 {
					continue
				}
				centre, radius := shape.Path[0].Centre, shape.Path[0].Radius()
				if !slices.ContainsFunc(s.Shapes, func(other Shape) bool {
					return other.Kind == WorkShape && math.Abs(off(other.Path, centre)-radius) <= digits*extent(s)
				}) {
					t.Fatalf("at %v: piece %d, of radius %v, does not touch the work", v, i, radius)
				}
			}
		}
	})
}

// off is how far a point is from the nearest point of a path.
func off(path geom.Path, p geom.Point) float64 {
	nearest := math.Inf(1)
	for _, e := range path {
		nearest = math.Min(nearest, math.Min(p.Distance(e.From), p.Distance(e.To)))
		if e.Turn == geom.Straight {
			along := e.To.Sub(e.From)
			if t := p.Sub(e.From).Dot(along) / along.Dot(along); t > 0 && t < 1 {
				nearest = math.Min(nearest, p.Distance(e.At(t)))
			}
			continue
		}
		if p == e.Centre {
			return e.Radius()
		}
		toward := e.Centre.Add(p.Sub(e.Centre).Unit().Times(e.Radius()))
		if e.From == e.To || geom.Arc(e.Centre, e.From, toward, e.Turn).Length() <= e.Length() {
			nearest = math.Min(nearest, p.Distance(toward))
		}
	}
	return nearest
}

func TestEveryMethodHasASketch(t *testing.T) {
	for _, m := range Methods() {
		s, ok := m.Draw(m.Example)
		if m.ID == trade.FormulaMethod {
			if ok {
				t.Error("a formula has a sketch")
			}
			continue
		}
		if !ok || len(s.Shapes) == 0 || len(s.Spans) == 0 {
			t.Errorf("%s: no sketch, or hardly any", m.ID)
		}
		for _, shape := range s.Shapes {
			closed := shape.Kind == WorkShape || shape.Kind == PieceShape || shape.Kind == JawShape
			if last := shape.Path[len(shape.Path)-1]; closed && !endsARun(shape.Path, last.To) {
				t.Errorf("%s: a shape that bounds a region is open", m.ID)
			}
		}
	}
}

// endsARun reports whether the last run of a path, which ends at a point, began
// there.
func endsARun(path geom.Path, end geom.Point) bool {
	for i := len(path) - 1; i >= 0; i-- {
		if i == 0 || path[i-1].To != path[i].From {
			return path[i].From == end
		}
	}
	return false
}

func TestNoSketchOfWhatCannotBe(t *testing.T) {
	for id, v := range map[string][]float64{ // constructed
		"ball-on-mouth":     {20, 15},
		"two-balls-stacked": {60, 30, 20},
		"inside":            {5, 6},
	} {
		m, _ := Find(id)
		if _, ok := m.Draw(v); ok {
			t.Errorf("%s: a sketch of %v, which cannot be", id, v)
		}
	}
}
