package plan

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/sketch"
)

// datum is where an operation counts coordinates from: where none is written, the
// origin of the plan.
func (s *Step) datum() lathe.Datum {
	d := lathe.Datum{Shows: s.centre()}
	if s.Operation == nil || s.Operation.Datum == nil {
		return d
	}
	written := s.Operation.Datum
	d.At, d.Turned, d.Finder = sketch.Place(written.At), written.Turned.InsideOr(0), written.Finder.InsideOr(0)
	for _, side := range written.Sides {
		switch side {
		case trade.LeftSide:
			d.Sides[0] = -1
		case trade.RightSide:
			d.Sides[0] = 1
		case trade.FrontSide:
			d.Sides[1] = -1
		case trade.BackSide:
			d.Sides[1] = 1
		}
	}
	return d
}

// datumAt is where the datum was written, or else the step.
func (s *Step) datumAt() trade.Pos {
	if s.Operation != nil && s.Operation.Datum != nil {
		return s.Operation.Datum.Pos
	}
	return s.at()
}

// unusedData notes where a datum is written and no holes are placed.
func (p *planner) unusedData() {
	for _, s := range p.Steps {
		if s.Operation != nil && s.Operation.Datum != nil && s.Places == nil {
			s.Notes = append(s.Notes, "its datum is not used: no holes of a plan are placed in this operation")
		}
	}
}
