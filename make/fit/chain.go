package fit

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/simulate"
)

// trials is how often a chain is drawn: its chances are then good to 0.2 %.
const trials = 100_000

// stack is a chain while it is worked out: names of the job, which belong
// together, and sizes of the part, each for itself.
type stack struct {
	b        *bench
	e        *expr.Expr
	sum      adjust.Combined
	found    []string // names of the job, in the order of the expression
	factors  [][]float64
	values   []float64 // of the names found
	together string    // all names found as one link, where only their sum is determined; else empty
	made     []string  // sizes of the part
	between  []interval
	wanted   *interval
}

// chain works out a stack-up.
func (b *bench) chain(s *trade.Stack, seed uint64) (Chain, error) {
	c := Chain{Stack: s}
	c.Dimension = dimension(s.That.Expr())
	k, ok := b.stack(s)
	if !ok {
		return c.unknown(), nil
	}
	c.Determined, c.Value, c.Links = true, k.sum.Value, k.links()
	c.U = k.uncertainty(1, "")
	worst, square := 0.0, 0.0
	for _, l := range c.Links {
		worst += math.Abs(l.Sensitivity) * l.Half
		square = math.Hypot(square, l.Sensitivity*l.Half)
	}
	c.WorstLow, c.WorstHigh, c.RSS = c.Value-worst, c.Value+worst, square
	drawn, err := k.simulate(seed, "")
	c.Low, c.High, c.Within = drawn.low, drawn.high, drawn.within
	c.HalvedU, c.Halved = math.NaN(), math.NaN()
	if err != nil || len(c.Links) == 0 {
		return c, err
	}
	c.HalvedU = k.uncertainty(0.5, c.Links[0].Name)
	drawn, err = k.simulate(seed, c.Links[0].Name)
	c.Halved = drawn.within
	return c, err
}

// unknown returns a chain that cannot be worked out.
func (c Chain) unknown() Chain {
	nan := math.NaN()
	return Chain{Stack: c.Stack, Dimension: c.Dimension, Value: nan, WorstLow: nan, WorstHigh: nan, RSS: nan, U: nan, Low: nan, High: nan, Within: nan, Halved: nan, HalvedU: nan}
}

// dimension returns what a chain measures; a power of a length counts as a
// plain number.
func dimension(e *expr.Expr) unit.Dimension {
	switch d := e.Dimension(); {
	case d.IsLength():
		return unit.Length
	case d.IsAngle():
		return unit.Angle
	}
	return unit.Number
}

// stack gathers what a chain is made of, false where a size in it is not
// determined.
func (b *bench) stack(s *trade.Stack) (*stack, bool) {
	e := s.That.Expr()
	k := &stack{b: b, e: e}
	given := map[string]float64{}
	for _, name := range e.Names() {
		id, ofPart := strings.CutPrefix(name, ofThePart)
		if !ofPart {
			k.found = append(k.found, name)
			continue
		}
		made := b.made.Of(id)
		if !made.Determined {
			return nil, false
		}
		k.made = append(k.made, name)
		k.between = append(k.between, interval{made.Low, made.High})
		given[name] = (made.Low + made.High) / 2
	}
	if s.Wanted.Low.Given() {
		k.wanted = &interval{s.Wanted.Low.Inside(), s.Wanted.High.Inside()}
	}
	k.sum = b.r.Combine(e, given)
	for _, name := range k.found {
		found := b.r.Named(name)
		k.values = append(k.values, found.Value)
		k.factors = append(k.factors, b.r.InfluenceOf(found))
		if !found.Determined {
			k.together = strings.Join(k.found, ", ")
		}
	}
	return k, k.sum.Determined && finite(k.sum.Value)
}

