package web

import (
	"context"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// pattern is a part to begin with, and how it looks.
type pattern struct {
	examples.Part
	Picture string // an element of the page
}

// drawPatterns draws the parts to begin with. One that cannot be drawn is our
// mistake, and a test finds it.
func (s *partPages) drawPatterns() []pattern {
	var list []pattern
	for _, example := range examples.Parts() {
		picture, err := s.drawPattern(example)
		if err != nil {
			s.Log.Error("a pattern cannot be drawn", "pattern", example.Name, "why", err)
			continue
		}
		list = append(list, pattern{example, picture})
	}
	return list
}

func (s *partPages) drawPattern(example examples.Part) (string, error) {
	source, err := jobedit.Blank(example.Name, "mm", trade.Machine{})
	if err != nil {
		return "", err
	}
	if source, err = jobedit.SetSection(source, "part", string(example.Source)); err != nil {
		return "", err
	}
	job, err := readJob(source)
	if err != nil {
		return "", err
	}
	found, err := reckon.Job(context.Background(), job, seed)
	if err != nil {
		return "", err
	}
	sheet, err := found.Drawing(draw.Options{})
	if err != nil {
		return "", err
	}
	return inline(bare(sheet))
}

// bareLayers are those of the part itself.
var bareLayers = map[ink.Layer]bool{ink.Outlines: true, ink.HiddenEdges: true, ink.Hatches: true, ink.Threads: true}

// bareMargin is left round a part without its paper, in mm.
const bareMargin = 2.0

// bare takes the views off a drawing: no sizes, no words, no paper.
func bare(s *ink.Sheet) *ink.Sheet {
	var strokes []ink.Mark
	var all geom.Path
	for _, m := range s.Marks {
		if stroke, ok := m.(ink.Stroke); ok && bareLayers[stroke.Layer] {
			strokes = append(strokes, m)
			all = append(all, stroke.Path...)
		}
	}
	box := all.Bounds()
	size := box.Size()
	taken := &ink.Sheet{Width: size.X + 2*bareMargin, Height: size.Y + 2*bareMargin, Scale: s.Scale}
	taken.Put(&ink.Sheet{Marks: strokes}, geom.Point{X: bareMargin - box.Low.X, Y: bareMargin - box.Low.Y})
	return taken
}
