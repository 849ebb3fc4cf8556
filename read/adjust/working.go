package adjust

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Working is how one reading's prediction is worked out, for printing.
type Working struct {
	Reading *trade.Reading
	Formula string            // the model in symbols, or the user's expression
	Numbers func(Show) string // the same with its numbers put in
	Model   float64
	Zero    float64 // of the instrument, as it adds to this reading
	Feel    float64 // of the seating that all values share
	Sigma   float64 // standard deviation of one value
	Used    bool    // false where all its values are set aside
	Touch   bool    // a pair: nothing is worked out but how far off the path it lies

	Dimension unit.Dimension
}

// Show writes a number that stands in a formula.
type Show func(value float64, d unit.Dimension) string

// Workings returns the working of every reading at the sizes found.
func (r *Result) Workings() []Working {
	var list []Working
	f := r.found
	for _, forward := range f.forwards {
		w := Working{Reading: forward.reading, Used: f.used[forward], Sigma: forward.sigma.ofOne(), Dimension: forward.dimension}
		w.Formula, w.Numbers = f.formula(forward)
		if w.Touch = forward.pair(); !w.Touch {
			w.Model = forward.predict(f.X, nil)
		}
		if forward.zero >= 0 {
			w.Zero = forward.zeroScale * f.X[forward.zero]
		}
		if forward.feel >= 0 {
			w.Feel = f.X[forward.feel]
		}
		w.Model -= w.Zero + w.Feel
		list = append(list, w)
	}
	return list
}

// formula returns a reading's model in symbols and in numbers.
func (f *findings) formula(forward *forward) (symbols string, numbers func(Show) string) {
	if forward.formula != nil {
		at := map[string]float64{}
		for i, name := range forward.formula.Names() {
			at[name] = forward.slots[i].at(f.X)
		}
		return forward.reading.That.Text, func(show Show) string {
			return forward.formula.WithNumbers(func(name string) string { return show(at[name], f.dimension(name)) })
		}
	}
	if forward.pair() {
		return forward.method.Formula, func(Show) string { return "" }
	}
	values := forward.roles(f.X)
	return forward.method.Formula, func(show Show) string {
		return forward.method.WithNumbers(func(role int) string { return show(values[role], forward.method.Roles[role].Kind.Dimension()) })
	}
}

// dimension returns what a named size or piece measures.
func (f *findings) dimension(id string) unit.Dimension {
	if size := f.model.size(id); size != nil {
		return size.Kind.Dimension()
	}
	return unit.Length
}
