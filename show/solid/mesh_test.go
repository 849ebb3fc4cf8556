package solid

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/testdata/parttest"
)

// random calls f with models of each kind.
func random(t *testing.T, each int, f func(t *testing.T, m *part.Model)) {
	t.Helper()
	for _, kind := range trade.PartKinds() {
		t.Run(string(kind), func(t *testing.T) {
			r := rand.New(rand.NewPCG(3, 4))
			for range each {
				model, err := part.Build(parttest.Job(r, kind), nil, nil)
				if err != nil {
					t.Fatal(err)
				}
				f(t, model)
			}
		})
	}
}

// open returns how many edges of a mesh have not one face on either side.
func open(m *Mesh) int {
	sides := map[[2]int]int{}
	for _, t := range m.Triangles {
		for i := range t {
			sides[[2]int{t[i], t[(i+1)%3]}]++
		}
	}
	count := 0
	for e, n := range sides {
		if n != 1 || sides[[2]int{e[1], e[0]}] != 1 {
			count++
		}
	}
	return count
}

// TestMeshesAreClosed checks that every edge has a face on either side, and that
// the volume is that of the closed formulas but for what chords cut off: at most
// the chord's error times the surface.
func TestMeshesAreClosed(t *testing.T) {
	random(t, 30, func(t *testing.T, m *part.Model) {
		const chord = 0.005
		mesh, err := MeshOf(m, chord)
		if err != nil {
			t.Fatal(err)
		}
		if n := open(mesh); n > 0 {
			t.Errorf("%d open edges of %d faces", n, len(mesh.Triangles))
		}
		if off := math.Abs(mesh.Volume() - m.Volume()); !(off <= chord*mesh.surface()) {
			t.Errorf("volume %v, by formula %v: more than a chord off, %v of %v", mesh.Volume(), m.Volume(), off, chord*mesh.surface())
		}
	})
}

func (m *Mesh) surface() float64 {
	sum := 0.0
	for _, t := range m.Triangles {
		a, b, c := m.wide(t[0]), m.wide(t[1]), m.wide(t[2])
		var u, v [3]float64
		for i := range u {
			u[i], v[i] = b[i]-a[i], c[i]-a[i]
		}
		sum += math.Sqrt(math.Pow(u[1]*v[2]-u[2]*v[1], 2)+math.Pow(u[2]*v[0]-u[0]*v[2], 2)+math.Pow(u[0]*v[1]-u[1]*v[0], 2)) / 2
	}
	return sum
}
