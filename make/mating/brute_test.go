package mating

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// agreement is how closely the trying of positions must agree, in mm.
const agreement = 1e-4

// cases is how many random cases of each pair are tried.
func cases() int {
	if os.Getenv("ODDLEG_LONG") != "" {
		return 200
	}
	return 6
}

// each runs random cases of one pair.
func each(t *testing.T, seed uint64, once func(random *rand.Rand)) {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 4))
	for range cases() {
		once(random)
	}
}

// tried returns the largest value of a function of several places, each tried in
// five steps either way about the best so far, again and again in finer steps,
// for each of the others.
func tried(start, step []float64, f func(x []float64) float64) float64 {
	x := append([]float64{}, start...)
	var along func(k int) float64
	along = func(k int) float64 {
		if k == len(x) {
			return f(x)
		}
		best, at := math.Inf(-1), start[k]
		for width := step[k]; width > 1e-5*step[k]; width /= 4 {
			centre := at
			for i := -5.0; i <= 5; i++ {
				x[k] = centre + i*width
				if y := along(k + 1); y > best {
					best, at = y, x[k]
				}
			}
		}
		return best
	}
	return along(0)
}

// sampled returns many points along a path.
func sampled(p geom.Path, perEdge int) []geom.Point {
	var points []geom.Point
	for _, e := range p {
		for k := range perEdge {
			points = append(points, e.At(float64(k)/float64(perEdge)))
		}
	}
	return points
}

// inGroove returns the smallest gap of many points in a groove.
func inGroove(points []geom.Point, g *groove, distance, twist float64) float64 {
	seen := geom.Point{X: -distance}.Turned(-twist)
	gap := math.Inf(1)
	for _, p := range points {
		r := math.Sqrt(p.Sub(seen).Dot(p.Sub(seen)))
		gap = min(gap, g.outer-r, r-g.inner)
	}
	return gap
}

// TestGrooveByTrying: gap, and that it is best untwisted; slides; twist.
func TestGrooveByTrying(t *testing.T) {
	each(t, 1, func(random *rand.Rand) {
		between := func(a, b float64) float64 { return a + (b-a)*random.Float64() }
		outer, inner := between(40, 60), between(20, 35)
		s := sector(t, outer+between(-0.3, 0.3), inner+between(-0.3, 0.3), between(10, 150)*degree, outer, inner)
		checkGroove(t, s.(*groove))
		length := between(5, 25)
		seat := math.Sqrt(outer*outer-length*length/4) - inner
		checkGroove(t, block(t, seat-between(-0.1, 1), length, outer, inner).(*groove))
	})
}

func checkGroove(t *testing.T, g *groove) {
	t.Helper()
	points := sampled(g.shoe, 200)
	middle := (g.outer + g.inner) / 2
	gap := tried([]float64{0.003, middle}, []float64{0.01, 0.5}, func(x []float64) float64 { return inGroove(points, g, x[1], x[0]) })
	closeTo(t, "gap", g.gap(), gap, agreement)
	if g.gap() < 0 {
		return
	}
	at := func(twist float64) float64 {
		return tried([]float64{middle}, []float64{1}, func(x []float64) float64 { return inGroove(points, g, x[0], twist) })
	}
	twist := g.twist()
	if twist < math.Pi {
		closeTo(t, "gap at the twist", at(twist), 0, agreement)
		closeTo(t, "gap at the other twist", at(-twist), 0, agreement)
	}
	for k := range 8 {
		if gap := at(twist * float64(k) / 8); gap < -agreement {
			t.Errorf("it binds by %g before the twist of %g", gap, twist)
		}
	}
	d := g.midway(0)
	for i, sign := range []float64{1, -1} {
		closeTo(t, "gap at the end of a slide", inGroove(points, g, d+sign*g.slides()[i].Far, 0), 0, agreement)
	}
}

