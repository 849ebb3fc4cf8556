package meant_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// measured is one size of a job written for a test, all constructed: its value
// and u in mm, and what else is stated.
type measured struct {
	x, u    float64
	kind    trade.SizeKind // a length where empty
	surface trade.Surface
	wear    trade.Wear
	meant   string
}

// round works out what was meant by sizes s0, s1 ...
func round(t *testing.T, machine trade.Machine, list ...measured) *meant.Result {
	t.Helper()
	job := &trade.Job{Name: "test", Units: unit.Millimetre, Machine: machine}
	for i, m := range list {
		size := trade.Size{
			ID: fmt.Sprintf("s%d", i), Kind: trade.Length, Surface: m.surface, Wear: m.wear, Meant: m.meant,
			Known: trade.Prior{Value: mm(m.x), U: mm(m.u)},
		}
		if m.kind != "" {
			size.Kind = m.kind
		}
		job.Sizes = append(job.Sizes, size)
	}
	return meant.Round(adjusted(t, job), meant.Tables{
		Drills: facts.Drills(), Balls: facts.Balls(), Keys: facts.Keys(), Threads: facts.Threads(),
	})
}

var (
	british = trade.Machine{Built: 1929, Country: "GB"}
	german  = trade.Machine{Built: 1929, Country: "DE"}
	unknown = trade.Machine{}
)

// leads fails unless the first candidate of a size reads so and has this
// probability at least.
func leads(t *testing.T, r *meant.Result, i int, text string, p float64) {
	t.Helper()
	size := r.Sizes[i]
	if len(size.Candidates) == 0 || size.Candidates[0].Text != text || size.Candidates[0].P < p {
		t.Errorf("%s: %+v, want %s with at least %.2f", size.ID, size.Likely(), text, p)
	}
}

// TestBritishMachineBetweenTheWars checks a fact of the trade, common practice
// with no source: such a machine has inch fractions. Worn and read as they would
// be by calipers, all the sizes come out in them.
func TestBritishMachineBetweenTheWars(t *testing.T) {
	r := round(t, british,
		measured{x: 19.02, u: 0.015, surface: trade.Outside, wear: trade.LightWear},
		measured{x: 25.47, u: 0.015, surface: trade.Inside, wear: trade.LightWear},
		measured{x: 63.47, u: 0.02},
		measured{x: 11.08, u: 0.01, surface: trade.Outside, wear: trade.LightWear},
		measured{x: 95.27, u: 0.02},
		measured{x: 14.26, u: 0.015})
	for i, want := range []string{"3/4 in", "1 in", "2 1/2 in", "7/16 in", "3 3/4 in", "9/16 in"} {
		leads(t, r, i, want, 0.9)
	}
	if r.Shares[0].System != "inch fractions" || r.Shares[0].Mean < 0.7 {
		t.Errorf("shares %+v", r.Shares)
	}
	// It is not the country alone: without it the answers are the same.
	for i, c := range round(t, unknown, measured{x: 19.04, u: 0.01}, measured{x: 25.42, u: 0.01}, measured{x: 63.49, u: 0.01}, measured{x: 11.1, u: 0.01}).Sizes {
		if want := []string{"3/4 in", "1 in", "2 1/2 in", "7/16 in"}[i]; c.Candidates[0].Text != want {
			t.Errorf("no country: %s, want %s", c.Candidates[0].Text, want)
		}
	}
}

// TestGermanMachine has the same stock sizes in the other system.
func TestGermanMachine(t *testing.T) {
	r := round(t, german, measured{x: 19.02, u: 0.015, surface: trade.Outside, wear: trade.LightWear}, measured{x: 25.04, u: 0.01}, measured{x: 63.02, u: 0.02})
	for i, want := range []string{"19 mm", "25 mm", "63 mm"} {
		leads(t, r, i, want, 0.5)
	}
}

func TestAValueInTwoSystemsIsListedOnce(t *testing.T) {
	r := round(t, unknown, measured{x: 12.7, u: 0.002}, measured{x: 254.01, u: 0.01})
	for i, at := range []float64{12.7, 254} {
		n := 0
		for _, c := range r.Sizes[i].Candidates {
			if math.Abs(c.Value-at) < 1e-6 {
				n++
			}
		}
		if n != 1 {
			t.Errorf("%g mm is listed %d times", at, n)
		}
	}
}

func TestProbabilitiesAddUp(t *testing.T) {
	for _, m := range []measured{
		{x: 17.3, u: 0.02},
		{x: 24.88, u: 0.006, surface: trade.Outside, wear: trade.HeavyWear},
		{x: 0.07, u: 0.02},
		{x: 300, u: 2},
		{x: 0.03, u: 0.01, kind: trade.Offset},
		{x: -12.69, u: 0.02, kind: trade.Offset},
		{x: 6.53, u: 0.005, kind: trade.Diameter, surface: trade.Inside},
	} {
		size := round(t, unknown, m).Sizes[0]
		sum := size.NoRound
		for _, c := range size.Candidates {
			sum += c.P
			if c.Value <= 0 && m.kind != trade.Offset {
				t.Errorf("%+v: meant to be %g", m, c.Value)
			}
		}
		if math.Abs(sum-1) > 1e-3 {
			t.Errorf("%+v: the probabilities add up to %.6f", m, sum)
		}
	}
}