// links returns the links of the chain, the one with most part in its variance
// first.
func (k *stack) links() []Link {
	var list []Link
	all := 0.0
	add := func(name string, slope, half, u float64) {
		list = append(list, Link{Name: name, Sensitivity: slope, Half: half, Part: slope * slope * u * u})
		all += slope * slope * u * u
	}
	if k.together != "" {
		follows := k.follows(1, "")
		u := math.Sqrt(dot(follows, follows))
		add(k.together, 1, adjust.Coverage95*u, u)
	}
	for i, name := range k.found {
		if k.together == "" {
			u := math.Sqrt(dot(k.factors[i], k.factors[i]))
			add(name, k.sum.By[name], adjust.Coverage95*u, u)
		}
	}
	for i, name := range k.made {
		half := k.between[i].width() / 2
		add(name, k.sum.By[name], half, half/math.Sqrt(3))
	}
	for i := range list {
		if all > 0 {
			list[i].Part /= all
		}
	}
	slices.SortStableFunc(list, func(a, b Link) int { return cmp.Compare(b.Part, a.Part) })
	return list
}

// is reports whether the i-th name found is of this link.
func (k *stack) is(i int, link string) bool {
	return link != "" && cmp.Or(k.together, k.found[i]) == link
}

// follows returns how the sum follows each observation, with the names of one
// link following it so many times as much.
func (k *stack) follows(times float64, link string) []float64 {
	var sum []float64
	for i, name := range k.found {
		if sum == nil {
			sum = make([]float64, len(k.factors[i]))
		}
		for j, x := range k.factors[i] {
			sum[j] += k.sum.By[name] * scaled(x, times, k.is(i, link))
		}
	}
	return sum
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}

// uncertainty returns the standard uncertainty of the chain, with one link
// scattering so many times as much.
func (k *stack) uncertainty(times float64, link string) float64 {
	follows := k.follows(times, link)
	variance := dot(follows, follows)
	for i, name := range k.made {
		u := k.sum.By[name] * scaled(k.between[i].width()/2, times, name == link) / math.Sqrt(3)
		variance += u * u
	}
	return math.Sqrt(variance)
}

func scaled(x, times float64, is bool) float64 {
	if is {
		return times * x
	}
	return x
}

// drawn is what drawing a chain came to: the 95 % interval, and the chance of ending
// in what is wanted, NaN where nothing is.
type drawn struct{ low, high, within float64 }

// simulate draws the chain: the sizes found normal with their covariance, those
// of the part anywhere between their limits; halved names a link with half its
// range. The error is that of the context.
func (k *stack) simulate(seed uint64, halved string) (drawn, error) {
	outcome, err := simulate.Propagate(k.b.ctx, k.inputs(halved), simulate.Model{Outputs: 2, At: k.draw}, trials, seed)
	if err != nil {
		return drawn{}, err
	}
	d := drawn{within: math.NaN()}
	d.low, d.high = outcome.Outputs[0].Symmetric(0.95)
	if k.wanted != nil {
		d.within = outcome.Outputs[1].Mean
	}
	return d, nil
}

// draw evaluates the chain once, and says whether it ends in what is wanted.
func (k *stack) draw(x, y []grad.Number) {
	values, gradient := make([]float64, len(x)), make([]float64, len(x))
	found, made := 0, len(k.found)
	for i, name := range k.e.Names() {
		from := &found
		if strings.HasPrefix(name, ofThePart) {
			from = &made
		}
		values[i] = x[*from].X
		*from++
	}
	sum := k.e.Eval(values, gradient)
	y[0], y[1] = grad.Const(sum), grad.Const(k.inside(sum))
}

// inside returns 1 where a sum lies in what is wanted and 0 where not.
func (k *stack) inside(sum float64) float64 {
	if k.wanted != nil && k.wanted.least <= sum && sum <= k.wanted.most {
		return 1
	}
	return 0
}

// inputs returns what is drawn: first the sizes found, then those of the part.
func (k *stack) inputs(halved string) []simulate.Input {
	var list []simulate.Input
	if n := len(k.found); n > 0 {
		covariance := mat.NewSymDense(n, nil)
		for i := range n {
			for j := range i + 1 {
				c := scaled(dot(k.factors[i], k.factors[j]), 0.5, k.is(i, halved))
				covariance.SetSym(i, j, scaled(c, 0.5, k.is(j, halved)))
			}
		}
		list = append(list, simulate.NewJointNormal(k.values, covariance))
	}
	for i, name := range k.made {
		middle, half := k.between[i].middle(), scaled(k.between[i].width()/2, 0.5, name == halved)
		list = append(list, simulate.Rectangular{Low: middle - half, High: middle + half})
	}
	return list
}
