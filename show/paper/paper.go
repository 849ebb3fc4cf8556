// Package paper turns sheets into files: SVG for the page and the workshop's
// screen, PDF for the printer, DXF for whoever draws on.
//
// One walk over the marks of a sheet drives all three, so all draw the same.
// Arcs stay arcs: in PDF, which has none, they are curves within 0.0001 mm. The
// bytes depend on the sheet alone, and on the date that is given. Coordinates
// that are not finite are a fault of whoever made the sheet, and panic.
package paper

import (
	"math"
	"strings"
	"unicode"

	"codeberg.org/oddleg/oddleg/show/ink"
)

// pen draws the marks of a sheet in one format.
type pen interface {
	stroke(s ink.Stroke)
	area(a ink.Area)
	text(t ink.Text)
	open(d ink.Dimension) // what follows is drawn of a dimension
	close(d ink.Dimension)
}

// walk draws all marks in order.
func walk(marks []ink.Mark, p pen) {
	for _, m := range marks {
		switch m := m.(type) {
		case ink.Stroke:
			p.stroke(m)
		case ink.Area:
			p.area(m)
		case ink.Text:
			if m.Words = legible(m.Words); m.Words != "" {
				p.text(m)
			}
		case ink.Dimension:
			p.open(m)
			walk(m.Parts, p)
			p.close(m)
		default:
			panic("paper: a mark of unknown kind")
		}
	}
}

// legible returns words without what is not seen and yet could upset a line:
// control characters become spaces, marks that turn the direction of reading go.
func legible(words string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r), r == '\u2028', r == '\u2029', r == unicode.ReplacementChar:
			return ' '
		case unicode.Is(unicode.Bidi_Control, r):
			return -1
		}
		return r
	}, words))
}

// fontSize returns the size of the font at which capitals have this height.
func fontSize(capitals float64) float64 { return capitals / ink.CapHeight }

// startOf returns how far the start of a text lies before its place, along its
// base line.
func startOf(t ink.Text) float64 {
	switch t.Align {
	case ink.Centred:
		return ink.Width(t.Words, t.Height, t.Bold) / 2
	case ink.RightAligned:
		return ink.Width(t.Words, t.Height, t.Bold)
	}
	return 0
}

// finite returns x, or panics where it is no number.
func finite(x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		panic("paper: a coordinate is not finite")
	}
	return x
}
