package simulate

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"codeberg.org/oddleg/oddleg/num/grad"
)

// Budget is the uncertainty of outputs as the law of propagation has it.
type Budget struct {
	Outputs    []Budgeted
	Covariance *mat.SymDense // of the outputs, to first order
}

// Budgeted is one output of a Budget.
type Budgeted struct {
	Value float64
	U     float64 // standard uncertainty, to first order

	// Parts holds for each input the change of the output for one standard
	// uncertainty of it, with its sign.
	Parts []float64

	// Dof is the effective degrees of freedom, not truncated (Welch and
	// Satterthwaite, JCGM 100:2008, G.4.1), +Inf where none of the inputs that
	// count has any. It holds for independent inputs.
	Dof float64

	// Second holds for each two inputs ∂²y/∂x_i∂x_j·u_i·u_j. Where the inputs
	// depend on each other, it is in terms of the independent quantities that
	// they are made from.
	Second *mat.SymDense

	Shift   float64 // what second-order terms add to the mean: half the trace of Second
	USecond float64 // standard uncertainty with second-order terms
}

// FirstOrder propagates estimates through a model by its derivatives (JCGM
// 100:2008, 5.1 and 5.2). The correlation of the inputs is nil where they are
// independent.
//
// Second-order terms are those of JCGM 100:2008, 5.1.2 note, for normal inputs:
//
//	u² + ΣΣ [½(∂²y/∂x_i∂x_j)² + ∂y/∂x_i·∂³y/∂x_i∂x_j²] u_i² u_j²
//
// Gradients are exact; the higher derivatives are differences of gradients.
func FirstOrder(inputs []Estimate, correlation *mat.SymDense, model Model) *Budget {
	e := &expansion{inputs: inputs, model: model, steps: stepsOf(inputs, correlation)}
	direct, values := e.at(nil, 0)
	slopes := e.along(direct)
	second, third := e.higher(slopes)
	b := &Budget{Covariance: mat.NewSymDense(model.Outputs, nil)}
	b.Covariance.SymOuterK(1, slopes)
	for k, value := range values {
		out := Budgeted{Value: value, U: math.Sqrt(b.Covariance.At(k, k)), Second: second[k], Shift: mat.Trace(second[k]) / 2}
		for i, input := range inputs {
			out.Parts = append(out.Parts, direct.At(k, i)*input.U)
		}
		out.Dof = out.effectiveDof(inputs)
		curved := mat.Norm(out.Second, 2)
		out.USecond = math.Sqrt(max(0, out.U*out.U+curved*curved/2+mat.Dot(slopes.RowView(k), third.RowView(k))))
		b.Outputs = append(b.Outputs, out)
	}
	return b
}

// Correlation returns the correlation of two outputs, by their indices.
func (b *Budget) Correlation(k, l int) float64 {
	return b.Covariance.At(k, l) / math.Sqrt(b.Covariance.At(k, k)*b.Covariance.At(l, l))
}

func (b *Budgeted) effectiveDof(inputs []Estimate) float64 {
	sum := 0.0
	for i, part := range b.Parts {
		if dof := inputs[i].Dof; dof > 0 && b.U > 0 {
			sum += math.Pow(part/b.U, 4) / dof
		}
	}
	return 1 / sum
}

// Coverage returns the factor k of an interval ±kU at a level such as 0.95, from
// Student's distribution with the degrees of freedom truncated to a whole
// number (JCGM 100:2008, G.4.1 and G.6.4).
func (b *Budgeted) Coverage(level float64) float64 { return CoverageFactor(level, math.Floor(b.Dof)) }

// Bent reports whether second-order terms matter: whether they shift the value
// by more than a tenth of its standard uncertainty, or change the variance by
// more than a tenth.
func (b *Budgeted) Bent() bool {
	return math.Abs(b.Shift) > bentShare*b.U || math.Abs(b.USecond*b.USecond-b.U*b.U) > bentShare*b.U*b.U
}

