package hold_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/hold"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// The words of testdata/oracle/holding.py: mm, N, radians.
type (
	oracleCase struct {
		Contacts   []oracleContact `json:"contacts"`
		Force      float64         `json:"force"`
		X          float64         `json:"x"`
		Y          float64         `json:"y"`
		Towards    float64         `json:"towards"`
		Friction   float64         `json:"friction"`
		Sides      int             `json:"sides"`
		Free       []oracleMotion  `json:"free"`
		Directions [][3]float64    `json:"directions"`
		Centre     [2]float64      `json:"centre"`
		Reach      float64         `json:"reach"`
	}
	oracleContact struct {
		Kind     trade.ContactKind `json:"kind"`
		X        float64           `json:"x"`
		Y        float64           `json:"y"`
		Towards  float64           `json:"towards"`
		Width    float64           `json:"width"`
		Clamping float64           `json:"clamping"`
		Toe      float64           `json:"toe"`
	}
	oracleMotion struct {
		V    [3]float64 `json:"v"`
		Both bool       `json:"both"`
	}
	oracleAnswer struct {
		Balances bool         `json:"balances"`
		Factor   []*float64   `json:"factor"` // at the least and the most friction of straps
		Free     [][2]float64 `json:"free"`
	}
)

// randomHolding is some set-up on a coarse grid, so that contacts often push along
// one line or through one point.
func randomHolding(r *rand.Rand) *trade.Holding {
	at := func() float64 { return float64(10 * (r.IntN(9) - 4)) }
	angle := func() float64 { return float64(30 * r.IntN(12)) }
	force := func() float64 { return float64(500 * (1 + r.IntN(10))) }
	var contacts []trade.Contact
	for i := range 2 + r.IntN(5) {
		id := string(rune('a' + i))
		switch r.IntN(6) {
		case 0:
			contacts = append(contacts, strap(id, at(), at(), force()))
		case 1:
			contacts = append(contacts, wide(touching(id, trade.JawContact, at(), at(), angle()), 40))
		case 2:
			contacts = append(contacts, pressing(wide(touching(id, trade.JawContact, at(), at(), angle()), 40), force()))
		case 3:
			contacts = append(contacts, pressing(touching(id, trade.ScrewContact, at(), at(), angle()), force()))
		default:
			contacts = append(contacts, touching(id, trade.StopContact, at(), at(), angle()))
		}
	}
	h := cutting(force()/float64(1+r.IntN(60)), at(), at(), angle(), contacts...)
	h.Friction = 0.02 * float64(1+r.IntN(5))
	return h
}

// inOtherWords gives a set-up and the motions found free in it to the oracle.
func inOtherWords(h *trade.Holding, held *hold.Judgement, r *rand.Rand) oracleCase {
	c := oracleCase{
		Force: h.Force.Inside(), X: h.At[0].Inside(), Y: h.At[1].Inside(), Towards: h.Towards.Inside(),
		Friction: h.Friction, Sides: 32, Reach: 20, Free: []oracleMotion{},
	}
	for _, k := range h.Contacts {
		o := oracleContact{Kind: k.Kind, X: k.At[0].Inside(), Y: k.At[1].Inside()}
		if k.Towards.Given() {
			o.Towards = k.Towards.Inside()
		}
		if k.Width.Given() {
			o.Width = k.Width.Inside()
		}
		if k.Clamping.Given() {
			o.Clamping, o.Toe = k.Clamping.Inside(), k.Clamping.Inside()*2/3
		}
		c.Contacts = append(c.Contacts, o)
	}
	for _, m := range held.Free {
		c.Free = append(c.Free, oracleMotion{twist(m, c.Reach), m.BothWays})
	}
	for range 4 {
		c.Directions = append(c.Directions, [3]float64{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()})
	}
	return c
}

// twist is a motion as the velocity at the origin and the turning times a reach.
func twist(m hold.Motion, reach float64) [3]float64 {
	if m.Turn == geom.Straight {
		p := geom.Polar(1, m.Towards)
		return [3]float64{p.X, p.Y, 0}
	}
	w := float64(m.Turn)
	v := [3]float64{w * m.About.Y / reach, -w * m.About.X / reach, w}
	most := math.Max(1, math.Max(math.Abs(v[0]), math.Abs(v[1])))
	return [3]float64{v[0] / most, v[1] / most, v[2] / most}
}

// TestHoldingOracle holds random set-ups to scipy's linear programmes
// (testdata/oracle/holding.py): whether the clamping balances, at what force the
// work gives way, and whether the motions found are all that are free and no more.
// The circle of a strap's friction has 32 corners here and 720 sides there, so of
// those the force lies between two.
func TestHoldingOracle(t *testing.T) {
	program := oracle.Python(t, "scipy")
	r := rand.New(rand.NewPCG(7, 9))
	var list []*hold.Judgement
	var cases []oracleCase
	verdicts := map[hold.Verdict]int{}
	for range 120 {
		h := randomHolding(r)
		held := hold.Judge(h)
		list, cases = append(list, held), append(cases, inOtherWords(h, held, r))
		verdicts[held.Verdict]++
	}
	if len(verdicts) < 5 {
		t.Errorf("only these verdicts were met: %v", verdicts)
	}
	for i, want := range oracle.Answers[oracleAnswer](t, program, cases, oracle.Script(t, "holding.py")) {
		got := list[i]
		if (got.Verdict != hold.Unseated) != want.Balances {
			t.Errorf("%d: %s, but it balances: %v", i, got.Verdict, want.Balances)
			continue
		}
		if want.Balances && !between(got.Factor, want.Factor, hasStrap(got.Holding)) {
			t.Errorf("%d: gives way at %.12g, want %v to %v", i, got.Factor, want.Factor[0], want.Factor[1])
		}
		for _, most := range want.Free {
			if math.Abs(most[0]-most[1]) > 1e-7 {
				t.Errorf("%d: what is free reaches %.9f, want %.9f (%+v)", i, most[1], most[0], got.Free)
			}
		}
	}
}

func hasStrap(h *trade.Holding) bool {
	return slices.ContainsFunc(h.Contacts, func(c trade.Contact) bool { return c.Kind == trade.ClampContact })
}

// between reports whether a figure lies between two to a relative 1e-7, the
// tolerance of the solver, with a strap to 1e-5, which is how far 720 sides stand
// off their circle; nil is without end.
func between(got float64, ends []*float64, strap bool) bool {
	low, high, within := ends[0], ends[1], 1e-7
	if strap {
		within = 1e-5
	}
	if low == nil || high == nil || math.IsInf(got, 1) {
		return math.IsInf(got, 1) && low == nil && high == nil
	}
	return got >= *low*(1-within)-1e-9 && got <= *high*(1+within)+1e-9
}
