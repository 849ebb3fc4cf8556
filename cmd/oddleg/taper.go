package main

import (
	"io"
	"math"

	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// taperCommand says which taper a worn one was.
type taperCommand struct {
	HalfAngle string       `help:"Half angle, or the taper: 1.49deg, 0.6 in/ft, 1:20." required:"" placeholder:"1.49deg"`
	U         string       `name:"u" help:"Standard uncertainty of the half angle." default:"0.02deg"`
	Diameter  string       `help:"Diameter of the taper." placeholder:"23.8mm"`
	DiameterU string       `help:"Standard uncertainty of --diameter." default:"0.02mm"`
	At        string       `help:"How far from the large end the diameter was read; at the large end if left out." placeholder:"10mm"`
	Make      string       `help:"How closely the first maker worked on diameters, as a standard deviation." default:"0.03mm"`
	Machine   machineFlags `embed:""`
	JSON      bool         `name:"json" help:"Print the answer as JSON (mm, degrees)."`
}

// Run prints what the taper may have been.
func (c *taperCommand) Run(s streams) error {
	var g given
	seen := series.TaperSeen{
		HalfAngle: measured(g.angle("--half-angle", c.HalfAngle, true), g.angle("--u", c.U, false)),
		Diameter:  measured(g.length("--diameter", c.Diameter), g.length("--diameter-u", c.DiameterU)),
		At:        g.length("--at", c.At),
		Make:      g.length("--make", c.Make),
		Machine:   c.Machine.machine(&g),
	}
	if c.At != "" && c.Diameter == "" {
		g.wrong("--at says where a diameter was read: give --diameter too")
	}
	if seen.HalfAngle.Value >= math.Pi/2 {
		g.wrong("--half-angle: %s is no taper: a half angle is less than 90°", c.HalfAngle)
	}
	if err := g.complain(s, c.JSON); err != nil {
		return err
	}
	found := series.FindTaper(seen)
	return answer{
		says: say.Taper(found),
		json: func(w io.Writer) error { return report.TaperJSON(w, found) },
	}.tell(s, c.JSON)
}
