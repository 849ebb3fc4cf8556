package simulate

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"codeberg.org/oddleg/oddleg/num/lsq"
)

// ties are the exact relations about the solution.
type ties struct {
	equations []lsq.Equation

	// inverse has a row for each relation: the change of the unknowns that makes
	// it one more and leaves the others. Relations that follow from others share
	// theirs.
	inverse *mat.Dense

	// back is the inverse, turned so that the change costs the observations
	// least.
	back *mat.Dense

	pull []float64 // multipliers at the solution
}

// newTies prepares the relations of a problem, nil where there are none. The
// slope is that of half of chi-square at the solution.
func newTies(d *draft, equations []lsq.Equation, curves []curve, slope []float64) *ties {
	n, count := len(d.solution), len(equations)
	if n == 0 || count == 0 {
		return nil
	}
	t := &ties{equations: equations}
	gradients := mat.NewDense(count, n, nil)
	for k, e := range equations {
		d.row.Reset()
		e.Eval(d.x, &d.row)
		for i, column := range d.row.Columns {
			gradients.Set(k, column, gradients.At(k, column)+d.row.Values[i])
		}
	}
	t.inverse = inverse(gradients)
	t.back = mat.NewDense(count, n, nil)
	t.pull = make([]float64, count)
	for k := range count {
		change := t.inverse.RawRowView(k)
		t.pull[k] = -dot(change, slope)
		t.turn(d, curves, change, t.back.RawRowView(k))
	}
	return t
}

// turn sets into to (I - Q·N)·change, where Q are the cofactors and N is the
// normal matrix.
func (t *ties) turn(d *draft, curves []curve, change, into []float64) {
	n := len(change)
	load := make([]float64, n)
	for i := range curves {
		c := &curves[i]
		moved := 0.0
		for a, column := range c.columns {
			moved += c.slope[a] * change[column]
		}
		for a, column := range c.columns {
			load[column] += c.slope[a] * moved
		}
	}
	d.found.Apply(load, into, make([]float64, n))
	for j := range n {
		into[j] = change[j] - into[j]
	}
}

// inverse returns the transposed pseudoinverse of the gradients of relations, a
// row each.
func inverse(gradients *mat.Dense) *mat.Dense {
	const dependent = 1e-10 // singular values, relative to the largest
	count, n := gradients.Dims()
	norms := make([]float64, count)
	for k := range count {
		row := gradients.RawRowView(k)
		norms[k] = math.Sqrt(dot(row, row))
		if norms[k] == 0 {
			norms[k] = 1
		}
		for j := range row {
			row[j] /= norms[k]
		}
	}
	var svd mat.SVD
	if !svd.Factorize(gradients, mat.SVDThin) {
		panic("simulate: the gradients of the exact relations are not finite at the solution")
	}
	values := svd.Values(nil)
	rank := 0
	for rank < len(values) && values[rank] > dependent*values[0] {
		rank++
	}
	result := mat.NewDense(count, n, nil)
	if rank == 0 {
		return result
	}
	identity := mat.NewDiagDense(count, nil)
	for k := range count {
		identity.SetDiag(k, 1/norms[k])
	}
	var solved mat.Dense
	svd.SolveTo(&solved, identity, rank)
	result.CloneFrom(solved.T())
	return result
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}
