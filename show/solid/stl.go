package solid

import (
	"bufio"
	"encoding/binary"
	"io"
	"math"

	"codeberg.org/oddleg/oddleg/make/part"
)

// STL writes a part as binary STL, in mm, no face farther off than Chord. The
// header says what it is and what is left out.
func STL(w io.Writer, m *part.Model) error {
	mesh, err := MeshOf(m, Chord)
	if err != nil {
		return err
	}
	return mesh.writeSTL(w)
}

func (m *Mesh) writeSTL(w io.Writer) error {
	out := bufio.NewWriter(w)
	var header [80]byte // must not begin with "solid"
	copy(header[:], "oddleg, mm, "+ThreadsNote)
	out.Write(header[:]) // bufio keeps the first error for Flush
	binary.Write(out, binary.LittleEndian, uint32(len(m.Triangles)))
	for _, t := range m.Triangles {
		a, b, c := m.Points[t[0]], m.Points[t[1]], m.Points[t[2]]
		binary.Write(out, binary.LittleEndian, [][3]float32{normal(a, b, c), a, b, c})
		binary.Write(out, binary.LittleEndian, uint16(0))
	}
	return out.Flush()
}

// normal returns the unit normal of a triangle, nothing for one without area. It
// is worked out in single precision, in which readers check it.
func normal(a, b, c [3]float32) [3]float32 {
	var u, v [3]float32
	for i := range u {
		u[i], v[i] = b[i]-a[i], c[i]-a[i]
	}
	n := [3]float32{
		float32(u[1]*v[2]) - float32(u[2]*v[1]), float32(u[2]*v[0]) - float32(u[0]*v[2]), float32(u[0]*v[1]) - float32(u[1]*v[0]),
	}
	length := math.Hypot(math.Hypot(float64(n[0]), float64(n[1])), float64(n[2]))
	if length == 0 {
		return n
	}
	for i := range n {
		n[i] = float32(float64(n[i]) / length)
	}
	return n
}
