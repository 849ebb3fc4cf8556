package paper

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// reader is a program that reads DXF with ezdxf, checks it, and tells what is in
// it, blocks included.
const reader = "testdata/read_dxf.py"

// drawing is what the reader tells.
type drawing struct {
	Faults        []string
	Version       string
	Units, Metric int
	Lines         [][4]float64
	Arcs          [][5]float64
	Areas         int
	Texts         []struct {
		Words  string
		Height float64
		At     [2]float64
	}
	Dimensions []struct {
		Kind             int
		Words            string
		Measures, Stated float64
	}
	Layers   map[string][2]any
	Patterns map[string][]float64
}

// read is what the reader told of a sheet: it takes a second to start.
var read = map[*ink.Sheet]drawing{}

func readDXF(t *testing.T, s *ink.Sheet) drawing {
	t.Helper()
	if known, ok := read[s]; ok {
		return known
	}
	ezdxf := oracle.Python(t, "ezdxf")
	path := file(t, "sheet.dxf", func(w io.Writer) error { return DXF(w, s) })
	found := oracle.Answer[drawing](t, ezdxf, nil, reader, path)
	read[s] = found
	return found
}

func TestDXFIsSound(t *testing.T) {
	for name, s := range sheets(t) {
		for _, fault := range readDXF(t, s).Faults {
			t.Errorf("%s: %s", name, fault)
		}
	}
	d := readDXF(t, shared)
	if d.Version != "AC1015" || d.Units != millimetres || d.Metric != 1 {
		t.Errorf("version %s, units %d, metric %d", d.Version, d.Units, d.Metric)
	}
	if got := d.Layers["AXES"]; got[0] != "CENTER" || got[1] != 25.0 {
		t.Errorf("the layer of axes is %v", got)
	}
	// 24, 3, 0.5 and 3 widths of 0.25 mm (ISO 128-20:1996, table 4, from memory).
	if got := d.Patterns["CENTER"]; len(got) != 4 || got[0] != 6 || got[1] != -0.75 || got[2] != 0.125 || got[3] != -0.75 {
		t.Errorf("the pattern of centre lines is %v", got)
	}
}

// TestDXFGeometry compares every line and arc with the sheet's, at the size of
// the part, to a millionth of a millimetre.
func TestDXFGeometry(t *testing.T) {
	for name, s := range sheets(t) {
		t.Run(name, func(t *testing.T) { sameGeometry(t, s, readDXF(t, s)) })
	}
}

func sameGeometry(t *testing.T, s *ink.Sheet, d drawing) {
	same := func(what string, got, want float64) {
		if math.Abs(got-want) > 1e-6 {
			t.Errorf("%s is %v, want %v", what, got, want)
		}
	}
	lines, arcs := 0, 0
	for _, m := range s.Flat() {
		stroke, ok := m.(ink.Stroke)
		for _, e := range stroke.Path {
			if !ok {
				break
			}
			if e.Turn == geom.Straight {
				for i, want := range []float64{e.From.X, e.From.Y, e.To.X, e.To.Y} {
					same("a line", d.Lines[lines][i], want/s.Scale)
				}
				lines++
				continue
			}
			got := d.Arcs[arcs]
			same("centre x", got[0], e.Centre.X/s.Scale)
			same("centre y", got[1], e.Centre.Y/s.Scale)
			same("radius", got[2], e.Radius()/s.Scale)
			sweep := math.Mod(got[4]-got[3]+720, 360)
			if sweep == 0 {
				sweep = 360
			}
			same("length", sweep*math.Pi/180*got[2], e.Length()/s.Scale)
			middle := pt(got[0], got[1]).Add(geom.Polar(got[2], (got[3]+sweep/2)*math.Pi/180))
			if e.From != e.To {
				same("middle", middle.Distance(e.At(0.5).Times(1/s.Scale)), 0)
			}
			arcs++
		}
	}
	want := counted(s)
	if len(d.Lines) != want.lines || len(d.Arcs) != want.arcs || d.Areas != want.areas || len(d.Texts) != want.texts {
		t.Errorf("%d lines, %d arcs, %d areas, %d texts, want %+v", len(d.Lines), len(d.Arcs), d.Areas, len(d.Texts), want)
	}
}

func TestDXFDimensionsMeasure(t *testing.T) {
	for name, s := range sheets(t) {
		t.Run(name, func(t *testing.T) { sameDimensions(t, s, readDXF(t, s)) })
	}
}

func sameDimensions(t *testing.T, s *ink.Sheet, d drawing) {
	i := 0
	for _, m := range s.Marks {
		want, ok := m.(ink.Dimension)
		if !ok || want.Kind == ink.Leader {
			continue
		}
		got := d.Dimensions[i]
		if math.Abs(got.Measures-want.Measures) > 1e-6 {
			t.Errorf("%s: measures %v in the drawing, %v on the sheet", want.Words, got.Measures, want.Measures)
		}
		if stated := measurement(want); math.Abs(got.Stated-stated) > 1e-12 {
			t.Errorf("%s: states %v, want %v", want.Words, got.Stated, stated)
		}
		i++
	}
	if i != len(d.Dimensions) {
		t.Errorf("%d dimensions, want %d", len(d.Dimensions), i)
	}
}

func TestDXFTexts(t *testing.T) {
	s := shared
	d := readDXF(t, s)
	i := 0
	for _, m := range s.Flat() {
		text, ok := m.(ink.Text)
		if !ok || legible(text.Words) == "" {
			continue
		}
		got := d.Texts[i]
		if want := signs(legible(text.Words)); got.Words != want {
			t.Errorf("text %q, want %q", got.Words, want)
		}
		if got.Height != text.Height/s.Scale || pt(got.At[0], got.At[1]).Distance(text.At.Times(1/s.Scale)) > 1e-6 {
			t.Errorf("%q is %v high at %v", got.Words, got.Height, got.At)
		}
		i++
	}
}

// signs writes ⌀, ° and ± as the reader leaves them, and what is beyond the
// format's numbers as the sign for that.
func signs(words string) string {
	words = strings.NewReplacer("⌀", "%%c", "°", "%%d", "±", "%%p").Replace(words)
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF {
			return '\uFFFD'
		}
		return r
	}, words)
}

func TestDXFIsASCII(t *testing.T) {
	data := written(t, func(w io.Writer) error { return DXF(w, sample()) })
	if i := bytes.IndexFunc(data, func(r rune) bool { return r != '\n' && (r < ' ' || r > '~') }); i >= 0 {
		t.Errorf("byte %d is not plain", i)
	}
}
