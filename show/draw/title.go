package draw

import (
	"strconv"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The title block, in mm.
const (
	titleWidth  = 132.0
	blockRow    = 8.4
	nameHeight  = 4.5
	titleHeight = 4*blockRow + nameHeight - cellHeight + 1
)

// What holds where a drawing does not say otherwise: common practice, no source.
const (
	generalMetric = "±0.1 mm, angles ±0.5°"
	generalInch   = "±0.004 in, angles ±0.5°"
	brokenMetric  = "break sharp 0.2 mm"
	brokenInch    = "break sharp 0.008 in"
	texture       = "Ra 3.2 where not stated"
)

// furniture is what a sheet has beside its views: the frame, notes and the table
// of origins; where the title block starts (its upper left corner); and the room
// left for views.
type furniture struct {
	marks []ink.Mark
	title geom.Point
	width float64 // of the title block
	room  geom.Box
}

// roomGap is kept between the frame, the furniture and the views, in mm.
const roomGap = 4.0

// furniture lays out the frame and what stands in it along its lower edge: the
// title block on the right, the table of origins on the left of it, or over it
// where the paper is narrow.
func (d *drawing) furniture(f format) furniture {
	frame := f.frame()
	u := furniture{marks: []ink.Mark{box(frame.Low, frame.High, ink.Frame)}, width: titleWidth}
	width := min(frame.Size().X-titleWidth, originsMost)
	foot := frame.Low
	if width < originsLeast {
		u.width, width = frame.Size().X, frame.Size().X
		foot.Y += titleHeight
	}
	u.title = geom.Point{X: frame.High.X - u.width, Y: frame.Low.Y + titleHeight}
	table, notes := d.origins(width), d.notes()
	high := foot.Y
	if len(table.rows) > 0 {
		high = foot.Y + table.height()
		u.marks = append(u.marks, table.marks(geom.Point{X: frame.Low.X, Y: high})...)
	}
	for i := len(notes) - 1; i >= 0; i-- {
		high += notePitch
		u.marks = append(u.marks, fitted(notes[i], cellHeight, width, geom.Point{X: frame.Low.X + 1, Y: high - notePitch + 1.6}, false, false))
	}
	low := max(high, u.title.Y)
	u.room = geom.Box{
		Low:  geom.Point{X: frame.Low.X + roomGap, Y: low + roomGap},
		High: frame.High.Sub(geom.Point{X: roomGap, Y: roomGap}),
	}
	return u
}

// notePitch is the distance of lines of notes, in mm.
const notePitch = 4.4

// notes are the words under the views.
func (d *drawing) notes() []string {
	var list []string
	for _, n := range d.model.Notes {
		list = append(list, "• "+n)
	}
	return list
}

// titleBlock draws the title block.
func (d *drawing) titleBlock(u furniture, scale float64) []ink.Mark {
	o, m := &d.options, d.model
	general, edges, units := generalMetric, brokenMetric, "mm"
	switch {
	case o.Dual:
		units = "mm [in]"
	case o.Units == unit.Inch:
		general, edges, units = generalInch, brokenInch, "in"
	}
	lines := [][]cell{
		{
			{width: 92, label: "part", words: m.Name, height: nameHeight, bold: true},
			{width: 20, label: "revision", words: m.Revision},
			{width: 20, label: "sheet", words: "1 of 1"},
		},
		{{width: 60, label: "job", words: o.Job}, {width: 52, label: "material", words: m.Material}, {width: 20, label: "quantity", words: strconv.Itoa(m.Quantity)}},
		{{width: 50, label: "sizes without limits", words: general}, {width: 36, label: "edges", words: edges}, {width: 46, label: "surface", words: texture, indent: 5}},
		{
			{width: 20, label: "scale", words: scaleText(scale), bold: true},
			{width: 18, label: "units", words: units},
			{width: 26, label: "projection"},
			{width: 36, label: "drawn", words: o.Drawn},
			{width: 32, label: "date", words: o.Date},
		},
	}
	wider := u.width / titleWidth
	for _, line := range lines {
		for i := range line {
			line[i].width *= wider
		}
	}
	at := geom.Point{X: u.title.X, Y: u.title.Y - titleHeight}
	list := rows(u.title, lines...)
	list = append(list, projectionSymbol(at.Add(geom.Point{X: (38 + 14) * wider, Y: 2.6}), o.ThirdAngle)...)
	return append(list, textureSymbol(at.Add(geom.Point{X: 86*wider + 2, Y: blockRow + 1.4})))
}

// projectionSymbol draws the truncated cone of ISO 5456-2 about a place: from
// the side with its small end to the left, and from there, on the right in first
// angle projection, on the left in third.
func projectionSymbol(at geom.Point, thirdAngle bool) []ink.Mark {
	const large, small, long, apart = 1.9, 0.95, 3.8, 4.6
	side := 1.0
	if thirdAngle {
		side = -1
	}
	cone, rings := at.Sub(geom.Point{X: side * apart}), at.Add(geom.Point{X: side * apart})
	place := func(x, y float64) geom.Point { return cone.Add(geom.Point{X: x, Y: y}) }
	line := func(p geom.Path, kind ink.LineKind) ink.Mark {
		return ink.Stroke{Path: p, Kind: kind, Layer: ink.Border}
	}
	return []ink.Mark{
		line(geom.Polygon(place(-long/2, -small), place(long/2, -large), place(long/2, large), place(-long/2, small)), ink.Rule),
		line(geom.Circle(rings, small), ink.Rule), line(geom.Circle(rings, large), ink.Rule),
		line(geom.Polyline(place(-long/2-1, 0), place(long/2+1, 0)), ink.CentreLine),
		line(geom.Polyline(rings.Sub(geom.Point{X: large + 1}), rings.Add(geom.Point{X: large + 1})), ink.CentreLine),
		line(geom.Polyline(rings.Sub(geom.Point{Y: large + 0.3}), rings.Add(geom.Point{Y: large + 0.3})), ink.CentreLine),
	}
}

// textureSymbol draws the sign of a machined surface (ISO 21920-1).
func textureSymbol(at geom.Point) ink.Mark {
	const unit = 0.85
	p := func(x, y float64) geom.Point { return at.Add(geom.Point{X: x, Y: y}.Times(unit)) }
	path := append(geom.Polyline(p(0, 1.9), p(1.1, 0), p(3.3, 3.8)), geom.Line(p(2.2, 1.9), p(0, 1.9)))
	return ink.Stroke{Path: path, Kind: ink.Rule, Layer: ink.Border}
}
