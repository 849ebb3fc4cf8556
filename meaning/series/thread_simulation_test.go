package series

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// The simulation cuts every thread of the tables within the limits of its
// class, wears it, measures it and asks what it was. What it draws from is not
// the model of this package: sizes are uniform within the limits (where the
// tables have none, within as many pitches as those of other families are
// wide), and crests wear by a half-normal of 0.05 mm. The seed was fixed before
// the first run.
const seed = 20260214

// rounds returns how often every thread is cut.
func rounds() int {
	if os.Getenv("ODDLEG_LONG") != "" {
		return 40
	}
	return 1
}

// every says how many rows a quick run goes on by.
func every() int {
	switch {
	case os.Getenv("ODDLEG_LONG") != "":
		return 1
	case testing.Short():
		return 7
	}
	return 2
}

// wornScale is how much the simulated crests wear, mm; the flanks half of it.
const wornScale = 0.05

// readingsOf is one way of reading a thread.
type readingsOf struct {
	name                    string
	inside, angle, wires    bool
	overThreads, knowsTrade bool
}

var waysOfReading = []readingsOf{
	{name: "crests and leaf, machine unknown"},
	{name: "crests and leaf", knowsTrade: true},
	{name: "crests, leaf and profile leaf, machine unknown", angle: true},
	{name: "crests, leaf and profile leaf", angle: true, knowsTrade: true},
	{name: "crests, wires and over many threads, machine unknown", wires: true, overThreads: true},
	{name: "bore and leaf", inside: true, knowsTrade: true},
	{name: "bore, over many threads and profile leaf, machine unknown", inside: true, angle: true, overThreads: true},
}

// home is where a family of threads is at home.
func home(family string) trade.Machine {
	switch {
	case strings.HasPrefix(family, "M-") || family == "Tr":
		return trade.Machine{Built: 1960, Country: "DE"}
	case strings.HasPrefix(family, "UN") || family == "NPT" || family == "Acme":
		return trade.Machine{Built: 1950, Country: "US"}
	}
	return trade.Machine{Built: 1935, Country: "GB"}
}

const smallEnd = 0.28

// cut returns a diameter within the limits of the first class that has any, at
// this part of them from below. A taper thread is read anywhere between its small
// end and the gauge plane, 0.28 pitches smaller on the diameter there (ISO 7-1:
// 8.2 mm at 1 in 16 for R 1/2, pitch 1.814 mm).
func cut(t facts.Thread, of string, basic, otherwise, part float64) float64 {
	for _, l := range threadLimits(t) {
		if l.Of == of {
			return l.Low + part*(l.High-l.Low)
		}
	}
	if t.Tapered {
		otherwise = math.Copysign(smallEnd, otherwise)
	}
	return basic + otherwise*t.Pitch*part
}

// read measures a thread that was cut at these parts of its limits and lost so
// many times the usual wear; noise gives the error of each reading in standard
// deviations.
func (w readingsOf) read(t facts.Thread, part func() float64, worn, noise func() float64) ThreadSeen {
	seen := ThreadSeen{Inside: w.inside, Wear: 0.03, Make: 0.03}
	b := basicSizes(t)
	const u = 0.02
	wear := min(wornScale*worn(), 0.2*t.Pitch)
	if w.inside {
		seen.Minor = Measured{cut(t, nutMinor, b.MinorNut, 0.25, part()) + wear + u*noise(), u}
	} else {
		seen.Major = Measured{cut(t, screwMajor, b.Major, -0.15, part()) - wear + u*noise(), u}
	}
	if w.wires {
		seen.Effective = Measured{cut(t, screwEffective, b.Effective, -0.1, part()) - wear/2 + u*noise(), u}
	}
	seen.Pitch = ByLeaf(t.Pitch)
	if w.overThreads {
		seen.Pitch = Over(10, Measured{10 * t.Pitch, 0.04})
	}
	seen.Pitch.Value += seen.Pitch.U * noise()
	if w.angle {
		seen.Angle = Measured{t.Angle + degree*noise(), degree}
	}
	if w.knowsTrade {
		seen.Machine = home(t.Family)
	}
	return seen
}

// tells reports whether readings of this kind can tell the thread: read without
// error in the middle of its limits and worn as usual, it is 20 times as likely
// as any other.
func (w readingsOf) tells(t facts.Thread) bool {
	constant := func(x float64) func() float64 { return func() float64 { return x } }
	a := FindThread(w.read(t, constant(0.5), constant(0.8), constant(0)))
	return a.Settled && same(a.Candidates[0].Thread, t)
}

// tally counts threads found.
type tally struct{ tried, found, pairs, named, settled, rightly int }

func (n *tally) add(m tally) {
	n.tried, n.found, n.pairs, n.named = n.tried+m.tried, n.found+m.found, n.pairs+m.pairs, n.named+m.named
	n.settled, n.rightly = n.settled+m.settled, n.rightly+m.rightly
}

// simulate cuts and reads one thread: where the readings can tell, its name is
// wanted first; where they cannot, among those that the advice tells apart.
func (w readingsOf) simulate(t facts.Thread, tells bool, random *rand.Rand) (n tally) {
	seen := w.read(t, random.Float64, func() float64 { return math.Abs(random.NormFloat64()) }, random.NormFloat64)
	a := FindThread(seen)
	first := same(a.Candidates[0].Thread, t)
	if a.Settled {
		n.settled = 1
		if first {
			n.rightly = 1
		}
	}
	if tells {
		n.tried = 1
		if first {
			n.found = 1
		}
		return n
	}
	n.pairs = 1
	named := func(c Thread) bool {
		return same(c.Thread, t) && (first || strings.Contains(unit.Join(a.Settle, "; ").Shown(unit.View{}), c.Designation))
	}
	if slices.ContainsFunc(a.Candidates, named) {
		n.named = 1
	}
	return n
}

func TestThreadsAreFound(t *testing.T) {
	var all tally
	for number, w := range waysOfReading {
		random := rand.New(rand.NewPCG(seed, uint64(number)))
		families := map[string]*tally{}
		for i, row := range facts.Threads() {
			if families[row.Family] == nil {
				families[row.Family] = &tally{}
			}
			if (i+number)%every() != 0 {
				continue
			}
			tells := w.tells(row)
			for range rounds() {
				families[row.Family].add(w.simulate(row, tells, random))
			}
		}
		var sum tally
		for family, n := range families {
			t.Logf("%s: %-8s told %4d of %4d; pair named %4d of %4d", w.name, family, n.found, n.tried, n.named, n.pairs)
			sum.add(*n)
		}
		t.Logf("%s: ALL told %d of %d; pair named %d of %d", w.name, sum.found, sum.tried, sum.named, sum.pairs)
		all.add(sum)
	}
	told, named := float64(all.found)/float64(all.tried), float64(all.named)/float64(all.pairs)
	t.Logf("told %d of %d = %.4f; pair named %d of %d = %.4f", all.found, all.tried, told, all.named, all.pairs, named)
	rightly := float64(all.rightly) / float64(all.settled)
	t.Logf("called settled %d, rightly %d = %.4f", all.settled, all.rightly, rightly)
	if rightly < 0.95 {
		t.Errorf("of the threads called settled, 20 to 1, only %.4f are right", rightly)
	}
	if told < 0.95 {
		t.Errorf("where the readings can tell, %.4f of the threads come first, wanted 0.95", told)
	}
	if named < 0.95 {
		t.Errorf("where the readings cannot tell, %.4f of the pairs are named, wanted 0.95", named)
	}
}
