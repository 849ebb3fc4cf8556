package advise

import (
	"fmt"
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// The jobs of this file and their figures are constructed; variances are worked
// by hand from the error model: zero² + repeat²/n, and 1/(1/a + 1/b) for two
// instruments.
const blockJob = `oddleg: 1
job: Block
kit:
  jaws: {kind: caliper, zero: 0.01 mm, repeat: 0.02 mm}
  %s
sizes:
  boss: {kind: width, surface: outside}
readings:
  - {id: a, by: outside, of: {size: boss}, with: jaws, saw: 24.88}
  %s
`

const (
	mic  = "mic: {kind: micrometer, zero: 0.002 mm, repeat: 0.002 mm}"
	beam = "beam: {kind: caliper, zero: 0.01 mm, repeat: 0.02 mm}"
)

func block(t *testing.T, kit, readings string) *adjust.Result {
	t.Helper()
	return adjusted(t, read(t, fmt.Sprintf(blockJob, kit, readings)))
}

func sameVariance(t *testing.T, what string, s State, want float64) {
	t.Helper()
	if !s.Determined || math.Abs(s.U*s.U/want-1) > 1e-9 {
		t.Errorf("%s: u = %.9g (%v), by hand %.9g", what, s.U, s.Determined, math.Sqrt(want))
	}
}

func TestTwoInstrumentsByHand(t *testing.T) {
	a := Next(t.Context(), block(t, mic, ""), Options{For: "boss"})
	jaws, fine := 1e-4+4e-4, 4e-6+4e-6
	sameVariance(t, "now", a.Now, jaws)
	if a.Now.Check != adjust.NothingChecks || len(a.Best) != 2 {
		t.Fatalf("checked by %d, %d readings proposed; want nothing and 2", a.Now.Check, len(a.Best))
	}
	first, second := a.Best[0], a.Best[1]
	sameVariance(t, "with the micrometer", first.Then, 1/(1/jaws+1/fine))
	sameVariance(t, "with one more value", second.Then, 1e-4+2e-4)
	sameVariance(t, "limit", a.Limit, 1/(1/(1e-4+4e-6)+1/(4e-6+4e-8)))
	if first.Reading.With != "mic" || first.Effort != NewSetUp || first.Then.Check != adjust.OthersCheck || math.Abs(first.Shows-24.88) > 1e-9 {
		t.Errorf("the first is %+v", first)
	}
	if !second.Again || second.Reading.ID != "a" || second.Effort != OneMoreValue || second.Then.Check != adjust.RepeatsCheck {
		t.Errorf("the second is %+v", second)
	}
}

// TestWantByHand: what is wanted is reached by the least effort; several values
// are asked for where one does not do, n with 0.01² + 0.02²/n <= (want/1.96)²;
// none where the zero alone is more.
func TestWantByHand(t *testing.T) {
	for _, c := range []struct {
		name, kit string
		want      float64
		again     bool // the first choice
		steps     int
	}{
		{"one more value does", mic, 0.035, true, 0},
		{"only the micrometer does", mic, 0.02, false, 0},
		{"six more values do", "", 0.025, true, 6},
		{"nothing does", "", 0.019, true, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := Next(t.Context(), block(t, c.kit, ""), Options{For: "boss", Want: c.want})
			if a.Best[0].Again != c.again || len(a.Steps) != c.steps {
				t.Errorf("first choice again %v, %d steps; want %v, %d", a.Best[0].Again, len(a.Steps), c.again, c.steps)
			}
		})
	}
}

