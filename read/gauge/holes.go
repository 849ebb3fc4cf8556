package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

const trapPlugs = "Plugs must fill the holes: a loose one is out by half its play. The bores' own sizes may stand " +
	"for plugs where jaws reach the bores."

var holes = []*Method{
	{
		ID:       "over-plugs",
		When:     "The distance of two holes, over plugs in them.",
		SetUp:    "Read {centres} over the plugs",
		For:      []Purpose{{Centres, 1}},
		Words:    []string{"centre distance", "spacing", "bore", "pin"},
		Kin:      []string{"between-plugs"},
		Proves:   []Proof{{PartCentres, "centres", 1}},
		Roles:    plugRoles(0.5),
		Reads:    unit.Length,
		Jaw:      Closing,
		HolesFor: "centres",
		Formula:  "m = C + (d1 + d2)/2",
		Traps:    []string{trapPlugs, "More distances than needed are welcome: they check each other."},
		Source:   "geometry: the jaws touch each plug half its diameter beyond its middle",
		Example:  []float64{50, 8, 10},
		Model:    overPlugs,
		Sketch:   sketchOverPlugs,
		Valid:    rules(plugsStandApart),
	},
	{
		ID:       "between-plugs",
		When:     "The distance of two holes, between plugs in them.",
		SetUp:    "Read {centres} between the plugs",
		For:      []Purpose{{Centres, 2}},
		Words:    []string{"centre distance", "spacing", "bore", "pin"},
		Kin:      []string{"over-plugs"},
		Proves:   []Proof{{PartCentres, "centres", 2}},
		Roles:    plugRoles(-0.5),
		Reads:    unit.Length,
		Jaw:      Opening,
		HolesFor: "centres",
		Formula:  "m = C - (d1 + d2)/2",
		Traps:    []string{trapPlugs, "More distances than needed are welcome: they check each other."},
		Source:   "geometry: the jaws touch each plug half its diameter before its middle",
		Example:  []float64{50, 8, 10},
		Model:    betweenPlugs,
		Sketch:   sketchBetweenPlugs,
		Valid:    rules(opens(betweenPlugs, "the gap between the plugs")),
	},
	{
		ID:      "edge-to-plug-far",
		When:    "A hole from an edge, over the edge and the far side of a plug in it.",
		SetUp:   "Read {edge} over the edge and the far side of {plug}",
		For:     []Purpose{{Centres, 3}},
		Words:   []string{"centre", "pin", "bore", "face"},
		Kin:     []string{"edge-to-plug-near"},
		Roles:   edgeRoles(0.5),
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = e + d/2",
		Traps:   []string{trapPlugs, "A burr on the edge reads long."},
		Source:  "geometry: the far side of the plug is half its diameter beyond its middle",
		Example: []float64{20, 6},
		Model:   edgeToPlugFar,
		Sketch:  sketchEdgeToPlugFar,
	},
	{
		ID:      "edge-to-plug-near",
		When:    "A hole from an edge, from the edge to the near side of a plug in it.",
		SetUp:   "Read {edge} from the edge to the near side of {plug}",
		For:     []Purpose{{Centres, 4}},
		Words:   []string{"centre", "pin", "bore", "face"},
		Kin:     []string{"edge-to-plug-far"},
		Roles:   edgeRoles(-0.5),
		Reads:   unit.Length,
		Jaw:     Reaching,
		Formula: "m = e - d/2",
		Traps:   []string{trapPlugs, "A burr on the edge reads long."},
		Source:  "geometry: the near side of the plug is half its diameter before its middle",
		Example: []float64{20, 6},
		Model:   edgeToPlugNear,
		Sketch:  sketchEdgeToPlugNear,
		Valid:   rules(plugInsideTheEdge),
	},
	{
		ID:       "bolt-circle-chord",
		When:     "A circle of equally spaced holes, over plugs in two of them.",
		SetUp:    "Set {plug:two} in holes of {circle} that lie {apart} apart and read over them",
		For:      []Purpose{{Centres, 5}},
		Words:    []string{"pitch circle", "flange", "pin", "spacing"},
		Counting: &Counting{Role: "apart", Try: holesApart},
		Apart:    true,
		Roles: []Role{
			role("circle", "B", Diameter),
			kit("plug", "d", Diameter).fixed(trade.Plug).counts(1),
			role("holes", "n", Count),
			role("apart", "k", Count),
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = B·sin(π·k/n) + d",
		Traps:   []string{"Equally spaced holes only: read several pairs, they must agree.", trapPlugs},
		Source: "geometry: the chord of k of n equal parts of a round; for odd n the largest is B·cos(90°/n), as " +
			"in Machinery's Handbook, 31st ed., p. 703",
		Example: []float64{100, 10, 5, 2},
		Model:   boltCircleChord,
		Sketch:  sketchBoltCircleChord,
		Valid:   rules(wholeNumbers("holes", 2, 3), holesOfTheCircle),
	},
}

// plugRoles are the roles of two plugs, each of which counts so much.
func plugRoles(counts float64) []Role {
	return []Role{
		role("centres", "C", AnyLength).sought(trade.Distance),
		kit("plug-1", "d1", Diameter).fixed(trade.Plug).counts(counts),
		kit("plug-2", "d2", Diameter).fixed(trade.Plug).counts(counts),
	}
}

// edgeRoles are the roles of a plug beside an edge, which counts so much.
func edgeRoles(counts float64) []Role {
	return []Role{
		role("edge", "e", AnyLength).sought(trade.Distance),
		kit("plug", "d", Diameter).fixed(trade.Plug).counts(counts),
	}
}

func overPlugs(a Args) grad.Number {
	centres, plug1, plug2 := a[0], a[1], a[2]
	return centres.Add(plug1.Add(plug2).Half())
}

func betweenPlugs(a Args) grad.Number {
	centres, plug1, plug2 := a[0], a[1], a[2]
	return centres.Sub(plug1.Add(plug2).Half())
}

func edgeToPlugFar(a Args) grad.Number {
	edge, plug := a[0], a[1]
	return edge.Add(plug.Half())
}

func edgeToPlugNear(a Args) grad.Number {
	edge, plug := a[0], a[1]
	return edge.Sub(plug.Half())
}

func boltCircleChord(a Args) grad.Number {
	circle, plug, holes, apart := a[0], a[1], a[2], a[3]
	half := apart.Times(math.Pi).Div(holes)
	return circle.Mul(half.Sin()).Add(plug)
}

// holesApart are the pairs of holes of a circle, by how far they lie apart.
func holesApart(v []float64) []int64 {
	holes := v[2]
	var list []int64
	for k := int64(1); float64(2*k) <= holes; k++ {
		list = append(list, k)
	}
	return list
}

func plugsStandApart(v []float64, r *remarks) {
	centres, plug1, plug2 := v[0], v[1], v[2]
	if need := (plug1 + plug2) / 2; centres < need {
		r.broken("plugs of %s and %s would foul each other: their middles are only %s apart",
			unit.LengthOf(plug1), unit.LengthOf(plug2), unit.LengthOf(centres))
	}
}

func plugInsideTheEdge(v []float64, r *remarks) {
	if edge, plug := v[0], v[1]; edge <= plug/2 {
		r.broken("a plug of %s would reach over an edge only %s from its middle", unit.LengthOf(plug), unit.LengthOf(edge))
	}
}

func holesOfTheCircle(v []float64, r *remarks) {
	circle, plug, holes, apart := v[0], v[1], v[2], v[3]
	if apart >= holes {
		r.broken("holes %s apart cannot be among %s", factor(apart), factor(holes))
		return
	}
	if chord := circle * math.Sin(math.Pi*apart/holes); chord < plug {
		r.broken("plugs of %s would foul each other: their middles are only %s apart", unit.LengthOf(plug), unit.LengthOf(chord))
	}
}
