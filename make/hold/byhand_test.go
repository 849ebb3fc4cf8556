package hold_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/hold"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// againstStop is a screw of 800 N that presses the work against a stop, and a force
// square to both: each rubs with 80 N.
func againstStop(force float64) *trade.Holding {
	return cutting(force, 7, 0, 90, touching("stop", trade.StopContact, 0, 0, 0), pressing(touching("screw", trade.ScrewContact, 20, 0, 180), 800))
}

// TestSharesWhileItRubs: the stop keeps its 800 N where friction holds the work,
// and has no share where it goes. The force is 7 and 13 mm from the two: each has
// less than its 80 N of it as long as it is less than 80·20/13.
func TestSharesWhileItRubs(t *testing.T) {
	held := hold.Judge(againstStop(100))
	s := held.Shares[0]
	if !s.Rubs || !near(s.Cutting.Low, 800) || !near(s.Cutting.High, 800) || !near(held.Factor, 80*20.0/13/100) {
		t.Errorf("%+v, gives way at %g", s, held.Factor)
	}
	gone := hold.Judge(againstStop(400))
	if s := gone.Shares[0]; !s.Rubs || !math.IsNaN(s.Cutting.Low) || !math.IsNaN(s.Cutting.High) || !near(gone.Factor, 80*20.0/13/400) {
		t.Errorf("%+v, gives way at %g", s, gone.Factor)
	}
}

// TestFrictionStated: the toe has 2000 N. What is stated counts where it is less
// than the 0.1 that is judged with, and is told beside it where it is more.
func TestFrictionStated(t *testing.T) {
	for _, c := range []struct {
		stated, friction, factor, atStated float64
		verdict                            hold.Verdict
		says                               string
	}{
		{0, 0.1, 2, math.NaN(), hold.ByFriction, "at a friction of 0.1 it gives way at 200 N, 2.00 times the force"},
		{0.1, 0.1, 2, math.NaN(), hold.ByFriction, "2.00 times the force"},
		{0.25, 0.1, 2, 5, hold.ByFriction, "at the friction stated, 0.25, that would be 5.00 times"},
		{0.06, 0.06, 1.2, math.NaN(), hold.Hardly, "not by enough: at a friction of 0.06 it gives way at 120 N, 1.20 times the force; at least 2 times the force is wanted"},
	} {
		h := cutting(100, 3, 4, 37, strap("a", 3, 4, 3000))
		h.Friction = c.stated
		held := hold.Judge(h)
		if held.Verdict != c.verdict || held.Friction != c.friction || !near(held.Factor, c.factor) {
			t.Errorf("stated %g: %s at %g and %g times", c.stated, held.Verdict, held.Friction, held.Factor)
		}
		if math.IsNaN(held.Stated) != math.IsNaN(c.atStated) || !math.IsNaN(c.atStated) && !near(held.Stated, c.atStated) {
			t.Errorf("stated %g: %g times, want %g", c.stated, held.Stated, c.atStated)
		}
		wantText(t, "friction", held.Said, c.says)
	}
}

// TestAskew: of two walls at right angles a force that pushes straight into one is
// held by the other as well, if it strays that way; the other way only by the
// friction of one, tan 10° = 0.18 being more than 0.1.
func TestAskew(t *testing.T) {
	for _, c := range []struct {
		name  string
		walls [2]float64 // which way they push
		says  string     // nothing where it is held either way
	}{
		{"strays anticlockwise", [2]float64{0, 270}, "a force 10° to one side is no longer held by stops, nor by friction with anything to spare: the work then slides towards 270°"},
		{"strays clockwise", [2]float64{0, 90}, "a force 10° to one side is no longer held by stops, nor by friction with anything to spare: the work then slides towards 90°"},
	} {
		walls := []trade.Contact{touching("a", trade.WallContact, 0, 0, c.walls[0]), touching("b", trade.WallContact, 0, 0, c.walls[1])}
		held := hold.Judge(cutting(10, 0, 0, 180, walls...))
		if held.Verdict != hold.OnStops {
			t.Errorf("%s: %s", c.name, held.Verdict)
		}
		wantText(t, c.name, held.Warnings, c.says)
	}
	three := hold.Judge(cutting(10, 0, 0, 180,
		touching("a", trade.WallContact, 0, 0, 0), touching("b", trade.WallContact, 0, 0, 90), touching("c", trade.WallContact, 0, 0, 270)))
	for _, w := range three.Warnings {
		if strings.Contains(w.Shown(unit.View{}), "to one side") {
			t.Errorf("held on three sides: %s", w.Shown(unit.View{}))
		}
	}
}

