package simulate

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Input is what is known of one input quantity, or of several that depend on
// each other.
type Input interface {
	quantities() int
	draw(random *rand.Rand, into []float64)
}

// Estimate is what JCGM 100 takes of an input quantity: its value, the standard
// uncertainty of that, and the degrees of freedom of the uncertainty, 0 where
// it is taken to be known without doubt.
type Estimate struct {
	Value, U, Dof float64
}

// The distributions of single quantities (JCGM 101:2008, table 1).
type (
	// Normal has the standard deviation U.
	Normal struct{ Mean, U float64 }

	// Rectangular lies anywhere between two limits.
	Rectangular struct{ Low, High float64 }

	// Triangular is the sum of two rectangular quantities of equal width.
	Triangular struct{ Low, High float64 }

	// Trapezoidal is the sum of two rectangular quantities; its top is Top times
	// as wide as its base, 0 to 1.
	Trapezoidal struct{ Low, High, Top float64 }

	// CurvilinearTrapezoidal is rectangular, with limits that are themselves
	// known only to ±Inexact, the width being what varies.
	CurvilinearTrapezoidal struct{ Low, High, Inexact float64 }

	// Arcsine is what swings like a sine between two limits, met at any time.
	Arcsine struct{ Low, High float64 }

	// Student is the t-distribution about Mean, scaled by Scale: what a mean
	// whose standard deviation Scale was found with Dof degrees of freedom
	// leaves open. Its own standard deviation is Scale·√(Dof/(Dof-2)).
	Student struct{ Mean, Scale, Dof float64 }
)

func (Normal) quantities() int                 { return 1 }
func (Rectangular) quantities() int            { return 1 }
func (Triangular) quantities() int             { return 1 }
func (Trapezoidal) quantities() int            { return 1 }
func (CurvilinearTrapezoidal) quantities() int { return 1 }
func (Arcsine) quantities() int                { return 1 }
func (Student) quantities() int                { return 1 }

func (d Normal) draw(random *rand.Rand, into []float64) {
	into[0] = d.Mean + d.U*random.NormFloat64()
}

func (d Rectangular) draw(random *rand.Rand, into []float64) {
	into[0] = between(d.Low, d.High, random.Float64())
}

func (d Triangular) draw(random *rand.Rand, into []float64) {
	into[0] = between(d.Low, d.High, (random.Float64()+random.Float64())/2)
}

func (d Trapezoidal) draw(random *rand.Rand, into []float64) {
	into[0] = between(d.Low, d.High, ((1+d.Top)*random.Float64()+(1-d.Top)*random.Float64())/2)
}

// JCGM 101:2008, 6.4.3.4: both limits move by the same amount, apart.
func (d CurvilinearTrapezoidal) draw(random *rand.Rand, into []float64) {
	out := d.Inexact * (2*random.Float64() - 1)
	into[0] = between(d.Low-out, d.High+out, random.Float64())
}

func (d Arcsine) draw(random *rand.Rand, into []float64) {
	into[0] = between(d.Low, d.High, (1+math.Sin(2*math.Pi*random.Float64()))/2)
}

func (d Student) draw(random *rand.Rand, into []float64) {
	z := random.NormFloat64()
	chi2 := distuv.ChiSquared{K: d.Dof, Src: random}.Rand()
	into[0] = d.Mean + d.Scale*z/math.Sqrt(chi2/d.Dof)
}

func between(low, high, part float64) float64 { return low + (high-low)*part }

// Estimate returns mean and standard deviation.
func (d Normal) Estimate() Estimate { return Estimate{Value: d.Mean, U: d.U} }

// Estimate returns the middle and a/√3, a the half width.
func (d Rectangular) Estimate() Estimate { return aboutMiddle(d.Low, d.High, 1/math.Sqrt(3)) }

// Estimate returns the middle and a/√6, a the half width.
func (d Triangular) Estimate() Estimate { return aboutMiddle(d.Low, d.High, 1/math.Sqrt(6)) }

// Estimate returns the middle and a·√((1+Top²)/6), a the half width.
func (d Trapezoidal) Estimate() Estimate {
	return aboutMiddle(d.Low, d.High, math.Sqrt((1+d.Top*d.Top)/6))
}

// Estimate returns the middle and a/√2, a the half width.
func (d Arcsine) Estimate() Estimate { return aboutMiddle(d.Low, d.High, 1/math.Sqrt2) }

// Estimate returns mean, scale and degrees of freedom: JCGM 100 takes the
// scale for the standard uncertainty and makes up for it by the last.
func (d Student) Estimate() Estimate { return Estimate{Value: d.Mean, U: d.Scale, Dof: d.Dof} }

// Estimate returns the middle and a/√3, a the half width, with ½(a/Inexact)²
// degrees of freedom (JCGM 100:2008, G.4.2): the doubt about the limits counts
// there and not in the uncertainty.
func (d CurvilinearTrapezoidal) Estimate() Estimate {
	e := aboutMiddle(d.Low, d.High, 1/math.Sqrt(3))
	a := (d.High - d.Low) / 2
	e.Dof = a * a / (2 * d.Inexact * d.Inexact)
	return e
}

func aboutMiddle(low, high, factor float64) Estimate {
	return Estimate{Value: (low + high) / 2, U: (high - low) / 2 * factor}
}

// JointNormal is several quantities that are normal together.
type JointNormal struct {
	mean   []float64
	factor *mat.Dense // factor·factorᵀ is the covariance
}

// NewJointNormal returns quantities with these means and covariances. It panics
// where the covariance is no covariance: not positive semidefinite.
func NewJointNormal(mean []float64, covariance *mat.SymDense) *JointNormal {
	return &JointNormal{mean: mean, factor: root(covariance)}
}

func (d *JointNormal) quantities() int { return len(d.mean) }

func (d *JointNormal) draw(random *rand.Rand, into []float64) {
	copy(into, d.mean)
	for j := range d.mean {
		z := random.NormFloat64()
		for i := range d.mean {
			into[i] += d.factor.At(i, j) * z
		}
	}
}

// root returns a matrix that times its transpose is s. Independent quantities
// keep a column each; s may be singular.
func root(s *mat.SymDense) *mat.Dense {
	n := s.SymmetricDim()
	l := mat.NewDense(n, n, nil)
	for j := range n {
		for i := j; i < n; i++ {
			rest := s.At(i, j)
			for k := range j {
				rest -= l.At(i, k) * l.At(j, k)
			}
			l.Set(i, j, rooted(rest, l.At(j, j), i == j, s.At(i, i)))
		}
	}
	return l
}

// rooted returns one element of the Cholesky factor from what the columns
// before leave of it. Less than nothing can only be left by rounding.
func rooted(rest, pivot float64, diagonal bool, whole float64) float64 {
	const rounding = 1e-12
	switch {
	case diagonal && rest < -rounding*whole:
		panic("simulate: a covariance that is not positive semidefinite")
	case diagonal:
		return math.Sqrt(max(0, rest))
	case pivot == 0:
		return 0
	}
	return rest / pivot
}
