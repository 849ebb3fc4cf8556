package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// pinOnFace is a method that the catalogue lacks: a narrow step with a pin laid
// on its face, read over both.
var pinOnFace = gauge.Method{
	ID:     "pin-on-face",
	Family: "gauge pieces against round walls",
	When:   "A step too narrow for the jaws: a pin laid along its face, over both.",
	SetUp:  "Lay {pin} along the face of {step} and read over both",
	For:    []gauge.Purpose{{Aim: gauge.UndercutWall, Rank: 8}},
	Words:  []string{"ledge", "shelf"},
	Meets: []gauge.Meeting{
		{Role: "step", Kinds: []trade.SizeKind{trade.Width}, On: trade.Outside, Rank: 2, Untouched: true},
	},
	Roles: []gauge.Role{
		{Name: "step", Symbol: "s", Kind: gauge.AnyLength, Sought: trade.Width},
		{
			Name: "pin", Symbol: "d", Kind: gauge.Diameter,
			Piece: true, Pieces: []trade.PieceKind{trade.Pin, trade.Roller}, Chosen: true,
			Counted: 1, RulesLargest: true, RulesSmallest: true,
		},
	},
	Reads:   unit.Length,
	Jaw:     gauge.Closing,
	Formula: "m = s + d",
	Traps:   []string{"The pin must lie along the whole face."},
	Source:  "geometry: the pin lies on the face",
	Example: []float64{20, 6},
	Model:   func(a gauge.Args) grad.Number { return a[0].Add(a[1]) },
	Sketch: func(v []float64, s *gauge.Sketch) {
		step, pin := v[0], v[1]
		left, face, far := geom.Point{}, geom.Point{X: step}, geom.Point{X: step + pin}
		s.Shapes = append(s.Shapes,
			gauge.Shape{Path: geom.Rectangle(geom.Point{Y: -pin}, geom.Point{X: step, Y: pin}), Kind: gauge.WorkShape},
			gauge.Shape{Path: geom.Circle(geom.Point{X: step + pin/2}, pin/2), Kind: gauge.PieceShape})
		s.Spans = append(s.Spans,
			gauge.Span{Role: gauge.ReadingRole, A: left, B: far, Away: geom.Point{Y: -1}},
			gauge.Span{Role: 0, A: left, B: face, Away: geom.Point{Y: 1}},
			gauge.Span{Role: 1, A: face, B: far, Away: geom.Point{Y: 1}})
	},
}

// stepJob reads a step of 20.43 mm (constructed) over a pin of 6 mm and over one
// of 8 mm, once with the pin counted twice, and once by itself.
const stepJob = `oddleg: 1
job: A narrow step
units: mm
kit:
  mic: {kind: micrometer, resolution: 0.01 mm}
  jaws: {kind: caliper, resolution: 0.02 mm}
  p6: {kind: pin, size: 6 mm, tolerance: 0.002 mm}
  p8: {kind: pin, size: 8 mm, tolerance: 0.002 mm}
sizes:
  ledge: {kind: width, surface: outside}
  lip: {kind: width, surface: outside}
readings:
  - {id: a, by: pin-on-face, of: {step: ledge, pin: p6}, with: mic, saw: [26.43, 26.43]}
  - {id: b, by: pin-on-face, of: {step: ledge, pin: p8}, with: mic, saw: 28.43}
  - {id: c, by: pin-on-face, of: {step: ledge, pin: p6}, with: jaws, saw: 32.44}
  - {id: d, by: outside, of: {size: ledge}, with: jaws, saw: 20.42}
`

// plannedStep is the same before anything is read over the pin of 6 mm.
const plannedStep = `oddleg: 1
job: A narrow step
units: mm
kit:
  mic: {kind: micrometer, resolution: 0.01 mm}
  p6: {kind: pin, size: 6 mm, tolerance: 0.002 mm}
sizes:
  ledge: {kind: width, surface: outside, guess: 20 mm}
readings:
  - {id: a, by: pin-on-face, of: {step: ledge, pin: p6}, with: mic}
`

