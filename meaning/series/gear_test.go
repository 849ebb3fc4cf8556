package series

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// gearCut is a gear as it was made: the truth of a simulation.
type gearCut struct {
	Gear
	teeth int
}

// over returns what a method reads of a gear with teeth thinned by so much along
// the base tangent: the same as a smaller shift.
func (c gearCut) over(id string, more map[string]float64, thinner float64) float64 {
	m, _ := gauge.Find(id)
	g := c.Gear
	g.Shift -= thinner / (2 * g.Module * math.Sin(g.Pressure))
	return reading(m, g.at(m, c.teeth, more))
}

// draw makes a gear of the series for a machine of this country.
func drawGear(random *rand.Rand, m trade.Machine) gearCut {
	sizes := toothSizes(m)
	var size pitchOfTeeth
	for size.module < 0.5 || size.module > 12 || random.Float64() > 40*size.share {
		size = sizes[random.IntN(len(sizes))]
	}
	f := toothForms[0]
	if random.Float64() < 0.4 {
		f = toothForms[1]
	}
	g := Gear{Designation: size.name + ", " + f.name, Module: size.module, Pressure: f.pressure, Addendum: f.addendum}
	teeth := 14 + random.IntN(70)
	if random.Float64() < 0.2 {
		g.Shift = 0.3 * random.NormFloat64()
	}
	return gearCut{g, teeth}
}

// read takes readings of a gear with the errors of a caliper or a micrometer:
// spans over few and over more teeth, the tips where their number is even.
func (c gearCut) read(random *rand.Rand, u float64, spans int, tips bool, m trade.Machine) GearSeen {
	noise := func() float64 { return u * random.NormFloat64() }
	thinner := 0.02*c.Module*math.Abs(random.NormFloat64()) + 0.02*math.Abs(random.NormFloat64())
	seen := GearSeen{Teeth: c.teeth, Wear: 0.03, Make: 0.01, Machine: m}
	if tips {
		tip := c.Module*(float64(c.teeth)+2*c.Addendum+2*c.Shift) - 0.03*math.Abs(random.NormFloat64())
		seen.Tip = Measured{tip + noise(), u}
	}
	few := max(2, int(float64(c.teeth)*c.Pressure/math.Pi+0.5+c.Shift))
	for i := range spans {
		w := c.over("gear-span", map[string]float64{"spanned": float64(few + i)}, thinner)
		seen.Spans = append(seen.Spans, SpanSeen{few + i, Measured{w + noise(), u}})
	}
	return seen
}

// TestGearsAreFound cuts gears, thins and measures them. Two spans and the tips
// tell module and pressure angle; where the answer says that it is settled it
// must be right in 95 of 100, and where not, the truth must be among those that
// the advice names or lead.
func TestGearsAreFound(t *testing.T) {
	for number, c := range []struct {
		name  string
		u     float64
		spans int
		tips  bool
		m     trade.Machine
	}{
		{"two spans and tips, micrometer", 0.005, 2, true, trade.Machine{}},
		{"two spans and tips, caliper", 0.02, 2, true, trade.Machine{}},
		{"three spans, caliper, German", 0.02, 3, false, german},
		{"one span and tips, caliper, British", 0.02, 1, true, british},
	} {
		random := rand.New(rand.NewPCG(seed, 100+uint64(number)))
		settled, right, open, named := 0, 0, 0, 0
		for range 150 * rounds() / every() {
			truth := drawGear(random, c.m)
			a, err := FindGear(truth.read(random, c.u, c.spans, c.tips, c.m))
			if err != nil {
				t.Fatal(err)
			}
			first := a.Candidates[0].Designation == truth.Designation
			switch {
			case a.Settled:
				settled++
				if first {
					right++
				}
			default:
				open++
				if first || strings.Contains(unit.Join(a.Settle, "; ").Shown(unit.View{}), truth.Designation) {
					named++
				}
			}
		}
		t.Logf("%s: settled %d, right %d; open %d, truth named %d", c.name, settled, right, open, named)
		if float64(right) < 0.95*float64(settled)-1 || float64(named) < 0.95*float64(open)-1 {
			t.Errorf("%s: settled %d, right only %d; open %d, named only %d", c.name, settled, right, open, named)
		}
	}
}

