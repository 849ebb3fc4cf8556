package mating

import (
	"context"
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/simulate"
)

// trials is how often the sizes are drawn: chances are good to 1 % then.
const trials = 2000

// Check answers for every pair of mating shapes of the job's part, in the order
// of the file. Sizes of the part are at their targets, made anywhere between
// their limits (rectangular); what was measured is normal with its
// correlations, straight to first order, and so is a size of the part that is
// found among the sizes of r as part.ID. The same seed gives the same chances.
// What is wrong with a pair is an error of trade.Faults; sizes that the
// readings leave open leave the answer open. When the context ends the error is its
// own.
func Check(ctx context.Context, r *adjust.Result, f *fit.Result, seed uint64) ([]Answer, error) {
	if r.Job.Part == nil {
		return nil, nil
	}
	var answers []Answer
	var faults trade.Faults
	for i := range r.Job.Part.Mates {
		c := &check{sizes: newSizes(r, f), Answer: Answer{Found: r, Mate: &r.Job.Part.Mates[i]}}
		if err := c.run(ctx, seed+uint64(i)); err != nil {
			return nil, err
		}
		faults = append(faults, c.faults...)
		answers = append(answers, c.Answer)
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return answers, nil
}

// check works out one answer.
type check struct {
	*sizes
	Answer
	entry *Pair
	plan  *trade.Plan
}

func (c *check) run(ctx context.Context, seed uint64) error {
	pair := find(trade.Pairs, c.Mate.Pair)
	if pair == nil {
		c.faults.Add(c.Mate.Pos, "%q is no pair of mating shapes that is known", c.Mate.Pair)
		return nil
	}
	c.Pair = *pair
	c.plan = c.take(pair, c.Mate.Of, c.Mate.Pos)
	if e := c.Mate.Entry; e != nil {
		if c.entry = find(trade.Openings, e.Kind); c.entry == nil {
			c.faults.Add(e.Pos, "%q is no opening that is known", e.Kind)
			return nil
		}
		c.take(c.entry, e.Of, e.Pos)
	}
	if c.plan != nil {
		c.places(c.plan)
	}
	c.Open = c.sizes.open
	if len(c.faults) > 0 || !c.Known() {
		return nil
	}
	if c.nominal(); len(c.faults) > 0 {
		return nil
	}
	return c.draw(ctx, seed)
}

// nominal says what is so with the sizes as they were found.
func (c *check) nominal() {
	values := c.values()
	s, wrong := c.build(values, nil)
	if wrong != "" {
		c.faults.Add(c.Mate.Pos, "%s: %s", c.Pair.ID, wrong)
		return
	}
	c.shapes = s
	c.Gap, c.Faces, c.Bears, c.Slides, c.Twist = s.gap(), s.faces(), s.bears(), s.slides(), s.twist()
	if c.entry == nil {
		return
	}
	if s.outline() == nil {
		c.Warnings = append(c.Warnings, "whether it passes an opening cannot be said of "+string(c.Pair.ID)+": it has no one outline")
		return
	}
	c.Entry = &Passage{Kind: *c.entry, Attitudes: c.attitudes(s, values)}
	if shoe := c.Found.Job.Part.Shape.Shoe; shoe != nil && shoe.Stem != nil {
		c.Warnings = append(c.Warnings, "the stem does not count in passing the "+string(c.entry.ID)+": only the shoe itself does")
	}
}

// build makes the shapes of values, with holes drilled off their places by this
// part of what they may be, -1 to 1 in x and in y in turn; nil where they are
// drilled where they should be. Where the values are none of such shapes it says
// why.
func (c *check) build(values, off []float64) (shapes, string) {
	switch c.Pair.ID {
	case sectorShoe:
		return newSector(values)
	case straight:
		return newStraight(values)
	case keyed:
		return newKeyway(values)
	case dovetailed:
		return newDovetail(values)
	}
	hole, bolt, within := values[0], values[1], values[2]
	n := len(c.plan.Holes)
	coordinates := values[len(values)-2*n:]
	stand, drilled := make([]geom.Point, n), make([]geom.Point, n)
	for i := range stand {
		stand[i] = geom.Point{X: coordinates[2*i], Y: coordinates[2*i+1]}
		drilled[i] = c.foundAt(i)
		if off != nil {
			drilled[i] = drilled[i].Add(geom.Point{X: off[2*i], Y: off[2*i+1]}.Times(within))
		}
	}
	return newBolts(stand, drilled, hole, bolt, c.plan.Holes)
}

// foundAt returns where a hole of the plan was found: the new holes are drilled
// there.
func (c *check) foundAt(i int) geom.Point {
	at := c.list[len(c.list)-2*(len(c.plan.Holes)-i):]
	return geom.Point{X: at[0].Value, Y: at[1].Value}
}

// attitudes works out the entry; its roles come after those of the pair.
func (c *check) attitudes(s shapes, values []float64) []Attitude {
	first := 0
	for _, role := range c.Pair.Roles {
		if !role.Plan {
			first++
		}
	}
	opening := values[first : first+len(c.entry.Roles)]
	last := len(opening) - 1
	return attitudes(c.entry.ID, opening[:last], s.outline(), opening[last])
}

// The outputs of a draw: the gap, whether it goes in and whether it passes, and
// for each bearing whether it is the same.
const (
	theGap = iota
	itGoesIn
	itPasses
	firstBearing
)

// draw carries what is not known of the sizes through to the answer.
func (c *check) draw(ctx context.Context, seed uint64) error {
	spread := c.spread()
	inputs := spread.inputs()
	if c.plan != nil {
		inputs = append(inputs, rectangles(2*len(c.plan.Holes))...)
	}
	outcome, err := simulate.Propagate(ctx, inputs, simulate.Model{Outputs: firstBearing + len(c.Bears), At: func(x, y []grad.Number) {
		c.trial(spread, x, y)
	}}, trials, seed)
	if err != nil {
		return err
	}
	if outcome.Failed > 0 {
		c.Warnings = append(c.Warnings, fmt.Sprintf("%d of %d draws of the sizes gave no such shapes: they are hardly known", outcome.Failed, trials))
	}
	c.Chance = outcome.Outputs[itGoesIn].Mean
	if c.Entry != nil {
		c.Entry.Chance = outcome.Outputs[itPasses].Mean
	}
	for i := range c.Bears {
		c.Bears[i].Chance = outcome.Outputs[firstBearing+i].Mean
	}
	c.Spread[0], c.Spread[2] = outcome.Outputs[theGap].Symmetric(0.9)
	below, above := outcome.Outputs[theGap].Symmetric(1 / float64(trials))
	c.Spread[1] = (below + above) / 2
	return nil
}

// trial answers for one draw.
func (c *check) trial(spread spread, x, y []grad.Number) {
	values := c.values()
	var off []float64
	for _, number := range spread.apply(values, x) {
		off = append(off, number.X)
	}
	for i := range y {
		y[i] = grad.Const(0)
	}
	s, wrong := c.build(values, off)
	if wrong != "" {
		y[theGap] = grad.Const(math.NaN())
		return
	}
	gap := s.gap()
	y[theGap], y[itGoesIn] = grad.Const(gap), counts(gap >= -touching)
	if c.Entry != nil {
		y[itPasses] = counts(c.attitudes(s, values)[0].Spare >= -touching)
	}
	for i, b := range s.bears() {
		y[firstBearing+i] = counts(b.On == c.Bears[i].On)
	}
}

func counts(yes bool) grad.Number {
	if yes {
		return grad.Const(1)
	}
	return grad.Const(0)
}
