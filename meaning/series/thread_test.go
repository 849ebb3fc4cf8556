package series

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

var (
	british = trade.Machine{Built: 1938, Country: "GB"}
	german  = trade.Machine{Built: 1960, Country: "DE"}
	yankee  = trade.Machine{Built: 1950, Country: "us"}
)

// screwSeen is a screw over its crests, with the leaf that fits.
func screwSeen(major, pitch float64, m trade.Machine) ThreadSeen {
	return ThreadSeen{Major: Measured{major, 0.02}, Pitch: ByLeaf(pitch), Wear: 0.03, Make: 0.03, Machine: m}
}

func (seen ThreadSeen) withAngle(degrees float64) ThreadSeen {
	seen.Angle = Measured{degrees * degree, degree}
	return seen
}

// TestThreadsByName has readings whose answer the trade would give (constructed).
func TestThreadsByName(t *testing.T) {
	nut := ThreadSeen{Inside: true, Minor: Measured{9.3, 0.05}, Pitch: ByLeaf(inch / 14), Make: 0.03, Machine: british}
	left := screwSeen(19.9, 4, german)
	left.Angle = Measured{30 * degree, degree / 2}
	for _, c := range []struct {
		name, want string
		least      float64
		seen       ThreadSeen
	}{
		{"a worn Whitworth stud", "7/16 BSW", 0.9, screwSeen(10.98, inch/14, british)},
		{"the same, flanks seen", "7/16 BSW", 0.99, screwSeen(10.98, inch/14, british).withAngle(55)},
		{"the same on an American machine", "7/16-14 UNC", 0.9, screwSeen(10.98, inch/14, yankee)},
		{"a tapped hole", "7/16 BSW", 0.8, nut},
		{"a metric screw", "M10", 0.95, screwSeen(9.85, 1.5, german)},
		{"a metric screw, machine unknown", "M10", 0.9, screwSeen(9.85, 1.5, trade.Machine{})},
		{"a fine one", "M10x1.25", 0.99, screwSeen(9.85, 1.25, german)},
		{"instrument screws", "2 BA", 0.9, screwSeen(4.62, 0.81, british)},
		{"a pipe", "G 1/2", 0.5, screwSeen(20.85, inch/14, british)},
		{"a leadscrew", "Tr 20x4", 0.9, left},
		{"a brass union", "1/2 brass 26 tpi", 0.9, screwSeen(12.62, inch/26, british).withAngle(55)},
		{"a pitch no series has on this diameter", "special 1/2 in x 18 tpi, 55°", 0.5, screwSeen(12.65, inch/18, british).withAngle(55)},
		{"a round metric special", "special 22 mm x 1.25 mm, 60°", 0.8, screwSeen(21.9, 1.25, german).withAngle(60)},
	} {
		t.Run(c.name, func(t *testing.T) {
			leader := FindThread(c.seen).Candidates[0]
			if leader.Designation != c.want || leader.P < c.least {
				t.Errorf("%s with %.3f, wanted %s with %g", leader.Designation, leader.P, c.want, c.least)
			}
		})
	}
}

// TestWearOfTheExample: the crests of a 7/16 in screw that reads 10.98 mm have
// lost most of 0.1325 mm (constructed, by the posterior mean of the model).
func TestWearOfTheExample(t *testing.T) {
	leader := FindThread(screwSeen(10.98, inch/14, british)).Candidates[0]
	if math.Abs(leader.Wear-0.13) > 0.01 {
		t.Errorf("worn %.3f mm, wanted about 0.13", leader.Wear)
	}
}

// TestTwinsAreToldApart has the pairs that the trade knows, and a word of the
// reading that settles each.
func TestTwinsAreToldApart(t *testing.T) {
	blunt := screwSeen(12.6, 2.05, trade.Machine{})
	blunt.Pitch.U = 0.06
	for _, c := range []struct {
		name  string
		seen  ThreadSeen
		words []string
	}{
		{"12 tpi at 55° or 13 at 60°", blunt, []string{"1/2 BSW", "1/2-13 UNC", "over 12 pitches", "23.45 mm", "25.40 mm"}},
		{"one pitch, two flank angles", screwSeen(10.98, inch/14, trade.Machine{}), []string{"7/16 BSW", "7/16-14 UNC", "profile leaf", "55°", "60°"}},
		{"M6 or 0 BA", screwSeen(5.94, 1, trade.Machine{}), []string{"M6", "0 BA", "47.5°", "60°"}},
		{"brass, cycle or fine at 26 tpi", screwSeen(6.3, inch/26, british), []string{"1/4 BSF and 1/4 brass 26 tpi are one thread", "1/4 CEI/BSC 26 tpi", "profile leaf"}},
		{"parallel or taper pipe", screwSeen(20.85, inch/14, british).withAngle(55), []string{"G 1/2", "R/Rc 1/2", "less by a sixteenth of the way between them says R/Rc 1/2, no less says G 1/2"}},
		{"cycle or fine at 20 tpi and 60°", screwSeen(12.62, inch/20, trade.Machine{}).withAngle(60), []string{"1/2-20 UNF", "1/2 CEI/BSC 20 tpi", "rounded"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := FindThread(c.seen)
			for _, word := range c.words {
				if !strings.Contains(unit.Join(a.Settle, "; ").Shown(unit.View{}), word) {
					t.Errorf("%q lacks %q", unit.Join(a.Settle, "; ").Shown(unit.View{}), word)
				}
			}
		})
	}
}

