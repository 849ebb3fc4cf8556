package draw

import (
	"fmt"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Graph is values over places, to be drawn: how worn a screw is along it, how
// wear goes on over years. Points are in any measure; an axis says how large one
// of what it counts in is.
type Graph struct {
	Title         string
	Width, Height float64 // of the sheet, in mm
	X, Y          Axis
	Rows          []Row
	Limits        []Limit   // one that must not be passed, or two between which it is right
	Uprights      []Upright // where something happens
	Caption       string    // under it, in as many lines as it needs
}

// Row is points of one kind, in the order in which they are joined. The rows of
// a graph are told apart by their marks and dashes, so that a copy in black and
// white says as much.
type Row struct {
	Name    string
	Points  []geom.Point
	Half    []float64    // half widths of the bars up and down, one a point; nil: there are none
	Found   bool         // a line that was worked out: without marks
	Through []geom.Point // a line through the points, in place of joining them
}

// line is the line of a row.
func (r *Row) line() []geom.Point {
	if r.Through != nil {
		return r.Through
	}
	return r.Points
}

// half is the half width of the bar of a point.
func (r *Row) half(i int) float64 {
	if r.Half == nil {
		return 0
	}
	return r.Half[i]
}

// Limit is a straight line that bounds what is right.
type Limit struct {
	Name     string
	From, To geom.Point
}

// Upright is a line across at one place.
type Upright struct {
	Name string
	At   float64
}

// The measures of a graph in mm.
const (
	graphWords   = 2.2 // height of capitals
	graphPitch   = 4.4 // of lines of words
	graphGap     = 1.4 // between words and the frame
	leastAcross  = 30.0
	leastUp      = 18.0
	limitsTone   = 0.1
	mostFlat     = 4 // a limit farther off than so many times what is shown would flatten it
	besideFrame  = 0.03
	smallestSpan = 1e-9 // of a reach, as part of its values
)

// Plot lays out a graph: over it what its lines and marks are, in it the bars of
// each point, beside it round numbers, under it the caption. It fails where there
// is nothing to draw or no room for it.
func Plot(g Graph) (*ink.Sheet, error) {
	if len(g.Rows) == 0 || len(g.Rows[0].Points) == 0 {
		return nil, fmt.Errorf("%s: there is nothing to draw", g.Title)
	}
	s := &ink.Sheet{Title: g.Title, Width: g.Width, Height: g.Height, Scale: 1}
	p := &plotting{Graph: &g, sheet: s}
	p.limitsShown = p.limitsFit()
	top := g.Height - p.key()
	foot := p.caption() + 2*graphPitch + graphGap
	up := top - graphPitch - foot
	if up < leastUp {
		return nil, p.noRoom()
	}
	p.y = g.Y.ruler(foot, foot+up, p.yReach())
	left := p.y.widest() + 1.5*graphGap
	right := g.Width - p.rightMargin()
	if right-left < leastAcross {
		return nil, p.noRoom()
	}
	p.x = g.X.level(left, right, p.xReach())
	p.frame()
	p.axes()
	p.limits()
	p.rows()
	return s, nil
}

// plotting is a graph being drawn.
type plotting struct {
	*Graph
	sheet       *ink.Sheet
	x, y        ruler
	limitsShown bool
}

func (p *plotting) noRoom() error {
	return fmt.Errorf("the graph %q has no room in %.0f by %.0f mm: make it larger, or write less in it", p.Title, p.Width, p.Height)
}

// on returns where a point comes to stand on the paper.
func (p *plotting) on(q geom.Point) geom.Point {
	return geom.Point{X: p.x.on(q.X), Y: p.y.on(q.Y)}
}

// reach is the least and the greatest of values.
type reach struct{ low, high float64 }

func nowhere() reach { return reach{math.Inf(1), math.Inf(-1)} }

func (r reach) with(values ...float64) reach {
	for _, v := range values {
		r.low, r.high = min(r.low, v), max(r.high, v)
	}
	return r
}

// opened returns a reach that is wide enough to be divided.
func (r reach) opened() reach {
	least := smallestSpan * max(math.Abs(r.low), math.Abs(r.high), smallestSpan)
	if r.high-r.low < least {
		return reach{r.low - least, r.high + least}
	}
	return r
}

// yReachOfRows is what all rows and their bars need.
func (p *plotting) yReachOfRows() reach {
	r := nowhere()
	for i := range p.Rows {
		for k, q := range p.Rows[i].Points {
			half := p.Rows[i].half(k)
			r = r.with(q.Y-half, q.Y+half)
		}
		for _, q := range p.Rows[i].Through {
			r = r.with(q.Y)
		}
	}
	if p.Y.Zero {
		r = r.with(0)
	}
	return r
}

func (p *plotting) withLimits(r reach) reach {
	for _, l := range p.Limits {
		r = r.with(l.From.Y, l.To.Y)
	}
	return r
}

// limitsFit reports whether limits can be shown without flattening the rest.
func (p *plotting) limitsFit() bool {
	r := p.yReachOfRows()
	with := p.withLimits(r)
	return with.high-with.low <= mostFlat*(r.high-r.low)
}

// yReach leaves room over and under what is shown, but not under nothing.
func (p *plotting) yReach() reach {
	r := p.yReachOfRows()
	if p.limitsShown {
		r = p.withLimits(r)
	}
	r = r.opened()
	beside := besideFrame * (r.high - r.low)
	if r.low != 0 || !p.Y.Zero {
		r.low -= beside
	}
	if r.high != 0 || !p.Y.Zero {
		r.high += beside
	}
	return r
}

// xReach leaves room at both sides, so that no mark stands on the frame.
func (p *plotting) xReach() reach {
	r := nowhere()
	for i := range p.Rows {
		for _, q := range slices.Concat(p.Rows[i].Points, p.Rows[i].Through) {
			r = r.with(q.X)
		}
	}
	for _, u := range p.Uprights {
		r = r.with(u.At)
	}
	if p.limitsShown {
		for _, l := range p.Limits {
			r = r.with(l.From.X, l.To.X)
		}
	}
	r = r.opened()
	beside := besideFrame * (r.high - r.low)
	return reach{r.low - beside, r.high + beside}
}

// caption writes what stands under the graph, and returns how high that is.
func (p *plotting) caption() float64 {
	lines := broken(p.Caption, graphWords, p.Width)
	for i, words := range lines {
		at := geom.Point{X: p.Width / 2, Y: graphPitch*float64(len(lines)-1-i) + descent*graphWords + 0.5}
		p.sheet.Add(ink.Text{At: at, Words: words, Height: graphWords, Align: ink.Centred, Grey: true, Layer: ink.Notes})
	}
	return graphPitch * float64(len(lines))
}
