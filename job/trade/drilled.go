package trade

// Drilled is a hole of a plan that the part takes over, and what is drilled there.
type Drilled struct {
	ID   string // of the hole in the plan
	Plan string
	Hole *HoleShape
}

// Drilled lists the holes of plans that the part takes over, each once. Those of a
// circle round one of them are none.
func (j *Job) Drilled() []Drilled {
	var list []Drilled
	if j.Part == nil {
		return nil
	}
	seen := map[string]bool{}
	for _, hole := range j.Part.Shape.Holes() {
		if hole.Circle.Given() {
			continue
		}
		for _, id := range j.wanted(hole) {
			if !seen[id] {
				list = append(list, Drilled{id, hole.Plan, hole})
			}
			seen[id] = true
		}
	}
	return list
}

// wanted returns the holes of a plan that a shape takes over.
func (j *Job) wanted(hole *HoleShape) []string {
	for i := range j.Plans {
		switch plan := &j.Plans[i]; {
		case plan.ID != hole.Plan:
		case len(hole.Of) > 0:
			return hole.Of
		default:
			return plan.Holes
		}
	}
	return nil
}
