package hold_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/hold"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

func length(mm float64) unit.Quantity { return exactly(mm, unit.Millimetre) }

func newtons(n float64) unit.Quantity { return exactly(n, unit.Newton) }

// exactly returns a figure of up to six decimals with its unit.
func exactly(x float64, u unit.Unit) unit.Quantity {
	q, err := unit.New(int64(math.Round(x*1e6)), 1e6, u)
	if err != nil {
		panic(err)
	}
	return q
}

func touching(id string, kind trade.ContactKind, x, y, towards float64) trade.Contact {
	return trade.Contact{
		ID: id, Kind: kind, At: [2]unit.Quantity{length(x), length(y)}, Towards: exactly(towards, unit.Degree),
	}
}

func pressing(c trade.Contact, force float64) trade.Contact {
	c.Clamping = newtons(force)
	return c
}

func wide(c trade.Contact, width float64) trade.Contact {
	c.Width = length(width)
	return c
}

// strap is a strap clamp with its toe here, the bolt at one third of the way to
// the heel.
func strap(id string, x, y, bolt float64) trade.Contact {
	c := pressing(trade.Contact{ID: id, Kind: trade.ClampContact, At: [2]unit.Quantity{length(x), length(y)}}, bolt)
	c.Bolt, c.Heel = length(30), length(90)
	return c
}

func cutting(force, x, y, towards float64, contacts ...trade.Contact) *trade.Holding {
	h := &trade.Holding{Contacts: contacts}
	if force > 0 {
		h.Force, h.At, h.Towards = newtons(force), [2]unit.Quantity{length(x), length(y)}, exactly(towards, unit.Degree)
	}
	return h
}

// The round spigot of the tests has its middle at the origin and a radius of 10.
func grubScrew(id string, at float64) trade.Contact {
	p := geom.Polar(10, at*math.Pi/180)
	return pressing(touching(id, trade.ScrewContact, p.X, p.Y, at+180), 500)
}

func bore(at float64) trade.Contact {
	p := geom.Polar(10, at*math.Pi/180)
	return touching("bore", trade.WallContact, p.X, p.Y, at+180)
}

// TestGrubScrews holds the rule of the trade (common practice, no source): two set
// screws on one diameter locate a round spigot on that line only, two at about 90°
// seat it against the bore. That the bore then takes √2 times a screw's force is by
// hand.
func TestGrubScrews(t *testing.T) {
	line := hold.Judge(cutting(0, 0, 0, 0, grubScrew("left", 180), grubScrew("right", 0), bore(270)))
	wantFree(t, "on one diameter", line, "slides towards 90°", "turns either way about (0.000 mm, 0.000 mm)")
	wantShare(t, line, "bore", 0, 0)
	wantText(t, "on one diameter", line.Warnings, "nothing presses the work against bore")
	loose := hold.Judge(cutting(0, 0, 0, 0, grubScrew("left", 180), grubScrew("right", 0)))
	wantFree(t, "clear of the bore", loose, "slides either way along 90°", "turns either way about (0.000 mm, 0.000 mm)")
	for _, apart := range []float64{60, 90, 120} {
		seated := hold.Judge(cutting(0, 0, 0, 0, grubScrew("one", 90-apart/2), grubScrew("other", 90+apart/2), bore(270)))
		wantFree(t, "seated", seated, "turns either way about (0.000 mm, 0.000 mm)")
		want := 2 * 500 * math.Cos(apart/2*math.Pi/180)
		wantShare(t, seated, "bore", want, want)
		if len(seated.Warnings) > 0 {
			t.Errorf("seated: %q", seated.Warnings)
		}
	}
}

