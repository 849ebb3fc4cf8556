package inspect

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// ofThePart stands before the id of a size of the part in readings.
const ofThePart = "part."

// joined returns the job with checks among its readings and the sizes of the
// part that they name among its sizes.
func joined(made *fit.Result, checks []trade.Check) *trade.Job {
	job := *made.Found.Job
	job.Readings, job.Sizes = slices.Clone(job.Readings), slices.Clone(job.Sizes)
	named := map[string]bool{}
	for i := range checks {
		job.Readings = append(job.Readings, checks[i].Reading)
		for _, id := range sizesIn(&checks[i].Reading) {
			named[id] = true
		}
	}
	for i := range made.Make {
		if m := &made.Make[i]; named[m.Size.ID] {
			job.Sizes = append(job.Sizes, asSize(m))
		}
	}
	return &job
}

// asSize returns a size of the part as a size that is sought, with its target for
// a first guess.
func asSize(m *fit.Made) trade.Size {
	s := trade.Size{ID: ofThePart + m.Size.ID, Kind: m.Size.Kind, Surface: surfaceOf(m.Size), Pos: m.Size.Pos}
	if m.Determined {
		s.Guess = quantity(m.Target, s.Kind.Dimension())
	}
	return s
}

// surfaceOf returns the surface of a size: what goes over its mate is inside, unless
// it says otherwise.
func surfaceOf(size *trade.NewSize) trade.Surface {
	switch {
	case size.Surface != "":
		return size.Surface
	case size.From == trade.GoesOver:
		return trade.Inside
	case size.From == trade.GoesIn:
		return trade.Outside
	}
	return trade.NoSurface
}

// sizesIn returns the ids of the sizes of the part that a reading names, each
// once.
func sizesIn(r *trade.Reading) []string {
	var ids []string
	for _, arg := range r.Of {
		if id, ok := strings.CutPrefix(arg.ID, ofThePart); ok {
			ids = append(ids, id)
		}
	}
	ids = append(ids, namesIn(r.That)...)
	slices.Sort(ids)
	return slices.Compact(ids)
}

// namesIn returns the sizes of the part in a formula.
func namesIn(f trade.Formula) []string {
	var ids []string
	for _, name := range f.Names() {
		if id, ok := strings.CutPrefix(name, ofThePart); ok {
			ids = append(ids, id)
		}
	}
	return ids
}

// quantity returns a value to a millionth of a micron.
func quantity(x float64, d unit.Dimension) unit.Quantity {
	inside := map[unit.Dimension]unit.Unit{unit.Length: unit.Millimetre, unit.Angle: unit.Radian, unit.Number: unit.One}[d]
	const place = 1e9
	q, err := unit.New(int64(math.Round(x*place)), place, inside)
	if err != nil {
		panic("inspect: a size has no quantity")
	}
	return q
}
