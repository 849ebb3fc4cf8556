package booklet

import (
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// strip is a piece of a page that is not broken, as a small sheet.
type strip struct {
	*ink.Sheet
	above float64 // left free over it, but not at the head of a page
	keeps bool    // stays on the page of what follows
	head  *strip  // of a table: stands over it again where it begins a page
	title string  // whole words of a title, of its first strip
	whole bool    // the sheet is a page by itself
}

// blank returns an empty strip.
func blank(height float64) strip {
	return strip{Sheet: &ink.Sheet{Height: height, Scale: 1}}
}

// line returns a strip with one line of words in it.
func (s style) line(words string, indent float64) strip {
	l := blank(s.pitch())
	l.write(s, words, indent)
	return l
}

// write sets words on the line of a strip.
func (l *strip) write(s style, words string, x float64) {
	if words != "" {
		l.Add(s.text(words, geom.Point{X: x, Y: l.Height - ascent*s.height}, ink.LeftAligned))
	}
}

// lines returns words as strips. The first two and the last two lines stay
// together.
func (s style) lines(lines []string, indent float64) []strip {
	var list []strip
	for _, words := range lines {
		list = append(list, s.line(words, indent))
	}
	last := len(list) - 1
	for i := range list {
		list[i].keeps = i < last && (i == 0 || i == last-1)
	}
	return list
}

// titled returns words that stay with what follows them.
func (s style) titled(words string, above, width float64) []strip {
	list := s.lines(s.wrap(words, width), 0)
	for i := range list {
		list[i].keeps = true
	}
	list[0].above, list[0].title = above, words
	return list
}

func (h Heading) strips(width float64) []strip {
	return headingStyle.titled(string(h), 4.5, width)
}

// indentStep is how far one step of Paragraph.Indent is to the right.
const indentStep = 4.0

// spaces are how far paragraphs stand off.
var spaces = map[Space]float64{Usual: 1.4, Close: 0, Apart: 3}

func (p Paragraph) strips(width float64) []strip {
	s := styles[p.Weight]
	bold := s
	bold.bold = true
	indent := min(float64(p.Indent)*indentStep, width/2)
	hang := indent + s.width(p.Mark)
	lead, words, start := ink.Readable(p.Lead), p.Words, 0.0
	switch wide := bold.width(lead); {
	case wide > (width-hang)/2:
		lead, words = "", p.Lead+words
	case strings.HasPrefix(words, " "):
		start = wide + s.width(" ")
	default:
		start = wide
	}
	lines := s.wrapAfter(start, words, width-hang)
	list := s.lines(append([]string{""}, lines[1:]...), hang)
	list[0].write(s, p.Mark, indent)
	list[0].write(bold, lead, hang)
	list[0].write(s, lines[0], hang+start)
	list[0].above = spaces[p.Space]
	if p.Keep {
		list[len(list)-1].keeps = true
	}
	return list
}

// roomPitch is the distance of lines to write on.
const roomPitch = 9.0

func (r Room) strips(width float64) []strip {
	label := styles[Quiet]
	start := 0.0
	if r.Label != "" {
		start = min(label.width(r.Label)+2, width/2)
	}
	var list []strip
	for i := range r.Lines {
		l := blank(roomPitch)
		if i == 0 && r.Label != "" {
			l.Add(label.text(label.cut(r.Label, start), geom.Point{Y: 1}, ink.LeftAligned))
		}
		l.Add(rule(geom.Point{X: start, Y: 0.5}, geom.Point{X: width, Y: 0.5}, ink.Rule))
		l.keeps = i == 0 && r.Lines > 1
		list = append(list, l)
	}
	return list
}

func (p Picture) strips(width float64) []strip {
	s := strip{Sheet: p.Sheet, whole: true}
	if p.Sheet.Width > width || p.Sheet.Height > mostOfPage {
		return []strip{s}
	}
	l := blank(p.Sheet.Height)
	l.Put(p.Sheet, geom.Point{X: (width - p.Sheet.Width) / 2})
	l.above = 2
	return []strip{l}
}

// mostOfPage is how high a picture among words may be.
const mostOfPage = 150.0

func rule(a, b geom.Point, kind ink.LineKind) ink.Stroke {
	return ink.Stroke{Path: geom.Polyline(a, b), Kind: kind, Layer: ink.Border}
}
