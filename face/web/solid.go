package web

import (
	"bytes"
	"encoding/binary"
	"net/http"
	"strconv"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/show/solid"
)

// solidPages answer for the part as a body that can be turned.
type solidPages struct{ *desk }

func (s *solidPages) routes(t *table) {
	t.on("GET /job/{job}/solid", s.solidPage)
	t.on("GET /job/{job}/solid.bin", s.solidMesh)
}

// solidPage shows the body. What draws it is large, and is loaded by no other
// page.
func (s *solidPages) solidPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "part")
	if err != nil {
		return err
	}
	_, _, err = s.mesh(v)
	l := s.lookAt(r, v, "The part to turn")
	if err == nil {
		l.Scripts = []string{"solid.js"}
	}
	return s.show(w, r, http.StatusOK, solidPage(l, said(faultsOf(err))))
}

// solidMesh sends the body's surface: the numbers of points and of triangles as
// uint32, the points' coordinates in mm as float32, the triangles' corners as
// uint32, anticlockwise seen from outside; all little-endian.
func (s *solidPages) solidMesh(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "part")
	if err != nil {
		return err
	}
	points, triangles, err := s.mesh(v)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	b.Grow(8 + 12*len(points) + 12*len(triangles))
	for _, list := range []any{uint32(len(points)), uint32(len(triangles)), points} {
		if err := binary.Write(&b, binary.LittleEndian, list); err != nil {
			panic("web: a buffer does not take what is written to it")
		}
	}
	for _, t := range triangles {
		for _, corner := range t {
			b.Write(binary.LittleEndian.AppendUint32(nil, uint32(corner)))
		}
	}
	w.Header().Set("Content-Type", "application/octet-stream")
	w.Header().Set("Content-Length", strconv.Itoa(b.Len()))
	_, err = b.WriteTo(w)
	return ignoreGone(r.Context(), err)
}

// mesh returns the surface of a job's part.
func (s *solidPages) mesh(v *jobView) ([][3]float32, [][3]int, error) {
	switch {
	case v.Found == nil:
		return nil, nil, v.Faults.Err()
	case v.worked.Job.Part == nil:
		return nil, nil, trade.Faults{{Text: "this job has no part yet: there is nothing to turn"}}
	}
	model, err := v.Found.Model()
	if err != nil {
		return nil, nil, err
	}
	mesh, err := solid.MeshOf(model, solid.Chord)
	if err != nil {
		return nil, nil, err
	}
	return mesh.Points, mesh.Triangles, nil
}
