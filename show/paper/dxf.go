package paper

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// DXF writes a sheet as a drawing of DXF version AC1015 (release 2000), in mm, at
// such a scale that the part has its true size. Dimensions are dimensions, with
// what is drawn of them in blocks. All is plain ASCII: other characters are
// written by their numbers.
func DXF(w io.Writer, s *ink.Sheet) error {
	if !(s.Scale > 0) {
		panic("paper: a sheet has no scale")
	}
	p := &dxfPen{k: 1 / s.Scale, next: firstFreeHandle}
	p.into(&p.model, modelRecord)
	walk(s.Marks, p)
	_, err := w.Write(p.file(s))
	return err
}

// dxfPen writes marks as entities. What it writes to is the model, or the block
// of a dimension.
type dxfPen struct {
	k       float64 // mm of the part for one mm on the paper
	next    int     // handle
	to      *tags
	owner   int // handle of the block that has what is written
	model   tags
	blocks  tags
	records []int // of the dimensions' blocks
}

// tags is a run of group codes and values.
type tags struct{ bytes.Buffer }

// put writes pairs of code and value.
func (t *tags) put(pairs ...any) {
	for i := 0; i < len(pairs); i += 2 {
		fmt.Fprintf(t, "%3d\n", pairs[i])
		switch value := pairs[i+1].(type) {
		case float64:
			t.WriteString(floating(value))
		default:
			fmt.Fprint(t, value)
		}
		t.WriteByte('\n')
	}
}

// point writes the coordinates of a point, x under this code.
func (t *tags) point(code int, q geom.Point) {
	t.put(code, q.X, code+10, q.Y, code+20, 0.0)
}

// floating returns a number with at least one decimal, as the format has them.
func floating(x float64) string {
	text := strings.TrimRight(strconv.FormatFloat(finite(x), 'f', 12, 64), "0")
	if strings.HasSuffix(text, ".") {
		text += "0"
	}
	if text == "-0.0" {
		return "0.0"
	}
	return text
}

// handle is a number that names an object, written in base 16.
type handle int

// String returns the handle as it is written.
func (h handle) String() string { return strings.ToUpper(strconv.FormatInt(int64(h), 16)) }

func (p *dxfPen) handle() int {
	p.next++
	return p.next - 1
}

// into sends what follows to one block.
func (p *dxfPen) into(t *tags, owner int) { p.to, p.owner = t, owner }

// entity begins an entity on a layer.
func (p *dxfPen) entity(kind string, layer ink.Layer) {
	p.to.put(0, kind, 5, handle(p.handle()), 330, handle(p.owner), 100, "AcDbEntity", 8, layers[layer].name)
}

// scaled returns where a point of the paper is in the drawing.
func (p *dxfPen) scaled(q geom.Point) geom.Point { return q.Times(p.k) }

func (p *dxfPen) stroke(s ink.Stroke) {
	for _, e := range s.Path {
		p.edge(e, s)
	}
}

// edge writes one edge of a stroke.
func (p *dxfPen) edge(e geom.Edge, s ink.Stroke) {
	kind := "ARC"
	switch {
	case e.Turn == geom.Straight:
		kind = "LINE"
	case e.From == e.To:
		kind = "CIRCLE"
	}
	p.entity(kind, s.Layer)
	style := lines[s.Kind]
	p.to.put(6, lineType(style), 62, colour(style.tone), 370, hundredths(style.width))
	if kind == "LINE" {
		p.to.put(100, "AcDbLine")
		p.to.point(10, p.scaled(e.From))
		p.to.point(11, p.scaled(e.To))
		return
	}
	p.to.put(100, "AcDbCircle")
	p.to.point(10, p.scaled(e.Centre))
	p.to.put(40, e.Radius()*p.k)
	if kind == "ARC" {
		from, to := e.From, e.To
		if e.Turn == geom.Clockwise {
			from, to = to, from // arcs run anticlockwise
		}
		p.to.put(100, "AcDbArc", 50, bearing(e.Centre, from), 51, bearing(e.Centre, to))
	}
}

// bearing returns the direction of a point from a centre in degrees, 0 to 360.
func bearing(centre, q geom.Point) float64 {
	degrees := q.Sub(centre).Angle() * 180 / math.Pi
	if degrees < 0 {
		degrees += 360
	}
	return degrees
}

func (p *dxfPen) area(a ink.Area) {
	if len(a.Path) == 3 && straight(a.Path) {
		p.solid(a)
		return
	}
	p.entity("HATCH", a.Layer)
	p.to.put(62, colour(a.Tone), 100, "AcDbHatch")
	p.to.point(10, geom.Point{})
	p.to.put(210, 0.0, 220, 0.0, 230, 1.0, 2, "SOLID", 70, 1, 71, 0)
	outlines := runs(a.Path)
	p.to.put(91, len(outlines))
	for _, outline := range outlines {
		p.outline(outline)
	}
	p.to.put(75, 0, 76, 1, 98, 0)
}

// outline writes one boundary of an area: points, each with the bulge of the
// edge that begins there, the tangent of a quarter of its angle.
func (p *dxfPen) outline(path geom.Path) {
	var edges []geom.Edge
	for _, e := range path {
		edges = append(edges, parted(e, math.Pi)...)
	}
	p.to.put(92, 3, 72, 1, 73, 1, 93, len(edges))
	for _, e := range edges {
		q := p.scaled(e.From)
		p.to.put(10, q.X, 20, q.Y, 42, math.Tan(e.Sweep()/4))
	}
	p.to.put(97, 0)
}

// solid writes a triangle.
func (p *dxfPen) solid(a ink.Area) {
	p.entity("SOLID", a.Layer)
	p.to.put(62, colour(a.Tone), 100, "AcDbTrace")
	for i, e := range a.Path {
		p.to.point(10+i, p.scaled(e.From))
	}
	p.to.point(13, p.scaled(a.Path[2].From))
}

func straight(path geom.Path) bool {
	for _, e := range path {
		if e.Turn != geom.Straight {
			return false
		}
	}
	return true
}

func (p *dxfPen) text(t ink.Text) {
	p.entity("TEXT", t.Layer)
	p.to.put(62, colour(toneOf(t)), 100, "AcDbText")
	p.to.point(10, p.scaled(t.At))
	p.to.put(40, t.Height*p.k, 1, plainText(t.Words), 50, t.Angle*180/math.Pi, 7, textStyle(t.Bold))
	if t.Align != ink.LeftAligned {
		p.to.put(72, [...]int{ink.Centred: 1, ink.RightAligned: 2}[t.Align])
		p.to.point(11, p.scaled(t.At))
	}
	p.to.put(100, "AcDbText")
}

// plainText returns words as the format writes them: signs of its own for ⌀, °
// and ±, numbers for what is not ASCII and for what would mean something else.
func plainText(words string) string {
	var b strings.Builder
	for _, r := range words {
		switch {
		case r == '⌀':
			b.WriteString("%%c")
		case r == '°':
			b.WriteString("%%d")
		case r == '±':
			b.WriteString("%%p")
		case r > 0xFFFF:
			b.WriteString(`\U+FFFD`)
		case r > '~' || strings.ContainsRune(`\{}^%`, r):
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
