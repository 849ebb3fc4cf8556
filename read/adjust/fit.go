package adjust

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
)

// layPlaces gives circles and lines a start place from the touches.
func (s *starter) layPlaces() {
	for i := range s.m.job.Places {
		place := &s.m.job.Places[i]
		columns := s.m.places[place.ID]
		points, reach := s.touches(place)
		at := s.fit(place, points, reach)
		if place.Guess[0].Given() {
			at = [2]float64{place.Guess[0].Inside(), place.Guess[1].Inside()}
		}
		s.set(columns[0], at[0])
		s.set(columns[1], at[1])
	}
}

// fit returns a start place from the touches, which lie reach outside the
// surface, and settles a circle's diameter with it.
func (s *starter) fit(place *trade.Place, points []xy, reach float64) [2]float64 {
	if place.Kind == trade.Line {
		line := fitLine(points)
		return [2]float64{line[0], line[1] - reach}
	}
	centre, radius := fitCircle(points)
	s.settleDiameter(place, 2*(radius-reach))
	return [2]float64{centre.x, centre.y}
}

// settleDiameter takes the diameter of a touched circle where nothing else has
// settled it.
func (s *starter) settleDiameter(place *trade.Place, diameter float64) {
	column, ok := s.m.sizes[place.Diameter.ID]
	if ok && !s.settled[column] && diameter > 0 {
		s.set(column, diameter)
	}
}

// touches returns the stylus centres of all touches of a place and how far
// outside its surface they lie: half the stylus, signed by its side.
func (s *starter) touches(place *trade.Place) (points []xy, reach float64) {
	for _, f := range s.m.forwards {
		if !f.pair() || f.place() != place.ID || f.reading == s.doubt {
			continue
		}
		args := f.args(s.x)
		last := len(f.arguments)
		reach = args[last-2].X * args[last-1].X / 2
		for _, seen := range f.reading.Saw {
			if !seen.SetAside {
				points = append(points, xy{seen.X.Inside(), seen.Y.Inside()})
			}
		}
	}
	return points, reach
}

// fitCircle returns the circle x² + y² + ax + by + c = 0 with the least sum of
// squares of its left side: rough, but it needs no start.
func fitCircle(points []xy) (centre xy, radius float64) {
	if len(points) < 3 {
		return centroid(points), 1
	}
	c := centroid(points)
	problem := lsq.Problem{Start: make([]float64, 3)}
	for _, p := range points {
		problem.Observations = append(problem.Observations, lsq.Observation{Equation: onCircle{p.x - c.x, p.y - c.y}, Sigma: 1})
	}
	v, err := lsq.Solve(problem)
	if err != nil {
		return c, c.to(points[0])
	}
	dx, dy := -v.X[0]/2, -v.X[1]/2
	return xy{c.x + dx, c.y + dy}, math.Sqrt(max(0, dx*dx+dy*dy-v.X[2]))
}

// onCircle is the equation x² + y² + ax + by + c = 0 over a, b and c.
type onCircle xy

func (p onCircle) Eval(v []float64, row *lsq.Row) float64 {
	row.Add(0, p.x)
	row.Add(1, p.y)
	row.Add(2, 1)
	return p.x*p.x + p.y*p.y + v[0]*p.x + v[1]*p.y + v[2]
}

// fitLine returns the angle β and offset p of the line through the points with
// the least sum of squared distances, p not negative.
func fitLine(points []xy) [2]float64 {
	c := centroid(points)
	var xx, xy, yy float64
	for _, p := range points {
		xx += (p.x - c.x) * (p.x - c.x)
		xy += (p.x - c.x) * (p.y - c.y)
		yy += (p.y - c.y) * (p.y - c.y)
	}
	normal := math.Atan2(2*xy, xx-yy)/2 + math.Pi/2
	offset := c.x*math.Cos(normal) + c.y*math.Sin(normal)
	if offset < 0 {
		normal, offset = normal-math.Pi, -offset
	}
	return [2]float64{normal, offset}
}

func centroid(points []xy) xy {
	var c xy
	for _, p := range points {
		c.x += p.x / float64(len(points))
		c.y += p.y / float64(len(points))
	}
	return c
}
