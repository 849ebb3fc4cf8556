package blunder_test

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
)

// TestNothingIsInDoubt has jobs whose readings agree.
func TestNothingIsInDoubt(t *testing.T) {
	for _, file := range []string{"ring.yaml", "block.yaml", "plate.yaml"} {
		if doubts := blunder.Explain(context.Background(), edited(t, file)); len(doubts) > 0 {
			t.Errorf("%s: %+v", file, doubts)
		}
	}
}

// TestOneSlipInSeveralValues has one slip in all the values of a reading: it is
// one doubt, and one explanation corrects them all.
func TestOneSlipInSeveralValues(t *testing.T) {
	doubts := blunder.Explain(context.Background(), edited(t, "ring.yaml", "saw: 72.04", "saw: [71.54, 71.55, 71.54]"))
	if len(doubts) != 1 || len(doubts[0].Suspects) != 3 || len(doubts[0].Perhaps) == 0 {
		t.Fatalf("%+v", doubts)
	}
	best := doubts[0].Perhaps[0]
	if best.Kind != blunder.ThimbleTurn || len(best.Corrected) != 3 {
		t.Fatalf("%+v", best)
	}
	for i, want := range []float64{72.04, 72.05, 72.04} {
		if got := best.Corrected[i].WouldBe[0]; got != want {
			t.Errorf("value %d would be %v, want %v", i, got, want)
		}
	}
}

// TestTwoSlips has two slips, each with an explanation of its own.
func TestTwoSlips(t *testing.T) {
	doubts := blunder.Explain(context.Background(), edited(t, "ring.yaml", "saw: 72.04", "saw: 71.54", "saw: 80.10", "saw: 81.10"))
	if len(doubts) != 2 {
		t.Fatalf("%+v", doubts)
	}
	kinds := map[string]blunder.Kind{}
	for _, d := range doubts {
		if len(d.Perhaps) > 0 {
			kinds[d.Suspects[0].ID] = d.Perhaps[0].Kind
		}
	}
	if kinds["c"] != blunder.ThimbleTurn || kinds["k"] != blunder.BeamDivision {
		t.Errorf("%v", kinds)
	}
}

// TestBecomes wants the sizes that an explanation moves, and only these.
func TestBecomes(t *testing.T) {
	best := blunder.Explain(context.Background(), edited(t, "ring.yaml", "saw: 72.04", "saw: 71.54"))[0].Perhaps[0]
	moved := map[string]float64{}
	for _, c := range best.Becomes {
		moved[c.Size] = c.Value
	}
	// the values of the file: constructed
	if got, ok := moved["inner"]; !ok || math.Abs(got-60.04) > 0.01 {
		t.Errorf("inner becomes %v", moved)
	}
	if _, ok := moved["step"]; ok {
		t.Errorf("step has nothing to do with it: %v", moved)
	}
}

// TestEither has doubts in which the readings cannot tell what is wrong, and
// what would. All figures are constructed.
func TestEither(t *testing.T) {
	const head = `
oddleg: 1
job: test
kit:
  mic:  {kind: micrometer, resolution: 0.01 mm}
  jaws: {kind: caliper, resolution: 0.01 mm}
  pin6: {kind: pin, size: 6 mm, tolerance: 0.002 mm}
`
	for _, c := range []struct{ name, job, says string }{
		{"one instrument twice", `
sizes: {boss: {kind: diameter, surface: outside}}
readings:
  - {id: a, by: outside, of: {size: boss}, with: mic, saw: 40.00}
  - {id: b, by: outside, of: {size: boss}, with: mic, saw: 40.50}
`, "a further reading of boss, for instance by `over-two-pins` with jaws, would settle it: about 40.000 mm if it is b, about 40.500 mm if it is a"},
		{"two instruments and a pin", `
sizes: {boss: {kind: diameter, surface: outside}}
readings:
  - {id: a, by: outside, of: {size: boss}, with: mic, saw: 40.00}
  - {id: b, by: over-two-pins, of: {wall: boss, pin: pin6}, with: jaws, saw: 52.70}
`, "measure pin6 by itself and look at the zero of mic and jaws: if nothing is wrong there, it is a reading"},
		{"a reading and what was known", `
sizes: {boss: {kind: diameter, surface: outside, known: 41, within: 0.02}}
readings:
  - {id: a, by: outside, of: {size: boss}, with: mic, saw: [40.00, 40.01]}
`, "about 40.005 mm if it is boss as known"},
	} {
		t.Run(c.name, func(t *testing.T) {
			doubts := blunder.Explain(context.Background(), adjusted(t, readJob(t, []byte(head+c.job))))
			if len(doubts) != 1 || !strings.Contains(doubts[0].Settle.Shown(unit.View{}), c.says) {
				t.Fatalf("want %q, got %+v", c.says, doubts)
			}
			for i, other := range doubts[0].Others {
				if math.IsNaN(other) {
					t.Errorf("nothing is said of %+v", doubts[0].Suspects[i])
				}
			}
		})
	}
}

