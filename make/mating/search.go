package mating

import "math"

// root returns where a falling function is zero between two ends, to rounding,
// by false position with the Illinois rule (M. Dowell, P. Jarratt, BIT 11 (1971)
// 168, from memory). Where it has one sign all the way it returns the end that
// is nearer to zero.
func root(low, high float64, f func(float64) float64) float64 {
	const steps, rounding = 100, 1e-13 // mm
	a, b := f(low), f(high)
	if !(a > 0) {
		return low
	}
	if !(b < 0) {
		return high
	}
	kept := 0
	for range steps {
		x := (low*b - high*a) / (b - a)
		if !(x > low && x < high) {
			x = (low + high) / 2
		}
		y := f(x)
		switch {
		case math.Abs(y) < rounding:
			return x
		case y > 0:
			low, a = x, y
			if kept > 0 {
				b /= 2
			}
			kept = 1
		default:
			high, b = x, y
			if kept < 0 {
				a /= 2
			}
			kept = -1
		}
	}
	return (low + high) / 2
}

// turnsUntil returns how far a part turns from where it mates until its gap is
// used up, π where it never is, 0 where there is none to begin with. A gap of g
// cannot be used up before g/reach, reach being the longest arm: no place where
// it binds is stepped over.
func turnsUntil(gap func(twist float64) float64, reach float64) float64 {
	const steps = 10_000
	twist := 0.0
	for range steps {
		g := gap(twist)
		if g < touching || twist >= math.Pi {
			break
		}
		twist += g / reach
	}
	return min(twist, math.Pi)
}

// least returns the smallest value of a function with one valley between two
// points, by golden section.
func least(low, high float64, f func(float64) float64) float64 {
	const steps = 45
	golden := (math.Sqrt(5) - 1) / 2
	a, b := high-golden*(high-low), low+golden*(high-low)
	atA, atB := f(a), f(b)
	for range steps {
		if atA <= atB {
			high, b, atB = b, a, atA
			a = high - golden*(high-low)
			atA = f(a)
			continue
		}
		low, a, atA = a, b, atB
		b = low + golden*(high-low)
		atB = f(b)
	}
	return min(atA, atB)
}
