package picture

import (
	"fmt"
	"slices"

	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// sceneLooks says how the shapes of a set-up are drawn, and how dark they are
// inside.
var sceneLooks = map[sketch.ShapeKind]struct {
	kind ink.LineKind
	fill float64
}{
	sketch.WorkShape:  {ink.Visible, 0.14},
	sketch.StockShape: {ink.Phantom, 0},
	sketch.ToolShape:  {ink.Thin, 0},
	sketch.HoldShape:  {ink.Thin, 0.3},
	sketch.AxisShape:  {ink.CentreLine, 0},
	sketch.TraceShape: {ink.CentreLine, 0},
	sketch.ForceShape: {ink.Thin, 0.6},
}

// SetUp draws a set-up as it looks from above, to scale, with its title under it.
// Its figures are in these units. The sheet is so wide and at most so high. The error says that there is no room
// for it.
func SetUp(s sketch.Scene, units unit.Unit, width, height float64) (*ink.Sheet, error) {
	if len(s.Shapes) == 0 {
		return nil, fmt.Errorf("%s: there is nothing to draw", s.Title)
	}
	size := sceneBounds(s).Size()
	height = min(height, width*size.Y/max(size.X, 1e-9)+labelRoom)
	words := s.Title + ", seen from above"
	drawn, err := draw.Scene(scenePicture(s, units, width, height-captionRoom))
	if err != nil {
		short, key := lettered(s)
		words += key
		if drawn, err = draw.Scene(scenePicture(short, units, width, height-captionRoom)); err != nil {
			return nil, err
		}
	}
	return captioned(drawn, s.Title, words, height), nil
}

// lettered returns a scene with letters for its labels, where their words have no
// room, and the key to them.
func lettered(s sketch.Scene) (short sketch.Scene, key string) {
	short = s
	short.Labels = slices.Clone(s.Labels)
	between := ": "
	for i := range short.Labels {
		letter := string(rune('a' + i%26))
		short.Labels[i].Words = letter
		key += between + letter + " " + s.Labels[i].Words
		between = ", "
	}
	return short, key
}

func sceneBounds(s sketch.Scene) geom.Box {
	var all geom.Path
	for _, shape := range s.Shapes {
		all = append(all, shape.Path...)
	}
	return all.Bounds()
}

// scenePicture lays down what there is to draw: the work first with the holes in
// it, as one, then the rest over it.
func scenePicture(s sketch.Scene, units unit.Unit, width, height float64) draw.Picture {
	p := draw.Picture{Title: s.Title, Width: width, Height: height}
	var work geom.Path
	for _, shape := range s.Shapes {
		look := sceneLooks[shape.Kind]
		if shape.Kind == sketch.WorkShape {
			work = append(work, shape.Path...)
			continue
		}
		p.Shapes = append(p.Shapes, draw.Shape{Path: shape.Path, Kind: look.kind, Fill: look.fill})
	}
	if work != nil {
		look := sceneLooks[sketch.WorkShape]
		p.Shapes = append([]draw.Shape{{Path: work, Kind: look.kind, Fill: look.fill}}, p.Shapes...)
	}
	for _, span := range s.Spans {
		d := draw.PictureDim{A: span.A, B: span.B, Vertex: span.Vertex, Away: span.Away, Words: span.Words.Shown(unit.View{In: units})}
		if span.Angle {
			d.Kind = ink.Angular
		}
		p.Dims = append(p.Dims, d)
	}
	for _, label := range s.Labels {
		p.Labels = append(p.Labels, draw.Label{At: label.At, Words: label.Words})
	}
	return p
}
