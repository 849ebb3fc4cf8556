package lathe

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/testdata/parttest"
)

func length(t testing.TB, text string) unit.Quantity {
	t.Helper()
	q, err := unit.ParseLength(text, unit.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// bench is a mill with a dial of 0.02 mm, 4 mm a turn, and a table of 90 turns
// whose handle has 120 divisions.
func bench(t testing.TB) *trade.Machinery {
	t.Helper()
	return &trade.Machinery{
		Dials:   []trade.DialScale{{Slide: "long", Division: length(t, "0.02 mm"), Turn: length(t, "4 mm")}},
		Travels: []trade.Travel{{Slide: "long", Length: length(t, "300 mm")}},
		Table:   &trade.RotaryTable{Ratio: 90, Divisions: 120},
	}
}

func arcs(t testing.TB, wanted ArcsWanted) *ArcsSetUp {
	t.Helper()
	a, err := Arcs(wanted)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// same fails unless two lengths agree to twelve digits.
func same(t testing.TB, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*max(1, math.Abs(want))) {
		t.Errorf("%s: %.15g, want %.15g", what, got, want)
	}
}

// TestArcs: one shoe by hand (constructed). The stud stands at 64 mm, 1 mm outside
// the middle: 6 mm from the convex face and 8 mm from the hollow one.
func TestArcs(t *testing.T) {
	a := arcs(t, ArcsWanted{
		Outer: 70, Inner: 56, Angle: 40 * math.Pi / 180, Stud: 64, Cutter: 20, Bite: 2,
		Mill: bench(t), Centre: geom.Point{X: 100, Y: -20},
	})
	same(t, "middle", a.Middle, 63)
	same(t, "far side of the blank", a.Far, 71)
	same(t, "near side of the blank", a.Near, 56*math.Cos(20*math.Pi/180)-1)
	for i, want := range []struct {
		fromStud, offset, turns, divisions float64
		clockwise                          bool
		passes                             int
	}{
		// The blank reaches hypot(70·sin 20° + 1, 71) = 75.2434 mm: 4.9434 mm to rough, in 3.
		{6, 80, 20, 0, true, 4},
		// 56 - 51.6228 - 0.3 = 4.0772 mm to rough, in 3; 46 mm are 11 turns and 2 mm.
		{8, 46, 11, 100, false, 4},
	} {
		f := a.Faces[i]
		last := f.Passes[len(f.Passes)-1]
		same(t, "from the stud", f.FromStud, want.fromStud)
		same(t, "offset", f.Offset, want.offset)
		same(t, "readout", last.Readout.X, 100+want.offset)
		same(t, "readout across", last.Readout.Y, -20)
		same(t, "turns", float64(last.Dial.Turns), want.turns)
		if math.Abs(last.Dial.Divisions-want.divisions) > 1e-9 {
			t.Errorf("%v divisions, want %v", last.Dial.Divisions, want.divisions)
		}
		if f.Clockwise != want.clockwise || len(f.Passes) != want.passes || !f.RunsOut || !last.Finishing {
			t.Errorf("face %d: %+v", i, f)
		}
		if f.Clockwise != (f.Start > f.Stop) {
			t.Errorf("from %v to %v clockwise %v", f.Start, f.Stop, f.Clockwise)
		}
		// The table's angle by its handle: 90·120 divisions a turn.
		shown := float64(f.ToStart.Turns*120) + f.ToStart.Divisions
		if math.Abs(shown-math.Abs(f.Start)/(2*math.Pi)*90*120) > 1e-9 || f.ToStart.Divisions >= 120 {
			t.Errorf("handle %+v for %v", f.ToStart, f.Start)
		}
	}
	if len(a.Warnings) != 0 {
		t.Errorf("warnings %q", a.Warnings)
	}
}

// TestArcsRunOut: the cutter stops at the first half degree past the end of the face at
// which it is a millimetre clear of the blank, on its way out by a millimetre too. The
// blank is the rectangle of TestArcs, its distance worked out by hand.
func TestArcsRunOut(t *testing.T) {
	half, low, high := 70*math.Sin(20*math.Pi/180)+1, 56*math.Cos(20*math.Pi/180)-1, 71.0
	away := func(x, y float64) float64 {
		return math.Hypot(max(0, math.Abs(x)-half), max(0, low-y, y-high))
	}
	a := arcs(t, ArcsWanted{
		Outer: 70, Inner: 56, Angle: 40 * math.Pi / 180, Stud: 64, Cutter: 20, Bite: 2,
		Mill: bench(t), Centre: geom.Point{X: 100, Y: -20},
	})
	for i, f := range a.Faces {
		clear := func(degrees float64) bool {
			s, c := math.Sincos(degrees * math.Pi / 180)
			for _, p := range f.Passes {
				for back := 0.0; back <= 1; back += 1.0 / 256 {
					if r := p.Offset - back; away(r*s, r*c) < 10+1-1e-9 {
						return false
					}
				}
			}
			return true
		}
		want := 20.0
		for !clear(want) {
			want += 0.5
		}
		for _, end := range []float64{f.Start, f.Stop} {
			if got := math.Abs(end) * 180 / math.Pi; math.Abs(got-want) > 1e-9 {
				t.Errorf("face %d ends %g degrees from the middle, want %g", i, got, want)
			}
		}
	}
}

// TestArcErrors: 0.02 mm in the offset is 0.02 mm in either radius; beside the line
// it is 0.02²/2/80 = 2.5e-6; on the cutter half, out on the one and in on the other.
func TestArcErrors(t *testing.T) {
	a := arcs(t, ArcsWanted{Outer: 70, Inner: 56, Angle: 0.7, Cutter: 20})
	for i, want := range []ArcErrors{{0.02, 2.5e-6, 0.01}, {0.02, 0.02 * 0.02 / 92, -0.01}} {
		got := a.Faces[i].Errors
		for _, pair := range [][2]float64{{got.Offset, want.Offset}, {got.Across, want.Across}, {got.Cutter, want.Cutter}} {
			if math.Abs(pair[0]-pair[1]) > 1e-11 {
				t.Errorf("%+v, want %+v", got, want)
			}
		}
	}
}

// TestCutsAgainstTheTeeth: the velocity of a tooth where it cuts, from a spindle
// that turns clockwise, against that of the work there. They are opposed in
// conventional milling.
func TestCutsAgainstTheTeeth(t *testing.T) {
	for _, climb := range []bool{false, true} {
		a := arcs(t, ArcsWanted{Outer: 70, Inner: 56, Angle: 0.7, Cutter: 20, Climb: climb})
		for _, f := range a.Faces {
			cutter := geom.Point{X: f.Offset}
			touch := geom.Point{X: f.Radius}
			tooth := touch.Sub(cutter).Left().Times(-1)
			work := touch.Left()
			if f.Clockwise {
				work = work.Times(-1)
			}
			if with := tooth.Dot(work) > 0; with != climb {
				t.Errorf("climb %v, convex %v: the work goes with the teeth: %v", climb, f.Convex, with)
			}
		}
		if warned := strings.Contains(unit.Join(a.Warnings, " ").Shown(unit.View{}), "climbing"); warned != climb {
			t.Errorf("climb %v: %q", climb, a.Warnings)
		}
	}
}

// TestArcsRefused: what cannot be milled, and the words that say so.
func TestArcsRefused(t *testing.T) {
	slab := geom.Rectangle(geom.Point{X: -30, Y: 60}, geom.Point{X: 30, Y: 80})
	disc := geom.Circle(geom.Point{}, 90)
	for _, c := range []struct {
		change func(*ArcsWanted)
		want   string
	}{
		{func(w *ArcsWanted) { w.Cutter = 111.4 }, "a cutter of 111.400 mm does not go into the hollow of radius 56.000 mm: with 0.300 mm left for finishing it is less than 111.400 mm"},
		{func(w *ArcsWanted) { w.Cutter = 0 }, "greater than 0"},
		{func(w *ArcsWanted) { w.Leave = -1 }, "greater than 0"},
		{func(w *ArcsWanted) { w.Inner = 70 }, "make no shoe"},
		{func(w *ArcsWanted) { w.Outer = math.NaN() }, "make no shoe"},
		{func(w *ArcsWanted) { w.Angle = math.Pi }, "an angle of 180.000° makes no shoe"},
		{func(w *ArcsWanted) { w.Blank = slab }, "not inside the blank"},
		{func(w *ArcsWanted) { w.Blank = disc }, "saw out the hollow first"},
		{func(w *ArcsWanted) { w.Bite = 0.01 }, "saw it nearer"},
		{func(w *ArcsWanted) { w.Outer, w.Inner = 300, 280 }, "the slide goes 300.000 mm"},
	} {
		w := ArcsWanted{Outer: 70, Inner: 56, Angle: 0.7, Cutter: 20, Mill: bench(t)}
		c.change(&w)
		if _, err := Arcs(w); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
}

// TestTightHollow: a cutter nearly as large as the hollow never runs out, and that
// is said. It begins on this side of the centre.
func TestTightHollow(t *testing.T) {
	a := arcs(t, ArcsWanted{Outer: 70, Inner: 56, Angle: 0.7, Cutter: 110, Bite: 1})
	f := a.Faces[1]
	if f.RunsOut || len(a.Warnings) < 1 || !strings.HasPrefix(a.Warnings[0].Shown(unit.View{}), "Hollow face") {
		t.Errorf("%+v %q", f, a.Warnings)
	}
	for _, pass := range f.Passes {
		if !(pass.Offset > 0) {
			t.Errorf("%+v", pass)
		}
	}
}

// swept returns how far from the centre the edge is that a cutter leaves in this
// direction: it stands at many places of its way, and each circle is cut by the
// ray. Between two places the edge is off by about (out·step)²/8/r, under 1e-8.
func swept(w *ArcsWanted, f ArcFace, pass ArcPass, angle float64) float64 {
	const step = 2e-5
	r, edge := w.Cutter/2, 0.0
	if f.Convex {
		edge = math.Inf(1)
	}
	low, high := min(-f.Start, -f.Stop), max(-f.Start, -f.Stop)
	for at := max(low, angle-0.01); at <= min(high, angle+0.01); at += step {
		along, beside := pass.Offset*math.Cos(at-angle), pass.Offset*math.Sin(at-angle)
		half := math.Sqrt(max(0, r*r-beside*beside))
		if f.Convex {
			edge = min(edge, along-half)
		} else {
			edge = max(edge, along+half)
		}
	}
	return edge
}

// checkArcs holds a set-up against what can be seen of it by other ways.
func checkArcs(t *testing.T, a *ArcsSetUp, random *rand.Rand) {
	t.Helper()
	w := &a.Wanted
	for _, f := range a.Faces {
		if f.Deviation > 1e-9 {
			t.Errorf("deviation %g of %+v", f.Deviation, w)
		}
		over := math.Inf(1)
		for _, pass := range f.Passes {
			angle := w.Angle * (random.Float64() - 0.5)
			if got := swept(w, f, pass, angle); math.Abs(got-pass.Radius) > 1e-6 {
				t.Errorf("swept to %.9f, told %.9f", got, pass.Radius)
			}
			left := math.Abs(pass.Radius - f.Radius)
			if left > over || pass.Finishing && left != 0 {
				t.Errorf("%+v does not come nearer", f.Passes)
			}
			over = left
		}
		checkRunOut(t, w, f)
	}
}

// checkRunOut: at both ends points all round the blank are outside the cutter, and
// the ends of the face lie between them.
func checkRunOut(t *testing.T, w *ArcsWanted, f ArcFace) {
	t.Helper()
	if min(math.Abs(f.Start), math.Abs(f.Stop)) < w.Angle/2-1e-12 || f.Start*f.Stop >= 0 {
		t.Errorf("from %v to %v over %v", f.Start, f.Stop, w.Angle)
	}
	if !f.RunsOut {
		return
	}
	for _, pass := range f.Passes {
		for _, angle := range []float64{f.Start, f.Stop} {
			at := geom.Polar(pass.Offset, math.Pi/2-angle)
			for _, p := range w.Blank.Flatten(0.01) {
				if p.Distance(at) < w.Cutter/2+1-1e-9 {
					t.Errorf("cutter at %v cuts the blank at %v", at, p)
				}
			}
		}
	}
}

// TestArcsOfShoes: shoes at random, with cutters up to what the hollow takes.
func TestArcsOfShoes(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	round := 0
	for range 150 {
		m, err := part.Build(parttest.Job(random, trade.SectorShoe), nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		w, ok := ShoeArcs(m)
		if !ok {
			continue
		}
		round++
		w.Cutter = 2 * (w.Inner - DefaultLeave) * (0.05 + 0.9*random.Float64())
		w.Bite = 2 + 8*random.Float64()
		w.Climb = random.IntN(2) == 0
		a := arcs(t, w)
		if shoe := a.Wanted.shoe(); math.Abs(shoe.Area()-m.Prism.Outline.Area()) > 1e-9*shoe.Area() {
			t.Errorf("another shoe: %+v", w)
		}
		checkArcs(t, a, random)
	}
	if round < 50 {
		t.Errorf("only %d shoes have round faces", round)
	}
}

// TestShoeArcs: other parts have none; a hole takes the place of a stud.
func TestShoeArcs(t *testing.T) {
	outline := (&ArcsWanted{Outer: 70, Inner: 56, Angle: 0.7}).shoe()
	for _, c := range []struct {
		model part.Model
		stud  float64
		ok    bool
	}{
		{part.Model{Kind: trade.SectorShoe, Prism: &part.Prism{Outline: outline}}, 0, true},
		{part.Model{Kind: trade.SectorShoe, Prism: &part.Prism{Outline: outline, Stem: &part.Stem{At: geom.Point{Y: 64}}}}, 64, true},
		{part.Model{Kind: trade.SectorShoe, Prism: &part.Prism{Outline: outline, Holes: []part.Hole{{At: geom.Point{Y: 62}}}}}, 62, true},
		{part.Model{Kind: trade.SectorShoe, Prism: &part.Prism{Outline: geom.Rectangle(geom.Point{}, geom.Point{X: 2, Y: 1})}}, 0, false},
		{part.Model{Kind: trade.PlatePart, Prism: &part.Prism{Outline: outline}}, 0, false},
	} {
		w, ok := ShoeArcs(&c.model)
		if ok != c.ok || w.Stud != c.stud {
			t.Errorf("%+v %v", w, ok)
		}
	}
}

// TestArcScenes: the cutter at start and stop is a whole circle outside the blank,
// and every dimension of a length measures what it says.
func TestArcScenes(t *testing.T) {
	a := arcs(t, ArcsWanted{Outer: 70, Inner: 56, Angle: 0.7, Stud: 64, Cutter: 20})
	for i, s := range a.Scenes() {
		tools := 0
		for _, shape := range s.Shapes {
			if shape.Kind != sketch.ToolShape {
				continue
			}
			tools++
			on, blank := shape.Path.Closest(a.Wanted.Blank)
			if on.Distance(blank) < 1-1e-9 || math.Abs(shape.Path.Area()-100*math.Pi) > 1e-9 {
				t.Errorf("%s: the cutter is %v from the blank", s.Title, on.Distance(blank))
			}
		}
		if tools != 2 {
			t.Errorf("%s: %d cutters", s.Title, tools)
		}
		for _, span := range s.Spans {
			if !span.Angle && span.Words.Shown(unit.View{}) != unit.ShowLength(span.A.Distance(span.B), unit.Millimetre) {
				t.Errorf("%s: %+v", s.Title, span)
			}
		}
		if want := unit.ShowLength(a.Faces[i].Offset, unit.Millimetre); s.Spans[0].Words.Shown(unit.View{}) != want {
			t.Errorf("%s: %q, want %q", s.Title, s.Spans[0].Words, want)
		}
	}
}
