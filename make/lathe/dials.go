package lathe

import (
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// HandleMove is how far a handle is turned: whole turns and divisions of its
// dial. Divisions is NaN where the dial is not known; where only the turn is not,
// they are counted all in one.
type HandleMove struct {
	Turns     int
	Divisions float64
}

// Known reports whether there is a dial to go by.
func (h HandleMove) Known() bool { return !math.IsNaN(h.Divisions) }

// dialOf returns the dial of a slide, or where none is named the one at this place
// in the list; nil where there is none.
func dialOf(m *trade.Machinery, slide string, place int) *trade.DialScale {
	if m == nil {
		return nil
	}
	for i := range m.Dials {
		if dial := &m.Dials[i]; strings.EqualFold(dial.Slide, slide) || slide == "" && i == place {
			return dial
		}
	}
	return nil
}

// travelOf returns how far a slide goes, or where none is named that with the
// first dial; +Inf where it is not known.
func travelOf(m *trade.Machinery, slide string) float64 {
	if dial := dialOf(m, slide, 0); dial != nil {
		slide = dial.Slide
	}
	if m != nil {
		for _, t := range m.Travels {
			if strings.EqualFold(t.Slide, slide) && t.Length.Given() {
				return t.Length.Inside()
			}
		}
	}
	return math.Inf(1)
}

// moveOf returns the turns of a slide's handle for a travel in mm, by its size.
func moveOf(dial *trade.DialScale, travel float64) HandleMove {
	if dial == nil || !dial.Division.Given() {
		return HandleMove{Divisions: math.NaN()}
	}
	shows := math.Abs(travel)
	if dial.Reads == trade.ReadsDiameter {
		shows *= 2
	}
	all := shows / dial.Division.Inside()
	if !dial.Turn.Given() {
		return HandleMove{Divisions: all}
	}
	return wholeTurns(all, dial.Turn.Inside()/dial.Division.Inside())
}

// turnOf returns the turns of a rotary table's handle for an angle, by its size.
func turnOf(m *trade.Machinery, angle float64) HandleMove {
	if m == nil || m.Table == nil || m.Table.Ratio == 0 || m.Table.Divisions == 0 {
		return HandleMove{Divisions: math.NaN()}
	}
	round := float64(m.Table.Divisions)
	return wholeTurns(math.Abs(angle)/(2*math.Pi)*float64(m.Table.Ratio)*round, round)
}

// wholeTurns splits divisions into whole turns and the rest. What lacks a full
// turn by rounding only is one.
func wholeTurns(all, round float64) HandleMove {
	const rounding = 1e-9
	turns := math.Floor(all/round + rounding)
	return HandleMove{Turns: int(turns), Divisions: max(0, all-turns*round)}
}
