package lathe

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// ThreadWanted is a thread that is to be cut with a single-point tool.
type ThreadWanted struct {
	Thread   facts.Thread
	Inside   bool // a nut or a bored hole
	Left     bool
	FirstCut float64          // depth of the first pass at most, mm; 0: DefaultFirstCut
	Wire     float64          // measuring wires at hand, mm; 0: the best
	Lathe    *trade.Machinery // whose dials are read; nil: not known
}

// DefaultFirstCut is the depth of the first pass, in mm, on a light lathe (common
// practice, no source).
const DefaultFirstCut = 0.2

// springPasses are run at full depth to let tool and work spring back (common
// practice, no source).
const springPasses = 2

// ThreadCutting is how a thread is cut and read. Depths are radial, in mm.
type ThreadCutting struct {
	Wanted  ThreadWanted
	Sheet   series.Sheet
	Blank   float64 // diameter to turn or bore before: the basic major one, of a nut the minor one
	Depth   float64 // from the blank to the root of the basic form
	Tip     float64 // width of the tool at its end that leaves the root of the form: 0 is a point
	Setting float64 // of the top slide from square to the axis, rad; NaN where the flanks are square
	Passes  []Pass
	Wires   []OverWires // at each limit of the effective diameter, of a screw
	Relief  Relief
	Advice  []unit.Text
}

// Pass is one pass of the tool, its depth counted from where it touches the
// blank. The dials count from there too; they are NaN where they are not known.
type Pass struct {
	Depth     float64
	Slant     float64 // along the top slide, where that feeds; NaN where it cannot
	CrossDial float64 // divisions of the cross slide's dial, where that feeds
	TopDial   float64 // divisions of the top slide's
	Spring    bool    // at the depth of the pass before
}

// OverWires is what three wires should read at one pair of limits.
type OverWires struct {
	Class     string
	Wire      float64
	Low, High float64
	Source    string
}

// Relief is the groove in which the tool stops, and the thread without one.
type Relief struct {
	Width    float64
	Diameter float64
	RunOut   float64 // length of thread that is not full where the tool is drawn out instead
}

// CutThread works out how a thread is cut. The depth is that of the basic form;
// the tool's end is as wide as the form is at its root, where that is a flat, or
// where a round one begins from the flanks' meeting point:
//
//	tip = P/2 + 2·(reach - depth)·tan α
//
// with the reach from the blank to the pitch line and the flanks' angle α to the
// square across the axis. Passes take off equal areas. It is an error where the
// tables have no depth of the form.
func CutThread(wanted ThreadWanted) (*ThreadCutting, error) {
	c := &ThreadCutting{Wanted: wanted, Sheet: series.ThreadSheet(wanted.Thread)}
	b, root := c.Sheet.Basic, 0.0
	c.Blank, root = b.Major, b.MinorScrew
	if wanted.Inside {
		c.Blank, root = b.MinorNut, b.MajorNut
	}
	c.Depth = math.Abs(c.Blank-root) / 2
	if !(c.Depth > 0) {
		return nil, fmt.Errorf("the tables do not say how deep %s is cut", wanted.Thread.Designation)
	}
	flank := wanted.Thread.Angle / 2
	reach := math.Abs(c.Blank-b.Effective) / 2
	c.Tip = max(0, wanted.Thread.Pitch/2+2*(reach-c.Depth)*math.Tan(flank))
	c.Setting = slideSetting(flank)
	c.passes(flank)
	c.relief(root)
	if !wanted.Inside {
		c.overWires()
	}
	for _, text := range threadAdvice(wanted) {
		c.Advice = append(c.Advice, unit.Words(text))
	}
	return c, nil
}

// slideSetting returns the angle of the top slide for feeding along a flank: half
// a degree less than the flank has, so that the other side of the tool shaves the
// flank behind it (common practice, no source).
func slideSetting(flank float64) float64 {
	const less = 0.5 * math.Pi / 180
	if flank <= less {
		return math.NaN()
	}
	return flank - less
}

