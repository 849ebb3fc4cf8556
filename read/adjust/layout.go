package adjust

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
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
	plan      *trade.Plan
	distances map[[2]int]float64
	at        []xy
	laid      []bool
	choice    int
	scale     float64
	framed    bool // the holes lie in the plan's axes, as its guesses do
}

type xy struct{ x, y float64 }

func (a xy) to(b xy) float64 { return math.Hypot(b.x-a.x, b.y-a.y) }

func (s *starter) layPlan(plan *trade.Plan) {
	n := len(plan.Holes)
	l := &layout{
		plan: plan, distances: s.distances(plan), at: make([]xy, n), laid: make([]bool, n),
		choice: s.choice, scale: s.m.scale,
	}
	l.lay()
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

// lay places all holes, two of known distance first. Where these are not the
// first two of the plan, the whole is moved into the plan's axes afterwards.
func (l *layout) lay() {
	a, b := l.base()
	l.framed = a == 0 && b == 1
	l.laid[a], l.laid[b] = true, true
	l.at[b] = xy{l.baseline(a, b), 0}
	for next := l.next(); next >= 0; next = l.next() {
		l.at[next] = l.place(next)
		l.laid[next] = true
	}
	if !l.framed {
		l.moveIntoAxes()
	}
}

// base returns the two holes to lay first: the first two if their distance is
// read or guessed, else the two of known distance that most others hang on.
func (l *layout) base() (a, b int) {
	_, read := l.distance(0, 1)
	_, guessed := l.plan.Guess[l.plan.Holes[1]]
	if read || guessed {
		return 0, 1
	}
	b, most := 1, 0
	for i := range l.at {
		for j := range i {
			if _, ok := l.distance(i, j); ok && l.degree(i)+l.degree(j) > most {
				a, b, most = j, i, l.degree(i)+l.degree(j)
			}
		}
	}
	return a, b
}

// degree returns how many distances of a hole are known.
func (l *layout) degree(i int) int {
	count := 0
	for ends := range l.distances {
		if ends[0] == i || ends[1] == i {
			count++
		}
	}
	return count
}

// moveIntoAxes moves the first hole to the origin and turns the second onto the
// x axis, and takes the mirror image that suits the guesses, or that has the
// third hole above the axis.
func (l *layout) moveIntoAxes() {
	origin, turn := l.at[0], math.Atan2(l.at[1].y-l.at[0].y, l.at[1].x-l.at[0].x)
	sin, cos := math.Sincos(turn)
	var upright, mirrored float64
	for i, p := range l.at {
		x, y := p.x-origin.x, p.y-origin.y
		l.at[i] = xy{x*cos + y*sin, y*cos - x*sin}
		if g, ok := l.plan.Guess[l.plan.Holes[i]]; ok {
			wanted := xy{g.X.Inside(), g.Y.Inside()}
			upright += wanted.to(l.at[i])
			mirrored += wanted.to(xy{l.at[i].x, -l.at[i].y})
		}
	}
	if mirrored < upright || mirrored == upright && len(l.at) > 2 && l.at[2].y < 0 {
		for i := range l.at {
			l.at[i].y = -l.at[i].y
		}
	}
}

// distances returns the centre distances that single readings give, by the
// indices of the holes, smaller first.
func (s *starter) distances(plan *trade.Plan) map[[2]int]float64 {
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

// baseline returns a start value for the distance of the two holes laid first:
// as read, or as guessed.
func (l *layout) baseline(a, b int) float64 {
	if d, ok := l.distance(a, b); ok {
		return d
	}
	if g, ok := l.plan.Guess[l.plan.Holes[b]]; ok {
		return math.Abs(g.X.Inside())
	}
	return l.scale
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
	guessed = guessed && l.framed
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
	if guessed {
		if wanted.to(down) < wanted.to(up) {
			return down
		}
		return up
	}
	if len(anchors) == 2 {
		return l.eitherSide(up, down)
	}
	if l.misfit(i, down, anchors) < l.misfit(i, up, anchors) {
		return down
	}
	return up
}

// eitherSide returns the one of two places, equally good by the readings, that
// lies further from the holes already laid: people draw plans that spread out,
// not ones folded over. Odd choices take the other.
func (l *layout) eitherSide(up, down xy) xy {
	var spreadUp, spreadDown float64
	for i, p := range l.at {
		if l.laid[i] {
			spreadUp += p.to(up)
			spreadDown += p.to(down)
		}
	}
	if (spreadDown > spreadUp*(1+1e-9)) != (l.choice%2 == 1) {
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