// TestByHand holds verdicts and factors to figures that follow by hand from the
// balance of forces and moments, at a friction of 0.1.
func TestByHand(t *testing.T) {
	fixed := wide(touching("fixed", trade.JawContact, 0, 0, 90), 100)
	moving := pressing(wide(touching("moving", trade.JawContact, 0, 40, 270), 100), 5000)
	grub := func(x, y, towards float64) trade.Contact {
		return pressing(touching("s"+unit.ShowLength(towards, unit.Millimetre), trade.ScrewContact, x, y, towards), 1000)
	}
	for name, c := range map[string]struct {
		holding *trade.Holding
		verdict hold.Verdict
		factor  float64
		creep   string
	}{
		// The strap's toe has (90 - 30)/90 of 3000 N, of which a tenth rubs.
		"one strap": {cutting(100, 0, 0, 37, strap("a", 0, 0, 3000)), hold.ByFriction, 2, "slides towards 37°"},
		"scant":     {cutting(150, 0, 0, 37, strap("a", 0, 0, 3000)), hold.Hardly, 4.0 / 3, "slides towards 37°"},
		"slips":     {cutting(300, 0, 0, 0, strap("a", 0, 0, 3000)), hold.Slips, 2.0 / 3, "slides towards 0°"},
		// Two toes of 200 N of friction, the force half way between: both at once.
		"between straps": {cutting(100, 30, 0, 90, strap("a", 0, 0, 3000), strap("b", 60, 0, 3000)), hold.ByFriction, 4, "slides towards 90°"},
		// The force 60 beyond the second of two that are 60 apart: that one has twice it.
		"beyond straps": {cutting(50, 120, 0, 90, strap("a", 0, 0, 3000), strap("b", 60, 0, 3000)), hold.ByFriction, 2, ""},
		// A vice: both jaws rub, each with a tenth of 5 kN.
		"along the vice": {cutting(400, 0, 20, 180, fixed, moving), hold.ByFriction, 2.5, "slides towards 180°"},
		"into the vice":  {cutting(4000, 10, 20, 270, fixed, moving), hold.OnStops, math.Inf(1), ""},
		// Straight against the moving jaw: its 5 kN, and nothing rubs that way.
		"against the screw": {cutting(10_000, 0, 20, 90, fixed, moving), hold.OnStops, 0.5, ""},
		// Only a stop pushes back: nothing rubs.
		"away from a stop": {cutting(10, 0, 0, 0, touching("a", trade.StopContact, 0, 0, 0)), hold.Slips, 0, "slides towards 0°"},
		"onto a stop":      {cutting(10, 0, 0, 180, touching("a", trade.StopContact, 0, 0, 0)), hold.OnStops, math.Inf(1), ""},
		// Under atan 0.1 = 5.7° from square it holds by the stop's own friction.
		"nearly onto a stop": {cutting(10, 0, 0, 175, touching("a", trade.StopContact, 0, 0, 0)), hold.ByFriction, math.Inf(1), "slides towards 90°"},
		// Two that stand still face each other: whether they are tight is not known.
		"between stops": {
			cutting(10, 0, 0, 90, touching("a", trade.StopContact, -5, 0, 0), touching("b", trade.StopContact, 5, 0, 180)),
			hold.Slips, 0, "slides towards 90°",
		},
		// Three jaws of 1 kN at 10 from the middle, the cut at 20 from it, straight round:
		// its moment is 20 F and less than 3·100·10, so F is less than 150; and pushing
		// sideways it takes some of that.
		"in a three-jaw chuck": {
			cutting(30, 20, 0, 90, grub(10, 0, 180), grub(-5, 8.660254, 300), grub(-5, -8.660254, 60)),
			hold.ByFriction, math.NaN(), "",
		},
	} {
		held := hold.Judge(c.holding)
		if held.Verdict != c.verdict {
			t.Errorf("%s: %s, want %s", name, held.Verdict, c.verdict)
		}
		if !math.IsNaN(c.factor) && !near(held.Factor, c.factor) {
			t.Errorf("%s: gives way at %.12f, want %.12f", name, held.Factor, c.factor)
		}
		if c.creep != "" && (held.Creep == nil || held.Creep.Text().Shown(unit.View{}) != c.creep) {
			t.Errorf("%s: creeps %+v, want %s", name, held.Creep, c.creep)
		}
		if said := unit.Join(held.Said, " ").Shown(unit.View{}); held.Verdict == hold.ByFriction && (strings.Contains(said, "safe") || !strings.Contains(said, "nothing to rely on")) {
			t.Errorf("%s: friction is not to be called safe: %s", name, said)
		}
	}
}

// TestShares holds what the contacts press with to figures by hand.
func TestShares(t *testing.T) {
	// A vee block of 90°: two flanks with 1/√2 each of what presses from above.
	vee := []trade.Contact{
		touching("left", trade.WallContact, -10, -10, 45), touching("right", trade.WallContact, 10, -10, 135),
		pressing(touching("down", trade.ScrewContact, 0, 14, 270), 2000),
	}
	held := hold.Judge(cutting(0, 0, 0, 0, vee...))
	wantShare(t, held, "left", math.Sqrt2*1000, math.Sqrt2*1000)
	wantShare(t, held, "down", 2000, 2000)
	// A beam on three stops in a row, 1000 N over the middle one: anything from all on
	// that to half on each of the others.
	held = hold.Judge(cutting(0, 0, 0, 0,
		touching("a", trade.StopContact, -50, 0, 90), touching("b", trade.StopContact, 0, 0, 90), touching("c", trade.StopContact, 50, 0, 90),
		pressing(touching("d", trade.ScrewContact, 0, 10, 270), 1000)))
	wantShare(t, held, "a", 0, 500)
	wantShare(t, held, "b", 0, 1000)
	// A strap whose bolt is at a third of its length: two thirds on the toe.
	held = hold.Judge(cutting(0, 0, 0, 0, strap("e", 5, 5, 3000)))
	wantShare(t, held, "e", 2000, 2000)
	if heel := held.Shares[0].Heel; !near(heel, 1000) {
		t.Errorf("the heel has %v N", heel)
	}
}

