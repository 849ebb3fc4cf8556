package lathe

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/testdata/certified"
)

func named(t *testing.T, text string) facts.Thread {
	t.Helper()
	thread, err := facts.ThreadNamed(text)
	if err != nil {
		t.Fatal(err)
	}
	return thread
}

func cut(t *testing.T, wanted ThreadWanted) *ThreadCutting {
	t.Helper()
	c, err := CutThread(wanted)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// agrees reports whether two figures agree to this many digits.
func agrees(got, want float64, digits int) bool {
	return math.Abs(got-want) <= 0.5*math.Pow10(-digits)*math.Abs(want)
}

func TestTapDrillPercent(t *testing.T) {
	var full float64 // of the old full thread, in pitches
	unc := named(t, "1/4-20 UNC")
	for _, e := range engagements(series.ThreadSheet(unc)) {
		if strings.Contains(e.Of, "old full thread") {
			full = e.Full / unc.Pitch
		}
	}
	percent := func(major, tpi, drill float64) float64 {
		const inch = unit.MillimetresPerInch
		return Engagement{Major: major * inch, Full: full * inch / tpi}.Percent(drill * inch)
	}
	certified.Example(t, "m-tap-drill-percent").Figures(t, map[string]float64{
		"3-3 1/2, drill 2 23/32": percent(3, 3.5, 2+23./32),
		"2 3/4-4, drill 2 1/2":   percent(2.75, 4, 2.5),
		"4-3, drill 3 11/16":     percent(4, 3, 3+11./16),
		"1/4-20, No. 7 (0.201)":  percent(0.25, 20, 0.201),
	})
}

// TestTapHoles: the holes are d - 1.280654·P·percent/100 for Whitworth and d -
// 1.2·P·percent/100 for BA (tapping.csv), worked out by bc 1.07; drills as
// drills.csv has them.
func TestTapHoles(t *testing.T) {
	for _, c := range []struct {
		thread  string
		percent float64
		hole    float64
		drill   string
	}{
		{"7/16 BSW", 75, 9.36990, "U"}, // 11.1125 - 1.280654·25.4/14·0.75
		{"7/16 BSW", 60, 9.71842, "9.7"},
		{"2 BA", 80, 3.9224, "#23"}, // 4.7 - 1.2·0.81·0.8
		{"0 BA", 100, 4.8, "4.8"},
	} {
		holes, err := TapHoles(series.ThreadSheet(named(t, c.thread)), c.percent)
		if err != nil || len(holes) != 1 {
			t.Fatalf("%s: %d holes, %v", c.thread, len(holes), err)
		}
		h := holes[0]
		if got := h.Hole(c.percent); !agrees(got, c.hole, 5) || h.Drills[0].Designation != c.drill {
			t.Errorf("%s at %g %%: %.5f mm, drill %s", c.thread, c.percent, got, h.Drills[0].Designation)
		}
		for i, d := range h.Drills {
			if !agrees(h.Hole(d.Gives), d.Diameter, 12) || i > 0 && math.Abs(d.Gives-c.percent) < math.Abs(h.Drills[i-1].Gives-c.percent) {
				t.Errorf("%s: drill %s leaves %g %%", c.thread, d.Designation, d.Gives)
			}
		}
	}
}

func TestNoTapHoles(t *testing.T) {
	for thread, c := range map[string]struct {
		percent float64
		want    string
	}{
		"1/4 NPT":  {75, "no holes for a tap of 1/4 NPT"},
		"7/16 BSW": {120, "from 30 to 100"},
		"1/4 BSW":  {math.NaN(), "from 30 to 100"},
	} {
		if _, err := TapHoles(series.ThreadSheet(named(t, thread)), c.percent); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", thread, err, c.want)
		}
	}
}

// TestToolTips: the flats at the root as the standards have them in
// thread_forms.csv (Acme less its clearance's share, 2·c/2·tan 14.5°; the
// rounded roots of Whitworth and of metric screws begin from P/6; BA by the
// triangle of 47.5°: 0.5 - 0.6·tan 23.75°, bc 1.07).
func TestToolTips(t *testing.T) {
	for _, c := range []struct {
		thread string
		inside bool
		pitch  float64
		tip    float64 // in pitches
	}{
		{"7/16 BSW", false, 25.4 / 14, 1. / 6},
		{"7/16 BSW", true, 25.4 / 14, 1. / 6},
		{"M10", false, 1.5, 1. / 6},
		{"M10", true, 1.5, 1. / 8},
		{"2 BA", false, 0.81, 0.235994},
		{"1/4-16 Acme", false, 1.5875, 0.370690 - 0.258618*0.254/1.5875},
	} {
		got := cut(t, ThreadWanted{Thread: named(t, c.thread), Inside: c.inside})
		if !agrees(got.Tip/c.pitch, c.tip, 4) {
			t.Errorf("%s: tip %.6f P, want %.6f P", c.thread, got.Tip/c.pitch, c.tip)
		}
	}
}

