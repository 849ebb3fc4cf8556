package series

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// look is one way of telling two threads apart.
type look struct {
	strength float64 // by how many standard deviations a good reading would differ
	text     unit.Text
}

// What a good reading is taken to be worth in the advice: standard
// uncertainties that a caliper over many threads, a flank-angle leaf and wires
// reach.
const (
	overThreadsU = 0.04 // mm, over any number of threads
	leafAngleU   = 1.0 * degree
	wiresU       = 0.015 // mm
	looking      = 6     // what is plain to see
)

// enough is the strength at which the odds, reading at the better one, come to
// 20 to 1: exp(z²/2) = 20.
var enough = math.Sqrt(2 * math.Log(settledOdds))

// rivalsNamed is how many rivals of the leader are told apart in words.
const rivalsNamed = 3

// settleThreads says how to tell the leader from those within 20 to 1 of it.
// The names of one thread count as one.
func settleThreads(list []Thread, seen ThreadSeen) (how []unit.Text, settled bool) {
	leader := list[0]
	rivals := 0
	for _, rival := range list[1:] {
		if rival.P*settledOdds < leader.P || rivals == rivalsNamed {
			break
		}
		if same(leader.Thread, rival.Thread) {
			how = append(how, unit.Say("%s and %s are one thread under two names", leader.Designation, rival.Designation))
			continue
		}
		rivals++
		how = append(how, tellApart(leader.Thread, rival.Thread, seen))
	}
	if len(how) == 0 {
		return nothingNear(leader.Designation), true
	}
	return how, rivals == 0
}

// nothingNear says that nothing need be settled.
func nothingNear(leader string) []unit.Text {
	return []unit.Text{unit.Say("Nothing else comes within 20 to 1 of %s", leader)}
}

// tellApart names two threads and the reading that tells them apart best.
func tellApart(a, b facts.Thread, seen ThreadSeen) unit.Text {
	best := look{}
	for _, l := range []look{byTaper(a, b), byPitch(a, b), byAngle(a, b, seen), byForm(a, b), byEffective(a, b, seen), byCrest(a, b, seen)} {
		if l.strength > best.strength {
			best = l
		}
	}
	pair := fmt.Sprintf("%s or %s", a.Designation, b.Designation)
	if best.strength < enough {
		return unit.Words(pair + ": no reading of a worn thread will tell; find one that is not worn, or its mate")
	}
	return unit.Say("%s: %s", pair, best.text)
}

func byTaper(a, b facts.Thread) look {
	if a.Tapered == b.Tapered {
		return look{}
	}
	taper, parallel := a, b
	if b.Tapered {
		taper, parallel = b, a
	}
	return look{looking, unit.Say("read the diameter at two places: less by a sixteenth of the way between them says %s, no less says %s",
		taper.Designation, parallel.Designation)}
}

// hundredths is a length in mm that a caliper reads.
func hundredths(mm float64) unit.Rounded { return unit.Rounded{MM: mm, Decimals: 2} }

// byPitch measures over many threads, but over no more than a screw usually has.
func byPitch(a, b facts.Thread) look {
	n := min(20, max(5, math.Floor(25/a.Pitch)))
	return look{
		n * math.Abs(a.Pitch-b.Pitch) / overThreadsU,
		unit.Say("measure over %.0f pitches: %s says %s, %s says %s", n, hundredths(n*a.Pitch), a.Designation, hundredths(n*b.Pitch), b.Designation),
	}
}

// byAngle says nothing where the angle has been read already as well as a leaf
// can.
func byAngle(a, b facts.Thread, seen ThreadSeen) look {
	if seen.Angle.Given() && seen.Angle.U <= leafAngleU {
		return look{}
	}
	return look{
		math.Abs(a.Angle-b.Angle) / leafAngleU,
		unit.Say("hold a profile leaf to the flanks: %.4g° says %s, %.4g° says %s", a.Angle/degree, a.Designation, b.Angle/degree, b.Designation),
	}
}

// byForm tells rounded roots from flat ones.
func byForm(a, b facts.Thread) look {
	rootA, rootB := rootWord(a), rootWord(b)
	if rootA == rootB {
		return look{}
	}
	return look{enough, unit.Say("look at an unworn crest through a glass: %s says %s, %s says %s", rootA, a.Designation, rootB, b.Designation)}
}

func rootWord(t facts.Thread) string {
	word, _, _ := strings.Cut(forms[t.Form].Crest, " ")
	if word == "radius" {
		return "a rounded one"
	}
	return "a flat one"
}

func byEffective(a, b facts.Thread, seen ThreadSeen) look {
	with := "over wires"
	if seen.Inside {
		with = "with ball tips"
	}
	x, y := basicSizes(a).Effective, basicSizes(b).Effective
	return look{
		math.Abs(x-y) / math.Hypot(wiresU, flankLoss*max(a.Pitch, b.Pitch)),
		unit.Say("read the effective diameter %s: near %s says %s, near %s says %s", with, unit.LengthOf(x), a.Designation, unit.LengthOf(y), b.Designation),
	}
}

// byCrest reads the crests again at a place that has not worn.
func byCrest(a, b facts.Thread, seen ThreadSeen) look {
	what, place := "major diameter", "where it has not worn (the end, under the nut)"
	x, y, loss := basicSizes(a).Major, basicSizes(b).Major, crestLoss
	if seen.Inside {
		what, place, loss = "bore", "where its crests have not worn (the far end)", boreLoss
		x, y = basicSizes(a).MinorNut, basicSizes(b).MinorNut
	}
	return look{
		math.Abs(x-y) / math.Hypot(seen.Make, loss*max(a.Pitch, b.Pitch)),
		unit.Say("read the %s %s: near %s says %s, near %s says %s", what, place, hundredths(x), a.Designation, hundredths(y), b.Designation),
	}
}
