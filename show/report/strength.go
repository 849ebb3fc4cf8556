package report

import (
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/make/strength"
)

// sentence begins with a capital and ends with a full stop.
func sentence(text string) string {
	text = strings.ToUpper(text[:1]) + text[1:]
	if strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}

// whereGiven writes a figure that the tables may lack.
func whereGiven(x float64, show func(float64) string) string {
	if math.IsNaN(x) {
		return "-"
	}
	return show(x)
}

func forces(s strength.Span) string { return between(s, strength.ForceText) }

func between(s strength.Span, show func(float64) string) string {
	low, high := show(s.Low), show(s.High)
	if low == high {
		return low
	}
	return low + " to " + high
}
