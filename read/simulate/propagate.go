package simulate

import (
	"context"
	"math"
	"math/rand/v2"

	"codeberg.org/oddleg/oddleg/num/grad"
)

// Model is a formula from input quantities to output quantities, written once
// for values and gradients alike.
type Model struct {
	Outputs int

	// At fills in the outputs y for the inputs x. A value that does not exist is
	// NaN. It may run in any number of goroutines.
	At func(x, y []grad.Number)
}

// Outcome is what came out of a number of trials.
type Outcome struct {
	Trials  int // all that were made
	Failed  int // those of them without a value: left out of everything else
	Outputs []Output

	products [][]float64 // mean products of the departures from the means
}

// Propagate draws the inputs, in the order in which the model takes them, that
// many times and returns the distributions of the outputs (JCGM 101:2008, 5.9;
// JCGM 102:2011 for several). A trial that gives any output no finite value
// has failed. The same seed gives the same outcome on any number of processors.
// The error is the context's: when that ends there is no outcome.
func Propagate(ctx context.Context, inputs []Input, model Model, trials int, seed uint64) (*Outcome, error) {
	goOn := func(int) bool { return ctx.Err() == nil }
	columns, failed := run(trials, model.Outputs, seed, func() trial { return model.trial(inputs) }, goOn)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	o := &Outcome{Trials: trials, Failed: failed, products: products(columns)}
	o.Outputs = newOutputs(columns)
	return o, nil
}

// trial returns a trial with working space of its own.
func (m *Model) trial(inputs []Input) trial {
	count := 0
	for _, input := range inputs {
		count += input.quantities()
	}
	drawn, x, y := make([]float64, count), make([]grad.Number, count), make([]grad.Number, m.Outputs)
	return func(random *rand.Rand, outputs []float64) bool {
		rest := drawn
		for _, input := range inputs {
			input.draw(random, rest)
			rest = rest[input.quantities():]
		}
		for i, v := range drawn {
			x[i] = grad.Const(v)
		}
		m.At(x, y)
		ok := true
		for k := range y {
			outputs[k] = y[k].X
			ok = ok && finite(y[k].X)
		}
		return ok
	}
}

// products returns the mean product of the departures of each two columns.
func products(columns [][]float64) [][]float64 {
	means := make([]float64, len(columns))
	for k, column := range columns {
		for _, v := range column {
			means[k] += v / float64(len(column))
		}
	}
	list := make([][]float64, len(columns))
	for k, a := range columns {
		list[k] = make([]float64, k+1)
		for l, b := range columns[:k+1] {
			for i := range a {
				list[k][l] += (a[i] - means[k]) * (b[i] - means[l]) / float64(len(a))
			}
		}
	}
	return list
}

// Correlation returns the correlation of two outputs, by their indices; it is
// not-a-number where one of them does not vary.
func (o *Outcome) Correlation(k, l int) float64 {
	k, l = max(k, l), min(k, l)
	return o.products[k][l] / math.Sqrt(o.products[k][k]*o.products[l][l])
}