// TestWarnings: what makes a holding doubtful is said.
func TestWarnings(t *testing.T) {
	stop := touching("stop", trade.StopContact, 0, 0, 0)
	far := strap("far", 0, 0, 3000)
	far.Bolt = length(60)
	for name, c := range map[string]struct {
		holding *trade.Holding
		want    string
	}{
		"heel":          {cutting(0, 0, 0, 0, far), "the heel of far takes more of its bolt's load than the work, which gets 33 %"},
		"straight only": {cutting(500, 5, 0, 180, stop), "a force 10° to one side is no longer held by stops"},
		"lifted": {
			cutting(400, 5, 10, 0, touching("a", trade.StopContact, 0, -10, 0), touching("b", trade.StopContact, 0, 10, 0),
				pressing(touching("screw", trade.ScrewContact, 20, 0, 180), 800)),
			"the cutter lifts the work off b",
		},
		"facing": {
			cutting(0, 0, 0, 0, stop, touching("other", trade.StopContact, 20, 0, 180)),
			"contacts that only stand still face each other",
		},
	} {
		wantText(t, name, hold.Judge(c.holding).Warnings, c.want)
	}
	near := strap("near", 0, 0, 3000)
	near.Bolt = length(20)
	for name, c := range map[string]*trade.Holding{"a strap close to its bolt": cutting(0, 0, 0, 0, near), "a stop": cutting(0, 0, 0, 0, stop)} {
		for _, warning := range hold.Judge(c).Warnings {
			if text := warning.Shown(unit.View{}); strings.Contains(text, "heel") {
				t.Errorf("%s: %s", name, text)
			}
		}
	}
	moved := hold.Judge(cutting(100, 0, 0, 0, pressing(touching("screw", trade.ScrewContact, 20, 5, 180), 800)))
	wantText(t, "unseated", moved.Said, "tightening alone moves the work: slides towards 180°")
	if moved.Verdict != hold.Unseated || len(moved.Shares) > 0 {
		t.Errorf("nothing stands against the screw: %s, %v", moved.Verdict, moved.Shares)
	}
	lifts := hold.Judge(cutting(1000, 5, 0, 0, stop, pressing(touching("screw", trade.ScrewContact, 20, 0, 180), 800)))
	wantText(t, "lifts", lifts.Said, "the force is more than the clamping: at 800 N")
}

// TestSameSetUpElsewhere: where the origin lies, which way the axes point and in
// which order the contacts are listed changes nothing.
func TestSameSetUpElsewhere(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 60 {
		h := randomHolding(r)
		other := *h
		other.Contacts = slices.Clone(h.Contacts)
		slices.Reverse(other.Contacts)
		turn := func(at [2]unit.Quantity) [2]unit.Quantity { // by a right angle, and far away
			return [2]unit.Quantity{length(500 - at[1].Inside()), length(at[0].Inside() - 300)}
		}
		for i := range other.Contacts {
			c := &other.Contacts[i]
			if c.At = turn(c.At); c.Towards.Given() {
				c.Towards = exactly(c.Towards.Inside()*180/math.Pi+90, unit.Degree)
			}
		}
		other.At, other.Towards = turn(h.At), exactly(h.Towards.Inside()*180/math.Pi+90, unit.Degree)
		got, want := hold.Judge(&other), hold.Judge(h)
		if got.Verdict != want.Verdict || len(got.Free) != len(want.Free) || !math.IsNaN(want.Factor) && !near(got.Factor, want.Factor) {
			t.Errorf("%s at %v with %d free, want %s at %v with %d", got.Verdict, got.Factor, len(got.Free), want.Verdict, want.Factor, len(want.Free))
		}
	}
}

// near compares two figures to a relative 1e-9, and nothing and endless as such.
func near(got, want float64) bool {
	return got == want || math.Abs(got-want) <= 1e-9*math.Max(math.Abs(want), 1e-3)
}

func wantFree(t *testing.T, name string, held *hold.Judgement, want ...string) {
	t.Helper()
	var got []string
	for _, m := range held.Free {
		got = append(got, m.Text().Shown(unit.View{}))
	}
	slices.Sort(got)
	if slices.Sort(want); !slices.Equal(got, want) {
		t.Errorf("%s: free are %q, want %q", name, got, want)
	}
}

func wantShare(t *testing.T, held *hold.Judgement, id string, low, high float64) {
	t.Helper()
	for _, s := range held.Shares {
		if s.Contact.ID != id {
			continue
		}
		if got, want := s.Rest, (strength.Span{Low: low, High: high}); !near(got.Low, want.Low) || !near(got.High, want.High) {
			t.Errorf("%s presses with %+v, want %+v", id, got, want)
		}
		return
	}
	t.Errorf("no share of %s", id)
}

func wantText(t *testing.T, name string, texts []unit.Text, want string) {
	t.Helper()
	if !slices.ContainsFunc(texts, func(text unit.Text) bool { return strings.Contains(text.Shown(unit.View{}), want) }) {
		t.Errorf("%s: %q does not say %q", name, unit.Join(texts, "; ").Shown(unit.View{}), want)
	}
}
