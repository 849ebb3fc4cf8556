package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
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