func TestOnlyAnOffsetIsMeantToBeNothing(t *testing.T) {
	leads(t, round(t, unknown, measured{x: 0.03, u: 0.01, kind: trade.Offset}), 0, "0 mm", 0.9)
}

// TestWearHasASign has a shaft and a bore, each worn and each grown: wear makes
// a shaft smaller and a bore larger, and what cannot be wear is said.
func TestWearHasASign(t *testing.T) {
	tests := []struct {
		x       float64
		surface trade.Surface
		worn    bool
	}{
		{49.8, trade.Outside, true}, {50.2, trade.Inside, true}, {50.2, trade.Outside, false}, {49.8, trade.Inside, false},
	}
	for _, test := range tests {
		r := round(t, german, measured{x: test.x, u: 0.005, surface: test.surface, wear: trade.HeavyWear})
		for _, c := range r.Sizes[0].Candidates {
			if math.Abs(c.Value-50) > 1e-9 {
				continue
			}
			switch {
			case test.worn && (math.Abs(c.Wear-0.2) > 0.01 || c.Beyond > 1 || c.Off < 0):
				t.Errorf("%s found at %g: %+v, want 0.2 mm of wear", test.surface, test.x, c)
			case !test.worn && (c.Wear > 0.03 || c.Beyond < 6 || c.Off > 0):
				t.Errorf("%s found at %g: %+v, want no wear and a warning", test.surface, test.x, c)
			}
		}
		if got := r.Sizes[0].Candidates[0].Text == "50 mm"; got != test.worn {
			t.Errorf("%s found at %g: first %s", test.surface, test.x, r.Sizes[0].Candidates[0].Text)
		}
	}
}

// TestLetterDrill has a hole drilled with a letter drill, which is a size of
// machines built in inches only.
func TestLetterDrill(t *testing.T) {
	list := []measured{
		{x: 9.35, u: 0.004, kind: trade.Diameter, surface: trade.Inside},
		{x: 25.41, u: 0.01},
		{x: 38.11, u: 0.01},
		{x: 6.36, u: 0.01},
		{x: 15.88, u: 0.01},
	}
	leads(t, round(t, british, list...), 0, "letter U drill (0.368 in)", 0.3)
	metric := round(t, german, list[0], measured{x: 25.01, u: 0.01}, measured{x: 38.01, u: 0.01}, measured{x: 6.01, u: 0.01}, measured{x: 15.98, u: 0.01})
	if first := metric.Sizes[0].Candidates[0]; strings.Contains(first.Text, "letter") {
		t.Errorf("on a metric machine: %+v", first)
	}
}

// TestDecided has the user's word kept, counted as evidence for the rest, and
// warned about where the readings contradict it.
func TestDecided(t *testing.T) {
	doubtful := measured{x: 24.95, u: 0.05, surface: trade.Inside, wear: trade.LightWear}
	before := round(t, unknown, doubtful, measured{x: 95.2, u: 0.03}, measured{x: 44.42, u: 0.03})
	after := round(t, unknown, doubtful, measured{x: 95.2, u: 0.03, meant: "3 3/4 in"}, measured{x: 44.42, u: 0.03, meant: "1 3/4 in"})
	size := after.Sizes[1]
	if !size.Decided || len(size.Candidates) != 1 || size.Candidates[0].Text != "3 3/4 in" || math.Abs(size.Candidates[0].P-1) > 1e-9 || size.NoRound != 0 {
		t.Errorf("decided: %+v", size)
	}
	if after.Shares[0].Mean <= before.Shares[0].Mean {
		t.Errorf("two sizes in inches make the share of inch fractions %.3f from %.3f", after.Shares[0].Mean, before.Shares[0].Mean)
	}
	if len(after.Warnings) != 0 {
		t.Errorf("warned: %q", after.Warnings)
	}
}

