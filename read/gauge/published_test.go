package gauge

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/testdata/certified"
)

type figure = certified.Figure

// workedExample is a published entry whose inputs are mostly numbers.
type workedExample struct {
	*certified.Entry
	inputs map[string]any
}

// in returns a numeric input of the example.
func (e *workedExample) in(t *testing.T, name string) float64 {
	t.Helper()
	switch x := e.inputs[name].(type) {
	case float64:
		return x
	case uint64:
		return float64(x)
	}
	t.Fatalf("%s has no number %q", e.ID, name)
	return 0
}

func worked(t *testing.T, id string) *workedExample {
	t.Helper()
	e := &workedExample{Entry: certified.Example(t, id)}
	e.Read(t, &e.inputs)
	return e
}

func printed(t *testing.T, f figure, got float64) {
	t.Helper()
	f.Compare(t, got)
}

// read runs a method forward; roles not named have their defaults.
func read(t *testing.T, id string, named map[string]float64) float64 {
	t.Helper()
	m, v := filled(t, id, named)
	return model(m.Model).at(v)
}

// solve runs a method backward for one role and returns the first value found.
func solve(t *testing.T, id, sought string, reading float64, named map[string]float64) float64 {
	t.Helper()
	m, v := filled(t, id, named)
	found := m.Invert(v, m.Role(sought), reading)
	if len(found) == 0 {
		t.Fatalf("%s: no %s gives %g", id, sought, reading)
	}
	return found[0]
}

func filled(t *testing.T, id string, named map[string]float64) (*Method, []float64) {
	t.Helper()
	m, ok := Find(id)
	if !ok {
		t.Fatalf("no method %s", id)
	}
	v := make([]float64, len(m.Roles))
	for i, r := range m.Roles {
		v[i] = r.Default
	}
	for name, x := range named {
		v[m.Role(name)] = x
	}
	return m, v
}

// rising returns where a rising function reaches want, between low and high.
func rising(low, high, want float64, f func(x float64) float64) float64 {
	for range 100 {
		if middle := (low + high) / 2; f(middle) < want {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// apart is the distance along the axis of the middles of two balls in a taper,
// or of two discs between straight edges, by taper-ball-depth.
func apart(t *testing.T, halfAngle, small, large float64) float64 {
	middle := func(ball float64) float64 {
		return read(t, "taper-ball-depth", map[string]float64{"mouth": 2 * large, "half-angle": halfAngle, "ball": ball}) + ball/2
	}
	return middle(small) - middle(large)
}

// halfAngleOf finds the half angle again from the distance of two middles,
// which falls as the angle grows.
func halfAngleOf(t *testing.T, distance, small, large float64) float64 {
	return rising(0.1*degree, 80*degree, -distance, func(a float64) float64 { return -apart(t, a, small, large) })
}

func wires(t *testing.T, effective, pitch, degrees, wire float64) float64 {
	return read(t, "three-wires", map[string]float64{"effective": effective, "pitch": pitch, "angle": degrees * degree, "wire": wire})
}

func span(t *testing.T, module, shift, teeth, spanned float64) float64 {
	return read(t, "gear-span", map[string]float64{
		"module": module, "shift": shift, "teeth": teeth, "pressure": 20 * degree, "spanned": spanned,
	})
}

// TestPublishedExamples runs every published figure that a method of the
// catalogue can work out, through the catalogue alone.
func TestPublishedExamples(t *testing.T) {
	for id, work := range publishedWork {
		t.Run(id, func(t *testing.T) {
			e := worked(t, id)
			got := work(t, e)
			for _, f := range e.Expected {
				if value, ok := got[f.Name]; ok {
					printed(t, f, value)
					delete(got, f.Name)
				}
			}
			if len(got) > 0 {
				t.Errorf("worked out but not published: %v", got)
			}
		})
	}
}

// TestWiresOfTheHandbook has the rows of Machinery's Handbook, 31st ed., p.
// 2130 (US form). Its rule M = d - 1.5155 P + 3 w, rounded as there, means an
// effective diameter of d - 1.5155 P + (P/2)·cot 30°.
func TestWiresOfTheHandbook(t *testing.T) {
	for _, row := range certified.Table(t, "examples-data/three_wire_60deg_mh31.csv") {
		d, tpi, wire, us := row[0], row[1], row[2], row[4]
		top, bottom, _ := strings.Cut(d, "/")
		major := certified.Number(t, top) / certified.Number(t, bottom)
		pitch := 1 / certified.Number(t, tpi)
		printed(t, figure{Name: d + "-" + tpi, Value: us},
			wires(t, major-1.5155*pitch+pitch/2/math.Tan(30*degree), pitch, 60, certified.Number(t, wire)))
	}
}

// TestSpanTable has the base tangent lengths of module 1, 20°: handbook tables
// from memory, the file computed.
func TestSpanTable(t *testing.T) {
	for _, row := range certified.Table(t, "examples-data/gear_span_m1_a20.csv") {
		teeth, spanned, length := row[0], row[1], row[2]
		printed(t, figure{Name: "z " + teeth, Value: length}, span(t, 1, 0, certified.Number(t, teeth), certified.Number(t, spanned)))
	}
}
