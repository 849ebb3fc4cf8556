package gauge

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
)

// published holds the worked examples, each with its source and with whether
// its figures were seen, remembered or constructed.
const published = "../testdata/certified/"

type figure struct {
	Name      string
	Value     string
	Tolerance float64
}

type workedExample struct {
	ID       string
	Inputs   map[string]any
	Expected []figure
	Source   string
}

// in returns a numeric input of the example.
func (e *workedExample) in(t *testing.T, name string) float64 {
	t.Helper()
	switch x := e.Inputs[name].(type) {
	case float64:
		return x
	case uint64:
		return float64(x)
	}
	t.Fatalf("%s has no number %q", e.ID, name)
	return 0
}

func workedExamples(t *testing.T) map[string]*workedExample {
	t.Helper()
	text, err := os.ReadFile(published + "examples.yaml")
	if err != nil {
		t.Fatal(err)
	}
	index := map[string]*workedExample{}
	// entry by entry, and only those of measuring: elsewhere the file has words
	// broken over lines inside braces, which this reader does not take
	for entry := range strings.SplitSeq(string(text), "\n- id: ") {
		if !strings.HasPrefix(entry, "d-") && !strings.HasPrefix(entry, "m-") {
			continue
		}
		e := &workedExample{}
		if err := yaml.Unmarshal([]byte("  id: "+entry), e); err != nil {
			t.Fatal(err)
		}
		index[e.ID] = e
	}
	return index
}

// printed asks for agreement to half a unit in the last printed digit, unless
// the example states a tolerance. The 1e-9 is the rounding of a half itself.
func printed(t *testing.T, f figure, got float64) {
	t.Helper()
	want, err := strconv.ParseFloat(f.Value, 64)
	if err != nil {
		t.Fatal(err)
	}
	tolerance := f.Tolerance
	if tolerance == 0 {
		_, decimals, _ := strings.Cut(f.Value, ".")
		tolerance = 0.5 * math.Pow(10, -float64(len(decimals)))
	}
	if !(math.Abs(got-want) <= tolerance*(1+1e-9)) {
		t.Errorf("%s = %.8g, published %s", f.Name, got, f.Value)
	}
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
	examples := workedExamples(t)
	for id, work := range publishedWork {
		t.Run(id, func(t *testing.T) {
			e := examples[id]
			if e == nil {
				t.Fatal("not among the worked examples")
			}
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
	for _, row := range table(t, "three_wire_60deg_mh31.csv") {
		top, bottom, _ := strings.Cut(row["d"], "/")
		major := number(t, top) / number(t, bottom)
		pitch := 1 / number(t, row["tpi"])
		printed(t, figure{Name: row["d"] + "-" + row["tpi"], Value: row["M_US"]},
			wires(t, major-1.5155*pitch+pitch/2/math.Tan(30*degree), pitch, 60, number(t, row["wire"])))
	}
}

// TestSpanTable has the base tangent lengths of module 1, 20°: handbook tables
// from memory, the file computed.
func TestSpanTable(t *testing.T) {
	for _, row := range table(t, "gear_span_m1_a20.csv") {
		printed(t, figure{Name: "z " + row["z"], Value: row["W"]}, span(t, 1, 0, number(t, row["z"]), number(t, row["k"])))
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open(published + "examples-data/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	if err != nil || len(lines) < 2 {
		t.Fatalf("%s: %d lines, %v", name, len(lines), err)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, cell := range line {
			row[lines[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}
