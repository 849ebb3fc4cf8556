package advise

import (
	"math"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// TestExpectedIsWhatReadingGives plans every job on file with the sizes that
// its readings gave as guesses, and compares with the same job once each
// planned reading has been read, one value, where those sizes have it: to 1e-6
// of the uncertainty.
func TestExpectedIsWhatReadingGives(t *testing.T) {
	compared := 0
	for _, job := range onFile(t) {
		truth := adjusted(t, job)
		planned, taken := *job, *job
		planned.Readings, taken.Readings = slices.Clone(job.Readings), slices.Clone(job.Readings)
		planned.Sizes = guessed(job, truth)
		touched := false
		for i := range job.Readings {
			touched = touched || len(job.Readings[i].Saw) > 0 && job.Readings[i].Saw[0].Y.Given()
			if !job.Readings[i].GoNoGo() {
				planned.Readings[i].Saw = nil
			}
		}
		if touched || len(job.Plans) > 0 {
			continue // where it is touched and where holes lie no guess here says
		}
		e, err := Expect(&planned)
		if err != nil {
			t.Fatal(job.Name, err)
		}
		for i := range taken.Readings {
			taken.Readings[i].Saw = e.Result.Job.Readings[i].Saw
		}
		after, err := adjust.Adjust(&taken)
		if err != nil {
			t.Fatal(job.Name, err)
		}
		for _, s := range e.Result.Sizes {
			want := after.Size(s.ID)
			compared++
			if s.Determined != want.Determined || math.Abs(s.U-want.U) > 1e-6*want.U || s.Check != want.Check {
				t.Errorf("%s, %s: expected %.9g (%v), reading gives %.9g (%v)", job.Name, s.ID, s.U, s.Determined, want.U, want.Determined)
			}
		}
		if len(e.Planned) == 0 || len(e.Unknown) > 0 {
			t.Errorf("%s: %d planned, unknown %v", job.Name, len(e.Planned), e.Unknown)
		}
	}
	if compared < 60 {
		t.Errorf("only %d sizes compared", compared)
	}
}

// guessed returns the sizes of a job with what was found of them as guesses.
func guessed(job *trade.Job, truth *adjust.Result) []trade.Size {
	sizes := slices.Clone(job.Sizes)
	for i := range sizes {
		units := map[unit.Dimension]unit.Unit{unit.Length: unit.Millimetre, unit.Angle: unit.Radian}
		found := truth.Size(sizes[i].ID)
		q, err := unit.New(int64(math.Round(found.Value*1e9)), 1e9, units[found.Dimension])
		if err != nil {
			panic(err)
		}
		sizes[i].Guess = q
	}
	return sizes
}

const plannedJob = `oddleg: 1
job: Plan
kit:
  tips:   {kind: caliper, say: inside points}
  jaws:   {kind: caliper}
  rod:    {kind: depth-gauge, mpe: 0.05 mm}
  ball12: {kind: ball, size: 12 mm}
  ball10: {kind: ball, size: 10 mm}
sizes:
  outer:  {kind: diameter, surface: inside}
  boss:   {kind: diameter, surface: outside}
  mouth:  {kind: diameter, surface: inside}
  socket: {kind: half-angle}
  lip:    {kind: width}
readings:
  - {id: a, by: ball-near, of: {wall: outer, across: boss, ball: ball12}, with: tips}
  - {id: b, by: outside, of: {size: boss}, with: jaws, saw: [60, 60.02]}
  - {id: d, by: taper-ball-depth, of: {mouth: mouth, half-angle: socket, ball: ball12}, with: rod}
  - {id: e, by: taper-ball-depth, of: {mouth: mouth, half-angle: socket, ball: ball10}, with: rod}
`

// TestWhatIsExpectedHangsOn: of the sizes that nothing tells, the taper's decide
// what its balls are worth; a reading straight in its sizes is worth the same
// however large they are.
func TestWhatIsExpectedHangsOn(t *testing.T) {
	job, err := jobfile.ReadPlanned("", []byte(plannedJob))
	if err != nil {
		t.Fatal(err)
	}
	e, err := Expect(job)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what      string
		got, want []string
	}{
		{"planned", e.Planned, []string{"a", "d", "e"}},
		{"unknown", e.Unknown, []string{"outer", "mouth", "socket", "lip"}},
		{"hangs on", e.HangsOn, []string{"mouth", "socket"}},
		{"unseen", e.Unseen, []string{"a", "d", "e"}},
	} {
		if !slices.Equal(c.got, c.want) {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	if len(e.Result.Warnings) > 0 || len(e.Result.Undetermined) != 1 {
		t.Errorf("warnings %v, undetermined %v; want none and lip", e.Result.Warnings, e.Result.Undetermined)
	}
	u := e.Result.Size("outer").U // m = D/2 - d - A/2
	zero, repeat := 0.03*0.03/6, 0.03*0.03/6
	if want := math.Sqrt(4*(zero+repeat) + zero + repeat/2); math.Abs(u/want-1) > 1e-9 {
		t.Errorf("outer expected to %.9g, by hand %.9g", u, want)
	}
}

// TestNextOfWhatIsPlanned: a reading that the job has planned already is thought
// of like any other.
func TestNextOfWhatIsPlanned(t *testing.T) {
	job, err := jobfile.ReadPlanned("", []byte(`
oddleg: 1
job: planned
kit: {mic: {kind: micrometer, resolution: 0.01 mm}}
sizes: {a: {kind: width}, b: {kind: width}}
readings:
  - {id: r, by: outside, of: {size: a}, with: mic, saw: 20.00}
  - {id: s, by: outside, of: {size: b}, with: mic}
`))
	if err != nil {
		t.Fatal(err)
	}
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	best := Next(t.Context(), r, Options{}).Best
	if len(best) == 0 || best[0].Reading.By != "outside" || best[0].Reading.Of[0].ID != "b" {
		t.Errorf("read next: %+v", best)
	}
}
