package adjust

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Repeated returns the job of r with one more value of a reading, the one that
// the sizes found foretell. Where values within a step of each other count once
// it stays within a step of the others. It returns nil for a reading that has
// no values in use, a go / no-go pair, and one of pairs.
func (r *Result) Repeated(id string) *trade.Job {
	f := r.inUse(id)
	if f == nil || f.pair() || f.reading.GoNoGo() {
		return nil
	}
	value := f.predict(r.found.X, nil)
	if step := f.sigma.resolution; f.sigma.repeat < step/3 {
		low, high := f.span()
		if high-low <= step {
			value = min(max(value, high-step), low+step)
		}
	}
	seen, ok := f.seen(value)
	if !ok {
		return nil
	}
	return r.withValue(id, seen)
}

// TouchedAgain returns the job of r with one more touch of a reading, the
// stylus's middle at a point. It returns nil for a point that is none.
func (r *Result) TouchedAgain(id string, at [2]float64) *trade.Job {
	x, okX := quantityOf(at[0], unit.Length)
	y, okY := quantityOf(at[1], unit.Length)
	if !okX || !okY {
		return nil
	}
	return r.withValue(id, trade.Seen{X: x, Y: y})
}

// Nearest returns where the stylus's middle would be if a reading by touch were
// taken as near as can be to a point. It returns false where there is no such
// reading in use.
func (r *Result) Nearest(id string, point [2]float64) (at [2]float64, ok bool) {
	f := r.inUse(id)
	if f == nil || !f.pair() {
		return at, false
	}
	return f.nearest(r.found.X, point), true
}

// inUse returns the model of a reading that has a value in use, else nil.
func (r *Result) inUse(id string) *forward {
	for _, f := range r.found.forwards {
		if f.reading.ID == id && r.found.used[f] {
			return f
		}
	}
	return nil
}

func (r *Result) withValue(id string, seen trade.Seen) *trade.Job {
	job := *r.Job
	job.Readings = slices.Clone(job.Readings)
	reading := job.Reading(id)
	reading.Saw = append(slices.Clone(reading.Saw), seen)
	return &job
}

// seen returns a value as an instrument would show it, to a millionth of a
// micron.
func (f *forward) seen(value float64) (trade.Seen, bool) {
	q, ok := quantityOf(value, f.dimension)
	return trade.Seen{X: q}, ok
}

func quantityOf(value float64, d unit.Dimension) (unit.Quantity, bool) {
	if !(math.Abs(value) < 1e9) {
		return unit.Quantity{}, false
	}
	q, err := unit.New(int64(math.Round(value*1e9)), 1e9, insideUnit(d))
	return q, err == nil
}
