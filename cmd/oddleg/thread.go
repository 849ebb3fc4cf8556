package main

import (
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// threadCommand says which thread a worn one was.
type threadCommand struct {
	Major     string       `help:"Diameter over the crests of a screw (of a nut: over its roots)." placeholder:"10.98mm"`
	Minor     string       `help:"Bore of a nut or tapped hole (of a screw: its root)." placeholder:"9.3mm"`
	Effective string       `help:"Effective diameter, from wires or balls." placeholder:"9.9mm"`
	Pitch     string       `help:"Gauge leaf that fits: 14 tpi, 1.5 mm." placeholder:"'14 tpi'"`
	Over      []string     `help:"Length measured over whole pitches, with a rule or caliper." placeholder:"10=18.1mm" sep:"none"`
	Count     []string     `help:"Whole pitches counted in a length." placeholder:"14=1in" sep:"none"`
	Angle     string       `help:"Included flank angle, from a profile leaf." placeholder:"55deg"`
	Inside    bool         `help:"It is a nut or a tapped hole."`
	Left      bool         `help:"It is left-handed."`
	Parallel  bool         `help:"It was seen not to taper."`
	Tapered   bool         `help:"It was seen to taper along its length."`
	Machine   machineFlags `embed:""`
	U         string       `name:"u" help:"Standard uncertainty of the diameters." default:"0.02mm"`
	PitchU    string       `help:"Standard uncertainty of --pitch, in place of that of a leaf, 0.6 per cent." placeholder:"0.01mm"`
	OverU     string       `help:"Standard uncertainty of the lengths of --over." default:"0.1mm"`
	AngleU    string       `help:"Standard uncertainty of --angle." default:"1deg"`
	Wear      string       `help:"Typical wear of crests and flanks: none, light (0.03 mm), heavy (0.25 mm) or a length." default:"light"`
	Make      string       `help:"How closely the first maker worked, as a standard deviation." default:"0.03mm"`
	JSON      bool         `name:"json" help:"Print the answer as JSON (mm, degrees)."`
}

// Run prints what the thread may have been.
func (c *threadCommand) Run(s streams) error {
	var g given
	seen := c.seen(&g)
	c.check(&g, seen)
	if err := g.complain(s, c.JSON); err != nil {
		return err
	}
	found := series.FindThread(seen)
	return answer{
		says: say.Thread(seen, found, c.Left),
		json: func(w io.Writer) error { return report.ThreadJSON(w, found, c.Left) },
	}.tell(s, c.JSON)
}

func (c *threadCommand) seen(g *given) series.ThreadSeen {
	u := g.length("--u", c.U)
	return series.ThreadSeen{
		Inside:    c.Inside,
		Major:     measured(g.length("--major", c.Major), u),
		Minor:     measured(g.length("--minor", c.Minor), u),
		Effective: measured(g.length("--effective", c.Effective), u),
		Pitch:     c.pitch(g),
		Angle:     measured(g.angle("--angle", c.Angle, false), g.angle("--angle-u", c.AngleU, false)),
		Along:     c.along(g),
		Wear:      g.wear(c.Wear),
		Make:      g.length("--make", c.Make),
		Machine:   c.Machine.machine(g),
	}
}

func (c *threadCommand) along(g *given) series.Along {
	switch {
	case c.Parallel && c.Tapered:
		g.wrong("--parallel and --tapered: it cannot be both")
	case c.Parallel:
		return series.Parallel
	case c.Tapered:
		return series.Tapers
	}
	return series.NotLooked
}

// disagreeing is by how many standard deviations two findings of one pitch may
// differ before one of them must be wrong.
const disagreeing = 5

// pitch puts together what was found of the pitch.
func (c *threadCommand) pitch(g *given) series.Measured {
	var list []series.Measured
	if leaf := g.pitch("--pitch", c.Pitch); leaf != 0 {
		m := series.ByLeaf(leaf)
		if c.PitchU != "" {
			m.U = g.length("--pitch-u", c.PitchU)
		}
		list = append(list, m)
	}
	u := g.length("--over-u", c.OverU)
	for _, text := range c.Over {
		if n, length := g.counted("--over", text, "10=18.1mm"); length != 0 {
			list = append(list, series.Over(n, measured(length, u)))
		}
	}
	for _, text := range c.Count {
		if n, length := g.counted("--count", text, "14=1in"); length != 0 {
			list = append(list, series.Counted(n, length))
		}
	}
	mean, apart := series.Mean(list...)
	if apart > disagreeing {
		g.wrong("%s: these pitches contradict each other; count and measure again", strings.Join(c.pitchFlags(), ", "))
	}
	return mean
}

func (c *threadCommand) pitchFlags() []string {
	var flags []string
	for _, f := range []struct {
		name  string
		given bool
	}{{"--pitch", c.Pitch != ""}, {"--over", len(c.Over) > 0}, {"--count", len(c.Count) > 0}} {
		if f.given {
			flags = append(flags, f.name)
		}
	}
	return flags
}

// check finds readings that no thread can have.
func (c *threadCommand) check(g *given, seen series.ThreadSeen) {
	if c.Major == "" && c.Minor == "" && c.Effective == "" {
		g.wrong("no diameter: give --major, or --minor --inside for the bore of a nut, or --effective")
	}
	if c.Minor != "" && c.Major == "" && c.Effective == "" && !c.Inside {
		g.wrong("--minor alone: the root of a screw tells little; give --major too, or --inside if it is the bore of a nut")
	}
	smaller := func(a, b string, small, large series.Measured) {
		if small.Given() && large.Given() && small.Value >= large.Value {
			g.wrong("%s is not smaller than %s: %.3f mm and %.3f mm", a, b, small.Value, large.Value)
		}
	}
	smaller("--effective", "--major", seen.Effective, seen.Major)
	smaller("--minor", "--effective", seen.Minor, seen.Effective)
	smaller("--minor", "--major", seen.Minor, seen.Major)
	for _, d := range []series.Measured{seen.Major, seen.Minor, seen.Effective} {
		if d.Given() && seen.Pitch.Given() && seen.Pitch.Value >= d.Value {
			g.wrong("a pitch of %.3f mm does not go with a diameter of %.3f mm", seen.Pitch.Value, d.Value)
			return
		}
	}
}
