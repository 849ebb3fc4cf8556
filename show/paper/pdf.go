package paper

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"time"
	"unicode"
	"unicode/utf16"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"codeberg.org/go-pdf/fpdf"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// About is what a PDF says of itself.
type About struct {
	Title string
	Date  time.Time // of making; the zero time is kept as it is
}

// PDF writes sheets as the pages of one document, each of its own size, with
// the fonts it needs.
func PDF(w io.Writer, sheets []*ink.Sheet, about About) error {
	p := &pdfPen{doc: newDocument(about)}
	for _, s := range sheets {
		p.page(s)
	}
	return p.doc.Output(w)
}

// pdfPen writes marks as PDF's own operators, in mm with y up. The library
// rounds coordinates to a hundredth of a point and has arcs of its own making:
// it is left the texts, whose fonts it cuts down to what is used.
type pdfPen struct {
	doc   *fpdf.Fpdf
	fonts [2]bool // taken into the document: plain, bold
}

// pointsPerMillimetre turns mm to PDF's points.
const pointsPerMillimetre = 72 / 25.4

// The font's name in the document, and the size at which the library sets it;
// the true size is in the matrix of each text.
const (
	family  = "dejavu"
	setSize = 10
)

func newDocument(about About) *fpdf.Fpdf {
	doc := fpdf.New("P", "pt", "A4", "")
	doc.SetCatalogSort(true)
	doc.SetCreationDate(about.Date)
	doc.SetModificationDate(about.Date)
	doc.SetProducer("oddleg", false)
	doc.SetTitle(legible(about.Title), true)
	doc.SetLang("en-GB")
	doc.SetAutoPageBreak(false, 0)
	return doc
}

func (p *pdfPen) page(s *ink.Sheet) {
	p.doc.AddPageFormat("P", fpdf.SizeType{Wd: s.Width * pointsPerMillimetre, Ht: s.Height * pointsPerMillimetre})
	p.raw("q %.9f 0 0 %.9f 0 0 cm 0 J 1 j", pointsPerMillimetre, pointsPerMillimetre)
	walk(s.Marks, p)
	p.raw("Q")
}

func (p *pdfPen) raw(format string, args ...any) { p.doc.RawWriteStr(fmt.Sprintf(format, args...)) }

func (p *pdfPen) stroke(s ink.Stroke) {
	l := lines[s.Kind]
	p.raw("%s w %v d %s G", number(l.width), dashArray(l.pattern()), number(1-l.tone))
	p.path(s.Path)
	p.raw("S")
}

// dashArray returns dashes and gaps, and that the pattern starts with its start.
func dashArray(pattern []float64) string {
	list := make([]string, len(pattern))
	for i, d := range pattern {
		list[i] = number(d)
	}
	return "[" + strings.Join(list, " ") + "] 0"
}

func (p *pdfPen) area(a ink.Area) {
	p.raw("%s g", number(1-min(max(a.Tone, 0), 1)))
	p.path(a.Path)
	p.raw("f")
}

func (p *pdfPen) text(t ink.Text) {
	p.font(t.Bold)
	sin, cos := math.Sincos(t.Angle)
	k := fontSize(t.Height) / setSize
	start := t.At.Sub(geom.Point{X: cos, Y: sin}.Times(startOf(t)))
	p.raw("q %s g %s %s %s %s %s cm", number(1-toneOf(t)), number(k*cos), number(k*sin), number(-k*sin), number(k*cos), place(start))
	words := printable(t.Words)
	p.raw("/Span <</ActualText <%s>>> BDC", utf16Hex(words)) // or readers take a slanting text for single letters
	_, height := p.doc.GetPageSize()
	p.doc.Text(0, height, words)
	p.raw("EMC Q")
}

// utf16Hex returns words in UTF-16, its mark of byte order first, as digits of
// base 16.
func utf16Hex(words string) string {
	var b strings.Builder
	b.WriteString("FEFF")
	for _, unit := range utf16.Encode([]rune(words)) {
		fmt.Fprintf(&b, "%04X", unit)
	}
	return b.String()
}

// printable replaces what the library's fonts cannot number.
func printable(words string) string {
	const last = 0xFFFF
	return strings.Map(func(r rune) rune {
		if r > last {
			return unicode.ReplacementChar
		}
		return r
	}, words)
}

// font makes the next text plain or bold. The library writes to the bytes of a
// font while it works on it, so each document has a copy of its own.
func (p *pdfPen) font(bold bool) {
	style, number, data := "", 0, dejavusanscondensed.TTF
	if bold {
		style, number, data = "B", 1, dejavusanscondensedbold.TTF
	}
	if !p.fonts[number] {
		p.doc.AddUTF8FontFromBytes(family, style, bytes.Clone(data))
		p.fonts[number] = true
	}
	p.doc.SetFont(family, style, setSize)
}

// A dimension is nothing of its own in PDF.
func (p *pdfPen) open(ink.Dimension)  {}
func (p *pdfPen) close(ink.Dimension) {}

// path writes a path; what to do with it is to follow.
func (p *pdfPen) path(path geom.Path) {
	for _, run := range runs(path) {
		p.raw("%s m", place(run[0].From))
		for _, e := range run {
			p.edge(e)
		}
		if closes(run) {
			p.raw("h")
		}
	}
}

func (p *pdfPen) edge(e geom.Edge) {
	if e.Turn == geom.Straight {
		p.raw("%s l", place(e.To))
		return
	}
	for _, arc := range parted(e, curveAngle(e.Radius())) {
		a, b := handles(arc)
		p.raw("%s %s %s c", place(a), place(b), place(arc.To))
	}
}

// curveAngle returns through how much of an arc of this radius one cubic curve
// may go. Over a quarter turn it departs from the arc by 2.73·10⁻⁴ of the
// radius, over less with the sixth power of the angle (from memory; the
// tests measure it).
func curveAngle(radius float64) float64 {
	const quarter, departs, allowed = math.Pi / 2, 2.73e-4, 0.5e-4
	return min(quarter, quarter*math.Pow(allowed/(departs*radius), 1.0/6))
}

// handles returns the inner control points of the curve for an arc.
func handles(arc geom.Edge) (a, b geom.Point) {
	k := 4.0 / 3 * math.Tan(arc.Sweep()/4)
	from, to := arc.From.Sub(arc.Centre), arc.To.Sub(arc.Centre)
	return arc.From.Add(from.Left().Times(k)), arc.To.Sub(to.Left().Times(k))
}

func place(q geom.Point) string { return number(q.X) + " " + number(q.Y) }

// number returns a number as PDF writes one, to a hundred thousandth.
func number(x float64) string { return fmt.Sprintf("%.5f", finite(x)) }
