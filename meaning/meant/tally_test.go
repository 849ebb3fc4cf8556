package meant_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/show/report"
)

const bound99 = 3.2905267314919255 // 99.9 % two-sided

// tally gathers statements with a probability, and how often they were true, by
// deciles of the probability. Statements of one job hang together, and the
// bounds come from the scatter of the jobs.
type tally struct {
	deciles [10]decile
}

// decile holds the statements of one range of probability.
type decile struct {
	cases           float64
	promised, right float64
	here            float64 // right less promised, of the job at hand
	squares, jobs   float64
}

// says counts a statement.
func (t *tally) says(p float64, right bool) {
	d := &t.deciles[min(int(10*p), 9)]
	d.cases++
	d.promised += p
	d.here -= p
	if right {
		d.right++
		d.here++
	}
}

// answer counts every candidate of an answer, and that there is none.
func (t *tally) answer(answer meant.Size, was truth) {
	for _, c := range answer.Candidates {
		t.says(c.P, was.round && math.Abs(c.Value-was.n) < 1e-6)
	}
	t.says(answer.NoRound, !was.round)
}

// job ends a job.
func (t *tally) job() {
	for i := range t.deciles {
		d := &t.deciles[i]
		d.squares += d.here * d.here
		d.jobs++
		d.here = 0
	}
}

// bound returns the 99.9 % bound of the part that is right.
func (d *decile) bound() float64 {
	excess := d.right - d.promised
	return bound99 * math.Sqrt(d.squares-excess*excess/d.jobs) / d.cases
}

// check fails where a decile of 100 cases or more breaks its promise.
func (t *tally) check(tt *testing.T, what string) {
	tt.Helper()
	for i, d := range t.deciles {
		if d.cases < 100 {
			continue
		}
		promised, right := d.promised/d.cases, d.right/d.cases
		tt.Logf("%s, %.1f to %.1f: %6.0f cases, promised %.4f, right %.4f, bound ± %.4f", what, float64(i)/10, float64(i+1)/10, d.cases, promised, right, d.bound())
		if math.Abs(promised-right) > d.bound() {
			tt.Errorf("%s: given %.3f, %.3f are right: more than %.3f off", what, promised, right, d.bound())
		}
	}
}

// promises returns the deciles that hold enough cases to tell.
func (t *tally) promises() []report.Promise {
	var list []report.Promise
	for _, d := range t.deciles {
		if d.cases >= 100 {
			list = append(list, report.Promise{Promised: d.promised / d.cases, Kept: d.right / d.cases, Bound: d.bound()})
		}
	}
	return list
}

// draw writes the promises as a chart: of a long run beside the other evidence,
// of any other into the test's own folder.
func (t *tally) draw(tt *testing.T, title string) {
	tt.Helper()
	file := filepath.Join(tt.TempDir(), "calibration.svg")
	if os.Getenv("ODDLEG_LONG") != "" {
		file = filepath.Join("..", "docs", "evidence", "calibration.svg")
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		tt.Fatal(err)
	}
	if err := os.WriteFile(file, report.PromisesChart(title, t.promises()), 0o666); err != nil {
		tt.Fatal(err)
	}
	tt.Logf("promised against kept is drawn in %s", file)
}