// TestWhatSettlesComesFirst: of two calipers that contradict each other nothing
// tells which is wrong, in its value or its zero; a third instrument does, and
// would show what the other one has. A value outvoted by others
// is to be read again.
func TestWhatSettlesComesFirst(t *testing.T) {
	second := "- {id: b, by: outside, of: {size: boss}, with: beam, saw: 25.38}"
	a := Next(t.Context(), block(t, mic+"\n  "+beam, second), Options{For: "boss"})
	first := a.Best[0]
	if first.Settle == nil || first.Settle.Sigmas < catchable || len(first.Settle.Between) < 2 || first.Reading.With != "mic" {
		t.Fatalf("the first choice settles %+v", first.Settle)
	}
	for i, source := range first.Settle.Between {
		want := map[string]float64{"a": 25.38, "jaws": 25.38, "b": 24.88, "beam": 24.88}[source.ID]
		if math.Abs(first.Settle.Shows[i]-want) > 0.001 {
			t.Errorf("with %s wrong it shows %.4f, want %g", source.ID, first.Settle.Shows[i], want)
		}
	}
	slip := "- {id: b, by: outside, of: {size: boss}, with: beam, saw: [24.88, 25.38, 24.89]}"
	a = Next(t.Context(), block(t, mic+"\n  "+beam, slip), Options{For: "boss"})
	if first := a.Best[0]; !first.Again || first.Reading.ID != "b" || first.Settle == nil || len(first.Settle.Between) != 1 {
		t.Errorf("the first choice is %+v, want b once more", first)
	}
}

const taperJob = `oddleg: 1
job: Bush
kit:
  rod:    {kind: depth-gauge, resolution: 0.02 mm, mpe: 0.02 mm}
  ball14: {kind: ball, size: 14 mm, tolerance: 0.002 mm}
  %s
sizes:
  mouth:  {kind: diameter, surface: inside}
  socket: {kind: half-angle, guess: 5 deg}
readings:
  - {id: a, by: taper-ball-depth, of: {mouth: mouth, half-angle: socket, ball: ball14}, with: rod, saw: 7.90}
`

// TestOpenSizesNeedASecondBall: one ball leaves a taper open. A second of the
// kit closes it; without one the second is borrowed.
func TestOpenSizesNeedASecondBall(t *testing.T) {
	own := Next(t.Context(), adjusted(t, read(t, fmt.Sprintf(taperJob, "ball12: {kind: ball, size: 12 mm}"))), Options{})
	if own.Why != Open || own.For != "mouth" || len(own.Best) == 0 {
		t.Fatalf("asked for %s (%d), %d readings proposed", own.For, own.Why, len(own.Best))
	}
	if first := own.Best[0]; !first.Then.Determined || first.Then.Check != adjust.NothingChecks {
		t.Errorf("the first choice promises %+v", first.Then)
	}
	lent := Next(t.Context(), adjusted(t, read(t, fmt.Sprintf(taperJob, ""))), Options{For: "socket"})
	if len(lent.Best) == 0 || lent.Best[0].Effort != BorrowedPiece || lent.Best[0].Borrow[0].Kind != trade.Ball || lent.Limit.Determined {
		t.Errorf("with one ball only: %+v, limit %+v", lent.Best, lent.Limit)
	}
}

const grooveJob = `oddleg: 1
job: Groove
kit:
  tips:   {kind: caliper, resolution: 0.02 mm, say: inside points}
  ball8:  {kind: ball, size: 8 mm}
  ball19: {kind: ball, size: 19 mm, tolerance: 0.001 mm}
  ball21: {kind: ball, size: 21 mm, tolerance: 0.001 mm}
sizes:
  outer: {kind: diameter, surface: inside, form: %s mm}
readings:
  - {id: a, by: between-two-balls, of: {wall: outer, ball: ball8, height: 10 mm}, with: tips, saw: 60}
`

// TestABallTooLargeIsNeverProposed: behind a lip 10 mm high a ball of 21 mm
// touches it, one of 19 mm does not.
func TestABallTooLargeIsNeverProposed(t *testing.T) {
	a := Next(t.Context(), adjusted(t, read(t, fmt.Sprintf(grooveJob, "0"))), Options{For: "outer"})
	found := false
	for _, c := range a.Best {
		for _, arg := range c.Reading.Of {
			found = found || arg.ID == "ball19"
			if arg.ID == "ball21" {
				t.Error("a ball of 21 mm is proposed behind a lip of 10 mm")
			}
		}
		for _, p := range c.Borrow {
			if p.Size.Inside() >= 20 {
				t.Errorf("a borrowed ball of %s is proposed behind a lip of 10 mm", p.Size)
			}
		}
	}
	if !found {
		t.Error("the ball of 19 mm is not proposed")
	}
}

