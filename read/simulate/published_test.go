package simulate_test

import (
	"math"
	"runtime"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/read/simulate"
	examples "codeberg.org/oddleg/oddleg/testdata/certified"
)

const certified = "../../testdata/certified/"

// trials is enough for the figures printed in JCGM 101, which were found with
// as many; the seed was fixed before the first run.
const (
	trials = 1_000_000
	seed   = 20260305
)

// example is a published entry.
type example struct{ *examples.Entry }

func published(t *testing.T, id string) *example {
	t.Helper()
	return &example{examples.Example(t, id)}
}

func (e *example) read(t *testing.T, v any) {
	t.Helper()
	e.Read(t, v)
}

func (e *example) figures(t *testing.T, got map[string]float64) {
	t.Helper()
	e.Figures(t, got)
}

// drawMany skips a test that draws a million times where time is short.
func drawMany(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("draws a million times")
	}
}

// sum adds all inputs.
var sum = simulate.Model{Outputs: 1, At: func(x, y []grad.Number) {
	y[0] = grad.Const(0)
	for _, v := range x {
		y[0] = y[0].Add(v)
	}
}}

func TestAdditive(t *testing.T) {
	drawMany(t)
	normal := simulate.Normal{U: 1}
	wide := simulate.Rectangular{Low: -10 * math.Sqrt(3), High: 10 * math.Sqrt(3)}
	flat := simulate.Rectangular{Low: -math.Sqrt(3), High: math.Sqrt(3)}
	o := propagate(t, []simulate.Input{normal, normal, normal, normal}, sum, trials, seed).Outputs[0]
	low, high := o.Symmetric(0.95)
	published(t, "u-jcgm101-9.2.2").figures(t, map[string]float64{"u": o.U, "95 % interval half-width": (high - low) / 2})

	o = propagate(t, []simulate.Input{flat, flat, flat, wide}, sum, trials, seed).Outputs[0]
	low, high = o.Symmetric(0.95)
	b := simulate.FirstOrder([]simulate.Estimate{flat.Estimate(), flat.Estimate(), flat.Estimate(), wide.Estimate()}, nil, sum).Outputs[0]
	published(t, "u-jcgm101-9.2.4").figures(t, map[string]float64{
		"u":                               o.U,
		"95 % interval half-width (true)": (high - low) / 2,
		"95 % half-width by Gaussian propagation": b.Coverage(0.95) * b.U,
	})
}

// TestComparisonLoss has squared terms near zero: the first order sees nothing
// at all, or too little.
func TestComparisonLoss(t *testing.T) {
	drawMany(t)
	loss := simulate.Model{Outputs: 1, At: func(x, y []grad.Number) { y[0] = x[0].Sq().Add(x[1].Sq()) }}
	for _, id := range []string{"x000-r0", "x010-r0", "x050-r0", "x000-r9", "x010-r9"} {
		t.Run(id, func(t *testing.T) {
			e := published(t, "u-jcgm101-9.4-"+id)
			var in struct{ X1, X2, U, R float64 }
			e.read(t, &in)
			correlation := mat.NewSymDense(2, []float64{1, in.R, in.R, 1})
			var covariance mat.SymDense
			covariance.ScaleSym(in.U*in.U, correlation)
			inputs := simulate.NewJointNormal([]float64{in.X1, in.X2}, &covariance)
			o := propagate(t, []simulate.Input{inputs}, loss, trials, seed).Outputs[0]
			low, high := o.Shortest(0.95)
			b := simulate.FirstOrder([]simulate.Estimate{{Value: in.X1, U: in.U}, {Value: in.X2, U: in.U}}, correlation, loss).Outputs[0]
			e.figures(t, map[string]float64{
				"y true mean x 1e6": 1e6 * o.Mean, "u true x 1e6": 1e6 * o.U,
				"95 % shortest low x 1e6": 1e6 * low, "95 % shortest high x 1e6": 1e6 * high,
				"y first order x 1e6": 1e6 * b.Value, "u first order x 1e6": 1e6 * b.U,
			})
			// A square of normal quantities has no terms above the second: mean
			// and u with second-order terms are the true ones (closed form).
			relative(t, "mean to second order", b.Value+b.Shift, in.X1*in.X1+in.X2*in.X2+2*in.U*in.U, 1e-9)
			relative(t, "u to second order", b.USecond, math.Sqrt(4*in.X1*in.X1*in.U*in.U+4*math.Pow(in.U, 4)*(1+in.R*in.R)), 1e-9)
			if in.X1 < 0.05 && !b.Bent() {
				t.Error("the second-order terms go unnoticed")
			}
		})
	}
}

