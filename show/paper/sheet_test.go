package paper

import (
	"bytes"
	"io"
	"math"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// about is a fixed date, so that a document is the same each time.
var about = About{Title: "Shoe ⌀ 3/4 in", Date: time.Date(2024, 3, 1, 12, 0, 0, 0, time.UTC)}

// file writes data to a file of the test's own.
func file(t testing.TB, name string, write func(io.Writer) error) string {
	t.Helper()
	path := t.TempDir() + "/" + name
	if err := os.WriteFile(path, written(t, write), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func written(t testing.TB, write func(io.Writer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// arrow is an arrowhead at a point, pointing along an angle.
func arrow(tip geom.Point, angle float64) ink.Area {
	m := geom.Pose{Angle: angle, Shift: tip}
	return ink.Area{Path: geom.Polygon(pt(0, 0), pt(-2.5, 0.4), pt(-2.5, -0.4)).Moved(m), Tone: 1, Layer: ink.Dimensions}
}

// hostile are words that could break out of a format (constructed).
var hostile = []string{
	`</text></svg><script>alert(1)</script>`,
	"tab\tnew\nline\x00nul\x1besc\x7f",
	`%%c 100%%d \U+0041 {\fArial;x} ^J`,
	"\u202eright to left\u202c \u2066isolate\u2069",
	`a & b "quoted" 'single' ]]>`,
	"עברית Кириллица ελληνικά",
	"😀 beyond the plane",
	"two  spaces   three",
	"\xff\xfe not UTF-8",
	`)Tj ET (\`,
}

// lineKinds is how many kinds of line there are.
const lineKinds = int(ink.Ghost) + 1

// sample is a sheet at half size with each mark in each of its forms.
func sample() *ink.Sheet {
	s := &ink.Sheet{Title: `Sample "⌀ & <all>"`, Width: 210, Height: 297, Scale: 0.5}
	for kind := range lineKinds {
		y := 20 + 4*float64(kind)
		s.Add(ink.Stroke{Path: geom.Polyline(pt(20, y), pt(90, y)), Kind: ink.LineKind(kind), Layer: ink.Outlines})
	}
	c := pt(60.5, 120.25)
	s.Add(
		ink.Stroke{Path: geom.Circle(c, 20), Kind: ink.Visible},
		ink.Stroke{Path: geom.Path{geom.Arc(c, pt(70.5, 120.25), pt(60.5, 130.25), geom.Anticlockwise)}, Kind: ink.Thin, Layer: ink.Threads},
		ink.Stroke{Path: geom.Path{geom.Arc(c, pt(70.5, 120.25), pt(60.5, 130.25), geom.Clockwise)}, Kind: ink.Hidden, Layer: ink.HiddenEdges},
		ink.Stroke{Path: geom.Path{
			geom.Line(pt(100, 100), pt(150, 100)),
			geom.Arc(pt(150, 110), pt(150, 100), pt(150, 120), geom.Anticlockwise),
			geom.Line(pt(150, 120), pt(100, 120)),
			geom.Line(pt(100, 120), pt(100, 100)),
		}},
		ink.Area{Path: geom.Rectangle(pt(100, 20), pt(130, 24)), Tone: 1},
		ink.Area{Path: geom.Circle(pt(150, 22), 3), Tone: 0.3},
		ink.Area{Path: geom.Rectangle(pt(160, 20), pt(170, 24)), Tone: 0},
		ink.Text{At: pt(20, 200), Words: "left ⌀19.02 ±0.01 at 45°", Height: 3.5},
		ink.Text{At: pt(60, 210), Words: "centred", Height: 2.5, Align: ink.Centred, Bold: true, Layer: ink.Notes},
		ink.Text{At: pt(190, 220), Words: "right", Height: 2.5, Align: ink.RightAligned, Grey: true},
		ink.Text{At: pt(10, 220), Words: "upright", Height: 2.5, Angle: math.Pi / 2, Align: ink.Centred},
		ink.Text{At: pt(10, 10), Words: ""},
	)
	for i, words := range hostile {
		s.Add(ink.Text{At: pt(20, 240+5*float64(i)), Words: words, Height: 2.5})
	}
	s.Add(dimensions()...)
	return s
}

// dimensions is one of each kind, at half size, of what sample draws.
func dimensions() []ink.Mark {
	note := func(x, y float64, words string) ink.Text {
		return ink.Text{At: pt(x, y), Words: words, Height: 2.5, Align: ink.Centred, Layer: ink.Dimensions}
	}
	thin := func(points ...geom.Point) ink.Stroke {
		return ink.Stroke{Path: geom.Polyline(points...), Kind: ink.Thin, Layer: ink.Dimensions}
	}
	return []ink.Mark{
		ink.Dimension{
			Kind: ink.Linear, A: pt(100, 100), B: pt(150, 120), LineAt: pt(110, 92), Measures: 100, Words: "100 ±0.2",
			Parts: []ink.Mark{thin(pt(100, 92), pt(150, 92)), arrow(pt(150, 92), 0), arrow(pt(100, 92), math.Pi), note(125, 93, "100 ±0.2")},
		},
		ink.Dimension{
			Kind: ink.Linear, A: pt(100, 100), B: pt(130, 140), Direction: math.Atan2(4, 3), LineAt: pt(90, 100), Measures: 100, Words: "100 slanting",
			Parts: []ink.Mark{thin(pt(90, 100), pt(120, 140)), note(105, 121, "100 slanting")},
		},
		ink.Dimension{
			Kind: ink.Diametral, A: pt(40.5, 120.25), B: pt(80.5, 120.25), LineAt: pt(60.5, 120.25), Measures: 80, Words: "⌀80 h6",
			Parts: []ink.Mark{thin(pt(40.5, 120.25), pt(80.5, 120.25)), arrow(pt(80.5, 120.25), 0), note(60, 121, "⌀80 h6")},
		},
		ink.Dimension{
			Kind: ink.Radial, A: pt(150, 110), B: pt(160, 110), LineAt: pt(155, 110), Measures: 20, Words: "R20",
			Parts: []ink.Mark{thin(pt(150, 110), pt(160, 110)), arrow(pt(160, 110), 0), note(155, 111, "R20")},
		},
		ink.Dimension{
			Kind: ink.Angular, Vertex: pt(100, 100), A: pt(120, 100), B: pt(110, 110), LineAt: geom.Polar(15, math.Pi/8).Add(pt(100, 100)),
			Measures: 45, Words: "45°", Parts: []ink.Mark{
				ink.Stroke{
					Path: geom.Path{geom.Arc(pt(100, 100), pt(115, 100), pt(100, 100).Add(geom.Polar(15, math.Pi/4)), geom.Anticlockwise)},
					Kind: ink.Thin, Layer: ink.Dimensions,
				}, note(118, 108, "45°"),
			},
		},
		ink.Dimension{
			Kind: ink.Leader, A: pt(160, 110), Words: "4 × ⌀8.5",
			Parts: []ink.Mark{thin(pt(160, 110), pt(170, 130)), arrow(pt(160, 110), -2), note(175, 131, "4 × ⌀8.5")},
		},
	}
}

// tally counts the marks of a sheet by kind.
type tally struct{ lines, arcs, areas, texts, dimensions int }

func (c *tally) stroke(s ink.Stroke) {
	for _, e := range s.Path {
		if e.Turn == geom.Straight {
			c.lines++
		} else {
			c.arcs++
		}
	}
}
func (c *tally) area(ink.Area)       { c.areas++ }
func (c *tally) text(ink.Text)       { c.texts++ }
func (c *tally) open(ink.Dimension)  { c.dimensions++ }
func (c *tally) close(ink.Dimension) {}

func counted(s *ink.Sheet) tally {
	var c tally
	walk(s.Marks, &c)
	return c
}

// formats are all ways of writing one sheet.
var formats = map[string]func(io.Writer, *ink.Sheet) error{
	"svg":    SVG,
	"inline": InlineSVG,
	"pdf":    func(w io.Writer, s *ink.Sheet) error { return PDF(w, []*ink.Sheet{s}, about) },
	"dxf":    DXF,
}

// TestSameBytes writes the same sheet many times at once.
func TestSameBytes(t *testing.T) {
	for name, format := range formats {
		t.Run(name, func(t *testing.T) {
			first := written(t, func(w io.Writer) error { return format(w, sample()) })
			shared := sample()
			var wait sync.WaitGroup
			for range 4 {
				wait.Go(func() {
					var again bytes.Buffer
					if err := format(&again, shared); err != nil || !bytes.Equal(first, again.Bytes()) {
						t.Errorf("written again it is different (%v)", err)
					}
				})
			}
			wait.Wait()
		})
	}
}

// refusing takes nothing.
type refusing struct{}

func (refusing) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestErrorOfTheWriterIsReturned(t *testing.T) {
	for name, format := range formats {
		if err := format(refusing{}, sample()); err == nil {
			t.Errorf("%s: no error from a writer that takes nothing", name)
		}
	}
}

func TestNoNumberPanics(t *testing.T) {
	for name, format := range formats {
		func() {
			defer func() {
				if what, _ := recover().(string); !strings.HasPrefix(what, "paper: ") {
					t.Errorf("%s: a coordinate that is no number gave %q", name, what)
				}
			}()
			s := &ink.Sheet{Width: 10, Height: 10, Scale: 1}
			s.Add(ink.Stroke{Path: geom.Polyline(pt(0, 0), pt(math.NaN(), 1))})
			_ = format(io.Discard, s)
		}()
	}
}

func BenchmarkFormats(b *testing.B) {
	s := sample()
	for name, format := range formats {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := format(io.Discard, s); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
