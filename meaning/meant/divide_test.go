package meant

import (
	"math/rand/v2"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/testdata/largejob"
)

// TestNoPairIsPassedOver: whatever two sizes of a large job are correlated, made
// more or less closely than they were read, both are among those looked at.
func TestNoPairIsPassedOver(t *testing.T) {
	r, err := adjust.Adjust(largejob.Make(120, 20261201, largejob.Options{}).Job())
	if err != nil {
		t.Fatal(err)
	}
	j := gather(r, Tables{})
	random := rand.New(rand.NewPCG(20261201, 1))
	for i := range j.asked {
		a := &j.asked[i]
		a.scatter.variance = a.u * a.u * (1 + 20*random.Float64()*random.Float64())
	}
	roughly := j.readRoughly()
	pairs := 0
	for i := range j.asked {
		for k := range i {
			if !j.correlated(i, k) {
				continue
			}
			pairs++
			if !slices.Contains(roughly, i) || !slices.Contains(roughly, k) {
				t.Errorf("%s and %s are correlated and passed over", j.asked[i].size.ID, j.asked[k].size.ID)
			}
		}
	}
	if pairs == 0 || len(roughly) == len(j.asked) {
		t.Errorf("%d pairs among %d of %d sizes: nothing is put to the test", pairs, len(roughly), len(j.asked))
	}
}
