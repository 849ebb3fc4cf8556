package lathe

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// deviationAllowed is what rounding may make of a swept edge, in mm.
const deviationAllowed = 1e-6

// errors works out what small errors make of the radius of a face.
func (w *ArcsWanted) errors(f ArcFace) ArcErrors {
	leaves := func(offset, cutter float64) float64 {
		if f.Convex {
			return offset - cutter/2
		}
		return offset + cutter/2
	}
	return ArcErrors{
		Offset: leaves(f.Offset+ArcError, w.Cutter) - f.Radius,
		Across: leaves(math.Hypot(f.Offset, ArcError), w.Cutter) - f.Radius,
		Cutter: leaves(f.Offset, w.Cutter-ArcError) - f.Radius,
	}
}

// sweep returns by how much the edges of what the cutter sweeps, at the readouts
// and between the table's angles that are told, differ from the arcs wanted, and
// at most by how much it cuts into any of the finished shoe. The edge of what a
// circle sweeps is where its path is half a diameter away.
func (w *ArcsWanted) sweep(f ArcFace) float64 {
	worst := 0.0
	for _, pass := range f.Passes {
		path := w.cutterPath(f, pass)
		for _, p := range w.arcOf(pass.Radius) {
			worst = max(worst, math.Abs(path.DistanceTo(p)-w.Cutter/2))
		}
		on, shoe := path.Closest(w.shoe())
		worst = max(worst, w.Cutter/2-on.Distance(shoe))
	}
	return worst
}

// cutterPath returns where the centre of the cutter runs in the plan, as if it
// went round the blank and the table stood still.
func (w *ArcsWanted) cutterPath(f ArcFace, pass ArcPass) geom.Path {
	out := pass.Readout.Distance(w.Centre)
	from, to := fromMiddle(out, -f.Start), fromMiddle(out, -f.Stop)
	turn := geom.Clockwise
	if f.Clockwise {
		turn = geom.Anticlockwise
	}
	return geom.Path{geom.Arc(geom.Point{}, from, to, turn)}
}

// arcOf returns points of the arc of this radius over the shoe's angle, with both
// ends.
func (w *ArcsWanted) arcOf(radius float64) []geom.Point {
	const parts = 32
	points := make([]geom.Point, parts+1)
	for i := range points {
		points[i] = fromMiddle(radius, w.Angle*(float64(i)/parts-0.5))
	}
	return points
}

// warn says what is doubtful in a set-up, and how it is used.
func (a *ArcsSetUp) warn() {
	w := &a.Wanted
	warn := func(text string) { a.Warnings = append(a.Warnings, unit.Words(text)) }
	if w.Climb {
		warn("These turns cut the climbing way: the cutter pulls the table on through the play of its worm. Drag the table's lock, take light cuts, and rough the other way round.")
	}
	for _, f := range a.Faces {
		if !f.RunsOut {
			warn(faceName(f.Convex) + ": the cutter is never clear of the blank by turning alone. Feed it out slowly at the start, back it off at the stop, or take a smaller one.")
		}
	}
	if (w.Mill == nil || !w.Mill.Readout) && dialOf(w.Mill, w.Slide, 0) == nil {
		warn("Neither a readout nor a dial of the slide is known: set the offsets by a travel indicator and gauge blocks.")
	}
	a.Advice = []string{
		"Both offsets count from the table's centre: find it under the spindle with an indicator before the blank goes on, and lock the slide across.",
		"Zero the slide there coming outwards, and come to every offset outwards; from a larger one go back at the start by more than the play, where the cutter is clear.",
		"The turns are for a cutter that turns clockwise seen from above, and go the conventional way, against the teeth.",
		"Both faces too far out by the same: the centre was found wrong, and the width is right. One out and one in: the cutter is not of the size that was thought. Measure both after roughing.",
	}
	if w.Climb {
		a.Advice[2] = "The turns are for a cutter that turns clockwise seen from above, and go the climbing way, with the teeth."
	}
}

func faceName(convex bool) string {
	if convex {
		return "Convex face"
	}
	return "Hollow face"
}
