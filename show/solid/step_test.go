package solid

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
	"codeberg.org/oddleg/oddleg/testdata/parttest"
)

// readByGmsh reads STEP files with the OpenCASCADE kernel of gmsh and prints how
// many solids are in each and their volume.
const readByGmsh = `
import sys, json, gmsh
gmsh.initialize()
gmsh.option.setNumber("General.Terminal", 0)
gmsh.option.setNumber("Geometry.OCCFixDegenerated", 0)
answers = []
for file in sys.argv[1:]:
    gmsh.clear()
    solids = [tag for dim, tag in gmsh.model.occ.importShapes(file) if dim == 3]
    answers.append([len(solids), sum(gmsh.model.occ.getMass(3, tag) for tag in solids)])
print(json.dumps(answers))
`

// TestSTEPByGmsh compares the volumes that another kernel finds in the files
// with the closed formulas, and asks that most parts can be written at all.
func TestSTEPByGmsh(t *testing.T) {
	gmsh := oracle.Python(t, "gmsh")
	folder := t.TempDir()
	var files []string
	var models []*part.Model
	for _, kind := range trade.PartKinds() {
		r := rand.New(rand.NewPCG(9, 10))
		written := 0
		for range 100 {
			m, err := part.Build(parttest.Job(r, kind), nil, nil)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if err := STEP(&b, m); err != nil {
				continue
			}
			file := filepath.Join(folder, string(kind)+strconv.Itoa(written)+".step")
			if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
			files, models = append(files, file), append(models, m)
			if written++; written == 10 {
				break
			}
		}
		if written < 10 {
			t.Errorf("only %d of 100 parts of kind %s can be written", written, kind)
		}
	}
	out := gmsh.Output(t, nil, append([]string{"-c", readByGmsh}, files...)...)
	var answers [][2]float64
	last := out[strings.LastIndex(strings.TrimSpace(string(out)), "\n")+1:]
	if err := json.Unmarshal(last, &answers); err != nil || len(answers) != len(files) {
		t.Fatalf("%v: %s", err, out)
	}
	for i, a := range answers {
		if want := models[i].Volume(); a[0] != 1 || !(math.Abs(a[1]-want) <= 1e-9*want) {
			t.Errorf("%s: %v solids of %v, by formula %v\n%+v", filepath.Base(files[i]), a[0], a[1], want, models[i].Turned)
		}
	}
}
