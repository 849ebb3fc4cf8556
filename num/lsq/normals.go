package lsq

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// ErrRank says that SolveByNormals cannot solve a problem that is short of rank.
var ErrRank = errors.New("the observations and constraints do not determine every unknown, or a constraint follows from others")

// SolveByNormals solves a problem by the normal equations bordered by the
// constraints with their Lagrange multipliers, damped, off the constraints
// until the end. It shares nothing with Solve but the evaluation of the
// problem, so that each checks the other; it is slower, less accurate where the
// problem is near-singular, and takes only problems of full rank with
// independent constraints. Condition is that of the bordered matrix, scaled.
func SolveByNormals(p Problem) (*Solution, error) {
	p.check()
	b := newBordered(&p)
	if b.n == 0 {
		return nil, ErrRank
	}
	if !b.evaluate(b.here) {
		return nil, ErrStart
	}
	converged := b.descend()
	lu, err := b.factor(0)
	if err != nil {
		return nil, err
	}
	v := newSolution(&p, b.here)
	v.Iterations, v.Converged = b.iterations, converged
	v.Rank, v.Condition = b.n-b.count, lu.Cond()
	v.Dof = len(p.Observations) - v.Rank
	for j := range v.determined {
		v.determined[j] = true
	}
	b.spread(v, b.cofactors(lu))
	v.markRedundancy()
	return v, nil
}

// spread sets what follows from the cofactors C: with A the weighted Jacobian,
// C·Aᵀ·A·C = C, so that F = C·Aᵀ, and Q stands for A·F.
func (b *bordered) spread(v *Solution, cofactors *mat.SymDense) {
	v.places = len(v.seen)
	f := mat.NewDense(b.n, max(1, v.places), nil)
	for i := range v.seen {
		for a, c := range b.here.rows[i].Columns {
			for j := range b.n {
				f.Set(j, i, f.At(j, i)+cofactors.At(j, c)*b.here.rows[i].Values[a])
			}
		}
	}
	for j := range v.moved {
		v.moved[j] = compressed(mat.Row(nil, j, f)[:v.places])
	}
	for i := range v.seen {
		full := make([]float64, v.places)
		for a, c := range b.here.rows[i].Columns {
			v.moved[c].addTo(full, b.here.rows[i].Values[a])
		}
		v.seen[i] = compressed(full)
	}
}

// cofactors returns the upper left block of the inverse, no longer scaled.
func (b *bordered) cofactors(lu *mat.LU) *mat.SymDense {
	size := b.n + b.count
	unit, inverse := mat.NewDense(size, size, nil), mat.NewDense(size, size, nil)
	for i := range size {
		unit.Set(i, i, 1)
	}
	if err := lu.SolveTo(inverse, false, unit); err != nil {
		panic("lsq: a bordered matrix of bounded condition has no inverse")
	}
	cofactors := mat.NewSymDense(b.n, nil)
	for i := range b.n {
		for j := i; j < b.n; j++ {
			cofactors.SetSym(i, j, b.scale[i]*b.scale[j]*(inverse.At(i, j)+inverse.At(j, i))/2)
		}
	}
	return cofactors
}

// bordered is the state of the second solver. The unknowns are scaled, the
// constraints divided by the norms of their gradients.
type bordered struct {
	p           *Problem
	n, count    int
	here, there *place
	scale       []float64
	norms       []float64
	weight      float64 // of the constraints in the merit
	iterations  int
}

func newBordered(p *Problem) *bordered {
	n, count := len(p.Start), len(p.Constraints)
	return &bordered{
		p: p, n: n, count: count, here: newPlace(p), there: newPlace(p),
		scale: make([]float64, n), norms: make([]float64, count),
	}
}

func (b *bordered) evaluate(at *place) bool {
	_, tied := at.evaluateTies(b.p)
	_, ok := at.evaluateMisfits(b.p)
	return tied && ok
}

