package series

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// settleGears says how to tell the leader from those within 20 to 1 of it.
func settleGears(list []Gear, teeth int) (how []unit.Text, settled bool) {
	leader := &list[0]
	for i := range list[1:] {
		rival := &list[i+1]
		if rival.P*settledOdds < leader.P || len(how) == rivalsNamed {
			break
		}
		how = append(how, tellGearsApart(leader, rival, teeth))
	}
	if len(how) == 0 {
		return nothingNear(leader.Designation), true
	}
	return how, false
}

// What good readings of a gear are worth: standard uncertainties, mm.
const (
	twoSpansU = 0.02
	depthU    = 0.08
)

func tellGearsApart(a, b *Gear, teeth int) unit.Text {
	best := look{}
	for _, l := range []look{byBasePitch(a, b, teeth), byDepth(a, b)} {
		if l.strength > best.strength {
			best = l
		}
	}
	pair := fmt.Sprintf("%s or %s", a.Designation, b.Designation)
	if best.strength < enough {
		return unit.Words(pair + ": no reading of this gear will tell; try it with its mate or a known cutter")
	}
	return unit.Say("%s: %s", pair, best.text)
}

// byBasePitch spans two tooth numbers as far apart as the teeth allow: the
// difference is so many base pitches, whatever the shift and the wear.
func byBasePitch(a, b *Gear, teeth int) look {
	few := max(2, int(float64(teeth)*a.Pressure/math.Pi+0.5)-1)
	apart := 2
	if few == 2 {
		apart = 1
	}
	differ := func(g *Gear) float64 { return float64(apart) * math.Pi * g.Module * math.Cos(g.Pressure) }
	return look{
		math.Abs(differ(a)-differ(b)) / twoSpansU,
		unit.Say("read the span over %d teeth and over %d: a difference of %s says %s, %s says %s",
			few, few+apart, unit.LengthOf(differ(a)), a.Designation, unit.LengthOf(differ(b)), b.Designation),
	}
}

// byDepth measures the whole depth of a tooth: 2.25 modules, with stub teeth
// 1.8 (common practice, no source).
func byDepth(a, b *Gear) look {
	depth := func(g *Gear) float64 { return g.Module * 2.25 * g.Addendum }
	return look{
		math.Abs(depth(a)-depth(b)) / depthU,
		unit.Say("read the whole depth of a tooth: near %s says %s, near %s says %s", hundredths(depth(a)), a.Designation, hundredths(depth(b)), b.Designation),
	}
}
