package setup

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// datum is where an operation counts coordinates from: where none is written, the
// origin of the plan.
func (s *Step) datum() Datum {
	d := Datum{Shows: s.centre()}
	if s.Operation == nil || s.Operation.Datum == nil {
		return d
	}
	written := s.Operation.Datum
	d.At, d.Turned, d.Finder = place(written.At), amount(written.Turned), amount(written.Finder)
	for _, side := range written.Sides {
		switch side {
		case trade.LeftSide:
			d.Sides[0] = -1
		case trade.RightSide:
			d.Sides[0] = 1
		case trade.FrontSide:
			d.Sides[1] = -1
		case trade.BackSide:
			d.Sides[1] = 1
		}
	}
	return d
}

// datumAt is where the datum was written, or else the step.
func (s *Step) datumAt() trade.Pos {
	if s.Operation != nil && s.Operation.Datum != nil {
		return s.Operation.Datum.Pos
	}
	return s.at()
}

// Side names the edge of the part that the finder touches.
func (d *Datum) Side(axis string) trade.Side {
	sides := [2][3]trade.Side{{trade.LeftSide, "", trade.RightSide}, {trade.FrontSide, "", trade.BackSide}}
	if axis == "x" {
		return sides[0][d.Sides[0]+1]
	}
	return sides[1][d.Sides[1]+1]
}

// stands is how the part stands on the table, with the datum at the origin.
func (d *Datum) stands() geom.Pose {
	return geom.Pose{Angle: d.Turned, Shift: d.At.Turned(d.Turned).Times(-1)}
}

// edgeError is how far a datum may be from the edge that the finder touches, in
// mm, before it is told: less is rounding.
const edgeError = 1e-3

// mindEdges warns where the datum is not on an edge of the part that the finder
// touches.
func (c *Coordinates) mindEdges(outline geom.Path, in unit.Unit) {
	box := outline.Moved(c.Datum.stands()).Bounds()
	ends := map[trade.Side]float64{trade.LeftSide: box.Low.X, trade.RightSide: box.High.X, trade.FrontSide: box.Low.Y, trade.BackSide: box.High.Y}
	for _, touch := range c.Touches {
		side := c.Datum.Side(touch.Axis)
		if off := ends[side]; math.Abs(off) > edgeError {
			c.Warnings = append(c.Warnings, fmt.Sprintf("The datum is %s off the %s edge of the part: if the finder touches that, every hole is out by so much in %s.",
				unit.ShowLength(math.Abs(off), in), side, touch.Axis))
		}
	}
}

// unusedData notes where a datum is written and no holes are placed.
func (p *planner) unusedData() {
	for _, s := range p.Steps {
		if s.Operation != nil && s.Operation.Datum != nil && s.Places == nil {
			s.Notes = append(s.Notes, "its datum is not used: no holes of a plan are placed in this operation")
		}
	}
}
