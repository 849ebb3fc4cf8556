package inspect

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// unchosen stands for an instrument that is still to be chosen: no id of a job
// looks like that.
var unchosen = trade.Instrument{ID: "-", Kind: trade.OtherInstrument, MPE: quantity(1, unit.Length), Repeat: quantity(1, unit.Length)}

// hints returns readings that tell how a size of the part may be met: their values
// are set aside, and their pieces and instruments are still to be chosen.
func (p *proof) hints(m *fit.Made) []trade.Reading {
	switch {
	case m.Thread != nil:
		return p.threadReadings(m)
	case m.Size.Kind == trade.Length:
		return hintsOf(gauge.PartLength, m)
	case m.Size.Kind == trade.Radius:
		return p.arcReadings(m)
	}
	return p.distanceReadings(m)
}

// hint returns a reading that meets a size in a role, and these things in others.
func hint(by, role string, m *fit.Made, beside ...trade.Arg) trade.Reading {
	return trade.Reading{
		ID: by + "_" + m.Size.ID, By: by, With: unchosen.ID, Saw: aside([]trade.Seen{{X: asSize(m).Guess}}),
		Of: append([]trade.Arg{{Role: role, ID: ofThePart + m.Size.ID}}, beside...),
	}
}

// hintsOf returns a hint for each method that reads a feature of a part.
func hintsOf(feature gauge.Feature, m *fit.Made, beside ...trade.Arg) []trade.Reading {
	var list []trade.Reading
	for _, way := range gauge.Proving(feature) {
		list = append(list, hint(way.Method.ID, way.Role, m, beside...))
	}
	return list
}

func plain(role string, x float64, d unit.Dimension) trade.Arg {
	return trade.Arg{Role: role, Value: quantity(x, d)}
}

// hasHint reports whether a piece of a reading is still that of a hint.
func hasHint(r *trade.Reading) bool {
	m, _ := gauge.Find(r.By)
	return len(m.Proves) > 0 && slices.ContainsFunc(r.Of, func(a trade.Arg) bool { return a.ID == "" && isChosen(m, a.Role) })
}

// isChosen reports whether a piece of the kit is chosen for a role.
func isChosen(m *gauge.Method, role string) bool {
	i := m.Role(role)
	return i >= 0 && m.Roles[i].Chosen
}

// How three rollers are laid on an arc: the outer ones this part of the way from
// its middle to its end, each as thick as this part of that.
const (
	spreadOut = 0.75
	thickness = 0.5
)

// arcReadings returns the reading of an arc of the part by three rollers, as wide
// apart as the arc allows; nil where its length is not known.
func (p *proof) arcReadings(m *fit.Made) []trade.Reading {
	shoe := p.Job.Part.Shape.Shoe
	if shoe == nil || !finite(p.made.Measure(shoe.Angle)) {
		return nil
	}
	side := 1.0
	if shoe.Inner.ID == m.Size.ID {
		side = -1
	}
	across := math.Floor(spreadOut * m.Target * math.Sin(math.Min(p.made.Measure(shoe.Angle), math.Pi)/2))
	if across <= 0 {
		return nil
	}
	return hintsOf(gauge.PartArc, m,
		plain("roller", thickness*across, unit.Length), plain("half-chord", across, unit.Length), plain("side", side, unit.Number))
}
