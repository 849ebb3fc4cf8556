package booklet

import (
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The distance of lines, what a line needs over its base line, and how far letters
// go below it, as parts of the height of capitals.
const (
	leading = 1.7
	ascent  = 1.25
	descent = 0.35
)

func (s style) pitch() float64 { return leading * s.height }

func (s style) width(words string) float64 { return ink.Width(words, s.height, s.bold) }

// text sets one line with its base line at a place.
func (s style) text(words string, at geom.Point, align ink.Align) ink.Text {
	return ink.Text{At: at, Words: words, Height: s.height, Align: align, Bold: s.bold, Grey: s.grey, Layer: ink.Notes}
}

// wrap breaks words into lines no longer than width: between words, and inside
// one only where it is longer than a line by itself. There is at least one line.
func (s style) wrap(words string, width float64) []string { return s.wrapAfter(0, words, width) }

// wrapAfter is wrap where something stands at the start of the first line
// already, which may then stay empty.
func (s style) wrapAfter(start float64, words string, width float64) []string {
	lines, line, long := []string{}, "", start
	width += rounding
	space := s.width(" ")
	for _, word := range strings.Fields(ink.Readable(words)) {
		w := s.width(word)
		switch {
		case line == "" && long+w <= width:
			line, long = word, long+w
			continue
		case line != "" && long+space+w <= width:
			line, long = line+" "+word, long+space+w
			continue
		case line != "" || long > 0:
			lines = append(lines, line)
		}
		for w > width {
			head, tail := s.broken(word, width)
			if tail == "" {
				break
			}
			lines = append(lines, head)
			word, w = tail, s.width(tail)
		}
		line, long = word, w
	}
	return append(lines, line)
}

// broken parts a word so that its head, of one letter at least, is no longer
// than width.
func (s style) broken(word string, width float64) (head, tail string) {
	long := 0.0
	for i, r := range word {
		if long += s.width(string(r)); long > width && i > 0 {
			return word[:i], word[i:]
		}
	}
	return word, ""
}

// rounding is by how much a sum of widths may be wrong.
const rounding = 1e-6

// cut returns words on one line no longer than width.
func (s style) cut(words string, width float64) string {
	return ink.Clipped(words, s.height, s.bold, width)
}
