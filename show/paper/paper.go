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

	"codeberg.org/oddleg/oddleg/show/draw"
)

// pen draws the marks of a sheet in one format.
type pen interface {
	stroke(s draw.Stroke)
	area(a draw.Area)
	text(t draw.Text)
	open(d draw.Dimension) // what follows is drawn of a dimension
	close(d draw.Dimension)
}

// walk draws all marks in order.
func walk(marks []draw.Mark, p pen) {
	for _, m := range marks {
		switch m := m.(type) {
		case draw.Stroke:
			p.stroke(m)
		case draw.Area:
			p.area(m)
		case draw.Text:
			if m.Words = legible(m.Words); m.Words != "" {
				p.text(m)
			}
		case draw.Dimension:
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
func fontSize(capitals float64) float64 { return capitals / draw.CapHeight }

// startOf returns how far the start of a text lies before its place, along its
// base line.
func startOf(t draw.Text) float64 {
	switch t.Align {
	case draw.Centred:
		return draw.Width(t.Words, t.Height, t.Bold) / 2
	case draw.RightAligned:
		return draw.Width(t.Words, t.Height, t.Bold)
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