// passes divides the groove, a trapezium of area tip·t + t²·tan α at depth t,
// into equal parts of which the first is not deeper than asked, and adds those in
// which nothing is fed.
func (c *ThreadCutting) passes(flank float64) {
	slope := math.Tan(flank)
	area := func(t float64) float64 { return c.Tip*t + t*t*slope }
	first := c.Wanted.FirstCut
	if !(first > 0) {
		first = DefaultFirstCut
	}
	const rounding = 1e-9
	n := max(1, int(math.Ceil(area(c.Depth)/area(first)-rounding)))
	for k := 1; k < n; k++ {
		part := area(c.Depth) * float64(k) / float64(n)
		c.pass(2*part/(c.Tip+math.Sqrt(c.Tip*c.Tip+4*slope*part)), false)
	}
	c.pass(c.Depth, false)
	for range springPasses {
		c.pass(c.Depth, true)
	}
}

func (c *ThreadCutting) pass(depth float64, spring bool) {
	slant := depth / math.Cos(c.Setting)
	c.Passes = append(c.Passes, Pass{
		Depth: depth, Slant: slant, CrossDial: divisions(c.Wanted.Lathe, "cross", depth), TopDial: divisions(c.Wanted.Lathe, "top", slant), Spring: spring,
	})
}

// divisions returns how many divisions of the dial of a lathe's slide move it
// this far, NaN where that is not known. "top slide" is a top slide too.
func divisions(lathe *trade.Machinery, slide string, travel float64) float64 {
	if lathe == nil {
		return math.NaN()
	}
	for _, dial := range lathe.Dials {
		if !strings.HasPrefix(strings.ToLower(dial.Slide), slide) || !dial.Division.Given() {
			continue
		}
		if dial.Reads == trade.ReadsDiameter {
			travel *= 2
		}
		return travel / dial.Division.Inside()
	}
	return math.NaN()
}

// relief sets the groove in pitches: three wide and a quarter below the root,
// and two pitches of run-out without one (common practice, no source).
func (c *ThreadCutting) relief(root float64) {
	p := c.Wanted.Thread.Pitch
	c.Relief = Relief{Width: 3 * p, Diameter: root - p/2, RunOut: 2 * p}
	if c.Wanted.Inside {
		c.Relief.Diameter = root + p/2
	}
}

// overWires works out the readings by the catalogue's method.
func (c *ThreadCutting) overWires() {
	if c.Sheet.Wires == nil {
		return
	}
	method := gauge.ThreeWires()
	wire := c.Wanted.Wire
	if !(wire > 0) {
		wire = c.Sheet.Wires.Best
	}
	t := c.Wanted.Thread
	for _, l := range c.Sheet.Limits {
		if l.Of != "screw, effective" {
			continue
		}
		over := func(effective float64) float64 {
			return method.Model(gauge.Args{grad.Const(effective), grad.Const(t.Pitch), grad.Const(t.Angle), grad.Const(wire), grad.Const(t.Major)}).X
		}
		c.Wires = append(c.Wires, OverWires{Class: l.Class, Wire: wire, Low: over(l.Low), High: over(l.High), Source: l.Source})
	}
	for _, remark := range method.Valid([]float64{c.Sheet.Basic.Effective, t.Pitch, t.Angle, wire, t.Major}) {
		c.Advice = append(c.Advice, remark.Text)
	}
}

// threadAdvice says which way spindle and carriage run (common practice, no
// source).
func threadAdvice(w ThreadWanted) []string {
	list := []string{
		"Set the tool on centre height and square to the axis by a thread gauge, and turn the train by hand before you run it.",
		"The depth is that of the basic form: go by the wires, or by the nut that it is for, from three quarters of it on.",
	}
	if w.Thread.Tapered {
		list = append(list, "The thread tapers by 1 in 16 on the diameter: set the taper attachment; the tool stays square to the axis.")
	}
	if !w.Left {
		return append(list, "Right hand: spindle forwards, cut towards the headstock.")
	}
	return append(list,
		"Left hand: reverse the leadscrew, by the tumbler or by one idler more or less. With the spindle forwards the tool then cuts away from the headstock: start it in the relief.",
		"With the spindle backwards and the tool upside down it cuts towards the headstock; never so with a chuck that screws on, which unscrews.",
	)
}
