package plan

import (
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// Outline is that of the part in its plan, nil where it has none.
func (p *Plan) Outline() geom.Path {
	if p.Model.Prism == nil {
		return nil
	}
	return p.Model.Prism.Outline
}

// Scenes draws a step: how it is held, each face that is milled, where holes stand.
// There are none where there is nothing to draw to scale.
func (p *Plan) Scenes(s *Step) []sketch.Scene {
	var list []sketch.Scene
	if s.Held != nil {
		list = append(list, s.Held.Scene(p.Outline()))
	}
	if s.Arcs != nil {
		list = append(list, s.Arcs.Scenes()...)
	}
	if s.Places != nil {
		list = append(list, s.Places.Scene(p.Outline()))
	}
	return list
}
