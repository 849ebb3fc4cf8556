package paper

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The types of dimension (group 70), with the flags that the block belongs to
// this dimension alone and that the text is where it was put.
const (
	ownBlock  = 32
	textPut   = 128
	rotated   = 0 | ownBlock | textPut
	diametric = 3 | ownBlock | textPut
	radial    = 4 | ownBlock | textPut
	angular   = 5 | ownBlock | textPut // by three points
)

// open begins the block of a dimension. A leader measures nothing: what is drawn
// of it stands in the model.
func (p *dxfPen) open(d ink.Dimension) {
	if d.Kind == ink.Leader {
		return
	}
	record := p.handle()
	p.records = append(p.records, record)
	p.into(&p.blocks, record)
	p.blockBegin(&p.blocks, blockName(len(p.records)), record, 1)
}

// close ends the block and writes the dimension itself.
func (p *dxfPen) close(d ink.Dimension) {
	if d.Kind == ink.Leader {
		return
	}
	p.blockClose(&p.blocks, p.owner)
	p.into(&p.model, modelRecord)
	p.entity("DIMENSION", ink.Dimensions)
	p.to.put(100, "AcDbDimension", 2, blockName(len(p.records)))
	p.to.point(10, p.scaled(definingPoint(d)))
	p.to.point(11, p.scaled(middleOfText(d)))
	p.to.put(70, [...]int{ink.Linear: rotated, ink.Diametral: diametric, ink.Radial: radial, ink.Angular: angular}[d.Kind],
		71, 5, 1, plainText(legible(d.Words)), 42, measurement(d), 3, dimensionStyle)
	p.measured(d)
}

// measured writes what a dimension measures between.
func (p *dxfPen) measured(d ink.Dimension) {
	switch d.Kind {
	case ink.Linear:
		p.to.put(100, "AcDbAlignedDimension")
		p.to.point(13, p.scaled(d.A))
		p.to.point(14, p.scaled(d.B))
		p.to.put(50, d.Direction*180/math.Pi, 100, "AcDbRotatedDimension")
	case ink.Diametral:
		p.to.put(100, "AcDbDiametricDimension")
		p.to.point(15, p.scaled(d.A))
		p.to.put(40, 0.0)
	case ink.Radial:
		p.to.put(100, "AcDbRadialDimension")
		p.to.point(15, p.scaled(d.B))
		p.to.put(40, 0.0)
	case ink.Angular:
		p.to.put(100, "AcDb3PointAngularDimension")
		p.to.point(13, p.scaled(d.A))
		p.to.point(14, p.scaled(d.B))
		p.to.point(15, p.scaled(d.Vertex))
	}
}

// definingPoint returns the first point of a dimension: where the dimension line
// meets the second projection line, the far end of a diameter, the centre of an
// arc, or a point of the arc of an angle.
func definingPoint(d ink.Dimension) geom.Point {
	switch d.Kind {
	case ink.Diametral:
		return d.B
	case ink.Radial:
		return d.A
	case ink.Angular:
		return d.LineAt
	}
	along := geom.Polar(1, d.Direction)
	return d.LineAt.Add(along.Times(d.B.Sub(d.LineAt).Dot(along)))
}

// middleOfText returns the middle of the first text of a dimension, and a point
// of its line where it has none.
func middleOfText(d ink.Dimension) geom.Point {
	for _, m := range d.Parts {
		if t, ok := m.(ink.Text); ok {
			along := geom.Polar(1, t.Angle)
			middle := ink.Width(t.Words, t.Height, t.Bold)/2 - startOf(t)
			return t.At.Add(along.Times(middle)).Add(along.Left().Times(t.Height / 2))
		}
	}
	return d.LineAt
}

// measurement returns what a dimension measures, angles in radians.
func measurement(d ink.Dimension) float64 {
	if d.Kind == ink.Angular {
		return d.Measures * math.Pi / 180
	}
	return d.Measures
}

func blockName(number int) string { return fmt.Sprintf("*D%d", number) }
