package report

import (
	"fmt"
	"html"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The look of a chart: dark on light, wide enough for a telephone and no wider.
const (
	chartWidth  = 400.0
	chartMargin = 16.0
	inkColour   = "#22262b"
	faintInk    = "#6b7480"
	paper       = "#fbfaf6"
	bandColour  = "#cfe0ee"
	barColour   = "#1d6f9c"
	firstColour = "#a8431f"
)

// chart gathers the strokes of an SVG drawing.
type chart struct {
	b      strings.Builder
	height float64
}

func newChart(height float64, title string) *chart {
	c := &chart{height: height}
	fmt.Fprintf(&c.b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" font-family="sans-serif" role="img">`, chartWidth, height)
	fmt.Fprintf(&c.b, "\n<title>%s</title>\n", html.EscapeString(title))
	c.box(0, 0, chartWidth, height, paper)
	return c
}

func (c *chart) box(x, y, width, height float64, colour string) {
	fmt.Fprintf(&c.b, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" fill="%s"/>`+"\n", x, y, width, height, colour)
}

func (c *chart) line(x1, y1, x2, y2, width float64, colour string) {
	fmt.Fprintf(&c.b, `<line x1="%.1f" y1="%.1f" x2="%.1f" y2="%.1f" stroke="%s" stroke-width="%g"/>`+"\n", x1, y1, x2, y2, colour, width)
}

func (c *chart) dot(x, y, radius float64, colour string) {
	fmt.Fprintf(&c.b, `<circle cx="%.1f" cy="%.1f" r="%g" fill="%s"/>`+"\n", x, y, radius, colour)
}

// text writes a line of text that begins, is centred or ends at x.
func (c *chart) text(x, y, size float64, anchor, colour, text string) {
	fmt.Fprintf(&c.b, `<text x="%.1f" y="%.1f" font-size="%g" text-anchor="%s" fill="%s">%s</text>`+"\n", x, y, size, anchor, colour, html.EscapeString(text))
}

func (c *chart) svg() []byte {
	c.b.WriteString("</svg>\n")
	return []byte(c.b.String())
}

// The measures of one size's strip.
const (
	stripHeight = 104.0
	stripBase   = 82.0 // of the line the bars stand on
	barHeight   = 44.0 // of a certainty
)

// MeaningChart draws, as SVG, a strip for every size: the reading's 95 % band and
// the candidates at their places, each a bar as tall as its probability.
func MeaningChart(r *adjust.Result, m *meant.Result) []byte {
	c := newChart(stripHeight*float64(len(m.Sizes))+chartMargin, r.Job.Name+": what was meant")
	for i := range m.Sizes {
		c.strip(r, &m.Sizes[i], stripHeight*float64(i)+chartMargin/2)
	}
	return c.svg()
}

// strip draws one size from y down.
func (c *chart) strip(r *adjust.Result, s *meant.Size, y float64) {
	found, view := r.Size(s.ID), inJob(r.Job)
	low, high := say.Reach(r, s)
	place := func(x float64) float64 {
		return chartMargin + (x-low)/(high-low)*(chartWidth-2*chartMargin)
	}
	base := y + stripBase
	c.text(chartMargin, y+14, 13, "start", inkColour, s.ID+": "+say.Headline(r, s).Shown(view))
	left, right := place(found.Low()), place(found.High())
	c.box(left, base-barHeight, max(right-left, 1), barHeight, bandColour)
	c.bars(s.Likely(), place, base)
	c.line(chartMargin, base, chartWidth-chartMargin, base, 1, inkColour)
	c.text(chartMargin, base+14, 10, "start", faintInk, unit.Told{Value: low, Dimension: found.Dimension}.Shown(view))
	c.text(chartWidth-chartMargin, base+14, 10, "end", faintInk, unit.Told{Value: high, Dimension: found.Dimension}.Shown(view))
}

// bars draws the candidates, best last, and names the first and, where there is
// room, the second.
func (c *chart) bars(list []meant.Candidate, place func(float64) float64, base float64) {
	const room = 110.0
	for i := len(list) - 1; i >= 0; i-- {
		x, colour := place(list[i].Value), barColour
		if x < chartMargin || x > chartWidth-chartMargin {
			continue
		}
		if i == 0 {
			colour = firstColour
		}
		c.line(x, base, x, base-max(1, barHeight*list[i].P), 3, colour)
		if i == 0 || i == 1 && list[1].P >= say.LeastListed && math.Abs(x-place(list[0].Value)) > room {
			c.text(x, base-barHeight-5, 10, anchorAt(x), colour, list[i].Text)
		}
	}
}

// anchorAt keeps a text at x on the paper.
func anchorAt(x float64) string {
	switch {
	case x < chartWidth/4:
		return "start"
	case x > chartWidth*3/4:
		return "end"
	}
	return "middle"
}

// Promise is how often statements of one range of probability came true.
type Promise struct {
	Promised float64 // mean probability
	Kept     float64 // part that was right
	Bound    float64 // how far they may lie apart by chance
}

// The square of the promises' chart.
const (
	squareLeft = 44.0
	squareTop  = 30.0
	squareSide = 340.0
)

// PromisesChart draws, as SVG, what was promised against what was kept: honest
// promises lie on the diagonal, give or take their bounds.
func PromisesChart(title string, list []Promise) []byte {
	c := newChart(squareTop+squareSide+50, title)
	across := func(p float64) float64 { return squareLeft + squareSide*p }
	up := func(p float64) float64 { return squareTop + squareSide*(1-p) }
	c.text(squareLeft, 18, 13, "start", inkColour, title)
	for i := range 6 {
		p := float64(i) / 5
		c.line(across(p), up(0), across(p), up(1), 0.5, bandColour)
		c.line(across(0), up(p), across(1), up(p), 0.5, bandColour)
		c.text(across(p), up(0)+16, 11, "middle", faintInk, fmt.Sprintf("%.1f", p))
		c.text(across(0)-6, up(p)+4, 11, "end", faintInk, fmt.Sprintf("%.1f", p))
	}
	c.line(across(0), up(0), across(1), up(1), 1, faintInk)
	for _, p := range list {
		low, high := math.Max(0, p.Kept-p.Bound), math.Min(1, p.Kept+p.Bound)
		c.line(across(p.Promised), up(low), across(p.Promised), up(high), 2, barColour)
		c.dot(across(p.Promised), up(p.Kept), 4, firstColour)
	}
	c.text(across(0.5), up(0)+36, 12, "middle", inkColour, "probability given")
	c.text(across(0.02), up(0.96), 12, "start", inkColour, "part that was right")
	return c.svg()
}
