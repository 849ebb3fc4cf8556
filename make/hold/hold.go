package hold

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Verdict says what keeps the work where it is.
type Verdict string

// The verdicts.
const (
	Unseated   Verdict = "unseated"    // tightening alone moves the work
	NoForce    Verdict = "no-force"    // no cutting force is stated
	OnStops    Verdict = "on-stops"    // stops, jaws and screws take the force without any friction
	ByFriction Verdict = "by-friction" // friction alone holds it, by SafeFactor or more
	Hardly     Verdict = "hardly-held" // friction alone holds it, by less
	Slips      Verdict = "slips"       // the force is more than friction holds
)

// The friction at which holding is judged, of steel on iron that may be oily, and
// how many times the cutting force it must then hold (common practice, no source).
const (
	JudgedFriction = 0.1
	SafeFactor     = 2
)

// Judgement is how work is held in the plane against a cutting force.
type Judgement struct {
	Holding *trade.Holding
	Free    []Motion // what stops, jaws and screws leave free without friction
	Verdict Verdict
	Creep   *Motion // which way the work goes if friction gives way, nil where it cannot go

	// Friction is what the verdict rests on: JudgedFriction, or what was stated if
	// that is less. Factor is the force at which it gives way over the one stated, +Inf
	// where the stops hold with their own friction however hard it pushes; Stated is
	// the same at the friction stated. Both are NaN where there is nothing to say.
	Friction, Factor, Stated float64

	Lifts    bool // held by its screws, but pushed off what they press it against
	Shares   []Share
	Said     []unit.Text // the verdict in sentences
	Warnings []unit.Text
}

// Motion is a small movement of the work as it begins: a slide towards a
// direction, or a turn about a point.
type Motion struct {
	Turn     geom.Turn  // Straight: a slide
	Towards  float64    // of a slide, rad from the x axis
	About    geom.Point // of a turn, mm
	BothWays bool
}

// Share is what one contact presses with, N: at rest, and while the cutter pushes,
// NaN where it then gives way. Where the stops can share the load in many ways both
// are ranges, without an upper end where two face each other. Of a strap clamp it
// is the load of its toe, and Heel that of its heel.
type Share struct {
	Contact       *trade.Contact
	Rest, Cutting strength.Span
	Heel          float64
	Rubs          bool // no shares balance without friction
}

// Judge judges how work is held. Contacts are points, a jaw the two at its ends;
// the work is rigid and moves in its plane only; weight is not counted. Stops,
// walls and fixed jaws push as much as they must, screws and moving jaws with
// their clamping force, and whatever moves is followed only as it begins.
//
//	what is free: motions of velocity v at each contact with v·n >= 0
//	what holds:   the largest k for which Σ (N n + t) + k F = 0, |t| <= μN, balances
//
// The latter is a linear programme; of all ways in which friction may share the
// load it finds the best, which is why it is never called safe. A strap clamp's toe
// gets bolt force · (heel - bolt)/heel, counted as friction on the table only: its
// strap can swing.
func Judge(holding *trade.Holding) *Judgement {
	h := &holder{Judgement: &Judgement{Holding: holding, Factor: math.NaN(), Stated: math.NaN()}}
	h.gather()
	h.Friction = JudgedFriction
	if mu := holding.Friction; mu > 0 && mu < h.Friction {
		h.Friction = mu
	}
	h.Free = h.motions()
	h.judge()
	h.share()
	h.say()
	h.warn()
	return h.Judgement
}

// holder works out how one piece of work is held.
type holder struct {
	*Judgement
	touches []touch
	centre  geom.Point // of the places touched
	reach   float64    // their mean distance from there, mm
	scale   float64    // the largest force there is, N
	load    wrench     // cutting force over scale, zero where none is stated
}

// touch is one place where a contact pushes: of a jaw, one of its ends.
type touch struct {
	contact *trade.Contact
	at      geom.Point
	push    geom.Point // direction in which it pushes the work; zero of a strap clamp
}

// moves reports whether a contact presses with a force of its own.
func moves(c *trade.Contact) bool { return c.Clamping.Given() }

// blocks reports whether a contact stands in the way of the work.
func (t touch) blocks() bool { return t.contact.Kind != trade.ClampContact }

// gather finds the places touched and the measures of length and force by which
// all else is reckoned.
func (h *holder) gather() {
	for i := range h.Holding.Contacts {
		c := &h.Holding.Contacts[i]
		h.scale = math.Max(h.scale, c.Clamping.InsideOr(0))
		t := touch{contact: c, at: sketch.Place(c.At), push: geom.Polar(1, c.Towards.InsideOr(0))}
		switch c.Kind {
		case trade.ClampContact:
			t.push = geom.Point{}
			h.touches = append(h.touches, t)
		case trade.JawContact:
			half := t.push.Left().Times(c.Width.InsideOr(0) / 2)
			h.touches = append(h.touches, touch{c, t.at.Sub(half), t.push}, touch{c, t.at.Add(half), t.push})
		default:
			h.touches = append(h.touches, t)
		}
	}
	for _, t := range h.touches {
		h.centre = h.centre.Add(t.at.Times(1 / float64(len(h.touches))))
	}
	h.reach = h.spread()
	force := h.Holding.Force.InsideOr(0)
	if h.scale = math.Max(h.scale, force); h.scale == 0 {
		h.scale = 1
	}
	h.load = h.wrenchOf(sketch.Place(h.Holding.At), geom.Polar(force/h.scale, h.Holding.Towards.InsideOr(0)))
}

// spread returns the root of the mean square distance of the places touched, and
// of where the cutter pushes, from their centre; 1 mm where all are one.
func (h *holder) spread() float64 {
	sum, n := 0.0, 0.0
	add := func(p geom.Point) { sum, n = sum+math.Pow(p.Distance(h.centre), 2), n+1 }
	for _, t := range h.touches {
		add(t.at)
	}
	if h.Holding.Force.Given() {
		add(sketch.Place(h.Holding.At))
	}
	if sum == 0 {
		return 1
	}
	return math.Sqrt(sum / n)
}

// toe returns the share of its bolt's load that a strap clamp puts on the work.
func toe(c *trade.Contact) float64 {
	return (c.Heel.InsideOr(0) - c.Bolt.InsideOr(0)) / c.Heel.InsideOr(0)
}

// judge finds what keeps the work where it is.
func (h *holder) judge() {
	switch {
	case !h.grip(h.Friction).balances(wrench{}):
		h.Verdict, h.Creep = Unseated, h.creep(h.clamping(), false)
		return
	case !h.Holding.Force.Given():
		h.Verdict = NoForce
		return
	}
	h.Creep = h.creep(h.load, true)
	h.Factor = h.grip(h.Friction).most(h.load)
	if mu := h.Holding.Friction; mu > h.Friction {
		h.Stated = h.grip(mu).most(h.load)
	}
	switch {
	case h.Creep == nil:
		h.Verdict, h.Lifts = OnStops, h.Factor < 1
	case h.Factor >= SafeFactor:
		h.Verdict = ByFriction
	case h.Factor >= 1:
		h.Verdict = Hardly
	default:
		h.Verdict = Slips
	}
}
