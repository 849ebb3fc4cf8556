package mating

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// prefix is what the sizes of the part begin with in an expression.
const prefix = "part."

// sizes is what the expressions of one pair come to, role by role, then those of
// the entry, then the coordinates of the holes of its plan.
type sizes struct {
	found  *adjust.Result
	made   *fit.Result
	faults trade.Faults

	list  []adjust.Combined
	open  []string
	given map[string]float64 // targets of the part's sizes that have not been found
}

func newSizes(found *adjust.Result, made *fit.Result) *sizes {
	s := &sizes{found: found, made: made, given: map[string]float64{}}
	for i := range made.Make {
		name := prefix + made.Make[i].Size.ID
		if size := found.Size(name); size == nil || !size.Determined {
			s.given[name] = made.Make[i].Target
		}
	}
	return s
}

// take works out what stands in the roles of a pair, in their order. A role that
// is left open where it may be counts as nothing. A plan is returned.
func (s *sizes) take(pair *Pair, args []trade.MateArg, pos trade.Pos) (plan *trade.Plan) {
	for _, role := range pair.Roles {
		i := slices.IndexFunc(args, func(a trade.MateArg) bool { return a.Role == role.Name })
		switch {
		case i < 0 && role.Optional:
			s.list = append(s.list, adjust.Combined{Determined: true})
		case i < 0:
			s.faults.Add(pos, "%s needs the role %q: %s", pair.ID, role.Name, role.Say)
		case role.Plan:
			plan = s.drilled(s.plan(args[i]), args)
		default:
			s.expression(role, args[i])
		}
	}
	return plan
}

func (s *sizes) plan(arg trade.MateArg) *trade.Plan {
	for i := range s.found.Job.Plans {
		if p := &s.found.Job.Plans[i]; p.ID == arg.Plan {
			return p
		}
	}
	s.faults.Add(arg.Pos, "%q is no plan of this job", arg.Plan)
	return nil
}

// drilled leaves of a plan the holes that the part's shape drills to a size that
// stands in a role of the pair, all where it says nothing of that: a plan may
// hold more than the bolts.
func (s *sizes) drilled(plan *trade.Plan, args []trade.MateArg) *trade.Plan {
	plate := s.found.Job.Part.Shape.Plate
	if plan == nil || plate == nil {
		return plan
	}
	var holes []string
	for _, hole := range plate.Holes {
		stands := func(a trade.MateArg) bool { return a.Value.Text == prefix+hole.Diameter.ID }
		if hole.Plan == plan.ID && len(hole.Of) > 0 && slices.ContainsFunc(args, stands) {
			holes = append(holes, hole.Of...)
		}
	}
	if len(holes) == 0 {
		return plan
	}
	bolts := *plan
	bolts.Holes = holes
	return &bolts
}

// expression works out one expression.
func (s *sizes) expression(role Role, arg trade.MateArg) {
	s.add(role.Name, s.found.Combine(arg.Value.Expr(), s.given))
}

// add keeps a quantity, and its name where it is not known.
func (s *sizes) add(name string, c adjust.Combined) {
	if !c.Determined || math.IsNaN(c.Value) {
		s.open = append(s.open, name)
	}
	s.list = append(s.list, c)
}

// places adds the coordinates of the holes of a plan.
func (s *sizes) places(plan *trade.Plan) {
	for _, hole := range plan.Holes {
		for axis := range 2 {
			c := s.found.Coordinate(hole, axis)
			if !c.Determined && !slices.Contains(s.open, hole) {
				s.open = append(s.open, hole)
			}
			s.list = append(s.list, c)
		}
	}
}

// values returns what was found.
func (s *sizes) values() []float64 {
	list := make([]float64, len(s.list))
	for i, c := range s.list {
		list[i] = c.Value
	}
	return list
}
