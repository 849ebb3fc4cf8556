package blunder

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// TestCounts holds the table of pieces against the catalogue: each method and
// role is there, is a gauge piece's, and moves the reading the same way; where
// the reading follows the piece alone, by just as much.
func TestCounts(t *testing.T) {
	for id, roles := range counts {
		method, ok := gauge.Find(id)
		if !ok {
			t.Errorf("there is no method %s", id)
			continue
		}
		for name, count := range roles {
			role := method.Role(name)
			if role < 0 || !method.Roles[role].Piece {
				t.Errorf("%s: %s is no piece's role", id, name)
				continue
			}
			args := make(gauge.Args, len(method.Example))
			for i, x := range method.Example {
				args[i] = grad.Const(x)
			}
			args[role] = grad.Var(method.Example[role], 0)
			slope := method.Model(args).D[0]
			if twoTips := id == "thread-ball-tips"; slope*count <= 0 && !twoTips {
				t.Errorf("%s: the reading moves by %.3f times %s, not %g", id, slope, name, count)
			}
			if alone := math.Abs(slope) == 0.5 || math.Abs(slope) == 1 || math.Abs(slope) == 2; alone && slope != count {
				t.Errorf("%s: %s counts %g times, not %g", id, name, slope, count)
			}
		}
	}
}

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
