package paper

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// SVG writes a sheet as a file of its own, in its true size, on white. Texts ask
// for DejaVu Sans Condensed and are held to its widths where it is missing.
func SVG(w io.Writer, s *ink.Sheet) error {
	p := &svgPen{height: s.Height, ink: "#000"}
	p.raw("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n")
	p.head(s, ` width="`+decimal(s.Width)+`mm" height="`+decimal(s.Height)+`mm"`)
	p.raw(`<rect width="` + decimal(s.Width) + `" height="` + decimal(s.Height) + "\" fill=\"#fff\"/>\n")
	p.body(s)
	_, err := w.Write(p.Bytes())
	return err
}

// InlineSVG writes a sheet as an element of an HTML page: as wide as its place
// there, in the colour of the text around it, with nothing that could act on the
// rest of the page.
func InlineSVG(w io.Writer, s *ink.Sheet) error {
	p := &svgPen{height: s.Height, ink: "currentColor", inline: true}
	p.head(s, "")
	p.body(s)
	_, err := w.Write(p.Bytes())
	return err
}

// svgPen writes marks as elements of SVG.
type svgPen struct {
	bytes.Buffer
	height float64 // of the sheet: y runs down in SVG
	ink    string
	inline bool
}

// fontFamily names what to set texts in, the nearest at hand last.
const fontFamily = "'DejaVu Sans Condensed','DejaVu Sans','Arial Narrow',sans-serif"

func (p *svgPen) raw(text string) { p.WriteString(text) }

// escaped writes a text so that it can be nothing else.
func (p *svgPen) escaped(text string) {
	if err := xml.EscapeText(p, []byte(text)); err != nil {
		panic("paper: a buffer does not take what is written to it")
	}
}

// head opens the element; size is what says how large it is shown.
func (p *svgPen) head(s *ink.Sheet, size string) {
	p.raw(`<svg xmlns="http://www.w3.org/2000/svg"` + size)
	p.raw(` viewBox="0 0 ` + decimal(s.Width) + " " + decimal(s.Height) + `" role="graphics-document" aria-label="`)
	p.escaped(legible(s.Title))
	p.raw("\">\n<title>")
	p.escaped(legible(s.Title))
	p.raw("</title>\n")
}

// body writes all marks and closes the element.
func (p *svgPen) body(s *ink.Sheet) {
	p.raw(`<g fill="none" stroke="` + p.ink + `" stroke-linejoin="round" font-family="` + fontFamily + "\" font-stretch=\"condensed\">\n")
	walk(s.Marks, p)
	p.raw("</g>\n</svg>\n")
}

func (p *svgPen) stroke(s ink.Stroke) {
	l := lines[s.Kind]
	p.raw(`<path d="`)
	p.path(s.Path)
	p.raw(`" stroke-width="` + decimal(l.width) + `"`)
	if l.dashes != nil {
		p.raw(` stroke-dasharray="`)
		for i, d := range l.pattern() {
			if i > 0 {
				p.raw(" ")
			}
			p.raw(decimal(d))
		}
		p.raw(`"`)
	}
	if l.tone < 1 {
		p.raw(` stroke-opacity="` + decimal(l.tone) + `"`)
	}
	p.raw("/>\n")
}

func (p *svgPen) area(a ink.Area) {
	p.raw(`<path d="`)
	p.path(a.Path)
	p.raw(`" stroke="none" fill="` + p.shade(a.Tone) + `"`)
	if p.inline && a.Tone > 0 && a.Tone < 1 {
		p.raw(` fill-opacity="` + decimal(a.Tone) + `"`)
	}
	p.raw("/>\n")
}

// shade returns the colour of a tone: in a page what is white on paper has the
// colour of the ground, whatever that is.
func (p *svgPen) shade(tone float64) string {
	switch {
	case p.inline && tone <= 0:
		return "Canvas"
	case p.inline:
		return p.ink
	}
	level := strconv.Itoa(greyLevel(tone))
	return "rgb(" + level + "," + level + "," + level + ")"
}

// greyLevel returns a tone as a level of 0 (black) to 255.
func greyLevel(tone float64) int { return int(math.Round(255 * (1 - min(max(tone, 0), 1)))) }

func (p *svgPen) text(t ink.Text) {
	p.raw(`<text x="` + decimal(t.At.X) + `" y="` + decimal(p.height-t.At.Y) + `"`)
	p.raw(` font-size="` + decimal(fontSize(t.Height)) + `" fill="` + p.ink + `" stroke="none"`)
	if t.Align != ink.LeftAligned {
		p.raw(` text-anchor="` + [...]string{ink.Centred: "middle", ink.RightAligned: "end"}[t.Align] + `"`)
	}
	if t.Bold {
		p.raw(` font-weight="bold"`)
	}
	if t.Grey {
		p.raw(` fill-opacity="` + decimal(greyText) + `"`)
	}
	if t.Angle != 0 {
		p.raw(` transform="rotate(` + decimal(-t.Angle*180/math.Pi) + " " + decimal(t.At.X) + " " + decimal(p.height-t.At.Y) + `)"`)
	}
	p.raw(` textLength="` + decimal(ink.Width(t.Words, t.Height, t.Bold)) + `" lengthAdjust="spacingAndGlyphs">`)
	p.escaped(strings.ReplaceAll(t.Words, "  ", " \u00a0")) // or a run of spaces would be one
	p.raw("</text>\n")
}

func (p *svgPen) open(ink.Dimension)  { p.raw("<g class=\"dimension\">\n") }
func (p *svgPen) close(ink.Dimension) { p.raw("</g>\n") }

// path writes the data of a path.
func (p *svgPen) path(path geom.Path) {
	for _, run := range runs(path) {
		p.point("M", run[0].From)
		for _, whole := range run {
			for _, e := range parted(whole, math.Pi) {
				p.edge(e)
			}
		}
		if closes(run) {
			p.raw("Z")
		}
	}
}

// edge writes one edge, an arc of half a turn or less.
func (p *svgPen) edge(e geom.Edge) {
	if e.Turn == geom.Straight {
		p.point("L", e.To)
		return
	}
	radius, sweep := decimal(e.Radius()), " 0 0 0 "
	if e.Turn == geom.Clockwise {
		sweep = " 0 0 1 "
	}
	p.point("A"+radius+" "+radius+sweep, e.To)
}

func (p *svgPen) point(command string, q geom.Point) {
	p.raw(command + decimal(q.X) + " " + decimal(p.height-q.Y))
}

// decimal returns a number to a ten thousandth, without zeros on its end.
func decimal(x float64) string {
	text := strings.TrimRight(strconv.FormatFloat(finite(x), 'f', 4, 64), "0")
	text = strings.TrimSuffix(text, ".")
	if text == "-0" || text == "" {
		return "0"
	}
	return text
}
