package oddleg_test

import (
	"os"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// ending is a test that tells how it was ended.
type ending struct {
	testing.TB
	skipped, failed bool
	text            string
}

func (e *ending) Helper() {}

func (e *ending) Skip(args ...any) { e.skipped, e.text = true, args[0].(string); panic(e) }

func (e *ending) Fatal(args ...any) { e.failed, e.text = true, args[0].(string); panic(e) }

func (e *ending) Fatalf(format string, _ ...any) { e.failed, e.text = true, format; panic(e) }

// ended runs part of a test until it is ended.
func ended(part func(t testing.TB)) (e *ending) {
	e = &ending{}
	defer func() {
		if said := recover(); said != nil && said != any(e) {
			panic(said)
		}
	}()
	part(e)
	return e
}

// TestMissingPrograms: what is missing is a skip on a bare machine, and a failure where all
// should be there.
func TestMissingPrograms(t *testing.T) {
	for _, ci := range []string{"", "true"} {
		t.Setenv("CI", ci)
		for name, part := range map[string]func(t testing.TB){
			"program": func(t testing.TB) { oracle.Find(t, "no-such-program", "nothing") },
			"module":  func(t testing.TB) { oracle.Python(t, "nothing") },
		} {
			e := ended(part)
			if e.failed != (ci == "true") || e.skipped == e.failed || !strings.Contains(e.text, "nothing") {
				t.Errorf("CI=%q, %s: %+v", ci, name, e)
			}
		}
	}
}

// TestAnswersOfPrograms: as many answers as questions, in JSON both, or the test ends.
func TestAnswersOfPrograms(t *testing.T) {
	const doubles = "import json, sys; json.dump([2 * x for x in json.load(sys.stdin)][int(sys.argv[1]):], sys.stdout)"
	p := oracle.Python(t)
	if got := oracle.Answers[float64](t, p, []int{3, 4}, "-c", doubles, "0"); got[0] != 6 || got[1] != 8 {
		t.Errorf("doubled, 3 and 4 are %v", got)
	}
	for name, part := range map[string]func(t testing.TB){
		"an answer too few": func(t testing.TB) { oracle.Answers[float64](t, p, []int{3, 4}, "-c", doubles, "1") },
		"no JSON":           func(t testing.TB) { oracle.Answer[[]int](t, p, nil, "-c", "print('six')") },
		"a mishap":          func(t testing.TB) { p.Output(t, nil, "-c", "raise SystemExit(1)") },
	} {
		if e := ended(part); !e.failed {
			t.Errorf("%s passes", name)
		}
	}
}

// TestScriptsAreThere, seen from any room.
func TestScriptsAreThere(t *testing.T) {
	if _, err := os.Stat(oracle.Script(t, "adjust.py")); err != nil {
		t.Error(err)
	}
}
