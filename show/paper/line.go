package paper

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// line is how a kind of line is drawn: its width in mm, its dashes and gaps in
// widths, and its tone, 1 for black.
type line struct {
	width  float64
	dashes []float64
	tone   float64
}

// The patterns of ISO 128-20:1996, table 4, in widths of the line: a dash 12, a
// long dash 24, a gap 3, a dot 0.5 (from memory).
var (
	dashed          = []float64{12, 3}
	longDashDotted  = []float64{24, 3, 0.5, 3}
	longDashTwoDots = []float64{24, 3, 0.5, 3, 0.5, 3}
	lines           = [...]line{
		ink.Visible:    {ink.WideLine, nil, 1},
		ink.Thin:       {ink.NarrowLine, nil, 1},
		ink.Hidden:     {ink.NarrowLine, dashed, 1},
		ink.CentreLine: {ink.NarrowLine, longDashDotted, 1},
		ink.Hatching:   {ink.NarrowLine, nil, 1},
		ink.Freehand:   {ink.NarrowLine, nil, 1},
		ink.Frame:      {ink.WideLine, nil, 1},
		ink.Rule:       {ink.NarrowLine, nil, 1},
		ink.Cut:        {ink.NarrowLine, nil, 1},
		ink.Phantom:    {ink.NarrowLine, longDashTwoDots, 1},
		ink.Ghost:      {ink.NarrowLine, nil, faint},
	}
)

// The tones of what is of lesser weight.
const (
	faint    = 0.35
	greyText = 0.6
)

// pattern returns the dashes and gaps in mm.
func (l line) pattern() []float64 {
	list := make([]float64, len(l.dashes))
	for i, d := range l.dashes {
		list[i] = d * l.width
	}
	return list
}

// toneOf returns the tone of a text.
func toneOf(t ink.Text) float64 {
	if t.Grey {
		return greyText
	}
	return 1
}

// parted returns an edge in equal parts none of which turns through more than
// an angle; a straight one as it is.
func parted(e geom.Edge, most float64) []geom.Edge {
	n := int(math.Ceil(math.Abs(e.Sweep())/most - 1e-9))
	if n <= 1 {
		return []geom.Edge{e}
	}
	list := make([]geom.Edge, n)
	from := e.From
	for i := range list {
		to := e.To
		if i < n-1 {
			to = e.At(float64(i+1) / float64(n))
		}
		list[i] = geom.Arc(e.Centre, from, to, e.Turn)
		from = to
	}
	return list
}

// runs cuts a path where an edge does not begin at the end of the one before.
func runs(p geom.Path) []geom.Path {
	var list []geom.Path
	start := 0
	for i := 1; i <= len(p); i++ {
		if i == len(p) || p[i].From != p[i-1].To {
			list = append(list, p[start:i])
			start = i
		}
	}
	return list
}

// closes reports whether a path ends where it began.
func closes(p geom.Path) bool { return len(p) > 0 && p[0].From == p[len(p)-1].To }
