package draw

import (
	"errors"
	"fmt"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Part draws a part: its views with the dimensions that define it, a title block
// and a table of where its sizes come from. It takes the largest scale of
// ISO 5455 at which all finds its place without anything lying over anything
// else, on the smallest paper that is allowed. The error says that none will do.
func Part(m *part.Model, o Options) (*ink.Sheet, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	if (m.Turned == nil) == (m.Prism == nil) {
		return nil, errNoShape
	}
	d := &drawing{model: m, options: o, letters: lettering{units: o.Units, dual: o.Dual}}
	var second *ink.Sheet
	for _, f := range o.formats() {
		s, steps := d.largest(f)
		if s != nil && steps <= mostSteps {
			return s, nil
		}
		if second == nil {
			second = s
		}
	}
	if second != nil {
		return second, nil
	}
	return nil, d.tooLarge()
}

var errNoShape = errors.New("this part has no shape to draw: write one under its part")

// mostSteps is how many scales smaller than the bare views allow is taken before
// a larger paper is.
const mostSteps = 1

// mostSmaller is how many are tried at all: what finds no room at a few scales
// finds less at smaller ones.
const mostSmaller = 3

// drawing makes one sheet.
type drawing struct {
	model   *part.Model
	options Options
	letters lettering
}

func (d *drawing) tooLarge() error {
	if d.options.Scale > 0 {
		return fmt.Errorf("%s does not fit the paper at %s: leave the scale open or take a larger paper", d.model.Name, scaleText(d.options.Scale))
	}
	return fmt.Errorf("the dimensions of %s find no room on the paper: take larger paper", d.model.Name)
}

// largest returns the sheet at the largest scale that will do, and how many
// scales were passed over that the bare views had fitted at.
func (d *drawing) largest(f format) (s *ink.Sheet, steps int) {
	furniture := d.furniture(f)
	list := scales
	if d.options.Scale > 0 {
		list = []float64{d.options.Scale}
	}
	for _, scale := range list {
		v := d.views(scale)
		if !v.bare().fits(furniture.room) {
			continue
		}
		if d.dimensioned(v) && v.dressed().fits(furniture.room) {
			return d.sheet(f, furniture, v), steps
		}
		if steps++; steps > mostSmaller {
			break
		}
	}
	return nil, steps
}

// sheet puts the views on the paper.
func (d *drawing) sheet(f format, furniture furniture, v *views) *ink.Sheet {
	s := &ink.Sheet{Title: d.model.Name, Width: f.width, Height: f.height, Scale: v.scale}
	s.Add(furniture.marks...)
	s.Add(d.titleBlock(furniture, v.scale)...)
	block := v.dressed()
	middle := geom.Middle(furniture.room.Low, furniture.room.High)
	by := middle.Sub(geom.Middle(block.Low, block.High))
	for _, w := range v.list {
		for _, m := range w.canvas.marks {
			s.Add(ink.Moved(m, w.shift.Add(by)))
		}
	}
	return s
}

// placing is where a view stands to the first, which is seen from the front.
type placing uint8

const (
	front placing = iota
	toLeft
	toRight
	below
	above
)

// view is one view with its place.
type view struct {
	kind   part.View
	place  placing
	canvas *canvas
	shift  geom.Point
}

// views are all views at one scale, the one from the front first.
type views struct {
	scale   float64
	list    []*view
	section *float64 // where the one from the front is cut; nil where it is whole
}

// block is the room that views take together.
type block struct{ geom.Box }

func (b block) fits(room geom.Box) bool {
	size, have := b.Size(), room.Size()
	return size.X <= have.X && size.Y <= have.Y
}

// viewGap is kept between views, in mm.
const viewGap = 9.0

// arranged sets the views in their places by what each takes up and returns the
// room all take.
func (v *views) arranged(taken func(*canvas) geom.Box) block {
	whole := taken(v.list[0].canvas)
	for _, w := range v.list[1:] {
		box := taken(w.canvas)
		switch w.place {
		case toLeft:
			w.shift = geom.Point{X: whole.Low.X - viewGap - box.High.X}
		case toRight:
			w.shift = geom.Point{X: whole.High.X + viewGap - box.Low.X}
		case below:
			w.shift = geom.Point{Y: whole.Low.Y - viewGap - box.High.Y}
		case above:
			w.shift = geom.Point{Y: whole.High.Y + viewGap - box.Low.Y}
		}
		whole = around(whole, geom.Box{Low: box.Low.Add(w.shift), High: box.High.Add(w.shift)})
	}
	return block{whole}
}

// bare returns the room of the views without their dimensions, dressed with.
func (v *views) bare() block    { return v.arranged(func(c *canvas) geom.Box { return c.outline }) }
func (v *views) dressed() block { return v.arranged((*canvas).bounds) }

// dimensioned places all dimensions and reports whether all found room.
func (d *drawing) dimensioned(v *views) bool {
	for _, w := range v.list {
		var wishes []wish
		for i := range d.model.Dimensions {
			if dim := &d.model.Dimensions[i]; dim.View == w.kind {
				wishes = append(wishes, w.canvas.wish(d.spot(dim, w.canvas)))
			}
		}
		if !w.canvas.place(wishes) {
			return false
		}
		if w.kind == part.Plan && v.section != nil && !w.canvas.sectionMarks(*v.section) {
			return false
		}
	}
	return true
}

// spot scales a dimension to its view.
func (d *drawing) spot(dim *part.Dimension, c *canvas) spot {
	f := d.letters.figure(dim)
	return spot{
		Dimension: dim, a: c.on(dim.A), b: c.on(dim.B), vertex: c.on(dim.Vertex), figure: &f,
		half: dim.View == part.Side && dim.Inside && dim.Kind == part.Diameter,
	}
}

// views draws what shows the part, by its form.
func (d *drawing) views(scale float64) *views {
	v := &views{scale: scale}
	add := func(kind part.View, at placing, draw func(*canvas)) {
		c := &canvas{scale: scale}
		draw(c)
		v.list = append(v.list, &view{kind: kind, place: at, canvas: c})
	}
	if t := d.model.Turned; t != nil {
		add(part.Side, front, func(c *canvas) { c.side(t, hollow(t)) })
		if showsInEnd(t) || d.has(part.End) {
			add(part.End, d.beside(), func(c *canvas) { c.end(t) })
		}
		return v
	}
	p := d.model.Prism
	y, cut := sectionLine(p)
	add(part.Edge, front, func(c *canvas) { c.edge(p, y, cut) })
	switch {
	case p.Lean != 0 || d.has(part.End):
		add(part.End, d.beside(), func(c *canvas) { c.prismEnd(p) })
	case d.fromTheRight():
		add(part.End, d.beside(), func(c *canvas) { c.edge(fromTheRight(p), 0, false) })
	}
	add(part.Plan, d.under(), func(c *canvas) { c.plan(p) })
	if cut {
		v.list[0].canvas.sectionTitle()
		v.section = &y
	}
	return v
}

// fromTheRight reports whether the part is of a kind that is drawn from the right too.
func (d *drawing) fromTheRight() bool {
	kind, known := part.Find(d.model.Kind)
	return known && kind.FromTheRight
}

// has reports whether a view has dimensions of its own.
func (d *drawing) has(kind part.View) bool {
	for i := range d.model.Dimensions {
		if d.model.Dimensions[i].View == kind {
			return true
		}
	}
	return false
}

// beside is where the view from the right stands, under where the one from above
// does: in first angle projection on the far side, in third on the near.
func (d *drawing) beside() placing {
	if d.options.ThirdAngle {
		return toRight
	}
	return toLeft
}

func (d *drawing) under() placing {
	if d.options.ThirdAngle {
		return above
	}
	return below
}
