package mating

import (
	"maps"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/read/simulate"
)

// spread is how the values depart from what was found: by the first columns
// times independent normal quantities of mean 0 and deviation 1, for what the
// readings leave open, and by the others times rectangular ones from -1 to 1,
// one for each size of the part, made anywhere between its limits.
type spread struct {
	normal, rectangular *mat.Dense
}

func (s *sizes) spread() spread { return spread{s.readings(), s.making()} }

// readings returns the columns of the readings: those of V√ΛVᵀ where VΛVᵀ is the
// covariance. It is taken apart so and not by Cholesky since sizes that are
// known far better together than alone leave it singular to rounding; and not
// V√Λ, whose columns turn with the last bit where two variances are alike: what
// is drawn is then the same everywhere.
func (s *sizes) readings() *mat.Dense {
	n := len(s.list)
	covariance := mat.NewSymDense(n, nil)
	for i := range n {
		for j := range i + 1 {
			covariance.SetSym(i, j, s.found.CovarianceOf(s.list[i], s.list[j]))
		}
	}
	var parts mat.EigenSym
	if !parts.Factorize(covariance, true) {
		panic("mating: a covariance has no eigenvalues")
	}
	var vectors, stretched, columns mat.Dense
	parts.VectorsTo(&vectors)
	stretched.CloneFrom(&vectors)
	for j, variance := range parts.Values(nil) {
		for i := range n {
			stretched.Set(i, j, vectors.At(i, j)*math.Sqrt(max(0, variance)))
		}
	}
	columns.Mul(&stretched, vectors.T())
	return &columns
}

// making returns the columns of the sizes of the part, nil where there are none.
func (s *sizes) making() *mat.Dense {
	used := map[string]bool{}
	for _, c := range s.list {
		for name := range c.Given {
			used[name] = true
		}
	}
	if len(used) == 0 {
		return nil
	}
	names := slices.Sorted(maps.Keys(used))
	columns := mat.NewDense(len(s.list), len(names), nil)
	for j, name := range names {
		made := s.made.Of(strings.TrimPrefix(name, prefix))
		for i, c := range s.list {
			columns.Set(i, j, c.Given[name]*(made.High-made.Low)/2)
		}
	}
	return columns
}

func rectangles(n int) []simulate.Input {
	list := make([]simulate.Input, n)
	for i := range list {
		list[i] = simulate.Rectangular{Low: -1, High: 1}
	}
	return list
}

// inputs returns the independent quantities that the values depart by.
func (s spread) inputs() []simulate.Input {
	_, n := s.normal.Dims()
	list := make([]simulate.Input, n)
	for i := range list {
		list[i] = simulate.Normal{U: 1}
	}
	if s.rectangular == nil {
		return list
	}
	_, made := s.rectangular.Dims()
	return append(list, rectangles(made)...)
}

// apply departs from values by what was drawn and returns what is left over of
// that.
func (s spread) apply(values []float64, drawn []grad.Number) []grad.Number {
	for _, columns := range []*mat.Dense{s.normal, s.rectangular} {
		if columns == nil {
			continue
		}
		rows, n := columns.Dims()
		for i := range rows {
			for j := range n {
				values[i] += columns.At(i, j) * drawn[j].X
			}
		}
		drawn = drawn[n:]
	}
	return drawn
}
