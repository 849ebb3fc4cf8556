package lsq

import "math"

// settle brings a place onto the constraints by Newton steps of least length
// in scaled unknowns. Where it cannot, it returns the index of a constraint
// that is not held or not finite.
func (s *search) settle(at *place) (index int, ok bool) {
	const rounds = 60
	if index, ok = at.evaluateTies(s.p); !ok {
		return index, false
	}
	for range rounds {
		if at.tight() {
			return 0, true
		}
		s.back.factor(at.ties, at.held, s.scale)
		s.back.correct(s.step)
		if !s.approach(at) {
			break
		}
	}
	return at.loosest(s.scale)
}

// approach takes as much of the step as lessens what the constraints are off.
func (s *search) approach(at *place) bool {
	copy(s.base, at.x)
	size := s.back.size(at.held)
	_, agreed := at.loosest(s.scale)
	for part := 1.0; part > 1e-6; part /= 4 {
		for j, d := range s.step {
			at.x[j] = s.base[j] + part*s.scale[j]*d
		}
		if _, ok := at.evaluateTies(s.p); ok && s.back.size(at.held) < size {
			return true
		}
		if agreed {
			break
		}
	}
	copy(at.x, s.base)
	at.evaluateTies(s.p)
	return false
}

// tight reports whether all constraints hold to rounding.
func (at *place) tight() bool {
	for k, h := range at.held {
		if math.Abs(h) > 8*ulp*at.grain[k] {
			return false
		}
	}
	return true
}

// loosest returns the constraint that is furthest from holding and whether
// even that one holds as far as can be told.
func (at *place) loosest(scale []float64) (index int, agreed bool) {
	worst := 0.0
	for k, h := range at.held {
		allowed := agreement * (at.grain[k] + at.ties[k].grain(scale))
		if allowed == 0 { // it depends on no unknown
			allowed = agreement
		}
		if off := math.Abs(h) / allowed; off > worst {
			index, worst = k, off
		}
	}
	return index, worst <= 1
}
