package survey_test

import (
	"math"
	"os"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
	"codeberg.org/oddleg/oddleg/testdata/surveytest"
)

// TestOracle holds every survey against testdata/oracle/upkeep.py: values
// to 1e-8 mm or rad, uncertainties to six digits.
func TestOracle(t *testing.T) {
	program := oracle.Python(t, "scipy", "yaml")
	source, err := os.ReadFile("../../testdata/jobs/worn-slides.yaml")
	if err != nil {
		t.Fatal(err)
	}
	wanted := oracle.Answer[map[string]map[string][2]float64](t, program, source, oracle.Script(t, "upkeep.py"))
	job, err := jobfile.Read("", source)
	if err != nil {
		t.Fatal(err)
	}
	r, err := upkeep.Judge(job)
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for i := range r.Answers {
		a := &r.Answers[i]
		if len(wanted[a.Survey.ID]) == 0 {
			t.Errorf("the oracle works out no %s, a survey of kind %s", a.Survey.ID, a.Kind.Name)
		}
		for key, want := range wanted[a.Survey.ID] {
			compared++
			f := surveytest.Figure(t, a, key)
			if math.Abs(f.Value-want[0]) > 1e-8 || math.Abs(f.U-want[1]) > 1e-6*want[1] {
				t.Errorf("%s, %s: %.10g ± u %.8g, the oracle has %.10g ± %.8g", a.Survey.ID, key, f.Value, f.U, want[0], want[1])
			}
		}
	}
	if compared < 30 {
		t.Errorf("only %d figures were compared", compared)
	}
}
