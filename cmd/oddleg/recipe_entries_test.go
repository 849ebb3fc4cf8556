package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// asked is a command with what must be in its answer.
type asked struct {
	args []string
	says []string
}

// askAll writes a job to a file and asks the program about it: FILE in the commands
// is that file.
func askAll(t *testing.T, job string, list []asked) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "job.yaml")
	if err := os.WriteFile(file, []byte(job), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range list {
		for i := range c.args {
			c.args[i] = strings.Replace(c.args[i], "FILE", file, 1)
		}
		var out bytes.Buffer
		if got := run(c.args, streams{out: &out, complain: &out}); got != done {
			t.Errorf("%v: exit status %d", c.args, got)
		}
		flat := strings.Join(strings.Fields(out.String()), " ")
		for _, want := range c.says {
			if !strings.Contains(flat, want) {
				t.Errorf("%v: %q is not in\n%s", c.args, want, out.String())
			}
		}
	}
}

// pinSnaps is a way of giving that the catalogue lacks: a long pin of brittle metal
// snaps between what it holds together.
var pinSnaps = strength.Failure{
	Piece: strength.Pin, Mode: "snaps",
	When:    "A long pin snaps between what it holds together.",
	Formula: "F = R·d³/l",
	Source:  "constructed",
	By:      []strength.Property{strength.Tensile},
	Assumes: []string{"a long pin is taken to snap in its middle"},
	Roles: []strength.Role{
		{Name: "tensile strength", Symbol: "R", Unit: "MPa"},
		{Name: "diameter", Symbol: "d", Unit: "mm"},
		{Name: "length", Symbol: "l", Unit: "mm"},
	},
	Take: func(l *strength.Loaded) (least, most []float64) {
		v := []float64{l.Sheared.Diameter.Inside(), l.Sheared.Length.Inside()}
		return v, v
	},
	Model: func(a strength.Args) grad.Number { return a[0].Mul(a[1].Mul(a[1].Sq())).Div(a[2]) },
	How: func(_ *strength.Loaded, v []float64, _ float64) unit.Text {
		return unit.Say("%.0f MPa, %.0f mm long", v[0], v[2])
	},
	Example: []float64{360, 6, 30},
}

// TestOneEntryOfAWayIsEnough adds a way of giving in memory: it counts in the order of
// what goes first, as the fuse, in every form of the answer. By hand: 360 MPa of the
// brass, 360·6³/30 N; on a radius of 60 mm 155.52 N m.
func TestOneEntryOfAWayIsEnough(t *testing.T) {
	f := pinSnaps
	t.Cleanup(strength.Add(&f))
	const job = `oddleg: 1
job: A pin in a lever
units: mm
joints:
  - id: lever
    sheared: [{id: peg, kind: pin, diameter: 6 mm, length: 30 mm, at: 60 mm, material: CZ121}]
    service: 900 N
    fuse: peg
`
	askAll(t, job, []asked{
		{[]string{"fit", "FILE"}, []string{
			"peg snaps, as meant", "2.6 kN", "360 MPa, 30 mm long", "The peg snaps first, at 2.6 kN (a torque of 156 N m).",
			"It holds 2.9 times the load in service", "a long pin is taken to snap in its middle",
		}},
		{[]string{"fit", "FILE", "--json"}, []string{
			`"piece": "peg", "mode": "snaps", "load_n": 2592, "margin": 1, "fuse": true`, `"torque_n_mm": 155520`,
		}},
		{[]string{"sheet", "FILE", "--date", "2026-01-02"}, []string{"wrote"}},
	})
}

// tailstock is a survey that the catalogue lacks: how much higher the tailstock stands
// than the headstock.
var tailstock = survey.Kind{
	Name:   "tailstock-height",
	Title:  "Height of a tailstock",
	Says:   "Whether a bar between centres lies level, by a dial along its top.",
	Source: "constructed",
	Keys: []survey.Key{
		{Name: "head", Sort: survey.Readings, Obligatory: true, Say: "dial on top at the headstock"},
		{Name: "tail", Sort: survey.Readings, Obligatory: true, Say: "dial on top at the tailstock"},
		{Name: "packed", Beside: "tail", Say: "height of the packing there is"},
	},
	Work: func(l *survey.Look) error {
		higher, err := l.Difference("tail", "head")
		if err != nil {
			return err
		}
		l.Find("rise", higher, "tailstock higher by").Wears = true
		l.JudgeSize("height of the tailstock", higher)
		l.Advise("Take %s of packing out.", unit.LengthOf(higher.Value))
		l.Answer.Plot = survey.Plot{X: "along the bed", Y: "axis higher", Series: []survey.Series{{
			Name: "axis", Points: []geom.Point{{}, {X: 400, Y: higher.Value}}, U: []float64{0, higher.U},
		}}}
		return nil
	},
	Finds:  []string{"rise"},
	Judged: "rise",
}

