package simulate_test

import (
	"context"
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"gonum.org/v1/gonum/mat"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/read/simulate"
)

// impedance is R, X and Z from V, I in mA and φ (JCGM 100 H.2).
var impedance = simulate.Model{Outputs: 3, At: func(x, y []grad.Number) {
	z := x[0].Div(x[1]).Times(1000)
	y[0], y[1], y[2] = z.Mul(x[2].Cos()), z.Mul(x[2].Sin()), z
}}

func TestImpedance(t *testing.T) {
	e := published(t, "u-gum-h2")
	var in struct {
		V   []float64 `yaml:"V_volt"`
		I   []float64 `yaml:"I_mA"`
		Phi []float64 `yaml:"phi_rad"`
	}
	e.read(t, &in)
	inputs, correlation := meansOf(in.V, in.I, in.Phi)
	b := simulate.FirstOrder(inputs, correlation, impedance)
	r, x, z := &b.Outputs[0], &b.Outputs[1], &b.Outputs[2]
	e.figures(t, map[string]float64{
		"mean V": inputs[0].Value, "mean I": inputs[1].Value, "mean phi": inputs[2].Value,
		"s(mean V)": inputs[0].U, "s(mean I)": inputs[1].U, "s(mean phi)": inputs[2].U,
		"r(V,I)": correlation.At(0, 1), "r(V,phi)": correlation.At(0, 2), "r(I,phi)": correlation.At(1, 2),
		"R": r.Value, "X": x.Value, "Z": z.Value, "u(R)": r.U, "u(X)": x.U, "u(Z)": z.U,
		"r(R,X)": b.Correlation(0, 1), "r(R,Z)": b.Correlation(0, 2), "r(X,Z)": b.Correlation(1, 2),
	})

	if r.Bent() || x.Bent() || z.Bent() {
		t.Error("second-order terms are said to matter, which are 1e-4 of u")
	}

	if testing.Short() {
		return
	}
	// The trials must give the same, to what their number leaves open.
	covariance := mat.NewSymDense(3, nil)
	for i, a := range inputs {
		for j, c := range inputs {
			covariance.SetSym(i, j, correlation.At(i, j)*a.U*c.U)
		}
	}
	mean := []float64{inputs[0].Value, inputs[1].Value, inputs[2].Value}
	o := propagate(t, []simulate.Input{simulate.NewJointNormal(mean, covariance)}, impedance, trials, seed)
	for k := range 3 {
		relative(t, "u by trials", o.Outputs[k].U, b.Outputs[k].U, 4/math.Sqrt(2*trials))
		for l := range k {
			rho := b.Correlation(k, l)
			if spread := 4 * (1 - rho*rho) / math.Sqrt(trials); math.Abs(o.Correlation(k, l)-rho) > spread {
				t.Errorf("correlation %d, %d by trials %.5f, by derivatives %.5f", k, l, o.Correlation(k, l), rho)
			}
		}
	}
}

// meansOf returns the means of series read together, and their correlation.
func meansOf(series ...[]float64) ([]simulate.Estimate, *mat.SymDense) {
	var estimates []simulate.Estimate
	n := float64(len(series[0]))
	products := mat.NewSymDense(len(series), nil)
	for _, s := range series {
		var e simulate.Estimate
		for _, v := range s {
			e.Value += v / n
		}
		estimates = append(estimates, e)
	}
	for i, a := range series {
		for j, b := range series[:i+1] {
			p := 0.0
			for k := range a {
				p += (a[k] - estimates[i].Value) * (b[k] - estimates[j].Value) / (n * (n - 1))
			}
			products.SetSym(i, j, p)
		}
		estimates[i].U = math.Sqrt(products.At(i, i))
	}
	for i := range series {
		for j := range i {
			products.SetSym(i, j, products.At(i, j)/(estimates[i].U*estimates[j].U))
		}
	}
	for i := range series {
		products.SetSym(i, i, 1)
	}
	return estimates, products
}

// line is the correction y1 + y2·(t - 20 °C) less what was seen.
type line struct{ t, b float64 }

func (l line) Eval(y []float64, row *lsq.Row) float64 {
	row.Add(0, 1)
	row.Add(1, l.t-20)
	return y[0] + y[1]*(l.t-20) - l.b
}

