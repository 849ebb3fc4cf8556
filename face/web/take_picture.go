package web

import (
	"sync"

	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/draw"
)

// pictures are those of the methods, drawn to scale from the numbers of their
// examples, each when it is first shown: by themselves to choose from, and with
// the letters of the formula.
type pictures struct{ plain, lettered map[string]func() string }

func newPictures() pictures {
	drawn := pictures{plain: map[string]func() string{}, lettered: map[string]func() string{}}
	for _, m := range gauge.Methods() {
		drawn.lettered[m.ID] = sync.OnceValue(func() string { return picture(m, true) })
		drawn.plain[m.ID] = sync.OnceValue(func() string { return picture(m, false) })
	}
	return drawn
}

// picture draws a method, with the letters of its roles and m for the reading;
// nothing where it can be any set-up.
func picture(m *gauge.Method, lettered bool) string {
	sketch, ok := m.Draw(m.Example)
	if !ok {
		return ""
	}
	if !lettered {
		sketch.Spans = nil
	}
	sheet, err := draw.Sketch(sketch, m.When, func(role int) string {
		if role == gauge.ReadingRole {
			return "m"
		}
		return m.Roles[role].Symbol
	})
	if err != nil {
		return ""
	}
	text, err := inline(sheet)
	if err != nil {
		return ""
	}
	return text
}
