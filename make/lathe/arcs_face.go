package lathe

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// Of the run-out (common practice, no source).
const (
	clearOfBlank = 1.0                 // that the cutter keeps from the blank, mm
	takeUp       = 1.0                 // that it goes back to come to an offset outwards, more than the play of a slide, mm
	angleStep    = 0.5 * math.Pi / 180 // start and stop are told in whole ones
)

// face works out one face.
func (a *ArcsSetUp) face(convex bool) ArcFace {
	w := &a.Wanted
	f := ArcFace{Convex: convex, Radius: w.Inner, Clockwise: convex != w.Climb, FromStud: math.NaN()}
	if convex {
		f.Radius = w.Outer
	}
	if w.Stud > 0 {
		f.FromStud = math.Abs(f.Radius - w.Stud)
	}
	f.Passes = w.passes(f)
	f.Offset = f.Passes[len(f.Passes)-1].Offset
	before, after := w.runOut(f, -1), w.runOut(f, 1)
	f.RunsOut = before.clear && after.clear
	f.Start, f.Stop = before.angle, -after.angle
	if !f.Clockwise {
		f.Start, f.Stop = f.Stop, f.Start
	}
	f.ToStart, f.ToStop = turnOf(w.Mill, f.Start), turnOf(w.Mill, f.Stop)
	f.Errors = w.errors(f)
	f.Deviation = w.sweep(f)
	if f.Deviation > deviationAllowed {
		panic("setup: the edge that the cutter sweeps is not the arc that was wanted")
	}
	return f
}

// offset returns how far from the table's centre a cutter's centre stands that
// leaves a face of this radius.
func offset(convex bool, radius, cutter float64) float64 {
	if convex {
		return radius + cutter/2
	}
	return radius - cutter/2
}

// passes returns the roughing passes, none deeper than one may be, and the
// finishing pass. Those for which the cutter would stand on the far side of the
// centre are left out: it begins nearer to the face.
func (w *ArcsWanted) passes(f ArcFace) []ArcPass {
	towards := -1.0 // of the radius, from the face to what is over it
	if f.Convex {
		towards = 1
	}
	var list []ArcPass
	rough := max(0, w.stock(f.Convex)-w.Leave)
	count := int(math.Ceil(rough / w.Bite))
	for k := range count {
		over := w.Leave + rough*float64(count-1-k)/float64(count)
		if radius := f.Radius + towards*over; offset(f.Convex, radius, w.Cutter) > 0 {
			list = append(list, w.pass(f, radius))
		}
	}
	last := w.pass(f, f.Radius)
	last.Finishing = true
	return append(list, last)
}

func (w *ArcsWanted) pass(f ArcFace, radius float64) ArcPass {
	out := offset(f.Convex, radius, w.Cutter)
	return ArcPass{Radius: radius, Offset: out, Readout: w.Centre.Add(geom.Point{X: out}), Dial: moveOf(dialOf(w.Mill, w.Slide, 0), out)}
}

// end is where the cutter stops at one end of a face.
type end struct {
	angle float64 // from the middle, not negative
	clear bool
}

// runOut returns the first angle in whole steps past the end of a face at which
// the cutter is clear of the whole blank in every pass; side is 1 anticlockwise
// of the middle in the plan. Where there is none it ends with the face.
func (w *ArcsWanted) runOut(f ArcFace, side float64) end {
	const rounding = 1e-9
	first := math.Ceil(w.Angle/2/angleStep - rounding)
	for k := first; k*angleStep < math.Pi; k++ {
		if w.clearAt(f, side*k*angleStep) {
			return end{k * angleStep, true}
		}
	}
	return end{angle: first * angleStep}
}

// clearAt reports whether the cutter, at this angle from the middle, is clear of
// the blank at every offset and also where it goes back to come to it outwards.
func (w *ArcsWanted) clearAt(f ArcFace, angle float64) bool {
	for _, pass := range f.Passes {
		out := fromMiddle(pass.Offset, angle)
		way := geom.Path{geom.Line(fromMiddle(max(0, pass.Offset-takeUp), angle), out)}
		on, blank := way.Closest(w.Blank)
		if w.Blank.Contains(out) || on.Distance(blank) < w.Cutter/2+clearOfBlank {
			return false
		}
	}
	return true
}

// fromMiddle returns the place in the plan at this distance from the centre and
// this angle from the middle line, anticlockwise.
func fromMiddle(distance, angle float64) geom.Point {
	return geom.Polar(distance, math.Pi/2+angle)
}
