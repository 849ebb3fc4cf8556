package jobfile

import (
	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// planReader reads plans of holes, and places that were touched.
type planReader struct{ *values }

// readPlans reads sets of holes with unknown places.
func (r planReader) readPlans(f fields) {
	for _, entry := range f.entries("plans") {
		p := f.item("plans", entry.Value, describe("plan", entry.Key))
		plan := trade.Plan{ID: entry.Key.Text, Pos: entry.Key.Pos, Guess: map[string]trade.Point{}}
		r.claim(entry.Key, aPlan, len(r.job.Plans))
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
	if n.Shape != yamltree.List || len(n.Items) < 2 {
		r.fault(n, "%s: found %s where a list of two holes or more should be", p.about("holes"), n.Found())
	}
	var holes []string
	for _, hole := range n.Items {
		r.claim(hole, aHole, plan)
		holes = append(holes, hole.Text)
	}
	return holes
}

// readGuesses reads about where some of the holes lie.
func (r planReader) readGuesses(p fields, plan *trade.Plan) {
	n := p.at("guess")
	if n.Shape != yamltree.Mapping {
		r.fault(n, "%s: found %s where a mapping {hole: [x, y]} should be", p.about("guess"), n.Found())
	}
	for _, guess := range n.Pairs {
		if o := r.owners[guess.Key.Text]; o.thing != aHole || o.index != len(r.job.Plans) {
			r.unknown(guess.Key, p.about("guess"), "hole", plan.Holes)
			continue
		}
		at := r.pair(guess.Value, p.about("guess"), r.length, r.length)
		plan.Guess[guess.Key.Text] = trade.Point{X: at[0], Y: at[1]}
	}
}

// readPlaces reads the circles and lines that are touched.
func (r planReader) readPlaces(f fields) {
	for _, entry := range f.entries("places") {
		p := f.item("places", entry.Value, describe("place", entry.Key))
		place := trade.Place{
			ID:   entry.Key.Text,
			Kind: trade.PlaceKind(p.text("kind")),
			Say:  p.text("say"),
			Pos:  entry.Key.Pos,
		}
		switch place.Kind {
		case trade.Circle:
			place.Diameter = r.diameter(p)
			place.Guess = r.placeGuess(p, r.length)
		case trade.Line:
			place.Guess = r.placeGuess(p, unit.ParseAngle)
		}
		r.claim(entry.Key, aPlace, len(r.job.Places))
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
	bound := trade.Bound{Pos: n.Pos}
	switch {
	case !p.has("diameter"):
	case n.Shape == yamltree.Scalar && keys.IsID(n.Text):
		bound.ID = n.Text
		if o, ok := r.owner(n, p.about("diameter"), aSize); ok {
			if d, known := r.dimensionOf(o); known && d != unit.Length {
				r.fault(n, "%s: %s is %s where a length should be", p.about("diameter"), yamltree.Quote(n.Text), dimensionNames[d])
			}
		}
	default:
		bound.Value = r.quantity(n, p.about("diameter"), r.length, positive)
	}
	return bound
}
