package inspect_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// bush, constructed: a pin for a worn guide, both read by one caliper whose zero is
// the worst of it.
const bush = `oddleg: 1
job: Guide pin
kit:
  mic:  {kind: caliper, resolution: 0.001 mm, zero: 0.010 mm, repeat: 0.001 mm}
  fine: {kind: micrometer, resolution: 0.001 mm, zero: 0.009 mm, repeat: 0.001 mm}
  rod:  {kind: depth-micrometer, resolution: 0.01 mm}
sizes:
  guide: {kind: width, surface: inside, guess: 30}
  old:   {kind: diameter, surface: outside, wear: light}
  rim:   {kind: diameter, surface: outside}
readings:
  - {id: a, by: inside, of: {size: guide}, with: mic, saw: [30.050, 30.050, 30.050]}
  - {id: b, by: outside, of: {size: old}, with: fine, saw: [24.980, 24.981]}
  - {id: c, by: outside, of: {size: rim}, with: mic, saw: 41.020}
part:
  kind: turned
  material: EN8
  quantity: 2
  holds: 0.02 mm
  sizes:
    shank: {kind: diameter, goes-in: guide, clearance: 0.01..0.07 mm}
    head:  {kind: diameter, surface: outside, copies: old, within: 0.05 mm}
    long:  {kind: length, is: 80, within: 0.1}
  shape:
    steps: [{diameter: head, length: 10}, {diameter: shank, length: long}]
`

// checked reads a job with these lines after it and proves its part.
func checked(t *testing.T, source string, lines ...string) *inspect.Result {
	t.Helper()
	job, err := jobfile.Read("", []byte(source+strings.Join(lines, "\n")+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	found, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	made, err := fit.Fit(t.Context(), found, nil)
	if err != nil {
		t.Fatal(err)
	}
	proved, err := inspect.Check(t.Context(), made, meant.Tables{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	return proved
}

func verdictOn(t *testing.T, r *inspect.Result, piece int, id string) *inspect.Verdict {
	t.Helper()
	for _, p := range r.Pieces {
		i := slices.IndexFunc(p.Verdicts, func(v inspect.Verdict) bool { return v.Made.Size.ID == id })
		if p.Number == piece && i >= 0 {
			return &p.Verdicts[i]
		}
	}
	t.Fatalf("piece %d has no verdict on %s", piece, id)
	return nil
}

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s is %.9g, want %.9g", what, got, want)
	}
}

// TestSheet: what each size should show, constructed: an exact reading shows the
// size itself. The mate's own caliper is taken though the other is better,
// since its zero cancels.
func TestSheet(t *testing.T) {
	r := checked(t, bush)
	var ids []string
	for _, s := range r.Sheet {
		ids = append(ids, s.Made.Size.ID)
		if s.Reading == nil {
			t.Errorf("%s has no reading", s.Made.Size.ID)
			continue
		}
		near(t, s.Made.Size.ID+" at the low limit", s.ShowsLow, s.Limits.Low, 1e-9)
		near(t, s.Made.Size.ID+" at the high limit", s.ShowsHigh, s.Limits.High, 1e-9)
		near(t, s.Made.Size.ID, s.Shows, s.Made.Target, 1e-9)
	}
	if want := []string{"head", "shank", "long"}; !slices.Equal(ids, want) {
		t.Errorf("in the order %v, want %v", ids, want)
	}
	if s := r.Sheet[1]; s.Reading.With != "mic" || !s.SameAsMate {
		t.Errorf("the shank is read with %s", s.Reading.With)
	}
}

// TestZerosCancel: the clearance is known better than either size. By hand: two
// means of 3 readings by one caliper, σ² = 0.001² + 0.001²/12 each.
func TestZerosCancel(t *testing.T) {
	r := checked(t, bush, "checks:", "  - {id: k, by: outside, of: {size: part.shank}, with: mic, saw: [30.010, 30.010, 30.010]}")
	o := r.Pieces[0].Offers[0]
	near(t, "clearance", o.Clearance, 0.040, 1e-6)
	v := verdictOn(t, r, 1, "shank")
	if !(o.U < 0.3*v.U) {
		t.Errorf("clearance u %g, size u %g: the zero did not cancel", o.U, v.U)
	}
	// In the middle of ±0.02 with u = 0.010, by hand 2·Φ(2) - 1 = 0.954; U is 0.0197 of 0.04.
	near(t, "chance", v.Chance, 0.954, 1e-3)
	if v.Says != inspect.Conforming || v.Good != inspect.Doubtful {
		t.Errorf("said %s, judge %d", v.Says, v.Good)
	}
}

// TestBinds: a shank 0.02 too large, and what to take off it: nothing is left to
// the chance that was promised, z(0.99) = 2.326.
func TestBinds(t *testing.T) {
	r := checked(t, bush, "checks:", "  - {id: k, by: outside, of: {size: part.shank}, with: mic, saw: [30.070, 30.070, 30.070]}")
	o := r.Pieces[0].Offers[0]
	near(t, "clearance", o.Clearance, -0.020, 1e-6)
	near(t, "ease", o.Ease, 0.020+2.3263479*o.U, 1e-6)
	if o.Binds < 0.999 {
		t.Errorf("binds in %g", o.Binds)
	}
}

// TestWarm, by hand: 80 mm of EN8, expansion from the table of materials; of the
// instrument 11.5e-6 (common practice, no source).
func TestWarm(t *testing.T) {
	const en8 = 12.0e-6
	for _, c := range []struct {
		name, state string
		taken       float64
	}{
		{"the instrument at 20 °C", "at-temp: 50 C, with-temp: 20 C", 80 * en8 * 30},
		{"the instrument as cold as the shop", "at-temp: 20 C, with-temp: 10 C", 80 * 11.5e-6 * 10},
		{"the instrument not known: half way", "at-temp: 50 C", 80 * (en8*30 - 11.5e-6*15)},
		{"at 20 °C", "at-temp: 20 C, with-temp: 20 C", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := checked(t, bush, "checks:", "  - {id: k, by: depth, of: {size: part.long}, with: rod, saw: 80.05, "+c.state+"}")
			v := verdictOn(t, r, 1, "long")
			near(t, "taken off", v.Corrected, c.taken, 1e-9)
			near(t, "value", v.Value, 80.05-v.Corrected, 1e-9)
		})
	}
}

// TestWarmWithoutMaterial: there is no verdict.
func TestWarmWithoutMaterial(t *testing.T) {
	source := strings.Replace(bush, "  material: EN8\n", "", 1)
	r := checked(t, source, "checks:", "  - {id: k, by: depth, of: {size: part.long}, with: rod, saw: 80.05, at-temp: 50 C}")
	if v := verdictOn(t, r, 1, "long"); v.Says != inspect.NoVerdict || !strings.Contains(v.Why, "its material is not stated") {
		t.Errorf("said %s: %s", v.Says, v.Why)
	}
}

// TestInTheMachine: only the last reading of work in the machine counts, and the
// dial says how far to go.
func TestInTheMachine(t *testing.T) {
	shop := func(reads string) string {
		return "shop: {lathe: {kind: lathe, dials: {cross-slide: {division: 0.02 mm" + reads + "}}}}"
	}
	checks := []string{
		"checks:",
		"  - {id: k, by: outside, of: {size: part.head}, with: fine, saw: 25.80, in-machine: yes}",
		"  - {id: l, by: outside, of: {size: part.head}, with: fine, saw: 25.2605, in-machine: yes}",
	}
	for _, c := range []struct {
		name, reads string
		divisions   float64 // 0.28 on the diameter
	}{
		{"counts diameter", ", reads: diameter", 14},
		{"counts radius", ", reads: radius", 7},
		{"not known", "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			take := verdictOn(t, checked(t, bush, append([]string{shop(c.reads)}, checks...)...), 1, "head").Take
			near(t, "to take off", take.Off, 0.28, 1e-3)
			if c.divisions == 0 {
				if take.Dial != nil || !strings.Contains(take.Mind, "diameter or radius") {
					t.Errorf("got %+v", take)
				}
				return
			}
			near(t, "divisions", take.Dial.Now, c.divisions, 1e-9)
			if take.Cuts != 1 || take.Past > 0.01 {
				t.Errorf("got %+v", take)
			}
		})
	}
}