// bentShare is the share of a standard uncertainty, and of a variance, from
// which on second-order terms matter (common practice, no source).
const bentShare = 0.1

// CoverageFactor returns how many standard uncertainties an interval reaches to
// either side at a level such as 0.95, where the uncertainty has these degrees
// of freedom: the quantile of Student's distribution at (1+level)/2, of the
// normal one for infinitely many.
func CoverageFactor(level, dof float64) float64 {
	if math.IsInf(dof, 1) {
		return distuv.UnitNormal.Quantile((1 + level) / 2)
	}
	return distuv.StudentsT{Sigma: 1, Nu: dof}.Quantile((1 + level) / 2)
}

// expansion takes a model apart about the estimates.
type expansion struct {
	inputs []Estimate
	model  Model
	steps  *mat.Dense // columns: what each independent quantity moves the inputs by
}

// stepsOf returns the matrix that makes the inputs' departures from independent
// standard quantities.
func stepsOf(inputs []Estimate, correlation *mat.SymDense) *mat.Dense {
	n := len(inputs)
	steps := mat.NewDense(n, n, nil)
	for i := range n {
		steps.Set(i, i, 1)
	}
	if correlation != nil {
		steps = root(correlation)
	}
	steps.Apply(func(i, _ int, v float64) float64 { return inputs[i].U * v }, steps)
	return steps
}

// at returns the gradients of the outputs, a row each, and their values, at the
// estimates moved by part of a step, nil for none. A gradient holds grad.Width
// inputs, so that more are taken by turns.
func (e *expansion) at(step mat.Vector, part float64) (slopes *mat.Dense, values []float64) {
	n := len(e.inputs)
	x, y := make([]grad.Number, n), make([]grad.Number, e.model.Outputs)
	slopes, values = mat.NewDense(e.model.Outputs, n, nil), make([]float64, e.model.Outputs)
	for first := 0; first < n; first += grad.Width {
		for i, input := range e.inputs {
			at := input.Value
			if step != nil {
				at += part * step.AtVec(i)
			}
			x[i] = grad.Const(at)
			if first <= i && i < first+grad.Width {
				x[i] = grad.Var(at, i-first)
			}
		}
		e.model.At(x, y)
		for k := range y {
			values[k] = y[k].X
			for i := first; i < min(n, first+grad.Width); i++ {
				slopes.Set(k, i, y[k].D[i-first])
			}
		}
	}
	return slopes, values
}

// along turns gradients over the inputs into gradients over the independent
// quantities.
func (e *expansion) along(slopes *mat.Dense) *mat.Dense {
	var turned mat.Dense
	turned.Mul(slopes, e.steps)
	return &turned
}

// higher returns the second derivatives of every output over the independent
// quantities and, a row for each output, Σ_j ∂³y/∂z_i∂z_j². They are
// differences over a hundredth of a standard deviation: there both rounding and
// the terms neglected are below 1e-4 of what they add to the variance.
func (e *expansion) higher(here *mat.Dense) (second []*mat.SymDense, third *mat.Dense) {
	const part = 0.01
	n := len(e.inputs)
	third = mat.NewDense(e.model.Outputs, n, nil)
	for range e.model.Outputs {
		second = append(second, mat.NewSymDense(n, nil))
	}
	for j := range n {
		ahead, _ := e.at(e.steps.ColView(j), part)
		behind, _ := e.at(e.steps.ColView(j), -part)
		ahead, behind = e.along(ahead), e.along(behind)
		for k := range second {
			for i := range n {
				if i <= j {
					second[k].SetSym(i, j, (ahead.At(k, i)-behind.At(k, i))/(2*part))
				}
				bend := (ahead.At(k, i) + behind.At(k, i) - 2*here.At(k, i)) / (part * part)
				third.Set(k, i, third.At(k, i)+bend)
			}
		}
	}
	return second, third
}