// TestDirections: a line has no ends, so it is told from 0° to under 180°; a way
// has, in whole degrees.
func TestDirections(t *testing.T) {
	for degrees, want := range map[float64][2]string{
		0: {"slides either way along 0°", "slides towards 0°"}, 180: {"slides either way along 0°", "slides towards 180°"},
		-30: {"slides either way along 150°", "slides towards 330°"}, 200: {"slides either way along 20°", "slides towards 200°"},
		359.6: {"slides either way along 180°", "slides towards 0°"}, 44.4: {"slides either way along 44°", "slides towards 44°"},
	} {
		for i, both := range []bool{true, false} {
			m := hold.Motion{Towards: degrees * math.Pi / 180, BothWays: both}
			if got := m.Text().Shown(unit.View{}); got != want[i] {
				t.Errorf("%g: %q, want %q", degrees, got, want[i])
			}
		}
	}
	about := hold.Motion{Turn: geom.Clockwise, About: geom.Point{X: 3, Y: -4}}
	if got := about.Text().Shown(unit.View{}); got != "turns clockwise about (3.000 mm, -4.000 mm)" {
		t.Errorf("%q", got)
	}
}

// TestTurnsAbout: a stop beside the line of the force makes the work turn; a free
// disc on one stop turns about it and slides off it.
func TestTurnsAbout(t *testing.T) {
	free := hold.Judge(cutting(0, 0, 0, 0, touching("a", trade.StopContact, 5, 3, 0)))
	if len(free.Free) != 3 {
		t.Errorf("one stop leaves %d motions", len(free.Free))
	}
	wantFree(t, "one stop", free, "slides either way along 90°", "turns either way about (5.000 mm, 3.000 mm)", "slides towards 0°")
	wantFree(t, "nothing", hold.Judge(cutting(0, 0, 0, 0, strap("s", 5, 3, 1000))),
		"slides either way along 0°", "slides either way along 90°", "turns either way about (5.000 mm, 3.000 mm)")
}

// TestCreepIsNearest holds the way the work begins to move to what the nearest
// point v of a convex cone to a force F is: v is in the cone, (F - v)·v = 0, and
// (F - v)·m <= 0 for every m in it (Moreau). Its edges are the free motions, which
// TestHoldingOracle holds to another program. Lengths are over the root mean square
// distance of the places touched and cut at from the middle of those touched.
func TestCreepIsNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 13))
	crept := 0
	for range 400 {
		h := randomHolding(r)
		held := hold.Judge(h)
		if held.Verdict == hold.Unseated || held.Verdict == hold.NoForce {
			continue
		}
		centre, reach := middle(h)
		at := geom.Point{X: h.At[0].Inside(), Y: h.At[1].Inside()}
		push := geom.Polar(1, h.Towards.Inside())
		force := [3]float64{push.X, push.Y, at.Sub(centre).Cross(push) / reach}
		var v [3]float64
		if held.Creep != nil {
			crept++
			v = along(force, velocity(*held.Creep, centre, reach))
			if dot(force, v) <= 0 {
				t.Errorf("%v: it creeps against the force", held.Creep)
			}
		}
		rest := [3]float64{force[0] - v[0], force[1] - v[1], force[2] - v[2]}
		for _, m := range held.Free {
			power := dot(rest, velocity(m, centre, reach))
			if power > 1e-7 || m.BothWays && power < -1e-7 {
				t.Errorf("creeps %+v, but %+v is nearer to the force: %g", held.Creep, m, power)
			}
		}
	}
	if crept < 50 {
		t.Errorf("only %d crept", crept)
	}
}

// middle returns the middle of the places touched, and the root mean square distance
// from it of those and of where the cutter pushes.
func middle(h *trade.Holding) (centre geom.Point, reach float64) {
	var places []geom.Point
	for _, c := range h.Contacts {
		at := geom.Point{X: c.At[0].Inside(), Y: c.At[1].Inside()}
		if c.Kind != trade.JawContact {
			places = append(places, at)
			continue
		}
		along := geom.Polar(c.Width.Inside()/2, c.Towards.Inside()+math.Pi/2)
		places = append(places, at.Add(along), at.Sub(along))
	}
	for _, p := range places {
		centre.X, centre.Y = centre.X+p.X/float64(len(places)), centre.Y+p.Y/float64(len(places))
	}
	square := 0.0
	places = append(places, geom.Point{X: h.At[0].Inside(), Y: h.At[1].Inside()})
	for _, p := range places {
		square += (p.X-centre.X)*(p.X-centre.X) + (p.Y-centre.Y)*(p.Y-centre.Y)
	}
	if square == 0 {
		return centre, 1
	}
	return centre, math.Sqrt(square / float64(len(places)))
}

// velocity is a motion as the velocity of the centre and the turning times the
// reach, of length 1.
func velocity(m hold.Motion, centre geom.Point, reach float64) [3]float64 {
	v := [3]float64{math.Cos(m.Towards), math.Sin(m.Towards), 0}
	if m.Turn != geom.Straight {
		w := float64(m.Turn)
		v = [3]float64{-w * (centre.Y - m.About.Y), w * (centre.X - m.About.X), w * reach}
	}
	length := math.Sqrt(dot(v, v))
	return [3]float64{v[0] / length, v[1] / length, v[2] / length}
}

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// along is the part of w along a vector of length 1.
func along(w, d [3]float64) [3]float64 {
	k := dot(w, d)
	return [3]float64{k * d[0], k * d[1], k * d[2]}
}
