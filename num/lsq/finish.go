package lsq

import (
	"math"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
)

// finish is the orthogonal factor R of the weighted Jacobian at a place, over
// the free unknowns, scaled, as far as they can be found.
//
// The rows are turned into R one after the other by Givens rotations. What is
// all but undetermined comes last: there a pivoted factorisation tells how many
// of these columns count. Its triangle is taken into R, and the columns that do
// not count are left out of it; the others are said to be basic.
type finish struct {
	scale []float64
	ties  *ties
	r     triangle
	rank  int
	slack []float64   // Qᵀ·misfits by place: what is left for the unknowns to take up
	null  [][]float64 // orthonormal steps of the scaled unknowns that no observation sees
}

// illConditioned is from which condition number on some column of the leading
// part of R is taken to be all but undetermined, and put last.
const illConditioned = 1e8

// factorise factorises at the place the search has reached.
func (s *search) factorise() *finish {
	f := &finish{scale: make([]float64, len(s.scale)), ties: newTies(len(s.scale), len(s.p.Constraints))}
	s.here.scaleColumns(f.scale)
	f.ties.factor(s.here.ties, s.here.held, f.scale)
	kept := s.ties
	s.ties = f.ties
	s.reduce(f.scale)
	shape := s.shape
	if s.last != nil {
		shape = s.shapeWithLast()
	}
	for {
		f.rotate(s, shape)
		more := f.doubtful(s.count())
		if len(more) == 0 {
			break
		}
		if s.last == nil {
			s.last = make([]bool, len(f.ties.free))
		}
		for _, p := range more {
			s.last[shape.order[p]] = true
		}
		shape = s.shapeWithLast()
	}
	f.reveal(s.count())
	s.ties = kept
	return f
}

// count returns how many free unknowns come last.
func (s *search) count() int {
	n := 0
	for _, last := range s.last {
		if last {
			n++
		}
	}
	return n
}

func (s *search) shapeWithLast() *shape {
	return shapeOf(&s.laid, orderOf(&s.laid, len(s.ties.free), s.last))
}

// rotate turns all rows of the Jacobian into R.
func (f *finish) rotate(s *search, shape *shape) {
	f.r.reshape(shape)
	f.slack = make([]float64, len(shape.order))
	for i, misfit := range s.here.misfits {
		columns, values := s.jacobian.row(i)
		f.r.rotateIn(columns, values, misfit, f.slack)
	}
}

// doubtful returns the places before the last count that are to come last: those
// with a diagonal that all but vanishes, and where the triangle of the others is
// all but singular, the unknown that moves most where it is.
func (f *finish) doubtful(count int) []int {
	n := len(f.slack) - count
	var list []int
	least := math.Sqrt(ulp) * f.largest()
	for p := range n {
		if from, _ := f.r.span(p); math.Abs(f.r.v[from]) <= least {
			list = append(list, p)
		}
	}
	if len(list) > 0 || n == 0 {
		return list
	}
	condition, moves := f.r.condition(n)
	if condition < illConditioned {
		return nil
	}
	most := 0
	for p, v := range moves {
		if math.Abs(v) > math.Abs(moves[most]) {
			most = p
		}
	}
	return []int{most}
}

// largest returns the largest diagonal, or 1 where that is more: the columns had
// norm 1 before the constraints were put in.
func (f *finish) largest() float64 {
	most := 1.0
	for p := range f.slack {
		from, _ := f.r.span(p)
		most = math.Max(most, math.Abs(f.r.v[from]))
	}
	return most
}

// reveal finds the rank of the last places and takes those that do not count out
// of R.
func (f *finish) reveal(count int) {
	n := len(f.slack) - count
	if f.rank = n; count == 0 {
		return
	}
	b := dense(count, count)
	for p := range count {
		from, to := f.r.span(n + p)
		for k := from; k < to; k++ {
			b.Data[p*b.Stride+f.r.to[k]-n] = f.r.v[k]
		}
	}
	q := factorPivoted(b, rankTolerance*f.largest())
	f.rank += q.rank
	q.turn(f.slack[n:])
	f.findNull(n, q)
	f.r = f.r.revealed(n, q)
	f.slack = f.slack[:f.rank]
}

