package gauge

import (
	"math"
	"math/rand/v2"
	"testing"
)

// spot is a point of the set-up drawn out: x to the right, y up, the axis or
// centre plane at x = 0.
type spot struct{ x, y float64 }

func (p spot) to(q spot) float64 { return math.Hypot(p.x-q.x, p.y-q.y) }

// least returns the least value that f takes over [low, high], found by
// narrowing a raster: it knows nothing of perpendiculars or of calculus.
func least(low, high float64, f func(s float64) float64) float64 {
	best, at := math.Inf(1), low
	for range 30 {
		const steps = 20
		step := (high - low) / steps
		for i := range steps + 1 {
			if value := f(low + float64(i)*step); value < best {
				best, at = value, low+float64(i)*step
			}
		}
		low, high = at-step, at+step
	}
	return best
}

// toEdge is the distance from p to the straight edge from a to b.
func (p spot) toEdge(a, b spot) float64 {
	return least(0, 1, func(s float64) float64 {
		s = math.Max(0, math.Min(1, s))
		return p.to(spot{a.x + s*(b.x-a.x), a.y + s*(b.y-a.y)})
	})
}

// toArc is the distance from p to the upper half of a circle round the origin.
func (p spot) toArc(radius float64) float64 {
	return least(0, math.Pi, func(s float64) float64 { return p.to(spot{radius * math.Cos(s), radius * math.Sin(s)}) })
}

// far is beyond the reach of every set-up here.
const far = 1e3

// drawnOut places the pieces by moving each until it touches, and measures.
var drawnOut = map[string]func(v []float64) float64{
	"bridging-pin-near":        func(v []float64) float64 { return bridged(v) - v[2] - v[1]/2 },
	"bridging-pin-far":         func(v []float64) float64 { return bridged(v) - v[2] + v[1]/2 },
	"two-balls-stacked":        stackedBalls,
	"rocking-rod":              swingingRod,
	"taper-over-rollers":       rollersOnTaper,
	"taper-ball-depth":         func(v []float64) float64 { return -topOfBallInTaper(v) },
	"countersink-ball":         topOfBallInTaper,
	"dovetail-over-rollers":    func(v []float64) float64 { return 2*dovetailRoller(v, 1) + v[2] },
	"dovetail-between-rollers": func(v []float64) float64 { return 2*dovetailRoller(v, -1) - v[2] },
	"vee-roller":               rollerInVee,
	"three-wires":              func(v []float64) float64 { return 2*wireInGroove(v, 1) + v[3] },
	"thread-between-balls":     func(v []float64) float64 { return 2*wireInGroove(v, -1) - v[3] },
	"thread-ball-tips":         func(v []float64) float64 { return math.Hypot(2*wireInGroove(v, -1), v[1]/2) + v[3] },
	"ball-feet-height":         heightOverFeet,
	"gear-over-pins":           overPinsInSpaces,
}

// TestModelsAgainstContact moves pieces against the surfaces until they touch,
// with distances found by brute force, and compares the reading.
func TestModelsAgainstContact(t *testing.T) {
	for id, measure := range drawnOut {
		m, ok := Find(id)
		if !ok {
			t.Fatalf("no method %s", id)
		}
		for _, v := range validAround(t, m, rand.New(rand.NewPCG(2, 3)))[:8] {
			want, got := measure(v), model(m.Model).at(v)
			if math.Abs(got-want) > 1e-7*(1+math.Abs(want)) {
				t.Errorf("%s at %v: model %.10g, drawn out %.10g", id, v, got, want)
			}
		}
	}
}

// bridged is how far out the outer side of a bar can go before one of its
// points meets the wall.
func bridged(v []float64) float64 {
	wall, length := v[0], v[3]
	return rising(0, wall/2, wall/2, func(x float64) float64 {
		return -least(-0.5, 0.5, func(s float64) float64 {
			s = math.Max(-0.5, math.Min(0.5, s))
			return -math.Hypot(x, s*length)
		})
	})
}

func stackedBalls(v []float64) float64 {
	bore, lower, upper := v[0], v[1], v[2]
	down := spot{lower / 2, lower / 2}
	x := rising(0, bore, bore, func(x float64) float64 { return x + upper/2 })
	y := rising(down.y, far, (lower+upper)/2, func(y float64) float64 { return down.to(spot{x, y}) })
	return y + upper/2
}

func swingingRod(v []float64) float64 {
	bore, rod := v[0], v[1]
	held := spot{-bore / 2, 0}
	free := func(angle float64) spot { return spot{bore / 2 * math.Cos(angle), bore / 2 * math.Sin(angle)} }
	up := rising(0, math.Pi, -rod, func(angle float64) float64 { return -held.to(free(angle)) })
	return free(up).to(free(-up))
}

