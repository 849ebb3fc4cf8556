package advise

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestOverviewAgrees asks for a size of every job by Next and of an overview: the best
// new reading with the kit at hand promises the same, to what counts as alike.
func TestOverviewAgrees(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 7))
	compared := 0
	for _, job := range onFile(t) {
		r := adjusted(t, job)
		if contradicts(r) {
			continue
		}
		targets := Targets(job)
		id := targets[random.IntN(len(targets))]
		want, got := leastOfNew(Next(t.Context(), r, Options{For: id})), leastOfNew(LookOver(t.Context(), r).Of(id, 0, anyOfThem))
		if math.IsInf(want, 0) {
			continue
		}
		if !(math.Abs(got-want) <= alike*want) {
			t.Errorf("%s, %s: the overview promises %g, Next %g", job.Name, id, got, want)
		}
		compared++
	}
	if compared < 25 {
		t.Errorf("only %d sizes compared", compared)
	}
}

func anyOfThem(*Candidate) bool { return true }

// leastOfNew returns the least uncertainty that a new reading promises which
// borrows nothing, +Inf where there is none.
func leastOfNew(a *Advice) float64 {
	least := math.Inf(1)
	for _, c := range a.Best {
		if !c.Again && c.Borrow == nil && c.Then.Determined {
			least = min(least, c.Then.U)
		}
	}
	return least
}
