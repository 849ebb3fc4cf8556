package adjust

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// kit is what the small jobs of these tests are read with.
const kit = `
oddleg: 1
job: test
units: mm
kit:
  mic: {kind: micrometer, resolution: 0.01 mm, mpe: 0.01 mm}
  cal: {kind: caliper, resolution: 0.01 mm}
  rule: {kind: rule, resolution: 0.5 mm}
  pin: {kind: pin, size: 6 mm, tolerance: 0.002 mm}
  ball: {kind: ball, size: 10 mm}
`

func adjusted(t *testing.T, rest string) *Result {
	t.Helper()
	return mustAdjust(t, mustRead(t, []byte(kit+rest)))
}

// near wants got within a part in 1e9 of want. The expected figures of this
// file are worked by hand from the error model.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Max(1, math.Abs(want))) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

func TestZeroIsSharedAndRepeatIsNot(t *testing.T) {
	r := adjusted(t, `
sizes: {a: {kind: width}, b: {kind: width}}
readings:
  - {id: r1, by: outside, of: {size: a}, with: mic, saw: [20.00, 20.01, 20.02]}
  - {id: r2, by: outside, of: {size: b}, with: mic, saw: 30.00}
`)
	zero := 0.01 * 0.01 / 6
	one := 0.01*0.01/6 + 0.01*0.01/12
	near(t, "a", r.Size("a").Value, 20.01)
	near(t, "u(a)", r.Size("a").U, math.Sqrt(zero+one/3))
	near(t, "u(b)", r.Size("b").U, math.Sqrt(zero+one))
	near(t, "cov(a, b)", r.Covariance("a", "b"), zero)
	if r.Dof != 2 {
		t.Errorf("%d degrees of freedom, want 2: three values less their mean", r.Dof)
	}
	if r.Size("a").Check != RepeatsCheck || r.Size("b").Check != NothingChecks {
		t.Errorf("a is checked by %d, b by %d; want repeats and nothing", r.Size("a").Check, r.Size("b").Check)
	}
}

func TestCoarseReadingsCountOnce(t *testing.T) {
	r := adjusted(t, `
sizes: {a: {kind: width}}
readings:
  - {id: r1, by: outside, of: {size: a}, with: rule, saw: [20.0, 20.0, 20.5, 20.0]}
`)
	// The rule's repeat is 0.25/√6 = 0.102, under 0.5/3.
	variance := 0.25*0.25/6*(1+1.0/4) + 0.5*0.5/12
	near(t, "a", r.Size("a").Value, 20.125)
	near(t, "u(a)", r.Size("a").U, math.Sqrt(variance))
	if r.Dof != 0 {
		t.Errorf("%d degrees of freedom, want 0: the values are one observation", r.Dof)
	}
}

func TestSeatedOnceSharesItsFeel(t *testing.T) {
	job := `
sizes: {a: {kind: width}}
readings:
  - {id: r1, by: outside, of: {size: a}, with: mic, saw: [20.00, 20.03], feel: 0.05 mm%s}
`
	value, feel := 0.01*0.01/6+0.01*0.01/12, 0.05*0.05
	each := adjusted(t, strings.Replace(job, "%s", "", 1))
	near(t, "u, seated each time", each.Size("a").U, math.Sqrt(0.01*0.01/6+(value+feel)/2))
	once := adjusted(t, strings.Replace(job, "%s", ", seated: once", 1))
	near(t, "u, seated once", once.Size("a").U, math.Sqrt(0.01*0.01/6+value/2+feel))
}

func TestGoesAndStops(t *testing.T) {
	r := adjusted(t, `
sizes: {bore: {kind: diameter, surface: inside}}
readings:
  - {id: g, by: inside, of: {size: bore}, goes: pin, stops: 6.1 mm}
`)
	near(t, "bore", r.Size("bore").Value, 6.05)
	near(t, "u", r.Size("bore").U, math.Sqrt(0.1*0.1/12+0.25*0.002*0.002/3))
}

func TestFormGivesTightestAndSlackest(t *testing.T) {
	r := adjusted(t, `
sizes: {bore: {kind: diameter, surface: inside, form: 0.06 mm}}
readings:
  - {id: top, by: inside, of: {size: bore}, with: mic, saw: 40.02, at: 2}
  - {id: foot, by: inside, of: {size: bore}, with: mic, saw: 40.10, at: 30}
`)
	e := r.Size("bore").Extent
	if e == nil || e.LeastBy != "top" || e.MostBy != "foot" {
		t.Fatalf("extent %+v, want least by top and most by foot", e)
	}
	// Each place is drawn towards the mean by the ratio of the variances of the
	// reading and of the form.
	form, value := 0.06*0.06/3, 0.01*0.01/6+0.01*0.01/12
	drawn := 0.04 * form / (form + value)
	near(t, "bore", r.Size("bore").Value, 40.06)
	near(t, "least", e.Least, 40.06-drawn)
	near(t, "most", e.Most, 40.06+drawn)
}