// TestOneEntryOfASurveyIsEnough adds a kind of survey in memory: the job file takes it,
// it is worked out, judged, drawn and makes a trend, and help and schema know it. By
// hand: 0.05 - 0.01 and 0.064 - 0.014 mm; each reading scatters by 0.003 mm, so that u =
// 0.003·√2, 0.0083 with 95 %.
func TestOneEntryOfASurveyIsEnough(t *testing.T) {
	k := tailstock
	t.Cleanup(survey.Add(&k))
	const job = `oddleg: 1
job: An old lathe
units: mm
kit:
  clock: {kind: dial, zero: 0.002 mm, repeat: 0.003 mm}
surveys:
  - {id: first, kind: tailstock-height, date: 2020-03-01, with: clock, within: 0.08 mm, head: 0.01, tail: 0.05}
  - {id: now, kind: tailstock-height, date: 2024-03-01, with: clock, within: 0.08 mm, head: 0.014, tail: 0.064, packed: 1}
`
	pictures := filepath.Join(t.TempDir(), "pictures")
	askAll(t, job, []asked{
		{[]string{"upkeep", "FILE", "--pictures", pictures}, []string{
			"Height of a tailstock, first, 2020-03-01", "tailstock higher by 0.0400 ± 0.0083", "tailstock higher by 0.0500 ± 0.0083",
			"Take 0.050 mm of packing out.", "height of a tailstock", "look again",
		}},
		{[]string{"upkeep", "FILE", "--json"}, []string{`"kind": "tailstock-height"`, `"key": "rise"`}},
		{[]string{"help", "job", "surveys"}, []string{"ram, dovetail, tailstock-height", "With kind tailstock-height: dial on top at the headstock"}},
		{[]string{"help", "job", "--schema"}, []string{`"tailstock-height"`, `"packed"`}},
		{[]string{"sheet", "FILE", "--date", "2026-01-02"}, []string{"wrote"}},
	})
	for _, name := range []string{"1-first.svg", "2-now.svg", "wear-tailstock-height-height-of-a-tailstock.svg"} {
		if text, err := os.ReadFile(filepath.Join(pictures, name)); err != nil || !bytes.Contains(text, []byte("<svg")) {
			t.Errorf("no picture %s (%v)", name, err)
		}
	}
}

// TestWhatASurveyLacksIsSaid: a key that stands beside another asks for it, as its entry
// has it.
func TestWhatASurveyLacksIsSaid(t *testing.T) {
	k := tailstock
	k.Keys = append([]survey.Key{}, k.Keys...)
	k.Keys[1].Obligatory = false
	t.Cleanup(survey.Add(&k))
	file := filepath.Join(t.TempDir(), "job.yaml")
	const job = "oddleg: 1\njob: J\nunits: mm\nkit: {clock: {kind: dial}}\nsurveys:\n" +
		"  - {kind: tailstock-height, date: 2024-03-01, with: clock, head: 0.01, packed: 1}\n"
	if err := os.WriteFile(file, []byte(job), 0o600); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if got := run([]string{"upkeep", file}, streams{out: &out, complain: &out}); got != wrongInput || !strings.Contains(out.String(), `"tail"`) {
		t.Errorf("exit status %d: %s", got, out.String())
	}
}

// spacer is a kind of part that the catalogue lacks: a bush by another name, whose sizes
// say what they are.
var spacer = part.Kind{
	PartWord: trade.PartWord{Kind: "spacer", Called: "spacer ring"},
	Plain: &part.PlainShape{
		Sizes: []string{"outer", "hole", "thick"},
		Shape: func(called func(string) trade.Measure) trade.Shape {
			return trade.Shape{Bush: &trade.BushShape{Outside: called("outer"), Inside: called("hole"), Length: called("thick")}}
		},
	},
}

// TestOneEntryOfAPartIsEnough adds a kind of part in memory: the job file takes it, and
// it is made out, drawn, written as a solid, planned, inspected and told in help and
// schema.
func TestOneEntryOfAPartIsEnough(t *testing.T) {
	k := spacer
	t.Cleanup(part.Add(&k))
	const job = `oddleg: 1
job: A ring between two wheels
units: mm
kit: {mic: {kind: micrometer}, jaws: {kind: caliper}}
sizes: {shaft: {kind: diameter, surface: outside}}
readings: [{id: a, by: outside, of: {size: shaft}, with: mic, saw: 20.01}]
part:
  name: Distance ring
  kind: spacer
  material: 080M40
  sizes:
    hole: {kind: diameter, surface: inside, goes-over: shaft, clearance: 0.02..0.08 mm}
    outer: {kind: diameter, surface: outside, is: 32 mm}
    thick: {kind: length, is: 6.3 mm}
`
	folder := t.TempDir()
	drawing, solid := filepath.Join(folder, "ring.svg"), filepath.Join(folder, "ring.stl")
	askAll(t, job, []asked{
		{[]string{"fit", "FILE"}, []string{"hole"}},
		{[]string{"draw", "FILE", "--to", drawing, "--date", "2026-01-02"}, nil},
		{[]string{"draw", "FILE", "--to", solid, "--date", "2026-01-02"}, nil},
		{[]string{"setup", "FILE"}, []string{"Stock"}},
		{[]string{"check", "FILE"}, []string{"Distance ring: spacer, 080M40", "hole: read it inside, with jaws"}},
		{[]string{"help", "job", "part"}, []string{"gib, washer, spacer"}},
		{[]string{"help", "job", "--schema"}, []string{`"spacer"`}},
		{[]string{"sheet", "FILE", "--date", "2026-01-02"}, []string{"wrote"}},
	})
	if text, err := os.ReadFile(drawing); err != nil || !bytes.Contains(text, []byte("Distance ring")) {
		t.Errorf("no drawing of the ring (%v)", err)
	}
	if _, err := os.Stat(solid); err != nil {
		t.Error(err)
	}
}
