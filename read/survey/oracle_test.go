package survey_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/testdata/surveytest"
)

// python is Debian's own: another may come first on the path.
const python = "/usr/bin/python3"

// needOracle skips the test where scipy and yaml are not installed, and fails it where
// that is not allowed.
func needOracle(t *testing.T) {
	t.Helper()
	if exec.Command(python, "-c", "import scipy, yaml").Run() == nil {
		return
	}
	const missing = "the independent solver needs the Debian packages python3-scipy and python3-yaml"
	if os.Getenv("CI") == "true" {
		t.Fatal(missing)
	}
	t.Skip(missing)
}

// TestOracle holds every survey against testdata/oracle/upkeep.py: values
// to 1e-8 mm or rad, uncertainties to six digits.
func TestOracle(t *testing.T) {
	needOracle(t)
	source, err := os.ReadFile("../../testdata/jobs/worn-slides.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var wanted map[string]map[string][2]float64
	askOracle(t, source, &wanted)
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

func askOracle(t *testing.T, source []byte, answer any) {
	t.Helper()
	command := exec.Command(python, "../../testdata/oracle/upkeep.py")
	command.Stdin = bytes.NewReader(source)
	var complaints bytes.Buffer
	command.Stderr = &complaints
	out, err := command.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, complaints.String())
	}
	if err := json.Unmarshal(out, answer); err != nil {
		t.Fatal(err)
	}
}