func TestRadiusCountsDoubleInADiametersRole(t *testing.T) {
	r := adjusted(t, `
sizes: {r: {kind: radius}, h: {kind: angle}, end: {kind: diameter, known: 20}}
readings:
  - {id: a, by: over-two-pins, of: {wall: r, pin: ball}, with: mic, saw: 70}
  - {id: b, by: taper-over-rollers, of: {small-end: end, half-angle: h, roller: ball}, with: mic, saw: 42.5}
`)
	near(t, "the radius", r.Size("r").Value, 25)
	// (d + 2)·… by hand: 20 + 10·tan a + 10/cos a + 10 = 42.5 gives a = 12.6804°.
	a := r.Size("h").Value / 2
	near(t, "the reading", 20+10*math.Tan(a)+10/math.Cos(a)+10, 42.5)
}

func TestEitherOfTwo(t *testing.T) {
	r := adjusted(t, `
sizes: {a: {kind: width}}
readings:
  - {id: r1, by: outside, of: {size: a}, with: mic, saw: 20.00}
  - {id: r2, by: outside, of: {size: a}, with: cal, saw: 21.00}
`)
	if len(r.Either) != 1 || len(r.Either[0]) != 4 {
		t.Fatalf("either: %v; want the two values and the two zeros in one group", r.Either)
	}
	if !r.Readings[0].Suspect || !r.Readings[1].Suspect || !r.Instruments[0].Suspect {
		t.Error("all of a group that cannot be told apart are suspect")
	}
}

func TestWrongPieceIsSuspect(t *testing.T) {
	r := adjusted(t, `
sizes: {boss: {kind: diameter}, groove: {kind: diameter}}
readings:
  - {id: a, by: outside, of: {size: boss}, with: mic, saw: [40.00, 40.00]}
  - {id: b, by: over-two-pins, of: {wall: boss, pin: pin}, with: mic, saw: [53.00, 53.01]}
  - {id: c, by: outside, of: {size: groove}, with: mic, saw: [30.00, 30.00]}
  - {id: d, by: over-two-pins, of: {wall: groove, pin: pin}, with: mic, saw: [43.00, 43.00]}
`)
	if piece := r.Pieces[0]; piece.ID != "pin" || !piece.Suspect {
		t.Errorf("%+v: both readings want the pin 6.5 mm, so it is the suspect", piece)
	}
	for _, v := range r.Readings {
		if v.Suspect {
			t.Errorf("%s[%d] is suspect, but only the pin is wrong", v.ID, v.Index)
		}
	}
}

func TestSetAsideIsKeptAndShown(t *testing.T) {
	r := adjusted(t, `
sizes: {a: {kind: width}}
readings:
  - {id: r1, by: outside, of: {size: a}, with: mic, saw: [20.00, 25.00, 20.01], set-aside: [1], why: plate bent}
  - {id: r2, by: outside, of: {size: a}, with: mic, saw: 30.00, set-aside: all}
`)
	near(t, "a", r.Size("a").Value, 20.005)
	if v := r.Readings[1]; !v.SetAside || v.Suspect {
		t.Errorf("%+v: want set aside and not suspect", v)
	}
	near(t, "residual of the value set aside", r.Readings[1].Residual, 4.995)
	near(t, "residual of the reading set aside", r.Readings[3].Residual, 9.995)
	if r.Size("a").Readings != 1 {
		t.Errorf("%d readings hold a, want 1", r.Size("a").Readings)
	}
}

