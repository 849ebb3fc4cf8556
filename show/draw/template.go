package draw

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The bars that prove the printer's scale, in mm.
const (
	barLength = 100.0
	barInches = 4
	barWidth  = 1.8
	stripHigh = 24.0 // of the strip with the words and the level bars
	barColumn = 14.0 // of the column with the upright bar
)

// Template draws a part at 1:1 to be cut out or pricked through: a prism in
// plan, a turned part as it is along its axis, with holes and their centre
// crosses, and bars that show whether the printer kept the scale. It takes the
// smallest paper allowed, upright or across. The error says that the part is too
// large for it.
func Template(m *part.Model, o Options) (*ink.Sheet, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	if (m.Turned == nil) == (m.Prism == nil) {
		return nil, errNoShape
	}
	c := template(m)
	d := &drawing{model: m, letters: lettering{units: o.Units, dual: o.Dual}}
	for _, f := range o.formats() {
		for _, lying := range []format{f, {f.height, f.width}} {
			if room := templateRoom(lying); (block{c.bounds()}).fits(room) {
				return d.templateSheet(lying, room, c, o), nil
			}
		}
	}
	size := c.outline.Size()
	return nil, fmt.Errorf("%s is %s by %s: a template of it does not fit the paper at 1:1; take larger paper or a drawing to scale",
		m.Name, unit.ShowLength(size.X, o.Units), unit.ShowLength(size.Y, o.Units))
}

// templateRoom is what the frame, the words and the bars leave.
func templateRoom(f format) geom.Box {
	return geom.Box{
		Low:  geom.Point{X: margin + barColumn, Y: margin + stripHigh},
		High: geom.Point{X: f.width - margin - roomGap, Y: f.height - margin - roomGap},
	}
}

// template draws what is to be cut.
func template(m *part.Model) *canvas {
	c := &canvas{scale: 1}
	if t := m.Turned; t != nil {
		half := profileOf(t.Segments).half()
		c.draw(half, ink.Cut, ink.Outlines)
		c.draw(mirrored(half), ink.Cut, ink.Outlines)
		c.axis(geom.Point{}, geom.Point{X: t.Length})
		return c
	}
	p := m.Prism
	c.draw(p.Outline, ink.Cut, ink.Outlines)
	for _, l := range p.Ledges {
		c.draw(l.Outline, ink.Thin, ink.Outlines)
	}
	for _, s := range p.Slots {
		c.draw(s.Outline(), ink.Cut, ink.Outlines)
		c.slotAxes(s)
	}
	for _, h := range p.Holes {
		c.draw(geom.Circle(h.At, h.Diameter/2), ink.Cut, ink.Outlines)
		c.cross(h.At, max(h.Diameter, h.CounterboreD, h.CountersinkD)/2)
	}
	c.discAxes(p)
	return c
}

// templateSheet puts the template in the middle of its room.
func (d *drawing) templateSheet(f format, room geom.Box, c *canvas, o Options) *ink.Sheet {
	s := &ink.Sheet{Title: d.model.Name, Width: f.width, Height: f.height, Scale: 1}
	s.Add(templateStrip(d.model, f, o)...)
	box := c.bounds()
	by := geom.Middle(room.Low, room.High).Sub(geom.Middle(box.Low, box.High))
	for _, m := range c.marks {
		s.Add(ink.Moved(m, by))
	}
	return s
}

// templateStrip is what is printed round a template.
func templateStrip(m *part.Model, f format, o Options) []ink.Mark {
	low := geom.Point{X: margin, Y: margin}
	list := []ink.Mark{box(low, geom.Point{X: f.width - margin, Y: f.height - margin}, ink.Frame)}
	foot := low.Add(geom.Point{X: 5, Y: 4})
	list = append(list, bar(foot.Add(geom.Point{Y: 8}), 10, 10, "100 mm", false)...)
	list = append(list, bar(foot, barInches, unit.MillimetresPerInch, "4 in", false)...)
	list = append(list, bar(low.Add(geom.Point{X: 6, Y: stripHigh + 4}), 10, 10, "100 mm", true)...)
	words := foot.Add(geom.Point{X: barInches*unit.MillimetresPerInch + 18})
	width := f.width - margin - words.X
	kind := "template 1:1"
	for _, more := range []string{m.Material, m.Revision, o.Job, o.Date} {
		if more != "" {
			kind += " · " + more
		}
	}
	return append(list,
		fitted(m.Name, nameHeight, width, words.Add(geom.Point{Y: 11}), true, false),
		fitted(kind, cellHeight, width, words.Add(geom.Point{Y: 5.5}), false, false),
		fitted("print at 100 %, then measure all three bars", cellHeight, width, words.Add(geom.Point{Y: 0.5}), false, false))
}

// bar is a measure of parts, black and white in turn, from a place to the right
// or upright.
func bar(at geom.Point, parts int, each float64, words string, upright bool) []ink.Mark {
	turn := geom.Pose{Shift: at}
	if upright {
		turn.Angle = geom.Point{Y: 1}.Angle()
	}
	var list []ink.Mark
	for i := range parts {
		from := float64(i) * each
		field := geom.Rectangle(geom.Point{X: from}, geom.Point{X: from + each, Y: barWidth}).Moved(turn)
		if i%2 == 0 {
			list = append(list, ink.Area{Path: field, Tone: 1, Layer: ink.Border})
		}
		list = append(list, ink.Stroke{Path: field, Kind: ink.Rule, Layer: ink.Border})
	}
	end := turn.Of(geom.Point{X: float64(parts)*each + 1.5})
	return append(list, ink.Text{At: end, Words: words, Height: cellHeight, Angle: turn.Angle, Layer: ink.Border})
}
