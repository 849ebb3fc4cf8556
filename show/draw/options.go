package draw

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Options is how a drawing is wanted. The zero value is a drawing in millimetres
// and first angle projection, on A4 across, to the scale that fills it.
type Options struct {
	Paper      ink.Paper
	Portrait   bool
	ThirdAngle bool
	Units      unit.Unit // Inch: sizes in inches; else in millimetres
	Dual       bool      // in millimetres, inches in brackets
	Scale      float64   // mm on the paper for one mm of the part; 0: chosen
	Job        string
	Drawn      string // by whom
	Date       string // as it is to be printed
}

// largestScale and its inverse bound the scales that are read.
const largestScale = 1000

// ParseScale reads a scale as it is written: mm on the paper, a colon and mm of
// the part, "1:2" or "5:1". The error says what is wrong with the text.
func ParseScale(text string) (float64, error) {
	paper, part, found := strings.Cut(text, ":")
	a, wrongA := strconv.ParseFloat(strings.TrimSpace(paper), 64)
	b, wrongB := strconv.ParseFloat(strings.TrimSpace(part), 64)
	scale := a / b
	if !found || wrongA != nil || wrongB != nil || !(scale >= 1.0/largestScale && scale <= largestScale) {
		return 0, fmt.Errorf("%q: two numbers with : between are wanted, mm on the paper and mm of the part: 1:2, 5:1", text)
	}
	return scale, nil
}

// format is a piece of paper, as it lies.
type format struct {
	width, height float64
}

// formats returns the papers to try, smallest first.
func (o *Options) formats() []format {
	papers := []ink.Paper{o.Paper}
	if o.Paper == ink.AnyPaper {
		papers = []ink.Paper{ink.A4, ink.A3}
	}
	list := make([]format, len(papers))
	for i, p := range papers {
		width, height := p.Size(o.Portrait)
		list[i] = format{width, height}
	}
	return list
}

// The margins outside the frame: the left one is for filing (ISO 5457).
const (
	margin       = 10.0
	filingMargin = 20.0
)

// frame returns the inside of the frame.
func (f format) frame() geom.Box {
	return geom.Box{Low: geom.Point{X: filingMargin, Y: margin}, High: geom.Point{X: f.width - margin, Y: f.height - margin}}
}

// scales are those of ISO 5455, largest first.
var scales = []float64{20, 10, 5, 2, 1, 1.0 / 2, 1.0 / 5, 1.0 / 10, 1.0 / 20, 1.0 / 50, 1.0 / 100}

// scaleText writes a scale: 2:1, 1:5.
func scaleText(scale float64) string {
	if scale >= 1 {
		return shortened(decimal(scale, 3), 0) + ":1"
	}
	return "1:" + shortened(decimal(1/scale, 3), 0)
}

// check refuses options that cannot be.
func (o *Options) check() error {
	switch {
	case o.Scale < 0 || math.IsNaN(o.Scale) || math.IsInf(o.Scale, 0):
		return fmt.Errorf("a drawing cannot have the scale %s: write how many mm on the paper stand for one of the part, 0.5 for 1:2", strconv.FormatFloat(o.Scale, 'g', -1, 64))
	case o.Paper > ink.Letter:
		return fmt.Errorf("there is no paper of the number %d: write A4, A3 or Letter", o.Paper)
	}
	return nil
}
