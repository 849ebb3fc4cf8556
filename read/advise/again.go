package advise

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// again returns one more value of every reading that has a part in the size,
// or that is suspect, and one more touch all round of every place touched.
func (s *survey) again() []*Candidate {
	parts := map[string]float64{}
	for _, share := range s.r.Shares(s.a.For) {
		if share.Source.Kind == adjust.FromReading {
			parts[share.Source.ID] += share.Part
		}
	}
	var list []*Candidate
	for i := range s.r.Job.Readings {
		r := &s.r.Job.Readings[i]
		if gauge.Pairs(r.By) {
			list = append(list, s.touches(r)...)
			continue
		}
		if parts[r.ID] > alike || s.suspect(r.ID) || s.r.Job.Size(s.a.For) == nil {
			list = append(list, s.repeat(&Candidate{Reading: *r, Again: true, Effort: OneMoreValue, Shows: math.NaN(), order: -1})...)
		}
	}
	return list
}

func (s *survey) suspect(id string) bool {
	for _, v := range s.r.Readings {
		if v.ID == id && v.Suspect {
			return true
		}
	}
	return false
}

// repeat works out what one more value gives; nothing where there is none.
func (s *survey) repeat(c *Candidate) []*Candidate {
	job := s.repeated(c)
	if job == nil {
		return nil
	}
	after, err := s.r.Refit(job)
	if err != nil {
		return nil
	}
	c.Then = stateOf(after.Present(), s.a.For)
	return []*Candidate{c}
}

// repeated returns the job with one more value or touch.
func (s *survey) repeated(c *Candidate) *trade.Job {
	switch {
	case c.At != nil:
		return s.r.TouchedAgain(c.Reading.ID, *c.At)
	case c.Again:
		return s.r.Repeated(c.Reading.ID)
	}
	return nil
}

// around is how many directions a circle is touched from.
const around = 8

// touches returns one more touch of a circle from every side, or of a line
// near either end of what has been touched of it.
func (s *survey) touches(r *trade.Reading) []*Candidate {
	var list []*Candidate
	for _, near := range s.nearby(r) {
		if at, ok := s.r.Nearest(r.ID, near); ok {
			list = append(list, s.repeat(&Candidate{Reading: *r, Again: true, At: &at, Effort: OneMoreValue, Shows: math.NaN(), order: -1})...)
		}
	}
	return list
}

// nearby returns points toward which another touch might go.
func (s *survey) nearby(r *trade.Reading) [][2]float64 {
	var points [][2]float64
	for _, v := range s.r.Readings {
		if v.ID == r.ID {
			points = append(points, v.Saw)
		}
	}
	for _, arg := range r.Of {
		switch arg.Role {
		case "line":
			return points
		case "circle":
			return s.roundAbout(arg.ID, points[0])
		}
	}
	return nil
}

// roundAbout returns points on all sides of a circle, as far out as a touch.
func (s *survey) roundAbout(circle string, touch [2]float64) [][2]float64 {
	var list [][2]float64
	for _, place := range s.r.Places {
		if place.ID != circle || !place.Determined {
			continue
		}
		reach := math.Hypot(touch[0]-place.At[0], touch[1]-place.At[1])
		for k := range around {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / around)
			list = append(list, [2]float64{place.At[0] + reach*cos, place.At[1] + reach*sin})
		}
	}
	return list
}
