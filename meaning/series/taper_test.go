package series

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

func TestTapersByName(t *testing.T) {
	for _, c := range []struct {
		name, want string
		least      float64
		seen       TaperSeen
	}{
		{"a Morse socket", "Morse 3", 0.95, TaperSeen{HalfAngle: Measured{1.435 * degree, 0.02 * degree}, Diameter: Measured{23.8, 0.02}}},
		{"read 10 mm in", "Morse 3", 0.95, TaperSeen{HalfAngle: Measured{1.435 * degree, 0.02 * degree}, Diameter: Measured{23.3, 0.02}, At: 10}},
		{"an American spindle", "Jarno 8", 0.9, TaperSeen{HalfAngle: Measured{1.435 * degree, 0.02 * degree}, Diameter: Measured{25.45, 0.02}, Machine: yankee}},
		{"a milling spindle", "7/24 No. 40", 0.95, TaperSeen{HalfAngle: Measured{8.3 * degree, 0.02 * degree}, Diameter: Measured{44.5, 0.02}}},
		{"a collet chuck's old socket", "Brown and Sharpe 7", 0.9, TaperSeen{HalfAngle: Measured{1.2 * degree, 0.01 * degree}, Diameter: Measured{18.3, 0.02}}},
		{"a round angle", "5° half angle (10° included)", 0.9, TaperSeen{HalfAngle: Measured{5 * degree, 0.02 * degree}}},
		{"a taper pin", "taper pin inch", 0.5, TaperSeen{HalfAngle: Measured{0.597 * degree, 0.005 * degree}, Machine: british}},
		{"a metric pin", "taper pin metric", 0.3, TaperSeen{HalfAngle: Measured{0.573 * degree, 0.003 * degree}, Machine: german}},
	} {
		c.seen.Make = 0.03
		a := FindTaper(c.seen)
		if leader := a.Candidates[0]; leader.Designation != c.want || leader.P < c.least {
			t.Errorf("%s: %s with %.3f, wanted %s", c.name, leader.Designation, leader.P, c.want)
		}
	}
}

// TestGaugeLine: a Morse 3 socket that is 23.925 mm at its mouth has its gauge
// line, 23.825 mm, 0.1/0.050196 = 1.992 mm inside (worked by hand).
func TestGaugeLine(t *testing.T) {
	a := FindTaper(TaperSeen{HalfAngle: Measured{1.4377 * degree, 0.01 * degree}, Diameter: Measured{23.925, 0.01}, Make: 0.03})
	leader := a.Candidates[0]
	if leader.Designation != "Morse 3" || math.Abs(leader.GaugeLine-1.992) > 0.001 || math.Abs(leader.UGaugeLine-0.01/0.050196) > 0.001 {
		t.Errorf("%s: gauge line at %.4f ± %.4f mm", leader.Designation, leader.GaugeLine, leader.UGaugeLine)
	}
}

// TestTapersAreFound reads every named taper at its large end with the errors of
// rollers and a micrometer, or of a protractor and a caliper, the gauge line a
// little in or out. A name is right where another of the same taper and diameter
// has it too.
func TestTapersAreFound(t *testing.T) {
	for number, c := range []struct {
		name   string
		angleU float64
		u      float64
	}{{"rollers", 0.005, 0.01}, {"protractor", 0.03, 0.03}} {
		random := rand.New(rand.NewPCG(seed, 200+uint64(number)))
		settled, right, open, named := 0, 0, 0, 0
		for range 10 * rounds() / every() {
			for _, row := range facts.Tapers() {
				if math.IsNaN(row.Large) {
					continue
				}
				in := 0.7 * random.NormFloat64()
				a := FindTaper(TaperSeen{
					HalfAngle: Measured{row.HalfAngle + c.angleU*degree*random.NormFloat64(), c.angleU * degree},
					Diameter:  Measured{row.Large + 2*math.Tan(row.HalfAngle)*in + c.u*random.NormFloat64(), c.u},
					Make:      0.03, Machine: taperHome(row.Family),
				})
				first := isTaper(a.Candidates[0], row)
				switch {
				case a.Settled:
					settled++
					if first {
						right++
					}
				default:
					open++
					if first || strings.Contains(unit.Join(a.Settle, "; ").Shown(unit.View{}), taperName(row)) {
						named++
					}
				}
			}
		}
		t.Logf("%s: settled %d, right %d; open %d, truth named %d", c.name, settled, right, open, named)
		if float64(right) < 0.95*float64(settled) || float64(named) < 0.9*float64(open) {
			t.Errorf("%s: settled %d, right only %d; open %d, named only %d", c.name, settled, right, open, named)
		}
	}
}

func taperHome(family string) (m trade.Machine) {
	switch family {
	case "Jarno", "Brown and Sharpe", "Jacobs":
		return yankee
	case "metric 1:20":
		return german
	}
	return british
}

func isTaper(t Taper, row facts.Taper) bool {
	return math.Abs(t.HalfAngle-row.HalfAngle) < oneAngle && math.Abs(t.Large-row.Large) < 0.01
}

// TestSettlingTapers: where the angle is read well enough the diameter is asked
// for, where not the angle, and what is no taper of any series is called so.
func TestSettlingTapers(t *testing.T) {
	for _, c := range []struct {
		name, want string
		seen       TaperSeen
	}{
		{"no diameter", "read the diameter at the large end", TaperSeen{HalfAngle: Measured{1.435 * degree, 0.01 * degree}}},
		{"a rough angle", "read the half angle to ±", TaperSeen{HalfAngle: Measured{7.6 * degree, 0.4 * degree}}},
		{"no series", "taper of no series", TaperSeen{HalfAngle: Measured{3.37 * degree, 0.005 * degree}}},
	} {
		if a := FindTaper(c.seen); !strings.Contains(unit.Join(a.Settle, "; ").Shown(unit.View{}), c.want) {
			t.Errorf("%s: %q, wanted %q", c.name, unit.Join(a.Settle, "; ").Shown(unit.View{}), c.want)
		}
	}
	if a := FindTaper(TaperSeen{HalfAngle: Measured{3.37 * degree, 0.005 * degree}}); !(a.None > 0.9) {
		t.Errorf("a half angle of 3.37° ± 0.01° is no series with only %.3f", a.None)
	}
}

func TestWarningsOfTapers(t *testing.T) {
	a := FindTaper(TaperSeen{HalfAngle: Measured{60 * degree, degree}, Machine: trade.Machine{Country: "Atlantis"}})
	if len(a.Warnings) != 2 {
		t.Errorf("warned %v, wanted the angle and the country", a.Warnings)
	}
}
