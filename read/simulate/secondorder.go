package simulate

import (
	"math"
	"math/bits"

	"gonum.org/v1/gonum/stat"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// SecondOrder lets pass what no one could see.
const (
	tooFine     = 1e-4 // mm
	tooFineTurn = 1e-6 // radians
)

// mostPairs is the largest number of pairs of points that SecondOrder solves
// at. With more observations than that it sees a part of what they do together.
const mostPairs = 64

// SecondOrder says, without drawing, for which sizes the adjustment is off
// because it takes everything as straight: a ball nearly at its limit, a square
// near zero. It adjusts again with every observation one standard deviation
// off, plus and minus in a balanced order, and at the likeliest places of the
// two ends of each size's interval. For terms of second order the shift it
// finds is exact; the ends are where one direction matters most.
func SecondOrder(r *adjust.Result) []adjust.Warning {
	if _, solution := r.Solved(); !solution.Converged {
		return nil
	}
	p := newProbe(r)
	p.pairs()
	var list []adjust.Warning
	if p.answered < p.asked {
		list = append(list, adjust.Warning{Text: unit.Words("with the readings only a little off there would be no such set-up, so that the uncertainties say little" + see)})
	}
	for n := range p.sizes {
		p.ends(n)
		if text := p.sizes[n].text(); !text.Empty() && p.answered > 0 {
			list = append(list, adjust.Warning{Text: unit.Say("%s%s", text, see)})
		}
	}
	return list
}

const see = "; see it in full with --simulate 100000"

// probe solves a job at chosen places.
type probe struct {
	*walk
	errors   []float64
	sizes    []probed
	up, down []float64 // changes of the sizes at a place and at its opposite
	asked    int       // pairs of opposite places
	answered int       // those of them that both had a solution
}

// probed is what is found of one size.
type probed struct {
	adjust.Size
	column    int
	shift     float64 // of the mean
	spread    float64 // of the middles of the pairs
	low, high float64 // ends of the interval, NaN where there is no solution
}

func newProbe(r *adjust.Result) *probe {
	p := &probe{walk: newChord(r).walk()}
	p.errors = make([]float64, len(p.curves))
	for _, size := range r.Sizes {
		if column, varies := r.Column(size.ID); varies && size.Determined {
			p.sizes = append(p.sizes, probed{Size: size, column: column})
		}
	}
	p.up, p.down = make([]float64, len(p.sizes)), make([]float64, len(p.sizes))
	return p
}

// pairs adjusts with all observations off, and with all off the other way.
func (p *probe) pairs() {
	p.asked = min(mostPairs, fullPairs(len(p.errors)))
	middles := make([][]float64, len(p.sizes))
	for pair := range p.asked {
		for k := range p.errors {
			p.errors[k] = signOf(pair, k, len(p.errors)) * p.curves[k].sigma
		}
		if !p.bothWays() {
			continue
		}
		p.answered++
		for n := range p.sizes {
			middles[n] = append(middles[n], (p.up[n]+p.down[n])/2)
		}
	}
	for n := range p.sizes {
		p.sizes[n].shift, p.sizes[n].spread = stat.PopMeanStdDev(middles[n], nil)
	}
}

// fullPairs returns the order of the Hadamard matrix that has a column for each
// of so many observations.
func fullPairs(observations int) int { return 1 << bits.Len(uint(observations-1)) }

// signOf returns the sign of an observation in a pair: an element of the
// Hadamard matrix in Sylvester's order, -1 to the number of ones that the
// binary numbers of row and column share. Any two observations then have the
// same sign as often as not. Of a matrix with too many rows some are taken,
// without any order.
func signOf(pair, observation, observations int) float64 {
	if full := fullPairs(observations); full > mostPairs {
		pair = int(scatter(uint64(pair)) % uint64(full))
	}
	return float64(1 - 2*(bits.OnesCount(uint(pair&observation))%2))
}

// bothWays finds by how much the sizes change with these errors and with their
// opposite, NaN where there is no solution. It returns false where one is
// wanting.
func (p *probe) bothWays() bool {
	both := true
	for _, changes := range [][]float64{p.up, p.down} {
		x, ok := p.solve(p.errors)
		for n := range p.sizes {
			changes[n] = math.NaN()
			if ok {
				changes[n] = x[p.sizes[n].column] - p.sizes[n].Value
			}
		}
		for k := range p.errors {
			p.errors[k] = -p.errors[k]
		}
		both = both && ok
	}
	return both
}

// ends finds the ends of a size's interval: where they are likeliest, with
// every observation off in proportion to what it does to the size, moved and
// widened by what the other directions add.
func (p *probe) ends(n int) {
	s := &p.sizes[n]
	s.low, s.high = s.Value+s.shift, s.Value+s.shift
	if s.U == 0 {
		return
	}
	for k, influence := range p.r.Influence(s.column) {
		p.errors[k] = adjust.Coverage95 * influence / s.U * p.curves[k].sigma
	}
	p.bothWays()
	own := (p.up[n] + p.down[n]) / 2 / (adjust.Coverage95 * adjust.Coverage95)
	wider := math.Hypot(1, s.spread/s.U)
	s.low += wider*p.down[n] - own
	s.high += wider*p.up[n] - own
}

// text says how far off a size is, nothing where it is not.
func (s *probed) text() unit.Text {
	off, ends := s.off()
	switch {
	case !finite(s.low) || !finite(s.high):
		return unit.Words(s.ID + ": its 95 % interval reaches to where there would be no such set-up, so that it says little")
	case !off && !ends:
		return unit.Text{}
	}
	text := unit.Words(s.ID + ": it does not follow the readings evenly here")
	if ends {
		text = unit.Say("%s, so that its 95 %% interval is about %s to %s and not %s to %s",
			text, s.shown(s.low), s.shown(s.high), s.shown(s.Low()), s.shown(s.High()))
	}
	if off {
		text = unit.Say("%s; on average it lies %s %s the value shown", text, s.shown(math.Abs(s.shift)), s.way())
	}
	return text
}

// off reports whether the value of a size is off by more than a tenth of its
// standard uncertainty, and whether an end of its interval is.
func (s *probed) off() (value, ends bool) {
	limit := max(s.tooFine(), bentShare*s.U)
	value = math.Abs(s.shift) > limit
	ends = s.U > 0 && max(math.Abs(s.low-s.Low()), math.Abs(s.high-s.High())) > limit
	return value, ends
}

// tooFine returns what no one could see of a size.
func (s *probed) tooFine() float64 {
	switch s.Dimension {
	case unit.Length:
		return tooFine
	case unit.Angle:
		return tooFineTurn
	}
	return 0
}

// way says which way the mean lies off.
func (s *probed) way() string {
	if s.shift < 0 {
		return "below"
	}
	return "above"
}

// shown is an amount of a size, to the decimals of its uncertainty.
func (s *probed) shown(x float64) unit.Amount {
	return unit.Resolved{Value: x, U: adjust.Coverage95 * s.U, Dimension: s.Dimension}
}