// descend takes damped steps until they are short, or says that it cannot.
func (b *bordered) descend() bool {
	damping := 1e-3
	for b.iterations < mostIterations && damping < mostDamping {
		b.iterations++
		step, err := b.step(damping)
		if err != nil || !b.try(step) {
			damping = math.Max(10*damping, 1e-10)
			continue
		}
		b.here, b.there = b.there, b.here
		if damping == 0 && b.short(step) {
			return true
		}
		if damping /= 10; damping < 1e-10 {
			damping = 0
		}
	}
	return false
}

// short reports whether a step is at the level of rounding or 1e-10 of the
// uncertainty.
func (b *bordered) short(step *mat.VecDense) bool {
	length, reach := 0.0, 0.0
	for j, s := range b.scale {
		length += step.AtVec(j) * step.AtVec(j)
		reach += b.here.x[j] / s * b.here.x[j] / s
	}
	return math.Sqrt(length) <= 1e-10*math.Sqrt(b.here.chi2)+16*ulp*math.Sqrt(reach)
}

// step solves the bordered equations: the step, then the multipliers.
func (b *bordered) step(damping float64) (*mat.VecDense, error) {
	lu, err := b.factor(damping)
	if err != nil {
		return nil, err
	}
	right := mat.NewVecDense(b.n+b.count, nil)
	for i := range b.here.rows {
		row := &b.here.rows[i]
		for a, c := range row.Columns {
			right.SetVec(c, right.AtVec(c)-row.Values[a]*b.scale[c]*b.here.misfits[i])
		}
	}
	for k, h := range b.here.held {
		right.SetVec(b.n+k, -h/b.norms[k])
	}
	var step mat.VecDense
	if err := lu.SolveVecTo(&step, false, right); err != nil {
		return nil, err
	}
	b.weight = 0
	for k := range b.count {
		b.weight = math.Max(b.weight, 2*math.Abs(step.AtVec(b.n+k)))
	}
	return &step, nil
}

// factor factorises the damped bordered matrix of the place it is at.
func (b *bordered) factor(damping float64) (*mat.LU, error) {
	b.here.scaleColumns(b.scale)
	var lu mat.LU
	matrix := mat.NewDense(b.n+b.count, b.n+b.count, nil)
	for i := range b.here.rows {
		row := &b.here.rows[i]
		for a, c := range row.Columns {
			for k, d := range row.Columns {
				matrix.Set(c, d, matrix.At(c, d)+row.Values[a]*b.scale[c]*row.Values[k]*b.scale[d])
			}
		}
	}
	for j := range b.n {
		matrix.Set(j, j, matrix.At(j, j)+damping)
	}
	b.border(matrix)
	lu.Factorize(matrix)
	if !(lu.Cond() < 1e14) {
		return nil, ErrRank
	}
	return &lu, nil
}

func (b *bordered) border(matrix *mat.Dense) {
	for k := range b.here.ties {
		row, sum := &b.here.ties[k], 0.0
		for a, c := range row.Columns {
			sum += row.Values[a] * b.scale[c] * row.Values[a] * b.scale[c]
		}
		b.norms[k] = math.Sqrt(sum)
		for a, c := range row.Columns {
			v := row.Values[a] * b.scale[c] / b.norms[k]
			matrix.Set(c, b.n+k, v)
			matrix.Set(b.n+k, c, v)
		}
	}
}

// try takes the step if that does not raise the merit.
func (b *bordered) try(step *mat.VecDense) bool {
	for j, s := range b.scale {
		b.there.x[j] = b.here.x[j] + s*step.AtVec(j)
	}
	if !b.evaluate(b.there) {
		return false
	}
	before := b.merit(b.here)
	return b.merit(b.there) <= before+1e-13*before+b.here.chi2Blur()
}

// merit is half of chi2 and, so weighted that they cannot be traded for it,
// what the constraints are off.
func (b *bordered) merit(at *place) float64 {
	sum := at.chi2 / 2
	for k, h := range at.held {
		sum += b.weight * math.Abs(h) / b.norms[k]
	}
	return sum
}