func TestDecidedAgainstTheReadings(t *testing.T) {
	// 0.5 mm too large for a shaft that can only have become smaller, with
	// √(0.03² + 0.04²) = 0.05 mm of making and reading: 10 standard deviations.
	r := round(t, unknown, measured{x: 50.5, u: 0.04, surface: trade.Outside, wear: trade.HeavyWear, meant: "50 mm"})
	if len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0].Shown(unit.View{}), "s0: meant to be 50 mm, but it was found 0.500 mm larger, 10.0 standard deviations") {
		t.Errorf("warnings %q", r.Warnings)
	}
	leads(t, r, 0, "50 mm", 0.999)
	// The same amount lost is wear: 0.5/√(0.05² + 0.25²) = 1.96.
	if r := round(t, unknown, measured{x: 49.5, u: 0.04, surface: trade.Outside, wear: trade.HeavyWear, meant: "50 mm"}); len(r.Warnings) != 0 {
		t.Errorf("warned of wear: %q", r.Warnings)
	}
	// An angle 2° off, with making 0.05° and reading 0.06° in all 0.078°.
	degree := math.Pi / 180
	job := &trade.Job{Units: unit.Millimetre, Sizes: []trade.Size{{
		ID: "vee", Kind: trade.Angle, Meant: "60 deg", Known: trade.Prior{Value: radians(58 * degree), U: radians(0.06 * degree)},
	}}}
	angles := meant.Round(adjusted(t, job), meant.Tables{})
	if len(angles.Warnings) != 1 || !strings.Contains(angles.Warnings[0].Shown(unit.View{}), "2.000° smaller, 25.6 standard deviations") {
		t.Errorf("warnings %q", angles.Warnings)
	}
}

func radians(x float64) unit.Quantity {
	q, err := unit.New(int64(math.Round(x*1e12)), 1e12, unit.Radian)
	if err != nil {
		panic(err)
	}
	return q
}

// TestADesignationDecidesNothing keeps a text that is no length for those who
// can read it.
func TestADesignationDecidesNothing(t *testing.T) {
	r := round(t, british, measured{x: 11.09, u: 0.01, meant: "7/16 BSW"})
	if r.Sizes[0].Decided || len(r.Sizes[0].Candidates) < 2 {
		t.Errorf("%+v", r.Sizes[0])
	}
}

// TestHowCloselyToRead has a size between 1 1/2 in and 38 mm; the U given is
// put back into the model as written down in exact_test.go.
func TestHowCloselyToRead(t *testing.T) {
	r := round(t, unknown, measured{x: 38.05, u: 0.1})
	tell := r.Sizes[0].Tell
	if tell == nil || math.IsNaN(tell.U) || math.IsInf(tell.U, 0) {
		t.Fatalf("%+v", r.Sizes[0])
	}
	first, second := r.Sizes[0].Candidates[0], r.Sizes[0].Candidates[1]
	if tell.First != first.Text || tell.Second != second.Text {
		t.Errorf("%+v of %+v", tell, r.Sizes[0].Likely())
	}
	here := truth{x: 38.05, u: 0.1, making: 0.03}
	prior := first.P / second.P * densityOf(here, second.Value) / densityOf(here, first.Value)
	there := truth{x: first.Value, u: tell.U / 1.959963984540054, making: 0.03}
	odds := prior * densityOf(there, first.Value) / densityOf(there, second.Value)
	if math.Abs(odds-20) > 1e-6 {
		t.Errorf("at ±%.6f mm the odds are %.8f, want 20", tell.U, odds)
	}
}

// TestNoReadingTells has a shaft so worn that 25 mm and 1 in cannot be told
// apart on it, and the same unworn.
func TestNoReadingTells(t *testing.T) {
	worn := round(t, unknown, measured{x: 24.85, u: 0.01, surface: trade.Outside, wear: trade.HeavyWear})
	if tell := worn.Sizes[0].Tell; tell == nil || !math.IsNaN(tell.U) {
		t.Errorf("worn: %+v, candidates %+v", tell, worn.Sizes[0].Likely())
	}
	if unworn := round(t, unknown, measured{x: 24.99, u: 0.01}); unworn.Sizes[0].Tell != nil {
		t.Errorf("unworn: %+v", unworn.Sizes[0].Tell)
	}
}

// TestOneQuestionSettlesSeveral has a job by a rule that may be half a millimetre
// out either way: naming one size tells which, and with it the others.
func TestOneQuestionSettlesSeveral(t *testing.T) {
	job := ruledJob(0.5, 0.01, []float64{23, 37, 52, 63}, 0.5)
	r := meant.Round(adjusted(t, job), meant.Tables{})
	if r.Question == nil {
		t.Fatalf("no question; %+v", r.Sizes)
	}
	if n := len(r.Question.Answers[0].Settles); n < 2 {
		t.Errorf("the first answer settles %d sizes: %+v", n, r.Question)
	}
}

func TestNothingIsAskedWhereAllIsSettled(t *testing.T) {
	if r := round(t, british, measured{x: 25.41, u: 0.003}, measured{x: 50.8, u: 0.003}, measured{x: 76.2, u: 0.003}); r.Question != nil {
		t.Errorf("%+v", r.Question)
	}
}

// TestWhatIsNotAsked leaves out what stands on grids of another sort, what
// follows from a thread, and what was not found.
func TestWhatIsNotAsked(t *testing.T) {
	r := round(t, unknown, measured{x: 1.5, u: 0.001, kind: trade.Pitch}, measured{x: 2, u: 0.001, kind: trade.Module}, measured{x: 25, u: 30}, measured{x: 20, u: 0.01})
	if len(r.Sizes) != 1 || r.Sizes[0].ID != "s3" || r.Of("s0") != nil {
		t.Errorf("asked: %+v", r.Sizes)
	}
}
