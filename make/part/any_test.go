package part_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/solid"
	"codeberg.org/oddleg/oddleg/testdata/parttest"
)

// TestAnyShape changes shapes that can be made into any others. Each is either
// refused, or made whole: with dimensions that measure what they say and a closed
// surface round a volume that the formulas give too.
func TestAnyShape(t *testing.T) {
	const tries = 100
	for _, kind := range trade.PartKinds() {
		t.Run(string(kind), func(t *testing.T) {
			r := rand.New(rand.NewPCG(11, 12))
			made := 0
			for range tries {
				job := parttest.Job(r, kind)
				disturb(r, reflect.ValueOf(&job.Part.Shape).Elem(), 0.08)
				m, err := part.Build(job, nil, nil)
				if err != nil {
					continue
				}
				made++
				checkDimensions(t, m)
				mesh, err := solid.MeshOf(m, 0.02)
				if err != nil {
					continue // a cross hole over an edge
				}
				if !closed(mesh) {
					t.Fatalf("the surface is not closed\n%+v %+v", m.Turned, m.Prism)
				}
				if off := math.Abs(mesh.Volume() - m.Volume()); !(off < 0.03*m.Volume()+0.5) || m.Volume() <= 0 {
					t.Fatalf("mesh %v, formula %v\n%+v %+v", mesh.Volume(), m.Volume(), m.Turned, m.Prism)
				}
			}
			t.Logf("%d of %d made", made, tries)
		})
	}
}

// closed reports whether every edge of a surface has one face on either side.
func closed(m *solid.Mesh) bool {
	sides := map[[2]int]int{}
	for _, t := range m.Triangles {
		for i := range t {
			sides[[2]int{t[i], t[(i+1)%3]}]++
		}
	}
	for e, n := range sides {
		if n != 1 || sides[[2]int{e[1], e[0]}] != 1 {
			return false
		}
	}
	return true
}

// disturb changes some of the measures in a value to any other.
func disturb(r *rand.Rand, v reflect.Value, chance float64) {
	if m, ok := v.Addr().Interface().(*trade.Measure); ok {
		if m.Given() && r.Float64() < chance {
			*m = anyMeasure(r, *m)
		}
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			disturb(r, v.Elem(), chance)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				disturb(r, v.Field(i), chance)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			disturb(r, v.Index(i), chance)
		}
	}
}

func anyMeasure(r *rand.Rand, m trade.Measure) trade.Measure {
	if r.IntN(12) == 0 {
		return trade.Measure{ID: "nowhere"}
	}
	if !m.Value.Given() || m.Value.Dimension() == unit.Angle {
		return m
	}
	hundredths := int64(100 * m.Value.Inside() * math.Exp(0.7*r.NormFloat64()))
	q, err := unit.New(max(1, hundredths), 100, unit.Millimetre)
	if err != nil {
		return m
	}
	return trade.Measure{Value: q}
}
