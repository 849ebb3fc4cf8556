package inspect_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/prove/inspect"
)

// screw, constructed: an M10 stud with a nut of M24, and the wires for the one.
const screw = `oddleg: 1
job: Stud and nut
kit:
  mic:   {kind: micrometer, resolution: 0.001 mm, mpe: 0.002 mm}
  w:     {kind: wire, size: 0.866 mm}
  thick: {kind: wire, size: 1.1 mm}
sizes:
  old: {kind: diameter, surface: outside}
readings:
  - {id: a, by: outside, of: {size: old}, with: mic, saw: 12.000}
part:
  kind: turned
  material: EN8
  sizes:
    stud: {thread: M10, class: 6g}
    hole: {thread: M24, class: 6H}
    rim:  {kind: diameter, surface: outside, is: 30, within: 0.1}
    long: {kind: length, is: 40, within: 0.1}
  shape:
    steps: [{thread: stud, length: 20}, {diameter: rim, length: long}]
    right-bore: [{thread: hole, length: 25}]
`

func stepOf(t *testing.T, r *inspect.Result, id string) *inspect.Step {
	t.Helper()
	i := slices.IndexFunc(r.Sheet, func(s inspect.Step) bool { return s.Made.Size.ID == id })
	if i < 0 {
		t.Fatalf("%s is not on the sheet", id)
	}
	return &r.Sheet[i]
}

// TestThreadsOnTheSheet: limits of M10-6g and M24-6H are those of ISO 965-2:1998,
// tables 1 and 2 (from memory); what the wires show is by hand, m = E + 3d - P·√3/2.
func TestThreadsOnTheSheet(t *testing.T) {
	r := checked(t, screw)
	for _, c := range []struct {
		id, by    string
		low, high float64
	}{
		{"stud", "over-crests", 9.732, 9.968},
		{"stud.effective", "three-wires", 8.862, 8.994},
		{"hole.minor", "thread-bore", 20.752, 21.252},
		{"hole.effective", "thread-between-balls", 22.051, 22.316},
	} {
		s := stepOf(t, r, c.id)
		if math.Abs(s.Limits.Low-c.low) > 0.0006 || math.Abs(s.Limits.High-c.high) > 0.0006 {
			t.Errorf("%s lies between %.4f and %.4f, want %.3f and %.3f", c.id, s.Limits.Low, s.Limits.High, c.low, c.high)
		}
		if s.Reading == nil || s.Reading.By != c.by {
			t.Errorf("%s is read by %+v, want %s", c.id, s.Reading, c.by)
		}
	}
	s := stepOf(t, r, "stud.effective")
	near(t, "over the wires", s.Shows, s.Made.Target+3*0.866-1.5*math.Sqrt(3)/2, 1e-6)
	if s.Reading.With != "mic" || len(s.Borrow) > 0 || !slices.ContainsFunc(s.Reading.Of, func(a trade.Arg) bool { return a.ID == "w" }) {
		t.Errorf("read with %+v", s.Reading)
	}
	if slices.ContainsFunc(r.Sheet, func(s inspect.Step) bool { return s.Made.Size.ID == "stud.minor" || s.Made.Size.ID == "hole" }) {
		t.Error("the root of a screw, or of a nut, is on the sheet")
	}
}

// TestWiresToGet: where no wire of the kit fits, one within a tenth of the best is
// borrowed, P/√3 for 60° (Machinery's Handbook, 31st ed., p. 2129); where nothing
// goes in, nothing is proposed.
func TestWiresToGet(t *testing.T) {
	source := strings.NewReplacer("w:     {kind: wire, size: 0.866 mm}", "w: {kind: wire, size: 0.4 mm}", "size: 1.1 mm", "size: 2 mm", "M24", "M8").Replace(screw)
	r := checked(t, source)
	s := stepOf(t, r, "stud.effective")
	if len(s.Borrow) != 1 {
		t.Fatalf("borrows %+v", s.Borrow)
	}
	near(t, "wire", s.Borrow[0].Size.Inside(), 1.5/math.Sqrt(3), 0.1)
	if s := stepOf(t, r, "hole.effective"); s.Reading != nil {
		t.Errorf("balls are to go into a hole of 7 mm: %+v", s.Reading)
	}
}

// TestThreadMicrometer: it reads the effective diameter as it is, and nothing else.
func TestThreadMicrometer(t *testing.T) {
	source := strings.Replace(screw, "  w:     {kind: wire, size: 0.866 mm}", "  vee: {kind: micrometer, resolution: 0.01 mm, say: thread micrometer for 1.5 mm}", 1)
	r := checked(t, strings.Replace(source, "  thick: {kind: wire, size: 1.1 mm}\n", "", 1))
	for i := range r.Sheet {
		s := &r.Sheet[i]
		if s.Reading != nil && (s.Reading.With == "vee") != (s.Made.Size.ID == "stud.effective") {
			t.Errorf("%s is read with %s", s.Made.Size.ID, s.Reading.With)
		}
	}
}

// TestThreadVerdict: what the wires showed, by hand as above; 8.90 lies within 6g.
func TestThreadVerdict(t *testing.T) {
	r := checked(t, screw, "checks:",
		"  - {id: k, by: three-wires, of: {effective: part.stud.effective, pitch: 1.5 mm, angle: 60 deg, wire: w}, with: mic, saw: 10.199}",
		"  - {id: l, by: formula, that: part.stud - part.stud.effective, with: mic, saw: 1.1}")
	v := verdictOn(t, r, 1, "stud.effective")
	near(t, "effective diameter", v.Value, 10.199-3*0.866+1.5*math.Sqrt(3)/2, 1e-6)
	if v.Says != inspect.Conforming {
		t.Errorf("said %s", v.Says)
	}
	near(t, "major diameter", verdictOn(t, r, 1, "stud").Value, 10.199-3*0.866+1.5*math.Sqrt(3)/2+1.1, 1e-6)
}

// TestInstrumentToGet: a micrometer that has read 100 mm reads no 15; the plainest
// instrument that is good enough is named, and a finer one where the kit's own is none.
func TestInstrumentToGet(t *testing.T) {
	source := strings.NewReplacer("saw: 12.000", "saw: 100.000", "is: 30, within: 0.1", "is: 15, within: 0.1").Replace(screw)
	if s := stepOf(t, checked(t, source), "rim"); s.Lent == nil || s.Lent.Resolution.Inside() != 0.01 || s.Good != inspect.Fit {
		t.Errorf("%+v", s.Lent)
	}
	s := stepOf(t, checked(t, strings.NewReplacer("resolution: 0.001 mm, mpe: 0.002 mm", "resolution: 0.01 mm, mpe: 0.02 mm", "is: 30, within: 0.1", "is: 15, within: 0.005").Replace(screw)), "rim")
	if s.Good != inspect.Unfit || s.Finer == nil || s.Finer.Good == inspect.Unfit || s.Finer.With.Resolution.Inside() != 0.001 {
		t.Errorf("%+v", s.Finer)
	}
}
