package lathe

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Side names the edge of the part that the finder touches.
func (d *Datum) Side(axis string) trade.Side {
	sides := [2][3]trade.Side{{trade.LeftSide, "", trade.RightSide}, {trade.FrontSide, "", trade.BackSide}}
	if axis == "x" {
		return sides[0][d.Sides[0]+1]
	}
	return sides[1][d.Sides[1]+1]
}

// Stands is how the part Stands on the table, with the datum at the origin.
func (d *Datum) Stands() geom.Pose {
	return geom.Pose{Angle: d.Turned, Shift: d.At.Turned(d.Turned).Times(-1)}
}

// edgeError is how far a datum may be from the edge that the finder touches, in
// mm, before it is told: less is rounding.
const edgeError = 1e-3

// MindEdges warns where the datum is not on an edge of the part that the finder
// touches.
func (c *Coordinates) MindEdges(outline geom.Path) {
	box := outline.Moved(c.Datum.Stands()).Bounds()
	ends := map[trade.Side]float64{trade.LeftSide: box.Low.X, trade.RightSide: box.High.X, trade.FrontSide: box.Low.Y, trade.BackSide: box.High.Y}
	for _, touch := range c.Touches {
		side := c.Datum.Side(touch.Axis)
		if off := ends[side]; math.Abs(off) > edgeError {
			c.Warnings = append(c.Warnings, unit.Say("The datum is %s off the %s edge of the part: if the finder touches that, every hole is out by so much in %s.",
				unit.LengthOf(math.Abs(off)), side, touch.Axis))
		}
	}
}
