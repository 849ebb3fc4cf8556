package solid

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"codeberg.org/oddleg/oddleg/testdata/oracle"
	"codeberg.org/oddleg/oddleg/testdata/parttest"
)

// TestAdmeshFindsNothingToMend has admesh look at parts at random of all kinds.
func TestAdmeshFindsNothingToMend(t *testing.T) {
	admesh := oracle.Find(t, "admesh", "admesh")
	r := rand.New(rand.NewPCG(5, 6))
	file := filepath.Join(t.TempDir(), "part.stl")
	for range 100 {
		m := parttest.Model(r)
		var b bytes.Buffer
		if err := STL(&b, m); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		report := string(admesh.Output(t, nil, file))
		mended(t, report)
		volume := number(t, report, `Volume *: *([-0-9.]+)`)
		if !(math.Abs(volume-m.Volume()) <= 0.01*m.Volume()) {
			t.Errorf("admesh finds %v, by formula %v", volume, m.Volume())
		}
	}
}

// mended fails where a report counts anything mended.
func mended(t *testing.T, report string) {
	t.Helper()
	for _, name := range []string{
		"Total disconnected facets", "Degenerate facets", "Edges fixed", "Facets removed",
		"Facets added", "Facets reversed", "Backwards edges", "Normals fixed",
	} {
		pattern := regexp.QuoteMeta(name) + ` *: *([0-9]+)`
		if name == "Total disconnected facets" {
			pattern = regexp.QuoteMeta(name) + ` *: *([0-9]+) `
		}
		if n := number(t, report, pattern); n != 0 {
			t.Fatalf("%s: %v\n%s", name, n, report)
		}
	}
}

func number(t *testing.T, text, pattern string) float64 {
	t.Helper()
	hit := regexp.MustCompile(pattern).FindStringSubmatch(text)
	if hit == nil {
		t.Fatalf("no %s in\n%s", pattern, text)
	}
	x, err := strconv.ParseFloat(hit[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestThreeMF reads a package back: its parts, its XML and the mesh in it.
func TestThreeMF(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 10 {
		m := parttest.Model(r)
		m.Name = `Plunger <"A" & B>`
		var first, second bytes.Buffer
		if err := ThreeMF(&first, m); err != nil {
			t.Fatal(err)
		}
		if err := ThreeMF(&second, m); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("not the same twice: %v", err)
		}
		read, title := readModel(t, first.Bytes())
		mesh, err := MeshOf(m, Chord)
		if err != nil || title != m.Name {
			t.Fatalf("title %q, %v", title, err)
		}
		if got, want := read.Volume(), mesh.Volume(); got != want || open(read) != 0 {
			t.Errorf("the file's mesh holds %v, the part's %v", got, want)
		}
	}
}

// readModel reads the mesh and the title of a 3MF package.
func readModel(t *testing.T, data []byte) (*Mesh, string) {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	names := []string{"[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"}
	var model struct {
		XMLName  xml.Name `xml:"http://schemas.microsoft.com/3dmanufacturing/core/2015/02 model"`
		Unit     string   `xml:"unit,attr"`
		Metadata []string `xml:"metadata"`
		Vertices []struct {
			X float32 `xml:"x,attr"`
			Y float32 `xml:"y,attr"`
			Z float32 `xml:"z,attr"`
		} `xml:"resources>object>mesh>vertices>vertex"`
		Triangles []struct {
			A int `xml:"v1,attr"`
			B int `xml:"v2,attr"`
			C int `xml:"v3,attr"`
		} `xml:"resources>object>mesh>triangles>triangle"`
	}
	for i, name := range names {
		file, err := archive.File[i].Open()
		if err != nil || archive.File[i].Name != name {
			t.Fatalf("%s: %v", archive.File[i].Name, err)
		}
		text, err := io.ReadAll(file)
		if err != nil {
			t.Fatal(err)
		}
		var any struct{}
		if err := xml.Unmarshal(text, &any); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if name == names[2] {
			if err := xml.Unmarshal(text, &model); err != nil || model.Unit != "millimeter" {
				t.Fatal(model.Unit, err)
			}
		}
	}
	mesh := &Mesh{}
	for _, v := range model.Vertices {
		mesh.Points = append(mesh.Points, [3]float32{v.X, v.Y, v.Z})
	}
	for _, v := range model.Triangles {
		mesh.Triangles = append(mesh.Triangles, [3]int{v.A, v.B, v.C})
	}
	return mesh, model.Metadata[0]
}
