package adjust

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Whole returns how all the values of a reading in use stand together: the
// test of an error that they share, as of a wrong pin or a turn misread each
// time, of which the test of each value by itself sees little. Its residual is
// the mean of theirs. It returns the test of what nothing checks where no value
// is in use.
func (r *Result) Whole(id string) Test {
	f := r.found
	c := charge(f.members[id])
	test := Test{SmallestCatchable: math.Inf(1)}
	n := float64(len(c))
	for _, k := range c {
		test.Residual -= f.Misclosures[k] / n
	}
	shared := f.shared(c, c)
	if !(shared > n*leastShared) {
		return test
	}
	test.Redundancy, test.Normalised = shared/n, -f.against(c)
	own := math.Sqrt(f.Redundancy[c[0]] / shared)
	test.SmallestCatchable = f.SmallestCatchable(c[0], testLevel, testPower) * own
	return test
}

// Nearby is Refit for one of many jobs that are tried: it looks nowhere but
// near what r found without its suspects. It returns false where the job does
// not settle there.
func (r *Result) Nearby(job *trade.Job) (*Result, bool) {
	m := compile(job)
	t, err := (&search{m: m, active: all(len(m.observations))}).from(m.carry(r.found))
	if err != nil || !t.Converged {
		return nil, false
	}
	return m.result(t, &verdict{suspect: make([]bool, len(m.observations))}), true
}