// TestAfterTakingApart, constructed: the guide was inferred 0.06 too small.
func TestAfterTakingApart(t *testing.T) {
	r := checked(t, bush, "checks:", "  - {id: k, by: inside, of: {size: guide}, with: mic, saw: [30.110, 30.110, 30.110], on: old}")
	if !slices.Equal(r.Apart.Dropped, []string{"a"}) || len(r.Apart.Changes) != 1 {
		t.Fatalf("dropped %v, changed %+v", r.Apart.Dropped, r.Apart.Changes)
	}
	c := r.Apart.Changes[0]
	near(t, "off", c.Off, 0.060, 1e-6)
	// Two means of 3 by one caliper: the zero cancels.
	near(t, "u of it", c.U, math.Sqrt(2*(1e-6+1e-6/12)/3), 0.25)
	if !c.Wrong {
		t.Error("the first inference is said to be right")
	}
	near(t, "next time", r.Apart.Next[0].Now.Target-r.Apart.Next[0].Then.Target, 0.060, 1e-6)

	r = checked(t, bush, "checks:", "  - {id: k, by: inside, of: {size: guide}, with: mic, saw: [30.050, 30.051, 30.050], on: old}")
	if len(r.Apart.Dropped) > 0 || r.Apart.Changes[0].Wrong || len(r.Apart.Next) > 0 {
		t.Errorf("nothing changed, and yet: %+v", r.Apart)
	}
}

// TestPuttingBack: the cautions are always there, torques where a joint has one.
func TestPuttingBack(t *testing.T) {
	r := checked(t, bush, "joints: [{id: clamp, stud: {thread: M10}, into: {thread: M10, length: 12 mm, material: S275JR, outside: 20 mm}, tighten: {torque: 30 N m}, holds: lifting}]")
	var all strings.Builder
	for _, c := range r.Back {
		all.WriteString(c.Text + "\n")
	}
	for _, want := range []string{"Isolate the machine", "guard", "maker's book", "Tighten clamp to 30 N m", "clamp holds what is lifted"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("%q is not said:\n%s", want, all.String())
		}
	}
}