func TestUndetermined(t *testing.T) {
	for name, c := range map[string]struct{ rest, want string }{
		"untouched": {`
sizes: {a: {kind: width}, lost: {kind: diameter, surface: inside}}
readings: [{id: r, by: outside, of: {size: a}, with: mic, saw: 20}]
`, "lost: no reading touches it; read it, for instance lost by `inside`"},
		"a difference": {`
sizes: {outer: {kind: diameter}, slot: {kind: width}}
readings: [{id: r, by: formula, that: outer - slot, with: mic, saw: 20}]
`, "outer and slot: only outer - slot is known; read one of them, for instance outer by `outside`"},
		"a wall": {`
sizes: {outer: {kind: diameter}, bore: {kind: diameter, surface: inside}}
readings: [{id: r, by: wall-thickness, of: {outer: outer, inner: bore}, with: mic, saw: 4}]
`, "outer and bore: only outer - bore is known; read one of them, for instance outer by `outside`"},
		"a sum with a factor": {`
sizes: {step: {kind: width}, land: {kind: width}}
readings: [{id: r, by: formula, that: 2*step + land, with: mic, saw: 20}]
`, "step and land: only step + 0.5·land is known; read one of them, for instance step by `outside`"},
		"a length and an angle": {`
sizes: {nose: {kind: diameter}, taper: {kind: half-angle, guess: 5 deg}}
readings: [{id: r, by: taper-over-rollers, of: {small-end: nose, half-angle: taper, roller: ball}, with: mic, saw: 40}]
`, "nose and taper: only one combination of them is known; read one of them, for instance nose by `outside`"},
		"three in a row": {`
sizes: {a: {kind: width}, b: {kind: width}, c: {kind: width}}
readings:
  - {id: r, by: formula, that: a - b, with: mic, saw: 2}
  - {id: s, by: formula, that: b - c, with: mic, saw: 3}
`, "a, b and c: only a - b and a - c are known; read one of them, for instance a by `outside`"},
		"one of three": {`
sizes: {a: {kind: width}, b: {kind: width}, c: {kind: width}}
readings: [{id: r, by: formula, that: a + b + c, with: mic, saw: 20}]
`, "a, b and c: only a + b + c is known; read two of them, for instance a by `outside`"},
		"through a relation": {`
sizes: {a: {kind: width}, b: {kind: width}}
readings: [{id: r, by: formula, that: a - b, with: mic, saw: 2}]
relations: [{that: a, is: b + 2}]
`, "a and b: only a - b is known; read one of them, for instance a by `outside`"},
	} {
		t.Run(name, func(t *testing.T) {
			r := adjusted(t, c.rest)
			if len(r.Undetermined) != 1 || r.Undetermined[0].Text != c.want {
				t.Errorf("undetermined: %q, want %q", r.Undetermined, c.want)
			}
			for _, id := range r.Undetermined[0].Sizes {
				if r.Size(id).Determined {
					t.Errorf("%s is said to be determined", id)
				}
			}
		})
	}
}

func TestContradiction(t *testing.T) {
	for name, relations := range map[string]string{
		"two relations":       "\n  - {that: a, is: b + 2}\n  - {that: b, is: a + 2}\n",
		"a known size":        "\n  - {that: a, is: fixed}\n  - {that: a, is: 11 mm}\n",
		"only known sizes":    "\n  - {that: fixed, is: 11 mm}\n",
		"relations that bend": "\n  - {that: a^2, is: (5 mm)^2}\n  - {that: a, is: 8 mm}\n",
	} {
		t.Run(name, func(t *testing.T) {
			job := mustRead(t, []byte(kit+`
sizes: {a: {kind: width}, b: {kind: width}, fixed: {kind: width, known: 10}}
readings: [{id: r, by: outside, of: {size: a}, with: mic, saw: 10}]
relations:`+relations))
			_, err := Adjust(job)
			var faults trade.Faults
			if !errors.As(err, &faults) || faults[0].Pos.Line < 14 || !strings.Contains(faults[0].Text, "contradicts") {
				t.Errorf("error %v; want a fault at one of the relations", err)
			}
		})
	}
}

func TestRelationThatAgreesIsNoContradiction(t *testing.T) {
	r := adjusted(t, `
sizes: {a: {kind: width}, b: {kind: width}}
readings: [{id: r, by: outside, of: {size: a}, with: mic, saw: [10.00, 10.02]}]
relations: [{that: a, is: 2*b}, {that: b, is: a/2}]
`)
	near(t, "b", r.Size("b").Value, 5.005)
	if r.Dof != 1 {
		t.Errorf("%d degrees of freedom, want 1", r.Dof)
	}
}

func TestCaliperUsedForEverythingIsWarnedAbout(t *testing.T) {
	r := adjusted(t, `
sizes: {a: {kind: width}, b: {kind: width}, c: {kind: depth}}
readings:
  - {id: r, by: outside, of: {size: a}, with: cal, saw: 10}
  - {id: s, by: inside, of: {size: b}, with: cal, saw: 12}
  - {id: u, by: depth, of: {size: c}, with: cal, saw: 3}
`)
	for _, w := range r.Warnings {
		if strings.Contains(w.Text.Shown(unit.View{}), "cal reads outside, inside and depth") {
			return
		}
	}
	t.Errorf("warnings %v: want one of the caliper used in three ways", r.Warnings)
}

