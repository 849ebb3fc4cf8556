package lsq

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/num/grad"
)

func mustSolve(t *testing.T, p Problem) *Solution {
	t.Helper()
	s, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if !s.Converged {
		t.Fatalf("not converged after %d iterations, chi2 %g", s.Iterations, s.Chi2)
	}
	return s
}

// observe adds a unit-weight observation written with gradients.
func (p *Problem) observe(sigma float64, columns []int, f func(b []grad.Number) grad.Number) {
	p.Observations = append(p.Observations, Observation{model{columns, f}, sigma})
}

// constrain adds a constraint written with gradients.
func (p *Problem) constrain(columns []int, f func(b []grad.Number) grad.Number) {
	p.Constraints = append(p.Constraints, model{columns, f})
}

type points struct {
	Points [][2]float64 `yaml:"points"`
}

func TestCircle(t *testing.T) {
	const id = "ls-circle-ggs"
	t.Run(id, func(t *testing.T) {
		var inputs points
		e := published(t, id, &inputs)
		p := Problem{Start: []float64{5, 6, 1}}
		for _, at := range inputs.Points {
			p.observe(1, over(0, 2), func(b []grad.Number) grad.Number {
				dx, dy := b[0].Plus(-at[0]), b[1].Plus(-at[1])
				return dx.Sq().Add(dy.Sq()).Sqrt().Sub(b[2])
			})
		}
		s := mustSolve(t, p)
		e.compare(t, "geometric centre x", s.X[0])
		e.compare(t, "geometric centre y", s.X[1])
		e.compare(t, "geometric radius", s.X[2])
	})
}

// TestEllipse fits by orthogonal distance: every point has the angle of its
// foot on the ellipse as an unknown of its own.
func TestEllipse(t *testing.T) {
	const id = "ls-ellipse-ggs"
	t.Run(id, func(t *testing.T) {
		var inputs points
		e := published(t, id, &inputs)
		p := Problem{Start: []float64{5, 5, 5, 3, 0.5}}
		for i, at := range inputs.Points {
			p.Start = append(p.Start, math.Atan2(at[1]-5, at[0]-5)-0.5)
			p.observeOnEllipse(5+i, at)
		}
		s := mustSolve(t, p)
		for j, name := range []string{"centre x", "centre y", "semi-axis a", "semi-axis b", "angle of a"} {
			e.compare(t, name, s.X[j])
		}
		e.compare(t, "norm of residuals", math.Sqrt(s.Chi2))
	})
}

// observeOnEllipse observes x and y of the point with parameter foot on the
// ellipse with centre, semi-axes and angle in the first five unknowns.
func (p *Problem) observeOnEllipse(foot int, at [2]float64) {
	p.observe(1, []int{0, 2, 3, 4, foot}, func(b []grad.Number) grad.Number {
		along, across := b[1].Mul(b[4].Cos()), b[2].Mul(b[4].Sin())
		return b[0].Add(along.Mul(b[3].Cos())).Sub(across.Mul(b[3].Sin())).Plus(-at[0])
	})
	p.observe(1, []int{1, 2, 3, 4, foot}, func(b []grad.Number) grad.Number {
		along, across := b[1].Mul(b[4].Cos()), b[2].Mul(b[4].Sin())
		return b[0].Add(along.Mul(b[3].Sin())).Add(across.Mul(b[3].Cos())).Plus(-at[1])
	})
}

// TestLineWithErrorsInBoth has the true x of every point as an unknown.
func TestLineWithErrorsInBoth(t *testing.T) {
	const id = "ls-odr-pearson-york"
	t.Run(id, func(t *testing.T) {
		var inputs struct {
			X, Y   []float64
			WX, WY []float64
		}
		e := published(t, id, &inputs)
		p := Problem{Start: append([]float64{6, -1}, inputs.X...)}
		for i, x := range inputs.X {
			y := inputs.Y[i]
			p.observe(1/math.Sqrt(inputs.WX[i]), []int{2 + i}, func(b []grad.Number) grad.Number { return b[0].Plus(-x) })
			p.observe(1/math.Sqrt(inputs.WY[i]), []int{0, 1, 2 + i}, func(b []grad.Number) grad.Number {
				return b[0].Add(b[1].Mul(b[2])).Plus(-y)
			})
		}
		s := mustSolve(t, p)
		for _, more := range []string{"", ", more digits"} {
			e.compare(t, "intercept"+more, s.X[0])
			e.compare(t, "slope"+more, s.X[1])
		}
		e.compare(t, "reduced chi-square (8 dof)", s.S2())
		e.compare(t, "standard error of intercept (unified equations, not scaled)", math.Sqrt(s.Cofactor(0, 0)))
		e.compare(t, "standard error of slope (unified equations, not scaled)", math.Sqrt(s.Cofactor(1, 1)))
	})
}

func TestThermometer(t *testing.T) {
	const id = "u-gum-h3"
	t.Run(id, func(t *testing.T) {
		var inputs struct {
			T []float64 `yaml:"t_degC"`
			B []float64 `yaml:"b_degC"`
		}
		e := published(t, id, &inputs)
		p := Problem{Start: make([]float64, 2)}
		for i, at := range inputs.T {
			correction := inputs.B[i]
			p.observe(1, over(0, 1), func(b []grad.Number) grad.Number {
				return polynomial(at-20, b...).Plus(-correction)
			})
		}
		s := mustSolve(t, p)
		s0 := math.Sqrt(s.S2())
		u1, u2 := s0*math.Sqrt(s.Cofactor(0, 0)), s0*math.Sqrt(s.Cofactor(1, 1))
		u12 := s0 * s0 * s.Cofactor(0, 1)
		for name, got := range map[string]float64{
			"y1": s.X[0], "y2": s.X[1], "s(y1)": u1, "s(y2)": u2, "s": s0,
			"r(y1,y2)":      u12 / (u1 * u2),
			"b(30 degC)":    s.X[0] + 10*s.X[1],
			"u(b(30 degC))": math.Sqrt(u1*u1 + 100*u2*u2 + 20*u12),
		} {
			e.compare(t, name, got)
		}
	})
}

func TestLineThroughOrigin(t *testing.T) {
	const id = "u-gum5-9-line-through-origin"
	t.Run(id, func(t *testing.T) {
		var inputs struct{ X, Y, S, N []float64 }
		e := published(t, id, &inputs)
		ordinary, weighted := Problem{Start: []float64{0}}, Problem{Start: []float64{0}}
		for i, x := range inputs.X {
			misfit := func(b []grad.Number) grad.Number { return b[0].Times(x).Plus(-inputs.Y[i]) }
			ordinary.observe(1/math.Sqrt(inputs.N[i]), []int{0}, misfit) // n readings, their mean given
			weighted.observe(inputs.S[i]/math.Sqrt(inputs.N[i]), []int{0}, misfit)
		}
		e.compare(t, "slope, ordinary", mustSolve(t, ordinary).X[0])
		e.compare(t, "slope, weighted", mustSolve(t, weighted).X[0])
	})
}
