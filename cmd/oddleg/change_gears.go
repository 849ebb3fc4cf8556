package main

import (
	"errors"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// changeGearsCommand finds the change gears for a thread.
type changeGearsCommand struct {
	Wanted     []string  `arg:"" optional:"" name:"pitch" help:"The thread's pitch: '14 tpi', 1.25mm."`
	Thread     string    `help:"The same as the pitch." placeholder:"'14 tpi'"`
	Feed       string    `help:"A feed for one turn of the spindle instead: any train within 5 per cent will do." placeholder:"0.1mm"`
	Starts     int       `help:"Starts of the thread." default:"1"`
	Leadscrew  string    `help:"Pitch of the leadscrew." placeholder:"'8 tpi'"`
	FixedRatio string    `help:"Turns of the first stud for one of the spindle." placeholder:"1/1"`
	Gearbox    string    `help:"Leadscrew turns for one of the gearbox's input, each it can be set to." placeholder:"1/2,1/1"`
	Gears      string    `help:"Change gears by their teeth; one written twice is there twice." placeholder:"20,25,30-33"`
	Without    string    `help:"Gears to leave out." placeholder:"127"`
	Clearance  float64   `help:"Teeth that two gears in mesh must have over the one beside; 0: as the shop says, or 15." placeholder:"15"`
	Length     string    `help:"Length of the thread: the error over it is told." placeholder:"50mm"`
	Within     float64   `help:"List trains with errors up to this, in parts per million of the lead; 0: 2000, of a feed 50000." placeholder:"2000"`
	Most       int       `help:"Sets of gears to list (JSON has all)." default:"12"`
	Shop       shopFlags `embed:""`
	JSON       bool      `name:"json" help:"Print the answer as JSON (mm)."`
}

const partsPerMillion = 1e6

// Run prints the trains.
func (c *changeGearsCommand) Run(s streams) error {
	var g given
	machine, err := c.Shop.machine(s, &g, c.JSON)
	if err != nil {
		return err
	}
	c.fit(machine, &g)
	wanted := c.wanted(&g)
	length := g.length("--length", c.Length)
	var found *lathe.ChangeGears
	if len(g.faults) == 0 {
		if found, err = lathe.FindTrainsUntil(s.context(), machine, wanted, func(int, int) {}); err != nil {
			if s.context().Err() != nil {
				return err
			}
			g.refused(err)
		}
	}
	if err := g.complain(s, c.JSON); err != nil {
		return err
	}
	return answer{
		says: say.ChangeGears(machine, found, length, max(1, c.Most)),
		json: func(w io.Writer) error { return report.ChangeGearsJSON(w, found, length) },
	}.tell(s, c.JSON)
}

// fit puts what the flags say of the machine in the place of what the shop says.
func (c *changeGearsCommand) fit(machine *trade.Machinery, g *given) {
	if c.Leadscrew != "" {
		machine.Leadscrew = g.pitchAs("--leadscrew", c.Leadscrew)
	}
	if ratios := g.ratios("--fixed-ratio", c.FixedRatio); len(ratios) > 0 {
		machine.FixedRatio = ratios[0]
	}
	if c.Gearbox != "" {
		machine.Gearbox = g.ratios("--gearbox", c.Gearbox)
	}
	if c.Gears != "" {
		machine.Gears = g.wholes("--gears", c.Gears)
	}
	if c.Clearance != 0 {
		machine.Clearance = c.Clearance
	}
	if !machine.Leadscrew.Given() && c.Leadscrew == "" {
		g.wrong("--leadscrew: the pitch of the leadscrew is wanted, or --shop with a lathe that has one")
	}
	if len(machine.Gears) == 0 && c.Gears == "" {
		g.wrong("--gears: the change gears are wanted, or --shop with a lathe that has some")
	}
	if c.Clearance < 0 || c.Within < 0 {
		g.wrong("--clearance and --within are not less than 0")
	}
}

// wanted reads the thread or the feed, exactly one of them.
func (c *changeGearsCommand) wanted(g *given) lathe.GearsWanted {
	wanted := lathe.GearsWanted{Starts: c.Starts, Within: c.Within / partsPerMillion, Without: g.wholes("--without", c.Without)}
	flag, text, count := "the pitch", "", 0
	for _, way := range [][2]string{{"the pitch", strings.Join(c.Wanted, " ")}, {"--thread", c.Thread}, {"--feed", c.Feed}} {
		if way[1] != "" {
			flag, text, count = way[0], way[1], count+1
		}
	}
	if count != 1 {
		g.wrong("one pitch is wanted, '14 tpi' or 1.25mm, or one --feed")
		return wanted
	}
	wanted.Feed = c.Feed != ""
	wanted.Pitch = g.pitchAs(flag, text)
	return wanted
}

// pitchAs reads a pitch greater than 0 as it is written.
func (g *given) pitchAs(flag, text string) unit.Quantity {
	q, err := unit.ParsePitch(text, unit.Millimetre)
	switch {
	case err != nil:
		g.wrong("%s: %v", flag, err)
	case q.Sign() <= 0:
		g.wrong("%s: %q is not greater than 0", flag, text)
	}
	return q
}

// refused takes over what a stage refuses.
func (g *given) refused(err error) {
	var faults trade.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			g.wrong("%s", f.Text)
		}
		return
	}
	g.wrong("%v", err)
}
