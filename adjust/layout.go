package adjust

import (
	"math"

	"oddleg"
	"oddleg/gauge"
	"oddleg/lsq"
)

// layPlans gives every hole of every plan a start place by trilateration: hole
// by hole, the one with most distances to holes already laid first.
func (s *starter) layPlans() {
	for i := range s.m.job.Plans {
		s.layPlan(&s.m.job.Plans[i])
	}
}

// layout is one plan being laid.
type layout struct {
	plan      *oddleg.Plan
	distances map[[2]int]float64
	at        []xy
	laid      []bool
	choice    int
	scale     float64
}

type xy struct{ x, y float64 }

func (a xy) to(b xy) float64 { return math.Hypot(b.x-a.x, b.y-a.y) }

func (s *starter) layPlan(plan *oddleg.Plan) {
	n := len(plan.Holes)
	l := &layout{
		plan: plan, distances: s.distances(plan), at: make([]xy, n), laid: make([]bool, n),
		choice: s.choice, scale: s.m.scale,
	}
	l.laid[0] = true
	l.at[1] = xy{l.baseline(), 0}
	l.laid[1] = true
	for next := l.next(); next >= 0; next = l.next() {
		l.at[next] = l.place(next)
		l.laid[next] = true
	}
	s.guessed = true // a mirror image can always be tried
	for i, hole := range plan.Holes {
		columns := s.m.places[hole]
		if columns[0] >= 0 {
			s.set(columns[0], l.at[i].x)
		}
		if columns[1] >= 0 {
			s.set(columns[1], l.at[i].y)
		}
	}
}

// distances returns the centre distances that single readings give, by the
// indices of the holes, smaller first.
func (s *starter) distances(plan *oddleg.Plan) map[[2]int]float64 {
	index := map[string]int{}
	for i, hole := range plan.Holes {
		index[hole] = i
	}
	found := map[[2]int]float64{}
	for _, f := range s.m.forwards {
		from, to, ok := f.ends()
		i, inPlan := index[from]
		if !ok || !finite(f.middle) || !inPlan || f.reading == s.doubt {
			continue
		}
		j := index[to]
		values := f.roles(s.x)
		if roots := f.method.Invert(values, f.method.Role(f.method.HolesFor), f.middle); len(roots) > 0 {
			found[[2]int{min(i, j), max(i, j)}] = roots[0]
		}
	}
	return found
}

// ends returns the two holes of a reading between holes of a plan.
func (f *forward) ends() (from, to string, ok bool) {
	for _, arg := range f.reading.Of {
		switch arg.Role {
		case "from":
			from = arg.ID
		case "to":
			to = arg.ID
		}
	}
	return from, to, from != ""
}

func (l *layout) distance(i, j int) (float64, bool) {
	d, ok := l.distances[[2]int{min(i, j), max(i, j)}]
	return d, ok
}

// baseline returns a start value for the distance of the first two holes: as
// read, as guessed, or the length of the shortest way between them.
func (l *layout) baseline() float64 {
	if d, ok := l.distance(0, 1); ok {
		return d
	}
	if g, ok := l.plan.Guess[l.plan.Holes[1]]; ok {
		return math.Abs(g.X.Inside())
	}
	if d := l.shortest(0, 1); !math.IsInf(d, 1) {
		return d
	}
	return l.scale
}

// shortest returns the length of the shortest way from hole a to hole b over
// the distances read, +Inf where there is none.
func (l *layout) shortest(a, b int) float64 {
	way := make([]float64, len(l.at))
	for i := range way {
		way[i] = math.Inf(1)
	}
	way[a] = 0
	for range way {
		for ends, d := range l.distances {
			i, j := ends[0], ends[1]
			way[j] = min(way[j], way[i]+d)
			way[i] = min(way[i], way[j]+d)
		}
	}
	return way[b]
}

// next returns the hole not yet laid that has most distances to holes that
// are, -1 when all are laid.
func (l *layout) next() int {
	best, most := -1, -1
	for i := range l.at {
		if l.laid[i] {
			continue
		}
		if n := len(l.anchors(i)); n > most {
			best, most = i, n
		}
	}
	return best
}

