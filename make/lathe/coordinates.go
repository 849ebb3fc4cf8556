package lathe

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Datum is where the coordinates of holes are counted from, and how it is found.
// A side is -1 where the finder touches the datum edge from lower coordinates, 1
// from higher ones and 0 where the datum is no edge: a hole, a pin or a centre.
type Datum struct {
	At     geom.Point // in the plan of the part
	Turned float64    // of the part on the table, anticlockwise
	Sides  [2]int     // in x and in y
	Finder float64    // diameter of the edge finder
	Shows  geom.Point // what the readout is to show at the datum
}

// Drilled is a hole to be placed.
type Drilled struct {
	Name     string
	At       geom.Point // in the plan of the part
	Diameter float64    // for the plugs of the check; 0: none
}

// Coordinates are where the spindle stands for each hole.
type Coordinates struct {
	Datum    Datum
	Touches  []Touch
	Holes    []HolePlace // in the order in which they were given
	Chords   []Chord
	Warnings []unit.Text
	Advice   []string
}

// Touch is what the readout is set to when the finder, so thick, touches an edge:
// the spindle is then half of it away.
type Touch struct {
	Axis string // "x" or "y"
	Set  float64
}

// HolePlace is one hole. The moves are from the datum, by their size.
type HolePlace struct {
	Drilled
	Readout geom.Point
	X, Y    HandleMove
}

// Chord is a distance to check with calipers. Over and Inside are over plugs in
// both holes and between these, NaN where no diameter is known.
type Chord struct {
	From, To string
	Centres  float64
	Over     float64
	Inside   float64
}

// PlaceHoles works out the coordinates on a machine, whose dials may be unknown:
//
//	readout = shown at the datum + (hole - datum) turned with the part
//
// The chords are those from each hole to the next and from the first to all, which
// fix the holes to each other, but for their mirror image. The error,
// trade.Faults, says what is wrong with the datum.
func PlaceHoles(mill *trade.Machinery, datum Datum, holes []Drilled) (*Coordinates, error) {
	if err := datum.check(holes); err != nil {
		return nil, err
	}
	c := &Coordinates{Datum: datum, Touches: datum.touches(), Chords: chords(holes)}
	for _, h := range holes {
		off := h.At.Sub(datum.At).Turned(datum.Turned)
		c.Holes = append(c.Holes, HolePlace{
			Drilled: h, Readout: datum.Shows.Add(off),
			X: moveOf(dialOf(mill, "", 0), off.X), Y: moveOf(dialOf(mill, "", 1), off.Y),
		})
	}
	c.warn(mill)
	return c, nil
}

// check says what is wrong with a datum.
func (d *Datum) check(holes []Drilled) error {
	var faults trade.Faults
	wrong := func(text string) { faults.Add(trade.Pos{}, "%s", text) }
	if len(holes) == 0 {
		wrong("there are no holes to place")
	}
	edges := d.Sides != [2]int{}
	if max(d.Sides[0], d.Sides[1], -d.Sides[0], -d.Sides[1]) > 1 {
		wrong("a side of the datum is -1, 0 or 1")
	}
	if edges && !(d.Finder > 0 && !math.IsInf(d.Finder, 1)) {
		wrong("an edge is found with a finder: its diameter is wanted, greater than 0")
	}
	if quarter := math.Abs(math.Remainder(d.Turned, math.Pi/2)); edges && quarter > 1e-9 {
		wrong("the edges of a part that stands askew are not along the slides: take a hole or a pin for the datum")
	}
	return faults.Err()
}

// touches returns the readout at each edge.
func (d *Datum) touches() []Touch {
	var list []Touch
	for i, axis := range []string{"x", "y"} {
		if side := d.Sides[i]; side != 0 {
			shows := []float64{d.Shows.X, d.Shows.Y}[i]
			list = append(list, Touch{axis, shows + float64(side)*d.Finder/2})
		}
	}
	return list
}

// chords returns the distances that fix the holes to each other.
func chords(holes []Drilled) []Chord {
	var list []Chord
	for i := range holes {
		for k := 0; k < i; k++ {
			if k == 0 || k == i-1 {
				list = append(list, chord(holes[k], holes[i]))
			}
		}
	}
	return list
}

func chord(a, b Drilled) Chord {
	c := Chord{From: a.Name, To: b.Name, Centres: a.At.Distance(b.At), Over: math.NaN(), Inside: math.NaN()}
	if a.Diameter > 0 && b.Diameter > 0 {
		radii := (a.Diameter + b.Diameter) / 2
		c.Over, c.Inside = c.Centres+radii, c.Centres-radii
	}
	return c
}

func (c *Coordinates) warn(mill *trade.Machinery) {
	for _, k := range c.Chords {
		if k.Inside < 0 {
			c.Warnings = append(c.Warnings, unit.Say("Holes %s and %s run into each other: their centres are %s apart.", k.From, k.To, unit.LengthOf(k.Centres)))
		}
	}
	if mill == nil || !mill.Readout {
		c.Advice = append(c.Advice, "Without a readout come to every hole from lower x and lower y: go back past it by more than the play first. Where a hole lies below the datum go past that too, and count from it.")
	}
	c.Advice = append(c.Advice,
		"Centre-drill every hole before you drill the first, and check the marks with a rule.",
		"The chords are over plugs that fit the holes; the drill wanders, so read them before you ream.",
	)
}

// HolesOf returns the holes of a plate or of any other part with a plan, numbered
// in the order of the job.
func HolesOf(p *part.Prism) []Drilled {
	list := make([]Drilled, len(p.Holes))
	for i, h := range p.Holes {
		list[i] = Drilled{fmt.Sprint(i + 1), h.At, h.Diameter}
	}
	return list
}

// Numbered returns holes of one diameter, numbered from 1.
func Numbered(places []geom.Point, diameter float64) []Drilled {
	list := make([]Drilled, len(places))
	for i, at := range places {
		list[i] = Drilled{fmt.Sprint(i + 1), at, diameter}
	}
	return list
}