// TestKeywayByTrying: the key turned as far as it goes, laid at random.
func TestKeywayByTrying(t *testing.T) {
	each(t, 2, func(random *rand.Rand) {
		between := func(a, b float64) float64 { return a + (b-a)*random.Float64() }
		w, h := between(5, 14), between(5, 10)
		deep := between(0.4, 0.7) * h
		k := &keyway{w, h, w + between(0.01, 0.3), deep, w + between(0.01, 0.3), h - deep + between(0.05, 0.8)}
		twist := k.twist()
		closeTo(t, "overlap at the twist", k.overlap(twist), 0, agreement)
		if k.overlap(twist+2e-4) < 1e-5 {
			t.Errorf("%+v turns farther than %g", *k, twist)
		}
		for i := range 8 {
			if overlap := k.overlap(twist * float64(i) / 8); overlap > agreement {
				t.Errorf("%+v binds by %g before the twist of %g", *k, overlap, twist)
			}
		}
	})
}

// overlap returns by how much the turned key must overlap the keyways at best:
// many points of it outside them, or their edges inside it.
func (k *keyway) overlap(twist float64) float64 {
	points := sampled(k.outline().Moved(geom.Pose{Angle: twist}), 10)
	return -tried([]float64{(k.hubDeep - k.shaftDeep) / 2, 0}, []float64{0.3, 0.1}, func(x []float64) float64 {
		shift := geom.Point{X: x[1], Y: x[0]}
		worst := 0.0
		for _, p := range points {
			worst = max(worst, k.outside(p.Add(shift)))
		}
		for _, edge := range []geom.Point{{X: k.shaftWidth / 2}, {X: -k.shaftWidth / 2}, {X: k.hubWidth / 2}, {X: -k.hubWidth / 2}} {
			if math.Abs(edge.X) > min(k.shaftWidth, k.hubWidth)/2+1e-12 {
				continue
			}
			p := edge.Sub(shift).Turned(-twist)
			worst = max(worst, min(k.width/2-math.Abs(p.X), k.height/2-math.Abs(p.Y)))
		}
		return -worst
	})
}

// outside returns how far a point is outside both keyways.
func (k *keyway) outside(p geom.Point) float64 {
	from := func(half, low, high float64) float64 {
		return math.Hypot(max(0, math.Abs(p.X)-half), max(0, low-p.Y, p.Y-high))
	}
	return min(from(k.shaftWidth/2, -k.shaftDeep, 0), from(k.hubWidth/2, 0, k.hubDeep))
}

// TestDovetailByTrying: corners against the flat, the flank and the gib.
func TestDovetailByTrying(t *testing.T) {
	each(t, 3, func(random *rand.Rand) {
		between := func(a, b float64) float64 { return a + (b-a)*random.Float64() }
		d := &dovetail{male: between(30, 80), angle: between(45, 65) * degree, gib: between(2, 8), height: between(5, 12)}
		d.female = d.wide() + d.gib/math.Sin(d.angle) + between(0.01, 0.4)
		twist := d.twist()
		closeTo(t, "gap at the twist", d.tried(twist), 0, agreement)
		for i := range 8 {
			if gap := d.tried(twist * float64(i) / 8); gap < -agreement {
				t.Errorf("%+v binds by %g before the twist of %g", *d, gap, twist)
			}
		}
		if lift := d.slides()[1].Far; math.Abs(d.walls(d.outline())([]float64{d.middle(), lift})) > agreement {
			t.Errorf("%+v is not lifted by %g", *d, lift)
		}
	})
}

func (d *dovetail) tried(twist float64) float64 {
	turned := d.outline().Moved(geom.Pose{Angle: twist})
	return tried([]float64{d.middle(), 0}, []float64{0.1, 0.1}, d.walls(turned))
}

// walls returns the smallest gap of the corners of a part to the drawn walls, as
// it depends on where the part is.
func (d *dovetail) walls(part geom.Path) func(x []float64) float64 {
	_, mate := d.outlines()
	var inwards geom.Path
	for _, e := range []geom.Edge{mate[0][1], mate[0][0], mate[1][3]} {
		if e.Direction(0).Cross(geom.Point{Y: d.height / 2}.Sub(e.From)) < 0 {
			e = e.Reversed()
		}
		inwards = append(inwards, e)
	}
	return func(x []float64) float64 {
		gap := math.Inf(1)
		for _, wall := range inwards {
			for _, e := range part {
				gap = min(gap, wall.Direction(0).Cross(e.From.Add(geom.Point{X: x[0], Y: x[1]}).Sub(wall.From)))
			}
		}
		return gap
	}
}

