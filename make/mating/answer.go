package mating

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Answer is what is to be said of one pair of mating shapes.
type Answer struct {
	Found *adjust.Result
	Mate  *trade.Mate
	Pair  Pair
	Open  []string // roles and holes that the readings leave open: nothing else is said then

	Gap    float64 // smallest gap at the place where it mates; negative where it does not go in
	Faces  []Face
	Bears  []Bearing
	Slides []Slide
	Twist  float64 // how far it turns each way before it binds, wherever it then lies; π where it turns freely
	Entry  *Passage

	Chance   float64    // that it goes in
	Spread   [3]float64 // 5 %, 50 % and 95 % of Gap
	Warnings []string

	shapes shapes
}

// Known reports whether all sizes are found that the answer needs.
func (a *Answer) Known() bool { return len(a.Open) == 0 }

// GoesIn reports whether it goes in with the sizes as they were found.
func (a *Answer) GoesIn() bool { return a.Gap >= -touching }

// touching is how little an overlap counts as touching, in mm: rounding only.
const touching = 1e-9

// Face is the gap along one face of the part at the place where it mates.
// Places are those of the Scene.
type Face struct {
	Name            string
	Least, Most     float64
	LeastAt, MostAt geom.Point
}

// Place is where a part bears.
type Place string

// The places where a part bears.
const (
	OnMiddle  Place = "on its middle"
	OnCorners Place = "on its corners"
	OnFace    Place = "all along its face"
	OnShaft   Place = "in the shaft's keyway"
	OnHub     Place = "in the hub's keyway"
	OnBoth    Place = "in both keyways"
	OnBolts   Place = "on all bolts"
	OnFlanks  Place = "on both flanks"
)

// Bearing is where the part bears when it is pressed one way, and how far from
// touching the rest of that face then is.
type Bearing struct {
	Pressed   string // "outwards"
	On        Place
	StandsOff float64
	Chance    float64 // that it bears there, of all draws
}

// Slide is how far the part moves in one direction from the place where it
// mates until it touches, +Inf where nothing stops it.
type Slide struct {
	Way string // "outwards"
	Far float64
}

// Passage is how a part passes an opening.
type Passage struct {
	Kind      Pair
	Attitudes []Attitude // that which leaves most room first
	Chance    float64    // that the best passes
}

// Passes reports whether it passes in some attitude.
func (p *Passage) Passes() bool { return p.Attitudes[0].Spare >= -touching }

// Attitude is one way of offering the part to the opening. Needs is the diameter
// that it needs, the sides of the rectangle, or the width; Spare what the
// opening leaves at best, negative where it does not pass.
type Attitude struct {
	Name  string
	Needs []float64
	Spare float64
}

// Scene is what there is to draw, in mm of the part, and knows no paper.
type Scene struct {
	Part  []geom.Path // what goes in
	Mate  []geom.Path // what it goes into
	Marks []Mark      // smallest and largest gap of each face
}

// Mark is a gap to be shown, and its true width.
type Mark struct {
	At    geom.Point
	Words string
	Gap   float64
}

// Scene returns the outlines in mating position, nothing where the sizes are
// not found.
func (a *Answer) Scene() Scene { return a.Exaggerated(1) }

// Exaggerated returns the outlines with every clearance drawn k times as wide,
// k ≥ 1, by moving what the part goes into. The marks say the true gaps.
func (a *Answer) Exaggerated(k float64) Scene {
	if !a.Known() {
		return Scene{}
	}
	drawn := a.shapes.widened(k)
	s := Scene{}
	s.Part, s.Mate = drawn.outlines()
	for i, face := range drawn.faces() {
		s.Marks = append(s.Marks, Mark{face.LeastAt, face.Name, a.Faces[i].Least})
		if face.MostAt != face.LeastAt {
			s.Marks = append(s.Marks, Mark{face.MostAt, face.Name, a.Faces[i].Most})
		}
	}
	return s
}

// shapes is a pair with numbers in its roles.
type shapes interface {
	// gap returns the smallest gap at the place where the part mates.
	gap() float64
	faces() []Face
	bears() []Bearing
	slides() []Slide
	twist() float64

	// outline is what has to pass an opening, nil where nothing has.
	outline() geom.Path
	outlines() (part, mate []geom.Path)
	widened(k float64) shapes
}
