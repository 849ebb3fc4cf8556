package main

import (
	"io"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// indexCommand says how to divide a circle.
type indexCommand struct {
	Wanted    []string  `arg:"" name:"step" help:"How many divisions, 42, or the angle of one step, 17.5deg."`
	Ratio     int       `help:"Turns of the handle for one turn of the table; 0: as the shop says, or 40." placeholder:"40"`
	Plates    string    `help:"Hole circles of the plates; the usual three plates where neither they nor a shop are given." placeholder:"15-20,21,23"`
	Gears     string    `help:"Gears for differential dividing, by their teeth; one written twice is there twice." placeholder:"24,24,28,32"`
	Divisions int       `help:"Divisions of the dial on the handle." placeholder:"100"`
	Shop      shopFlags `embed:""`
	JSON      bool      `name:"json" help:"Print the answer as JSON (degrees)."`
}

// What is taken where no table is known (common practice, no source).
const (
	usualRatio  = 40
	usualPlates = "15-21,23,27,29,31,33,37,39,41,43,47,49"
	usualText   = "no plates were given: these are the usual three, " + usualPlates
)

// Run prints the moves of the handle.
func (c *indexCommand) Run(s streams) error {
	var g given
	machine, err := c.Shop.machine(s, &g, c.JSON)
	if err != nil {
		return err
	}
	table, wanted := c.table(machine, &g), c.wanted(&g)
	var divided *lathe.Dividing
	if len(g.faults) == 0 {
		if divided, err = lathe.Divide(table, wanted); err != nil {
			g.refused(err)
		}
	}
	if err := g.complain(s, c.JSON); err != nil {
		return err
	}
	assumed := ""
	if c.assumes(machine) {
		assumed = usualText
	}
	return answer{
		says: say.Dividing(divided, assumed),
		json: func(w io.Writer) error { return report.DividingJSON(w, divided) },
	}.tell(s, c.JSON)
}

// table returns the table of a machine with what the flags say of it in place.
func (c *indexCommand) table(machine *trade.Machinery, g *given) *trade.RotaryTable {
	table := &trade.RotaryTable{}
	switch {
	case machine.Table != nil:
		*table = *machine.Table
	case machine.ID != "":
		g.wrong("--on: %s has no rotary table or dividing head", machine.ID)
	case c.assumes(machine):
		table.Plates = g.wholes("--plates", usualPlates)
	}
	if c.Ratio != 0 {
		table.Ratio = c.Ratio
	} else if table.Ratio == 0 {
		table.Ratio = usualRatio
	}
	if c.Plates != "" {
		table.Plates = g.wholes("--plates", c.Plates)
	}
	if c.Gears != "" {
		table.Gears = g.wholes("--gears", c.Gears)
	}
	if c.Divisions != 0 {
		table.Divisions = c.Divisions
	}
	return table
}

// assumes reports whether nothing is known of the table.
func (c *indexCommand) assumes(machine *trade.Machinery) bool {
	return machine.Table == nil && c.Plates == "" && c.Divisions == 0
}

// wanted reads a bare number as divisions, and what has a unit as an angle.
func (c *indexCommand) wanted(g *given) lathe.DividingWanted {
	text := strings.Join(c.Wanted, " ")
	if count, err := strconv.Atoi(text); err == nil {
		return lathe.DividingWanted{Count: count}
	}
	if _, err := unit.ParseNumber(text); err == nil {
		g.wrong("%q: a whole number of divisions is wanted, 42, or an angle with its unit, 17.5deg", text)
		return lathe.DividingWanted{}
	}
	q, err := unit.ParseAngle(text)
	if err != nil {
		g.wrong("%v", err)
	}
	return lathe.DividingWanted{Angle: q}
}
