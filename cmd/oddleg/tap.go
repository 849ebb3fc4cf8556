package main

import (
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// tapCommand says what to drill for a tap, and how to cut the thread instead.
type tapCommand struct {
	Thread     []string  `arg:"" help:"The thread as the tables have it: '7/16 BSW', M10, '2 BA'."`
	Engagement float64   `help:"How much of the full thread, per cent." default:"75"`
	Screwcut   bool      `help:"Say how to cut it on the lathe too."`
	Inside     bool      `help:"With --screwcut: a nut or a bored hole."`
	Left       bool      `help:"It is left-handed."`
	FirstCut   string    `help:"With --screwcut: depth of the first pass, at most." placeholder:"0.2mm"`
	Wire       string    `help:"With --screwcut: measuring wires at hand; else the best." placeholder:"0.9mm"`
	Shop       shopFlags `embed:""`
	JSON       bool      `name:"json" help:"Print the answer as JSON (mm, degrees)."`
}

// Run prints the holes, and the passes if they are asked for.
func (c *tapCommand) Run(s streams) error {
	var g given
	machine, err := c.Shop.machine(s, &g, c.JSON)
	if err != nil {
		return err
	}
	tap := c.tap(&g, machine)
	if err := g.complain(s, c.JSON); err != nil {
		return err
	}
	return answer{
		says: say.Tap(tap),
		json: func(w io.Writer) error { return report.TapJSON(w, tap) },
	}.tell(s, c.JSON)
}

// tap works out what is asked for.
func (c *tapCommand) tap(g *given, machine *trade.Machinery) say.Tapping {
	first, wire := g.length("--first-cut", c.FirstCut), g.length("--wire", c.Wire)
	thread, err := facts.ThreadNamed(strings.Join(c.Thread, " "))
	if err != nil {
		g.refused(err)
		return say.Tapping{}
	}
	tap := say.Tapping{Sheet: series.ThreadSheet(thread), Left: c.Left}
	if tap.Holes, err = lathe.TapHoles(tap.Sheet, c.Engagement); err != nil && !c.Screwcut {
		g.refused(err)
	}
	if !c.Screwcut {
		if c.Inside || first > 0 || wire > 0 {
			g.wrong("--inside, --first-cut and --wire go with --screwcut")
		}
		return tap
	}
	tap.Cutting, err = lathe.CutThread(lathe.ThreadWanted{
		Thread: thread, Inside: c.Inside, Left: c.Left, FirstCut: first, Wire: wire, Lathe: machine,
	})
	if err != nil {
		g.refused(err)
	}
	return tap
}
