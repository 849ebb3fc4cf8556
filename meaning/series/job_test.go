package series

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// studJob is a worn 7/16 in Whitworth stud read in every way (constructed): the
// leaf fits at 27.5° to the axis, the root is not read.
const studJob = `oddleg: 1
job: A stud
machine: {built: 1938, country: GB}
kit:
  mic: {kind: micrometer, resolution: 0.01 mm, mpe: 0.01 mm}
  rule: {kind: rule, resolution: 0.5 mm}
  wires: {kind: wire, size: 1.02 mm, tolerance: 0.002 mm}
  leaf: {kind: protractor, resolution: 1 deg}
sizes:
  over: {kind: diameter, surface: outside, wear: heavy, make: 0.02 mm}
  lead: {kind: pitch}
  eff: {kind: radius, surface: outside}
  flank: {kind: half-angle}
  lost: {kind: diameter}
readings:
  - {id: a, by: over-crests, of: {major: over}, with: mic, saw: [10.98, 10.97]}
  - {id: b, by: pitches, of: {pitch: lead, n: 20}, with: rule, saw: 36.5}
  - {id: c, by: three-wires, of: {effective: eff, pitch: lead, angle: 55 deg, wire: wires}, with: mic, saw: 11.38}
  - {id: d, by: protractor, of: {angle: flank}, with: leaf, saw: 27.5}
threads:
  stud: {major: over, pitch: lead, effective: eff, angle: flank, minor: lost, hand: left, starts: 1 MEANT}
`

func threadsOf(t *testing.T, source string) []JobThread {
	t.Helper()
	job, err := jobfile.Read("stud.yaml", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	result, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	return ThreadsOf(result)
}

// TestThreadsOfAJob: radii and half angles count double, a size that no reading
// holds counts as not read, wear and making are those of the crests.
func TestThreadsOfAJob(t *testing.T) {
	list := threadsOf(t, strings.Replace(studJob, " MEANT", "", 1))
	if len(list) != 1 {
		t.Fatalf("%d threads", len(list))
	}
	stud := list[0]
	seen := stud.Seen
	if stud.ID != "stud" || !stud.Left || seen.Inside || seen.Minor.Given() || seen.Wear != heavyWear || seen.Make != 0.02 {
		t.Errorf("the thread is %+v", stud)
	}
	if math.Abs(seen.Major.Value-10.975) > 0.001 || math.Abs(seen.Effective.Value-9.904) > 0.005 || math.Abs(seen.Angle.Value-55*degree) > 1e-9 {
		t.Errorf("seen %+v", seen)
	}
	if leader := stud.Candidates[0]; leader.Designation != "7/16 BSW" || leader.P < 0.99 || !stud.Settled {
		t.Errorf("%s with %.3f", leader.Designation, leader.P)
	}
}

func TestDecidedThreads(t *testing.T) {
	for _, c := range []struct {
		meant, first, warning string
	}{
		{"7/16 bsw", "7/16 BSW", ""},
		{"1/2 BSW", "1/2 BSW", "off the pitch"},
		{"7/16 XYZ", "7/16 BSW", "no thread of the tables"},
	} {
		stud := threadsOf(t, strings.Replace(studJob, " MEANT", ", meant: "+c.meant, 1))[0]
		all := unit.Join(stud.Warnings, "; ").Shown(unit.View{})
		if stud.Candidates[0].Designation != c.first || !strings.Contains(all, c.warning) || (c.warning == "") != (all == "") {
			t.Errorf("decided to be %s: %s first, warned %q", c.meant, stud.Candidates[0].Designation, all)
		}
		if stud.Candidates[0].Decided != (c.warning != "no thread of the tables") {
			t.Errorf("decided to be %s: decided %t", c.meant, stud.Candidates[0].Decided)
		}
	}
}

// TestAThreadOfItsPitchAlone leaves nearly all open, and breaks nothing.
func TestAThreadOfItsPitchAlone(t *testing.T) {
	source := strings.Replace(studJob, "{major: over, pitch: lead, effective: eff, angle: flank, minor: lost, hand: left, starts: 1 MEANT}", "{pitch: lead}", 1)
	stud := threadsOf(t, source)[0]
	if len(stud.Candidates) < 5 || stud.Settled {
		t.Errorf("a pitch alone gives %d candidates, settled %t", len(stud.Candidates), stud.Settled)
	}
}
