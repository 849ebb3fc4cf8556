package draw

import (
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// markSize is the width of a mark at a point, barCap that of the ends of its bar,
// in mm.
const (
	markSize = 1.7
	barCap   = 1.2
)

// rowLines are the lines of rows, in their order.
var rowLines = []ink.LineKind{ink.Thin, ink.Hidden, ink.CentreLine, ink.Phantom}

// rowMarks draw the marks of rows, in their order.
var rowMarks = []func(at geom.Point) []ink.Mark{
	func(at geom.Point) []ink.Mark { return outlined(geom.Circle(at, markSize/2), 0) },
	func(at geom.Point) []ink.Mark { return outlined(square(at), 1) },
	func(at geom.Point) []ink.Mark { return outlined(triangle(at), 0) },
	func(at geom.Point) []ink.Mark { return outlined(diamond(at), 1) },
}

func outlined(p geom.Path, tone float64) []ink.Mark {
	return []ink.Mark{ink.Area{Path: p, Tone: tone, Layer: ink.Outlines}, ink.Stroke{Path: p, Kind: ink.Thin, Layer: ink.Outlines}}
}

func square(at geom.Point) geom.Path {
	const half = 0.43 * markSize
	return geom.Rectangle(at.Sub(geom.Point{X: half, Y: half}), at.Add(geom.Point{X: half, Y: half}))
}

func triangle(at geom.Point) geom.Path {
	const half = markSize * 0.6
	return geom.Polygon(at.Add(geom.Point{X: -half, Y: -half * 0.8}), at.Add(geom.Point{X: half, Y: -half * 0.8}), at.Add(geom.Point{Y: half}))
}

func diamond(at geom.Point) geom.Path {
	const half = markSize * 0.65
	return geom.Polygon(at.Add(geom.Point{X: -half}), at.Add(geom.Point{Y: -half}), at.Add(geom.Point{X: half}), at.Add(geom.Point{Y: half}))
}

// markOf returns what draws the marks of each row, nil for one that was worked
// out.
func (p *plotting) markOf() []func(at geom.Point) []ink.Mark {
	list := make([]func(at geom.Point) []ink.Mark, len(p.Rows))
	marked := 0
	for i := range p.Rows {
		if !p.Rows[i].Found {
			list[i] = rowMarks[marked%len(rowMarks)]
			marked++
		}
	}
	return list
}

// rows draws lines first, then the bars, and the marks over all.
func (p *plotting) rows() {
	for i := range p.Rows {
		p.join(p.Rows[i].line(), rowLines[i%len(rowLines)])
	}
	for i := range p.Rows {
		p.bars(&p.Rows[i])
	}
	for i, mark := range p.markOf() {
		if mark == nil {
			continue
		}
		for _, q := range p.Rows[i].Points {
			p.sheet.Add(mark(p.on(q))...)
		}
	}
}

func (p *plotting) join(line []geom.Point, kind ink.LineKind) {
	if len(line) < 2 {
		return
	}
	points := make([]geom.Point, len(line))
	for i, q := range line {
		points[i] = p.on(q)
	}
	p.sheet.Add(ink.Stroke{Path: geom.Polyline(points...), Kind: kind, Layer: ink.Outlines})
}

func (p *plotting) bars(r *Row) {
	for i, q := range r.Points {
		if r.half(i) == 0 {
			continue
		}
		low := p.on(geom.Point{X: q.X, Y: q.Y - r.half(i)})
		high := p.on(geom.Point{X: q.X, Y: q.Y + r.half(i)})
		side := geom.Point{X: barCap / 2}
		for _, line := range [][2]geom.Point{{low, high}, {low.Sub(side), low.Add(side)}, {high.Sub(side), high.Add(side)}} {
			p.sheet.Add(ink.Stroke{Path: geom.Polyline(line[0], line[1]), Kind: ink.Thin, Layer: ink.Outlines})
		}
	}
}

// limits draws what bounds what is right, with a tint between two, and uprights.
func (p *plotting) limits() {
	if p.limitsShown {
		if len(p.Limits) == 2 {
			a, b := p.Limits[0], p.Limits[1]
			p.sheet.Add(ink.Area{Path: geom.Polygon(p.on(a.From), p.on(a.To), p.on(b.To), p.on(b.From)), Tone: limitsTone, Layer: ink.Hatches})
		}
		for _, l := range p.Limits {
			p.sheet.Add(ink.Stroke{Path: geom.Polyline(p.on(l.From), p.on(l.To)), Kind: ink.Visible, Layer: ink.Outlines})
		}
	}
	for _, u := range p.Uprights {
		x := p.x.on(u.At)
		p.sheet.Add(ink.Stroke{Path: geom.Polyline(geom.Point{X: x, Y: p.y.from}, geom.Point{X: x, Y: p.y.to}), Kind: uprightLine, Layer: ink.Axes})
	}
}

// uprightLine is the line of an upright.
const uprightLine = ink.Phantom

// keyLine is how long the piece of line in the key is, in mm.
const keyLine = 11.0

// entry is a line of the key: what is drawn from a place, and its words.
type entry struct {
	words string
	draw  func(at geom.Point) []ink.Mark
}

// key says over the graph what is what, and returns how high that is.
func (p *plotting) key() float64 {
	at, lines := geom.Point{Y: p.Height - graphPitch}, 1.0
	for _, e := range p.entries() {
		words := cutTo(e.words, graphWords, p.Width-keyLine-graphGap, false)
		long := keyLine + graphGap + ink.Width(words, graphWords, false)
		if at.X > 0 && at.X+long > p.Width {
			at = geom.Point{Y: at.Y - graphPitch}
			lines++
		}
		p.sheet.Add(e.draw(at.Add(geom.Point{Y: graphWords / 2}))...)
		p.sheet.Add(ink.Text{At: at.Add(geom.Point{X: keyLine + graphGap}), Words: words, Height: graphWords, Layer: ink.Notes})
		at.X += long + 2*graphGap
	}
	return lines*graphPitch + graphGap
}

func (p *plotting) entries() []entry {
	var list []entry
	for i, mark := range p.markOf() {
		list = append(list, entry{p.Rows[i].Name, sample(rowLines[i%len(rowLines)], mark)})
	}
	if len(p.Limits) > 0 {
		words := p.Limits[0].Name
		if !p.limitsShown {
			words += " (beyond the picture)"
		}
		list = append(list, entry{words, sample(ink.Visible, nil)})
	}
	for _, u := range p.Uprights {
		list = append(list, entry{u.Name, sample(uprightLine, nil)})
	}
	return list
}

// sample returns what draws a piece of a line for the key, with a mark or nil.
func sample(kind ink.LineKind, mark func(at geom.Point) []ink.Mark) func(at geom.Point) []ink.Mark {
	return func(at geom.Point) []ink.Mark {
		list := []ink.Mark{ink.Stroke{Path: geom.Polyline(at, at.Add(geom.Point{X: keyLine})), Kind: kind, Layer: ink.Outlines}}
		if mark != nil {
			list = append(list, mark(at.Add(geom.Point{X: keyLine / 2}))...)
		}
		return list
	}
}

// broken breaks words at blanks into lines no longer than a width; a single word
// that is longer is cut off.
func broken(words string, height, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(words, func(r rune) bool { return r == ' ' }) {
		if longer := strings.TrimSpace(line + " " + word); ink.Width(longer, height, false) <= width {
			line = longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = cutTo(word, height, width, false)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