func TestThermometer(t *testing.T) {
	e := published(t, "u-gum-h3")
	var in struct {
		T []float64 `yaml:"t_degC"`
		B []float64 `yaml:"b_degC"`
	}
	e.read(t, &in)
	problem := lsq.Problem{Start: []float64{0, 0}}
	for i := range in.T {
		problem.Observations = append(problem.Observations, lsq.Observation{Equation: line{in.T[i], in.B[i]}, Sigma: 1})
	}
	fit, err := lsq.Solve(problem)
	if err != nil {
		t.Fatal(err)
	}
	s := math.Sqrt(fit.S2())
	u1, u2 := s*math.Sqrt(fit.Cofactor(0, 0)), s*math.Sqrt(fit.Cofactor(1, 1))
	rho := s * s * fit.Cofactor(0, 1) / (u1 * u2)
	at30 := simulate.Model{Outputs: 1, At: func(x, y []grad.Number) { y[0] = x[0].Add(x[1].Times(30 - 20)) }}
	estimates := []simulate.Estimate{{Value: fit.X[0], U: u1}, {Value: fit.X[1], U: u2}}
	b := simulate.FirstOrder(estimates, mat.NewSymDense(2, []float64{1, rho, rho, 1}), at30).Outputs[0]
	e.figures(t, map[string]float64{
		"y1": fit.X[0], "y2": fit.X[1], "s(y1)": u1, "s(y2)": u2, "r(y1,y2)": rho, "s": s,
		"b(30 degC)": b.Value, "u(b(30 degC))": b.U,
	})
}

func TestActivityRatio(t *testing.T) {
	// Inputs as in u-gum-h4: AS, mS, mx, Rx, RS.
	estimates := []simulate.Estimate{{Value: 0.1368, U: 0.0018}, {Value: 5.0192, U: 0.0050}, {Value: 5.0571, U: 0.0010}, {Value: 652.60, U: 6.42}, {Value: 206.09, U: 3.79}}
	correlation := mat.NewSymDense(5, nil)
	for i := range 5 {
		correlation.SetSym(i, i, 1)
	}
	correlation.SetSym(3, 4, 0.646)
	ratio := simulate.Model{Outputs: 1, At: func(x, y []grad.Number) { y[0] = x[0].Mul(x[1]).Div(x[2]).Mul(x[3]).Div(x[4]) }}
	b := simulate.FirstOrder(estimates, correlation, ratio).Outputs[0]
	published(t, "u-gum-h4").figures(t, map[string]float64{"Ax": b.Value, "u_c": b.U})
}

func TestBreakingForce(t *testing.T) {
	e := published(t, "u-gum5-15-breaking-force")
	var in struct {
		Readings   []float64
		HalfWidths []float64 `yaml:"half_widths"`
	}
	e.read(t, &in)
	estimates, _ := meansOf(in.Readings)
	mean := estimates[0]
	for _, a := range in.HalfWidths {
		estimates = append(estimates, simulate.Rectangular{Low: -a, High: a}.Estimate())
	}
	b := simulate.FirstOrder(estimates, nil, sum).Outputs[0]
	e.figures(t, map[string]float64{
		"mean": b.Value, "u of mean": mean.U, "u_c": b.U, "U95 (1.96 u_c)": simulate.CoverageFactor(0.95, math.Inf(1)) * b.U,
	})
}

func TestStudentQuantiles(t *testing.T) {
	file, err := os.Open(certified + "examples-data/gum_table_g2.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		dof := math.Inf(1)
		if n, err := strconv.ParseFloat(row[0], 64); err == nil {
			dof = n
		}
		for i, head := range rows[0][1:] {
			percent, _ := strconv.ParseFloat(strings.TrimPrefix(head, "p"), 64)
			want, _ := strconv.ParseFloat(row[i+1], 64)
			if got := simulate.CoverageFactor(percent/100, dof); math.Abs(got-want) > 0.005*(1+1e-9) {
				t.Errorf("%s %% with %s degrees of freedom: %.4f, table G.2 has %s", head[1:], row[0], got, row[i+1])
			}
		}
	}
}

// propagate draws the inputs of a model.
func propagate(t *testing.T, inputs []simulate.Input, model simulate.Model, trials int, seed uint64) *simulate.Outcome {
	t.Helper()
	o, err := simulate.Propagate(t.Context(), inputs, model, trials, seed)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// stopper is a context that ends once it has been asked so many times: what is
// counted is work, not time.
type stopper struct {
	context.Context
	left atomic.Int64
}

func (s *stopper) Err() error {
	if s.left.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}

// TestPropagateIsStopped: with the context the draws end, and no half of them is an
// outcome.
func TestPropagateIsStopped(t *testing.T) {
	const trials = 1_000_000
	var drawn atomic.Int64
	count := simulate.Model{Outputs: 1, At: func(x, y []grad.Number) { drawn.Add(1); y[0] = x[0] }}
	ctx := &stopper{Context: t.Context()}
	ctx.left.Store(3)
	o, err := simulate.Propagate(ctx, []simulate.Input{simulate.Normal{U: 1}}, count, trials, 1)
	if o != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, it gives %v, %v", o, err)
	}
	if n := drawn.Load(); n == 0 || n > trials/10 {
		t.Errorf("%d of %d were drawn", n, trials)
	}
}
