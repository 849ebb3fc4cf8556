package gauge

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// domain returns the values of a role at which a search for roots looks, in
// rising order; none for a role that is not a measure.
func domain(m *Method, values []float64, role int, reading float64) []float64 {
	var list []float64
	switch r := m.Roles[role]; r.Kind {
	case AnyLength, Diameter, Radius, PitchLength:
		list = lengthsToTry(otherLengths(m, values, role, reading))
	case HalfAngle:
		list = anglesToTry(math.Pi / 2)
	case PlainAngle, IncludedAngle:
		list = anglesToTry(math.Pi)
	case PlainNumber:
		list = logSteps(1e-4, 1e4)
	}
	if m.Roles[role].Signed {
		list = mirrored(list)
	}
	return list
}

// otherLengths returns the lengths known beside the one sought.
func otherLengths(m *Method, values []float64, role int, reading float64) []float64 {
	var list []float64
	add := func(x float64) {
		if x = math.Abs(x); x > 0 && !math.IsInf(x, 0) {
			list = append(list, x)
		}
	}
	if m.Reads == unit.Length {
		add(reading)
	}
	for i, x := range values {
		if i != role && m.Roles[i].Kind.Dimension() == unit.Length {
			add(x)
		}
	}
	return list
}

// lengthsToTry covers four decades on either side of the lengths known. A
// set-up often exists only between the known lengths, their halves, sums and
// differences, however near these are to each other: so they are tried too, and
// the middles of all that lie next to each other. Where none is known, it is
// as if 1 mm were.
func lengthsToTry(known []float64) []float64 {
	if len(known) == 0 {
		known = []float64{1}
	}
	list := logSteps(slices.Min(known)*1e-4, slices.Max(known)*1e4)
	for i, a := range known {
		list = append(list, a, 2*a)
		for _, b := range known[:i] {
			list = append(list, a+b, (a+b)/2)
			if a != b {
				list = append(list, math.Abs(a-b), math.Abs(a-b)/2)
			}
		}
	}
	slices.Sort(list)
	list = slices.Compact(list)
	for i := range len(list) - 1 {
		list = append(list, (list[i]+list[i+1])/2)
	}
	slices.Sort(list)
	return list
}

// stepsADecade keep neighbours within a fifth of each other.
const stepsADecade = 12

func logSteps(low, high float64) []float64 {
	n := int(math.Ceil(stepsADecade * math.Log10(high/low)))
	list := make([]float64, n+1)
	for i := range list {
		list[i] = low * math.Pow(10, float64(i)/stepsADecade)
	}
	return list
}

// anglesToTry goes in degrees up to the top, and finer near 0.
func anglesToTry(top float64) []float64 {
	list := logSteps(1e-5, degree/2)
	for a := degree; a < top; a += degree {
		list = append(list, a)
	}
	return append(list, top)
}

// mirrored adds zero and the negative values.
func mirrored(list []float64) []float64 {
	both := make([]float64, 0, 2*len(list)+1)
	for _, x := range slices.Backward(list) {
		both = append(both, -x)
	}
	return append(append(both, 0), list...)
}