// TestPassesTakeEqualAreas: for every thread that is cut, in strips of the
// groove that each pass leaves.
func TestPassesTakeEqualAreas(t *testing.T) {
	for _, thread := range facts.Threads() {
		c, err := CutThread(ThreadWanted{Thread: thread})
		if err != nil {
			t.Error(err)
			continue
		}
		area := func(depth float64) float64 { // by the mean of the widths at both ends
			return depth * (c.Tip + c.Tip + 2*depth*math.Tan(thread.Angle/2)) / 2
		}
		last, chip := 0.0, area(c.Passes[0].Depth)
		for _, p := range c.Passes {
			taken := area(p.Depth) - area(last)
			if p.Spring != (p.Depth == last) || !p.Spring && !agrees(taken, chip, 8) {
				t.Errorf("%s: %g mm² at %g mm, first %g mm²", thread.Designation, taken, p.Depth, chip)
			}
			last = p.Depth
		}
		if first := c.Passes[0].Depth; first > DefaultFirstCut*(1+1e-9) || !agrees(last, c.Depth, 12) {
			t.Errorf("%s: first pass %g mm, last %g of %g mm", thread.Designation, first, last, c.Depth)
		}
	}
}

// TestDials: 0.640327·25.4/14 = 1.161736 mm deep; along the slide at 27° that
// is 1.161736/cos 27° = 1.303847 mm; 0.001 in of diameter moves 0.0127 mm (bc
// 1.07).
func TestDials(t *testing.T) {
	thou, err := unit.ParseLength("0.001 in", unit.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	c := cut(t, ThreadWanted{
		Thread: named(t, "7/16BSW"),
		Lathe: &trade.Machinery{Dials: []trade.DialScale{
			{Slide: "cross", Division: thou, Reads: trade.ReadsDiameter}, {Slide: "Top slide", Division: thou, Reads: trade.ReadsRadius},
		}},
	})
	last := c.Passes[len(c.Passes)-1]
	for name, f := range map[string][2]float64{
		"depth": {last.Depth, 1.161736}, "slant": {last.Slant, 1.303847}, "cross": {last.CrossDial, 91.4753}, "top": {last.TopDial, 51.3326},
		"setting": {c.Setting * 180 / math.Pi, 27},
	} {
		if !agrees(f[0], f[1], 5) {
			t.Errorf("%s %.6f, want %.6f", name, f[0], f[1])
		}
	}
	if plain := cut(t, ThreadWanted{Thread: named(t, "M10")}); !math.IsNaN(plain.Passes[0].TopDial) {
		t.Error("an unknown dial is read")
	}
}

// TestWiresAtEachLimit: constructed. Over one wire the reading is the effective
// diameter + 3·wire - 0.866025·P for 60°.
func TestWiresAtEachLimit(t *testing.T) {
	c := cut(t, ThreadWanted{Thread: named(t, "M10x1.5"), Wire: 0.9})
	if len(c.Wires) == 0 {
		t.Fatal("no limits of M10")
	}
	for _, w := range c.Wires {
		for _, l := range c.Sheet.Limits {
			if l.Of != "screw, effective" || l.Class != w.Class {
				continue
			}
			if !agrees(w.Low, l.Low+2.7-0.8660254*1.5, 7) || !agrees(w.High, l.High+2.7-0.8660254*1.5, 7) {
				t.Errorf("%s: %g to %g mm over wires", w.Class, w.Low, w.High)
			}
		}
	}
	if inside := cut(t, ThreadWanted{Thread: named(t, "M10"), Inside: true}); len(inside.Wires) != 0 {
		t.Error("wires in a nut")
	}
}

// TestNoDepth: the table of forms has no plain multiple for stub threads.
func TestNoDepth(t *testing.T) {
	stub := facts.Thread{Designation: "a stub", Form: "Stub Acme 29", Major: 20, Pitch: 5}
	if _, err := CutThread(ThreadWanted{Thread: stub}); err == nil || !strings.Contains(err.Error(), "how deep a stub is cut") {
		t.Errorf("%v", err)
	}
}

// TestRelief: the groove is below the root, or outside that of a nut.
func TestRelief(t *testing.T) {
	for _, inside := range []bool{false, true} {
		c := cut(t, ThreadWanted{Thread: named(t, "M10"), Inside: inside})
		root := c.Blank - 2*c.Depth
		if inside {
			root = c.Blank + 2*c.Depth
		}
		if (c.Relief.Diameter > root) != inside || !(c.Relief.Width > c.Relief.RunOut) {
			t.Errorf("inside %v: relief %+v about a root of %g mm", inside, c.Relief, root)
		}
	}
}

func TestHands(t *testing.T) {
	left := unit.Join(cut(t, ThreadWanted{Thread: named(t, "M10"), Left: true}).Advice, " ").Shown(unit.View{})
	right := unit.Join(cut(t, ThreadWanted{Thread: named(t, "M10")}).Advice, " ").Shown(unit.View{})
	if !strings.Contains(left, "away from the headstock") || strings.Contains(right, "Left hand") {
		t.Errorf("left: %s; right: %s", left, right)
	}
}
