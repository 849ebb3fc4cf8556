package main

import (
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// gearCommand says which module or diametral pitch a gear was cut with.
type gearCommand struct {
	Teeth   int          `help:"Number of teeth." required:"" placeholder:"40"`
	Tip     string       `help:"Tip diameter; of an odd number of teeth twice the reading from tip to axis." placeholder:"84mm"`
	Span    []string     `help:"Reading over several teeth, flank to flank; may be given several times." placeholder:"5=27.5mm" sep:"none"`
	Pins    []string     `help:"Reading over two pins in opposite spaces, by the pins' diameter." placeholder:"3.5mm=86.1mm" sep:"none"`
	Machine machineFlags `embed:""`
	U       string       `name:"u" help:"Standard uncertainty of the readings." default:"0.02mm"`
	Wear    string       `help:"Typical wear of tips and flanks: none, light (0.03 mm), heavy (0.25 mm) or a length." default:"light"`
	Make    string       `help:"How closely the first maker worked, as a standard deviation." default:"0.03mm"`
	JSON    bool         `name:"json" help:"Print the answer as JSON (mm, degrees)."`
}

// Run prints what the gear may have been.
func (c *gearCommand) Run(s streams) error {
	var g given
	seen := c.seen(&g)
	var found series.GearAnswer
	if len(g.faults) == 0 {
		var err error
		if found, err = series.FindGear(seen); err != nil {
			g.wrong("%v", err)
		}
	}
	if err := g.complain(s, c.JSON); err != nil {
		return err
	}
	return answer{
		says: say.Gear(seen, found),
		json: func(w io.Writer) error { return report.GearJSON(w, found) },
	}.tell(s, c.JSON)
}

func (c *gearCommand) seen(g *given) series.GearSeen {
	u := g.length("--u", c.U)
	seen := series.GearSeen{
		Teeth: c.Teeth, Tip: measured(g.length("--tip", c.Tip), u),
		Wear: g.wear(c.Wear), Make: g.length("--make", c.Make), Machine: c.Machine.machine(g),
	}
	for _, text := range c.Span {
		if n, over := g.counted("--span", text, "5=27.5mm"); over != 0 {
			seen.Spans = append(seen.Spans, series.SpanSeen{Teeth: n, Over: measured(over, u)})
		}
	}
	for _, text := range c.Pins {
		pin, over, found := strings.Cut(text, "=")
		if !found {
			g.wrong("--pins: %q: two lengths with = between are wanted: 3.5mm=86.1mm", text)
			continue
		}
		d, m := g.length("--pins", strings.TrimSpace(pin)), g.length("--pins", strings.TrimSpace(over))
		seen.Pins = append(seen.Pins, series.PinsSeen{Pin: d, Over: measured(m, u)})
	}
	return seen
}
