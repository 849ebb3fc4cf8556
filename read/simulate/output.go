package simulate

import (
	"math"
	"slices"
	"sync"
)

// Output is the distribution found for one output quantity.
type Output struct {
	Mean float64
	U    float64 // standard uncertainty: the standard deviation of the trials

	sorted []float64
}

// newOutput takes over the values of the trials and sorts them. Mean and U are
// those of JCGM 101:2008, 7.6, not-a-number where there are fewer than one and
// two trials.
func newOutput(values []float64) Output {
	n := float64(len(values))
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	o := Output{Mean: sum / n, sorted: values}
	squares := 0.0
	for _, v := range values {
		squares += (v - o.Mean) * (v - o.Mean)
	}
	o.U = math.Sqrt(squares / (n - 1))
	slices.Sort(o.sorted)
	return o
}

// newOutputs does it for all columns side by side.
func newOutputs(columns [][]float64) []Output {
	outputs := make([]Output, len(columns))
	var group sync.WaitGroup
	for k, column := range columns {
		group.Go(func() { outputs[k] = newOutput(column) })
	}
	group.Wait()
	return outputs
}

// Symmetric returns the probabilistically symmetric coverage interval at a
// level such as 0.95: as many trials lie below it as above (JCGM 101:2008,
// 7.7.2). It is not-a-number where the trials are too few for the level.
func (o *Output) Symmetric(level float64) (low, high float64) {
	inside, ok := o.inside(level)
	if !ok {
		return math.NaN(), math.NaN()
	}
	first := (len(o.sorted) - inside + 1) / 2
	return o.sorted[first-1], o.sorted[first+inside-1]
}

// Shortest returns the shortest coverage interval at a level (JCGM 101:2008,
// 7.7.4): where the distribution is lopsided it lies nearer to the peak than
// the symmetric one. It is not-a-number where the trials are too few.
func (o *Output) Shortest(level float64) (low, high float64) {
	inside, ok := o.inside(level)
	if !ok {
		return math.NaN(), math.NaN()
	}
	low, high = o.sorted[0], o.sorted[inside]
	for first := range len(o.sorted) - inside {
		if a, b := o.sorted[first], o.sorted[first+inside]; b-a < high-low {
			low, high = a, b
		}
	}
	return low, high
}

// inside returns how many trials an interval spans, q in JCGM 101, false where
// there are not enough for its ends to lie within them.
func (o *Output) inside(level float64) (int, bool) {
	q := int(math.Floor(level*float64(len(o.sorted)) + 0.5))
	return q, q > 0 && q < len(o.sorted)
}

// blur returns the standard deviation that the drawing leaves in the ends of
// the symmetric interval: half the distance of the trials that lie one
// standard deviation of the count to either side.
func (o *Output) blur(level float64) (low, high float64) {
	tail := (1 - level) / 2
	n := float64(len(o.sorted))
	at := func(p float64) float64 {
		spread := math.Sqrt(n * p * (1 - p))
		first, last := int(n*p-spread), int(n*p+spread)
		return (o.sorted[min(last, len(o.sorted)-1)] - o.sorted[max(first, 0)]) / 2
	}
	return at(tail), at(1 - tail)
}