// TestTheReadingAskedForSettles takes the reading that the advice asks for and
// asks again.
func TestTheReadingAskedForSettles(t *testing.T) {
	for _, angle := range []float64{55, 60} {
		seen := screwSeen(10.98, inch/14, trade.Machine{})
		if FindThread(seen).Settled {
			t.Fatal("a 14 tpi stud of 7/16 in is settled without its flanks")
		}
		a := FindThread(seen.withAngle(angle))
		if !a.Settled || a.Candidates[0].Angle != angle*degree {
			t.Errorf("%g° seen: %s, settled %t", angle, a.Candidates[0].Designation, a.Settled)
		}
	}
}

func TestWarningsOfThreads(t *testing.T) {
	coarse := screwSeen(10, 1.5, german)
	coarse.Pitch = Measured{1.62, 0.005}
	for _, c := range []struct {
		name, want string
		seen       ThreadSeen
	}{
		{"no such pitch", "off the pitch", coarse},
		{"no such flanks", "off the flank angle", screwSeen(10, 1.5, german).withAngle(75)},
		{"an unknown country", "not known here", screwSeen(10, 1.5, trade.Machine{Country: "Atlantis"})},
	} {
		if all := unit.Join(FindThread(c.seen).Warnings, "; ").Shown(unit.View{}); !strings.Contains(all, c.want) {
			t.Errorf("%s: warned %q, wanted %q", c.name, all, c.want)
		}
	}
	if list := FindThread(screwSeen(9.85, 1.5, german)).Warnings; len(list) > 0 {
		t.Errorf("a plain M10 is warned about: %v", list)
	}
}

// TestProbabilitiesAddUp: what is shown is nearly all, sorted, none negative.
func TestProbabilitiesAddUp(t *testing.T) {
	for _, seen := range []ThreadSeen{screwSeen(10.98, inch/14, british), screwSeen(250, 3, british), screwSeen(0.3, 0.08, german), {Major: Measured{12, 0.5}}} {
		sum, last := 0.0, 1.0
		a := FindThread(seen)
		for _, c := range a.Candidates {
			if c.P > last || c.P < 0 || c.Wear < 0 {
				t.Errorf("%+v is out of order or negative", c)
			}
			sum, last = sum+c.P, c.P
		}
		if !(sum <= 1+1e-9) || sum < 0.9 {
			t.Errorf("%+v: the candidates add up to %g", seen, sum)
		}
	}
}

// TestTheCountryTurnsTheScale: the same readings, told only by where the machine
// is from.
func TestTheCountryTurnsTheScale(t *testing.T) {
	for country, family := range map[string]string{"GB": "BSW", "england": "BSW", "US": "UNC", "Canada": "UNC"} {
		leader := FindThread(screwSeen(10.98, inch/14, trade.Machine{Built: 1938, Country: country})).Candidates[0]
		if leader.Family != family {
			t.Errorf("%s: %s, wanted %s", country, leader.Designation, family)
		}
	}
	before := familyPrior("BSF", trade.Machine{Built: 1900, Country: "GB"})
	if after := familyPrior("BSF", british); !(before < 0.2*after) {
		t.Errorf("BSF is as common in 1900 (%g) as in 1938 (%g)", before, after)
	}
}

// TestSharesAreShares: in each trade the shares of all families add up to about
// one, and no family of the tables is left out.
func TestSharesAreShares(t *testing.T) {
	for _, shares := range []map[string][trades]float64{familyShares, taperShares} {
		for i := range trades {
			sum := 0.0
			for _, s := range shares {
				sum += s[i]
			}
			if math.Abs(sum-1) > 0.05 {
				t.Errorf("trade %d: the shares add up to %g", i, sum)
			}
		}
	}
	for _, r := range facts.Threads() {
		if _, listed := familyShares[r.Family]; !listed {
			t.Errorf("%s has no share", r.Family)
		}
		if choiceWeights[r.Choice] == 0 {
			t.Errorf("%s: the choice %q has no weight", r.Designation, r.Choice)
		}
	}
	for _, r := range facts.Tapers() {
		if _, listed := taperShares[r.Family]; !listed {
			t.Errorf("%s has no share", r.Family)
		}
	}
}

// TestLevelsShareOut: the levels of round sizes hold all their prior, and a value
// belongs to the coarsest level that has it.
func TestLevelsShareOut(t *testing.T) {
	for i, s := range systems {
		sum := 0.0
		for _, l := range s.levels {
			sum += l.share
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("system %d: the levels share out %g", i, sum)
		}
	}
	inches := &systems[0]
	for _, c := range []struct {
		major float64
		level int
	}{{inch, 0}, {inch / 2, 1}, {3 * inch / 8, 3}, {7 * inch / 16, 4}} {
		for i, l := range inches.levels {
			onGrid := math.Abs(math.Remainder(c.major, l.step)) < exact
			if got := onGrid && inches.belongs(c.major, l); got != (i == c.level) {
				t.Errorf("%g mm belongs to level %d: %t", c.major, i, got)
			}
		}
	}
	// Eighths that are not quarters are a quarter of an inch apart.
	if per := inches.levels[3].per; math.Abs(per-inch/4) > 1e-9 {
		t.Errorf("odd eighths are %g mm apart, wanted %g", per, inch/4)
	}
}