// TestBoltsByTrying: bolts off their places in plates laid at random.
func TestBoltsByTrying(t *testing.T) {
	each(t, 5, func(random *rand.Rand) {
		n, middle := 1+random.IntN(5), geom.Point{X: 40, Y: 40}
		stand, drilled := make([]geom.Point, n), make([]geom.Point, n)
		for i := range stand {
			stand[i] = geom.Polar(40, (2*float64(i)+random.Float64())*math.Pi/float64(n)).Add(middle)
			drilled[i] = stand[i].Add(geom.Point{X: random.Float64() - 0.5, Y: random.Float64() - 0.5}.Times(0.6))
		}
		s, wrong := newBolts(stand, drilled, 10.6, 10, make([]string, n))
		made(t, s, wrong)
		best := tried([]float64{0, 0, 0}, []float64{0.003, 0.3, 0.3}, func(x []float64) float64 {
			far := 0.0
			for i, q := range drilled {
				laid := q.Sub(middle).Turned(x[0]).Add(middle).Add(geom.Point{X: x[1], Y: x[2]})
				far = max(far, laid.Distance(stand[i]))
			}
			return 0.3 - far
		})
		closeTo(t, "gap", s.gap(), best, agreement)
	})
}

// TestEntryByTrying: no way of offering the part leaves more room: flat, or
// straight in along any direction of the plan, at any angle about the way in.
func TestEntryByTrying(t *testing.T) {
	each(t, 6, func(random *rand.Rand) {
		between := func(a, b float64) float64 { return a + (b-a)*random.Float64() }
		shoe := sector(t, between(40, 60), between(20, 35), between(10, 150)*degree, 60, 20).outline()
		height := between(2, 40)
		w, l := between(10, 60), between(10, 60)
		points := sampled(shoe, 400)
		reach := func(angle float64) float64 {
			u, low, high := geom.Polar(1, angle), math.Inf(1), math.Inf(-1)
			for _, p := range points {
				low, high = min(low, p.Dot(u)), max(high, p.Dot(u))
			}
			return high - low
		}
		round, narrow, window := math.Inf(-1), math.Inf(-1), math.Inf(-1)
		take := func(a, b float64) { narrow, window = max(narrow, w-a, w-b), max(window, min(w-a, l-b), min(w-b, l-a)) }
		centre, _ := shoe.EnclosingCircle()
		flat := tried([]float64{centre.X, centre.Y}, []float64{1, 1}, func(x []float64) float64 {
			far := 0.0
			for _, p := range points {
				far = max(far, p.Distance(geom.Point{X: x[0], Y: x[1]}))
			}
			return w - 2*far
		})
		const steps = 720
		for k := range steps {
			angle := math.Pi * float64(k) / steps
			a := reach(angle)
			take(a, reach(angle+math.Pi/2))
			round = max(round, w-math.Hypot(a, height))
			for j := range 90 {
				sin, cos := math.Sincos(math.Pi / 2 * float64(j) / 90)
				take(a*cos+height*sin, a*sin+height*cos)
			}
		}
		for _, c := range []struct {
			kind    trade.PairKind
			opening []float64
			want    float64
			within  float64 // half a step of the angle, 0.0022 or in a window 0.0087, times 120 mm at most
		}{{roundHole, []float64{w}, max(flat, round), 0.3}, {openEnd, []float64{w}, narrow, 0.3}, {slot, []float64{w, l}, window, 1.1}} {
			got := attitudes(c.kind, c.opening, shoe, height)[0]
			if got.Spare < c.want-agreement || got.Spare > c.want+c.within {
				t.Errorf("%s leaves %g %s, tried %g", c.kind, got.Spare, got.Name, c.want)
			}
		}
	})
}
