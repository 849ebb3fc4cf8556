// Package certified gives tests the published and certified examples beside it:
// entries of examples.yaml, each with its inputs and the figures as they were
// printed, and the tables of examples-data. Where a figure comes from, and
// whether it was seen, remembered or constructed, stands beside it in the file.
// What is asked for and is not there ends the test.
package certified

import (
	"embed"
	"encoding/csv"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
)

//go:embed examples.yaml examples-data
var files embed.FS

// Entry is one example.
type Entry struct {
	ID       string
	Inputs   yaml.RawMessage
	Expected []Figure
	Analysis []Residual
}

// Figure is a printed result, in the unit that the file states.
type Figure struct {
	Name              string
	Value             string  // as printed: its digits say how far it is to be trusted
	Tolerance         float64 // 0: half a unit in the last printed digit
	StandardDeviation string  `yaml:"standard_deviation"`
}

// Residual is what is printed of one observation of a network.
type Residual struct {
	Obs        string
	Residual   float64 `yaml:"residual_mm"` // adjusted less observed
	Redundancy float64
	Prior      *float64 `yaml:"w_prior"` // nil where it is not printed
	Posterior  float64  `yaml:"w_posterior"`
	Blunder    *float64 `yaml:"estimated_blunder_mm"` // nil where it is not printed
}

// broken is where a line inside braces runs on in the next one, which the YAML
// reader does not always take.
var broken = regexp.MustCompile(`\n {6}([^ ])`)

// Example returns the entry with this id. It alone is read: the reader does not
// take the file as a whole.
func Example(t testing.TB, id string) *Entry {
	t.Helper()
	_, text, found := strings.Cut("\n"+read(t, "examples.yaml"), "\n- id: "+id+"\n")
	if !found {
		t.Fatalf("no example %s", id)
	}
	text, _, _ = strings.Cut(text, "\n- id: ")
	e := &Entry{ID: id}
	if err := yaml.Unmarshal([]byte(broken.ReplaceAllString(text, " $1")), e); err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	return e
}

// Read reads the inputs into v.
func (e *Entry) Read(t testing.TB, v any) {
	t.Helper()
	if err := yaml.Unmarshal(e.Inputs, v); err != nil {
		t.Fatalf("inputs of %s: %v", e.ID, err)
	}
}

// Figure returns the figure with this name.
func (e *Entry) Figure(t testing.TB, name string) Figure {
	t.Helper()
	for _, f := range e.Expected {
		if f.Name == name {
			return f
		}
	}
	t.Fatalf("%s gives no %s", e.ID, name)
	return Figure{}
}

// Compare checks what was found against the figure with this name.
func (e *Entry) Compare(t testing.TB, name string, got float64) {
	t.Helper()
	e.Figure(t, name).Compare(t, got)
}

// Figures checks what was found against all the figures. None may be left out.
func (e *Entry) Figures(t testing.TB, got map[string]float64) {
	t.Helper()
	for _, f := range e.Expected {
		if value, ok := got[f.Name]; ok {
			f.Compare(t, value)
		} else {
			t.Errorf("%s: %s was not looked at", e.ID, f.Name)
		}
	}
}

// Number returns the printed value.
func (f Figure) Number(t testing.TB) float64 {
	t.Helper()
	return Number(t, f.Value)
}

// Compare checks what was found against the figure: to its tolerance, else to
// half a unit in the last printed digit. The 1e-9 is the rounding of a half.
func (f Figure) Compare(t testing.TB, got float64) {
	t.Helper()
	tolerance := f.Tolerance
	if tolerance == 0 {
		_, decimals, _ := strings.Cut(f.Value, ".")
		tolerance = 0.5 * math.Pow(10, -float64(len(decimals)))
	}
	if !(math.Abs(got-f.Number(t)) <= tolerance*(1+1e-9)) {
		t.Errorf("%s = %.9g, published %s ± %.2g", f.Name, got, f.Value, tolerance)
	}
}

// Number returns the number that a printed text states.
func Number(t testing.TB, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Table returns the rows of a data file without its header. The path is the one
// that entries state, such as examples-data/gum_table_g2.csv.
func Table(t testing.TB, path string) [][]string {
	t.Helper()
	reader := csv.NewReader(strings.NewReader(read(t, path)))
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d lines, %v", path, len(rows), err)
	}
	return rows[1:]
}

func read(t testing.TB, path string) string {
	t.Helper()
	text, err := files.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