// TestExplainingAnything spoils every reading of every job grossly. Whatever
// comes of it, the probabilities of a doubt are such and add up to 1 at most,
// and the result is left as it was.
func TestExplainingAnything(t *testing.T) {
	count, tried := 0, 0
	for _, w := range worlds(t, "testdata/*.yaml", "../../testdata/jobs/*.yaml", "../../examples/*.yaml") {
		for i := range w.r.Job.Readings {
			for _, factor := range []float64{1 / 25.4, 0.5, 2, 10} {
				if count++; count%rounds(1, 23, 101) != 0 {
					continue
				}
				r := adjusted(t, grossly(w.r.Job, i, factor))
				before := r.Chi2
				for _, d := range blunder.Explain(context.Background(), r) {
					sum := d.Other
					for _, e := range d.Perhaps {
						sum += e.P
						if !(e.P > 0 && e.P <= 1) || e.Text == "" || len(e.Corrected) == 0 {
							t.Errorf("%s, %s × %g: %+v", w.name, w.r.Job.Readings[i].ID, factor, e)
						}
					}
					if !(sum <= 1+1e-9) {
						t.Errorf("%s, %s × %g: probabilities add up to %g", w.name, w.r.Job.Readings[i].ID, factor, sum)
					}
				}
				if tried++; r.Chi2 != before {
					t.Errorf("%s: the result has changed", w.name)
				}
			}
		}
	}
	t.Logf("%d jobs spoilt", tried)
}

// grossly returns a job with one reading's values multiplied.
func grossly(job *trade.Job, reading int, factor float64) *trade.Job {
	job = copied(job)
	saw := job.Readings[reading].Saw
	for i := range saw {
		inside := map[unit.Dimension]unit.Unit{unit.Length: unit.Millimetre, unit.Angle: unit.Radian, unit.Number: unit.One}[saw[i].X.Dimension()]
		if q, err := unit.New(int64(math.Round(saw[i].X.Inside()*factor*1e9)), 1e9, inside); err == nil {
			saw[i].X = q
		}
	}
	return job
}

// BenchmarkExplain explains one slip in the example with 17 values, one in a
// job of 19 readings, and a job with all readings in doubt.
func BenchmarkExplain(b *testing.B) {
	for _, c := range []struct{ name, file, old, new string }{
		{"one slip in 14 readings", "../../examples/cover-plate.yaml", "saw: 57.58", "saw: 57.58"},
		{"one slip in 19 readings", "testdata/ring.yaml", "saw: 72.04", "saw: 71.54"},
		{"twins in 9 readings", "../../examples/index-plunger.yaml", "saw: [7.90, 7.90]", "saw: [21.90, 21.90]"},
	} {
		b.Run(c.name, func(b *testing.B) {
			source, err := os.ReadFile(filepath.FromSlash(c.file))
			if err != nil {
				b.Fatal(err)
			}
			job := readJob(b, []byte(strings.Replace(string(source), c.old, c.new, 1)))
			r, err := adjust.Adjust(job)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if len(blunder.Explain(context.Background(), r)) == 0 {
					b.Fatal("nothing is in doubt")
				}
			}
		})
	}
}

// TestAdviceForAHand: what would tell two set-ups apart is something that can be
// done, and not the method of writing a formula.
func TestAdviceForAHand(t *testing.T) {
	doubts := blunder.Explain(t.Context(), edited(t, "../../../testdata/jobs/idler-gears.yaml", "saw: [0.965, 0.965]", "saw: [1.0615, 1.0615]"))
	if len(doubts) != 1 {
		t.Fatalf("%d doubts", len(doubts))
	}
	said := doubts[0].Settle.Shown(unit.View{})
	if !strings.Contains(said, "a further reading of mate, by a second method or with another gauge piece") || strings.Contains(said, "formula") {
		t.Errorf("it says %q", said)
	}
}