// anchors returns the laid holes whose distance from hole i is known.
func (l *layout) anchors(i int) []int {
	var list []int
	for j := range l.at {
		if _, ok := l.distance(i, j); ok && l.laid[j] {
			list = append(list, j)
		}
	}
	return list
}

// place returns the place of hole i: of the two points at the right distances
// from two anchors, the one that suits the guess and the other distances best.
func (l *layout) place(i int) xy {
	guess, guessed := l.plan.Guess[l.plan.Holes[i]]
	wanted := xy{}
	if guessed {
		wanted = xy{guess.X.Inside(), guess.Y.Inside()}
	}
	anchors := l.anchors(i)
	if len(anchors) < 2 {
		if guessed {
			return wanted
		}
		return l.somewhere(i, anchors)
	}
	up, down := l.crossings(i, anchors)
	if l.choice%2 == 1 {
		up, down = down, up
	}
	if guessed {
		if wanted.to(down) < wanted.to(up) {
			return down
		}
		return up
	}
	if l.misfit(i, down, anchors) < l.misfit(i, up, anchors)*(1-1e-9) {
		return down
	}
	return up
}

// somewhere returns a place for a hole that two distances do not fix.
func (l *layout) somewhere(i int, anchors []int) xy {
	from, reach := l.at[0], l.scale
	if len(anchors) == 1 {
		from = l.at[anchors[0]]
		reach, _ = l.distance(i, anchors[0])
	}
	direction := 1 + float64(i) + 0.7*float64(l.choice)
	return xy{from.x + reach*math.Cos(direction), from.y + reach*math.Sin(direction)}
}

// crossings returns the two points at the right distances from the two anchors
// that lie furthest apart, the one with the larger y first. Where the circles
// miss each other it returns points on the line between their centres.
func (l *layout) crossings(i int, anchors []int) (up, down xy) {
	a, b := anchors[0], anchors[1]
	for n, j := range anchors {
		for _, k := range anchors[n+1:] {
			if l.at[j].to(l.at[k]) > l.at[a].to(l.at[b]) {
				a, b = j, k
			}
		}
	}
	p, q := l.at[a], l.at[b]
	ra, _ := l.distance(i, a)
	rb, _ := l.distance(i, b)
	apart := p.to(q)
	if apart == 0 {
		return p, p
	}
	along := (ra*ra - rb*rb + apart*apart) / (2 * apart)
	across := math.Sqrt(max(0, ra*ra-along*along))
	ux, uy := (q.x-p.x)/apart, (q.y-p.y)/apart
	one := xy{p.x + along*ux - across*uy, p.y + along*uy + across*ux}
	two := xy{p.x + along*ux + across*uy, p.y + along*uy - across*ux}
	if two.y > one.y {
		return two, one
	}
	return one, two
}

func (l *layout) misfit(i int, at xy, anchors []int) float64 {
	sum := 0.0
	for _, j := range anchors {
		d, _ := l.distance(i, j)
		sum += (at.to(l.at[j]) - d) * (at.to(l.at[j]) - d)
	}
	return sum
}

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
func (s *starter) fit(place *oddleg.Place, points []xy, reach float64) [2]float64 {
	if place.Kind == oddleg.Line {
		line := fitLine(points)
		return [2]float64{line[0], line[1] - reach}
	}
	centre, radius := fitCircle(points)
	s.settleDiameter(place, 2*(radius-reach))
	return [2]float64{centre.x, centre.y}
}

// settleDiameter takes the diameter of a touched circle where nothing else has
// settled it.
func (s *starter) settleDiameter(place *oddleg.Place, diameter float64) {
	column, ok := s.m.sizes[place.Diameter.ID]
	if ok && !s.settled[column] && diameter > 0 {
		s.set(column, diameter)
	}
}

// touches returns the stylus centres of all touches of a place and how far
// outside its surface they lie: half the stylus, signed by its side.
func (s *starter) touches(place *oddleg.Place) (points []xy, reach float64) {
	for _, f := range s.m.forwards {
		if f.method.ID != gauge.TouchMethod || f.place() != place.ID || f.reading == s.doubt {
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
