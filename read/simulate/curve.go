package simulate

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/lsq"
)

// An observation counts as a quadratic where that is within quadraticError of
// its standard deviation as far out as farthest standard uncertainties of the
// unknowns. At one, where most draws fall, it is then some 200 times nearer.
const (
	farthest       = 6
	quadraticError = 1e-3
	mostColumns    = 16 // of a quadratic
)

// straightness is the bend, in standard deviations of the observation at one
// standard uncertainty of its unknowns, up to which it counts as straight.
const straightness = 1e-9

// curve is an observation about the solution, in its own standard deviations:
// value + slope·δ + ½δᵀ·bend·δ for a departure δ of its unknowns where it is
// quadratic, its equation where it is not.
type curve struct {
	equation  lsq.Equation
	sigma     float64
	columns   []int
	value     float64
	slope     []float64
	bend      []float64 // k × k; nil where it is straight
	quadratic bool
}

// at returns the quadratic at a departure of all the unknowns, and its gradient
// over the curve's own, for which space is given.
func (c *curve) at(departure []float64, space *[mostColumns]float64) (misfit float64, gradient []float64) {
	misfit = c.value
	if c.bend == nil {
		for i, column := range c.columns {
			misfit += c.slope[i] * departure[column]
		}
		return misfit, c.slope
	}
	k := len(c.columns)
	for i, column := range c.columns {
		turn := 0.0
		for j, b := range c.bend[i*k : (i+1)*k] {
			turn += b * departure[c.columns[j]]
		}
		misfit += (c.slope[i] + turn/2) * departure[column]
		space[i] = c.slope[i] + turn
	}
	return misfit, space[:k]
}

// draft makes curves about a solution.
type draft struct {
	solution  []float64
	reach     []float64 // standard uncertainties of the unknowns
	found     *lsq.Solution
	departure []float64 // 0 between uses
	x         []float64 // solution + departure
	row       lsq.Row
	space     [mostColumns]float64
}

// curve returns an observation as a curve.
func (d *draft) curve(o lsq.Observation) curve {
	c := curve{equation: o.Equation, sigma: o.Sigma}
	c.value = d.evaluate(&c)
	c.columns = append(c.columns, d.row.Columns...)
	for _, v := range d.row.Values {
		c.slope = append(c.slope, v/c.sigma)
	}
	c.quadratic = len(c.columns) <= mostColumns && d.bend(&c) && d.proves(&c)
	return c
}

// evaluate returns the misfit at x and leaves its gradient, not divided by
// sigma, in the row.
func (d *draft) evaluate(c *curve) float64 {
	d.row.Reset()
	return c.equation.Eval(d.x, &d.row) / c.sigma
}

func (d *draft) move(column int, by float64) {
	d.departure[column] = by
	d.x[column] = d.solution[column] + by
}

// bend fills in the second derivatives: differences of gradients over one
// standard uncertainty to either side. It returns false where these do not
// exist.
func (d *draft) bend(c *curve) bool {
	k, largest := len(c.columns), 0.0
	bend := make([]float64, k*k)
	for j, column := range c.columns {
		for _, step := range []float64{d.reach[column], -d.reach[column]} {
			d.move(column, step)
			d.evaluate(c)
			for i, other := range c.columns {
				half := d.row.At(other) / (4 * step * c.sigma)
				bend[i*k+j] += half
				bend[j*k+i] += half
			}
		}
		d.move(column, 0)
	}
	for i, b := range bend {
		b = math.Abs(b) * d.reach[c.columns[i/k]] * d.reach[c.columns[i%k]]
		if !finite(b) {
			return false
		}
		largest = max(largest, b)
	}
	if largest > straightness {
		c.bend = bend
	}
	return true
}

// proves reports whether the quadratic is true in the direction in which the
// unknowns move the observation most, and as each of them moves the rest.
func (d *draft) proves(c *curve) bool {
	direction := make([]float64, len(c.columns))
	length := 0.0
	for i := range c.columns {
		for j := range c.columns {
			direction[i] += d.cofactor(c, i, j) * c.slope[j]
		}
		length += direction[i] * c.slope[i]
	}
	if length > 0 && !d.holds(c, direction, farthest/math.Sqrt(length)) {
		return false
	}
	for j, column := range c.columns {
		for i := range c.columns {
			direction[i] = d.cofactor(c, i, j)
		}
		if !d.holds(c, direction, farthest/d.reach[column]) {
			return false
		}
	}
	return true
}

func (d *draft) cofactor(c *curve, i, j int) float64 {
	return d.found.Cofactor(c.columns[i], c.columns[j])
}

// holds compares the quadratic with the equation on either side along a
// direction.
func (d *draft) holds(c *curve, direction []float64, part float64) bool {
	ok := true
	for _, part := range []float64{part, -part} {
		for i, column := range c.columns {
			d.move(column, part*direction[i])
		}
		quadratic, _ := c.at(d.departure, &d.space)
		ok = ok && math.Abs(d.evaluate(c)-quadratic) <= quadraticError
	}
	for _, column := range c.columns {
		d.move(column, 0)
	}
	return ok
}