// TestASurfaceOutOfFormIsReadElsewhere: the same set-up again, at another
// place, has a departure of its own and tells more than one more value.
func TestASurfaceOutOfFormIsReadElsewhere(t *testing.T) {
	a := Next(t.Context(), adjusted(t, read(t, fmt.Sprintf(grooveJob, "0.2"))), Options{For: "outer"})
	for _, c := range a.Best {
		if c.Fresh {
			return
		}
	}
	t.Errorf("no reading at another place among %d", len(a.Best))
}

// TestOnlySizesThatBelongTogether: no reading proposed for any job on file puts
// two sizes into one method that no reading of the job has together.
func TestOnlySizesThatBelongTogether(t *testing.T) {
	for _, job := range onFile(t) {
		together := map[string]bool{}
		for _, r := range job.Readings {
			for _, x := range r.Of {
				for _, y := range r.Of {
					together[x.ID+" "+y.ID] = true
				}
			}
		}
		s := newSurvey(t.Context(), adjusted(t, job), &Advice{For: Targets(job)[0]})
		for _, c := range s.foreseen() {
			for _, x := range c.Reading.Of {
				for _, y := range c.Reading.Of {
					if x.ID != y.ID && job.Size(x.ID) != nil && job.Size(y.ID) != nil && !together[x.ID+" "+y.ID] {
						t.Errorf("%s: %s has %s and %s together", job.Name, c.Reading.By, x.ID, y.ID)
					}
				}
			}
		}
	}
}

// TestOddJobs: jobs with little or nothing in them are answered all the same;
// of several open sizes the first that can be read on is chosen.
func TestOddJobs(t *testing.T) {
	const kit = "oddleg: 1\njob: odd\nkit: {cal: {kind: caliper}, dro: {kind: readout}, p: {kind: plug, size: 10 mm}}\n"
	for _, c := range []struct {
		rest, want string
		why        Reason
		steps      int
	}{
		{"", "", Asked, 0},
		{"sizes: {a: {kind: diameter, known: 3}}", "", Well, 0},
		{"sizes: {m: {kind: module}, h: {kind: half-angle}, w: {kind: width}}", "w", Open, 0},
		{"sizes: {m: {kind: module}}", "m", Open, 0},
		{"plans: {p1: {holes: [h1, h2, h3], guess: {h3: [10, 40]}}}", "h2", Open, 0},
		{"places: {c: {kind: circle, diameter: 30 mm}}\nreadings: [{id: a, by: touch, of: {circle: c, stylus: 2 mm, side: -1}, with: dro, saw: [[14, 0], [0, 14]]}]", "c", Unchecked, 0},
	} {
		a := Next(t.Context(), adjusted(t, read(t, kit+c.rest)), Options{})
		if a.For != c.want || a.For != "" && a.Why != c.why || len(a.Steps) != c.steps {
			t.Errorf("%s: for %q, why %d, %d steps; want %q, %d, %d", c.rest, a.For, a.Why, len(a.Steps), c.want, c.why, c.steps)
		}
	}
}

// TestStepsDetermineAHole: three distances place the third hole of a plan, and
// no fewer do.
func TestStepsDetermineAHole(t *testing.T) {
	const job = "oddleg: 1\njob: plate\nkit: {cal: {kind: caliper}, p: {kind: plug, size: 10 mm}}\nplans: {p1: {holes: [h1, h2, h3], guess: {h2: [50, 0], h3: [10, 40]}}}"
	a := Next(t.Context(), adjusted(t, read(t, job)), Options{For: "h3"})
	if len(a.Steps) != 3 || !a.Steps[2].Then.Determined {
		t.Errorf("%d steps: %+v", len(a.Steps), a.Steps)
	}
}