// TestOneEntryIsEnough adds a method in memory and takes it through every stage:
// all that they say of it comes from its entry.
func TestOneEntryIsEnough(t *testing.T) {
	m := pinOnFace
	t.Cleanup(gauge.Add(&m))
	folder := t.TempDir()
	path := func(name string) string { return filepath.Join(folder, name) }
	write := func(name, text string) string {
		if err := os.WriteFile(path(name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path(name)
	}
	job, planned := write("step.yaml", stepJob), write("planned.yaml", plannedStep)
	wrong := write("wrong.yaml", strings.Replace(stepJob, "step: ledge, pin: p8", "stp: ledge, pin: p8", 1))
	for _, c := range []struct {
		what   string
		args   []string
		status int
		says   []string
	}{
		{"read with a role misspelt", []string{"sizes", wrong}, wrongInput, []string{"pin-on-face", "stp", "step"}},
		{
			"adjusted, and the slip explained",
			[]string{"sizes", job},
			done,
			[]string{"c (pin-on-face)", "p6 counted twice", "ledge 20.430 mm"},
		},
		{"worked", []string{"sizes", job, "--working"}, done, []string{"m = s + d", "= 20.5"}},
		{
			"planned where it was used",
			[]string{"next", job, "--for", "ledge"},
			done,
			[]string{"lay p6 along the face of ledge and read over both with jaws"},
		},
		{
			"planned for a size untouched",
			[]string{"next", job, "--for", "lip"},
			done,
			[]string{"along the face of lip and read over both with mic"},
		},
		{"expected", []string{"expect", planned}, done, []string{"ledge", "±"}},
		{"listed", []string{"methods"}, done, []string{"pin-on-face", "A step too narrow for the jaws"}},
		{"found by a word of its own", []string{"methods", "shelf"}, done, []string{"pin-on-face"}},
		{
			"explained",
			[]string{"methods", m.ID},
			done,
			[]string{"m = 20.0000 + 6.0000", "The pin must lie along the whole face."},
		},
		{"drawn", []string{"methods", m.ID, "--sketch", path("step.svg")}, done, nil},
		{"in the handbook", []string{"methods", "--handbook", path("book")}, done, nil},
		{"on paper", []string{"sheet", job, "--to", path("step.pdf"), "--date", "2026-01-02"}, done, nil},
	} {
		var out bytes.Buffer
		if got := run(c.args, streams{out: &out, complain: &out}); got != c.status {
			t.Errorf("%s: exit status %d, want %d", c.what, got, c.status)
		}
		flat := strings.Join(strings.Fields(out.String()), " ")
		for _, want := range c.says {
			if !strings.Contains(flat, want) {
				t.Errorf("%s: %q is not in\n%s", c.what, want, out.String())
			}
		}
	}
	for name, want := range map[string]string{
		"step.svg": "<svg", "book/gauging.md": "A step too narrow for the jaws", "book/sketches/pin-on-face.svg": "<svg",
	} {
		if text, err := os.ReadFile(path(name)); err != nil || !strings.Contains(string(text), want) {
			t.Errorf("%s: %q is not in it (%v)", name, want, err)
		}
	}
}

// TestOneEntryOfAnInstrumentIsEnough adds an instrument and a gauge piece in
// memory: the job file takes them, readings by them have the error of the entry,
// and they are planned with.
func TestOneEntryOfAnInstrumentIsEnough(t *testing.T) {
	t.Cleanup(gauge.AddInstrument(&gauge.Instrument{
		Kind: "pi-tape", Name: "pi tape", Words: []string{"circumference"}, MPE: 0.02, Jaws: []gauge.Jaw{gauge.Closing},
	}))
	t.Cleanup(gauge.AddPiece(&gauge.Piece{Kind: "disc", Name: "disc", Look: gauge.Cylinder}))
	job := filepath.Join(t.TempDir(), "drum.yaml")
	text := `oddleg: 1
job: A drum
units: mm
kit:
  tape: {kind: pi-tape}
  d10: {kind: disc, size: 10 mm}
sizes:
  drum: {kind: diameter, surface: outside}
  hub: {kind: diameter, surface: outside}
readings:
  - {id: a, by: over-two-pins, of: {wall: drum, pin: d10}, with: tape, saw: 170.31}
`
	if err := os.WriteFile(job, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		says string
	}{
		// 0.02/√6 for the zero and again for the reading, 1.96 of both together: 0.0226
		{[]string{"sizes", job}, "drum 150.310 ± 0.023"},
		{[]string{"next", job, "--for", "hub"}, "hub outside with tape"},
	} {
		var out bytes.Buffer
		if got := run(c.args, streams{out: &out, complain: &out}); got != done {
			t.Errorf("%v: exit status %d", c.args[0], got)
		}
		if flat := strings.Join(strings.Fields(out.String()), " "); !strings.Contains(flat, c.says) {
			t.Errorf("%s: %q is not in\n%s", c.args[0], c.says, out.String())
		}
	}
}
