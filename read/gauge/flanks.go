package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// seat says which wires or balls touch the straight of a thread's flank. All
// are diameters in pitches.
type seat struct {
	deepest float64 // a smaller one sits on the root
	proud   float64 // a smaller one lies below the crests
	largest float64 // a larger one touches beyond the crest end of the flank
}

// sameAngle is how near a form's own angle counts as that form.
const sameAngle = 0.25 * degree

// seats returns the seats of a screw and of a nut with this included angle: of
// the forms in the table of wires with that angle, the widest; for any other
// angle those of a sharp vee.
//
// The flank of a nut is that of the screw, but for 60°: its crest is cut off a
// quarter of the sharp height from the pitch line, a screw's three eighths (ISO
// 68-1, from memory). A wire d touches as far below the pitch line as one of
// P/cos(φ/2) - d touches above it, and the root end of the one's flank is the
// crest end of the other's.
func seats(angle float64) (screw, nut seat) {
	c, s := math.Cos(angle/2), math.Sin(angle/2)
	screw = seat{proud: c / s / (1 + 1/s), largest: 1 / c}
	for i, w := range formsOfAngle(angle) {
		if i == 0 {
			screw = seat{proud: w.Smallest, largest: w.Largest}
		}
		screw.proud = min(screw.proud, w.Smallest)
		screw.largest = max(screw.largest, w.Largest)
	}
	nut = screw
	if math.Abs(angle-60*degree) < sameAngle {
		nut = seat{proud: 0.75 * c / s / (1 + 1/s), largest: 0.75 / c}
	}
	screw.deepest, nut.deepest = 1/c-nut.largest, 1/c-screw.largest
	return screw, nut
}

func formsOfAngle(angle float64) []facts.ThreadWire {
	var list []facts.ThreadWire
	for _, w := range facts.ThreadWires() {
		if math.Abs(w.Angle-angle) < sameAngle {
			list = append(list, w)
		}
	}
	return list
}

// touchAbovePitchLine is how far toward the crest from the pitch line a wire
// or ball touches the flank.
func touchAbovePitchLine(pitch, angle, wire float64) float64 {
	return (wire/2*math.Cos(angle/2) - pitch/4) / math.Tan(angle/2)
}

// touchesFlank holds a wire or ball to the straight of the flank.
func touchesFlank(s seat, pitch, angle, piece float64, what string, r *remarks) {
	switch {
	case piece > s.largest*pitch:
		r.broken("the %s of %s touches the flank %s toward the crest from the pitch line, beyond its straight: the "+
			"largest for this thread is %s",
			what, unit.LengthOf(piece), unit.LengthOf(touchAbovePitchLine(pitch, angle, piece)), unit.LengthOf(s.largest*pitch))
	case piece < s.deepest*pitch:
		r.broken("the %s of %s sits on the root: the smallest that touches the flanks of this thread is %s",
			what, unit.LengthOf(piece), unit.LengthOf(s.deepest*pitch))
	}
}

func wiresTouchTheFlank(v []float64, r *remarks) {
	effective, pitch, angle, wire, major := v[0], v[1], v[2], v[3], v[4]
	screw, _ := seats(angle)
	touchesFlank(screw, pitch, angle, wire, "wire", r)
	if math.IsNaN(major) {
		if wire < screw.proud*pitch {
			r.broken("the wire of %s lies below the crests of a full thread, the smallest that stands proud is %s: "+
				"give major if the crests are gone",
				unit.LengthOf(wire), unit.LengthOf(screw.proud*pitch))
		}
		return
	}
	if touch := effective + 2*touchAbovePitchLine(pitch, angle, wire); touch > major {
		r.broken("the wire of %s would touch the flanks at a diameter of %s, above the crests at %s",
			unit.LengthOf(wire), unit.LengthOf(touch), unit.LengthOf(major))
	}
	if over := model(threeWires).at(v); over <= major {
		r.broken("the wires' tops would be at %s, below the crests at %s", unit.LengthOf(over), unit.LengthOf(major))
	}
}

func ballsTouchTheFlank(v []float64, r *remarks) {
	pitch, angle, ball := v[1], v[2], v[3]
	_, nut := seats(angle)
	touchesFlank(nut, pitch, angle, ball, "ball", r)
}

func ballsStandProud(v []float64, r *remarks) {
	pitch, angle, ball := v[1], v[2], v[3]
	if _, nut := seats(angle); ball < nut.proud*pitch {
		r.broken("the ball of %s lies below the crests of a full thread: the smallest that stands proud is %s",
			unit.LengthOf(ball), unit.LengthOf(nut.proud*pitch))
	}
}

// farFromBest is how far from the best wire, as a part of it, one says so:
// common practice, no source.
const farFromBest = 0.1

func bestWire(v []float64, r *remarks) {
	pitch, angle, wire := v[1], v[2], v[3]
	if best := BestWire(pitch, angle); math.Abs(wire/best-1) > farFromBest {
		r.advise("the best wire for this thread is %s, which touches on the pitch line; with one of %s an error of "+
			"1° in its angle moves the reading by %s",
			unit.LengthOf(best), unit.LengthOf(wire), unit.LengthOf(math.Abs(model(threeWires).slope(v, 2))*degree))
	}
}

// BestWire returns P/(2·cos(φ/2)), the wire that touches on the pitch line of a
// thread of this pitch, mm, and included angle, rad.
func BestWire(pitch, angle float64) float64 { return pitch / (2 * math.Cos(angle/2)) }

// leadMatters is the least correction worth saying, mm.
const leadMatters = 0.002

func leadAngleMatters(v []float64, r *remarks) {
	effective, pitch, angle, wire := v[0], v[1], v[2], v[3]
	if add := leadCorrection(effective, pitch, angle, wire); add > leadMatters {
		lead := math.Atan(pitch / (math.Pi * effective))
		r.advise("the lead angle of %s, for a single start, lifts the wires: add %s to the reading expected",
			unit.AngleOf(lead), unit.LengthOf(add))
	}
}

// leadCorrection returns what the lead angle L adds to the reading over wires,
// w·tan²L·cos(φ/2)/(2·tan(φ/2)) with tan L = lead/(π·E), to first order: for
// lead angles over some 5° the exact method is wanted (Machinery's Handbook,
// 31st ed., p. 2135).
func leadCorrection(effective, lead, angle, wire float64) float64 {
	slope := lead / (math.Pi * effective)
	return wire * slope * slope * math.Cos(angle/2) / (2 * math.Tan(angle/2))
}