func relative(t *testing.T, what string, got, want, allowed float64) {
	t.Helper()
	if !(math.Abs(got-want) <= allowed*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

// The end gauge of JCGM 100 H.1 and JCGM 101 9.5, in nm and °C.
var (
	gaugeInputs = []simulate.Input{
		simulate.Student{Mean: 50000623, Scale: 25, Dof: 18},
		simulate.Student{Mean: 215, Scale: 6, Dof: 24},
		simulate.Student{Scale: 4, Dof: 5},
		simulate.Student{Scale: 7, Dof: 8},
		simulate.Rectangular{Low: 9.5e-6, High: 13.5e-6},
		simulate.Normal{Mean: -0.1, U: 0.2},
		simulate.Arcsine{Low: -0.5, High: 0.5},
		simulate.CurvilinearTrapezoidal{Low: -1e-6, High: 1e-6, Inexact: 0.1e-6},
		simulate.CurvilinearTrapezoidal{Low: -0.05, High: 0.05, Inexact: 0.025},
	}
	gaugeModel = simulate.Model{Outputs: 1, At: func(x, y []grad.Number) {
		ls, d := x[0], x[1].Add(x[2]).Add(x[3])
		alpha, theta, dAlpha, dTheta := x[4], x[5].Add(x[6]), x[7], x[8]
		y[0] = ls.Add(d).Sub(ls.Mul(dAlpha.Mul(theta).Add(alpha.Mul(dTheta))))
	}}
)

// gaugeEstimates are those of H.1: the parts of d to more places than in 9.5.
func gaugeEstimates() []simulate.Estimate {
	return []simulate.Estimate{
		gaugeInputs[0].(simulate.Student).Estimate(),
		{Value: 215, U: 5.8, Dof: 24},
		{U: 3.9, Dof: 5},
		{U: 6.7, Dof: 8},
		gaugeInputs[4].(simulate.Rectangular).Estimate(),
		gaugeInputs[5].(simulate.Normal).Estimate(),
		gaugeInputs[6].(simulate.Arcsine).Estimate(),
		gaugeInputs[7].(simulate.CurvilinearTrapezoidal).Estimate(),
		gaugeInputs[8].(simulate.CurvilinearTrapezoidal).Estimate(),
	}
}

func TestEndGaugeByDerivatives(t *testing.T) {
	b := simulate.FirstOrder(gaugeEstimates(), nil, gaugeModel).Outputs[0]
	published(t, "u-gum-h1").figures(t, map[string]float64{
		"l": b.Value / 1e6, "u(ls)": b.Parts[0], "u(d)": math.Hypot(math.Hypot(b.Parts[1], b.Parts[2]), b.Parts[3]),
		"contribution of dalpha": math.Abs(b.Parts[7]), "contribution of dtheta": math.Abs(b.Parts[8]),
		"u_c": b.U, "nu_eff before truncation": b.Dof, "nu_eff (truncated)": math.Floor(b.Dof),
		"k99": b.Coverage(0.99), "U99": b.Coverage(0.99) * b.U,
	})
	published(t, "u-gum-h1-second-order").figures(t, map[string]float64{
		"ls*u(dalpha)*u(theta)":  math.Hypot(b.Second.At(7, 5), b.Second.At(7, 6)),
		"ls*u(alphaS)*u(dtheta)": math.Abs(b.Second.At(4, 8)),
		"u_c with second order":  b.USecond,
	})
	if !b.Bent() {
		t.Error("the second-order terms of H.1 go unnoticed")
	}
}

func TestEndGaugeByTrials(t *testing.T) {
	drawMany(t)
	o := propagate(t, gaugeInputs, gaugeModel, trials, seed).Outputs[0]
	low, high := o.Symmetric(0.99)
	b := simulate.FirstOrder(gaugeEstimates(), nil, gaugeModel).Outputs[0]
	half := b.Coverage(0.99) * b.U
	const nominal = 50_000_000 // nm
	published(t, "u-jcgm101-9.5-gauge-block").figures(t, map[string]float64{
		"dL": o.Mean - nominal, "u first order": b.U, "u Monte Carlo": o.U,
		"99 % first order low": b.Value - half - nominal, "99 % first order high": b.Value + half - nominal,
		"99 % Monte Carlo low": low - nominal, "99 % Monte Carlo high": high - nominal,
	})
}

// TestShapes compares the standard deviation of each shape, stated and drawn.
func TestShapes(t *testing.T) {
	const trials = 100_000
	shapes := []struct {
		name string
		simulate.Input
		stated simulate.Estimate
		drawn  float64 // standard deviation, where it is not what is stated
	}{
		{"rectangular", simulate.Rectangular{Low: -1, High: 1}, simulate.Rectangular{Low: -1, High: 1}.Estimate(), 0},
		{"triangular", simulate.Triangular{Low: -1, High: 1}, simulate.Triangular{Low: -1, High: 1}.Estimate(), 0},
		{"arcsine", simulate.Arcsine{Low: -1, High: 1}, simulate.Arcsine{Low: -1, High: 1}.Estimate(), 0},
		{"trapezoid beta 0.5", simulate.Trapezoidal{Low: -1, High: 1, Top: 0.5}, simulate.Trapezoidal{Low: -1, High: 1, Top: 0.5}.Estimate(), 0},
		// √(a²/3 + d²/9): JCGM 101:2008, 6.4.3.3
		{"curvilinear trapezoid", simulate.CurvilinearTrapezoidal{Low: -1, High: 1, Inexact: 0.5}, simulate.Estimate{}, math.Sqrt(1/3. + 0.25/9)},
		// √(ν/(ν-2)): JCGM 101:2008, 6.4.9.4
		{"t with 10 degrees of freedom", simulate.Student{Scale: 1, Dof: 10}, simulate.Estimate{}, math.Sqrt(10 / 8.)},
		{"normal", simulate.Normal{U: 1}, simulate.Estimate{}, 1},
	}
	stated := map[string]float64{}
	for _, s := range shapes {
		want := s.drawn
		if want == 0 {
			want = s.stated.U
			stated[s.name] = want
		}
		o := propagate(t, []simulate.Input{s.Input}, sum, trials, seed).Outputs[0]
		relative(t, s.name, o.U, want, 4/math.Sqrt(2*trials)*1.5) // 1.5: the tails of t
		if math.Abs(o.Mean) > 4*want/math.Sqrt(trials) {
			t.Errorf("%s: mean %.5f, want 0", s.name, o.Mean)
		}
	}
	published(t, "u-typeb-shapes").figures(t, stated)
}

// TestProcessors draws the same with one processor and with two.
func TestProcessors(t *testing.T) {
	draw := func(processors int) *simulate.Outcome {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
		return propagate(t, gaugeInputs, gaugeModel, 50_001, seed)
	}
	one, two := draw(1), draw(2)
	a, b := one.Outputs[0], two.Outputs[0]
	lowA, highA := a.Shortest(0.95)
	lowB, highB := b.Shortest(0.95)
	if !slices.Equal([]float64{a.Mean, a.U, lowA, highA}, []float64{b.Mean, b.U, lowB, highB}) {
		t.Errorf("%v and %v with two processors", a, b)
	}
	if other := propagate(t, gaugeInputs, gaugeModel, 50_001, seed+1).Outputs[0]; other.Mean == a.Mean {
		t.Error("another seed gives the same mean")
	}
}
