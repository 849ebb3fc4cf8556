package lsq

import (
	"math"
	"strconv"
	"testing"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/testdata/certified"
)

// example is a published entry with the comparisons of this package.
type example struct{ *certified.Entry }

// published returns the entry with this id, its inputs read into inputs.
func published(t *testing.T, id string, inputs any) *example {
	t.Helper()
	e := certified.Example(t, id)
	e.Read(t, inputs)
	return &example{e}
}

func (e *example) compare(t *testing.T, name string, got float64) {
	t.Helper()
	e.Compare(t, name, got)
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	return certified.Number(t, text)
}

func numbers(t *testing.T, texts []string) []float64 {
	list := make([]float64, len(texts))
	for i, text := range texts {
		list[i] = number(t, text)
	}
	return list
}

func table(t *testing.T, path string) [][]string {
	t.Helper()
	return certified.Table(t, path)
}

// digits returns to how many significant digits got agrees with want.
func digits(got, want float64) float64 {
	if got == want {
		return 16
	}
	return -math.Log10(math.Abs(got-want) / math.Abs(want))
}

// model is a function of some of the unknowns, written with gradients.
type model struct {
	columns []int
	f       func(b []grad.Number) grad.Number
}

func (m model) Eval(x []float64, row *Row) float64 {
	b := make([]grad.Number, len(m.columns))
	for i, c := range m.columns {
		b[i] = grad.Var(x[c], i)
	}
	value := m.f(b)
	for i, c := range m.columns {
		row.Add(c, value.D[i])
	}
	return value.X
}

// over returns the columns from first to last.
func over(first, last int) []int {
	var columns []int
	for c := first; c <= last; c++ {
		columns = append(columns, c)
	}
	return columns
}

// polynomial returns b0 + b1·x + b2·x² ...
func polynomial(x float64, b ...grad.Number) grad.Number {
	sum := grad.Const(0)
	for i := len(b) - 1; i >= 0; i-- {
		sum = sum.Times(x).Add(b[i])
	}
	return sum
}

var one = grad.Const(1)

// regressions are the certified nonlinear regressions: y = f(b, x).
var regressions = []struct {
	id string
	f  func(b []grad.Number, x float64) grad.Number
}{
	{"ls-nist-thurber", func(b []grad.Number, x float64) grad.Number {
		return polynomial(x, b[:4]...).Div(polynomial(x, one, b[4], b[5], b[6]))
	}},
	{"ls-nist-mgh09", func(b []grad.Number, x float64) grad.Number {
		return b[0].Mul(b[1].Times(x).Plus(x * x)).Div(b[2].Times(x).Plus(x * x).Add(b[3]))
	}},
	{"ls-nist-eckerle4", func(b []grad.Number, x float64) grad.Number {
		return b[0].Div(b[1]).Mul(grad.Const(x).Sub(b[2]).Div(b[1]).Sq().Times(-0.5).Exp())
	}},
	{"ls-nist-rat43", func(b []grad.Number, x float64) grad.Number {
		return b[0].Div(grad.Pow(b[1].Sub(b[2].Times(x)).Exp().Plus(1), one.Div(b[3])))
	}},
	{"ls-nist-rat42", func(b []grad.Number, x float64) grad.Number {
		return b[0].Div(b[1].Sub(b[2].Times(x)).Exp().Plus(1))
	}},
	{"ls-nist-danwood", func(b []grad.Number, x float64) grad.Number {
		return b[0].Mul(grad.Pow(grad.Const(x), b[1]))
	}},
	{"ls-nist-kirby2", func(b []grad.Number, x float64) grad.Number {
		return polynomial(x, b[:3]...).Div(polynomial(x, one, b[3], b[4]))
	}},
	{"ls-nist-mgh17", func(b []grad.Number, x float64) grad.Number {
		return b[0].Add(b[1].Mul(b[3].Times(-x).Exp())).Add(b[2].Mul(b[4].Times(-x).Exp()))
	}},
}

type regression struct {
	CSV    string   `yaml:"csv"`
	Start1 []string `yaml:"start1"`
	Start2 []string `yaml:"start2"`
}

// problem returns the unweighted regression from the given start.
func (r *regression) problem(t *testing.T, f func(b []grad.Number, x float64) grad.Number, start []string) Problem {
	p := Problem{Start: numbers(t, start)}
	for _, row := range table(t, r.CSV) {
		y, x := number(t, row[0]), number(t, row[1])
		misfit := func(b []grad.Number) grad.Number { return f(b, x).Plus(-y) }
		p.Observations = append(p.Observations, Observation{model{over(0, len(start)-1), misfit}, 1})
	}
	return p
}

// TestCertifiedRegressions asks for ten digits from both certified starts.
func TestCertifiedRegressions(t *testing.T) {
	for _, r := range regressions {
		t.Run(r.id, func(t *testing.T) {
			var inputs regression
			e := published(t, r.id, &inputs)
			for _, start := range [][]string{inputs.Start1, inputs.Start2} {
				s, err := Solve(inputs.problem(t, r.f, start))
				if err != nil || !s.Converged {
					t.Fatalf("from %v: %v, %+v", start, err, s)
				}
				e.compareRegression(t, s)
			}
		})
	}
}

func (e *example) compareRegression(t *testing.T, s *Solution) {
	t.Helper()
	const enough = 10
	for j, x := range s.X {
		f := e.Figure(t, "b"+strconv.Itoa(j+1))
		if d := digits(x, f.Number(t)); d < enough {
			t.Errorf("%s = %.11g, certified %s: %.1f digits", f.Name, x, f.Value, d)
		}
		deviation := math.Sqrt(s.Cofactor(j, j) * s.S2())
		if d := digits(deviation, number(t, f.StandardDeviation)); d < enough {
			t.Errorf("s(%s) = %.11g, certified %s: %.1f digits", f.Name, deviation, f.StandardDeviation, d)
		}
	}
	for name, got := range map[string]float64{
		"residual sum of squares": s.Chi2, "residual standard deviation": math.Sqrt(s.S2()), "degrees of freedom": float64(s.Dof),
	} {
		if f := e.Figure(t, name); digits(got, f.Number(t)) < enough {
			t.Errorf("%s = %.11g, certified %s", name, got, f.Value)
		}
	}
}
