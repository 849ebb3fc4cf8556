package draw

import (
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The heights of words in tables, in mm.
const (
	labelHeight = 1.8
	cellHeight  = 2.5
	rowHeight   = 4.2
	leastHeight = 1.8
	cellPad     = 1.2
)

// cell is a field of a table with a small label over what stands in it.
type cell struct {
	width        float64
	label, words string
	height       float64 // of the words; 0: usual
	indent       float64 // room left before them
	bold         bool
}

// field draws a cell with its lower left corner at a place.
func (c cell) marks(at geom.Point, high float64) []ink.Mark {
	list := []ink.Mark{box(at, at.Add(geom.Point{X: c.width, Y: high}), ink.Rule)}
	if c.label != "" {
		list = append(list, fitted(c.label, labelHeight, c.width, at.Add(geom.Point{X: cellPad, Y: high - labelHeight - cellPad}), false, true))
	}
	if c.words != "" {
		height := c.height
		if height == 0 {
			height = cellHeight
		}
		list = append(list, fitted(c.words, height, c.width-c.indent, at.Add(geom.Point{X: cellPad + c.indent, Y: cellPad + 0.4}), c.bold, false))
	}
	return list
}

// box returns the outline of a rectangle.
func box(low, high geom.Point, kind ink.LineKind) ink.Stroke {
	return ink.Stroke{Path: geom.Rectangle(low, high), Kind: kind, Layer: ink.Border}
}

// fitted sets words into a width: smaller where they are too long, and where
// that is not enough cut off.
func fitted(words string, height, width float64, at geom.Point, bold, grey bool) ink.Text {
	room := width - 2*cellPad
	for height > leastHeight && ink.Width(words, height, bold) > room {
		height = max(leastHeight, height-0.1)
	}
	return ink.Text{At: at, Words: cutTo(words, height, room, bold), Height: height, Bold: bold, Grey: grey, Layer: ink.Border}
}

// cutTo cuts words off where they are longer than a width.
func cutTo(words string, height, width float64, bold bool) string {
	if ink.Width(words, height, bold) <= width {
		return words
	}
	runes := []rune(words)
	for len(runes) > 0 && ink.Width(string(runes)+"…", height, bold) > width {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "…"
}

// rows draws cells of one height side by side, line under line, from the upper
// left corner, and a frame round all.
func rows(at geom.Point, lines ...[]cell) []ink.Mark {
	var list []ink.Mark
	top, right := at, at.X
	for _, line := range lines {
		high := blockRow
		if line[0].height > cellHeight {
			high += line[0].height - cellHeight + 1
		}
		at.Y -= high
		x := at.X
		for _, c := range line {
			list = append(list, c.marks(geom.Point{X: x, Y: at.Y}, high)...)
			x += c.width
		}
		right = max(right, x)
	}
	return append(list, box(geom.Point{X: top.X, Y: at.Y}, geom.Point{X: right, Y: top.Y}, ink.Frame))
}
