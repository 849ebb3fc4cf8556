package plan

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// StockPlan is what is allowed on the stock for a part, in mm.
type StockPlan struct {
	Facing float64 // on each end, to face it clean
	Skin   float64 // on the diameter, or on both sides together
	Grip   float64 // extra length of a turned part for the chuck, parted off at the end
	Kerf   float64 // of the saw
	Pieces int     // that are wanted
	Spares int     // sawn besides while the saw is set up
}

// UsualAllowances returns what the trade allows (common practice, no source):
// 1.5 mm on an end, 2 mm on the diameter, 25 mm in the chuck, 2 mm of kerf, and one
// spare.
func UsualAllowances(pieces int) StockPlan {
	return StockPlan{Facing: 1.5, Skin: 2, Grip: 25, Kerf: 2, Pieces: max(1, pieces), Spares: 1}
}

// BarSection is the section of the stock.
type BarSection uint8

// The sections of stock.
const (
	RoundBar BarSection = iota
	FlatBar
)

// Stock is what to saw, in mm, mm³ and kg. Masses are 0 where the density is not
// known.
type Stock struct {
	Plan      StockPlan
	Section   BarSection
	Width     float64 // diameter of a round bar, greater side of a flat one, at least
	Thickness float64 // lesser side of a flat bar; 0 of a round one
	Length    float64 // of each piece
	Bar       float64 // for all pieces with the spares, each with its kerf
	Spare     float64 // of that, for the spares
	Volume    float64 // of one piece as sawn
	Mass      float64
	Finished  float64 // mass of one finished part
	Notes     []unit.Text
}

// SawStock works out the stock for a part: a round bar for what is turned, and
// for a plan that a circle fits as closely; else a flat bar along its greatest
// side.
func SawStock(m *part.Model, plan StockPlan) *Stock {
	s := &Stock{Plan: plan}
	if m.Turned != nil {
		s.round(widest(m.Turned), m.Turned.Length+plan.Grip)
		s.hexagonNote(m.Turned)
	} else {
		s.prism(m.Prism)
	}
	const cubicMetre = 1e9
	s.Mass, s.Finished = m.Density*s.Volume/cubicMetre, m.Mass()
	s.Bar = float64(plan.Pieces+plan.Spares) * (s.Length + plan.Kerf)
	s.Spare = float64(plan.Spares) * (s.Length + plan.Kerf)
	return s
}

func (s *Stock) round(diameter, length float64) {
	s.Section, s.Width, s.Length = RoundBar, diameter+s.Plan.Skin, length+2*s.Plan.Facing
	s.Volume = math.Pi / 4 * s.Width * s.Width * s.Length
}

// across returns a segment's greatest size over its corners.
func across(g part.Segment) float64 {
	size := max(g.D0, g.D1)
	switch g.Form {
	case part.Hexagonal:
		return size * 2 / math.Sqrt(3)
	case part.Squared:
		return size * math.Sqrt2
	}
	return size
}

func widest(t *part.Turned) float64 {
	size := 0.0
	for _, g := range t.Segments {
		size = max(size, across(g))
	}
	return size
}

// hexagonNote says where bar of the part's own hexagon or square would do.
func (s *Stock) hexagonNote(t *part.Turned) {
	names := map[part.SegmentForm]string{part.Hexagonal: "Hexagon", part.Squared: "Square"}
	for _, g := range t.Segments {
		if name := names[g.Form]; name != "" && across(g) == widest(t) && !slices.ContainsFunc(t.Segments, func(o part.Segment) bool {
			return names[o.Form] == "" && max(o.D0, o.D1) > g.D0
		}) {
			s.Notes = append(s.Notes, unit.Say("%s bar of %s across flats does as well, if its flats are true enough.", name, unit.Rounded{MM: g.D0, Decimals: 1}))
			return
		}
	}
}

// prism takes the box round an outline, its height, its lean and its stem.
func (s *Stock) prism(p *part.Prism) {
	size := p.Outline.Bounds().Size()
	size.Y += math.Abs(p.Height * math.Tan(p.Lean))
	height := p.Height
	if p.Stem != nil {
		height += p.Stem.Turned.Length
	}
	if _, radius := p.Outline.EnclosingCircle(); p.Lean == 0 && 2*radius <= min(size.X, size.Y)*(1+1e-9) {
		s.round(2*radius, height+s.Plan.Grip)
		return
	}
	sides := []float64{size.X + s.Plan.Skin, size.Y + s.Plan.Skin, height + s.Plan.Skin}
	slices.Sort(sides)
	s.Section, s.Thickness, s.Width = FlatBar, sides[0], sides[1]
	s.Length = sides[2] - s.Plan.Skin + 2*s.Plan.Facing
	s.Volume = s.Thickness * s.Width * s.Length
}
