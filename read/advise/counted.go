package advise

import (
	"maps"
	"math"
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
	for _, place := range plainest(size) {
		g.one(size, place[0], place[1])
	}
}

// plainest returns the methods, each with its role, that meet a size alone.
func plainest(size *trade.Size) [][2]string {
	inside := size.Surface == trade.Inside
	switch size.Kind {
	case trade.Diameter:
		if inside {
			return [][2]string{{"inside", "size"}, {"between-two-balls", "wall"}}
		}
		return [][2]string{{"outside", "size"}, {"over-two-pins", "wall"}}
	case trade.Width, trade.Height, trade.Length, trade.Distance:
		if inside {
			return [][2]string{{"inside", "size"}}
		}
		return [][2]string{{"outside", "size"}}
	case trade.Depth:
		return [][2]string{{"depth", "size"}}
	case trade.Pitch:
		return [][2]string{{"pitches", "pitch"}}
	case trade.Angle:
		return [][2]string{{"protractor", "angle"}, {"sine-bar", "angle"}}
	case trade.Radius:
		return [][2]string{{"chord-height", "radius"}}
	}
	return nil
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
			one.Role, two.Role = "plug-1", "plug-2"
			for _, id := range []string{"over-plugs", "between-plugs"} {
				m, _ := gauge.Find(id)
				g.add(&shape{method: m, stood: map[string][]trade.Arg{}, of: map[string]trade.Arg{
					"from": {Role: "from", ID: from}, "to": {Role: "to", ID: to}, "plug-1": one, "plug-2": two,
				}})
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
		if p.Kind == trade.Plug {
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
		for hole, plug := range map[string]string{"from": "plug-1", "to": "plug-2"} {
			if id := of[hole].ID; id != "" {
				found[id] = of[plug]
			}
		}
	}
	return found
}

// counted returns the shapes that differ from s in what is counted only: other
// holes of a circle, a tooth more or less.
func (s *shape) counted() []*shape {
	switch s.method.ID {
	case "bolt-circle-chord":
		list := []*shape{s}
		for k := int64(1); 2*k <= int64(s.of["holes"].Value.Inside()); k++ {
			list = append(list, s.with("apart", k))
		}
		return list
	case "gear-span":
		spanned, ok := s.of["spanned"]
		middle := int64(math.Round(s.of["teeth"].Value.Inside()*s.of["pressure"].Value.Inside()/math.Pi + 0.5))
		if !ok {
			return []*shape{s.with("spanned", middle)}
		}
		k := int64(spanned.Value.Inside())
		return []*shape{s, s.with("spanned", max(k-1, 2)), s.with("spanned", k+1)}
	}
	return []*shape{s}
}

func (s *shape) with(role string, n int64) *shape {
	other := *s
	other.of = maps.Clone(s.of)
	other.of[role] = plainNumber(role, n)
	other.stood = maps.Clone(s.stood)
	return &other
}
