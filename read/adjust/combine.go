package adjust

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Combined is a quantity that follows from what was found: its value, its
// gradient by the unknowns of the adjustment, and whether it is determined.
type Combined struct {
	Value      float64
	Gradient   lsq.Row
	By         map[string]float64 // derivatives by every name in it
	Given      map[string]float64 // those of them by names that were given from outside
	Determined bool
}

// Formula is an expression over the sizes and gauge pieces of a job, as package
// expr makes it.
type Formula interface {
	Names() []string
	Eval(values, gradient []float64) float64
}

// Combine works out an expression over sizes and gauge pieces at the solution,
// and over names whose values are given, such as sizes of a part to be made.
// All names in it are known.
func (r *Result) Combine(f Formula, given map[string]float64) Combined {
	names := f.Names()
	values, gradient := make([]float64, len(names)), make([]float64, len(names))
	parts := make([]Combined, len(names))
	for i, name := range names {
		if value, ok := given[name]; ok {
			values[i] = value
			continue
		}
		parts[i] = r.Named(name)
		values[i] = parts[i].Value
	}
	c := Combined{Value: f.Eval(values, gradient), By: map[string]float64{}, Given: map[string]float64{}}
	for i, name := range names {
		c.By[name] = gradient[i]
		if _, ok := given[name]; ok {
			c.Given[name] = gradient[i]
			continue
		}
		c.add(parts[i], gradient[i])
	}
	c.Determined = r.settles(c)
	return c
}

// Coordinate returns the x (axis 0) or y (axis 1) of a hole or circle.
func (r *Result) Coordinate(place string, axis int) Combined {
	column := r.found.model.places[place][axis]
	if column < 0 {
		return Combined{Determined: true}
	}
	return r.unknown(column)
}

// add adds k times the gradient of another quantity.
func (c *Combined) add(o Combined, k float64) {
	for i, column := range o.Gradient.Columns {
		c.Gradient.Add(column, k*o.Gradient.Values[i])
	}
}

// Named returns a size or gauge piece as it was found, with the gradient by
// itself.
func (r *Result) Named(id string) Combined {
	if column, ok := r.found.sizes[id]; ok {
		return r.unknown(column)
	}
	if column, ok := r.found.pieces[id]; ok {
		return r.unknown(column)
	}
	if size := r.Size(id); size != nil {
		return Combined{Value: size.Value, Determined: true}
	}
	return Combined{Value: r.Job.Piece(id).Size.Inside(), Determined: true}
}

func (r *Result) unknown(column int) Combined {
	c := Combined{Value: r.found.X[column], Determined: r.found.Determined(column)}
	c.Gradient.Add(column, 1)
	return c
}

// settles reports whether a quantity is determined: it may be where the sizes
// in it are not.
func (r *Result) settles(c Combined) bool { return r.found.Estimable(&c.Gradient) }

// CovarianceOf returns the covariance of two quantities, NaN where one is not
// determined.
func (r *Result) CovarianceOf(a, b Combined) float64 {
	if !a.Determined || !b.Determined {
		return math.NaN()
	}
	sum := 0.0
	for i, p := range a.Gradient.Columns {
		for j, q := range b.Gradient.Columns {
			sum += a.Gradient.Values[i] * b.Gradient.Values[j] * r.found.Cofactor(p, q)
		}
	}
	return sum
}

// InfluenceOf returns how a quantity follows each observation of Observations:
// its change for one standard deviation of it, to first order. The products of
// the influences of two quantities that are determined add up to their
// covariance.
func (r *Result) InfluenceOf(c Combined) []float64 {
	sum := make([]float64, len(r.found.index))
	for i, column := range c.Gradient.Columns {
		for k, influence := range r.found.Influence(column) {
			sum[k] += c.Gradient.Values[i] * influence
		}
	}
	return sum
}

// UOf returns the standard uncertainty of a quantity, NaN where it is not
// determined.
func (r *Result) UOf(c Combined) float64 {
	return math.Sqrt(max(0, r.CovarianceOf(c, c)))
}

// DimensionOf returns what a size or gauge piece measures, false for an id that
// is neither.
func (r *Result) DimensionOf(id string) (unit.Dimension, bool) {
	if size := r.Job.Size(id); size != nil {
		return size.Kind.Dimension(), true
	}
	return unit.Length, r.Job.Piece(id) != nil
}