func TestGearsByName(t *testing.T) {
	m := func(x float64) Measured { return Measured{x, 0.02} }
	for _, c := range []struct {
		name, want string
		seen       GearSeen
		least      float64
	}{
		// 40 teeth of module 2: tips 84, W5 = 27.690 mm, W6 = 33.594 mm (constructed).
		{"tips and two spans", "module 2, 20°", GearSeen{Teeth: 40, Tip: m(83.95), Spans: []SpanSeen{{5, m(27.65)}, {6, m(33.56)}}}, 0.9},
		// 60 teeth of 10 DP: tips 157.48 mm; at 14.5° the base pitch is 7.7254 mm.
		{"an old change wheel", "10 DP, 14.5°", GearSeen{Teeth: 60, Tip: m(157.4), Spans: []SpanSeen{{4, m(27.845)}, {7, m(51.03)}}, Machine: british}, 0.9},
	} {
		c.seen.Wear, c.seen.Make = 0.03, 0.02
		a, err := FindGear(c.seen)
		if err != nil {
			t.Fatal(err)
		}
		if leader := a.Candidates[0]; leader.Designation != c.want || leader.P < c.least {
			t.Errorf("%s: %s with %.3f, wanted %s", c.name, leader.Designation, leader.P, c.want)
		}
	}
}

func TestWrongGears(t *testing.T) {
	m := func(x float64) Measured { return Measured{x, 0.02} }
	for _, c := range []struct {
		name string
		seen GearSeen
		want error
		text string
	}{
		{"too few teeth", GearSeen{Teeth: 4, Tip: m(20)}, errFewTeeth, "5 teeth"},
		{"nothing read", GearSeen{Teeth: 40}, errNoGear, "nothing was read"},
		{"spanned too many", GearSeen{Teeth: 20, Spans: []SpanSeen{{11, m(20)}}}, nil, "1 to 10"},
		{"no such gear", GearSeen{Teeth: 40, Tip: m(84), Spans: []SpanSeen{{5, m(270)}}}, errAnyGear, "count the teeth"},
	} {
		_, err := FindGear(c.seen)
		if err == nil || c.want != nil && !errors.Is(err, c.want) || !strings.Contains(err.Error(), c.text) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// TestMiscountedTeethAreNoticed: tips and spans of a 40-tooth gear given as 38
// teeth fit nothing well.
func TestMiscountedTeethAreNoticed(t *testing.T) {
	a, err := FindGear(GearSeen{
		Teeth: 35, Tip: Measured{84, 0.02}, Make: 0.01, Wear: 0.03,
		Spans: []SpanSeen{{5, Measured{27.68, 0.02}}, {6, Measured{33.59, 0.02}}},
	})
	if err != nil {
		return // nothing fits at all: noticed as well
	}
	if len(a.Warnings) == 0 {
		t.Errorf("35 teeth are believed: %s", a.Candidates[0].Designation)
	}
}

// TestBasePitchIsFreeOfWear: thinner teeth leave the answer and its module alone.
func TestBasePitchIsFreeOfWear(t *testing.T) {
	for _, thinner := range []float64{0, 0.1, 0.25} {
		seen := GearSeen{
			Teeth: 40, Wear: 0.25, Make: 0.01,
			Spans: []SpanSeen{{5, Measured{27.690 - thinner, 0.01}}, {7, Measured{39.498 - thinner, 0.01}}},
		}
		a, err := FindGear(seen)
		if err != nil {
			t.Fatal(err)
		}
		if leader := a.Candidates[0]; leader.Module != 2 || leader.Pressure != 20*degree {
			t.Errorf("thinner by %g mm: %s", thinner, leader.Designation)
		}
	}
}
