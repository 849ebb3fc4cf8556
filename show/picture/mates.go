// Package picture makes sheets of what the stages found: mating shapes with their
// gaps made wider, set-ups as they look from above, graphs of wear.
//
// Each is so wide and at most so high, in mm, and its words are in a unit that is
// asked for. Where there is nothing to draw, or no room, the error says so.
package picture

import (
	"fmt"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The room of words in a picture of mating shapes, and how much of it the widest
// gap should take, so that it is seen.
const (
	captionRoom   = 7.0
	captionHeight = 2.1  // of capitals
	labelRoom     = 36.0 // for labels over and under it
	gapShare      = 0.06
	mostWider     = 500.0
)

// Mates draws mating shapes with all gaps so much wider that they are seen, and
// says how much: each gap is labelled as it is, in the units given. The sheet is
// so wide, and at most so high. The error says that there is nothing to draw, or
// no room for it.
func Mates(a *mating.Answer, units unit.Unit, width, height float64) (*ink.Sheet, error) {
	if !a.Known() {
		return nil, fmt.Errorf("%s cannot be drawn: not all its sizes are found", a.Mate.ID)
	}
	wider := widening(a)
	scene := a.Exaggerated(wider)
	size := bounds(scene).Size()
	height = min(height, width*size.Y/size.X+labelRoom)
	drawn, err := draw.Scene(mated(scene, units, width, height-captionRoom))
	if err != nil {
		return nil, err
	}
	return captioned(drawn, a.Mate.ID, captionWords(a, wider), height), nil
}

// captioned returns a picture on a sheet so high, with words under it.
func captioned(drawn *ink.Sheet, title, words string, height float64) *ink.Sheet {
	s := &ink.Sheet{Title: title, Width: drawn.Width, Height: height, Scale: drawn.Scale}
	s.Put(drawn, geom.Point{Y: captionRoom})
	s.Add(ink.Text{
		At: geom.Point{X: s.Width / 2, Y: captionRoom / 2}, Words: ink.Clipped(words, captionHeight, false, s.Width), Height: captionHeight,
		Align: ink.Centred, Grey: true, Layer: ink.Notes,
	})
	return s
}

func captionWords(a *mating.Answer, wider float64) string {
	words := a.Mate.ID + ": in the place where it mates"
	if wider > 1 {
		words += fmt.Sprintf(", gaps drawn %.0f times as wide", wider)
	}
	return words
}

// widening returns how many times as wide gaps are drawn: a round number.
func widening(a *mating.Answer) float64 {
	widest := 0.0
	for _, face := range a.Faces {
		widest = math.Max(widest, face.Most)
	}
	size := bounds(a.Scene()).Size()
	wider := gapShare * math.Max(size.X, size.Y) / widest
	if !(widest > 0) || wider < 2 {
		return 1
	}
	wider = min(wider, mostWider)
	round := math.Pow(10, math.Floor(math.Log10(wider)))
	return math.Floor(wider/round) * round
}

// bounds returns the box round all shapes.
func bounds(s mating.Scene) geom.Box {
	var all geom.Path
	for _, p := range append(slices.Clone(s.Part), s.Mate...) {
		all = append(all, p...)
	}
	return all.Bounds()
}

// mated lays down what there is to draw: grey the part, or, where the part is
// the holes that something goes into, what goes into them.
func mated(s mating.Scene, units unit.Unit, width, height float64) draw.Picture {
	const grey = 0.2
	p := draw.Picture{Width: width, Height: height}
	partFill, mateFill := grey, 0.0
	if inside(s.Mate[0], s.Part[0]) {
		partFill, mateFill = 0, grey
	}
	for _, path := range s.Part {
		p.Shapes = append(p.Shapes, draw.Shape{Path: path, Kind: ink.Visible, Fill: partFill})
	}
	for _, path := range s.Mate {
		p.Shapes = append(p.Shapes, draw.Shape{Path: path, Kind: ink.Visible, Fill: mateFill})
	}
	var said []string
	for _, m := range s.Marks {
		words := m.Words + " " + unit.ShowLength(m.Gap, units)
		if !slices.Contains(said, words) {
			p.Labels = append(p.Labels, draw.Label{At: m.At, Words: words, Points: true})
			said = append(said, words)
		}
	}
	return p
}

// inside reports whether the box round one path is inside that round another.
func inside(a, b geom.Path) bool {
	in, out := a.Bounds(), b.Bounds()
	return in.Low.X >= out.Low.X && in.Low.Y >= out.Low.Y && in.High.X <= out.High.X && in.High.Y <= out.High.Y
}
