// Package strength says which piece of a joint gives way first, at what load,
// and whether that is the piece that was meant to.
//
// One load passes through every piece of a joint, each with its way of giving:
// the stud breaks, its thread or the nut's strips, a head shears, a tee bends, a
// key or pin shears or is crushed, a press fit slips. They are put in the order
// of the loads at which they cease to hold; where a piece only begins to yield is
// shown beside it. Loads are from the least strengths of the tables and the
// limits of size that leave the least metal, at rest and once: nothing here
// covers fatigue, shock or heat. Loads are in N, torques in N·mm, stresses in MPa.
package strength

import (
	"cmp"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Way is one way in which a joint can give way.
type Way struct {
	Failure *Failure  // the entry of the catalogue
	Args    []float64 // the values in its roles, at the least that the piece may hold

	Piece   string // as the entry calls it, or the id of a key or pin
	Mode    Mode
	Load    float64   // from which it no longer holds
	Yield   float64   // from which it is changed for good, NaN where the tables give no yield
	Most    float64   // what the strongest piece that the tables allow holds, NaN where they set no upper limit
	Margin  float64   // Load over that of the weakest way of the joint; torque over torque where every piece has a radius
	Fuse    bool      // it is a way of the piece that was meant to give way first
	Torque  float64   // Load at the radius at which it acts, NaN where none is stated
	How     unit.Text // stress and area
	Sources []string

	fuse  trade.Fuse // by what name the job calls the piece as the fuse
	tight float64    // preload from which it gives way while it is tightened, twisted besides pulled
}

// Span is a range, Low not above High.
type Span struct {
	Low, High float64
}

// Answer is what is found of one joint.
type Answer struct {
	Joint    *trade.Joint
	Ways     []Way // weakest first; none where a press fit alone has lost its interference
	Screw    *Screw
	Press    *Press
	Safety   float64     // load of the weakest over the load in service, which acts on it, NaN where none is stated
	Verdict  []unit.Text // sentences: what goes first, and whether it was meant to
	Warnings []unit.Text
	Notes    []string // what was assumed
	Cautions []string // always shown
}

// Check returns what gives way first in each joint of a job, in the order of the
// job, which must be checked as package jobfile does. Threads of the part are taken
// at the limits that f makes them to; f may be nil. An error is an trade.Faults: a
// material without strength, an unknown property class, a length of thread that is
// needed and not stated, sizes that cannot be.
func Check(job *trade.Job, f *fit.Result) ([]Answer, error) {
	var faults trade.Faults
	var list []Answer
	for i := range job.Joints {
		c := &checker{job: job, made: f, joint: &job.Joints[i], faults: &faults}
		list = append(list, c.check())
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return list, nil
}

// checker works out one joint.
type checker struct {
	job    *trade.Job
	made   *fit.Result
	joint  *trade.Joint
	faults *trade.Faults
	answer Answer
}

func (c *checker) check() Answer {
	c.answer = Answer{Joint: c.joint, Safety: math.NaN()}
	before := len(*c.faults)
	c.screwed()
	for i := range c.joint.Sheared {
		c.sheared(&c.joint.Sheared[i])
	}
	c.pressed()
	if len(*c.faults) > before {
		return c.answer
	}
	if len(c.answer.Ways) > 0 {
		c.order()
		c.judge()
	}
	c.caution()
	return c.answer
}

// fault adds a fault and returns false, for a caller that then gives up.
func (c *checker) fault(pos trade.Pos, format string, args ...any) bool {
	c.faults.Add(pos, format, args...)
	return false
}

// note keeps what was assumed, once.
func (c *checker) note(text string) {
	if text != "" && !slices.Contains(c.answer.Notes, text) {
		c.answer.Notes = append(c.answer.Notes, text)
	}
}

// order puts the weakest way first and marks the fuse. Where every piece has a
// radius one torque passes through them all, and its size decides.
func (c *checker) order() {
	ways := c.answer.Ways
	byTorque := true
	for _, w := range ways {
		byTorque = byTorque && !math.IsNaN(w.Torque)
	}
	bears := func(w Way) float64 {
		if byTorque {
			return w.Torque
		}
		return w.Load
	}
	slices.SortStableFunc(ways, func(a, b Way) int { return cmp.Compare(bears(a), bears(b)) })
	for i := range ways {
		ways[i].Margin = bears(ways[i]) / bears(ways[0])
		ways[i].Fuse = c.joint.Fuse != trade.NoFuse && ways[i].fuse == c.joint.Fuse
	}
}
