package advise

import (
	"maps"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// untouched adds the plain readings of a size that no method of the catalogue
// has met yet.
func (g *gatherer) untouched(size *trade.Size) {
	for _, r := range g.job.Readings {
		if r.By != trade.FormulaMethod && slices.ContainsFunc(r.Of, func(a trade.Arg) bool { return a.ID == size.ID }) {
			return
		}
	}
	for _, way := range gauge.Ways(size.Kind, size.Surface) {
		if way.Untouched {
			g.one(size, way.Method, way.Role)
		}
	}
}

// plan adds the distances of every two holes of a plan, over and between the
// plugs that have stood in them.
func (g *gatherer) plan(plan *trade.Plan) {
	plugs := g.plugs(plan)
	for i, from := range plan.Holes {
		for _, to := range plan.Holes[i+1:] {
			one, ok1 := plugs[from]
			two, ok2 := plugs[to]
			if !ok1 || !ok2 {
				continue
			}
			for _, m := range gauge.Methods() {
				if roles := m.Plugs(); len(roles) == 2 {
					g.add(&shape{method: m, stood: map[string][]trade.Arg{}, of: map[string]trade.Arg{
						"from": {Role: "from", ID: from}, "to": {Role: "to", ID: to},
						roles[0]: {Role: roles[0], ID: one.ID, Value: one.Value}, roles[1]: {Role: roles[1], ID: two.ID, Value: two.Value},
					}})
				}
			}
		}
	}
}

// plugs returns what has stood in each hole; where nothing has and the kit has
// plugs of one size only, that.
func (g *gatherer) plugs(plan *trade.Plan) map[string]trade.Arg {
	found := map[string]trade.Arg{}
	var own []trade.Piece
	for _, p := range g.job.Pieces {
		if gauge.PieceOf(p.Kind).Fills {
			own = append(own, p)
		}
	}
	if len(own) == 1 {
		for _, hole := range plan.Holes {
			found[hole] = trade.Arg{ID: own[0].ID}
		}
	}
	for _, r := range g.job.Readings {
		of := map[string]trade.Arg{}
		for _, arg := range r.Of {
			of[arg.Role] = arg
		}
		m, _ := gauge.Find(r.By)
		for i, plug := range m.Plugs() {
			if id := of[[]string{"from", "to"}[i]].ID; id != "" {
				found[id] = of[plug]
			}
		}
	}
	return found
}

// counted returns the shapes that differ from s in what is counted only: other
// holes of a circle, a tooth more or less.
func (s *shape) counted() []*shape {
	counting := s.method.Counting
	if counting == nil {
		return []*shape{s}
	}
	var list []*shape
	if _, ok := s.of[counting.Role]; ok {
		list = append(list, s)
	}
	for _, n := range counting.Try(s.plainValues()) {
		list = append(list, s.with(counting.Role, n))
	}
	return list
}

func (s *shape) with(role string, n int64) *shape {
	other := *s
	other.of = maps.Clone(s.of)
	other.of[role] = plainNumber(role, n)
	other.stood = maps.Clone(s.stood)
	return &other
}
