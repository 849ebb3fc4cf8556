package main

import (
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// speedsCommand says at what speed to start cutting.
type speedsCommand struct {
	Material  string    `arg:"" help:"What is cut: 'mild steel', 'cast iron', EN8, PB1."`
	Diameter  []string  `arg:"" help:"Diameter of the work that turns, or of the drill or cutter: 25mm, 1 1/4 in."`
	Tool      string    `help:"What the tool is made of: HSS, carbide or carbon-steel." default:"HSS"`
	Operation string    `help:"turning, milling, drilling, reaming, tapping, threading." default:"turning"`
	Shop      shopFlags `embed:""`
	JSON      bool      `name:"json" help:"Print the answer as JSON (mm, rev/min)."`
}

// Run prints the speeds.
func (c *speedsCommand) Run(s streams) error {
	var g given
	machine, err := c.Shop.machine(s, &g, c.JSON)
	if err != nil {
		return err
	}
	wanted := lathe.CutWanted{
		Material: c.Material, Operation: c.Operation, Tool: c.Tool,
		Diameter: g.length("the diameter", strings.Join(c.Diameter, " ")), Spindle: machine.Speeds,
	}
	if c.Shop.On != "" && len(machine.Speeds) == 0 && len(g.faults) == 0 {
		g.wrong("--on: the shop does not say which speeds %s has", c.Shop.On)
	}
	var speeds *lathe.CutSpeeds
	if len(g.faults) == 0 {
		if speeds, err = lathe.Speeds(wanted); err != nil {
			g.refused(err)
		}
	}
	if err := g.complain(s, c.JSON); err != nil {
		return err
	}
	return answer{
		says: say.CutSpeeds(speeds, machine.ID),
		json: func(w io.Writer) error { return report.CutSpeedsJSON(w, speeds) },
	}.tell(s, c.JSON)
}