func rollersOnTaper(v []float64) float64 {
	smallEnd, halfAngle, roller, block := v[0], v[1], v[2], v[3]
	foot := spot{smallEnd / 2, 0}
	head := spot{smallEnd/2 + far*math.Tan(halfAngle), far}
	x := rising(smallEnd/2, far, roller/2, func(x float64) float64 { return spot{x, block + roller/2}.toEdge(foot, head) })
	return 2*x + roller
}

// topOfBallInTaper lets a ball down into a taper whose face is at y = 0.
func topOfBallInTaper(v []float64) float64 {
	mouth, halfAngle, ball := v[0], v[1], v[2]
	lip, point := spot{mouth / 2, 0}, spot{0, -mouth / 2 / math.Tan(halfAngle)}
	y := rising(point.y, far, ball/2, func(y float64) float64 { return spot{0, y}.toEdge(lip, point) })
	return y + ball/2
}

// dovetailRoller pushes a roller along the base at y = 0 into the corner of a
// male (1) or female (-1) dovetail and returns where its middle stops.
func dovetailRoller(v []float64, side float64) float64 {
	width, angle, roller := v[0], v[1], v[2]
	foot := spot{width / 2, 0}
	head := spot{width/2 + side*far*math.Cos(angle), far * math.Sin(angle)}
	away := rising(0, width, roller/2, func(away float64) float64 { return spot{width/2 + side*away, roller / 2}.toEdge(foot, head) })
	return width/2 + side*away
}

func rollerInVee(v []float64) float64 {
	width, angle, roller := v[0], v[1], v[2]
	point := spot{0, -width / 2 / math.Tan(angle/2)}
	y := rising(point.y, far, roller/2, func(y float64) float64 { return spot{0, y}.toEdge(point, spot{width / 2, 0}) })
	return y + roller/2
}

// wireInGroove pushes a wire into the groove of a screw (1) or a nut (-1), half
// a pitch wide on the pitch line, and returns its middle's distance from the
// axis. The groove lies round x = 0, the axis along y = 0.
func wireInGroove(v []float64, side float64) float64 {
	effective, pitch, angle, wire := v[0], v[1], v[2], v[3]
	flank := func(up float64) spot { return spot{pitch/4 + up*math.Tan(angle/2), effective/2 + side*up} }
	root, crest := flank(-pitch/4/math.Tan(angle/2)), flank(pitch/4/math.Tan(angle/2))
	up := rising(root.y*side-effective/2*side, far, wire/2, func(up float64) float64 {
		return spot{0, effective/2 + side*up}.toEdge(root, crest)
	})
	return effective/2 + side*up
}

// heightOverFeet moves two balls off the arc until they just touch, outside (1)
// or inside (-1), and measures from the plane that touches both to the arc's
// middle.
func heightOverFeet(v []float64) float64 {
	radius, feet, ball, side := v[0], v[1], v[2], v[3]
	on := math.Sqrt(radius*radius - feet*feet/4)
	away := rising(0, radius/2, ball/2, func(away float64) float64 { return spot{feet / 2, on + side*away}.toArc(radius) })
	return radius - (on + side*away - side*ball/2)
}

// overPinsInSpaces lets a pin down between two involute flanks drawn point by
// point, and measures over two such pins as nearly opposite as can be.
func overPinsInSpaces(v []float64) float64 {
	module, shift, teeth, pressure, pin, addendum := v[0], v[1], v[2], v[3], v[4], v[5]
	base, tips := module*teeth*math.Cos(pressure)/2, module*(teeth/2+addendum+shift)
	inv := func(a float64) float64 { return math.Tan(a) - a }
	thickness := module * (math.Pi/2 + 2*shift*math.Tan(pressure)) // of a tooth on the pitch circle
	flank := func(radius float64) spot {
		tooth := thickness/(module*teeth) + inv(pressure) - inv(math.Acos(base/radius))
		space := math.Pi/teeth - tooth
		return spot{radius * math.Sin(space), radius * math.Cos(space)}
	}
	y := rising(base, 2*tips, pin/2, func(y float64) float64 {
		return least(base, tips, func(radius float64) float64 { return spot{0, y}.to(flank(math.Max(base, math.Min(tips, radius)))) })
	})
	turned := math.Floor(teeth/2) * 2 * math.Pi / teeth
	return spot{0, y}.to(spot{y * math.Sin(turned), y * math.Cos(turned)}) + pin
}
