package blunder

import "testing"

// TestPriors has a prior for every kind, and a share of it for every way.
func TestPriors(t *testing.T) {
	for _, kind := range Kinds {
		if !(priors[kind] > 0) {
			t.Errorf("%s has no prior", kind)
		}
	}
	if len(priors) != len(Kinds) {
		t.Errorf("%d priors for %d kinds", len(priors), len(Kinds))
	}
}
