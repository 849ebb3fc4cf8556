// Package solid writes a part as a body for other programs: as triangles in STL
// and 3MF, and exactly in STEP.
//
// Meshes are closed, wind anticlockwise seen from outside and lie within a
// chord's error of the part. Threads are plain cylinders, of their major
// diameter outside and of the minor one inside; every file says so. Lengths are
// in mm. A turned part lies along x, a prism stands on z = 0. The same part gives
// the same bytes; no file holds a date.
package solid

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
)

// ThreadsNote is what every file says of threads.
const ThreadsNote = "threads are plain cylinders: major outside, minor inside"

// Chord is how far triangles may lie off a round face, in mm, unless it is said
// otherwise.
const Chord = 0.02

// grid is what points are rounded to, 2⁻¹² mm: far below a chord's error, and up
// to 4 m exact in the single precision that STL keeps. Points that fall together
// are one, so that rounding leaves no slivers.
const grid = 1.0 / 4096

// point is a place in space, in mm, on the grid.
type point [3]float32

// Mesh is a closed surface of triangles.
type Mesh struct {
	Points    [][3]float32
	Triangles [][3]int // indices of points, anticlockwise seen from outside

	index map[point]int
	chord float64
}

// MeshOf returns the surface of a part, no face farther off than chord. The
// error, an trade.Faults, names a feature that cannot be meshed.
func MeshOf(m *part.Model, chord float64) (*Mesh, error) {
	mesh := &Mesh{index: map[point]int{}, chord: chord}
	var faults trade.Faults
	if m.Turned != nil {
		faults = mesh.turned(m.Turned)
	} else {
		faults = mesh.prism(m.Prism)
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return mesh, nil
}

// Volume returns the volume inside the surface in mm³, by the divergence
// theorem.
func (m *Mesh) Volume() float64 {
	sum := 0.0
	for _, t := range m.Triangles {
		a, b, c := m.wide(t[0]), m.wide(t[1]), m.wide(t[2])
		sum += a[0]*(b[1]*c[2]-b[2]*c[1]) + a[1]*(b[2]*c[0]-b[0]*c[2]) + a[2]*(b[0]*c[1]-b[1]*c[0])
	}
	return sum / 6
}

// wide returns a point in double precision.
func (m *Mesh) wide(i int) [3]float64 {
	p := m.Points[i]
	return [3]float64{float64(p[0]), float64(p[1]), float64(p[2])}
}

// at returns a point by its coordinates.
func at(x, y, z float64) point { return point{onGrid(x), onGrid(y), onGrid(z)} }

func onGrid(x float64) float32 { return float32(math.Round(x/grid) * grid) }

// number returns the index of a point, a new one where it is not there yet.
func (m *Mesh) number(p point) int {
	i, known := m.index[p]
	if !known {
		i = len(m.Points)
		m.index[p] = i
		m.Points = append(m.Points, p)
	}
	return i
}

// triangle adds a triangle, unless two of its corners are one: its neighbours
// then join each other.
func (m *Mesh) triangle(a, b, c point) {
	if a != b && b != c && c != a {
		m.Triangles = append(m.Triangles, [3]int{m.number(a), m.number(b), m.number(c)})
	}
}

// quad adds a face with four corners.
func (m *Mesh) quad(a, b, c, d point) {
	m.triangle(a, b, c)
	m.triangle(a, c, d)
}

// strip adds the faces between two chains of points that run the same way;
// places say how far along each point is. Seen from outside the first chain is
// to the left of the way they run where the second is to the right: the faces
// wind from the first chain to the second and onwards.
func (m *Mesh) strip(first, second chain) {
	i, j := 0, 0
	for i < len(first)-1 || j < len(second)-1 {
		if j == len(second)-1 || i < len(first)-1 && first[i+1].place <= second[j+1].place {
			m.triangle(first[i].point, second[j].point, first[i+1].point)
			i++
			continue
		}
		m.triangle(first[i].point, second[j].point, second[j+1].point)
		j++
	}
}

// chain is a row of points.
type chain []link

type link struct {
	point
	place float64
}
