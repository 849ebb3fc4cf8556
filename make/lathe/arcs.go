package lathe

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// ArcsWanted is a shoe whose two round faces are milled on a rotary table from one
// clamping, and what it is milled with. In its plan the centre of both radii is
// the origin, and the middle of the shoe lies on the y axis.
type ArcsWanted struct {
	Outer, Inner float64   // radii of the convex and of the hollow face
	Angle        float64   // included
	Stud         float64   // how far from the centre its stud or hole stands; 0: none
	Blank        geom.Path // outline of what is clamped down, in the plan; nil: the box round the shoe and DefaultSkin

	Cutter float64 // diameter
	Leave  float64 // for the finishing pass; 0: DefaultLeave
	Bite   float64 // most that one pass takes, radially; 0: a quarter of the cutter
	Climb  bool    // the climbing way; else the conventional

	Mill   *trade.Machinery // with its rotary table, dials and travels; nil: not known
	Slide  string           // along which the cutter stands out; empty: the first with a dial
	Centre geom.Point       // what the readout shows with the spindle over the table's centre
	Units  unit.Unit        // of what is written, in which faults are told
}

// What is taken where nothing is stated, in mm (common practice, no source).
const (
	DefaultLeave = 0.3 // radially, for the finishing pass
	DefaultSkin  = 1.0 // of the blank on each side of the shoe
)

// ArcsSetUp is how both faces of a shoe are milled. The cutter stands out from the
// table's centre along one slide, and the blank's middle comes under it at table
// angle 0.
type ArcsSetUp struct {
	Wanted   ArcsWanted // with what was left open
	Middle   float64    // of the shoe, from the table's centre
	Near     float64    // of the blank along its middle line: the nearest and the
	Far      float64    // farthest edge from the table's centre
	Faces    []ArcFace  // the convex one first
	Warnings []unit.Text
	Advice   []string
}

// ArcFace is one face. The table's angles are those of the blank's middle from the
// line to the cutter; the same start and stop do for every pass.
type ArcFace struct {
	Convex      bool
	Radius      float64
	FromStud    float64 // from stud or hole to the face; NaN where there is none
	Offset      float64 // from the table's centre to the cutter's when finishing
	Clockwise   bool    // the table turns so while it cuts, seen from above
	Start, Stop float64
	RunsOut     bool       // at both ends the cutter is clear of the blank
	ToStart     HandleMove // of the table's handle from angle 0
	ToStop      HandleMove
	Passes      []ArcPass
	Errors      ArcErrors
	Deviation   float64 // of the edge that the cutter sweeps from the arc wanted, at most
}

// ArcPass is one pass. Radius is that of the face after it.
type ArcPass struct {
	Finishing bool
	Radius    float64
	Offset    float64    // from the table's centre to the cutter's
	Readout   geom.Point // what it shows
	Dial      HandleMove // from the table's centre
}

// ArcErrors is by how much the radius is wrong, with its sign, where something
// else is wrong by ArcError.
type ArcErrors struct {
	Offset float64 // the cutter stands that much too far out
	Across float64 // the table's centre was found that much beside the line of the offset
	Cutter float64 // the cutter's diameter is that much less than was thought
}

// ArcError is the error whose effect is told, in mm.
const ArcError = 0.02

// ShoeArcs takes the arcs of a shoe from its model, false where it is not a shoe
// with round faces. Stud is that of its stem, or of its hole.
func ShoeArcs(m *part.Model) (ArcsWanted, bool) {
	if kind, known := part.Find(m.Kind); !known || !kind.Arcs || m.Prism == nil {
		return ArcsWanted{}, false
	}
	var w ArcsWanted
	for _, e := range m.Prism.Outline {
		switch e.Turn {
		case geom.Anticlockwise:
			w.Outer, w.Angle = e.Radius(), e.Sweep()
		case geom.Clockwise:
			w.Inner = e.Radius()
		}
	}
	switch p := m.Prism; {
	case p.Stem != nil:
		w.Stud = p.Stem.At.Y
	case len(p.Holes) > 0:
		w.Stud = p.Holes[0].At.Y
	}
	return w, w.Outer > 0
}

// Arcs works out the set-up. The cutter's centre stands at
//
//	convex:  R + d/2      hollow:  r - d/2
//
// from the table's centre. Every pass is swept and its edge compared with the arc
// that it is to leave. The error, trade.Faults, says what cannot be: a cutter
// larger than the hollow, a blank that the shoe is not in, an offset beyond the
// slide.
func Arcs(wanted ArcsWanted) (*ArcsSetUp, error) {
	wanted.settle()
	if err := wanted.check(); err != nil {
		return nil, err
	}
	middle := (wanted.Outer + wanted.Inner) / 2
	a := &ArcsSetUp{Wanted: wanted, Middle: middle}
	a.Near, a.Far = acrossMiddle(wanted.Blank)
	for _, convex := range []bool{true, false} {
		a.Faces = append(a.Faces, a.face(convex))
	}
	a.warn()
	return a, nil
}

