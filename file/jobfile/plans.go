package jobfile

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// planReader reads plans of holes, and places that were touched.
type planReader struct{ *values }

// readPlans reads sets of holes with unknown places.
func (r planReader) readPlans(f fields) {
	for _, entry := range f.entries("plans") {
		p := f.item("plans", entry.value, describe("plan", entry.key))
		plan := trade.Plan{ID: entry.key.text, Pos: entry.key.pos, Guess: map[string]trade.Point{}}
		r.claim(entry.key, aPlan, len(r.job.Plans))
		if p.has("holes") {
			plan.Holes = r.readHoles(p, len(r.job.Plans))
		}
		if p.has("guess") {
			r.readGuesses(p, &plan)
		}
		r.job.Plans = append(r.job.Plans, plan)
	}
}

// readHoles reads the ids of the holes of the plan with this index.
func (r planReader) readHoles(p fields, plan int) []string {
	n := p.at("holes")
	if n.shape != list || len(n.items) < 2 {
		r.fault(n, "%s: found %s where a list of two holes or more should be", p.about("holes"), n.found())
	}
	var holes []string
	for _, hole := range n.items {
		r.claim(hole, aHole, plan)
		holes = append(holes, hole.text)
	}
	return holes
}

// readGuesses reads about where some of the holes lie.
func (r planReader) readGuesses(p fields, plan *trade.Plan) {
	n := p.at("guess")
	if n.shape != mapping {
		r.fault(n, "%s: found %s where a mapping {hole: [x, y]} should be", p.about("guess"), n.found())
	}
	for _, guess := range n.pairs {
		if o := r.owners[guess.key.text]; o.thing != aHole || o.index != len(r.job.Plans) {
			r.unknown(guess.key, p.about("guess"), "hole", plan.Holes)
			continue
		}
		at := r.pair(guess.value, p.about("guess"), r.length, r.length)
		plan.Guess[guess.key.text] = trade.Point{X: at[0], Y: at[1]}
	}
}

// readPlaces reads the circles and lines that are touched.
func (r planReader) readPlaces(f fields) {
	for _, entry := range f.entries("places") {
		p := f.item("places", entry.value, describe("place", entry.key))
		place := trade.Place{
			ID:   entry.key.text,
			Kind: trade.PlaceKind(p.text("kind")),
			Say:  p.text("say"),
			Pos:  entry.key.pos,
		}
		switch place.Kind {
		case trade.Circle:
			place.Diameter = r.diameter(p)
			place.Guess = r.placeGuess(p, r.length)
		case trade.Line:
			place.Guess = r.placeGuess(p, unit.ParseAngle)
		}
		r.claim(entry.key, aPlace, len(r.job.Places))
		r.job.Places = append(r.job.Places, place)
	}
}

// placeGuess reads [x, y] of a circle or [β, p] of a line.
func (r planReader) placeGuess(p fields, first quantityReader) (guess [2]unit.Quantity) {
	if !p.has("guess") {
		return guess
	}
	return r.pair(p.at("guess"), p.about("guess"), first, r.length)
}

// diameter reads the id of a size or a length.
func (r planReader) diameter(p fields) trade.Bound {
	n := p.at("diameter")
	bound := trade.Bound{Pos: n.pos}
	switch {
	case !p.has("diameter"):
	case n.shape == scalar && idPattern.MatchString(n.text):
		bound.ID = n.text
		if o, ok := r.owner(n, p.about("diameter"), aSize); ok {
			if d, known := r.dimensionOf(o); known && d != unit.Length {
				r.fault(n, "%s: %s is %s where a length should be", p.about("diameter"), quote(n.text), dimensionNames[d])
			}
		}
	default:
		bound.Value = r.quantity(n, p.about("diameter"), r.length, positive)
	}
	return bound
}
