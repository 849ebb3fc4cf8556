package inspect

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// drilled is a hole of a plan as the part is to have it.
type drilled struct {
	trade.Drilled
	at  [2]float64
	off float64 // how far from its place it may be, ± in x and in y
}

// drilled returns the holes that the part takes over from plans, as far as it is
// known where they lie and how far they may be off: as the bolts that go through them
// allow, else as closely as the shop works.
func (p *proof) drilled() []drilled {
	var list []drilled
	for _, hole := range p.Job.Drilled() {
		i := slices.IndexFunc(p.made.Found.Places, func(x adjust.Place) bool { return x.ID == hole.ID && x.Determined })
		if off := p.mayBeOff(hole.Plan); i >= 0 && off > 0 {
			list = append(list, drilled{hole, p.made.Found.Places[i].At, off})
		}
	}
	return list
}

// mayBeOff returns how far from its place a hole of a plan may be, 0 where nothing
// tells.
func (p *proof) mayBeOff(plan string) float64 {
	part := p.Job.Part
	for _, mate := range part.Mates {
		role := func(name string) trade.MateArg {
			i := slices.IndexFunc(mate.Of, func(a trade.MateArg) bool { return a.Role == name })
			if i < 0 {
				return trade.MateArg{}
			}
			return mate.Of[i]
		}
		off := role("off").Value
		if mate.Pair == trade.BoltsInHoles && role("plan").Plan == plan && off.Given() {
			return p.made.Found.Combine(off.Expr(), nil).Value
		}
	}
	if part.Holds.Given() {
		return part.Holds.Inside()
	}
	return 0
}

// distanceOf returns the distance of two holes as a size of the part. With both off
// by up to t in x and in y, and the line between them at an angle a, it lies within
//
//	±2t·(|cos a| + |sin a|)
//
// What lies beyond proves a hole out of its place; that all distances lie within is
// what can be read, and proves the places no more closely than that.
func distanceOf(a, b *drilled) fit.Made {
	dx, dy := b.at[0]-a.at[0], b.at[1]-a.at[1]
	apart := math.Hypot(dx, dy)
	half := (a.off + b.off) * (math.Abs(dx) + math.Abs(dy)) / apart
	return fit.Made{
		Size:       &trade.NewSize{ID: a.ID + to + b.ID, Kind: trade.Distance, Surface: trade.NoSurface, From: trade.Copies, Pos: a.Hole.Pos},
		Determined: true, Target: apart, Low: apart - half, High: apart + half, U: nan,
	}
}

// to stands between the holes in the name of their distance: no id looks like that.
const to = " to "

// withHoles adds the distances of all holes of one plan that the part takes over to
// what is made.
func (p *proof) withHoles() error {
	if p.Job.Part == nil {
		return nil
	}
	all := *p.made
	all.Make = slices.Clone(all.Make)
	holes := p.drilled()
	for i := range holes {
		for j := range holes[:i] {
			if holes[i].Plan == holes[j].Plan {
				all.Make = append(all.Make, distanceOf(&holes[j], &holes[i]))
			}
		}
	}
	p.made = &all
	return nil
}

// asDistances returns checks with the two holes between which they were made as one
// size, their distance.
func (p *proof) asDistances(checks []trade.Check) []trade.Check {
	for i := range checks {
		r := &checks[i].Reading
		method, _ := gauge.Find(r.By)
		from, _ := cutPart(argOf(r, "from"))
		into, _ := cutPart(argOf(r, "to"))
		for _, id := range []string{from + to + into, into + to + from} {
			if p.made.Of(id) == nil {
				continue
			}
			r.Of = slices.DeleteFunc(slices.Clone(r.Of), func(a trade.Arg) bool { return a.Role == "from" || a.Role == "to" })
			r.Of = append(r.Of, trade.Arg{Role: method.HolesFor, ID: ofThePart + id, Pos: r.Pos})
		}
	}
	return checks
}

func argOf(r *trade.Reading, role string) string {
	for _, arg := range r.Of {
		if arg.Role == role {
			return arg.ID
		}
	}
	return ""
}

// toRead returns the distances that fix the holes of a plan, and one that checks
// them: of each hole from the first two, and of the last two from each other.
func (p *proof) toRead() []*fit.Made {
	var list []*fit.Made
	holes := p.drilled()
	for start := 0; start < len(holes); {
		end := start
		for end < len(holes) && holes[end].Plan == holes[start].Plan {
			end++
		}
		for i := start; i < end; i++ {
			for j := start; j < i; j++ {
				if j < start+2 || i == end-1 && j == end-2 {
					list = append(list, p.made.Of(holes[j].ID+to+holes[i].ID))
				}
			}
		}
		start = end
	}
	return list
}

// distanceReadings returns the readings of the distance of two holes over and between
// plugs that fill them: pieces of the kit, or such as are turned to the lower limit of
// the hole, of a tapped one as it is bored; nil for what is no distance of holes.
func (p *proof) distanceReadings(m *fit.Made) []trade.Reading {
	from, into, ok := strings.Cut(m.Size.ID, to)
	if !ok {
		return nil
	}
	holes := p.drilled()
	var plugs []trade.Arg
	for k, id := range []string{from, into} {
		i := slices.IndexFunc(holes, func(h drilled) bool { return h.ID == id })
		plug, there := p.plug(holes[i].Hole)
		if !there {
			return nil
		}
		plug.Role = []string{"plug-1", "plug-2"}[k]
		plugs = append(plugs, plug)
	}
	return hintsOf(gauge.PartCentres, m, plugs...)
}

// shake is by how much a plug may be smaller than its hole and still fill it, mm
// (common practice, no source).
const shake = 0.02

// plug returns what fills a hole: a piece of the kit, else a plug of the hole's lower
// limit; false where that is not known.
func (p *proof) plug(hole *trade.HoleShape) (trade.Arg, bool) {
	low := p.made.Measure(hole.Diameter)
	for _, id := range []string{hole.Diameter.ID, hole.Thread + "." + trade.MinorDiameter} {
		if m := p.made.Of(id); m != nil {
			low = p.limits(m).Low
		}
	}
	if !finite(low) {
		return trade.Arg{}, false
	}
	for _, piece := range p.Job.Pieces {
		if d := piece.Size.Inside(); gauge.PieceOf(piece.Kind).Round() && low-shake <= d && d <= low {
			return trade.Arg{ID: piece.ID}, true
		}
	}
	return plain("", low, unit.Length), true
}