// settle fills in what was left open.
func (w *ArcsWanted) settle() {
	const quarter = 4
	if w.Leave == 0 {
		w.Leave = DefaultLeave
	}
	if w.Bite == 0 {
		w.Bite = w.Cutter / quarter
	}
	if w.Blank == nil && w.Outer > w.Inner && w.Inner > 0 && w.Angle > 0 {
		w.Blank = w.sawn()
	}
}

// sawn returns the box round the shoe with a skin on each side, though never so
// thick that it reaches the centre.
func (w *ArcsWanted) sawn() geom.Path {
	box, skin := w.shoe().Bounds(), geom.Point{X: DefaultSkin, Y: DefaultSkin}
	low := box.Low.Sub(skin)
	low.Y = max(low.Y, box.Low.Y/2)
	return geom.Rectangle(low, box.High.Add(skin))
}

// shoe returns the outline of the finished shoe, its convex face second and its
// hollow face last.
func (w *ArcsWanted) shoe() geom.Path {
	right, left := (math.Pi-w.Angle)/2, (math.Pi+w.Angle)/2
	a, b := geom.Polar(w.Inner, right), geom.Polar(w.Outer, right)
	c, d := geom.Polar(w.Outer, left), geom.Polar(w.Inner, left)
	var centre geom.Point
	return geom.Path{geom.Line(a, b), geom.Arc(centre, b, c, geom.Anticlockwise), geom.Line(c, d), geom.Arc(centre, d, a, geom.Clockwise)}
}

// acrossMiddle returns where the middle line enters and leaves the blank.
func acrossMiddle(blank geom.Path) (near, far float64) {
	box := blank.Bounds()
	line := geom.Line(geom.Point{Y: box.Low.Y - 1}, geom.Point{Y: box.High.Y + 1})
	near, far = math.Inf(1), math.Inf(-1)
	for _, e := range blank {
		for _, p := range e.Crossings(line) {
			near, far = min(near, p.Y), max(far, p.Y)
		}
	}
	return near, far
}

// mostPasses bounds the passes of a face: more is a blank not sawn near enough.
const mostPasses = 100

// check says what is wrong with a shoe, or what it cannot be milled with.
func (w *ArcsWanted) check() error {
	var faults trade.Faults
	show := func(mm float64) string { return unit.ShowLength(mm, w.Units) }
	wrong := func(format string, args ...any) { faults.Add(trade.Pos{}, format, args...) }
	if !(w.Inner > 0 && w.Outer > w.Inner && !math.IsInf(w.Outer, 1)) {
		wrong("radii of %s and %s make no shoe: the outer one is the larger, and both are greater than 0", show(w.Outer), show(w.Inner))
	}
	if !(w.Angle > 0 && w.Angle < math.Pi) {
		wrong("an angle of %s makes no shoe: more than 0 and less than 180° is wanted", unit.ShowAngle(w.Angle))
	}
	if !(w.Cutter > 0 && w.Leave > 0 && w.Bite > 0) {
		wrong("a cutter, what is left for the finishing pass and what one pass takes are greater than 0")
	}
	if len(faults) == 0 && !w.goesIn() {
		wrong("a cutter of %s does not go into the hollow of radius %s: with %s left for finishing it is less than %s",
			show(w.Cutter), show(w.Inner), show(w.Leave), show(2*(w.Inner-w.Leave)))
	}
	if len(faults) == 0 && !w.inBlank() {
		wrong("the shoe is not inside the blank")
	}
	if len(faults) == 0 && w.Blank.Contains(geom.Point{}) {
		wrong("the blank reaches over the table's centre: saw out the hollow first")
	}
	if reach, travel := w.Outer+w.Cutter/2, travelOf(w.Mill, w.Slide); reach > travel {
		wrong("the cutter stands %s out from the table's centre, and the slide goes %s", show(reach), show(travel))
	}
	if len(faults) == 0 && max(w.stock(true), w.stock(false)) > mostPasses*w.Bite {
		wrong("the blank has %s to take off: saw it nearer to the shoe, or let one pass take more than %s", show(max(w.stock(true), w.stock(false))), show(w.Bite))
	}
	return faults.Err()
}

// goesIn reports whether the cutter turns in the hollow, finishing or not.
func (w *ArcsWanted) goesIn() bool { return w.Cutter/2 < w.Inner-w.Leave }

// inBlank reports whether the blank goes all round the shoe, to a hundredth of a
// millimetre.
func (w *ArcsWanted) inBlank() bool {
	const within = 0.01
	return w.Blank.Closed() && !slices.ContainsFunc(w.shoe().Flatten(within), func(p geom.Point) bool { return !w.Blank.Contains(p) })
}

// stock returns how far the blank reaches over a face, towards the cutter.
func (w *ArcsWanted) stock(convex bool) float64 {
	var centre geom.Point
	if convex {
		return w.Blank.Farthest(centre).Length() - w.Outer
	}
	return w.Inner - w.Blank.DistanceTo(centre)
}