// TestTheSameJobInOtherWords solves a job with its readings in another order,
// and in inches.
func TestTheSameJobInOtherWords(t *testing.T) {
	forward := adjusted(t, groove)
	head := strings.Join(strings.Split(groove, "\n")[:3], "\n") + "\n"
	others := map[string]*Result{
		"readings reordered": adjusted(t, head+strings.Join(reversed(groove), "\n")),
		"in inches":          mustAdjust(t, mustRead(t, []byte(strings.Replace(kit+withUnits(groove), "units: mm", "units: in", 1)))),
	}
	for name, other := range others {
		for _, s := range forward.Sizes {
			o := other.Size(s.ID)
			if math.Abs(o.Value-s.Value) > 1e-7*s.U || math.Abs(o.U-s.U) > 1e-7*s.U {
				t.Errorf("%s: %s is %.9f, u %.9f; was %.9f, u %.9f", name, s.ID, o.Value, o.U, s.Value, s.U)
			}
		}
	}
}

const groove = `
sizes: {inner: {kind: diameter}, outer: {kind: diameter, surface: inside}}
readings:
  - {id: a, by: over-two-pins, of: {wall: inner, pin: pin}, with: mic, saw: [62.01, 62.03]}
  - {id: b, by: over-one-pin, of: {wall: inner, across: inner, pin: pin}, with: mic, saw: 56.02}
  - {id: c, by: between-two-balls, of: {wall: outer, ball: ball}, with: cal, saw: [50.12, 50.09]}
  - {id: d, by: formula, that: (outer - inner)/2, with: cal, saw: 10.07}
`

func reversed(job string) []string {
	lines := strings.Split(strings.TrimSpace(job), "\n")[2:]
	for i, j := 0, len(lines)-1; i < j; i, j = i+1, j-1 {
		lines[i], lines[j] = lines[j], lines[i]
	}
	return lines
}

// withUnits writes the unit behind every value of a reading.
func withUnits(job string) string {
	for _, value := range []string{"62.01", "62.03", "56.02", "50.12", "50.09", "10.07"} {
		job = strings.Replace(job, value, value+" mm", 1)
	}
	return job
}

// TestPlanWithoutItsBaseLine lays a plan whose first two holes have no distance
// between them (constructed: h2 at 72, h3 at 36.5, ±36).
func TestPlanWithoutItsBaseLine(t *testing.T) {
	r := adjusted(t, `
plans: {c: {holes: [h1, h2, h3, h4]}}
readings:
  - {id: a, by: over-plugs, of: {from: h1, to: h3, plug-1: 8 mm, plug-2: 8 mm}, with: cal, saw: 59.26}
  - {id: b, by: over-plugs, of: {from: h1, to: h4, plug-1: 8 mm, plug-2: 8 mm}, with: cal, saw: 59.26}
  - {id: c, by: over-plugs, of: {from: h2, to: h3, plug-1: 8 mm, plug-2: 8 mm}, with: cal, saw: 58.56}
  - {id: d, by: over-plugs, of: {from: h2, to: h4, plug-1: 8 mm, plug-2: 8 mm}, with: cal, saw: 58.56}
  - {id: e, by: over-plugs, of: {from: h3, to: h4, plug-1: 8 mm, plug-2: 8 mm}, with: cal, saw: 80.00}
`)
	want := map[string][2]float64{"h1": {0, 0}, "h2": {72, 0}, "h3": {36.49, 36}, "h4": {36.49, -36}}
	for _, p := range r.Places {
		if w := want[p.ID]; math.Hypot(p.At[0]-w[0], p.At[1]-w[1]) > 0.1 {
			t.Errorf("%s at %.3f, want %v", p.ID, p.At, w)
		}
	}
	if len(r.Warnings) != 2 || !strings.Contains(r.Warnings[0].Text.Shown(unit.View{}), "h1 hangs on h3 and h4 only") {
		t.Errorf("warnings %v: want that h1 and h2 may lie on the other side", r.Warnings)
	}
}

// TestEitherOfTwoSetUps: over pins and span of one wheel contradict each other so
// far that no wheel is both. The module is known from another wheel, so that
// either would do without the other; nothing tells which is wrong, and both are
// named.
func TestEitherOfTwoSetUps(t *testing.T) {
	source, err := os.ReadFile("../../testdata/jobs/idler-gears.yaml")
	if err != nil {
		t.Fatal(err)
	}
	spoilt := strings.Replace(string(source), "saw: [0.965, 0.965]", "saw: [1.0615, 1.0615]", 1)
	if spoilt == string(source) {
		t.Fatal("the span is no longer there")
	}
	r := mustAdjust(t, mustRead(t, []byte(spoilt)))
	named := map[string]bool{}
	for _, group := range r.Either {
		for _, source := range group {
			named[source.ID] = true
		}
	}
	if !named["c"] || !named["d"] {
		t.Errorf("either: %v; want over pins (c) and span (d)", r.Either)
	}
}
