package adjust

import (
	"errors"
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/num/lsq"
)

// TestTwoPathsAgree solves every job by orthogonal factors and by normal
// equations with multipliers: the same values, uncertainties and chi-square.
func TestTwoPathsAgree(t *testing.T) {
	compared := 0
	for _, w := range worlds(t) {
		problem := lsq.Problem{Start: w.truth, Constraints: w.model.constraints}
		for _, o := range w.model.observations {
			problem.Observations = append(problem.Observations, lsq.Observation{Equation: o.equation, Sigma: o.sigma})
		}
		one, err := lsq.Solve(problem)
		if err != nil {
			t.Fatal(w.name, err)
		}
		other, err := lsq.SolveByNormals(problem)
		if errors.Is(err, lsq.ErrRank) {
			continue // a relation of it follows from others, which the second path does not take
		}
		if err != nil {
			t.Fatal(w.name, err)
		}
		compared++
		for j, x := range one.X {
			u, v := math.Sqrt(one.Cofactor(j, j)), math.Sqrt(other.Cofactor(j, j))
			if math.Abs(x-other.X[j]) > 1e-6*u || math.Abs(u-v) > 1e-6*u {
				t.Errorf("%s: %v is %.9g, u %.6g by one path, %.9g, u %.6g by the other", w.name, w.model.unknowns[j], x, u, other.X[j], v)
			}
		}
		if math.Abs(one.Chi2-other.Chi2) > 1e-6*one.Chi2 || one.Dof != other.Dof {
			t.Errorf("%s: chi-square %g on %d by one path, %g on %d by the other", w.name, one.Chi2, one.Dof, other.Chi2, other.Dof)
		}
	}
	if compared < 25 {
		t.Errorf("only %d jobs were compared", compared)
	}
}