// findNull finds the steps that no observation sees: one for each of the last
// places that does not count, with the basic unknowns as they must move with it.
func (f *finish) findNull(n int, q *pivoted) {
	defect := len(q.pivots) - q.rank
	if defect == 0 {
		return
	}
	directions, step := dense(len(f.scale), defect), make([]float64, len(f.scale))
	for d := range defect {
		f.ties.widen(f.follow(n, q.against(d)), step)
		blas64.Copy(vector(step), columnOf(directions, d))
	}
	orthonormalise(directions)
	for d := range defect {
		direction := make([]float64, len(f.scale))
		blas64.Copy(columnOf(directions, d), vector(direction))
		f.null = append(f.null, direction)
	}
}

// follow returns how the free unknowns move where those of the last places move
// so and no observation sees it.
func (f *finish) follow(n int, last []float64) []float64 {
	x, y := make([]float64, len(f.slack)), make([]float64, len(f.slack))
	copy(x[n:], last)
	for p := n - 1; p >= 0; p-- {
		x[p] = f.r.solved(p, len(x), x)
	}
	for p, c := range f.r.order {
		y[c] = x[p]
	}
	return y
}

// newton returns the undamped step that takes the slack up.
func (f *finish) newton() []float64 {
	b := append([]float64(nil), f.slack...)
	f.r.solve(b)
	y, step := make([]float64, len(f.ties.free)), make([]float64, len(f.scale))
	for p, c := range f.r.order {
		y[c] = -b[p]
	}
	f.ties.widen(y, step)
	for _, direction := range f.null {
		floats.AddScaled(step, -floats.Dot(direction, step), direction)
	}
	for j, scale := range f.scale {
		step[j] *= scale
	}
	return step
}

// seen returns the row of Q of one observation: what R⁻ᵀ makes of its row of
// the Jacobian. The square of its length is 1 less the redundancy.
func (f *finish) seen(s *search, i int) sparse { return f.r.solveRow(s.jacobian.row(i)) }

// moved returns the row of an unknown in the matrix F over the places with FFᵀ
// the cofactors: F = S·(I - NNᵀ)·Z·R⁻¹ with the scales S and the null
// directions N. Where the rank is short it moves nothing along these.
func (f *finish) moved(j int) sparse {
	const none = 1e-12
	if f.across(j) <= none {
		return f.r.solveRow(f.ties.of(j)).scaled(f.scale[j])
	}
	whole := make([]float64, len(f.scale))
	whole[j] = 1
	for _, direction := range f.null {
		floats.AddScaled(whole, -direction[j], direction)
	}
	b := make([]float64, f.rank)
	for i, v := range whole {
		columns, values := f.ties.of(i)
		for a, c := range columns {
			if p := f.r.place[c]; p >= 0 {
				b[p] += v * values[a]
			}
		}
	}
	f.r.solveTransposed(b)
	return compressed(b).scaled(f.scale[j])
}

// across returns how much of a step of one unknown lies along the null
// directions.
func (f *finish) across(j int) float64 {
	sum := 0.0
	for _, direction := range f.null {
		sum += direction[j] * direction[j]
	}
	return math.Sqrt(sum)
}

// polish takes undamped steps through the orthogonal factor until they are at
// the level of rounding, and returns the factor there. It is false where the
// slack that is left is not small.
func (s *search) polish() (f *finish, converged bool) {
	const mostRounds, small, short = 20, 1e-6, 1e-10
	last := math.Inf(1)
	for round := 0; ; round++ {
		g := s.factorise()
		size, misfit := norm(g.slack), math.Sqrt(s.here.chi2)
		if size > last { // the step before made it worse
			s.here, s.there = s.there, s.here
			return f, converged
		}
		f, converged = g, size <= small*misfit+10*s.here.blur
		if size <= s.here.blur || size > 0.9*last || round == mostRounds || !s.refine(f.newton()) {
			return f, converged
		}
		if size <= short*misfit+s.here.blur { // so short a step leaves the factor as it is
			return f, converged
		}
		last = size
	}
}

// refine takes a step unless it raises chi2 by more than rounding can.
func (s *search) refine(step []float64) bool {
	for j, d := range step {
		s.there.x[j] = s.here.x[j] + d
	}
	if _, ok := s.settle(s.there); !ok {
		return false
	}
	_, ok := s.there.evaluateMisfits(s.p)
	if !ok || s.there.chi2 > s.here.chi2+s.here.chi2Blur() {
		return false
	}
	s.here, s.there = s.there, s.here
	return true
}

func norm(v []float64) float64 { return floats.Norm(v, 2) }
