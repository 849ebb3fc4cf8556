package solid

import (
	"bytes"
	"errors"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/testdata/parttest"
)

// shaft is 20 × 50, with something on it.
func shaft(change func(*part.Turned)) *part.Model {
	t := &part.Turned{Segments: []part.Segment{{X1: 50, D0: 20, D1: 20}}, Length: 50}
	change(t)
	return &part.Model{Turned: t}
}

// plate is 60 × 40 × 10, with something in it.
func plate(change func(*part.Prism)) *part.Model {
	p := &part.Prism{Outline: geom.Rectangle(geom.Point{}, geom.Point{X: 60, Y: 40}), Height: 10}
	change(p)
	return &part.Model{Prism: p}
}

// TestRefused has what cannot be written, and the words that say so.
func TestRefused(t *testing.T) {
	step := func(m *part.Model) error { return STEP(io.Discard, m) }
	stl := func(m *part.Model) error { return STL(io.Discard, m) }
	threeMF := func(m *part.Model) error { return ThreeMF(io.Discard, m) }
	tapered := func(s *part.Turned) {
		s.Segments[0].D1 = 18
		s.Cross = []part.CrossHole{{X: 25, Diameter: 6, Through: true}}
	}
	overBore := func(s *part.Turned) {
		s.Bores = []part.Segment{{X1: 25, D0: 8, D1: 8}, {X0: 25, X1: 50, D0: 6, D1: 6}}
		s.Cross = []part.CrossHole{{X: 25, Diameter: 4, Through: true}}
	}
	narrow := func(s *part.Turned) { // the fillet of a bore of 3 in one of 8 is larger than what is left
		s.Bores = []part.Segment{
			{X1: 20, D0: 8, D1: 8},
			{Form: part.Rounded, X0: 20, X1: 23, D0: 8, D1: 2, Arc: part.Arc{Centre: geom.Point{X: 20, Y: 1}, Radius: 3, Turn: geom.Clockwise}},
			{X0: 23, X1: 50, D0: 2, D1: 2},
		}
	}
	a, b := geom.Point{X: -20}, geom.Point{X: 20}
	segment := geom.Path{geom.Line(a, b), geom.Arc(geom.Point{}, b, a, geom.Anticlockwise)}
	for name, c := range map[string]struct {
		write func(*part.Model) error
		model *part.Model
		want  string
	}{
		"cross hole on a taper":    {stl, shaft(tapered), "6.000 mm at 25.000 mm from the left end"},
		"the same as 3MF":          {threeMF, shaft(tapered), "wholly on one cylinder"},
		"cross hole over an edge":  {stl, shaft(overBore), "4.000 mm at 25.000 mm"},
		"STEP of a hexagon":        {step, shaft(func(s *part.Turned) { s.Segments[0].Form = part.Hexagonal }), "a hexagon or square of 20.000 mm"},
		"STEP of a flat":           {step, shaft(func(s *part.Turned) { s.Flats = []part.Flat{{X1: 10, Height: 8}} }), "a flat from 0.000 mm to 10.000 mm"},
		"STEP of a cross hole":     {step, shaft(func(s *part.Turned) { s.Cross = []part.CrossHole{{X: 25, Diameter: 6}} }), "a cross hole of 6.000 mm"},
		"STEP of a fillet too big": {step, shaft(narrow), "the fillet of 3.000 mm"},
		"STEP of a ledge":          {step, plate(func(p *part.Prism) { p.Ledges = []part.Ledge{{Depth: 3}} }), "a ledge 3.000 mm deep"},
		"STEP of a chamfered arc":  {step, plate(func(p *part.Prism) { p.Chamfer, p.Outline = 1, segment }), "a chamfer of 1.000 mm where an arc"},
		"STEP of a leaning gib":    {step, plate(func(p *part.Prism) { p.Lean = 0.5 }), "lean by 28.648°"},
		"STEP of a tapered gib":    {step, plate(func(p *part.Prism) { p.Thin = 8 }), "from 10.000 mm to 8.000 mm"},
	} {
		t.Run(name, func(t *testing.T) {
			err := c.write(c.model)
			var faults trade.Faults
			if !errors.As(err, &faults) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, wanted a fault that says %q", err, c.want)
			}
		})
	}
}

// TestSayWhatIsLeftOut looks for the words about threads in every file, and for
// the same bytes twice.
func TestSayWhatIsLeftOut(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	m, err := part.Build(parttest.Job(r, trade.WasherPart), nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	m.Name = `Scheibe Ø 10 "it's"`
	for name, write := range map[string]func(io.Writer, *part.Model) error{"STL": STL, "STEP": STEP} {
		var first, second bytes.Buffer
		if err := write(&first, m); err != nil {
			t.Fatal(err)
		}
		if err := write(&second, m); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Errorf("%s is not the same twice: %v", name, err)
		}
		if !strings.Contains(first.String(), ThreadsNote) {
			t.Errorf("%s does not say that %s", name, ThreadsNote)
		}
		if name == "STEP" && !strings.Contains(first.String(), `'Scheibe \X2\00D8\X0\ 10 "it''s"'`) {
			t.Errorf("the name is not written as ISO 10303-21 asks:\n%.600s", first.String())
		}
	}
}

// TestWriteErrors passes on what the writer says.
func TestWriteErrors(t *testing.T) {
	m := shaft(func(*part.Turned) {})
	for name, write := range map[string]func(io.Writer, *part.Model) error{"STL": STL, "3MF": ThreeMF, "STEP": STEP} {
		if err := write(full{}, m); !errors.Is(err, io.ErrShortWrite) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// full is a writer with no room left.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

// TestReals has numbers as ISO 10303-21 writes them: always with a point.
func TestReals(t *testing.T) {
	for x, want := range map[float64]string{0: "0.", 1: "1.", -2.5: "-2.5", 1e-7: "1.E-07", 1.5e21: "1.5E+21", 100: "100."} {
		if got := real(x); got != want {
			t.Errorf("real(%v) = %s, wanted %s", x, got, want)
		}
	}
}
